"""Which sheet a picture shows: the printed code, looked for where the marks say that it stands."""

from __future__ import annotations

from itertools import product
from typing import TYPE_CHECKING, Final

import cv2
import numpy as np
import zxingcpp

from dayleaf.reading.refusals import Blurred, CodeUnread, TooFar
from dayleaf.sheets.corners import CODE_SIZE, MARK_SIZE, code_of, second_code_at
from dayleaf.sheets.ids import NotASheetCode, read_code

if TYPE_CHECKING:
    from collections.abc import Iterable

    from dayleaf.core.ids import SheetId
    from dayleaf.reading.arrays import Array
    from dayleaf.reading.marks import Found

    Picture = Array

CODES: Final = zxingcpp.barcode_formats_from_str("QRCode")
MARGIN: Final = 6.0
"""Millimetres around the code that are looked at with it."""

FINE: Final = (8.0, 14.0, 5.0)
"""Pixels a millimetre of the flattened code, tried in this order."""

FAR: Final = 3.0
"""Pixels a millimetre below which an unread code is blamed on distance."""

SHARP: Final = 0.28
"""Least steepness of a mark's rim for a picture that is not called blurred; see `steepness`."""


def sheet_in(
    picture: Picture, found: Found, planes: Iterable[tuple[Array, tuple[float, float]]]
) -> tuple[SheetId, int]:
    """The sheet and side that the picture shows; `planes` as `plane.planes_of` gives them.

    Raises:
        TooFar, Blurred, CodeUnread: neither copy of the code can be read, by what is the matter.
    """
    for dots, (way, size_mm) in product(FINE, planes):
        first = code_of("", size_mm)
        for at in ((first.x, first.y), second_code_at(size_mm)):
            patch = _flattened(picture, way, at, dots)
            for code in zxingcpp.read_barcodes(patch, formats=CODES, try_downscale=False):
                try:
                    return read_code(code.text)
                except NotASheetCode:
                    continue
    if found.dots < FAR:
        raise TooFar
    if steepness(picture, found) < SHARP:
        raise Blurred
    raise CodeUnread


def steepness(picture: Picture, found: Found) -> float:
    """How steep the rims of the marks are: the largest step a pixel over the contrast, 1 = sharp; median of marks.

    Measured in a copy of 3 pixels a millimetre, so that a large blurred picture counts like a small one.
    """
    steps = []
    for corners in found.corners:
        if corners is None:
            continue
        side = round(3 * (MARK_SIZE + 4))
        goal = np.array([[6, 6], [side - 7, 6], [side - 7, side - 7], [6, side - 7]], np.float32)
        patch = cv2.warpPerspective(picture, cv2.getPerspectiveTransform(corners, goal), (side, side)).astype(np.int16)
        contrast = np.percentile(patch, 90) - np.percentile(patch, 10)
        steps.append(np.percentile(np.abs(np.diff(patch, axis=1)), 97) / max(float(contrast), 20.0))
    return float(np.median(steps))


def _flattened(picture: Picture, way: Array, at: tuple[float, float], dots: float) -> Picture:
    """The code at a place of the paper with what lies around it, seen from straight above."""
    size = round((CODE_SIZE + 2 * MARGIN) * dots)
    lay = np.array([[1 / dots, 0, at[0] - MARGIN], [0, 1 / dots, at[1] - MARGIN], [0, 0, 1]])
    flags = cv2.INTER_LINEAR | cv2.WARP_INVERSE_MAP
    return np.asarray(cv2.warpPerspective(picture, way @ lay, (size, size), flags=flags, borderValue=255))
