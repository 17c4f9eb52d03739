"""What can be done next in a year: one lesson on a day, two on a day, a look back with its test, a lesson left out."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from dayleaf.plan.wishes import price_of_leaving_out

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from numpy.typing import NDArray

    from dayleaf.plan.lessons import PlanLesson
    from dayleaf.plan.wishes import Rules, Wishes

NEVER: Final = 1 << 50
"""The cost of what a rule forbids: beyond any sum of weights, and far from the end of 64 bits."""

FAR: Final = NEVER // 2
"""A cost from here on stands for what cannot be."""

LEFT_OUT: Final = -1
FIRST_DAY: Final = 0
TEST_DAY: Final = 1


@dataclass(frozen=True, slots=True)
class Ends:
    """Where a step ends that takes a look back on one day and its test on a later one.

    From `days` it ends on `tests`, one by one. Days with the same test day stand together: each group begins at one of
    `starts` and ends on one of `ends`.
    """

    days: NDArray[np.int64]
    tests: NDArray[np.int64]
    starts: NDArray[np.int64]
    ends: NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class Move:
    """One step of the path.

    `layout` says of each lesson that it takes whether it is left out, on the day, or on the test's day after it.
    `cost` is by day, or by the days of `test`; of a step that uses no day it is one number. There may be a row for each
    of several starts.
    """

    layout: tuple[int, ...]
    cost: NDArray[np.int64]
    test: Ends | None = None

    @property
    def takes(self) -> int:
        """How many lessons it takes."""
        return len(self.layout)

    @property
    def uses_a_day(self) -> bool:
        """Whether any lesson of it has a day."""
        return FIRST_DAY in self.layout

    @property
    def days_used(self) -> int:
        """On how many days it has lessons."""
        return 2 if self.test is not None else int(FIRST_DAY in self.layout)


@dataclass(frozen=True, slots=True)
class MoveMaker:
    """Makes the moves of one run from what each lesson costs on each day.

    A day without a lesson is charged by its lack: every lesson is taken to use a day, so a step that uses fewer days
    than lessons pays the price of a pause for each, and `path` gives it back where a pause costs nothing.

    `gone` is what leaving out each lesson costs beside its wish (a changed date). `test_days` gives for a test of so
    many minutes the next learning day after each day that is long enough.
    """

    lessons: Sequence[PlanLesson]
    on_day: Sequence[NDArray[np.int64]]
    gone: Sequence[int]
    may_join: bool
    may_leave_out: bool
    rules: Rules
    wishes: Wishes
    test_days: Mapping[int, Ends]

    def at(self, i: int) -> Iterator[Move]:
        """All moves that begin with lesson i."""
        one = self.lessons[i]
        if self._may_go(i):
            yield Move((LEFT_OUT,), np.asarray(self._price_of_going(i), dtype=np.int64))
        yield from self._with_its_test(i, (FIRST_DAY,), self.on_day[i])
        if not (self.may_join and one.may_join):
            return
        layout: tuple[int, ...] = (FIRST_DAY,)
        cost = self.on_day[i] + (self.wishes.join + self.wishes.pause_in_chapter)
        for j in range(i + 1, len(self.lessons)):
            yield from self._with_its_test(j, (*layout, FIRST_DAY), cost + self.on_day[j])
            if not self._may_go(j):
                return
            layout, cost = (*layout, LEFT_OUT), cost + self._price_of_going(j)

    def _with_its_test(self, i: int, layout: tuple[int, ...], cost: NDArray[np.int64]) -> Iterator[Move]:
        """The move whose last lesson is i; a look back takes its test along, or leaves it out where that may be."""
        if not self._brings_a_test(i):
            yield Move(layout, cost)
            return
        test = i + 1
        if self._may_go(test):
            yield Move((*layout, LEFT_OUT), cost + self._price_of_going(test))
        then = self.test_days[self.lessons[test].minutes if self.rules.test_needs_its_minutes else 0]
        if then.days.size:
            ahead = self.on_day[test][..., then.tests]
            if self.lessons[test].opens:
                ahead = ahead - self.wishes.pause_in_chapter * (then.tests - then.days - 1)
            yield Move((*layout, TEST_DAY), cost[..., then.days] + ahead, then)

    def _brings_a_test(self, i: int) -> bool:
        return (
            self.rules.test_after_look_back
            and self.lessons[i].kind == "look-back"
            and i + 1 < len(self.lessons)
            and self.lessons[i + 1].kind == "test"
        )

    def _may_go(self, i: int) -> bool:
        return self.may_leave_out and self.lessons[i].may_go

    def _price_of_going(self, i: int) -> int:
        one = self.lessons[i]
        return price_of_leaving_out(self.wishes, one)[1] + self.wishes.pause_in_chapter + self.gone[i]
