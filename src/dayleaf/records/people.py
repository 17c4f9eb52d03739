"""Who is in the household: writes about the household and its children."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.db import transaction

from dayleaf.core.errors import BadInput, Problem
from dayleaf.records.models import BOXES, HANDS, PAPERS, SHEETS_PER_DAY, WEEK_STARTS, CacheRow, Household, Learner
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
def household_set(
    *, household: Household, paper: str, week_start: int, morning_start: time | None, younger_child: bool
) -> Household:
    """What holds for the whole household from now on. Raises `BadInput` with all problems."""
    problems = []
    if paper not in PAPERS:
        problems.append(Problem("paper", f"{paper!r} is not a paper we print on; choose {' or '.join(PAPERS)}"))
    if week_start not in WEEK_STARTS:
        problems.append(Problem("week start", "a week begins on Monday, Saturday or Sunday"))
    if problems:
        raise BadInput(problems)
    household.paper, household.week_start = paper, week_start
    household.morning_start, household.younger_child = morning_start, younger_child
    household.save(update_fields=["paper", "week_start", "morning_start", "younger_child"])
    CacheRow.objects.filter(learner__household=household, kind__startswith=PAPER_CACHES).delete()
    return household


@transaction.atomic
def passphrase_forgotten(household: Household) -> None:
    """Take the passphrase away: whoever can reach the folder may, for it never locked the folder."""
    household.passphrase = ""
    household.save(update_fields=["passphrase"])


@transaction.atomic
def learner_born(*, learner: Learner, born: date | None) -> Learner:
    """Keep the month of birth, or that it is not kept: pauses of the morning go by age."""
    learner.born = born.replace(day=1) if born else None
    learner.save(update_fields=["born"])
    return learner


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
