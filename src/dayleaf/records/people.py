"""Who is in the household: writes about the household and its children."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.db import transaction

from dayleaf.core.errors import BadInput, Problem
from dayleaf.records.models import BOXES, HANDS, PAPERS, SHEETS_PER_DAY, CacheRow, Household, Learner
from dayleaf.records.naming import name_problems, zone_problems
from dayleaf.records.services import new_id

if TYPE_CHECKING:
    from datetime import date, time

PAPER_CACHES = "back of "
"""Caches that depend on how much room the child's paper has."""


@transaction.atomic
def household_create(
    *,
    name: str,
    time_zone: str = "UTC",
    language: str = "en",
    paper: str = "letter",
    younger_child: bool = False,
    morning_start: time | None = None,
    id: str | None = None,  # noqa: A002 -- it is the row's own name for it
) -> Household:
    """A new household. Raises `BadInput` with all problems."""
    problems = [*name_problems("name", name, longest=80), *zone_problems("time zone", time_zone)]
    if paper not in PAPERS:
        problems.append(Problem("paper", f"{paper!r} is not a paper we print on; choose {' or '.join(PAPERS)}"))
    if problems:
        raise BadInput(problems)
    return Household.objects.create(
        id=id or new_id(),
        name=name.strip(),
        time_zone=time_zone,
        language=language,
        paper=paper,
        younger_child=younger_child,
        morning_start=morning_start,
    )


@transaction.atomic
def learner_add(
    *,
    household: Household,
    name: str,
    born: date | None = None,
    hand: str = "right",
    boxes: str = "standard",
    sheets_per_day: str = "as the course says",
    course: str = "grade2",
    id: str | None = None,  # noqa: A002 -- it is the row's own name for it
) -> Learner:
    """A new child of the household. Raises `BadInput` with all problems."""
    problems = [
        *name_problems("name", name, longest=40),
        *_paper_problems(hand=hand, boxes=boxes, sheets_per_day=sheets_per_day),
    ]
    taken = {learner.name.casefold() for learner in household.learners.all()}
    if name.strip().casefold() in taken:
        problems.append(Problem("name", f"{name.strip()} is there already; add a letter to tell the two apart"))
    if problems:
        raise BadInput(problems)
    return Learner.objects.create(
        household=household,
        id=id or new_id(),
        name=name.strip(),
        born=born.replace(day=1) if born else None,
        hand=hand,
        boxes=boxes,
        sheets_per_day=sheets_per_day,
        course=course,
        place=len(taken),
    )


@transaction.atomic
def learner_paper(*, learner: Learner, hand: str, boxes: str, sheets_per_day: str, fewer_items: bool) -> Learner:
    """How this child's pages look from the next print on. Raises `BadInput` with all problems."""
    problems = _paper_problems(hand=hand, boxes=boxes, sheets_per_day=sheets_per_day)
    if problems:
        raise BadInput(problems)
    learner.hand, learner.boxes, learner.sheets_per_day, learner.fewer_items = hand, boxes, sheets_per_day, fewer_items
    learner.save(update_fields=["hand", "boxes", "sheets_per_day", "fewer_items"])
    CacheRow.objects.filter(learner=learner, kind__startswith=PAPER_CACHES).delete()
    return learner


def _paper_problems(*, hand: str, boxes: str, sheets_per_day: str) -> list[Problem]:
    chosen = (("hand", hand, HANDS), ("boxes", boxes, BOXES), ("sheets a day", sheets_per_day, SHEETS_PER_DAY))
    return [
        Problem(where, f"{value!r} is not one of {', '.join(known)}")
        for where, value, known in chosen
        if value not in known
    ]
