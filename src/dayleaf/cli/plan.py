"""`dayleaf plan`: which lesson on which date, of a household's file or of the household at home."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Any

import click

from dayleaf.cli.options import OneDay, home_option, household_in, today_at, today_option
from dayleaf.cli.plan_file import Asked, plan_file
from dayleaf.cli.plan_home import plan_home
from dayleaf.core.ids import LessonId
from dayleaf.plan.year import Placed
from dayleaf.records import selectors

FILE = click.Path(path_type=Path, dir_okay=False)


class DoneOn(click.ParamType[Placed]):
    """A lesson and the day it was done on, written as day-012=2027-01-12."""

    name = "lesson=date"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Placed:
        """Read both, or say how to write them."""
        if isinstance(value, Placed):
            return value
        lesson, _, day = str(value).partition("=")
        try:
            return Placed(lesson=LessonId(lesson), day=date.fromisoformat(day))
        except ValueError:
            self.fail(f"{value} names no lesson and day; write them as day-012=2027-01-12.", param, ctx)


@click.command()
@click.argument("file", type=FILE, required=False)
@click.argument("dates", metavar="[DATES]...", nargs=-1, type=OneDay())
@click.option("--learner", "name", help="Only this child's plan; with --missed, only this child lost the days.")
@click.option("--json", "as_json", is_flag=True, help="Print JSON.")
@click.option("--price", type=FILE, help="Price this plan (JSON) and list the rules that it breaks.")
@click.option("--missed", type=OneDay(), multiple=True, help="These days were lost; more dates may follow.")
@click.option("--half", type=OneDay(), multiple=True, help="On these days a lesson was begun and not finished.")
@click.option("--done", type=DoneOn(), multiple=True, help="This lesson was done on another day: day-012=2027-01-12.")
@click.option("--skip", multiple=True, help="Leave this lesson out for good.")
@click.option("--repeat", multiple=True, help="Give this lesson a second time.")
@click.option("--keep", is_flag=True, help="At home: put what was asked in force (a way on, a weekday, a calendar).")
@click.option("--undo", is_flag=True, help="At home: put the plan before this one in force again.")
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
    if file is not None and wishes["missed"] and (more := _as_day(file)):
        file, dates = None, (more, *dates)
    missed = (*wishes.pop("missed"), *dates)
    wishes["done"] = tuple(wishes["done"])
    if dates and len(missed) == len(dates):
        raise click.UsageError("Dates after the file go with --missed.")
    asked = Asked(learner=wishes.pop("name"), missed=tuple(sorted(set(missed))), **wishes)
    if file is not None:
        plan_file(file, asked)
    else:
        household = household_in(home)
        children = selectors.learners(household)
        if asked.learner is not None:
            children = (selectors.learner_by_name(household, asked.learner),)
        plan_home(household, children, asked, today=today_at(household, today))


def _as_day(file: Path) -> date | None:
    """The date that stands where a file could: without a file, more dates may follow `--missed` all the same."""
    try:
        return date.fromisoformat(file.name)
    except ValueError:
        return None
