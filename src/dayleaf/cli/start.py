"""`dayleaf start`: serve the household's pages on this computer."""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

import click

from dayleaf.cli.options import home_option, today_option

if TYPE_CHECKING:
    from datetime import date
    from pathlib import Path


@click.command()
@click.option("--port", type=click.IntRange(1, 65535), default=8410, show_default=True)
@click.option("--check", is_flag=True, help="Answer one request and stop.")
@click.option(
    "--phones-at", metavar="ADDRESS", help="This computer's address for phones, if it is in several networks."
)
@home_option
@today_option
def verb(*, port: int, check: bool, phones_at: str | None, home: Path, today: date | None) -> None:
    """Serve the household's pages on this computer and print the address."""
    # The web room is our sibling and is never imported here; the verb only starts it by name.
    serve = import_module("dayleaf.web.serve").serve
    serve(home, port=port, today=today, check=check, phones_at=phones_at)
