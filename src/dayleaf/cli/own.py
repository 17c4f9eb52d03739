"""`dayleaf own`: a page of the family's own book, marked by count."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from dayleaf.cli.options import home_option, household_in, today_at, today_option
from dayleaf.course.load import grade2
from dayleaf.records import selectors
from dayleaf.records.own_pages import own_page_mark

if TYPE_CHECKING:
    from datetime import date
    from pathlib import Path


@click.command()
@click.argument("lesson")
@click.option("--learner", "name", required=True, help="The child's name.")
@click.option("--of", "count", type=int, required=True, help="How many items the page has.")
@click.option("--wrong", default="", help='Which were wrong: "3,7", or with their skill "3=sub-2digit-regroup".')
@click.option("--skills", default="", help="What the page practised, if not the lesson's own skills.")
@home_option
@today_option
def verb(*, lesson: str, name: str, count: int, wrong: str, skills: str, home: Path, today: date | None) -> None:
    """Mark a page of the family's own book that belongs to LESSON: how many items, and which were wrong."""
    household = household_in(home)
    learner = selectors.learner_by_name(household, name)
    day = today_at(household, today)
    marked = own_page_mark(learner=learner, lesson=lesson, of=count, wrong=wrong, skills=skills, today=day)
    right = sum(item.state == "right" for item in marked.items)
    click.echo(f"{learner.name}, {marked.lesson}: {right} of {len(marked.items)} right.")
    titles = grade2().skills
    for item in marked.items:
        if item.state == "wrong":
            click.echo(f"  {item.n}: {titles[item.skill].title}")
