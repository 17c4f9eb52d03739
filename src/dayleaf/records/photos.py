"""Photos and scans that were handed in: kept, read one after another, found again by their sheet, taken away."""

from __future__ import annotations

import hashlib
import json
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from django.db import transaction
from django.utils import timezone

from dayleaf.core.errors import DayleafError
from dayleaf.reading.files import sniff
from dayleaf.reading.model import PageReading
from dayleaf.reading.refusals import Damaged, SameTwice
from dayleaf.reading.wire import page_from_data, page_to_data
from dayleaf.reading.worker import Reader
from dayleaf.records import photo_files, selectors
from dayleaf.records.errors import NoSuchSheet
from dayleaf.records.models import PhotoPageRow, PhotoRow, SettledRow
from dayleaf.records.services import canonical

if TYPE_CHECKING:
    from collections.abc import Iterable
    from datetime import datetime

    from dayleaf.core.ids import SheetId
    from dayleaf.reading.worker import Find
    from dayleaf.records.models import Household, SheetRow
    from dayleaf.sheets.model import PageMap


class CameBefore(DayleafError):
    """The very same file was handed in before."""

    def __init__(self) -> None:
        super().__init__("This photo is here already; it counts once.")


class NoSuchPhoto(DayleafError):
    """No photo of this household has that name."""

    def __init__(self) -> None:
        super().__init__("This photo is not here any more.")


@dataclass(frozen=True, slots=True)
class SideSeen:
    """A side of a sheet as a photo shows it; `photo` and `number` find its picture (`photo_files.get_side`)."""

    photo: str
    number: int
    reading: PageReading


@dataclass(frozen=True, slots=True)
class NotRead:
    """A page that was not read, and why in a sentence; `of_several` says that its file has more pages."""

    photo: str
    number: int
    of_several: bool
    sentence: str


@dataclass(frozen=True, slots=True)
class HandedIn:
    """What became of the photos: how many wait, the sheets that were seen (the newest first), what was not read."""

    waiting: int
    sheets: tuple[str, ...]
    not_read: tuple[NotRead, ...]


def photo_keep(household: Household, data: bytes, *, came_from: str, at: datetime | None = None) -> PhotoRow:
    """Keep one photo, scan or PDF for reading. One that was refused before may come again.

    Raises:
        Refused: it is no photo that could be read; nothing was kept.
        CameBefore: the same file is here already.
    """
    sniff(data)
    sha256 = hashlib.sha256(data).hexdigest()
    before = PhotoRow.objects.filter(household=household, sha256=sha256)
    if before.exclude(state="refused").exists():
        raise CameBefore
    photo_files.put(sha256, photo_files.without_place(data))
    with transaction.atomic():
        before.delete()
        return PhotoRow.objects.create(
            household=household, sha256=sha256, came_at=at or timezone.now(), came_from=came_from
        )


def photos_read(household: Household) -> int:
    """Read every photo that waits, in the bounded process; how many there were."""
    count = 0
    with Reader(_finder(household), with_pictures=True) as reader:
        while (row := PhotoRow.objects.filter(household=household, state="waiting").first()) is not None:
            count += 1
            data = photo_files.get(row.sha256)
            reader.forget()
            pages = list(reader.read(data)) if data else [_refused(Damaged(), 1)]
            _keep_reading(row, pages)
    return count


def photo_remove(household: Household, sha256: str) -> None:
    """Take a photo away: its file, its readings, and what was settled on sheets that no photo shows any more.

    Marks that were kept stay. Raises `NoSuchPhoto`.
    """
    with transaction.atomic():
        row = PhotoRow.objects.filter(household=household, sha256=sha256).first()
        if row is None:
            raise NoSuchPhoto
        sheets = set(row.pages.exclude(sheet="").values_list("sheet", flat=True))
        row.delete()
        left = PhotoPageRow.objects.filter(household=household, status="read").values_list("sheet", flat=True)
        SettledRow.objects.filter(household=household, sheet__in=sheets.difference(left)).delete()
    photo_files.remove(sha256)


@transaction.atomic
def page_put_away(household: Household, sha256: str, number: int) -> None:
    """Take the sentence about a page that was not read away; other pages of its file stay. Raises `NoSuchPhoto`."""
    refused = PhotoPageRow.objects.filter(household=household, photo__sha256=sha256, number=number, status="refused")
    page = refused.select_related("photo").first()
    if page is None:
        raise NoSuchPhoto
    page.delete()
    if not page.photo.pages.exists():
        page.photo.delete()


def handed_in(household: Household) -> HandedIn:
    """What became of the photos so far; only reads."""
    pages = PhotoPageRow.objects.filter(household=household).select_related("photo")
    read = pages.filter(status="read").order_by("-pk").values_list("sheet", flat=True)
    refused = list(pages.filter(status="refused").defer("reading"))
    several = set(pages.filter(number__gt=1).values_list("photo_id", flat=True))
    return HandedIn(
        waiting=PhotoRow.objects.filter(household=household, state="waiting").count(),
        sheets=tuple(dict.fromkeys(read)),
        not_read=tuple(
            NotRead(page.photo.sha256, page.number, page.photo_id in several, page.message) for page in refused
        ),
    )


def sides_seen(sheet: SheetRow) -> tuple[SideSeen, ...]:
    """The sides of a sheet that photos show, in the order of the sheet; only reads."""
    rows = PhotoPageRow.objects.filter(household=sheet.household_id, sheet=sheet.sheet_id, status="read")
    rows = rows.select_related("photo").order_by("side")
    return tuple(SideSeen(row.photo.sha256, row.number, page_from_data(json.loads(row.reading))) for row in rows)


def side_picture(household: Household, sha256: str, number: int) -> bytes:
    """A side of this household as seen from above, a JPEG file. Raises `NoSuchPhoto`."""
    known = PhotoPageRow.objects.filter(household=household, photo__sha256=sha256, number=number, status="read")
    picture = photo_files.get_side(sha256, number) if known.exists() else None
    if picture is None:
        raise NoSuchPhoto
    return picture


def _keep_reading(row: PhotoRow, pages: Iterable[PageReading]) -> None:
    """Keep what a photo says, all of it or nothing; a photo without any readable side is not kept."""
    household = row.household
    read = PhotoPageRow.objects.filter(household=household, status="read")
    here = set(read.values_list("sheet", "side"))
    kept = []
    for page in pages:
        if page.status == "read" and page.sheet is not None and page.page is not None:
            if (page.sheet, page.page) in here:
                kept.append(_refused(SameTwice(page.sheet, page.page), page.page_in_file))
                continue
            photo_files.put_side(row.sha256, page.page_in_file, page.flat)
        kept.append(page)
    good = any(page.status == "read" for page in kept)
    with transaction.atomic():
        still = PhotoRow.objects.filter(pk=row.pk).update(state="read" if good else "refused")
        if still:
            PhotoPageRow.objects.bulk_create(_row(row, page) for page in kept)
    if not (good and still):
        photo_files.remove(row.sha256)


def _row(photo: PhotoRow, page: PageReading) -> PhotoPageRow:
    bare = replace(page, flat=b"", boxes=tuple(replace(box, picture=b"", corners=()) for box in page.boxes))
    read = page.status == "read"
    return PhotoPageRow(
        household_id=photo.household_id,
        photo=photo,
        number=page.page_in_file,
        status=page.status,
        code=page.code or "",
        message=page.message,
        sheet=(page.sheet or "") if read else "",
        side=page.page if read else None,
        reading=canonical(page_to_data(bare)) if read else "",
    )


def _refused(reason: Damaged | SameTwice, number: int) -> PageReading:
    return PageReading("refused", number, reason.code, str(reason), reason.sheet, reason.page)


def _finder(household: Household) -> Find:
    """Sides by their id and number, of everything this household ever printed."""

    def find(sheet: SheetId, page: int) -> PageMap | None:
        try:
            row = selectors.sheet_find(household, sheet)
        except NoSuchSheet:
            return None
        return next((side for side in selectors.pages_of(row) if side.page == page), None)

    return find
