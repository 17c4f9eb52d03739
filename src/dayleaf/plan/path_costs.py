"""What each lesson costs on each day, rule by rule and wish by wish, in whole numbers."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from functools import cached_property
from typing import TYPE_CHECKING, Final

import numpy as np

from dayleaf.plan.days import year_days
from dayleaf.plan.path_moves import FAR, NEVER, Ends, Move, MoveMaker

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from numpy.typing import NDArray

    from dayleaf.core.ids import LessonId
    from dayleaf.plan.days import YearDay
    from dayleaf.plan.lessons import PlanLesson
    from dayleaf.plan.run import CourseRun
    from dayleaf.plan.wishes import Rules, Wishes

A_CHANGE: Final = 1 << 32
"""What a changed date costs when as few as can be shall change: more than all wishes of a year together."""

LANDING: Final = 2
"""A changed date on which a test lands badly counts for one more date by this much for each unit of the wish's weight:
so measured that a simulated year has at most half a test on such a day (bench/years_lived.py)."""


@dataclass(frozen=True, slots=True)
class Log:
    """A log that presses: begun with lesson `begin`, the project `project` must be `days` calendar days later."""

    begin: int
    project: int
    days: int


@dataclass(frozen=True)
class RunCosts:
    """The lessons of a run that are still to come against all learning days of its calendar.

    `first` is the first day on which anything can be planned, `offset` how many lessons of the run were done before.
    """

    run: CourseRun
    rules: Rules
    wishes: Wishes
    keep: Mapping[LessonId, date] = field(default_factory=dict)

    @cached_property
    def days(self) -> tuple[YearDay, ...]:
        """The learning days."""
        return year_days(self.run.calendar)

    @cached_property
    def dates(self) -> NDArray[np.int64]:
        """The learning days as numbers that count days."""
        return np.array([one.day.toordinal() for one in self.days], dtype=np.int64)

    @cached_property
    def lessons(self) -> tuple[PlanLesson, ...]:
        """The lessons still to come."""
        done = {one.lesson for one in self.run.done}
        return tuple(one for one in self.run.lessons if one.id not in done)

    @cached_property
    def first(self) -> int:
        """The place of the first day that is not past."""
        return int(np.searchsorted(self.dates, first_open_day(self.run).toordinal()))

    @cached_property
    def free_pause(self) -> tuple[bool, ...]:
        """Whether days without a lesson cost nothing right before each lesson."""
        return tuple(one.opens and one.id != self.run.lessons[0].id for one in self.lessons)

    @cached_property
    def ramp(self) -> NDArray[np.int64]:
        """0, 1, 2 … one longer than the days."""
        return np.arange(len(self.days) + 1, dtype=np.int64)

    @cached_property
    def pauses(self) -> NDArray[np.int64]:
        """What so many days without a lesson cost inside a chapter."""
        return self.ramp * self.wishes.pause_in_chapter

    @cached_property
    def begin(self) -> NDArray[np.int64]:
        """What it costs to begin on each day, less the price of the days before as pauses (see `path`)."""
        first = min(self.first, len(self.days))
        begin = np.full(len(self.days) + 1, NEVER, dtype=np.int64)
        begin[first] = -self.pauses[first]
        return begin

    @cached_property
    def on_day(self) -> tuple[NDArray[np.int64], ...]:
        """What each lesson costs on each day by itself; `NEVER` where a rule forbids it."""
        return tuple(self._on_day(i) for i in range(len(self.lessons)))

    def moves(self, extra: Mapping[int, NDArray[np.int64]] | None = None) -> tuple[tuple[Move, ...], ...]:
        """The moves that begin with each lesson; `extra` adds costs by day to some lessons, a row for each start."""
        if not extra:
            return self._usual_moves
        maker = self._maker([cost + extra[i] if i in extra else cost for i, cost in enumerate(self.on_day)])
        return tuple(
            tuple(maker.at(i)) if any(j in extra for j in self._reach[i]) else usual
            for i, usual in enumerate(self._usual_moves)
        )

    @cached_property
    def _reach(self) -> tuple[range, ...]:
        """The lessons that any move takes which begins with each lesson."""
        longest = (max((move.takes for move in moves), default=1) for moves in self._usual_moves)
        return tuple(range(i, i + takes) for i, takes in enumerate(longest))

    @cached_property
    def _usual_moves(self) -> tuple[tuple[Move, ...], ...]:
        maker = self._maker(self.on_day)
        return tuple(tuple(maker.at(i)) for i in range(len(self.lessons)))

    @cached_property
    def windows(self) -> tuple[list[int], list[int]]:
        """Between which days the next free one can lie after so many lessons, if all are to be done in the end."""
        moves, days = self._usual_moves, len(self.days)
        count = len(moves)
        low, high = [days] * (count + 1), [-1] * count + [days]
        low[0] = min(self.first, days)
        for i in range(count):
            for move in moves[i]:
                low[i + move.takes] = min(low[i + move.takes], low[i] + move.days_used)
        for i in range(count - 1, -1, -1):
            high[i] = max((high[i + move.takes] - move.days_used for move in moves[i]), default=-1)
        return low, high

    def _maker(self, on_day: Sequence[NDArray[np.int64]]) -> MoveMaker:
        return MoveMaker(
            lessons=self.lessons,
            on_day=on_day,
            gone=[A_CHANGE if one.id in self.keep else 0 for one in self.lessons],
            may_join=self.run.may_join,
            may_leave_out=self.run.may_leave_out,
            rules=self.rules,
            wishes=self.wishes,
            test_days=self._test_days,
        )

    @cached_property
    def logs(self) -> tuple[Log, ...]:
        """The logs that order alone does not give time enough."""
        if not self.rules.log_on_time:
            return ()
        place = {one.id: i for i, one in enumerate(self.lessons)}
        found = []
        for i, one in enumerate(self.lessons):
            project = place.get(one.log_for) if one.log_for is not None else None
            if project is not None and one.log_days > self._days_at_least(i, project):
                found.append(Log(begin=i, project=project, days=one.log_days))
        return tuple(found)

    def _days_at_least(self, begin: int, project: int) -> int:
        between = self.lessons[begin:project]
        saved = sum(1 for one in between if (self.run.may_join and one.may_join))
        saved += sum(1 for one in between[1:] if self.run.may_leave_out and one.may_go)
        return project - begin - saved

    @cached_property
    def _spread(self) -> Mapping[LessonId, int]:
        return spread_places(self.run, days=len(self.days))

    @cached_property
    def _test_days(self) -> Mapping[int, Ends]:
        wanted = {one.minutes for one in self.lessons if one.kind == "test"}
        return {minutes: self._ends(minutes) for minutes in (*wanted, 0)}

    def _ends(self, minutes: int) -> Ends:
        """For each day the next one that has these minutes, as far as there is one."""
        enough = np.flatnonzero(self._minutes >= minutes)
        place = np.searchsorted(enough, self.ramp[:-1], side="right")
        days = np.flatnonzero(place < enough.size)
        tests = enough[place[days]]
        starts = np.flatnonzero(np.diff(tests, prepend=-1))
        return Ends(days=days, tests=tests, starts=starts, ends=tests[starts])

    @cached_property
    def _flags(self) -> Mapping[str, NDArray[np.bool_]]:
        names = ("after_break", "after_weekend", "before_holiday", "before_two_weeks", "short")
        return {name: np.array([getattr(one, name) for one in self.days], dtype=bool) for name in names}

    @cached_property
    def _minutes(self) -> NDArray[np.int64]:
        return np.array([one.minutes for one in self.days], dtype=np.int64)

    @cached_property
    def _by_kind(self) -> dict[tuple[bool, bool, int], tuple[NDArray[np.int64], NDArray[np.int64]]]:
        """What lessons of one kind cost on each day, and what they cost there if that day is not theirs."""
        return {}

    def _on_day(self, i: int) -> NDArray[np.int64]:
        one = self.lessons[i]
        key = (one.kind == "test", one.opens, one.minutes)
        if key not in self._by_kind:
            cost = self._of_kind(one)
            self._by_kind[key] = cost, cost + A_CHANGE * self._changes(one)
        cost, moved = self._by_kind[key]
        if one.id in self.keep:
            place, cost = self._places.get(self.keep[one.id].toordinal()), moved.copy()
            if place is not None:
                cost[place] = self._by_kind[key][0][place]
        if one.id in self._spread:
            cost = cost + self.wishes.spread * np.abs(self.ramp[:-1] - self._spread[one.id])
        return self._after_what_was_done(i, cost)

    @cached_property
    def _places(self) -> Mapping[int, int]:
        return {day: place for place, day in enumerate(self.dates.tolist())}

    def _changes(self, one: PlanLesson) -> NDArray[np.int64] | int:
        """How many changed dates a change to each day counts for.

        One; of a test that would land badly there more, by the weights of the wishes against that.
        """
        if one.kind != "test":
            return 1
        wishes, flags = self.wishes, self._flags
        badly = wishes.test_after_weekend * flags["after_weekend"] + wishes.test_after_break * flags["after_break"]
        counts: NDArray[np.int64] = 1 + LANDING * (badly + wishes.test_before_holiday * flags["before_holiday"])
        return counts

    def _of_kind(self, one: PlanLesson) -> NDArray[np.int64]:
        flags, wishes, rules = self._flags, self.wishes, self.rules
        cost = wishes.short_day * (flags["short"] & (self._minutes < one.minutes))
        never = np.zeros(len(self.days), dtype=bool)
        if one.kind == "test":
            cost = cost + wishes.test_after_weekend * flags["after_weekend"]
            cost = cost + wishes.test_before_holiday * flags["before_holiday"]
            cost = cost + wishes.test_after_break * flags["after_break"]
            if rules.no_test_after_break:
                never |= flags["after_break"]
            if rules.test_needs_its_minutes:
                never |= self._minutes < one.minutes
        if one.opens and rules.no_opening_before_two_weeks_off:
            never |= flags["before_two_weeks"]
        if self.run.wished_end is not None:
            cost = cost + wishes.past_wished_end * (self.dates > self.run.wished_end.toordinal())
        return np.where(never, NEVER, cost).astype(np.int64)

    def _after_what_was_done(self, i: int, cost: NDArray[np.int64]) -> NDArray[np.int64]:
        """The cost with what the lessons done already ask for: a log begun before, a look back without its test."""
        one = self.lessons[i]
        if one.id in self._logs_begun:
            cost = np.where(self.dates < self._logs_begun[one.id], NEVER, cost)
        if i == 0 and one.kind == "test" and self.rules.test_after_look_back and self._looked_back:
            open_days = np.flatnonzero(cost[self.first :] < FAR)
            only = self.ramp[:-1] == (self.first + open_days[0] if open_days.size else -1)
            cost = np.where(only, cost, NEVER)
        return cost

    @cached_property
    def _logs_begun(self) -> Mapping[LessonId, int]:
        """For each project whose log has begun, the first day (as a number) on which it may come."""
        if not self.rules.log_on_time:
            return {}
        dates = {placed.lesson: placed.day for placed in self.run.done}
        return {
            one.log_for: dates[one.id].toordinal() + one.log_days
            for one in self.run.lessons
            if one.log_for is not None and one.id in dates
        }

    @cached_property
    def _looked_back(self) -> bool:
        """Whether the lesson right before the first one still to come is a look back that was done."""
        place = [one.id for one in self.run.lessons].index(self.lessons[0].id)
        before = self.run.lessons[place - 1] if place else None
        return before is not None and before.kind == "look-back" and before.id in {one.lesson for one in self.run.done}


def first_open_day(run: CourseRun) -> date:
    """The first date on which a run can plan: not before its start, nor before a day that is past or has its lesson."""
    after = max((one.day.toordinal() + 1 for one in run.done), default=run.calendar.start.toordinal())
    today = run.not_before or run.calendar.start
    return date.fromordinal(max(after, today.toordinal(), run.calendar.start.toordinal()))


def spread_places(run: CourseRun, *, days: int) -> dict[LessonId, int]:
    """Where each chapter after the first would begin if the free days were spread evenly (0 = first learning day).

    With n lessons on D days, D - n are free; `spread_percent` of them are shared out in proportion to the lessons done:
    lesson i (from 0) belongs on day i + (D - n) · percent · i / (100 n), rounded down. Without an end, or where days
    are short, nothing is free and no lesson has such a place.
    """
    n = len(run.lessons)
    free = days - n
    if run.calendar.end is None or free <= 0:
        return {}
    return {
        one.id: i + free * run.spread_percent * i // (100 * n)
        for i, one in enumerate(run.lessons)
        if one.opens and i > 0
    }


def changed_between(keep: Mapping[LessonId, date], dates: Mapping[LessonId, date]) -> Sequence[LessonId]:
    """The lessons whose date is another or gone."""
    return [lesson for lesson, day in keep.items() if dates.get(lesson) != day]
