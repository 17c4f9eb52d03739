"""The cheapest year of several runs by a solver, as a flow: each run is one path through (day, lessons done).

The arcs are the planner's own moves; what the solver proves is that no other choice of them is cheaper.
"""

from __future__ import annotations

from collections import defaultdict
from math import ceil
from typing import TYPE_CHECKING, Any

import numpy as np
from ortools.linear_solver import pywraplp  # type: ignore[import-untyped]  # it brings no types

from dayleaf.plan.path_costs import RunCosts
from dayleaf.plan.path_moves import FAR, LEFT_OUT, TEST_DAY

if TYPE_CHECKING:
    from dayleaf.plan.path_moves import Move
    from dayleaf.plan.run import FamilyYear

    Node = tuple[int, int]


def family_cost(year: FamilyYear, *, seconds: float, known: int) -> tuple[int, int]:
    """The cost of the cheapest plan of all runs, as far as found in so many seconds, and a proven lower bound.

    Both count what the moves cost and the pairs of tests; plans that cost more than `known` are not looked for.
    """
    solver = pywraplp.Solver.CreateSolver("SCIP")
    solver.SetTimeLimit(int(seconds * 1000))
    model = _Flow(solver)
    for run in year.runs:
        model.add_run(RunCosts(run, year.rules, year.wishes))
    for used in model.tests.values():
        # the k-th test of a date makes k - 1 pairs
        extra = [solver.NumVar(0, 1, "") for _ in range(1, len(year.runs))]
        solver.Add(solver.Sum(used) <= 1 + solver.Sum(extra))
        model.cost.extend(year.wishes.tests_together * (k + 1) * one for k, one in enumerate(extra))
    total = solver.Sum(model.cost)
    solver.Add(total <= known)
    solver.Minimize(total)
    status = solver.Solve()
    found = status in {pywraplp.Solver.OPTIMAL, pywraplp.Solver.FEASIBLE}
    bound = ceil(solver.Objective().BestBound() - 1e-6)
    return (round(solver.Objective().Value()) if found else known), bound


class _Flow:
    """The arcs of all runs, and by date those that bring a test."""

    def __init__(self, solver: Any) -> None:
        self.solver = solver
        self.cost: list[Any] = []
        self.tests: dict[int, list[Any]] = defaultdict(list)

    def add_run(self, costs: RunCosts) -> None:
        """One path from the first day to all lessons done."""
        moves = costs.moves()
        count, days = len(moves), len(costs.days)
        self.reach = _reached(costs, moves)
        self.into: dict[Node, list[Any]] = defaultdict(list)
        self.out: dict[Node, list[Any]] = defaultdict(list)
        for i, each in enumerate(moves):
            weight = 0 if costs.free_pause[i] else costs.wishes.pause_in_chapter
            for d in range(days):
                self._arc((i, d), (i, d + 1), weight)
            for move in each:
                self._move(costs, i, move)
        ends = [self.solver.BoolVar("") for _ in range(days + 1)]
        for d, end in enumerate(ends):
            if (count, d) in self.reach:
                self.out[count, d].append(end)
            else:
                self.solver.Add(end == 0)
        self.solver.Add(self.solver.Sum(ends) == 1)
        begin = (0, min(costs.first, days))
        for node in self.reach:
            self.solver.Add(self.solver.Sum(self.out[node]) == self.solver.Sum(self.into[node]) + (node == begin))

    def _arc(self, start: Node, end: Node, price: int) -> Any:
        if start not in self.reach or end not in self.reach:
            return None
        arc = self.solver.BoolVar("")
        self.out[start].append(arc)
        self.into[end].append(arc)
        if price:
            self.cost.append(price * arc)
        return arc

    def _move(self, costs: RunCosts, i: int, move: Move) -> None:
        weight = costs.wishes.pause_in_chapter
        if not move.uses_a_day:
            for d in range(len(costs.days) + 1):
                self._arc((i, d), (i + 1, d), int(move.cost) - weight)
            return
        starts = range(len(costs.days)) if move.test is None else move.test.days.tolist()
        for at, d in enumerate(starts):
            end = d if move.test is None else int(move.test.tests[at])
            # the moves count every lesson as a day used; here days without lessons are paid for one by one
            price = int(move.cost[at]) - weight * (move.takes - (end - d + 1))
            if price >= FAR:
                continue
            arc = self._arc((i, d), (i + move.takes, end + 1), price)
            for n, where in enumerate(move.layout):
                if arc is not None and where != LEFT_OUT and costs.lessons[i + n].kind == "test":
                    self.tests[int(costs.dates[end if where == TEST_DAY else d])].append(arc)


def _reached(costs: RunCosts, moves: Any) -> set[tuple[int, int]]:
    """The nodes that lie on some path from the first day to all lessons done."""
    days, count = len(costs.days), len(moves)
    ahead = np.zeros((count + 1, days + 1), dtype=bool)
    ahead[0, min(costs.first, days)] = True
    steps: list[tuple[int, int, int, int]] = []
    for i, each in enumerate(moves):
        ahead[i] = np.logical_or.accumulate(ahead[i])
        for move in each:
            for d in np.flatnonzero(ahead[i]).tolist():
                for end in _ends(move, d, days):
                    ahead[i + move.takes, end] = True
                    steps.append((i, d, i + move.takes, end))
    back = np.zeros_like(ahead)
    back[count] = ahead[count]
    by_lesson: dict[int, list[tuple[int, int, int, int]]] = defaultdict(list)
    for step in steps:
        by_lesson[step[0]].append(step)
    for i in range(count - 1, -1, -1):
        for _, d, k, end in by_lesson[i]:
            back[i, d] |= back[k, end]
        back[i] = np.logical_or.accumulate(back[i][::-1])[::-1] & ahead[i]
    return {(int(i), int(d)) for i, d in np.argwhere(back)}


def _ends(move: Any, d: int, days: int) -> list[int]:
    if not move.uses_a_day:
        return [d]
    if move.test is None:
        return [d + 1] if d < days and move.cost[d] < FAR else []
    at = int(np.searchsorted(move.test.days, d))
    fits = at < move.test.days.size and move.test.days[at] == d and move.cost[at] < FAR
    return [int(move.test.tests[at]) + 1] if fits else []
