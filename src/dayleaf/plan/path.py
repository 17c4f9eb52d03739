"""One child's year as a shortest path over (learning day, lessons done): exact, in a few milliseconds.

What a lesson costs depends only on the lesson and its day, and what a rule forbids too; a look back brings its test
with it. So the cheapest plan is a shortest path, found lesson by lesson with one pass over the days (dynamic
programming, Bellman 1957). Several starts, that differ in what is added to the costs, are worked out side by side.
All costs are whole numbers and ties go to the earlier end: the same input is the same plan.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property, partial
from typing import TYPE_CHECKING

import numpy as np

from dayleaf.plan.path_costs import RunCosts
from dayleaf.plan.path_logs import LogPath
from dayleaf.plan.path_moves import FAR, FIRST_DAY, LEFT_OUT, NEVER
from dayleaf.plan.run import RunPlan
from dayleaf.plan.year import Placed

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from numpy.typing import NDArray

    from dayleaf.plan.path_moves import Move
    from dayleaf.plan.run import CourseRun
    from dayleaf.plan.wishes import Rules, Wishes


@dataclass(frozen=True, slots=True)
class Cheapest:
    """The cheapest way through a run: the place of each lesson still to come among the learning days (-1: left out).

    `cost` counts what was charged on the way: the wishes of the lessons still to come and whatever was added to them.
    """

    places: tuple[int, ...]
    cost: int


@dataclass(frozen=True, slots=True)
class Stuck:
    """No plan keeps every rule: of the lessons still to come, the one at place `at` is the first without a day."""

    at: int


def cheapest_run(run: CourseRun, *, rules: Rules, wishes: Wishes) -> RunPlan | Stuck:
    """The cheapest plan of one run by itself, or the first lesson that has no day.

    Without an end of the calendar the year ends as soon as it can, and the plan is the cheapest among those.
    """
    costs = RunCosts(run, rules, wishes)
    found = cheapest(costs)
    return found if isinstance(found, Stuck) else plan_at(costs, found.places)


def cheapest(costs: RunCosts) -> Cheapest | Stuck:
    """The cheapest places of all lessons still to come."""
    return cheapest_many(costs, {}, starts=1)[0]


def cheapest_many(
    costs: RunCosts, extra: Mapping[int, NDArray[np.int64]], *, starts: int
) -> tuple[Cheapest | Stuck, ...]:
    """The cheapest places for each of several starts; `extra` adds costs by start and day to some of the lessons."""
    if costs.logs:
        each = [{i: more[start] for i, more in extra.items()} for start in range(starts)]
        paths = [LogPath(costs, costs.moves(more)) for more in each]
        return tuple(_found(costs, path.moves, path.final[0], path.read_back) for path in paths)
    path = _Path(costs, costs.moves(extra), starts)
    return tuple(
        _found(costs, path.moves, final, partial(path.read_back, start)) for start, final in enumerate(path.final)
    )


def plan_at(costs: RunCosts, places: Sequence[int]) -> RunPlan:
    """The plan with each lesson still to come on its day, and what was done before."""
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


def _end(costs: RunCosts, final: NDArray[np.int64]) -> int | None:
    """After which day the cheapest plan ends; without an end of the calendar, the first that any plan can end after."""
    best = int(np.argmax(final < FAR)) if costs.run.calendar.end is None else int(np.argmin(final))
    return best if final[best] < FAR else None


def _found(
    costs: RunCosts,
    moves: Sequence[Sequence[Move]],
    final: NDArray[np.int64],
    read_back: Callable[[int], tuple[int, ...]],
) -> Cheapest | Stuck:
    last = _end(costs, final)
    if last is None:
        return Stuck(at=LogPath(costs, moves).furthest())
    return Cheapest(places=read_back(last), cost=int(final[last]))


class _Path:
    """`arrive[i][start, d]`: the least cost to have done i lessons with day d the next free; `ready` after idle days.

    All costs stand here less the price of d - i pauses: so idle days inside a chapter change nothing and need no sum,
    and those before a chapter give the price back.
    """

    def __init__(self, costs: RunCosts, moves: Sequence[Sequence[Move]], starts: int) -> None:
        self.costs = costs
        self.moves = moves
        count, days = len(moves), len(costs.days)
        self.low, self.high = costs.windows
        self.arrive = list(np.full((count + 1, starts, days + 1), NEVER, dtype=np.int64))
        self.ready = list(np.full((count, starts, days + 1), NEVER, dtype=np.int64))
        self.arrive[0][:] = costs.begin
        reached = [False] * (count + 1)
        for i, free in enumerate(costs.free_pause):
            if self.low[i] > self.high[i]:
                continue
            self._rest(i, free=free)
            for move in moves[i]:
                self._go(i, move, new=not reached[i + move.takes])
                reached[i + move.takes] = True

    @property
    def final(self) -> NDArray[np.int64]:
        """The least cost of all lessons done with day d the next one free, by start."""
        return self.arrive[-1] + self.costs.pauses - self.costs.wishes.pause_in_chapter * len(self.moves)

    def _rest(self, i: int, *, free: bool) -> None:
        """The least cost to stand before day d after any number of days without a lesson."""
        window = slice(self.low[i], self.high[i] + 1)
        here, out = self.arrive[i][:, window], self.ready[i][:, window]
        if not free:
            np.minimum.accumulate(here, axis=1, out=out)
            return
        pauses = self.costs.pauses[window]
        np.minimum.accumulate(here + pauses, axis=1, out=out)
        out -= pauses

    def _go(self, i: int, move: Move, *, new: bool) -> None:
        target = self.arrive[i + move.takes]
        low = self.low[i]
        if not move.uses_a_day:
            high = max(low, min(self.high[i], self.high[i + 1]) + 1)
            np.minimum(target[:, low:high], self.arrive[i][:, low:high] + move.cost, out=target[:, low:high])
        elif move.test is not None:
            values = np.minimum.reduceat(self.ready[i][:, move.test.days] + move.cost, move.test.starts, axis=1)
            then = move.test.ends + 1
            target[:, then] = values if new else np.minimum(target[:, then], values)
        else:
            high = max(low, min(self.high[i] + 1, self.high[i + move.takes]))
            before, cost, after = self.ready[i][:, low:high], move.cost[..., low:high], target[:, low + 1 : high + 1]
            if new:
                np.add(before, cost, out=after)
            else:
                np.minimum(after, before + cost, out=after)

    def read_back(self, start: int, last: int) -> tuple[int, ...]:
        """The days of the cheapest path of one start that ends before day `last`, lesson by lesson."""
        places = [LEFT_OUT] * len(self.moves)
        i, free = len(self.moves), last
        while i:
            before, _, alone = self._ways_into[i][0]
            if alone:
                day = places[before] = free - 1
                i, free = before, self._rested_since(start, before, day)
            else:
                i, free = self._step_back(start, i, free, places)
        return tuple(places)

    @cached_property
    def _ways_into(self) -> list[list[tuple[int, Move, bool]]]:
        """The moves that arrive after so many lessons, and whether one lesson on one day is the only way there."""
        into: list[list[tuple[int, Move]]] = [[] for _ in range(len(self.moves) + 1)]
        for i, moves in enumerate(self.moves):
            for move in moves:
                into[i + move.takes].append((i, move))
        return [
            [(i, move, len(each) == 1 and move.layout == (FIRST_DAY,)) for i, move in reversed(each)] for each in into
        ]

    def _step_back(self, start: int, i: int, free: int, places: list[int]) -> tuple[int, int]:
        """Take the last move back: how many lessons were done before it, and which day was free then."""
        value = self.arrive[i].item(start, free)
        for before, move, _ in self._ways_into[i]:
            days = self._came_by(start, before, move, free, value)
            if days is None:
                continue
            for n, where in enumerate(move.layout):
                if where != LEFT_OUT:
                    places[before + n] = days[where]
            return before, self._rested_since(start, before, days[0]) if move.uses_a_day else free
        raise AssertionError  # a cost that was reached was reached by a move

    def _came_by(self, start: int, i: int, move: Move, free: int, value: int) -> tuple[int, int] | None:
        """The day of a move that reached this cost, the earliest there is, and the day on which it ended."""
        if not move.uses_a_day:
            return (free, free) if self.arrive[i].item(start, free) + move.cost == value else None
        row = (start,) if move.cost.ndim == 2 else ()
        if move.test is None:
            day = free - 1
            return (day, day) if self.ready[i].item(start, day) + move.cost.item(*row, day) == value else None
        group = np.searchsorted(move.test.ends, free - 1)
        if group == move.test.ends.size or move.test.ends[group] != free - 1:
            return None
        for at in range(move.test.starts[group], move.test.days.size):
            day = move.test.days.item(at)
            if move.test.tests[at] == free - 1 and self.ready[i].item(start, day) + move.cost.item(*row, at) == value:
                return day, free - 1
        return None

    def _rested_since(self, start: int, i: int, day: int) -> int:
        """The latest day from which nothing was done until `day` at the cost that `ready` has there."""
        arrive, cost = self.arrive[i], self.ready[i].item(start, day)
        if arrive.item(start, day) == cost:
            return day
        back = self.costs.free_pause[i] * self.costs.wishes.pause_in_chapter
        since = day - 1
        while arrive.item(start, since) - back * (day - since) != cost:
            since -= 1
        return since
