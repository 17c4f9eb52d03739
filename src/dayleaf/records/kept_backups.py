"""Backups made from the pages: files beside the records, to be copied elsewhere."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from dayleaf.core.errors import DayleafError
from dayleaf.records.backup import CannotWrite, backup, sha256_of
from dayleaf.records.folder import PRIVATE_FOLDER
from dayleaf.records.printer import home_folder

if TYPE_CHECKING:
    from datetime import date, datetime
    from pathlib import Path

FOLDER: Final = "backups"
_NAME: Final = re.compile(r"dayleaf-\d{4}-\d{2}-\d{2}(-\d+)?\.dayleaf")


class NoSuchBackup(DayleafError):
    """There is no backup of that name."""

    def __init__(self) -> None:
        super().__init__("There is no backup of that name here.")


@dataclass(frozen=True, slots=True)
class Kept:
    """A backup that lies beside the records: its name, its size in bytes and the SHA-256 of the file."""

    name: str
    size: int
    sha256: str


def backup_keep(*, today: date, at: datetime) -> Kept:
    """Write everything into a new file beside the records; the household may be in use meanwhile.

    Raises:
        CannotWrite: the disk is full or the folder read-only; the records are as they were.
    """
    folder = home_folder() / FOLDER
    try:
        folder.mkdir(mode=PRIVATE_FOLDER, exist_ok=True)
    except OSError as error:
        raise CannotWrite(folder, error.strerror or "no reason was given") from error
    file, n = folder / f"dayleaf-{today}.dayleaf", 1
    while file.exists():
        n += 1
        file = folder / f"dayleaf-{today}-{n}.dayleaf"
    backup(home_folder(), file, at=at)
    return _kept(file)


def backups_kept(*, most: int = 5) -> tuple[Kept, ...]:
    """The newest backups beside the records, the newest first."""
    folder = home_folder() / FOLDER
    files = [one for one in folder.iterdir() if _NAME.fullmatch(one.name)] if folder.is_dir() else []
    files.sort(key=lambda one: (one.stat().st_mtime_ns, one.name), reverse=True)
    return tuple(_kept(one) for one in files[:most])


def backup_named(name: str) -> Path:
    """The file of a backup. Raises `NoSuchBackup`."""
    file = home_folder() / FOLDER / name
    if not _NAME.fullmatch(name) or not file.is_file():
        raise NoSuchBackup
    return file


def _kept(file: Path) -> Kept:
    return Kept(file.name, file.stat().st_size, sha256_of(file))
