"""A backup becomes a home again.

Nothing in the file is trusted before it was checked, and the folder appears whole or not at all.
"""

from __future__ import annotations

import hashlib
import shutil
import sqlite3
import stat
import tempfile
import zipfile
import zlib
from contextlib import closing, contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

import msgspec
from django.db import DatabaseError

from dayleaf.core.errors import DayleafError
from dayleaf.records.backup import FORMAT, KEPT, LEFT_OUT, MANIFEST, SNAPSHOT, Manifest, contents_of
from dayleaf.records.folder import DATABASE, PRIVATE_FILE, PRIVATE_FOLDER
from dayleaf.records.home import newest_schema, visiting
from dayleaf.records.triggers import TRIGGERS

if TYPE_CHECKING:
    from collections.abc import Iterator

OUR_TABLES = frozenset({*KEPT, *LEFT_OUT, "django_migrations", "sqlite_sequence"})
MOST_MANIFEST = 1 << 20
MOST_DATABASE = 8 << 30
"""Bytes. A household of four fills about 50 MB a year (counted on our own prints)."""

_SMALL = 64 << 20
_MOST_SHRUNK = 200
"""Records shrink two- to tenfold; a file that grows more than this on unpacking is a trap."""

_CHUNK = 1 << 20


class NotABackup(DayleafError):
    """The file is not one of our backups, or somebody has added to it."""

    def __init__(self, file: Path, why: str) -> None:
        super().__init__(f"{file} is not a backup we can restore: {why}.")


class BackupIsDamaged(DayleafError):
    """The file was a backup once."""

    def __init__(self, file: Path, why: str) -> None:
        super().__init__(f"{file} is damaged: {why}; use another backup.")


class BackupIsNewer(DayleafError):
    """A later Dayleaf wrote the file."""

    def __init__(self, file: Path) -> None:
        super().__init__(f"{file} was written by a newer Dayleaf; restore it with that one.")


class FolderIsTaken(DayleafError):
    """The folder to restore into holds something."""

    def __init__(self, folder: Path) -> None:
        super().__init__(f"{folder} is there already and not empty; name a new folder, nothing is ever overwritten.")


def restore(file: Path, folder: Path) -> Manifest:
    """Make `folder` a home with the records of the backup, equal row for row to what was backed up.

    Raises:
        FolderIsTaken, NotABackup, BackupIsDamaged, BackupIsNewer: one sentence each; nothing was changed.
    """
    folder = folder.expanduser().absolute()
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise FolderIsTaken(folder)
    folder.parent.mkdir(parents=True, exist_ok=True)
    scratch = Path(tempfile.mkdtemp(prefix=f".{folder.name}-restoring-", dir=folder.parent))
    scratch.chmod(PRIVATE_FOLDER)
    try:
        database = scratch / DATABASE
        manifest = _unpacked(file, database)
        _check_schema(file, database)
        _check_rows(file, database, manifest)
        _brought_up(file, scratch)
        if folder.exists():
            folder.rmdir()
        scratch.rename(folder)
    except sqlite3.DatabaseError as error:
        raise BackupIsDamaged(file, f"its records do not open ({error})") from error
    finally:
        shutil.rmtree(scratch, ignore_errors=True)
    return manifest


def _unpacked(file: Path, target: Path) -> Manifest:
    """Write the snapshot to `target`; its size and hash are those of the manifest."""
    try:
        with zipfile.ZipFile(file) as pack:
            _check_members(file, pack)
            manifest = _manifest(file, pack)
            digest = hashlib.sha256()
            left = manifest.bytes
            with pack.open(SNAPSHOT) as stream, target.open("xb") as out:
                target.chmod(PRIVATE_FILE)
                while piece := stream.read(_CHUNK):
                    left -= len(piece)
                    if left < 0:
                        raise BackupIsDamaged(file, "it unpacks to more than it says")
                    digest.update(piece)
                    out.write(piece)
    except OSError as error:
        raise NotABackup(file, error.strerror or "it cannot be read") from error
    except (zipfile.BadZipFile, zlib.error, EOFError, NotImplementedError, RuntimeError) as error:
        raise BackupIsDamaged(file, "it does not unpack") from error
    if left or digest.hexdigest() != manifest.sha256:
        raise BackupIsDamaged(file, "its records are not those that were written")
    return manifest


def _check_members(file: Path, pack: zipfile.ZipFile) -> None:
    names = sorted(info.filename for info in pack.infolist())
    if names != sorted([MANIFEST, SNAPSHOT]):
        strange = sorted(set(names) - {MANIFEST, SNAPSHOT})
        raise NotABackup(file, f"it holds {strange[0]!r}" if strange else "a part is missing or there twice")
    for info in pack.infolist():
        if stat.S_ISLNK(info.external_attr >> 16) or info.is_dir():
            raise NotABackup(file, f"{info.filename} is not a plain file in it")
        if info.flag_bits & 1:
            raise NotABackup(file, "it is locked with a password")
        most = MOST_MANIFEST if info.filename == MANIFEST else MOST_DATABASE
        shrunk = max(info.compress_size, 1)
        if info.file_size > most or (info.file_size > _SMALL and info.file_size // shrunk > _MOST_SHRUNK):
            raise NotABackup(file, f"{info.filename} would unpack to {info.file_size:,} bytes")


def _manifest(file: Path, pack: zipfile.ZipFile) -> Manifest:
    with pack.open(MANIFEST) as stream:
        text = stream.read(MOST_MANIFEST + 1)
    try:
        head = msgspec.json.decode(text, type=dict[str, object])
        if isinstance(head.get("format"), int) and head["format"] != FORMAT:
            raise BackupIsNewer(file)
        manifest = msgspec.json.decode(text, type=Manifest)
    except msgspec.MsgspecError as error:
        raise NotABackup(file, f"its manifest does not read ({error})") from error
    if manifest.schema > newest_schema():
        raise BackupIsNewer(file)
    if not 0 < manifest.bytes <= MOST_DATABASE:
        raise NotABackup(file, "its manifest names an impossible size")
    return manifest


@contextmanager
def _untrusted(database: Path) -> Iterator[sqlite3.Connection]:
    """The database opened so that nothing in it can run or write."""
    with closing(sqlite3.connect(f"{database.as_uri()}?mode=ro", uri=True)) as rows:
        rows.execute("PRAGMA trusted_schema = OFF")
        rows.execute("PRAGMA cell_size_check = ON")
        rows.execute("PRAGMA query_only = ON")
        yield rows


def _check_schema(file: Path, database: Path) -> None:
    """Only our own tables, plain indexes and our own triggers; whole by SQLite's own checks."""
    with _untrusted(database) as rows:
        for kind, name, table, text in rows.execute("SELECT type, name, tbl_name, sql FROM sqlite_master"):
            known = (
                (kind == "table" and name in OUR_TABLES and not _is_virtual(text))
                or (kind == "index" and table in OUR_TABLES and _is_plain(rows, name))
                or (kind == "trigger" and TRIGGERS.get(name) == text)
            )
            if not known:
                raise NotABackup(file, f"it holds a {kind} named {name!r} that is not ours")
        (verdict,) = rows.execute("PRAGMA integrity_check(1)").fetchone()
        if verdict != "ok" or rows.execute("PRAGMA foreign_key_check").fetchone():
            raise BackupIsDamaged(file, "its records do not hang together")


def _is_virtual(text: str | None) -> bool:
    return text is not None and not text.upper().startswith("CREATE TABLE")


def _is_plain(rows: sqlite3.Connection, index: str) -> bool:
    """An index over columns only: SQLite gives an expression the column number -2."""
    quoted = index.replace('"', '""')
    return all(column != -2 for _, column, *_ in rows.execute(f'PRAGMA index_xinfo("{quoted}")'))


def _check_rows(file: Path, database: Path, manifest: Manifest) -> None:
    contents, counts = contents_of(database)
    if contents != manifest.contents or counts != dict(manifest.counts):
        raise BackupIsDamaged(file, "its rows are not those that its manifest counts")
    with _untrusted(database) as rows:
        there = {name for (name,) in rows.execute("SELECT name FROM sqlite_master WHERE type = 'table'")}
        for table in there.intersection(LEFT_OUT):
            if rows.execute(f'SELECT 1 FROM "{table}" LIMIT 1').fetchone():  # noqa: S608 -- our own table's name
                raise NotABackup(file, "it holds worked-out values or phones, which no backup holds")


def _brought_up(file: Path, scratch: Path) -> None:
    """Migrate the records, compare their tables with freshly made ones and read everything once."""
    try:
        with tempfile.TemporaryDirectory(prefix=".fresh-", dir=scratch.parent) as fresh:
            with visiting(Path(fresh)) as home:
                ours = _shape(home.database)
            with visiting(scratch) as home:
                if _shape(home.database) != ours:
                    raise NotABackup(file, "its tables are not shaped like ours")
                _read_all(file)
    except DatabaseError as error:
        raise NotABackup(file, "its tables are not shaped like ours") from error


def _shape(database: Path) -> dict[str, list[tuple[object, ...]]]:
    """Every table's columns (with hidden ones) and what they point at, and the triggers."""
    shape: dict[str, list[tuple[object, ...]]] = {}
    with closing(sqlite3.connect(database)) as rows:
        names = "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite%' ORDER BY name"
        for (table,) in rows.execute(names).fetchall():
            shape[table] = [
                *rows.execute(f'PRAGMA table_xinfo("{table}")').fetchall(),
                *rows.execute(f'PRAGMA foreign_key_list("{table}")').fetchall(),
            ]
        triggers = "SELECT name, sql FROM sqlite_master WHERE type = 'trigger' ORDER BY name"
        shape["triggers"] = rows.execute(triggers).fetchall()
    return shape


def _read_all(file: Path) -> None:
    """Every event, sheet and plan must read, so that no page stumbles over one later."""
    from dayleaf.records import photos, selectors, settling  # noqa: PLC0415 -- the models need Django, see `visiting`
    from dayleaf.records.models import Household, PlanVersionRow, SheetRow  # noqa: PLC0415 -- the same

    try:
        for household in Household.objects.all():
            selectors.events_of_household(household)
        for sheet in SheetRow.objects.iterator(chunk_size=200):
            selectors.spec_of(sheet)
            selectors.pages_of(sheet)
            photos.sides_seen(sheet)
            settling.settled_of(sheet)
        plans = PlanVersionRow.objects.values_list("plan", "sha256")
        broken = [plan for plan, sha256 in plans if hashlib.sha256(plan.encode()).hexdigest() != sha256]
    except (DayleafError, ValueError, TypeError, KeyError) as error:
        raise NotABackup(file, "something in it does not read as a record") from error
    if broken:
        raise NotABackup(file, "a plan in it is not the one that was kept")
