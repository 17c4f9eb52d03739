"""One child's year as a shortest path over (learning day, lessons done): exact, in a few milliseconds.

What a lesson costs depends only on the lesson and its day, and what a rule forbids too; a look back brings its test
with it. So the cheapest plan is a shortest path, found lesson by lesson with one pass over the days (dynamic
programming, Bellman 1957). Only where a project's log presses is the day on which it began remembered on the way, one
row a day. All costs are whole numbers and ties go to the earlier day: the same input is the same plan.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from dayleaf.plan.path_costs import RunCosts
from dayleaf.plan.path_moves import FAR, FIRST_DAY, LEFT_OUT, NEVER
from dayleaf.plan.run import RunPlan
from dayleaf.plan.year import Placed

if TYPE_CHECKING:
    from collections.abc import Mapping

    from numpy.typing import NDArray

    from dayleaf.plan.path_costs import Log
    from dayleaf.plan.path_moves import Move
    from dayleaf.plan.run import CourseRun
    from dayleaf.plan.wishes import Rules, Wishes


@dataclass(frozen=True, slots=True)
class Cheapest:
    """The cheapest plan, with the place of each lesson still to come among the learning days (-1: left out).

    `cost` counts what was charged on the way: the wishes of the lessons still to come and whatever was added to them.
    """

    plan: RunPlan
    places: tuple[int, ...]
    cost: int


@dataclass(frozen=True, slots=True)
class Stuck:
    """No plan keeps every rule: of the lessons still to come, the one at place `at` is the first without a day."""

    at: int


def cheapest_run(run: CourseRun, *, rules: Rules, wishes: Wishes) -> Cheapest | Stuck:
    """The cheapest plan of one run by itself, or the first lesson that has no day."""
    return cheapest(RunCosts(run, rules, wishes))


def cheapest(costs: RunCosts, extra: Mapping[int, NDArray[np.int64]] | None = None) -> Cheapest | Stuck:
    """The cheapest way to place all lessons still to come, or where there is none, the first that has no day.

    `extra` adds costs by day to some of the lessons. Without an end of the calendar the year ends as soon as it can,
    and the plan is the cheapest among those.
    """
    path = _Path(costs, costs.moves(extra))
    final = path.arrive[-1][0]
    reached = np.flatnonzero(final < FAR)
    if not reached.size:
        return Stuck(at=path.furthest())
    last = int(reached[0]) if costs.run.calendar.end is None else int(np.argmin(final))
    places = path.read_back(last)
    return Cheapest(plan=_plan(costs, places), places=places, cost=int(final[last]))


def _plan(costs: RunCosts, places: tuple[int, ...]) -> RunPlan:
    days = costs.days
    new = [
        Placed(lesson=one.id, day=days[place].day)
        for one, place in zip(costs.lessons, places, strict=True)
        if place != LEFT_OUT
    ]
    order = {one.id: n for n, one in enumerate(costs.run.lessons)}
    placed = sorted((*costs.run.done, *new), key=lambda one: (one.day, order[one.lesson]))
    kept = {one.lesson for one in placed}
    return RunPlan(
        run=costs.run, placed=tuple(placed), left_out=tuple(one.id for one in costs.run.lessons if one.id not in kept)
    )


class _Path:
    """`arrive[i][row, d]`: the least cost to have done i lessons with day d the next one free; `ready` after idle days.

    There is one row, or where a log that presses has begun one a day on which it can have begun.
    """

    def __init__(self, costs: RunCosts, moves: tuple[tuple[Move, ...], ...]) -> None:
        self.costs = costs
        self.moves = moves
        self.days = len(costs.days)
        count = len(moves)
        self.log: list[Log | None] = [None] * (count + 1)
        for log in costs.logs:
            for i in range(log.begin + 1, log.project + 1):
                self.log[i] = log
        self.begins = {log.begin: log for log in costs.logs}
        shapes = [(1 if log is None else self.days, self.days + 1) for log in self.log]
        self.arrive = [np.full(shape, NEVER, dtype=np.int64) for shape in shapes]
        self.arrive[0][0, min(costs.first, self.days)] = 0
        self.ready: list[NDArray[np.int64]] = []
        for i in range(count):
            self.ready.append(self._rested(i))
            for move in moves[i]:
                self._go(i, move)

    def _rested(self, i: int) -> NDArray[np.int64]:
        """The least cost to stand before day d after any number of days without a lesson."""
        here, weight = self.arrive[i], self.costs.pause[i]
        if not weight:
            return np.minimum.accumulate(here, axis=1)
        ramp = self.costs.ramp * weight
        rested: NDArray[np.int64] = np.minimum.accumulate(here - ramp, axis=1) + ramp
        return rested

    def _go(self, i: int, move: Move) -> None:
        target = self.arrive[i + move.takes]
        if move.groups is not None and self.log[i] is self.log[i + move.takes] is None and i not in self.begins:
            days, starts, later = move.groups
            then = later + 1
            values = np.minimum.reduceat((self.ready[i][:, :-1] + move.cost)[:, days], starts, axis=1)
            target[:, then] = np.minimum(target[:, then], values)
        elif self.log[i] is self.log[i + move.takes] is None and i not in self.begins:
            if move.uses_a_day:
                np.minimum(target[:, 1:], self.ready[i][:, :-1] + move.cost, out=target[:, 1:])
            else:
                np.minimum(target, self.arrive[i] + move.cost, out=target)
        else:
            self._go_with_log(i, move)

    def _go_with_log(self, i: int, move: Move) -> None:
        """The same where a log begins, runs or ends: each way from (row, day) to (row, day) by itself, in bulk."""
        rows, days = np.nonzero(self._from(i, move) < FAR)
        values, to_rows, to_days = self._steps(i, move, rows, days)
        np.minimum.at(self.arrive[i + move.takes], (to_rows, to_days), values)

    def _from(self, i: int, move: Move) -> NDArray[np.int64]:
        return self.ready[i][:, :-1] + move.cost if move.uses_a_day else self.arrive[i] + move.cost

    def _steps(
        self, i: int, move: Move, rows: NDArray[np.int64], days: NDArray[np.int64]
    ) -> tuple[NDArray[np.int64], NDArray[np.int64], NDArray[np.int64]]:
        """What steps of one move from these rows and days cost, and where they arrive."""
        values = self._from(i, move)[rows, days]
        ends = days if move.test_day is None else move.test_day[days]
        then = ends + 1 if move.uses_a_day else days
        begun, reached = self.log[i], self.log[i + move.takes]
        to_rows = rows
        if begun is not None and reached is not begun:
            place = begun.project - i
            if move.layout[place] != LEFT_OUT:
                on = days if move.layout[place] == FIRST_DAY else ends
                early = self.costs.dates[on] < self.costs.dates[rows] + begun.days
                values = np.where(early, NEVER, values)
            to_rows = np.zeros_like(rows)
        inside = self._log_within(i, move)
        if inside is not None:
            layout = move.layout[inside.begin - i]
            began = days if layout == FIRST_DAY else ends
            to_rows = began
            if reached is not inside:
                place = inside.project - i
                on = days if move.layout[place] == FIRST_DAY else ends
                early = self.costs.dates[on] < self.costs.dates[began] + inside.days
                values = np.where(early & (move.layout[place] != LEFT_OUT), NEVER, values)
                to_rows = np.zeros_like(rows)
        return values, to_rows, then

    def _log_within(self, i: int, move: Move) -> Log | None:
        """The log that begins with one of the lessons that a move takes."""
        return next((self.begins[j] for j in range(i, i + move.takes) if j in self.begins), None)

    def read_back(self, last: int) -> tuple[int, ...]:
        """The days of the cheapest path that ends before day `last`, lesson by lesson."""
        places = [LEFT_OUT] * len(self.moves)
        i, row, free = len(self.moves), 0, last
        while i:
            i, row, free = self._step_back(i, row, free, places)
        return tuple(places)

    def _step_back(self, i: int, row: int, free: int, places: list[int]) -> tuple[int, int, int]:
        value = self.arrive[i][row, free]
        for takes in (1, 2, 3):
            for move in self.moves[i - takes] if i >= takes else ():
                if move.takes != takes:
                    continue
                found = self._came_by(i - takes, move, row=row, free=free, value=int(value))
                if found is not None:
                    before, day = found
                    end = day if move.test_day is None else int(move.test_day[day])
                    for n, where in enumerate(move.layout):
                        if where != LEFT_OUT:
                            places[i - takes + n] = day if where == FIRST_DAY else end
                    if not move.uses_a_day:
                        return i - takes, before, day
                    return i - takes, before, self._rested_since(i - takes, before, day)
        raise AssertionError  # a cost that was reached was reached by a move

    def _came_by(self, i: int, move: Move, *, row: int, free: int, value: int) -> tuple[int, int] | None:
        """The row and the day from which a move reached this cost, the earliest day of them."""
        values = self._from(i, move)
        simple = self.log[i] is self.log[i + move.takes] is None and self._log_within(i, move) is None
        if simple and move.test_day is None:
            day = free - 1 if move.uses_a_day else free
            return (0, day) if day >= 0 and values[0, day] == value else None
        rows, days = np.nonzero(values == value) if simple else np.nonzero(values < FAR)
        costs, to_rows, then = self._steps(i, move, rows, days)
        hit = np.flatnonzero((costs == value) & (to_rows == row) & (then == free))
        if not hit.size:
            return None
        best = hit[np.argmin(days[hit])]
        return int(rows[best]), int(days[best])

    def _rested_since(self, i: int, row: int, day: int) -> int:
        """The earliest day from which nothing was done until `day` at the cost that `ready` has there."""
        weight = self.costs.pause[i]
        since = self.arrive[i][row, : day + 1] + weight * (day - self.costs.ramp[: day + 1])
        return int(np.argmin(since))

    def furthest(self) -> int:
        """The first lesson that no path gives a day or leaves out."""
        return max(i for i, here in enumerate(self.arrive) if (here < FAR).any())
