"""How cheap several runs together can be at best: a proven lower bound, found without planning them together.

n tests on one date make n(n-1)/2 pairs. Put a price on a test on each date: for any price p, the pairs of a date cost
at least p n - max over k of (p k - w k(k-1)/2), with w the weight of a pair. So the runs planned each by itself with
these prices, less those maxima, can never cost more than any plan of all together (a Lagrangian relaxation; the prices
are moved by subgradients after Held and Karp 1971, with Polyak's step). Pairs that want a single thing are taken to
cost nothing here, which keeps the bound true.
"""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from typing import TYPE_CHECKING, Final

import numpy as np

from dayleaf.plan.path import Cheapest, cheapest_many
from dayleaf.plan.path_costs import RunCosts
from dayleaf.plan.path_moves import LEFT_OUT
from dayleaf.plan.wishes import Wishes

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from dayleaf.plan.run import FamilyYear

STEPS: Final = 16
FINE: Final = 8
"""Prices are whole eighths of a weight's unit."""


@dataclass(frozen=True, slots=True)
class Relaxed:
    """A number that no plan of all runs together can cost less than, counting what `path` charges and pairs of tests.

    `met` are the ways through all runs that were met on the way, step by step, each as it costs by itself.
    """

    bound: int
    met: tuple[tuple[Cheapest, ...], ...]


def relax(year: FamilyYear, costs: Sequence[RunCosts], *, best: int) -> Relaxed:
    """The bound and the plans met, after at most `STEPS` steps; the runs must each fit by itself.

    `best` is what the cheapest plan known costs; it sets how far prices are moved.
    """
    fine = Wishes(**{one.name: FINE * getattr(year.wishes, one.name) for one in fields(Wishes)})
    weight = FINE * year.wishes.tests_together
    runs = _Runs([RunCosts(one.run, year.rules, fine) for one in costs])
    prices = np.zeros(runs.width, dtype=np.int64)
    bound, met = 0, []
    for _ in range(STEPS):
        planned, tests, found = runs.plan(prices)
        met.append(found)
        pairs = year.wishes.tests_together * int((tests * (tests - 1) // 2).sum())
        spent = pairs + sum(one.cost for one in found)
        best = min(best, spent)
        if not weight:
            return Relaxed(bound=-(-planned // FINE), met=tuple(met))
        fewest, most = _best_counts(prices, weight)
        gain = prices * most - weight * (most * (most - 1) // 2)
        value = planned - int(gain.sum())
        bound = max(bound, -(-value // FINE))
        slope = tests - np.clip(tests, fewest, most)
        if bound >= best or not slope.any():
            break
        step = (FINE * best - value) / int((slope * slope).sum())
        prices = np.maximum(0, prices + np.rint(step * slope).astype(np.int64))
    return Relaxed(bound=bound, met=tuple(met))


def _best_counts(prices: NDArray[np.int64], weight: int) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
    """The fewest and the most tests k with which price times k less the pairs' weight is greatest."""
    most = prices // weight + 1
    fewest = np.where(prices % weight == 0, prices // weight, most)
    return fewest, most


class _Runs:
    """The runs against common dates; runs that differ in nothing but the child are planned once."""

    def __init__(self, costs: Sequence[RunCosts]) -> None:
        likes = [replace(one.run, learner=costs[0].run.learner) for one in costs]
        self.costs = costs
        self.twins = [likes.index(like) for like in likes]
        self.first = min(int(one.dates[0]) for one in costs)
        self.width = max(int(one.dates[-1]) for one in costs) - self.first + 1
        self.tests = [[i for i, lesson in enumerate(one.lessons) if lesson.kind == "test"] for one in costs]

    def plan(self, prices: NDArray[np.int64]) -> tuple[int, NDArray[np.int64], tuple[Cheapest, ...]]:
        """What all runs cost with these prices on their tests, how many tests stand on each date, and the ways."""
        total, tests = 0, np.zeros_like(prices)
        ways: list[Cheapest] = []
        for n, twin in enumerate(self.twins):
            one, at = self.costs[n], self.tests[n]
            columns = one.dates - self.first
            row = prices[columns]
            if twin < n:
                way = ways[twin]
                total += FINE * way.cost
            else:
                found = cheapest_many(one, dict.fromkeys(at, row[None, :]), starts=1)[0]
                assert isinstance(found, Cheapest), "it fits by itself"  # noqa: S101 (it cannot be otherwise)
                added = sum(row.item(found.places[i]) for i in at if found.places[i] != LEFT_OUT)
                way = Cheapest(places=found.places, cost=(found.cost - added) // FINE)
                total += found.cost - added
            used = [place for i in at if (place := way.places[i]) != LEFT_OUT]
            total += int(row[used].sum())
            np.add.at(tests, columns[used], 1)
            ways.append(way)
        return total, tests, tuple(ways)
