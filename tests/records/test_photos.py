"""Photos as a home keeps them: whole, private, without their place, and taken away when asked."""

from __future__ import annotations

import struct
from typing import TYPE_CHECKING

import cv2
import numpy as np
import pytest

from dayleaf.reading.refusals import Heic
from dayleaf.records import photo_files, photos
from dayleaf.records.backup import backup
from dayleaf.records.home import visiting
from dayleaf.records.models import DeviceRow, PhotoRow
from dayleaf.records.restore import restore

if TYPE_CHECKING:
    from pathlib import Path

    from dayleaf.records.home import Home
    from dayleaf.records.models import Household

from datetime import UTC, datetime

from dayleaf.records import devices

EVENING = datetime(2027, 1, 12, 20, 10, tzinfo=UTC)
PLACE = b"Exif\0\0 52.3676 N 4.9041 E, the deck of the boat"


@pytest.fixture(scope="module")
def jpeg() -> bytes:
    """A picture of a chequered floor, and a segment that says where it was taken (ITU-T T.81, B.2.4.6: APP1)."""
    picture = np.kron(np.indices((24, 18)).sum(axis=0) % 2 * 90 + 120, np.ones((50, 50))).astype(np.uint8)
    file = cv2.imencode(".jpg", picture)[1].tobytes()
    return file[:2] + b"\xff\xe1" + struct.pack(">H", len(PLACE) + 2) + PLACE + file[2:]


def test_where_a_photo_was_taken_is_not_kept_and_the_picture_is(wherrows: Household, jpeg: bytes) -> None:
    row = photos.photo_keep(wherrows, jpeg, came_from="A phone", at=EVENING)

    kept = photo_files.get(row.sha256)
    assert kept is not None
    assert PLACE not in kept
    before, after = (cv2.imdecode(np.frombuffer(one, np.uint8), cv2.IMREAD_GRAYSCALE) for one in (jpeg, kept))
    assert before is not None
    assert after is not None
    assert np.array_equal(before, after)
    path = photo_files.folder() / row.sha256
    assert (path.stat().st_mode & 0o777, path.parent.stat().st_mode & 0o777) == (0o600, 0o700)


@pytest.mark.parametrize("length", [2, 3, 5, 30, 60, 200])
def test_a_file_that_ends_early_comes_through_without_being_taken_for_whole(jpeg: bytes, length: int) -> None:
    shortened = photo_files.without_place(jpeg[:length])

    assert len(shortened) <= length
    assert jpeg[:length].startswith(shortened[:2])


@pytest.mark.parametrize("name", ["../secret.key", "..", "", "A" * 64, "/" + "0" * 63])
def test_a_name_that_is_no_hash_reaches_no_file(home: Home, wherrows: Household, name: str) -> None:
    """A row of a backup from elsewhere may hold anything; the home's key lies beside the folder of photos."""
    PhotoRow.objects.create(household=wherrows, sha256=name, came_at=EVENING, came_from="elsewhere")

    photos.photos_read(wherrows)
    photos.photo_remove(wherrows, name)

    assert (home.folder / "secret.key").is_file()
    assert home.database.is_file()


def test_what_is_no_photo_leaves_nothing_behind(wherrows: Household) -> None:
    with pytest.raises(Heic):
        photos.photo_keep(wherrows, b"\0\0\0\x18ftypheic" + bytes(40), came_from="A phone")

    assert PhotoRow.objects.count() == 0


def test_a_photo_of_something_else_keeps_its_sentence_and_no_file_and_may_come_again(
    wherrows: Household, jpeg: bytes
) -> None:
    """The real reader in its own process: a floor is no sheet."""
    photos.photo_keep(wherrows, jpeg, came_from="A phone")
    with pytest.raises(photos.CameBefore):
        photos.photo_keep(wherrows, jpeg, came_from="A phone")

    count = photos.photos_read(wherrows)

    found = photos.handed_in(wherrows)
    assert (count, found.waiting, found.sheets) == (1, 0, ())
    assert [one.sentence for one in found.not_read] == [
        "No sheet is seen here: a sheet has a square mark in each corner."
    ]
    assert list(photo_files.folder().iterdir()) == []
    assert photos.photo_keep(wherrows, jpeg, came_from="A phone").state == "waiting"


def test_a_backup_holds_what_was_read_and_no_phone(
    home: Home, wherrows: Household, jpeg: bytes, tmp_path: Path
) -> None:
    """Another home lets in its own phones: a token of this one opens nothing there."""
    photos.photo_keep(wherrows, jpeg, came_from="A phone")
    devices.device_join(household=wherrows, name="Mara's phone")

    counts = backup(home.folder, tmp_path / "all.zip", at=EVENING).counts
    restore(tmp_path / "all.zip", tmp_path / "again")

    assert counts["records_photorow"] == 1
    with visiting(tmp_path / "again"):
        assert (PhotoRow.objects.count(), DeviceRow.objects.count()) == (1, 0)
