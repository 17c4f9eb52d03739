"""Lessons on days: what every plan is made of, and what can be asked of one that it does not hold."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from dayleaf.core.errors import DayleafError

if TYPE_CHECKING:
    from datetime import date

    from dayleaf.core.ids import LessonId


class DateOutsideYear(DayleafError):
    """A date before the first or after the last day of the plan."""

    def __init__(self, *, day: date, first: date, last: date) -> None:
        self.day, self.first, self.last = day, first, last
        super().__init__(f"{day} lies outside this year's plan, which runs from {first} to {last}.")


class LessonNotPlanned(DayleafError):
    """The plan has no day for this lesson."""

    def __init__(self, lesson: LessonId) -> None:
        self.lesson = lesson
        super().__init__(f"There is no day for {lesson} in this plan.")


@dataclass(frozen=True, slots=True)
class Placed:
    """One lesson on one day."""

    lesson: LessonId
    day: date
