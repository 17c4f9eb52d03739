"""A family's own page, marked by count: how many there were, which were wrong, and which skills those belong to."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from dayleaf.core.errors import BadInput, Problem
from dayleaf.core.ids import FormatId, SheetId, SkillId
from dayleaf.course.load import grade2
from dayleaf.events.model import ItemMark, Marked
from dayleaf.records import desk, services
from dayleaf.records.coming import lesson_named

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date, datetime

    from dayleaf.course.model import Day
    from dayleaf.records.models import Learner

MOST: Final = 100
OWN: Final = FormatId("own")
"""The format of an item of a family's own book: we know its number and nothing else."""


def own_page_mark(
    *,
    learner: Learner,
    lesson: str,
    of: int,
    wrong: str = "",
    skills: str = "",
    today: date,
    at: datetime | None = None,
) -> Marked:
    """Keep the marks of a page of the family's own book: `of` items, the wrong ones "3,7" or "3=sub-2digit-regroup".

    An item belongs to the skill written beside its number; else to the lesson's confirmed skills, or those of `skills`,
    in equal shares along the page. One read off no sheet of ours has no answer and no error way.

    Raises:
        BadInput: with every problem; nothing was written.
        NoSuchLesson: there is no such lesson.
    """
    day = lesson_named(lesson)
    named, problems = _named(wrong, of)
    wanted = [SkillId(one) for one in re.split(r"[\s,]+", skills) if one] or list(_skills(day))
    unknown = [one for one in (*wanted, *filter(None, named.values())) if one not in grade2().skills]
    problems += [Problem("skills", f"“{one}” is no skill; `dayleaf items --list` names them all") for one in unknown]
    if not wanted and len([one for one in named.values() if one]) < of:
        problems.append(
            Problem("skills", f"{day.id} has no skill; name what the page practised, or confirm the outline")
        )
    if problems:
        raise BadInput(problems)
    items = tuple(
        ItemMark(
            n,
            named.get(n) or wanted[(n - 1) * len(wanted) // of],
            OWN,
            f"own/{day.id}/{n}",
            "wrong" if n in named else "right",
            None,
            helped=False,
            errors=(),
        )
        for n in range(1, of + 1)
    )
    event = Marked(services.head(learner, day=today, at=at), SheetId(""), day.id, items)
    services.event_append(household=learner.household, event=event)
    desk.refresh(learner, today=today)
    return event


def _skills(day: Day) -> Sequence[SkillId]:
    return day.front_skills or day.new_skills


def _named(wrong: str, of: int) -> tuple[dict[int, SkillId | None], list[Problem]]:
    """The numbers of the wrong items, each with the skill written beside it, if any."""
    problems: list[Problem] = []
    if not 0 < of <= MOST:
        problems.append(Problem("of", f"{of} is no count of items; a page has 1 to {MOST}"))
    found: dict[int, SkillId | None] = {}
    for part in re.split(r"[\s,;]+", wrong.strip()):
        if not part:
            continue
        number, _, skill = part.partition("=")
        if not number.isdecimal() or not 0 < int(number) <= of:
            problems.append(Problem("wrong", f"“{part}” is no item of a page with {of}; write such as 3,7"))
            continue
        found[int(number)] = SkillId(skill) if skill else None
    return found, problems
