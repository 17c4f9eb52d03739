"""`dayleaf plan` without a file: the plans in force at home in the same words and JSON, changed and given back."""

from __future__ import annotations

from dataclasses import replace
from time import perf_counter
from typing import TYPE_CHECKING, Any

import click

from dayleaf.cli.plan_calendar import busy_in, home_morning, say_morning, write_calendar
from dayleaf.cli.plan_file import (
    Asked,
    NoSuchWay,
    price_plan,
    say_chance,
    say_plan,
    say_ways,
    say_ways_on,
    without_weekday,
)
from dayleaf.cli.plan_shapes import bent_shape, plan_shape, refusal_shape, way_shape
from dayleaf.cli.shapes import say_json
from dayleaf.core.ids import LearnerId
from dayleaf.plan.calendar import LONGEST
from dayleaf.plan.household import HouseholdFile
from dayleaf.plan.household_learners import Child
from dayleaf.plan.morning_file import read_morning
from dayleaf.plan.priced_ways import priced_ways
from dayleaf.records import replans, selectors
from dayleaf.records.feeds import announced_of, entries_of
from dayleaf.records.plans import home_year
from dayleaf.records.years import days_so_far

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from dayleaf.plan.run import RunPlan
    from dayleaf.records.models import Household, Learner
    from dayleaf.records.plans import HomeYear
    from dayleaf.records.replans import Outcome


def plan_home(household: Household, learners: Sequence[Learner], asked: Asked, *, today: date) -> None:
    """Answer what was asked of the household at home; with `--keep` the answer is put in force.

    Raises:
        NoPlan: a child asked for has none.
        NothingToUndo: the plans in force are the first ones.
    """
    if asked.undo:
        back = replans.year_undo(learners[0], today=today)
        click.echo(f"The plan before is in force again for {', '.join(one.name for one in back)}.", err=asked.as_json)
    for learner in learners if asked.learner else ():
        selectors.plan_version(learner)
    home = home_year(learners, today=today)
    if asked.ics is not None:
        entries = [
            one for learner, year in zip(home.learners, home.years, strict=True) for one in entries_of(learner, year)
        ]
        write_calendar(
            asked.ics,
            entries,
            household=household.id,
            name=household.name,
            zone=household.time_zone,
            today=today,
            also=announced_of(home.learners),
        )
    if asked.morning is not None:
        day = asked.morning
        busy = busy_in(asked.busy, first=day, last=day, zone=household.time_zone) if asked.busy else ()
        say_morning(*home_morning(household, home.learners, day, busy), day, as_json=asked.as_json)
    elif asked.life:
        _life(home, asked)
    elif asked.without is not None:
        family = without_weekday(home.family, asked.without)
        _changed(home, replans.outcome_of(home, family), asked, reason=f"no lessons on {asked.without}")
    elif asked.busy is not None:
        _busy(home, asked)
    elif asked.price is not None:
        price_plan(_as_file(household, home), asked.price, as_json=asked.as_json)
    elif asked.chance is not None:
        say_chance(_as_file(household, home), asked.chance, as_json=asked.as_json, plans=home.plans)
    else:
        _in_force(household, home, asked)


def _in_force(household: Household, home: HomeYear, asked: Asked) -> None:
    begun = perf_counter()
    file, found = _as_file(household, home), replans.priced(home)
    found = replace(found, plans=_named(home, found.plans))
    ways = [(run, priced_ways(file.year, n)) for n, run in enumerate(file.year.runs)] if asked.ways_out else []
    if not asked.as_json:
        say_plan(file, found, today=home.today)
        for run, each in ways:
            click.echo(f"{run.learner}, {run.course}:")
            say_ways(each)
        return
    shape = plan_shape(file, found, ms=(perf_counter() - begun) * 1000)
    if asked.ways_out:
        named = [(run, way) for run, each in ways for way in each]
        shape["ways"] = [{"learner": run.learner, "course": run.course, **way_shape(way)} for run, way in named]
    if asked.learner and shape["learners"]:
        shape = {"name": shape["learners"][0]["name"], "left_out": shape["learners"][0]["left_out"], **shape}
    say_json(shape)


def _life(home: HomeYear, asked: Asked) -> None:
    """The ways to go on; with `--keep` the one asked for is put in force."""
    begun = perf_counter()
    told = asked.happened(LearnerId(home.learners[0].id) if asked.learner and home.learners else None)
    ways = replans.life_ways(home, [told])
    named = [replace(one, plan=replace(one.plan, plans=_named(home, one.plan.plans))) for one in ways]
    chosen = say_ways_on(named, home.plans, asked, begun=begun)
    if chosen is not None and asked.keep:
        bent = ways[named.index(chosen)]
        replans.bent_keep(home, bent, reason=f"{bent.way}: {_told(asked)}", happened=[told])


def _told(asked: Asked) -> str:
    days = ", ".join(f"{day}" for day in sorted({*asked.missed, *asked.half}))
    lessons = ", ".join((*(one.lesson for one in asked.done), *asked.skip, *asked.repeat))
    return " · ".join(part for part in (days, lessons) if part)


def _changed(home: HomeYear, outcome: Outcome, asked: Asked, *, reason: str) -> None:
    """What a change gives: moved dates and the new end, or the honest no; kept with `--keep`."""
    if outcome.refusal is not None and asked.way is not None:
        taken = replans.way_taken(home, outcome.refusal, asked.way)
        if taken is None:
            raise NoSuchWay(asked.way, [way.name for way in outcome.refusal.ways])
        outcome = taken
    bent, refusal = outcome.bent, outcome.refusal
    if bent is None:
        assert refusal is not None, "one of the two"  # noqa: S101 (an outcome has one of them)
        run = _named(home, home.plans)[refusal.run].run
        if asked.as_json:
            say_json(refusal_shape(refusal, run, ms=0.0))
            return
        click.echo(f"{run.learner}: {refusal.says}")
        say_ways(refusal.ways)
        return
    last = max((plan.last for plan in home.plans if plan.last is not None), default=None)
    named = replace(bent, plan=replace(bent.plan, plans=_named(home, bent.plan.plans)))
    shape: dict[str, Any] = {"fits": True, **bent_shape(named, before=last)}
    if asked.as_json:
        say_json(shape)
    else:
        click.echo(f"{len(bent.moved)} dates change, {bent.spare} spare days left, the last on {bent.last}.")
    if asked.keep:
        replans.bent_keep(home, bent, reason=reason, family=outcome.family)


def _busy(home: HomeYear, asked: Asked) -> None:
    assert asked.busy is not None, "asked for"  # noqa: S101 (as called)
    last = max((run.calendar.last for run in home.family.runs), default=home.today + LONGEST)
    first = min((run.calendar.start for run in home.family.runs), default=home.today)
    times = busy_in(asked.busy, first=first, last=last, zone=home.learners[0].household.time_zone)
    outcome = replans.busy_changed(home, times)
    _changed(home, outcome, replace(asked, keep=False), reason="")
    if asked.keep:
        replans.busy_taken(outcome, times, name=asked.busy.name)


def _as_file(household: Household, home: HomeYear) -> HouseholdFile:
    """The household at home as if it stood in a file: the children go by their names."""
    plans = _named(home, home.plans)
    runs = tuple(plan.run for plan in plans)
    children = tuple(
        Child(id=LearnerId(one.name), name=one.name, age=0, runs=tuple(run for run in runs if run.learner == one.name))
        for one in home.learners
    )
    return HouseholdFile(
        name=household.name,
        timezone=household.time_zone,
        first_weekday=0,
        calendar=runs[0].calendar,
        children=children,
        year=replace(home.family, runs=runs),
        morning=read_morning({}, ages={})[0],
        lost=days_so_far(home),
        today=home.today,
    )


def _named(home: HomeYear, plans: Sequence[RunPlan]) -> tuple[RunPlan, ...]:
    """The plans with the children's names in the place of their ids."""
    names = {LearnerId(one.id): LearnerId(one.name) for one in home.learners}
    return tuple(replace(plan, run=replace(plan.run, learner=names[plan.run.learner])) for plan in plans)
