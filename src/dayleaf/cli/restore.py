"""`dayleaf restore`: a backup becomes a household's folder."""

from __future__ import annotations

from pathlib import Path

import click

from dayleaf.cli.options import home_option
from dayleaf.records.restore import restore


@click.command()
@click.argument("file", type=click.Path(path_type=Path, dir_okay=False))
@home_option
def verb(*, file: Path, home: Path) -> None:
    """Check FILE and unpack it into a new folder, named by --home; nothing there is ever overwritten."""
    restored = restore(file, home)
    click.echo(f"{sum(restored.counts.values())} records are back in {home}.")
