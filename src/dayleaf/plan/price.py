"""What any plan of a family's year costs, wish by wish: a plan of ours or of anybody else's."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections import Counter, defaultdict
from itertools import pairwise
from typing import TYPE_CHECKING, Any

from dayleaf.plan.days import year_days
from dayleaf.plan.path_costs import spread_places
from dayleaf.plan.wishes import WISH_NAMES, price_of_leaving_out

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from dayleaf.plan.days import YearDay
    from dayleaf.plan.lessons import PlanLesson
    from dayleaf.plan.run import FamilyYear, RunPlan
    from dayleaf.plan.wishes import Wishes


def price_year(
    year: FamilyYear, plans: Sequence[RunPlan], days: Sequence[Sequence[YearDay]] | None = None
) -> dict[str, int]:
    """What each wish costs over all runs, every wish named; a plan that breaks rules has its price too.

    `days` are the learning days of each run's calendar, where they are known already.
    """
    cost = Counter(dict.fromkeys(WISH_NAMES, 0))
    for n, plan in enumerate(plans):
        cost.update(price_run(plan, year.wishes, None if days is None else days[n]))
    cost["tests_together"] = year.wishes.tests_together * _pairs(_tests(plans))
    cost["materials_together"] = year.wishes.materials_together * _pairs(_things(year, plans))
    return dict(cost)


def price_run(plan: RunPlan, wishes: Wishes, days: Sequence[YearDay] | None = None) -> dict[str, int]:
    """What the wishes of one run cost by itself; wishes that cost nothing may be absent.

    `days` are the learning days of its calendar, where they are known already.
    """
    days = year_days(plan.run.calendar) if days is None else days
    found = {one.id: one for one in plan.run.lessons}
    placed = sorted(((one.day, found[one.lesson]) for one in plan.placed), key=lambda pair: pair[0])
    cost: Counter[str] = Counter()
    by_day = {one.day: one for one in days}
    for day, lesson in placed:
        cost.update(_of_lesson(lesson, by_day.get(day), wishes))
        if plan.run.wished_end is not None and day > plan.run.wished_end:
            cost["past_wished_end"] += wishes.past_wished_end
    kept = {lesson.id for _, lesson in placed}
    for lesson in plan.run.lessons:
        if lesson.id not in kept:
            name, price = price_of_leaving_out(wishes, lesson)
            cost[name] += price
    dates = [one.day for one in days]
    free = 0
    for day, lesson in placed:
        if not lesson.opens or lesson.id == plan.run.lessons[0].id:
            cost["pause_in_chapter"] += wishes.pause_in_chapter * max(0, bisect_left(dates, day) - free)
        free = bisect_right(dates, day)
    cost["join"] += wishes.join * sum(1 for (one, _), (other, _) in pairwise(placed) if one == other)
    wanted = spread_places(plan.run, days=len(days))
    for day, lesson in placed:
        if lesson.id in wanted:
            cost["spread"] += wishes.spread * abs(bisect_left(dates, day) - wanted[lesson.id])
    return dict(cost)


def _of_lesson(lesson: PlanLesson, at: YearDay | None, wishes: Wishes) -> dict[str, int]:
    if at is None:
        return {}
    cost = {}
    if at.short and at.minutes < lesson.minutes:
        cost["short_day"] = wishes.short_day
    if lesson.kind == "test":
        cost["test_after_break"] = wishes.test_after_break * at.after_break
        cost["test_after_weekend"] = wishes.test_after_weekend * at.after_weekend
        cost["test_before_holiday"] = wishes.test_before_holiday * at.before_holiday
    return cost


def _tests(plans: Sequence[RunPlan]) -> Counter[date]:
    kinds = [{one.id: one.kind for one in plan.run.lessons} for plan in plans]
    return Counter(
        one.day for plan, kind in zip(plans, kinds, strict=True) for one in plan.placed if kind[one.lesson] == "test"
    )


def _things(year: FamilyYear, plans: Sequence[RunPlan]) -> Counter[tuple[date, str]]:
    """How many runs need each single thing on each date."""
    wanted: dict[tuple[date, str], set[int]] = defaultdict(set)
    for n, plan in enumerate(plans):
        needs = {one.id: year.one_of.intersection(one.materials) for one in plan.run.lessons}
        for one in plan.placed:
            for thing in needs[one.lesson]:
                wanted[one.day, thing].add(n)
    return Counter({key: len(runs) for key, runs in wanted.items()})


def _pairs(counts: Counter[Any]) -> int:
    return sum(n * (n - 1) // 2 for n in counts.values())
