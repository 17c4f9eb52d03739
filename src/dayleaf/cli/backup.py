"""`dayleaf backup`: everything in one file."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

import click

from dayleaf.cli.options import home_option, household_in
from dayleaf.records.backup import backup


@click.command()
@click.argument("file", type=click.Path(path_type=Path, dir_okay=False))
@home_option
def verb(*, file: Path, home: Path) -> None:
    """Write everything the household keeps into FILE; the household may be in use meanwhile."""
    household_in(home)
    written = backup(home.expanduser(), file, at=datetime.now(tz=UTC))
    click.echo(f"{sum(written.counts.values())} records are in {file}.")
