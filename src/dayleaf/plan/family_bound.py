"""How cheap several runs together can be at best: a proven lower bound, found without planning them together.

n tests on one date make n(n-1)/2 pairs. Put a price on a test on each date: for any price p, the pairs of a date cost
at least p n - max over k of (p k - w k(k-1)/2), with w the weight of a pair. So the runs planned each by itself with
these prices, less those maxima, can never cost more than any plan of all together (a Lagrangian relaxation; the prices
are moved by subgradients after Held and Karp 1971, with Polyak's step). Pairs that want a single thing are taken to cost
nothing here, which keeps the bound true.
"""

from __future__ import annotations

from dataclasses import fields, replace
from typing import TYPE_CHECKING, Final

import numpy as np

from dayleaf.plan.path import Cheapest, cheapest_many
from dayleaf.plan.path_costs import RunCosts
from dayleaf.plan.path_moves import LEFT_OUT
from dayleaf.plan.wishes import Wishes

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from dayleaf.plan.run import CourseRun, FamilyYear

STEPS: Final = 16
FINE: Final = 8
"""Prices are whole eighths of a weight's unit."""


def family_bound(year: FamilyYear, costs: Sequence[RunCosts], *, best: int) -> int:
    """A number that no plan of all runs together can cost less than; `best` is what a known plan costs.

    Both count what `path` charges and the pairs of tests.
    """
    fine = Wishes(**{one.name: FINE * getattr(year.wishes, one.name) for one in fields(Wishes)})
    weight = FINE * year.wishes.tests_together
    if not weight:
        return 0
    runs = _Runs([RunCosts(one.run, year.rules, fine) for one in costs])
    prices = np.zeros(runs.width, dtype=np.int64)
    bound = 0
    for _ in range(STEPS):
        planned, tests = runs.plan(prices)
        fewest, most = _best_counts(prices, weight)
        gain = prices * most - weight * (most * (most - 1) // 2)
        value = planned - int(gain.sum())
        bound = max(bound, -(-value // FINE))
        slope = tests - np.clip(tests, fewest, most)
        if bound >= best or not slope.any():
            break
        step = (FINE * best - value) / int((slope * slope).sum())
        prices = np.maximum(0, prices + np.rint(step * slope).astype(np.int64))
    return min(bound, best)


def _best_counts(prices: NDArray[np.int64], weight: int) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
    """The fewest and the most tests k with which price times k less the pairs' weight is greatest."""
    most = prices // weight + 1
    fewest = np.where(prices % weight == 0, prices // weight, most)
    return fewest, most


class _Runs:
    """The runs against common dates; runs that differ in nothing but the child are planned once."""

    def __init__(self, costs: Sequence[RunCosts]) -> None:
        kinds: dict[int, tuple[RunCosts, int]] = {}
        seen: list[tuple[CourseRun, int]] = []
        for n, one in enumerate(costs):
            like = replace(one.run, learner=costs[0].run.learner)
            twin = next((m for other, m in seen if other == like), n)
            seen.append((like, twin))
            kinds[twin] = (kinds[twin][0] if twin in kinds else one, kinds.get(twin, (one, 0))[1] + 1)
        self.kinds = tuple(kinds.values())
        first = min(int(one.dates[0]) for one in costs)
        self.width = max(int(one.dates[-1]) for one in costs) - first + 1
        self.first = first

    def plan(self, prices: NDArray[np.int64]) -> tuple[int, NDArray[np.int64]]:
        """What all runs cost with these prices on their tests, and how many tests then stand on each date."""
        total, tests = 0, np.zeros_like(prices)
        for one, count in self.kinds:
            columns = one.dates - self.first
            at = [i for i, lesson in enumerate(one.lessons) if lesson.kind == "test"]
            row = prices[columns][None, :]
            found = cheapest_many(one, dict.fromkeys(at, row), starts=1)[0]
            assert isinstance(found, Cheapest), "it was planned before, so it fits"  # noqa: S101 (it cannot be otherwise)
            total += count * found.cost
            for i in at:
                if found.places[i] != LEFT_OUT:
                    tests[columns[found.places[i]]] += count
        return total, tests
