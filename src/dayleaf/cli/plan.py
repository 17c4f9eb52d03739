"""`dayleaf plan`: which lesson on which date."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from dayleaf.cli.options import home_option, household_in, today_at, today_option
from dayleaf.cli.shapes import say_json
from dayleaf.course.load import grade2
from dayleaf.records import selectors
from dayleaf.records.beliefs import year_plan

if TYPE_CHECKING:
    from datetime import date
    from pathlib import Path


@click.command()
@click.option("--learner", "name", help="Only this child's plan.")
@click.option("--json", "as_json", is_flag=True, help="Print JSON.")
@home_option
@today_option
def verb(*, name: str | None, as_json: bool, home: Path, today: date | None) -> None:
    """Print the plan in force: every lesson and its date."""
    household = household_in(home)
    children = selectors.learners(household) if name is None else (selectors.learner_by_name(household, name),)
    plans = {child.name: year_plan(child) for child in children}
    if as_json:
        shapes = [
            {
                "name": child,
                "lessons": [{"id": one.lesson, "date": one.day.isoformat()} for one in plan.placed],
                "left_out": list(plan.left_out),
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
