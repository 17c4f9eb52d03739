"""The search for a cheap year of several runs: each is planned exactly against the others' fixed tests, many times.

Starts are worked out side by side, so that one pass over the days serves them all. A start has settled when no run
gets cheaper by being planned again. Then the best are shaken, two runs at a time, and settle again.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from dayleaf.core.seeds import seed_from
from dayleaf.plan.path import Cheapest, cheapest_many
from dayleaf.plan.path_moves import LEFT_OUT

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from dayleaf.plan.path_costs import RunCosts
    from dayleaf.plan.run import FamilyYear

ROUNDS: Final = 12
"""How often each run is planned again at most; most starts settle after three or four rounds."""

SHAKES: Final = 2
KEPT: Final = 4
"""How many of the best are shaken."""

TEST: Final = ""
"""What stands for a test among the things that two runs would rather not need on one date."""

Ways = list[Cheapest]
"""A way through every run; each costs what it costs by itself."""


@dataclass(frozen=True, slots=True)
class Settled:
    """A way through every run that no single run can better, and what it costs with the pairs."""

    ways: Ways
    cost: int


class FamilySearch:
    """The runs of one year against common dates. `wanted[start, thing, date]` counts the runs that need a thing."""

    def __init__(self, year: FamilyYear, costs: Sequence[RunCosts]) -> None:
        self.costs = costs
        things = (TEST, *sorted(year.one_of))
        self.weights = [year.wishes.tests_together, *(year.wishes.materials_together for _ in things[1:])]
        self.needs = [_needs(one, things) for one in costs]
        self.wanting = [
            [[i for i, needed in needs.items() if t in needed] for t in range(len(things))] for needs in self.needs
        ]
        first = min((int(one.dates[0]) for one in costs if one.dates.size), default=0)
        self.columns = [one.dates - first for one in costs]
        self.width = max((int(one[-1]) + 1 for one in self.columns if one.size), default=1)

    def search(self, known: Sequence[Sequence[Cheapest]], *, starts: int, enough: int) -> Settled:
        """The best found; it is over once that costs no more than `enough`.

        It begins with ways that are `known`, up to half of the starts, and with others that dodge dates drawn by lot.
        """
        begun = [list(ways) for ways in known[: max(1, starts // 2)]]
        draw = np.random.default_rng(seed_from("a family's year"))
        if starts > len(begun):
            begun += self._drawn(draw, list(known[0]), starts - len(begun))
        best = self._settle(begun)
        for _ in range(SHAKES if starts > 1 else 0):
            if best[0].cost <= enough:
                break
            shaken = self._shake(draw, [one.ways for one in best[:KEPT]], starts // 2)
            best = sorted((*best[:KEPT], *self._settle(shaken)), key=lambda one: one.cost)
        return best[0]

    def _drawn(self, draw: np.random.Generator, alone: Ways, count: int) -> list[Ways]:
        """Ways that dodge dates drawn by lot, each run by itself."""
        drawn = [list(alone) for _ in range(count)]
        for r in range(len(alone)):
            self._plan_again(r, drawn, list(range(count)), self._noise(draw, r, count))
        return drawn

    def _shake(self, draw: np.random.Generator, best: list[Ways], starts: int) -> list[Ways]:
        """Copies of the best in which two runs were planned again with dates to dodge."""
        shaken = [list(best[s % len(best)]) for s in range(starts)]
        picks = [set(draw.choice(len(self.costs), 2, replace=False).tolist()) for _ in range(starts)]
        wanted = self._wanted(shaken)
        for r in range(len(self.costs)):
            active = [s for s in range(starts) if r in picks[s]]
            if active:
                for s in active:
                    self._note(wanted[s], r, shaken[s][r], -1)
                self._plan_again(r, shaken, active, wanted[active] + self._noise(draw, r, len(active)))
                for s in active:
                    self._note(wanted[s], r, shaken[s][r], 1)
        return shaken

    def _noise(self, draw: np.random.Generator, r: int, count: int) -> NDArray[np.int64]:
        """As if some dates had other people's tests: 0 or 1 on each date, by start."""
        noise = np.zeros((count, len(self.weights), self.width), dtype=np.int64)
        noise[:, 0, self.columns[r]] = draw.integers(0, 2, (count, self.columns[r].size))
        return noise

    def _plan_again(self, r: int, ways: list[Ways], active: list[int], others: NDArray[np.int64]) -> None:
        """Plan one run in some of the starts, whatever it cost before."""
        extra = self._extra(r, others)
        for n, (s, one) in enumerate(zip(active, cheapest_many(self.costs[r], extra, starts=len(active)), strict=True)):
            if isinstance(one, Cheapest):
                ways[s][r] = Cheapest(places=one.places, cost=one.cost - _charged(extra, n, one.places))

    def _settle(self, ways: list[Ways]) -> list[Settled]:
        """Every start settled, the cheapest first; of equal cost the earlier start first."""
        wanted = self._wanted(ways)
        stale = np.ones((len(ways), len(self.costs)), dtype=bool)
        for _ in range(ROUNDS):
            for r in range(len(self.costs)):
                self._improve(r, ways, wanted, stale)
            if not stale.any():
                break
        found = [Settled(each, sum(one.cost for one in each) + self._pairs(wanted[s])) for s, each in enumerate(ways)]
        return sorted(found, key=lambda one: one.cost)

    def _improve(self, r: int, ways: list[Ways], wanted: NDArray[np.int64], stale: NDArray[np.bool_]) -> None:
        """Plan one run again in every start in which another changed, and keep what is cheaper."""
        active = np.flatnonzero(stale[:, r])
        if not active.size:
            return
        stale[active, r] = False
        for s in active:
            self._note(wanted[s], r, ways[s][r], -1)
        extra = self._extra(r, wanted[active])
        found = cheapest_many(self.costs[r], extra, starts=active.size)
        for n, (s, one) in enumerate(zip(active, found, strict=True)):
            before = ways[s][r]
            if isinstance(one, Cheapest) and one.cost < before.cost + _charged(extra, n, before.places):
                ways[s][r] = Cheapest(places=one.places, cost=one.cost - _charged(extra, n, one.places))
                stale[s, :] = True
                stale[s, r] = False
            self._note(wanted[s], r, ways[s][r], 1)

    def _extra(self, r: int, others: NDArray[np.int64]) -> dict[int, NDArray[np.int64]]:
        """What the lessons of one run cost more, by start and day, for what others need."""
        columns = others[:, :, self.columns[r]]
        sums: dict[tuple[int, ...], NDArray[np.int64]] = {}
        for things in self.needs[r].values():
            if things not in sums:
                sums[things] = sum((self.weights[t] * columns[:, t] for t in things), np.zeros_like(columns[:, 0]))
        return {i: sums[things] for i, things in self.needs[r].items()}

    def _wanted(self, ways: list[Ways]) -> NDArray[np.int64]:
        wanted = np.zeros((len(ways), len(self.weights), self.width), dtype=np.int64)
        for s, each in enumerate(ways):
            for r, one in enumerate(each):
                self._note(wanted[s], r, one, 1)
        return wanted

    def _note(self, wanted: NDArray[np.int64], r: int, way: Cheapest, by: int) -> None:
        for t, lessons in enumerate(self.wanting[r]):
            days = {way.places[i] for i in lessons}
            days.discard(LEFT_OUT)
            if days:
                wanted[t, self.columns[r][list(days)]] += by

    def _pairs(self, wanted: NDArray[np.int64]) -> int:
        return int(sum(w * (n * (n - 1) // 2).sum() for w, n in zip(self.weights, wanted, strict=True)))


def _charged(extra: dict[int, NDArray[np.int64]], n: int, places: Sequence[int]) -> int:
    """What was added to the cost of these places in the n-th of several starts."""
    return sum(more.item(n, places[i]) for i, more in extra.items() if places[i] != LEFT_OUT)


def _needs(costs: RunCosts, things: Sequence[str]) -> dict[int, tuple[int, ...]]:
    """Which of the things each lesson needs, a test counting as the first; lessons that need none are absent."""
    found = {}
    for i, one in enumerate(costs.lessons):
        needed = tuple(
            t for t, thing in enumerate(things) if (one.kind == "test" if t == 0 else thing in one.materials)
        )
        if needed:
            found[i] = needed
    return found
