"""How much of the plan was given in the last three weeks or fifteen planned lessons, whichever is longer."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta
from itertools import groupby
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Container, Iterator, Sequence
    from datetime import date

    from dayleaf.advising.shared import PlannedDay, SharedRecords

WEEKS: Final = timedelta(days=21)
LESSONS: Final = 15
LONGEST: Final = timedelta(days=60)
LEAST: Final = 8
"""Planned lessons below which nothing is said."""
FULL: Final = 0.9
AWAY: Final = 3
"""So many planned days in a row without any record are an absence (illness, a visit), not a pace; one is left out."""


@dataclass(frozen=True, slots=True)
class Window:
    """The planned lessons looked at, without the longest absence; `away` counts its days."""

    first: date
    last: date
    planned: tuple[PlannedDay, ...]
    away: int


def pace_window(shared: SharedRecords, as_of: date) -> Window | None:
    """The window that ends before `as_of`; None where too little was planned, shared or recorded to say anything."""
    if shared.plan is None or shared.progress is None:
        return None
    planned = [one for one in shared.plan.then if one.day < as_of]
    if len(planned) < LEAST or planned[0].day > as_of - WEEKS:
        return None
    there = {day for day in shared.progress.there if day < as_of}.difference(shared.progress.away)
    there |= {one.day for one in shared.progress.taught if one.day < as_of and one.how_far != "not today"}
    looked_at = [one for one in planned if one.day >= as_of - LONGEST]
    absence = max(_absences(looked_at[-2 * LESSONS :], there), key=len, default=())
    kept = [one for one in looked_at if one.day not in absence]
    if len(kept) < LEAST:
        return None
    first = min(as_of - WEEKS, kept[-LESSONS:][0].day)
    inside = tuple(one for one in kept if one.day >= first)
    return Window(first, as_of, inside, len(absence)) if there and inside[-1].day >= as_of - WEEKS else None


def _absences(planned: Sequence[PlannedDay], there: Container[date]) -> Iterator[tuple[date, ...]]:
    for here, run in groupby(sorted({one.day for one in planned}), key=lambda day: day in there):
        days = tuple(run)
        if not here and len(days) >= AWAY:
            yield days


def slow_throughout(shared: SharedRecords, window: Window) -> bool:
    """Whether lessons are missing in both halves of the window: one bad week alone is no pace."""
    middle = window.planned[len(window.planned) // 2].day
    halves = (
        Window(window.first, middle, tuple(one for one in window.planned if one.day < middle), 0),
        Window(middle, window.last, tuple(one for one in window.planned if one.day >= middle), 0),
    )
    return all(credit_of(shared, half) < FULL * len(half.planned) for half in halves)


def credit_of(shared: SharedRecords, window: Window) -> float:
    """Lessons given in the window: one for each day on which a lesson was done, a half for one that stayed half done.

    A lesson whose sheet was marked counts once although nobody said that it was done, and so does a planned day of
    which only the child's being there is known.
    """
    progress = shared.progress
    if progress is None:
        return 0.0
    taught = [one for one in progress.taught if window.first <= one.day < window.last]
    done = {(one.lesson, one.day) for one in taught if one.how_far == "done"}
    finished = {lesson for lesson, _ in done}
    halves = {one.lesson for one in taught if one.how_far == "half"} - finished
    said = {one.lesson for one in taught}
    earlier = {one.lesson for one in progress.taught if one.day < window.first and one.how_far == "done"}
    sheets = [one for one in progress.marked if window.first <= one.day < window.last]
    marked = {one.lesson for one in sheets} - said - earlier
    spoken_for = {one.day for one in taught} | {one.day for one in sheets}
    present = (set(progress.there) - spoken_for - set(progress.away)).intersection(one.day for one in window.planned)
    return len(done) + len(halves) / 2 + len(marked) + len(present)
