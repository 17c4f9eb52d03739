"""What may be a name: checked when it is entered, because it will stand on paper."""

from __future__ import annotations

import unicodedata
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from dayleaf.core.errors import Problem
from dayleaf.sheets.fonts import unprintable


def name_problems(where: str, name: str, *, longest: int) -> list[Problem]:
    """What keeps `name` from being used; empty where nothing does."""
    name = name.strip()
    if not name:
        return [Problem(where, "it is empty; write a name, a nickname is enough")]
    problems = []
    if len(name) > longest:
        problems.append(Problem(where, f"it has {len(name)} signs; use at most {longest}"))
    if any(unicodedata.category(sign) in {"Cc", "Cf", "Zl", "Zp"} for sign in name):
        problems.append(Problem(where, "it holds signs that cannot be seen; type it again by hand"))
    elif signs := unprintable(name):
        problems.append(Problem(where, f"our fonts cannot print {' '.join(signs)}; write the name in other letters"))
    return problems


def zone_problems(where: str, zone: str) -> list[Problem]:
    """Whether the time zone is one that this computer knows (the tz database's names)."""
    try:
        ZoneInfo(zone)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        return [Problem(where, f"{zone!r} is not a time zone we know; write it as Europe/Paris or America/Chicago")]
    return []
