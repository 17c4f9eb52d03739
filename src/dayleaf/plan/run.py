"""One child on one course through one year, and what a plan says of it."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from dayleaf.plan.wishes import Rules, Wishes
from dayleaf.plan.year import DateOutsideYear, LessonNotPlanned

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import date

    from dayleaf.core.ids import CourseId, LearnerId, LessonId
    from dayleaf.plan.calendar import LearningCalendar
    from dayleaf.plan.lessons import PlanLesson
    from dayleaf.plan.year import Placed

SPREAD_PERCENT = 70
"""How much of the free days is spread through the year; the rest waits at its end (DESIGN 7)."""


@dataclass(frozen=True, slots=True)
class CourseRun:
    """A child's way through a course: all lessons in order, those done with their dates, and the days there are.

    `firm` lessons hold nothing new for this child.
    `may_join` and `may_leave_out` allow what the course says may be joined or left out when days are short.
    `spread_percent` of the free days are spread through the year. Days before `not_before` are past: nothing is
    planned there.
    """

    learner: LearnerId
    course: CourseId
    lessons: tuple[PlanLesson, ...]
    calendar: LearningCalendar
    done: tuple[Placed, ...] = ()
    not_before: date | None = None
    wished_end: date | None = None
    firm: tuple[LessonId, ...] = ()
    may_join: bool = False
    may_leave_out: bool = False
    spread_percent: int = SPREAD_PERCENT


@dataclass(frozen=True, slots=True)
class RunPlan:
    """A run with a date for every lesson that is not left out, in order; those done are among them.

    A plan never changes; another plan is another value.
    """

    run: CourseRun
    placed: tuple[Placed, ...]
    left_out: tuple[LessonId, ...] = ()

    @property
    def first(self) -> date:
        """The day of the first lesson, or the calendar's start where there is none."""
        return self.placed[0].day if self.placed else self.run.calendar.start

    @property
    def last(self) -> date | None:
        """The day of the last lesson."""
        return self.placed[-1].day if self.placed else None

    @property
    def dates(self) -> dict[LessonId, date]:
        """The date of each lesson."""
        return {one.lesson: one.day for one in self.placed}

    @property
    def joined(self) -> tuple[tuple[LessonId, LessonId], ...]:
        """The pairs of lessons that share a day."""
        pairs = zip(self.placed, self.placed[1:], strict=False)
        return tuple((one.lesson, other.lesson) for one, other in pairs if one.day == other.day)

    def lessons_on(self, day: date) -> tuple[LessonId, ...]:
        """The lessons of a day: none on a day off, two where two were joined.

        Raises:
            DateOutsideYear: the day lies before the calendar's start or after the last lesson.
        """
        start, last = self.run.calendar.start, self.last or self.run.calendar.start
        if not min(start, self.first) <= day <= last:
            raise DateOutsideYear(day=day, first=start, last=last)
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
class FamilyPlan:
    """The plans of all runs together, what each wish costs, and a proven lower bound of the whole cost."""

    plans: tuple[RunPlan, ...]
    cost: Mapping[str, int]
    bound: int

    @property
    def total(self) -> int:
        """What all wishes cost together."""
        return sum(self.cost.values())

    @property
    def proof(self) -> str:
        """`optimal` where no plan can cost less, else `bound`."""
        return "optimal" if self.total == self.bound else "bound"


@dataclass(frozen=True, slots=True)
class FamilyYear:
    """Everything a family's year has to hold: the runs, the rules that are on, the wishes, the single things."""

    runs: tuple[CourseRun, ...]
    rules: Rules = field(default_factory=Rules)
    wishes: Wishes = field(default_factory=Wishes)
    one_of: frozenset[str] = field(default_factory=frozenset)
