"""`dayleaf backup`: everything in one file."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

import click

from dayleaf.cli.options import home_option
from dayleaf.records.backup import backup
from dayleaf.records.home import open_home


@click.command()
@click.argument("file", type=click.Path(path_type=Path, dir_okay=False))
@home_option
def verb(*, file: Path, home: Path) -> None:
    """Write everything the household keeps into FILE; the household may be in use meanwhile."""
    written = backup(open_home(home).folder, file, at=datetime.now(tz=UTC))
    click.echo(f"{sum(written.counts.values())} records are in {file}.")
