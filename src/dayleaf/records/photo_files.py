"""Photos as files of the home, named by the hash of what was handed in; where and when they were taken is not kept.

A file appears whole or not at all. Beside a photo lies each of its sides as seen from above.
"""

from __future__ import annotations

import os
import re
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING, Final

from django.db import connection

from dayleaf.records.folder import PRIVATE_FOLDER

if TYPE_CHECKING:
    from collections.abc import Iterator

FOLDER: Final = "photos"
TELLS_WHERE: Final = frozenset({0xE1, 0xED, 0xFE})
"""JPEG segments in which cameras write place, time, owner and a small copy: EXIF and XMP, IPTC, comments."""

HASH: Final = re.compile("[0-9a-f]{64}")
_SCAN: Final = 0xDA


def folder() -> Path:
    """The folder of the photos of the home that is open, made if it is not there."""
    place = Path(str(connection.settings_dict["NAME"])).parent / FOLDER
    place.mkdir(mode=PRIVATE_FOLDER, exist_ok=True)
    return place


def put(sha256: str, data: bytes) -> None:
    """Keep a photo."""
    _write(folder() / sha256, data)


def get(sha256: str) -> bytes | None:
    """A photo as it was kept; None where its file is gone."""
    path = folder() / sha256
    return path.read_bytes() if _is_name(sha256) and path.is_file() else None


def put_side(sha256: str, number: int, data: bytes) -> None:
    """Keep the side that a page of a photo shows, as seen from above."""
    _write(_side(sha256, number), data)


def get_side(sha256: str, number: int) -> bytes | None:
    """A side as seen from above, a JPEG file; None where there is none."""
    path = _side(sha256, number)
    return path.read_bytes() if _is_name(sha256) and path.is_file() else None


def remove(sha256: str) -> None:
    """Take a photo and its sides away; a name that is no hash names none."""
    if not _is_name(sha256):
        return
    for path in (folder() / sha256, *folder().glob(f"{sha256}-*.jpg")):
        path.unlink(missing_ok=True)


def without_place(data: bytes) -> bytes:
    """A JPEG file without the segments that tell where, when and with what it was taken; others as they are.

    The picture itself is not touched (ITU-T T.81, B.1: segments before the first scan).
    """
    if data[:2] != b"\xff\xd8":
        return data
    kept, at = [data[:2]], 2
    for start, end, marker in _segments(data):
        if marker not in TELLS_WHERE:
            kept.append(data[start:end])
        at = end
    return b"".join([*kept, data[at:]])


def _segments(data: bytes) -> Iterator[tuple[int, int, int]]:
    """(start, end, marker) of each segment before the first scan; ends early where the file makes no sense."""
    at = 2
    while at + 4 <= len(data) and data[at] == 0xFF and data[at + 1] not in (_SCAN, 0xFF):
        end = at + 2 + int.from_bytes(data[at + 2 : at + 4], "big")
        if end > len(data):
            return
        yield at, end, data[at + 1]
        at = end


def _is_name(sha256: str) -> bool:
    """Whether a name is a hash: a row of a backup from elsewhere may hold anything, a way out of the folder too."""
    return HASH.fullmatch(sha256) is not None


def _side(sha256: str, number: int) -> Path:
    return folder() / f"{sha256}-{number}.jpg"


def _write(path: Path, data: bytes) -> None:
    handle, scratch = tempfile.mkstemp(prefix=".", dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(data)
            stream.flush()
            os.fsync(stream.fileno())
        Path(scratch).replace(path)
    except OSError:
        Path(scratch).unlink(missing_ok=True)
        raise
