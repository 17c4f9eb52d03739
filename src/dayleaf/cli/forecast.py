"""`dayleaf forecast`: what the rest of the year may come to for one child, lived by virtual children like it."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, Any

import click
from rich.console import Console
from rich.progress import Progress

from dayleaf.cli.options import home_option, household_in, today_at, today_option
from dayleaf.cli.shapes import say_json
from dayleaf.core.seeds import seed_from
from dayleaf.course.load import grade2
from dayleaf.plan.calendar import learning_days
from dayleaf.records import selectors
from dayleaf.records.beliefs import beliefs_now, year_plan
from dayleaf.trial.forecast import forecast
from dayleaf.trial.world import world_of

if TYPE_CHECKING:
    from pathlib import Path

    from dayleaf.records.models import Household, Learner
    from dayleaf.trial.forecast import Forecast

MOST = 2000
SHARES = (1 / 3, 2 / 3, 0.9)


@click.command()
@click.option("--learner", "name", help="Only this child; otherwise every child with a plan.")
@click.option("--years", type=click.IntRange(1, MOST), default=200, show_default=True, help="Trial years a child.")
@click.option("--json", "as_json", is_flag=True, help="Print JSON.")
@home_option
@today_option
def verb(*, name: str | None, years: int, as_json: bool, home: Path, today: date | None) -> None:
    """Say what the rest of the year may come to: when the lessons are through and how many skills are firm then.

    Virtual children live through the plan from what is believed of the child today. They miss days, slip, and repeat a
    lesson that is not firm. Every figure is simulated.
    """
    household = household_in(home)
    day = today_at(household, today)
    wanted = [selectors.learner_by_name(household, name)] if name else list(selectors.learners(household))
    planned = [one for one in wanted if name or selectors.plan_version_or_none(one) is not None]
    shapes = [_shape(household, learner, day, years) for learner in planned]
    if as_json:
        say_json({"today": day.isoformat(), "simulated": True, "learners": shapes})
        return
    for shape in shapes:
        click.echo(_sentences(shape))
    click.echo("Simulated: no child has lived these years." if shapes else "No child has a plan yet.")


def _shape(household: Household, learner: Learner, today: date, years: int) -> dict[str, Any]:
    course, plan = grade2(), year_plan(learner)
    left = [placed.lesson for placed in plan.placed if placed.day >= today]
    days = tuple(one.day.toordinal() for one in learning_days(plan.run.calendar) if one.day >= today)
    empty = {"learner": learner.name, "years": 0, "lessons": len(left), "days": len(days)}
    world = world_of(course, days, lessons=frozenset(left))
    if not world.lessons or not days:
        return {**empty, "finished": {}, "firm": None, "skills": 0, "repeats": None}
    mind = beliefs_now(learner, course, upto=today).mind
    with Progress(console=Console(stderr=True)) as bar:
        task = bar.add_task(f"Trial years like {learner.name}’s", total=len(days))
        found = forecast(
            world,
            children=years,
            seed=seed_from(str(household.pk), str(learner.pk), today.isoformat(), "forecast"),
            mind=mind,
            watch=lambda done, _all: bar.update(task, completed=done),
        )
    return {
        **empty,
        "years": years,
        "finished": {f"{share:.2f}": _date(found, share) for share in SHARES},
        "firm": sum(found.firm) / years,
        "skills": found.skills,
        "repeats": sum(found.repeats) / years,
    }


def _date(found: Forecast, share: float) -> str | None:
    day = found.finished_by(share)
    return None if day is None else date.fromordinal(int(day)).isoformat()


def _sentences(shape: dict[str, Any]) -> str:
    name = shape["learner"]
    if not shape["years"]:
        return f"{name}: nothing is left of this plan."
    by = shape["finished"][f"{SHARES[1]:.2f}"]
    through = (
        f"two of three such children are through by {date.fromisoformat(by):%-d %B %Y}"
        if by
        else f"the {shape['lessons']} lessons left do not fit in {shape['days']} days for two of three such children"
    )
    firm = f"about {shape['firm']:.0f} of the {shape['skills']} skills taught are firm on the last day"
    return f"{name}: {through}; {firm}, and about {shape['repeats']:.0f} lessons are given again."
