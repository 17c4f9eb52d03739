"""Several runs in one year: few tests on one date, single things not wanted twice at once.

Each run is planned exactly against the others' fixed tests, over and over until nothing gets better, from 24 seeded
starts side by side; the cheapest is kept. `family_bound` tells how far from the best that can be.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from dayleaf.core.seeds import seed_from
from dayleaf.plan.family_bound import family_bound
from dayleaf.plan.path import Cheapest, Stuck, cheapest, cheapest_many, plan_at
from dayleaf.plan.path_costs import RunCosts
from dayleaf.plan.path_moves import LEFT_OUT
from dayleaf.plan.price import price_year
from dayleaf.plan.run import FamilyPlan

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from datetime import date

    from numpy.typing import NDArray

    from dayleaf.core.ids import LessonId
    from dayleaf.plan.run import FamilyYear

STARTS: Final = 24
ROUNDS: Final = 12
"""How often each run is planned again at most; most starts settle after three or four rounds."""

TEST: Final = ""
"""What stands for a test among the things that two runs would rather not need on one date."""

Places = tuple[int, ...]


@dataclass(frozen=True, slots=True)
class NoDay:
    """A run that does not fit: its place among the year's runs, and its first lesson without a day."""

    run: int
    lesson: LessonId


def plan_family(
    year: FamilyYear, *, keep: Sequence[Mapping[LessonId, date]] = (), starts: int = STARTS
) -> FamilyPlan | NoDay:
    """The cheapest plan of all runs together that was found, or the first run that does not fit by itself.

    One run by itself is planned exactly. With `keep`, dates by run, as few of them change as can be, and the bound is
    that of the runs by themselves. The same year gives the same plan.
    """
    known = keep or [{} for _ in year.runs]
    costs = [RunCosts(run, year.rules, year.wishes, dates) for run, dates in zip(year.runs, known, strict=True)]
    alone: list[Cheapest] = []
    for n, one in enumerate(costs):
        found = cheapest(one)
        if isinstance(found, Stuck):
            return NoDay(run=n, lesson=one.lessons[found.at].id)
        alone.append(found)
    floor = spent = sum(one.cost for one in alone)
    best = [one.places for one in alone]
    if len(costs) > 1:
        table = _Table(year, costs)
        best, spent = table.search(alone, starts=starts)
    plans = tuple(plan_at(one, places) for one, places in zip(costs, best, strict=True))
    cost = price_year(year, plans)
    total = sum(cost.values())
    if not any(known) and spent > floor:
        floor = max(floor, family_bound(year, costs, best=spent))
    return FamilyPlan(plans=plans, cost=cost, bound=max(0, total - (spent - floor)))


class _Table:
    """Who needs what when, for every start: `wanted[start, thing, date]` counts the runs."""

    def __init__(self, year: FamilyYear, costs: Sequence[RunCosts]) -> None:
        self.costs = costs
        things = (TEST, *sorted(year.one_of))
        self.weights = [year.wishes.tests_together, *(year.wishes.materials_together for _ in things[1:])]
        self.needs = [_needs(one, things) for one in costs]
        first = min((int(one.dates[0]) for one in costs if one.dates.size), default=0)
        self.columns = [one.dates - first for one in costs]
        self.width = max((int(one[-1]) + 1 for one in self.columns if one.size), default=1)

    def search(self, alone: Sequence[Cheapest], *, starts: int) -> tuple[list[Places], int]:
        """The best places found for all runs, and what they cost with the pairs."""
        begun = [self._begin(r, one, starts) for r, one in enumerate(alone)]
        places = [[one.places for one in each] for each in begun]
        base = [[one.cost for one in each] for each in begun]
        wanted = np.zeros((starts, len(self.weights), self.width), dtype=np.int64)
        for r, each in enumerate(places):
            for s, one in enumerate(each):
                self._note(wanted[s], r, one, 1)
        stale = np.ones((starts, len(alone)), dtype=bool)
        for _ in range(ROUNDS):
            for r in range(len(alone)):
                self._improve(r, places, wanted, base, stale)
            if not stale.any():
                break
        totals = [sum(each[s] for each in base) + self._pairs(wanted[s]) for s in range(starts)]
        best = int(np.argmin(totals))
        return [each[best] for each in places], totals[best]

    def _begin(self, r: int, alone: Cheapest, starts: int) -> list[Cheapest]:
        """The first start is the run by itself; the others dodge dates that were drawn by lot."""
        draw = np.random.default_rng(seed_from("a family's year", r))
        size = len(self.costs[r].days)
        noise = draw.integers(0, self.weights[0] + 1, (starts - 1, size), dtype=np.int64)
        tests = {i: noise for i, things in self.needs[r].items() if 0 in things}
        begun = [alone]
        for n, one in enumerate(cheapest_many(self.costs[r], tests, starts=starts - 1) if starts > 1 else ()):
            if isinstance(one, Cheapest):
                added = sum(int(noise[n, one.places[i]]) for i in tests if one.places[i] != LEFT_OUT)
                begun.append(Cheapest(places=one.places, cost=one.cost - added))
        return begun

    def _improve(
        self,
        r: int,
        places: list[list[Places]],
        wanted: NDArray[np.int64],
        base: list[list[int]],
        stale: NDArray[np.bool_],
    ) -> None:
        """Plan one run again in every start in which the others changed."""
        active = np.flatnonzero(stale[:, r])
        if not active.size:
            return
        stale[active, r] = False
        for s in active:
            self._note(wanted[s], r, places[r][s], -1)
        extra = self._extra(r, wanted[active])
        found = cheapest_many(self.costs[r], extra, starts=active.size)
        for n, (s, one) in enumerate(zip(active, found, strict=True)):
            before = places[r][s]
            charged = sum(int(more[n, before[i]]) for i, more in extra.items() if before[i] != LEFT_OUT)
            if not isinstance(one, Stuck) and one.cost < base[r][s] + charged:
                added = sum(int(more[n, one.places[i]]) for i, more in extra.items() if one.places[i] != LEFT_OUT)
                places[r][s], base[r][s] = one.places, one.cost - added
                stale[s, :] = True
                stale[s, r] = False
            self._note(wanted[s], r, places[r][s], 1)

    def _extra(self, r: int, others: NDArray[np.int64]) -> dict[int, NDArray[np.int64]]:
        columns = others[:, :, self.columns[r]]
        sums: dict[tuple[int, ...], NDArray[np.int64]] = {}
        for things in self.needs[r].values():
            if things not in sums:
                sums[things] = sum((self.weights[t] * columns[:, t] for t in things), np.zeros_like(columns[:, 0]))
        return {i: sums[things] for i, things in self.needs[r].items()}

    def _note(self, wanted: NDArray[np.int64], r: int, places: Places, by: int) -> None:
        days: dict[int, set[int]] = {}
        for i, things in self.needs[r].items():
            if places[i] != LEFT_OUT:
                days.setdefault(places[i], set()).update(things)
        for day, needed in days.items():
            wanted[sorted(needed), self.columns[r][day]] += by

    def _pairs(self, wanted: NDArray[np.int64]) -> int:
        return int(sum(w * (n * (n - 1) // 2).sum() for w, n in zip(self.weights, wanted, strict=True)))


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
