"""One file that holds everything a household keeps: a snapshot of the database and a manifest that vouches for it.

Caches are left out, since they can be worked out again, and so is the secret key: a restored home makes its own.
"""

from __future__ import annotations

import hashlib
import json
import os
import sqlite3
import tempfile
import zipfile
from contextlib import closing
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

import dayleaf
from dayleaf.core.errors import DayleafError
from dayleaf.records.folder import DATABASE, PRIVATE_FILE, PRIVATE_FOLDER

if TYPE_CHECKING:
    from datetime import datetime

FORMAT = 1
MANIFEST = "manifest.json"
SNAPSHOT = "records.sqlite3"
CACHES = "records_cacherow"
DEVICES = "records_devicerow"
LEFT_OUT = (CACHES, DEVICES)
"""What can be worked out again, and phones that were let in to this home: another home lets in its own."""

KEPT = (
    "records_household",
    "records_learner",
    "records_eventrow",
    "records_planversionrow",
    "records_printrow",
    "records_sheetrow",
    "records_photorow",
    "records_photopagerow",
    "records_settledrow",
    "records_feedrow",
    "records_busyrow",
    "records_readyrow",
    "records_placementrow",
    "records_courserow",
    "records_familylinerow",
    "records_subjectrow",
    "records_gradebookrow",
)
_CHUNK = 1 << 20


class FileIsThere(DayleafError):
    """The backup would overwrite a file."""

    def __init__(self, file: Path) -> None:
        super().__init__(f"{file} is there already; name a new file.")


class NothingToBackUp(DayleafError):
    """The folder holds no records."""

    def __init__(self, folder: Path) -> None:
        super().__init__(f"There are no records in {folder} to back up.")


class CannotWrite(DayleafError):
    """The backup's place cannot be written."""

    def __init__(self, file: Path, why: str) -> None:
        super().__init__(f"{file} cannot be written: {why}.")


@dataclass(frozen=True, slots=True)
class Manifest:
    """What a backup says of itself.

    `counts` are rows a table; `contents` is the SHA-256 of all rows in order, `sha256` and `bytes` are
    those of the snapshot file.
    """

    format: int
    dayleaf: str
    schema: int
    made_at: str
    bytes: int
    sha256: str
    contents: str
    counts: dict[str, int]


def backup(folder: Path, file: Path, *, at: datetime) -> Manifest:
    """Write the records of a home to one new file, also while they are in use; the file appears whole or not at all.

    Raises:
        NothingToBackUp: no records in the folder.
        FileIsThere: never overwrites.
        CannotWrite: the place for the file does not exist or cannot be written.
    """
    source = folder / DATABASE
    if not source.is_file():
        raise NothingToBackUp(folder)
    if file.exists():
        raise FileIsThere(file)
    try:
        with tempfile.TemporaryDirectory(prefix=".dayleaf-backup-", dir=file.resolve().parent) as scratch:
            Path(scratch).chmod(PRIVATE_FOLDER)
            snapshot = Path(scratch) / SNAPSHOT
            schema = _snapshot(source, snapshot)
            contents, counts = contents_of(snapshot)
            manifest = Manifest(
                format=FORMAT,
                dayleaf=dayleaf.__version__,
                schema=schema,
                made_at=at.isoformat(timespec="seconds"),
                bytes=snapshot.stat().st_size,
                sha256=sha256_of(snapshot),
                contents=contents,
                counts=counts,
            )
            whole = Path(scratch) / "whole.zip"
            _zip(whole, snapshot, manifest)
            _put(whole, file)
    except OSError as error:
        raise CannotWrite(file, error.strerror or "no reason was given") from error
    return manifest


def contents_of(database: Path) -> tuple[str, dict[str, int]]:
    """SHA-256 over every kept row in a fixed order, and how many rows each table has."""
    digest = hashlib.sha256()
    counts: dict[str, int] = {}
    with closing(sqlite3.connect(f"{database.resolve().as_uri()}?mode=ro", uri=True)) as rows:
        rows.execute("PRAGMA trusted_schema = OFF")
        for table in KEPT:
            if not rows.execute("SELECT 1 FROM sqlite_master WHERE name = ?", (table,)).fetchone():
                continue  # older than this table
            columns = sorted(name for _, name, *_ in rows.execute(f'PRAGMA table_info("{table}")'))
            names = ", ".join(f'"{name}"' for name in columns)
            counts[table] = 0
            digest.update(f"{table}({names})\n".encode())
            for row in rows.execute(f'SELECT {names} FROM "{table}" ORDER BY {names}'):  # noqa: S608 -- names are our own tables'
                digest.update(_line(row))
                counts[table] += 1
    return digest.hexdigest(), counts


def sha256_of(file: Path) -> str:
    """The SHA-256 of a file, read in pieces."""
    digest = hashlib.sha256()
    with file.open("rb") as stream:
        while piece := stream.read(_CHUNK):
            digest.update(piece)
    return digest.hexdigest()


def _line(row: tuple[Any, ...]) -> bytes:
    plain = [hashlib.sha256(value).hexdigest() if isinstance(value, bytes) else value for value in row]
    return json.dumps(plain, ensure_ascii=False, separators=(",", ":")).encode() + b"\n"


def _snapshot(source: Path, target: Path) -> int:
    """Copy the database as of one moment, without what is left out; the number of its schema."""
    with (
        closing(sqlite3.connect(source, timeout=20)) as live,
        closing(sqlite3.connect(target, isolation_level=None)) as copy,
    ):
        target.chmod(PRIVATE_FILE)
        live.backup(copy)
        copy.execute("PRAGMA journal_mode = DELETE")
        there = {name for (name,) in copy.execute("SELECT name FROM sqlite_master WHERE type = 'table'")}
        for table in there.intersection(LEFT_OUT):
            copy.execute(f'DELETE FROM "{table}"')  # noqa: S608 -- our own table's name
        copy.execute("VACUUM")
        (schema,) = copy.execute("PRAGMA user_version").fetchone()
    return int(schema)


def _zip(whole: Path, snapshot: Path, manifest: Manifest) -> None:
    with zipfile.ZipFile(whole, "x", zipfile.ZIP_DEFLATED) as pack:
        pack.writestr(MANIFEST, json.dumps(asdict(manifest), indent=2) + "\n")
        pack.write(snapshot, SNAPSHOT)
    whole.chmod(PRIVATE_FILE)
    with whole.open("rb+") as stream:
        os.fsync(stream.fileno())


def _put(whole: Path, file: Path) -> None:
    """Give the finished file its name without ever replacing another one."""
    try:
        os.link(whole, file)
    except FileExistsError:
        raise FileIsThere(file) from None
    except OSError:
        # Some disks (memory sticks) know no links: the second-best way has a tiny gap.
        if file.exists():
            raise FileIsThere(file) from None
        whole.rename(file)
