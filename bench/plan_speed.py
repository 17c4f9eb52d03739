"""How long a family's year takes to plan, to bend and to be refused, each beside an alternative in the same run."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from time import process_time
from typing import TYPE_CHECKING, Any, Final

from timed import REPEATS, Figure
from years_lived import family_year
from years_model import single_cost
from years_solver import family_cost

from dayleaf.core.ids import LearnerId
from dayleaf.plan.calendar import learning_days
from dayleaf.plan.family import NoDay, plan_family
from dayleaf.plan.path import cheapest_run
from dayleaf.plan.priced_ways import refuse
from dayleaf.plan.replan import Happened, ways_on
from dayleaf.plan.run import CourseRun, FamilyPlan, FamilyYear, RunPlan
from dayleaf.plan.wishes import Rules, Wishes
from dayleaf.plan.year import Placed

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from dayleaf.plan.replan import WayOn

END = date(2027, 6, 25)
ONLY_SPARE: Final[tuple[WayOn, ...]] = ("spare",)
SECONDS = 20
"""What the solvers are given at most."""


def plan_figures() -> Iterator[Figure]:
    """Year for one, for six, a missed day, the ways out, a weekday switched off; processor time on one core."""
    year = family_year(end=END)
    (run,) = year.runs
    one = _ms(lambda: cheapest_run(run, rules=Rules(), wishes=Wishes()))
    scan = _ms(lambda: scanned(run))
    yield Figure("a year for one child", one, "a greedy scan", scan, "rules, wishes, free days", limit_ms=10)
    solver = _ms(lambda: single_cost(year, seconds=SECONDS), repeats=1)
    yield Figure("the same", one, f"CP-SAT, at most {SECONDS} s", solver, "often no proof in that time", limit_ms=10)
    six = family(6)
    known = _planned(six).total
    ours = _ms(lambda: plan_family(six))
    flow = _ms(lambda: family_cost(six, seconds=SECONDS, known=known), repeats=1)
    yield Figure(
        "a year for six children", ours, f"a flow for SCIP, at most {SECONDS} s", flow, "no proof", limit_ms=1000
    )
    yield _bent(year)
    short = replace(year, runs=(replace(run, calendar=replace(run.calendar, end=date(2027, 4, 25))),))
    no = plan_family(short)
    assert isinstance(no, NoDay)  # noqa: S101 (so chosen)
    again = _ms(lambda: [cheapest_run(run, rules=Rules(), wishes=Wishes()) for _ in range(20)])
    out = _ms(lambda: refuse(short, no.run, no.lesson))
    yield Figure("a no with its ways out", out, "planning the year 20 times", again, "what is lost", limit_ms=200)
    four = family(4)
    switched = replace(four, runs=tuple(replace(each, calendar=_without_friday(each)) for each in four.runs))
    what_if = _ms(lambda: plan_family(switched))
    each_alone = _ms(lambda: [plan_family(FamilyYear(runs=(each,))) for each in switched.runs])
    yield Figure("four children without Fridays", what_if, "each by itself", each_alone, "the others", limit_ms=2000)


def family(count: int) -> FamilyYear:
    """Children on one course, begun at different lessons, all on the same days."""
    (run,) = family_year(end=END).runs
    return FamilyYear(
        runs=tuple(
            replace(
                run, learner=LearnerId(f"child-{n}"), lessons=run.lessons[begin:], may_join=True, may_leave_out=True
            )
            for n, begin in enumerate((0, 0, 20, 40, 10, 30)[:count])
        )
    )


def scanned(run: CourseRun) -> tuple[Placed, ...]:
    """A greedy scan: each lesson on the next learning day, no rule and no wish looked at."""
    days = learning_days(run.calendar)
    return tuple(Placed(lesson=one.id, day=day.day) for one, day in zip(run.lessons, days, strict=False))


def pushed(plan: RunPlan, lost: date) -> tuple[Placed, ...]:
    """What most families do: everything from the lost day on comes a learning day later."""
    days = [one.day for one in learning_days(plan.run.calendar) if one.day > lost]
    moving = [one for one in plan.placed if one.day >= lost]
    return tuple(Placed(lesson=one.lesson, day=day) for one, day in zip(moving, days, strict=False))


def _bent(year: FamilyYear) -> Figure:
    (plan,) = _planned(year).plans
    day = plan.placed[60].day
    lost = Happened(missed=(day,))
    spare = _ms(lambda: ways_on(year, [plan], [lost], today=day, ways=ONLY_SPARE))
    push = _ms(lambda: pushed(plan, day))
    return Figure("a missed day taken up", spare, "pushing everything", push, "moves every date after it", limit_ms=5)


def _without_friday(run: Any) -> Any:
    return replace(run.calendar, minutes={day: n for day, n in run.calendar.minutes.items() if day != 4})


def _planned(year: FamilyYear) -> FamilyPlan:
    plan = plan_family(year)
    assert isinstance(plan, FamilyPlan)  # noqa: S101 (the year fits)
    return plan


def _ms(do: Callable[[], object], *, repeats: int = REPEATS) -> float:
    """The least processor time of one call in milliseconds: others on the machine only add to it."""
    taken = []
    for _ in range(repeats):
        start = process_time()
        do()
        taken.append((process_time() - start) * 1000)
    return min(taken)
