"""`dayleaf plan`: which lesson on which date, of a household's file or of the household at home."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from dayleaf.cli.options import OneDay, home_option, household_in, today_at, today_option
from dayleaf.cli.plan_calendar import busy_in, home_entries, home_morning, say_morning, write_calendar
from dayleaf.cli.plan_file import Asked, our_courses, plan_file
from dayleaf.cli.plan_shapes import priced_shape
from dayleaf.cli.shapes import say_json
from dayleaf.course.load import grade2
from dayleaf.records import selectors
from dayleaf.records.beliefs import year_plan

if TYPE_CHECKING:
    from datetime import date

FILE = click.Path(path_type=Path, dir_okay=False)


@click.command()
@click.argument("file", type=FILE, required=False)
@click.argument("dates", metavar="[DATES]...", nargs=-1, type=OneDay())
@click.option("--learner", "name", help="Only this child's plan; with --missed, only this child lost the days.")
@click.option("--json", "as_json", is_flag=True, help="Print JSON.")
@click.option("--price", type=FILE, help="Price this plan (JSON) and list the rules that it breaks.")
@click.option("--missed", type=OneDay(), multiple=True, help="These days were lost; more dates may follow.")
@click.option("--was", type=FILE, help="With --missed: the plan in force (JSON), instead of the file's own.")
@click.option("--ways-out", is_flag=True, help="What would make the year fit, each way with its price.")
@click.option("--way", help="Go this way out, or with --missed this way on: slide, spare, trim.")
@click.option("--without", help="What if this weekday had no lessons?")
@click.option("--chance", type=OneDay(), help="How likely all is done by this day.")
@click.option("--ics", type=FILE, help="Write the plan as a calendar file.")
@click.option("--morning", type=OneDay(), help="Lay out the morning of this day.")
@click.option("--busy", type=FILE, help="Your own calendar file: whole days are off, times are kept free.")
@home_option
@today_option
def verb(*, file: Path | None, dates: tuple[date, ...], home: Path, today: date | None, **wishes: Any) -> None:
    """Print a plan: every lesson and its date.

    FILE is a household written as data; without it the plan in force at --home is printed.
    """
    missed = (*wishes.pop("missed"), *dates)
    if dates and len(missed) == len(dates):
        raise click.UsageError("Dates after the file go with --missed.")
    asked = Asked(learner=wishes.pop("name"), missed=tuple(sorted(set(missed))), **wishes)
    if file is not None:
        plan_file(file, asked)
    else:
        _plan_at_home(asked, home, today)


def _plan_at_home(asked: Asked, home: Path, today: date | None) -> None:
    household = household_in(home)
    name = asked.learner
    children = selectors.learners(household) if name is None else (selectors.learner_by_name(household, name),)
    by_child = {child: year_plan(child) for child in children}
    plans = {child.name: plan for child, plan in by_child.items()}
    if asked.ics is not None:
        now = today_at(household, today)
        zone, entries = household.time_zone, home_entries(by_child)
        write_calendar(asked.ics, entries, household=household.id, name=household.name, zone=zone, today=now)
    if asked.morning is not None:
        day = asked.morning
        busy = busy_in(asked.busy, first=day, last=day, zone=household.time_zone) if asked.busy else ()
        say_morning(*home_morning(household, children, day, busy), day, as_json=asked.as_json)
        return
    if asked.as_json:
        shapes = [
            {
                "name": child,
                "lessons": [{"id": one.lesson, "date": one.day.isoformat()} for one in plan.placed],
                "left_out": list(plan.left_out),
                **priced_shape(plan, our_courses()[plan.course]),
            }
            for child, plan in plans.items()
        ]
        say_json({"learners": shapes} if name is None else shapes[0])
        return
    now = today_at(household, today)
    titles = {day.id: day.title for day in grade2().days}
    for child, plan in plans.items():
        left = [one for one in plan.placed if one.day >= now]
        click.echo(f"{child}: {len(left)} lessons from today, the last on {plan.last}")
        for one in left:
            click.echo(f"  {one.day}  {one.lesson}  {titles[one.lesson]}")
