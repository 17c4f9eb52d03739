"""A year of lessons on a family's days: which lesson when, or an honest no."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from typing import TYPE_CHECKING

from dayleaf.core.errors import DayleafError
from dayleaf.plan.calendar import learning_days
from dayleaf.plan.ways_out import WayOut, shorten, ways_out

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from datetime import date

    from dayleaf.core.ids import CourseId, LessonId
    from dayleaf.course.model import Day
    from dayleaf.plan.calendar import LearningCalendar


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


class NotEnoughDays(DayleafError):
    """The calendar has fewer learning days than the lessons need."""

    def __init__(self, *, needed: int, available: int) -> None:
        self.needed, self.available = needed, available
        super().__init__(f"{needed} lessons do not fit in {available} learning days.")


@dataclass(frozen=True, slots=True)
class Placed:
    """One lesson on one day."""

    lesson: LessonId
    day: date


@dataclass(frozen=True, slots=True)
class YearPlan:
    """A plan that fits: every lesson in course order, two on one day only where they were joined.

    A plan never changes; another plan is another value. What was done lives in the events, not here.
    """

    course: CourseId
    calendar: LearningCalendar
    placed: tuple[Placed, ...]
    left_out: tuple[LessonId, ...] = ()

    @property
    def first(self) -> date:
        """The day of the first lesson, or the calendar's start where there is none."""
        return self.placed[0].day if self.placed else self.calendar.start

    @property
    def last(self) -> date:
        """The day of the last lesson, or the calendar's start where there is none."""
        return self.placed[-1].day if self.placed else self.calendar.start

    def lessons_on(self, day: date) -> tuple[LessonId, ...]:
        """The lessons of a day: none on a day off, two where two were joined.

        Raises:
            DateOutsideYear: the day lies before the calendar's start or after the last lesson.
        """
        if not self.calendar.start <= day <= self.last:
            raise DateOutsideYear(day=day, first=self.calendar.start, last=self.last)
        return tuple(placed.lesson for placed in self.placed if placed.day == day)

    def lesson_on(self, day: date) -> LessonId | None:
        """The day's (first) lesson, None on a day off. Raises `DateOutsideYear` as `lessons_on` does."""
        return next(iter(self.lessons_on(day)), None)

    def date_of(self, lesson: LessonId) -> date:
        """The day of a lesson.

        Raises:
            LessonNotPlanned: the plan leaves it out, or it is no lesson of this course.
        """
        for placed in self.placed:
            if placed.lesson == lesson:
                return placed.day
        raise LessonNotPlanned(lesson)

    def next_days(self, day: date, n: int) -> tuple[Placed, ...]:
        """What is planned on the next `n` days with lessons after `day`; fewer at the end of the year."""
        after = self.placed[bisect_right(self.placed, day, key=lambda placed: placed.day) :]
        days = sorted({placed.day for placed in after})[:n]
        return tuple(placed for placed in after if placed.day in days)


@dataclass(frozen=True, slots=True)
class NoPlan:
    """The lessons do not fit: how many days they need, how many there are, and what would help.

    `first_left_over` is the first lesson without a day. `ways` are the ways out that were tried and work.
    """

    needed: int
    available: int
    first_left_over: LessonId
    ways: tuple[WayOut, ...]

    def error(self) -> NotEnoughDays:
        """The same as an error, for a caller that cannot go on without a plan."""
        return NotEnoughDays(needed=self.needed, available=self.available)


def plan_year(
    lessons: Sequence[Day], calendar: LearningCalendar, *, course: CourseId, short: bool = False
) -> YearPlan | NoPlan:
    """Lay the lessons on the learning days, in order, one a day.

    With `short`, lessons marked as droppable are left out and those marked so share a day with the next
    one (JOB 1.4: 180 days become 144). A test follows its look back on the next learning day, because
    nothing stands between them in the course.
    """
    plan = shorten(lessons) if short else tuple((day.id,) for day in lessons)
    days = [learning.day for learning in learning_days(calendar)]
    if len(plan) > len(days):
        return NoPlan(
            needed=len(plan),
            available=len(days),
            first_left_over=plan[len(days)][0],
            ways=ways_out(lessons, calendar, short=short),
        )
    placed = tuple(
        Placed(lesson=lesson, day=day) for day, together in zip(days, plan, strict=False) for lesson in together
    )
    kept = {one.lesson for one in placed}
    return YearPlan(
        course=course,
        calendar=calendar,
        placed=placed,
        left_out=tuple(day.id for day in lessons if day.id not in kept),
    )


def slide(plan: YearPlan, missed: Iterable[date]) -> YearPlan | NoPlan:
    """The plan after days on which nothing could be done: everything from the first of them on moves later.

    Lessons keep their order and their partners on a joined day; days before the first missed day stay as
    they are. The calendar stays as the family gave it, so days missed earlier and later are given together.
    """
    lost = set(missed)
    from_day = min((day for day in lost if plan.first <= day <= plan.last), default=None)
    if from_day is None:
        return plan
    kept = tuple(placed for placed in plan.placed if placed.day < from_day)
    moving = plan.placed[len(kept) :]
    groups: dict[date, list[LessonId]] = {}
    for placed in moving:
        groups.setdefault(placed.day, []).append(placed.lesson)
    free = [one.day for one in learning_days(plan.calendar) if one.day >= from_day and one.day not in lost]
    if len(groups) > len(free):
        done = len({placed.day for placed in kept})
        return NoPlan(
            needed=done + len(groups),
            available=done + len(free),
            first_left_over=list(groups.values())[len(free)][0],
            ways=(),
        )
    moved = tuple(
        Placed(lesson=lesson, day=day) for day, group in zip(free, groups.values(), strict=False) for lesson in group
    )
    return YearPlan(course=plan.course, calendar=plan.calendar, placed=kept + moved, left_out=plan.left_out)
