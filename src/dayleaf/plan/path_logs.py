"""The shortest path where a project's log presses: the day on which the log began is remembered, one row a day."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from dayleaf.plan.path_moves import FAR, FIRST_DAY, LEFT_OUT, NEVER

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from dayleaf.plan.path_costs import Log, RunCosts
    from dayleaf.plan.path_moves import Move


class LogPath:
    """`arrive[i][row, d]`: the least cost to have done i lessons with day d the next one free; `ready` after idle days.

    There is one row, or where a log that presses has begun one a day on which it can have begun.
    """

    def __init__(self, costs: RunCosts, moves: Sequence[Sequence[Move]]) -> None:
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
        self.arrive[0][0] = costs.begin
        self.ready: list[NDArray[np.int64]] = []
        for i in range(count):
            self.ready.append(self._rested(i))
            for move in moves[i]:
                self._go(i, move)

    def _rested(self, i: int) -> NDArray[np.int64]:
        """The least cost to stand before day d after any number of days without a lesson."""
        if not self.costs.free_pause[i]:
            return np.minimum.accumulate(self.arrive[i], axis=1)
        given_back: NDArray[np.int64] = np.minimum.accumulate(self.arrive[i] + self.costs.pauses, axis=1)
        return given_back - self.costs.pauses

    def _go(self, i: int, move: Move) -> None:
        """Each way from (row, day) to (row, day) that a move opens, in bulk."""
        rows, at = np.nonzero(self._from(i, move) < FAR)
        values, to_rows, to_days = self._steps(i, move, rows, at)
        np.minimum.at(self.arrive[i + move.takes], (to_rows, to_days), values)

    def _from(self, i: int, move: Move) -> NDArray[np.int64]:
        if not move.uses_a_day:
            return self.arrive[i] + move.cost
        ready = self.ready[i][:, :-1]
        return (ready if move.test is None else ready[:, move.test.days]) + move.cost

    def _steps(
        self, i: int, move: Move, rows: NDArray[np.int64], at: NDArray[np.int64]
    ) -> tuple[NDArray[np.int64], NDArray[np.int64], NDArray[np.int64]]:
        """What steps of one move cost from these rows and places among its days, and where they arrive."""
        values = self._from(i, move)[rows, at]
        days = at if move.test is None else move.test.days[at]
        ends = at if move.test is None else move.test.tests[at]
        then = ends + 1 if move.uses_a_day else days
        log = self.log[i]
        if log is not None and self.log[i + move.takes] is not log:
            values = self._if_late_enough(values, move, log, i, began=rows, days=days, ends=ends)
            rows = np.zeros_like(rows)
        log = self._log_within(i, move)
        if log is not None:
            rows = days if move.layout[log.begin - i] == FIRST_DAY else ends
            if self.log[i + move.takes] is not log:
                values = self._if_late_enough(values, move, log, i, began=rows, days=days, ends=ends)
                rows = np.zeros_like(rows)
        return values, rows, then

    def _if_late_enough(
        self,
        values: NDArray[np.int64],
        move: Move,
        log: Log,
        i: int,
        *,
        began: NDArray[np.int64],
        days: NDArray[np.int64],
        ends: NDArray[np.int64],
    ) -> NDArray[np.int64]:
        """The values, but `NEVER` where the project that this move gives a day comes too soon after its log began."""
        where = move.layout[log.project - i]
        if where == LEFT_OUT:
            return values
        dates = self.costs.dates
        early = dates[days if where == FIRST_DAY else ends] < dates[began] + log.days
        return np.where(early, NEVER, values)

    def _log_within(self, i: int, move: Move) -> Log | None:
        """The log that begins with one of the lessons that a move takes."""
        return next((self.begins[j] for j in range(i, i + move.takes) if j in self.begins), None)

    @property
    def final(self) -> NDArray[np.int64]:
        """The least cost of all lessons done with day d the next one free."""
        return self.arrive[-1] + self.costs.pauses - self.costs.wishes.pause_in_chapter * len(self.moves)

    def read_back(self, last: int) -> tuple[int, ...]:
        """The days of the cheapest path that ends before day `last`, lesson by lesson."""
        places = [LEFT_OUT] * len(self.moves)
        i, row, free = len(self.moves), 0, last
        while i:
            i, row, free = self._step_back(i, row, free, places)
        return tuple(places)

    def _step_back(self, i: int, row: int, free: int, places: list[int]) -> tuple[int, int, int]:
        value = int(self.arrive[i][row, free])
        for begin in range(i - 1, -1, -1):
            for move in self.moves[begin]:
                if begin + move.takes != i:
                    continue
                found = self._came_by(begin, move, row=row, free=free, value=value)
                if found is None:
                    continue
                before, at = found
                day = at if move.test is None else int(move.test.days[at])
                end = at if move.test is None else int(move.test.tests[at])
                for n, where in enumerate(move.layout):
                    if where != LEFT_OUT:
                        places[begin + n] = day if where == FIRST_DAY else end
                return begin, before, self._rested_since(begin, before, day) if move.uses_a_day else day
        raise AssertionError  # a cost that was reached was reached by a move

    def _came_by(self, i: int, move: Move, *, row: int, free: int, value: int) -> tuple[int, int] | None:
        """The row and the place among its days from which a move reached this cost, the earliest day of them."""
        rows, at = np.nonzero(self._from(i, move) < FAR)
        costs, to_rows, then = self._steps(i, move, rows, at)
        hit = np.flatnonzero((costs == value) & (to_rows == row) & (then == free))
        if not hit.size:
            return None
        best = hit[np.argmin(at[hit])]
        return int(rows[best]), int(at[best])

    def _rested_since(self, i: int, row: int, day: int) -> int:
        """The latest day from which nothing was done until `day` at the cost that `ready` has there."""
        pauses = self.costs.pauses
        since = day
        while self.arrive[i][row, since] - self.costs.free_pause[i] * pauses[day - since] != self.ready[i][row, day]:
            since -= 1
        return since

    def furthest(self) -> int:
        """The first lesson that no path gives a day or leaves out."""
        return max(i for i, here in enumerate(self.arrive) if (here < FAR).any())
