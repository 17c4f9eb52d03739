"""How a home's year changes: begun, bent to another calendar, bent when life happens, given back.

What a change would give is worked out first (`Outcome`) and written only when it is kept. A change of several
children's plans is one act: it is written in one transaction and undone in one.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from django.db import transaction

from dayleaf.plan.busy import days_off, read_busy
from dayleaf.plan.calendar import LONGEST, learning_days
from dayleaf.plan.calendar_changes import without_off
from dayleaf.plan.codec import to_json
from dayleaf.plan.family import NoDay, plan_family
from dayleaf.plan.kept import KeptYear, as_kept, family_on, with_plans
from dayleaf.plan.price import price_year
from dayleaf.plan.priced_ways import refuse
from dayleaf.plan.replan import Happened, bend, settled, ways_on
from dayleaf.plan.run import FamilyPlan, FamilyYear
from dayleaf.records import selectors, services
from dayleaf.records.busy_times import busy_keep, busy_times
from dayleaf.records.errors import NothingToUndo
from dayleaf.records.feeds import feed_turned
from dayleaf.records.plans import home_year, kept_year

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence
    from datetime import date, datetime

    from dayleaf.core.errors import Problem
    from dayleaf.plan.busy import BusyTime
    from dayleaf.plan.priced_ways import Refusal
    from dayleaf.plan.replan import Bent
    from dayleaf.plan.run import CourseRun
    from dayleaf.records.models import Learner
    from dayleaf.records.plans import HomeYear


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a change gives: the year bent to it, or the honest no with its ways out. `family` is the year wished for."""

    home: HomeYear
    family: FamilyYear
    bent: Bent | None
    refusal: Refusal | None = None


@transaction.atomic
def year_begin(
    runs: Mapping[Learner, CourseRun],
    *,
    today: date,
    at: datetime | None = None,
    years: KeptYear | None = None,
    reason: str = "the first plan",
) -> Refusal | None:
    """Plan these children's courses beside the plans in force and keep the plans, or say no and keep nothing.

    A child who has a plan begins anew with this one as its course with pages; courses beside it stay. `years` says what
    else the household asked for, where nobody has a plan yet.
    """
    household = next(iter(runs)).household
    begun = {learner.id for learner in runs}
    home = home_year([one for one in selectors.learners(household) if one.id not in begun], today=today)
    usual = home.years[0] if home.years else years or KeptYear(())
    family = FamilyYear(
        runs=(*home.family.runs, *runs.values()), rules=usual.rules, wishes=usual.wishes, one_of=usual.one_of
    )
    found = bend(family, home.plans) if home.plans else plan_family(family)
    if isinstance(found, NoDay):
        return refuse(family, found.run, found.lesson)
    plan = found if isinstance(found, FamilyPlan) else found.plan
    together = services.new_id() if len(runs) > 1 else ""
    for learner, own in zip(runs, plan.plans[len(home.plans) :], strict=True):
        before = selectors.plan_version_or_none(learner)
        beside = () if before is None else kept_year(learner).plans[1:]
        year = replace(usual, plans=(as_kept(own), *beside))
        _in_force(learner, year, reason=reason, day=today, at=at, together=together)
    return None


def year_changed(home: HomeYear, change: Callable[[CourseRun], CourseRun], places: Sequence[int]) -> Outcome:
    """What a change of the runs at these places gives; as few dates change as can be."""
    runs = tuple(change(run) if n in places else run for n, run in enumerate(home.family.runs))
    return outcome_of(home, replace(home.family, runs=runs))


def outcome_of(home: HomeYear, family: FamilyYear, *, anew: bool = False) -> Outcome:
    """What it gives when the family's year is this one; laid out `anew` the dates in force do not bind."""
    found = bend(family, home.plans, way="anew" if anew else "spare")
    if isinstance(found, NoDay):
        return Outcome(home, family, None, refuse(family, found.run, found.lesson))
    return Outcome(home, family, found)


def way_taken(home: HomeYear, refusal: Refusal, name: str) -> Outcome | None:
    """What one of the ways out of a no gives; None where there is no way of that name.

    Where another child's course does not fit either, it goes the same way, if there is one.
    """
    outcome: Outcome | None = None
    for _ in home.plans:
        way = next((one for one in refusal.ways if one.name == name), None)
        if way is None:
            return outcome
        outcome = outcome_of(home, way.year)
        if outcome.refusal is None:
            return outcome
        refusal = outcome.refusal
    return outcome


def life_ways(home: HomeYear, happened: Sequence[Happened]) -> tuple[Bent, ...]:
    """The ways to go on when life happens (`plan.replan.ways_on`)."""
    return ways_on(home.family, home.plans, happened, today=home.today)


@transaction.atomic
def bent_keep(
    home: HomeYear,
    bent: Bent,
    *,
    reason: str,
    happened: Sequence[Happened] = (),
    family: FamilyYear | None = None,
    country: str | None = None,
    at: datetime | None = None,
) -> tuple[Learner, ...]:
    """Keep a way to go on; the children whose plan it changes. Days said to be lost are kept as days away.

    Only days up to today are kept so, and only learning days. `family` brings other rules and wishes, `country` is
    that of the holidays that were chosen.
    """
    years = with_plans(home.years, settled(bent, home.plans))
    if family is not None:
        years = tuple(replace(year, rules=family.rules, wishes=family.wishes) for year in years)
    if country is not None:
        years = tuple(replace(year, country=country) for year in years)
    changed = _keep(home, years, reason=reason, at=at)
    for learner in home.learners:
        mine = [one for one in happened if one.learner in {None, learner.id}]
        lost = {day for one in mine for day in one.missed if day <= home.today}
        there = {one.day for n in home.places([learner]) for one in learning_days(home.plans[n].run.calendar)}
        for day in sorted(lost & there):
            services.attendance_set(learner=learner, present=False, day=day, at=at)
    return changed


@transaction.atomic
def day_lost(learner: Learner, *, today: date, reason: str, at: datetime | None = None) -> bool:
    """Move the course with pages on from a day without its lesson, free days first; whether anything moved.

    The child's other courses and the other children stay as they are.
    """
    year = kept_year(learner)
    family, plans = family_on([replace(year, plans=(year.main,))], today)
    ways = ways_on(family, plans, [Happened(missed=(today,))], today=today, ways=("spare", "slide"))
    if not ways or not ways[0].moved:
        return False
    (main,) = settled(ways[0], plans)
    now = replace(year, plans=(as_kept(main), *year.plans[1:]))
    _in_force(learner, now, reason=reason, day=today, at=at, together="")
    return True


@transaction.atomic
def year_undo(learner: Learner, *, today: date, at: datetime | None = None) -> tuple[Learner, ...]:
    """Put the plan before this one in force again, byte for byte, for all children whose plans changed in that act.

    Days that the act had kept as days away are taken back.

    Raises:
        NothingToUndo: the plan in force is the first one.
    """
    version = selectors.plan_version(learner)
    if version.parent is None:
        raise NothingToUndo(learner.name)
    act, found = selectors.plan_together(version), [learner]
    if act:
        for other in selectors.learners(learner.household):
            theirs = selectors.plan_version_or_none(other)
            same = theirs is not None and theirs.parent is not None and selectors.plan_together(theirs) == act
            found += [other] if same and other.id != learner.id else []
    for one in found:
        missed = set(kept_year(one).main.run.calendar.missed)
        feed_turned(one, day=today, at=at)
        services.plan_undo(learner=one, day=today, at=at)
        away = {day for day, present in selectors.attendance_of(one).items() if not present}
        for day in sorted((missed - set(kept_year(one).main.run.calendar.missed)) & away):
            services.attendance_set(learner=one, present=False, taken_back=True, day=day, at=at)
    return tuple(found)


def busy_read(home: HomeYear, content: bytes) -> tuple[Outcome, tuple[BusyTime, ...], tuple[Problem, ...]]:
    """What a family's own calendar file would change: its whole days are days off, instead of those of the one before.

    The times that it takes and what could not be read in it come with it.
    """
    starts = [run.calendar.start for run in home.family.runs]
    first, last = min(starts, default=home.today), max((run.calendar.last for run in home.family.runs), default=None)
    household = home.learners[0].household
    times, problems = read_busy(content, first=first, last=last or first + LONGEST, zone=household.time_zone)
    return busy_changed(home, times), times, problems


def busy_changed(home: HomeYear, times: Sequence[BusyTime]) -> Outcome:
    """What the whole days of these busy times change, instead of those of the calendar read before."""
    household = home.learners[0].household
    before, now = days_off(busy_times(household)), days_off(times)

    def taken(run: CourseRun) -> CourseRun:
        calendar = without_off(run.calendar, before)
        off = tuple(sorted({*calendar.off, *now}, key=lambda one: (one.first, one.last, one.name)))
        return replace(run, calendar=replace(calendar, off=off))

    return year_changed(home, taken, home.places())


@transaction.atomic
def busy_taken(outcome: Outcome, times: Sequence[BusyTime], *, name: str) -> None:
    """Keep a calendar that was read, and the plans bent to it. Nothing is kept where the year does not fit."""
    if outcome.bent is not None:
        busy_keep(outcome.home.learners[0].household, times, name=name, day=outcome.home.today)
        reason = f"the calendar {name}" if times else "no calendar of our own"
        bent_keep(outcome.home, outcome.bent, family=outcome.family, reason=reason)


def priced(home: HomeYear) -> FamilyPlan:
    """The plans in force with what their wishes cost, and the least that any plan of what is still to come can cost."""
    cost = price_year(home.family, home.plans)
    best = plan_family(home.family, starts=1)
    total = sum(cost.values())
    return FamilyPlan(plans=home.plans, cost=cost, bound=total if isinstance(best, NoDay) else min(total, best.bound))


@transaction.atomic
def course_beside(learner: Learner, run: CourseRun, *, today: date, reason: str) -> Refusal | None:
    """Plan another course of a child beside those it has, or say no and keep nothing; its dates bind nobody else's."""
    home = home_year(selectors.learners(learner.household), today=today)
    family = replace(home.family, runs=(*home.family.runs, run))
    found = bend(family, home.plans)
    if isinstance(found, NoDay):
        return refuse(family, found.run, found.lesson)
    year = kept_year(learner)
    now = replace(year, plans=(*year.plans, as_kept(found.plan.plans[-1])))
    _in_force(learner, now, reason=reason, day=today, at=None, together="")
    return None


@transaction.atomic
def course_ended(learner: Learner, course: str, *, today: date, reason: str) -> None:
    """End a course beside that with pages: what was done stays in the calendar's past, nothing more is planned."""
    year = kept_year(learner)
    rest = tuple(plan for plan in year.plans[1:] if plan.run.course != course)
    _in_force(learner, replace(year, plans=(year.main, *rest)), reason=reason, day=today, at=None, together="")


def _keep(home: HomeYear, years: Sequence[KeptYear], *, reason: str, at: datetime | None) -> tuple[Learner, ...]:
    """Write the years of those children for whom something is another now."""
    pairs = zip(home.learners, home.years, years, strict=True)
    changed = [(learner, now) for learner, before, now in pairs if to_json(now) != to_json(before)]
    together = services.new_id() if len(changed) > 1 else ""
    for learner, year in changed:
        _in_force(learner, year, reason=reason, day=home.today, at=at, together=together)
    return tuple(learner for learner, _ in changed)


def _in_force(learner: Learner, year: KeptYear, *, reason: str, day: date, at: datetime | None, together: str) -> None:
    feed_turned(learner, day=day, at=at)
    services.plan_set(learner=learner, plan=to_json(year), reason=reason, day=day, at=at, together=together)
