"""What can be done next in a year: one lesson on a day, two on a day, a look back with its test, a lesson left out."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from dayleaf.plan.wishes import price_of_leaving_out

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

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
class Move:
    """One step of the path.

    `layout` says of each lesson that it takes whether it is left out, on the day, or on the test's day after it. `cost` is by day. With `test_day`, by day too, the step ends there (-1 where there is none): `groups` holds the
    days that have one, where their runs of equal test days begin, and those test days. A step that uses no day has a
    `cost` of one number.
    """

    layout: tuple[int, ...]
    cost: NDArray[np.int64]
    test_day: NDArray[np.int64] | None = None
    groups: tuple[NDArray[np.int64], NDArray[np.int64], NDArray[np.int64]] | None = None

    @property
    def takes(self) -> int:
        """How many lessons it takes."""
        return len(self.layout)

    @property
    def uses_a_day(self) -> bool:
        """Whether any lesson of it has a day."""
        return FIRST_DAY in self.layout


@dataclass(frozen=True, slots=True)
class MoveMaker:
    """Makes the moves of one run from what each lesson costs on each day.

    `gone` is what leaving out each lesson costs beside its wish (a changed date). `test_days` gives for a test the
    next learning day long enough after each day, -1 where there is none.
    """

    lessons: Sequence[PlanLesson]
    on_day: Sequence[NDArray[np.int64]]
    gone: Sequence[int]
    may_join: bool
    may_leave_out: bool
    rules: Rules
    wishes: Wishes
    test_days: dict[int, NDArray[np.int64]]

    def at(self, i: int) -> Iterator[Move]:
        """All moves that begin with lesson i."""
        one = self.lessons[i]
        if self._may_go(i):
            yield Move((LEFT_OUT,), np.asarray(self._price_of_going(i), dtype=np.int64))
        yield from self._with_its_test(i, (FIRST_DAY,), self.on_day[i])
        if not (self.may_join and one.may_join):
            return
        layout: tuple[int, ...] = (FIRST_DAY,)
        cost = self.on_day[i] + self.wishes.join
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
        days = np.flatnonzero(then >= 0)
        if not days.size:
            return
        later = then[days]
        idle = self.wishes.pause_in_chapter * (later - days - 1) if not self.lessons[test].opens else 0
        whole = np.full(cost.size, NEVER, dtype=np.int64)
        whole[days] = cost[days] + self.on_day[test][later] + idle
        starts = np.flatnonzero(np.r_[True, later[1:] != later[:-1]])
        yield Move((*layout, TEST_DAY), whole, then, (days, starts, later[starts]))

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
        return price_of_leaving_out(self.wishes, one)[1] + self.gone[i]
