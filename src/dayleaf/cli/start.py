"""`dayleaf start`: serve the household's pages on this computer."""

from __future__ import annotations

import webbrowser
from importlib import import_module
from typing import TYPE_CHECKING

import click

from dayleaf.cli.opening import answers, open_soon, show_trouble
from dayleaf.cli.options import home_option, household_in, today_option
from dayleaf.core.errors import DayleafError
from dayleaf.records.people import passphrase_forgotten

if TYPE_CHECKING:
    from datetime import date
    from pathlib import Path


@click.command()
@click.option("--port", type=click.IntRange(1, 65535), default=8410, show_default=True)
@click.option("--check", is_flag=True, help="Answer one request and stop.")
@click.option(
    "--phones-at", metavar="ADDRESS", help="This computer's address for phones, if it is in several networks."
)
@click.option("--open", "show", is_flag=True, help="Open the pages in the browser too.")
@click.option("--forget-passphrase", is_flag=True, help="Take the passphrase of the pages away.")
@home_option
@today_option
def verb(
    *,
    port: int,
    check: bool,
    phones_at: str | None,
    show: bool,
    forget_passphrase: bool,
    home: Path,
    today: date | None,
) -> None:
    """Serve the household's pages on this computer and print the address."""
    # The web room is our sibling and is never imported here; the verb only starts it by name.
    if forget_passphrase:
        passphrase_forgotten(household_in(home))
    address = f"http://127.0.0.1:{port}/"
    if show and answers(address):
        webbrowser.open(address)
        click.echo(f"Dayleaf is open already at {address}")
        return
    serve = import_module("dayleaf.web.serve").serve
    if not show:
        serve(home, port=port, today=today, check=check, phones_at=phones_at)
        return
    open_soon(address)
    try:
        serve(home, port=port, today=today, check=check, phones_at=phones_at)
    except DayleafError as error:
        show_trouble(str(error))
        raise
