"""A year lived day by day: days are lost as they are in a family, and the plan bends each morning without hindsight.

The model of lost days is ours (common practice, no source): an illness begins on one school morning in 70 and keeps a
child from its lessons for one to five days; beside that one morning in 20 is lost to everything else.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, timedelta
from random import Random
from typing import TYPE_CHECKING

from dayleaf.core.ids import CourseId, LearnerId
from dayleaf.course.load import grade2
from dayleaf.plan.calendar import DaysOff, LearningCalendar, holidays_of, learning_days
from dayleaf.plan.days import year_days
from dayleaf.plan.family import NoDay, plan_family
from dayleaf.plan.lessons import lessons_of
from dayleaf.plan.replan import Happened, ways_on
from dayleaf.plan.run import CourseRun, FamilyYear, RunPlan

if TYPE_CHECKING:
    from collections.abc import Iterator

ILLNESS = 1 / 70
LONGEST_ILLNESS = 5
OTHER = 1 / 20


@dataclass(frozen=True, slots=True)
class Lived:
    """One year: days lost, dates changed by us and by pushing everything, days past the family's end, bad tests."""

    lost: int
    changed: int
    pushed: int
    late: int
    bad_tests: int
    enough: bool
    """Whether the free days were as many as the days lost."""


def family_year(*, end: date) -> FamilyYear:
    """A family on five days a week with public holidays and two breaks."""
    calendar = LearningCalendar(
        start=date(2026, 8, 17),
        minutes=dict.fromkeys(range(5), 45),
        holidays=holidays_of("US", (2026, 2027)),
        off=(
            DaysOff(first=date(2026, 12, 21), last=date(2027, 1, 1), name="midwinter"),
            DaysOff(first=date(2027, 3, 15), last=date(2027, 3, 19), name="spring week"),
        ),
        end=end,
    )
    run = CourseRun(
        learner=LearnerId("wren"), course=CourseId("grade2"), lessons=lessons_of(grade2()), calendar=calendar
    )
    return FamilyYear(runs=(run,))


def lost_days(year: FamilyYear, seed: int) -> frozenset[date]:
    """The days on which nothing can be done, known to nobody before they come."""
    draw = Random(seed)
    lost: set[date] = set()
    ill_until = date.min
    for one in learning_days(year.runs[0].calendar):
        if one.day > ill_until and draw.random() < ILLNESS:
            ill_until = one.day + timedelta(days=draw.randint(1, LONGEST_ILLNESS) - 1)
        if one.day <= ill_until or draw.random() < OTHER:
            lost.add(one.day)
    return frozenset(lost)


def live(year: FamilyYear, seed: int) -> Lived:
    """Live one year: each morning that is lost the plan is bent from that morning on."""
    lost = lost_days(year, seed)
    begun = plan_family(year)
    assert not isinstance(begun, NoDay), "the year fits"  # noqa: S101 (a benchmark's own year)
    (plan,) = begun.plans
    end = year.runs[0].calendar.end
    free = len(learning_days(year.runs[0].calendar)) - len(year.runs[0].lessons)
    changed = pushed = happened = 0
    for day in sorted(lost):
        if day not in plan.dates.values():
            continue  # a free day was lost: nothing moves
        happened += 1
        pushed += sum(1 for one in plan.placed if one.day >= day)
        best = ways_on(
            replace(year, runs=(plan.run,)), [plan], [Happened(missed=(day,))], today=day, ways=("spare", "trim")
        )[0]
        changed += len(best.moved)
        (plan,) = best.plan.plans
    late = 0 if end is None or plan.last is None else max(0, (plan.last - end).days)
    return Lived(len(lost), changed, pushed, late, _bad_tests(plan, year), enough=free >= happened)


def _bad_tests(plan: RunPlan, year: FamilyYear) -> int:
    """Tests after a weekend or before a day off by the family's calendar, or first thing after five days off."""
    lived = {one.day: one for one in year_days(plan.run.calendar)}
    known = {one.day: one for one in year_days(year.runs[0].calendar)}
    tests = {one.id for one in year.runs[0].lessons if one.kind == "test"}
    on = [one.day for one in plan.placed if one.lesson in tests]
    return sum(lived[day].after_break or known[day].after_weekend or known[day].before_holiday for day in on)


def lived_years(*, end: date, runs: int) -> Iterator[Lived]:
    """So many years of one family, each with luck of its own."""
    year = family_year(end=end)
    return (live(year, seed) for seed in range(runs))
