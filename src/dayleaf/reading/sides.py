"""One picture of one side becomes the reading of every box on it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

import cv2
import numpy as np

from dayleaf.reading.codes import sheet_in
from dayleaf.reading.crops import crops_from
from dayleaf.reading.flat import flatten
from dayleaf.reading.ink import ink_in, unevenness_of
from dayleaf.reading.judging import judged, judged_signs
from dayleaf.reading.marks import find_marks
from dayleaf.reading.model import BoxReading, PageReading
from dayleaf.reading.pictures import check_grey
from dayleaf.reading.placing import Places, place_boxes
from dayleaf.reading.plane import check_corners, plane_of, planes_of, through, trusted
from dayleaf.reading.refusals import (
    Blurred,
    CodeUnread,
    CornerMissing,
    NotASheet,
    Refused,
    TooBent,
    TooFar,
    UnknownSheet,
)
from dayleaf.reading.signs import Sign, ring, round_ink, tick

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from dayleaf.core.ids import SheetId
    from dayleaf.reading.arrays import Array
    from dayleaf.reading.flat import FlatPage
    from dayleaf.reading.pictures import Looked
    from dayleaf.sheets.model import Box, PageMap

    Picture = Array
    Find = Callable[[SheetId, int], PageMap | None]

FINER: Final = (Blurred, CodeUnread, CornerMissing, NotASheet, TooBent, TooFar)
"""What a picture of more pixels may mend."""

SEEN: Final = 0.4
"""Share of the boxes that must lie on their outlines for a side to be read."""

MOST: Final = 0.8
"""With a smaller share of boxes on their outlines, one that is not is asked about even where it looks empty."""

QUALITY: Final = 82
"""Of the JPEG file of a side seen from above: it is looked at, and never read again."""

FEW: Final = 4
"""With fewer boxes than this, one that is not seen says little."""


def read_picture(looked: Looked, find: Find, *, page_in_file: int = 1, with_pictures: bool = False) -> PageReading:
    """The reading of one page of a file; `find` gives the map of a side, None for one that is not known here.

    `with_pictures` adds the side seen from above and every box that is not blank.

    A photo is read at half its size; at its own size only where that does not do.
    """
    for index, look in enumerate(looked):
        try:
            return _read(look(), find, page_in_file, with_pictures=with_pictures)
        except FINER as reason:
            if index == len(looked) - 1:
                return _refused(reason, page_in_file)
        except Refused as reason:
            return _refused(reason, page_in_file)
    raise AssertionError("a page of a file is looked at in one way at least")


def _refused(reason: Refused, page_in_file: int) -> PageReading:
    return PageReading("refused", page_in_file, reason.code, str(reason), reason.sheet, reason.page)


def _read(picture: Picture, find: Find, page_in_file: int, *, with_pictures: bool) -> PageReading:
    check_grey(picture)
    found = trusted(find_marks(picture))
    planes = planes_of(found)
    check_corners(found, *planes[0], picture.shape)
    sheet, number = sheet_in(picture, found, planes)
    page = find(sheet, number)
    if page is None:
        raise UnknownSheet(sheet, number)
    way = plane_of(found, page.size_mm)
    flat = flatten(picture, way, page.size_mm)
    places = place_boxes(flat, page.boxes, page.marks)
    if len(page.boxes) >= FEW and places.measured.mean() < SEEN:
        raise TooBent
    boxes = tuple(_boxes(flat, page, places, way, picture.shape, with_pictures=with_pictures))
    return PageReading(
        "read",
        page_in_file,
        sheet=sheet,
        page=number,
        boxes=boxes,
        flat=_file(cv2.bitwise_not(flat.dark), ".jpg") if with_pictures else b"",
    )


def _boxes(
    flat: FlatPage, page: PageMap, places: Places, way: Array, shape: tuple[int, ...], *, with_pictures: bool
) -> Iterator[BoxReading]:
    """Every box in the order of the map."""
    said: dict[int, tuple[Sign, bool, Picture]] = {}
    likely: dict[int, tuple[str, ...]] = {}
    straight = [index for index, box in enumerate(page.boxes) if box.kind in ("digit", "tick")]
    inks = dict(zip(straight, ink_in(flat, [page.boxes[i] for i in straight], _only(places, straight)), strict=True))
    digits = [index for index in straight if page.boxes[index].kind == "digit"]
    crops = crops_from(inks[index] for index in digits)
    for index, digit in zip(digits, judged(crops, [inks[index] for index in digits]), strict=True):
        said[index] = digit.sign, digit.reversed, inks[index].shown
        likely[index] = digit.likely
    paper = unevenness_of(flat)
    bent = bool(places.measured.mean() < MOST)
    compared = [index for index, box in enumerate(page.boxes) if box.kind == "compare"]
    rounds = [round_ink(flat, page.boxes[index], places, index, paper=paper) for index in compared]
    for index, ink, sign in zip(compared, rounds, judged_signs(rounds), strict=True):
        said[index] = sign, False, ink.shown
    for index, box in enumerate(page.boxes):
        if box.kind == "tick":
            said[index] = tick(inks[index], box), False, inks[index].shown
        elif box.kind == "circle":
            sign, shown = ring(flat, box, places, index)
            said[index] = sign, False, shown
    for index, box in enumerate(page.boxes):
        sign, turned, shown = said[index]
        if not places.measured[index] and (sign.state == "sure" or bent):
            sign = Sign(sign.reading, min(sign.certainty, 0.9), "ask")
        picture = _file(shown, ".png") if with_pictures and sign.state != "blank" else b""
        corners = _corners(box, places, index, way, shape)
        right, down = (round(float(way), 2) for way in places.shift[index])
        yield BoxReading(
            box.id, sign.reading, sign.certainty, sign.state, turned, corners, picture,
            likely.get(index, ()), (right, down),
        )  # fmt: skip


def _only(places: Places, indices: Sequence[int]) -> Places:
    rows = list(indices)
    return Places(places.shift[rows], places.bend[rows], places.measured[rows])


def _corners(
    box: Box, places: Places, index: int, way: Array, shape: tuple[int, ...]
) -> tuple[tuple[float, float], ...]:
    """The corners of a box in the picture, in shares of its width and height."""
    half = np.array([box.w, box.h]) / 2
    around = half * [[-1, -1], [1, -1], [1, 1], [-1, 1]]
    middle = np.array([box.x, box.y]) + half + places.shift[index]
    at = (through(way, middle + around @ (np.eye(2) + places.bend[index]).T) + 0.5) / (shape[1], shape[0])
    return tuple((round(float(x), 5), round(float(y), 5)) for x, y in at)


def _file(picture: Picture, kind: str) -> bytes:
    how = [cv2.IMWRITE_PNG_COMPRESSION, 1, cv2.IMWRITE_JPEG_QUALITY, QUALITY]
    return bytes(cv2.imencode(kind, picture, how)[1].tobytes())
