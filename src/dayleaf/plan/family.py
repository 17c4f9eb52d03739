"""Several runs in one year: few tests on one date, single things not wanted twice at once, and how good that is."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from dayleaf.plan.family_bound import relax
from dayleaf.plan.family_search import FamilySearch
from dayleaf.plan.path import Cheapest, Stuck, cheapest, plan_at
from dayleaf.plan.path_costs import RunCosts
from dayleaf.plan.price import price_year
from dayleaf.plan.run import FamilyPlan

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from datetime import date

    from dayleaf.core.ids import LessonId
    from dayleaf.plan.days import YearDay
    from dayleaf.plan.run import FamilyYear, RunPlan

STARTS: Final = 24


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
    laid = lay_family(year, keep=keep, starts=starts)
    if isinstance(laid, NoDay):
        return laid
    cost = price_year(year, laid.plans, laid.days)
    return FamilyPlan(plans=laid.plans, cost=cost, bound=max(0, sum(cost.values()) - laid.open))


@dataclass(frozen=True, slots=True)
class Laid:
    """The plans of all runs, not priced yet, and the learning days of each. They may cost `open` too much at most."""

    plans: tuple[RunPlan, ...]
    days: tuple[tuple[YearDay, ...], ...]
    open: int


def lay_family(
    year: FamilyYear, *, keep: Sequence[Mapping[LessonId, date]] = (), starts: int = STARTS
) -> Laid | NoDay:
    """The plans as `plan_family` finds them."""
    known = keep or [{} for _ in year.runs]
    costs = [RunCosts(run, year.rules, year.wishes, dates) for run, dates in zip(year.runs, known, strict=True)]
    alone: list[Cheapest] = []
    for n, one in enumerate(costs):
        found = cheapest(one)
        if isinstance(found, Stuck):
            return NoDay(run=n, lesson=one.lessons[found.at].id)
        alone.append(found)
    floor = spent = sum(one.cost for one in alone)
    ways = alone
    if len(costs) > 1:
        table = FamilySearch(year, costs)
        settled = table.search([alone], starts=1, enough=floor)
        if settled.cost > floor and not any(known):
            relaxed = relax(year, costs, best=settled.cost)
            floor = max(floor, relaxed.bound)
            settled = table.search((settled.ways, *relaxed.met[:0:-1]), starts=starts, enough=floor)
        ways, spent = settled.ways, settled.cost
    plans = tuple(plan_at(one, way.places) for one, way in zip(costs, ways, strict=True))
    return Laid(plans, tuple(one.days for one in costs), spent - min(floor, spent))
