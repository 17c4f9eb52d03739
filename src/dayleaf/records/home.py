"""Opening a household's folder: the one place where Django is started and the tables are brought up to date."""

from __future__ import annotations

import os
import sqlite3
from contextlib import closing, contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import django
from django.apps import apps
from django.conf import settings
from django.core.management import call_command
from django.db import connections

from dayleaf.core.errors import DayleafError
from dayleaf.records.folder import DATABASE, PRIVATE_FILE, far_away, folder_made, secret_key

if TYPE_CHECKING:
    from collections.abc import Iterator

SETTINGS = "dayleaf.records.settings"
NOWHERE = ":memory:"


class HomeIsNewer(DayleafError):
    """The folder was written by a later Dayleaf."""

    def __init__(self, folder: Path) -> None:
        super().__init__(f"{folder} was written by a newer Dayleaf; open it with that one.")


class HomeIsDamaged(DayleafError):
    """The database in the folder does not open."""

    def __init__(self, folder: Path) -> None:
        super().__init__(f"The records in {folder} do not open; restore your last backup into a new folder.")


@dataclass(frozen=True, slots=True)
class Home:
    """A household's folder, open. `warning` is one sentence where the folder lies in a risky place."""

    folder: Path
    warning: str | None

    @property
    def database(self) -> Path:
        """The file with the records."""
        return self.folder / DATABASE


def open_home(folder: Path) -> Home:
    """Open the folder, making it and its tables when they are not there.

    A process has one home at a time; opening another one turns every later query to it.

    Raises:
        NotAHome: the path is a file, holds other things or cannot be written.
        HomeIsNewer, HomeIsDamaged: the records in it cannot be used by this version, or at all.
    """
    folder = folder_made(folder)
    key = secret_key(folder)
    _start_django(folder, key)
    schema = _schema_of(folder)
    newest = newest_schema()
    if schema > newest:
        raise HomeIsNewer(folder)
    if schema < newest:
        bring_up_to_date("default")
        (folder / DATABASE).chmod(PRIVATE_FILE)
    warning = None
    if far_away(folder):
        warning = f"{folder} lies on a network disk: a household's records are safer on this computer's own disk."
    return Home(folder, warning)


def bring_up_to_date(alias: str) -> None:
    """Make or migrate the tables of one database and write down how new they are."""
    call_command("migrate", database=alias, verbosity=0, interactive=False)
    with connections[alias].cursor() as cursor:
        cursor.execute(f"PRAGMA user_version = {newest_schema():d}")


@contextmanager
def visiting(folder: Path) -> Iterator[Home]:
    """Open another home for a while; the one that was open before is open again afterwards."""
    before = (str(connections.settings["default"]["NAME"]), settings.SECRET_KEY) if apps.ready else (NOWHERE, "-")
    variable = os.environ.get("DAYLEAF_HOME")
    try:
        yield open_home(folder)
    finally:
        connections.close_all()
        _point_at(*before)
        if variable is None:
            os.environ.pop("DAYLEAF_HOME", None)
        else:
            os.environ["DAYLEAF_HOME"] = variable


def _start_django(folder: Path, key: str) -> None:
    os.environ["DAYLEAF_HOME"] = str(folder)
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", SETTINGS)
    if not apps.ready:
        django.setup()
    _point_at(str(folder / DATABASE), key)


def _point_at(database: str, key: str) -> None:
    """Let every later query, in this thread and in new ones, go to this database."""
    if connections.settings["default"]["NAME"] != database:
        connections["default"].close()
        del connections["default"]
        connections.settings["default"]["NAME"] = database
        settings.SECRET_KEY = key


def _schema_of(folder: Path) -> int:
    """The number of the newest migration that the database has seen; 0 where there is no database.

    Read without Django, so that an ordinary command never loads the migrations.
    """
    path = folder / DATABASE
    if not path.exists():
        return 0
    try:
        with closing(sqlite3.connect(path, timeout=20)) as database:
            (version,) = database.execute("PRAGMA user_version").fetchone()
            database.execute("SELECT count(*) FROM sqlite_master").fetchone()
    except sqlite3.DatabaseError as error:
        raise HomeIsDamaged(folder) from error
    return int(version)


def newest_schema() -> int:
    """How new this version's tables are: the number at the head of the newest migration's file name."""
    names = (Path(__file__).parent / "migrations").glob("[0-9][0-9][0-9][0-9]_*.py")
    return max(int(path.name[:4]) for path in names)
