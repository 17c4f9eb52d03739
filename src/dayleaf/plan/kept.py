"""One child's year as a home keeps it, and the years of several children as one family's year on a given day."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from dayleaf.plan.run import FamilyYear
from dayleaf.plan.wishes import Rules, Wishes

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from datetime import date

    from dayleaf.plan.run import RunPlan


@dataclass(frozen=True, slots=True)
class KeptYear:
    """A child's plans, the first that of the course with pages, and what the household asked for when they were made.

    `country` and `subdivision` say whose list the public holidays were chosen from; `one_of` are materials of which
    the house has one. What was done is not kept here: it follows from the dates before today and from the events.
    """

    plans: tuple[RunPlan, ...]
    rules: Rules = field(default_factory=Rules)
    wishes: Wishes = field(default_factory=Wishes)
    one_of: frozenset[str] = frozenset()
    country: str = ""
    subdivision: str = ""

    @property
    def main(self) -> RunPlan:
        """The plan of the course with pages."""
        return self.plans[0]


def on_day(plan: RunPlan, today: date) -> RunPlan:
    """The plan as it stands on a morning: what lies before `today` is taken as done, and nothing is planned there."""
    done = tuple(one for one in plan.placed if one.day < today)
    return replace(plan, run=replace(plan.run, done=done, not_before=today))


def as_kept(plan: RunPlan) -> RunPlan:
    """The plan without what only holds on one day."""
    return replace(plan, run=replace(plan.run, done=(), not_before=None))


def family_on(years: Iterable[KeptYear], today: date) -> tuple[FamilyYear, tuple[RunPlan, ...]]:
    """All runs of all children as one family's year on a morning, and their plans in force, in the same order.

    Rules and wishes are those of the first year that has any: a household has one set of them.
    """
    found = tuple(years)
    plans = tuple(on_day(plan, today) for year in found for plan in year.plans)
    one_of = frozenset(thing for year in found for thing in year.one_of)
    first = found[0] if found else KeptYear(())
    runs = tuple(plan.run for plan in plans)
    return FamilyYear(runs=runs, rules=first.rules, wishes=first.wishes, one_of=one_of), plans


def with_plans(years: Sequence[KeptYear], plans: Sequence[RunPlan]) -> tuple[KeptYear, ...]:
    """The years with these plans in the place of their own, in the order of `family_on`."""
    rest = iter(plans)
    return tuple(replace(year, plans=tuple(as_kept(next(rest)) for _ in year.plans)) for year in years)
