"""Answers to questions asked aloud, as typed on the command line."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from dayleaf.core.errors import BadInput, Problem
from dayleaf.core.ids import SkillId

if TYPE_CHECKING:
    from collections.abc import Container


def answers_given(text: str, skills: Container[str]) -> tuple[tuple[SkillId, bool], ...]:
    """The answers of `[{"skill": "…", "correct": true}, …]`; raises BadInput naming all that cannot be read."""
    try:
        given = json.loads(text)
    except ValueError:
        raise BadInput([Problem("--answers", "is not JSON; write a list of objects with skill and correct")]) from None
    found: list[tuple[SkillId, bool]] = []
    problems: list[Problem] = []
    for n, one in enumerate(given if isinstance(given, list) else [given], start=1):
        skill = one.get("skill") if isinstance(one, dict) else None
        if not isinstance(skill, str) or skill not in skills or not isinstance(one.get("correct"), bool):
            problems.append(Problem(f"--answers {n}", "name a skill of the course, and correct: true or false"))
        else:
            found.append((SkillId(skill), one["correct"]))
    if problems:
        raise BadInput(problems)
    return tuple(found)
