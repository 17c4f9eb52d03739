"""`dayleaf demo`: an invented household to try things with."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import TYPE_CHECKING

import click

from dayleaf.cli.options import home_option, today_option
from dayleaf.records import selectors
from dayleaf.records.demo import demo_household
from dayleaf.records.home import open_home

if TYPE_CHECKING:
    from datetime import date
    from pathlib import Path


@click.command()
@home_option
@today_option
def verb(*, home: Path, today: date | None) -> None:
    """Make the demo household: Wren and Ivo on the canal boat, with some weeks behind them."""
    open_home(home)
    demo_household(today=today or datetime.now(tz=UTC).date())
    names = " and ".join(child.name for child in selectors.learners(selectors.household()))
    click.echo(f"The demo household is in {home}: {names}. All of it is invented.")
