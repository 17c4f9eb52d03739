"""`dayleaf plan FILE.toml`: a household written as data is planned, priced, bent, and told no where it does not fit."""

from __future__ import annotations

from dataclasses import dataclass, replace
from time import perf_counter
from typing import TYPE_CHECKING, Any

import click

from dayleaf.cli.plan_calendar import busy_in, file_entries, file_morning, say_morning, with_days_off, write_calendar
from dayleaf.cli.plan_shapes import (
    bent_shape,
    breaks_shape,
    chance_shape,
    plan_shape,
    read_plan,
    refusal_shape,
    spare_days,
    way_shape,
)
from dayleaf.cli.shapes import say_json
from dayleaf.core.errors import BadInput, DayleafError, Problem
from dayleaf.core.ids import LessonId
from dayleaf.plan.calendar import LONGEST, WEEKDAYS, learning_days
from dayleaf.plan.calendar_changes import with_weekday
from dayleaf.plan.chance import chance_of_finishing
from dayleaf.plan.check_year import check_year
from dayleaf.plan.family import NoDay, plan_family
from dayleaf.plan.household import read_household
from dayleaf.plan.lessons import our_courses
from dayleaf.plan.path_costs import first_open_day
from dayleaf.plan.price import price_year
from dayleaf.plan.priced_ways import priced_ways, refuse
from dayleaf.plan.replan import Happened, ways_on

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date
    from pathlib import Path

    from dayleaf.core.ids import LearnerId
    from dayleaf.plan.busy import BusyTime
    from dayleaf.plan.household import HouseholdFile
    from dayleaf.plan.priced_ways import PricedWay
    from dayleaf.plan.replan import Bent
    from dayleaf.plan.run import FamilyPlan, FamilyYear, RunPlan
    from dayleaf.plan.year import Placed


class NoSuchWay(DayleafError):
    """A way out that is not among those found."""

    def __init__(self, name: str, known: list[str]) -> None:
        super().__init__(
            f"There is no way out called “{name}” here; "
            + ("there is " + ", ".join(known) if known else "there is none")
            + "."
        )


@dataclass(frozen=True, slots=True)
class Asked:
    """What was asked on the command line beside the file."""

    as_json: bool = False
    learner: str | None = None
    price: Path | None = None
    was: Path | None = None
    missed: tuple[date, ...] = ()
    half: tuple[date, ...] = ()
    done: tuple[Placed, ...] = ()
    skip: tuple[str, ...] = ()
    repeat: tuple[str, ...] = ()
    keep: bool = False
    undo: bool = False
    way: str | None = None
    ways_out: bool = False
    without: str | None = None
    chance: date | None = None
    ics: Path | None = None
    morning: date | None = None
    busy: Path | None = None

    @property
    def life(self) -> bool:
        """Whether something happened otherwise than planned."""
        return bool(self.missed or self.half or self.done or self.skip or self.repeat)

    def happened(self, learner: LearnerId | None) -> Happened:
        """What happened, to one child or to all."""
        return Happened(
            learner=learner,
            missed=self.missed,
            half=self.half,
            done=self.done,
            skip=tuple(map(LessonId, self.skip)),
            repeat=tuple(map(LessonId, self.repeat)),
        )


def plan_file(path: Path, asked: Asked) -> None:
    """Answer what was asked of a household's file.

    Raises:
        BadInput: with every problem of the file, or of the plan beside it.
    """
    if not path.is_file():
        raise BadInput([Problem(str(path), "there is no such file")])
    file = read_household(path, ours=our_courses())
    busy = _busy(file, asked)
    if busy:
        file = replace(file, year=with_days_off(file.year, busy))
    if asked.without is not None:
        file = replace(file, year=without_weekday(file.year, asked.without))
    if asked.price is not None:
        price_plan(file, asked.price, as_json=asked.as_json)
    elif asked.chance is not None:
        say_chance(file, asked.chance, as_json=asked.as_json)
    elif asked.ways_out:
        _ways_out(file, asked)
    else:
        _plan(file, asked, busy)


def _busy(file: HouseholdFile, asked: Asked) -> tuple[BusyTime, ...]:
    """The family's own calendar, as far as its year goes."""
    if asked.busy is None:
        return ()
    last = file.calendar.end or file.calendar.start + LONGEST
    return busy_in(asked.busy, first=file.calendar.start, last=last, zone=file.timezone)


def _plan(file: HouseholdFile, asked: Asked, busy: Sequence[BusyTime]) -> None:
    begun = perf_counter()
    found = plan_family(file.year) if asked.was is None else None
    plans = read_plan(asked.was, file.year.runs) if asked.was is not None else ()
    if isinstance(found, NoDay):
        file, found = _refused(file, found, asked, begun)
        if found is None:
            return
    if found is not None:
        plans = found.plans
    if asked.life:
        _life(file, plans, asked)
        return
    if asked.ics is not None:
        name = file.name or asked.ics.stem
        today = file.today or file.calendar.start
        entries = file_entries(file, plans)
        write_calendar(asked.ics, entries, household=name, name=name, zone=file.timezone, today=today)
    if asked.morning is not None:
        say_morning(*file_morning(file, plans, asked.morning, busy), asked.morning, as_json=asked.as_json)
        return
    if found is None:
        raise click.UsageError("--was goes with --missed.")
    shape = plan_shape(file, found, ms=(perf_counter() - begun) * 1000)
    if asked.as_json:
        say_json(shape)
        return
    say_plan(file, found)


def _refused(file: HouseholdFile, no: NoDay, asked: Asked, begun: float) -> tuple[HouseholdFile, FamilyPlan | None]:
    """Say no with the ways out, or go the way that was chosen."""
    refusal = refuse(file.year, no.run, no.lesson)
    if asked.way is not None and not asked.life:
        way = next((one for one in refusal.ways if one.name == asked.way), None)
        if way is None:
            raise NoSuchWay(asked.way, [one.name for one in refusal.ways])
        chosen = plan_family(way.year)
        if not isinstance(chosen, NoDay):
            return replace(file, year=way.year), chosen
        refusal = refuse(way.year, chosen.run, chosen.lesson)
        no = chosen
    run = file.year.runs[no.run]
    if asked.as_json:
        say_json(refusal_shape(refusal, run, ms=(perf_counter() - begun) * 1000))
        return file, None
    click.echo(f"{run.learner}: {refusal.says}")
    if refusal.rules:
        click.echo(f"One rule less would be enough: {', '.join(refusal.rules)}.")
    say_ways(refusal.ways)
    return file, None


def _ways_out(file: HouseholdFile, asked: Asked) -> None:
    begun = perf_counter()
    found = plan_family(file.year)
    if isinstance(found, NoDay):
        _refused(file, found, replace(asked, way=None), begun)
        return
    ways = [(run, priced_ways(file.year, n)) for n, run in enumerate(file.year.runs)]
    if asked.as_json:
        shape = plan_shape(file, found, ms=0.0)
        shape["ways"] = [
            {"learner": run.learner, "course": run.course, **way_shape(way)} for run, each in ways for way in each
        ]
        say_json(shape | {"ms": round((perf_counter() - begun) * 1000, 2)})
        return
    click.echo("The year fits. What else could be:")
    for run, each in ways:
        click.echo(f"{run.learner}, {run.course}:")
        say_ways(each)


def say_ways(ways: tuple[PricedWay, ...]) -> None:
    """Print ways out, each with its price and what is lost."""
    for way in ways:
        click.echo(f"  {way.name}: {way.says} Price {way.price}; the last lesson is on {way.plan.last}.")
        for lost in way.lost:
            click.echo(f"    {lost}")


def say_plan(file: HouseholdFile, found: FamilyPlan, *, today: date | None = None) -> None:
    """Print every lesson from a day on with its date, and what the wishes cost."""
    titles = {one.id: one.title for run in file.year.runs for one in run.lessons}
    for plan in found.plans:
        spare = spare_days(plan)
        left = "" if spare is None else f", {spare} spare days"
        click.echo(f"{plan.run.learner}, {plan.run.course}: {len(plan.placed)} lessons, the last on {plan.last}{left}")
        for one in (one for one in plan.placed if today is None or one.day >= today):
            click.echo(f"  {one.day}  {one.lesson}  {titles[one.lesson]}".rstrip())
    costly = ", ".join(f"{name} {price}" for name, price in found.cost.items() if price)
    sure = "no plan costs less" if found.proof == "optimal" else f"no plan costs less than {found.bound}"
    click.echo(f"Wishes cost {found.total}{f' ({costly})' if costly else ''}; {sure}.")


def price_plan(file: HouseholdFile, path: Path, *, as_json: bool) -> None:
    """Print what a plan of somebody costs and which rules it breaks."""
    plans = read_plan(path, file.year.runs)
    cost = price_year(file.year, plans)
    breaks = check_year(file.year, plans)
    if as_json:
        say_json({"cost": cost, "total": sum(cost.values()), "breaks": breaks_shape(breaks, plans)})
        return
    for name, price in cost.items():
        if price:
            click.echo(f"{name}: {price}")
    click.echo(f"Wishes cost {sum(cost.values())}; {len(breaks)} rules broken.")
    for one in breaks:
        click.echo(f"  {one.says}")


def _life(file: HouseholdFile, plans: tuple[RunPlan, ...], asked: Asked) -> None:
    begun = perf_counter()
    first = min((*asked.missed, *asked.half), default=None)
    ways = ways_on(
        file.year,
        plans,
        [asked.happened(_learner(file, asked.learner))],
        today=first or file.today or file.calendar.start,
    )
    say_ways_on(ways, plans, asked, begun=begun)


def say_ways_on(ways: Sequence[Bent], before: Sequence[RunPlan], asked: Asked, *, begun: float) -> Bent | None:
    """Print the ways to go on, the one asked for at the top; that one, or the first.

    Raises:
        NoSuchWay: the way asked for is none of these.
    """
    chosen = next(iter(ways), None)
    if asked.way is not None:
        chosen = next((one for one in ways if one.way == asked.way), None)
        if chosen is None:
            raise NoSuchWay(asked.way, [str(one.way) for one in ways])
    last = max((plan.last for plan in before if plan.last is not None), default=None)
    ordered = sorted(ways, key=lambda one: one is not chosen)
    shapes = [bent_shape(one, before=last) for one in ordered]
    if asked.as_json:
        top: dict[str, Any] = dict(shapes[0]) if shapes else {"lessons": []}
        ms = round((perf_counter() - begun) * 1000, 2)
        say_json({"fits": bool(shapes), **top, "ways": {shape["way"]: shape for shape in shapes}, "ms": ms})
        return chosen
    for shape in shapes:
        spare, end = shape["spare_days"], shape["last"]
        late = ", after the family's end" if shape["past_end"] else ""
        click.echo(
            f"{shape['way']}: {len(shape['moved'])} dates change, {spare} spare days left, the last on {end}{late}."
        )
        for one in shape["moved"]:
            click.echo(f"  {one['id']}: {one['from']} to {one['to'] or 'left out'}")
    return chosen


def _learner(file: HouseholdFile, name: str | None) -> LearnerId | None:
    if name is None:
        return None
    for child in file.children:
        if name.casefold() in {child.id.casefold(), child.name.casefold()}:
            return child.id
    raise BadInput([Problem("--learner", f"there is no learner “{name}” in this file")])


def without_weekday(year: FamilyYear, weekday: str) -> FamilyYear:
    """The year in which this weekday has no minutes. Raises `BadInput` where it is no weekday."""
    number = next((n for n, name in enumerate(WEEKDAYS) if name.casefold() == weekday.casefold()), None)
    if number is None:
        raise BadInput([Problem("--without", f"“{weekday}” is no weekday; write one such as friday")])
    calendars = (with_weekday(run.calendar, number, 0) for run in year.runs)
    runs = (replace(run, calendar=calendar) for run, calendar in zip(year.runs, calendars, strict=True))
    return replace(year, runs=tuple(runs))


def say_chance(file: HouseholdFile, by: date, *, as_json: bool, plans: Sequence[RunPlan] = ()) -> None:
    """Print how likely each run is finished by a date: of as many days as it has lessons, or as its plan takes."""
    lost, planned = file.lost
    shapes = []
    for n, run in enumerate(file.year.runs):
        first, done = first_open_day(run), {one.lesson for one in run.done}
        calendar = replace(run.calendar, end=by)
        days = sum(1 for one in learning_days(calendar) if one.day >= first)
        needed = sum(1 for one in run.lessons if one.id not in done)
        needed = len({one.day for one in plans[n].placed if one.day >= first}) if plans else needed
        chance = chance_of_finishing(needed=needed, days=days, lost=lost, planned=planned)
        shapes.append(chance_shape(chance, run, by=by, needed=needed, days=days))
    if as_json:
        say_json({"chances": shapes, **(shapes[0] if len(shapes) == 1 else {})})
        return
    for one in shapes:
        low, high = one["interval"]
        click.echo(
            f"{one['learner']}, {one['course']}: {one['needed']} lessons on {one['days']} days up to {one['by']}: "
            f"{one['chance']:.0%} (between {low:.0%} and {high:.0%}), if {one['lost_rate']:.0%} of days are lost."
        )
