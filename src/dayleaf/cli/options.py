"""Options that several verbs share."""

from __future__ import annotations

from datetime import UTC, date, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from dayleaf.core.errors import DayleafError
from dayleaf.records import selectors
from dayleaf.records.errors import NoHousehold
from dayleaf.records.folder import DATABASE
from dayleaf.records.home import open_home

if TYPE_CHECKING:
    from collections.abc import Callable

    from dayleaf.records.models import Household

DEFAULT_HOME = Path.home() / ".dayleaf"


class CannotWriteHere(DayleafError):
    """The output folder cannot be used."""

    def __init__(self, folder: Path, why: str) -> None:
        super().__init__(f"Nothing can be written to {folder}: {why}.")


class OneDay(click.ParamType[date]):
    """A date written as 2027-01-12."""

    name = "date"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> date:
        """Read the date, or say how to write it."""
        if isinstance(value, date):
            return value
        try:
            return date.fromisoformat(value)
        except ValueError:
            self.fail(f"{value} is not a date; write it as 2027-01-12.", param, ctx)


def home_option(command: Callable[..., Any]) -> Callable[..., Any]:
    """`--home DIR`, or DAYLEAF_HOME."""
    option = click.option(
        "--home",
        type=click.Path(path_type=Path, file_okay=False),
        envvar="DAYLEAF_HOME",
        default=DEFAULT_HOME,
        help="The household's folder (or DAYLEAF_HOME).",
    )
    return option(command)


def today_option(command: Callable[..., Any]) -> Callable[..., Any]:
    """`--today DATE`: another day than the clock's."""
    return click.option("--today", type=OneDay(), help="Take this day for today, as 2027-01-12.")(command)


def household_in(home: Path) -> Household:
    """The household that the folder holds; a folder without one is never made or filled.

    Raises:
        NoHousehold: there is none.
        NotAHome, HomeIsNewer, HomeIsDamaged: as `open_home`.
    """
    home = home.expanduser()
    if not home.is_file() and not (home / DATABASE).exists():
        raise NoHousehold
    open_home(home)
    return selectors.household()


def today_at(household: Household, today: date | None) -> date:
    """The day taken for today: the one asked for, or the household's own by the clock."""
    return today or selectors.today_of(household, datetime.now(tz=UTC))


def writable(folder: Path) -> None:
    """Make the folder, or say why it cannot be used, before anything is made or recorded."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
        probe = folder / ".dayleaf-probe"
        probe.touch()
        probe.unlink()
    except OSError as error:
        raise CannotWriteHere(folder, error.strerror or "it is not a folder") from error
