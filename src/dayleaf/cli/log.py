"""`dayleaf log`: every event, in the order written."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from dayleaf.cli.options import home_option, household_in
from dayleaf.cli.shapes import say_json
from dayleaf.events.codec import to_data
from dayleaf.records import selectors

if TYPE_CHECKING:
    from pathlib import Path


@click.command()
@click.option("--learner", "name", help="Only this child's events.")
@click.option("--json", "as_json", is_flag=True, help="Print JSON.")
@home_option
def verb(*, name: str | None, as_json: bool, home: Path) -> None:
    """Print what happened, oldest first."""
    household = household_in(home)
    if name is None:
        events = selectors.events_of_household(household)
    else:
        events = selectors.events_of(selectors.learner_by_name(household, name))
    if as_json:
        say_json({"events": [to_data(event) for event in events]})
        return
    names = {child.id: child.name for child in selectors.learners(household)}
    for event in events:
        head = event.head
        who = names.get(head.learner or "", "everyone")
        click.echo(f"{head.day} {who}: {type(event).__name__} {getattr(event, 'lesson', '') or ''}".rstrip())
