"""The corner marks in a picture: which side of a sheet is seen, and where its corners lie."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, Any, Final

import cv2
import numpy as np

from dayleaf.reading.refusals import Blurred, CornerMissing, Mirrored, NotASheet, TooFar, TwoSheets
from dayleaf.sheets.corners import BACK_MARKS, FRONT_MARKS, MARK_SIZE, PATTERNS

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from dayleaf.reading.arrays import Array

    Picture = Array
    Points = Array

QUICK: Final = 1000
"""Pixels of the longer side in which marks are looked for first."""

WINDOWS: Final = ((13, 13, 10, 0.03), (7, 37, 10, 0.015))
"""Windows of the threshold (least, greatest, step in pixels) and least way around a mark as a share of the picture:
what finds most marks, then what finds small and badly lit ones.
"""

SMALLEST: Final = 2.0
"""Pixels a millimetre of the paper below which boxes are not read."""

SOFT: Final = 0.2
"""Step from pixel to pixel, as a share of the contrast, below which a picture is blurred."""

ALIKE: Final = 0.15
"""Share of the largest mark's area that the others have at least, on a sheet slanted by 45 degrees."""

ORDER: Final = {mark: place for marks in (FRONT_MARKS, BACK_MARKS) for place, mark in enumerate(marks)}


@dataclass(frozen=True, slots=True)
class Found:
    """The marks of one side: their four corners each in pixels, None for a mark that is not seen.

    `back` says that the even side is seen. Corners of a mark and marks of a side go with the clock from the top left.
    """

    back: bool
    corners: tuple[Points | None, ...]

    @property
    def missing(self) -> tuple[int, ...]:
        """The places (0 = top left, with the clock) of marks that are not seen."""
        return tuple(place for place, corners in enumerate(self.corners) if corners is None)

    @property
    def dots(self) -> float:
        """Pixels a millimetre, by the smallest mark."""
        sides = [np.linalg.norm(c - np.roll(c, 1, axis=0), axis=1).mean() for c in self.corners if c is not None]
        return float(min(sides)) / MARK_SIZE


def find_marks(picture: Picture) -> Found:
    """The marks of the one sheet in a grey picture.

    Three marks are enough where the fourth lies inside the picture but is covered.

    Raises:
        TwoSheets: marks of more than one side.
        CornerMissing: fewer than three marks.
        Mirrored: the marks are seen as in a mirror.
        TooFar: the marks are there, but too small to read what stands between them.
        Blurred: fewer than three marks in a picture without a sharp edge.
        NotASheet: none of our marks is seen.
    """
    best: dict[int, list[Points]] = {}
    for seen in _tries(picture):
        best = max(best, seen, key=len)
        if any(len(_of_side(seen, marks)) == 4 for marks in (FRONT_MARKS, BACK_MARKS)):
            break
    sides = sorted((_of_side(best, marks) for marks in (FRONT_MARKS, BACK_MARKS)), key=len)
    if len(sides[0]) >= 2 or sum(len(found) > 1 for found in best.values()) >= 2:
        raise TwoSheets
    side = sides[1]
    if _turns_wrong(side) or (len(side) < 3 and _is_mirrored(picture)):
        raise Mirrored
    if len(side) < 3 and is_blurred(picture):
        raise Blurred
    if not side:
        raise NotASheet
    found = Found(next(iter(side)) in BACK_MARKS, _in_order(side))
    if len(side) < 3:
        raise CornerMissing(found.missing)
    if found.dots < SMALLEST:
        raise TooFar
    return Found(found.back, tuple(c if c is None else _sharpened(picture, c) for c in found.corners))


def is_blurred(picture: Picture) -> bool:
    """Whether no edge in the whole picture is sharp, in a copy of 700 pixels."""
    factor = min(1.0, 700 / max(picture.shape))
    small = cv2.resize(picture, None, fx=factor, fy=factor, interpolation=cv2.INTER_AREA).astype(np.int16)
    contrast = max(float(np.percentile(small, 99) - np.percentile(small, 1)), 20.0)
    steps = np.abs(np.diff(small, axis=1))
    return float(np.percentile(steps, 99.9)) < SOFT * contrast


def _tries(picture: Picture) -> Iterator[dict[int, list[Points]]]:
    """Marks by id: in a small copy, then with more care, then in the picture itself."""
    factor = min(1.0, QUICK / max(picture.shape))
    small = cv2.resize(picture, None, fx=factor, fy=factor, interpolation=cv2.INTER_AREA) if factor < 1 else picture
    for windows in WINDOWS:
        yield _detected(small, windows, factor)
    if factor < 1:
        yield _detected(picture, WINDOWS[1], 1.0)
    if max(picture.shape) < 2 * QUICK:
        larger = cv2.resize(picture, None, fx=2, fy=2, interpolation=cv2.INTER_CUBIC)
        yield _detected(larger, WINDOWS[1], 2.0)


def _detected(picture: Picture, windows: tuple[int, int, int, float], factor: float) -> dict[int, list[Points]]:
    corners, ids, _ = _detector(windows).detectMarkers(picture)
    found: dict[int, list[Points]] = {}
    names = tuple(PATTERNS)
    for corner, index in zip(corners, () if ids is None else ids.ravel().tolist(), strict=True):
        at = (corner.reshape(4, 2).astype(np.float32) + 0.5) / factor - 0.5
        found.setdefault(names[index], []).append(at)
    return found


@cache
def _detector(windows: tuple[int, int, int, float]) -> Any:
    """A detector that knows our eight marks only: they differ in five cells, so that two wrong ones are mended."""
    bits = [np.array([int(cell) for cell in cells], np.uint8).reshape(4, 4) for cells in PATTERNS.values()]
    known = cv2.aruco.Dictionary(np.vstack([cv2.aruco.Dictionary.getByteListFromBits(one) for one in bits]), 4, 2)
    wishes = cv2.aruco.DetectorParameters()
    least, most, step, around = windows
    wishes.adaptiveThreshWinSizeMin, wishes.adaptiveThreshWinSizeMax = least, most
    wishes.adaptiveThreshWinSizeStep = step
    wishes.minMarkerPerimeterRate = around
    wishes.errorCorrectionRate = 1.0
    return cv2.aruco.ArucoDetector(known, wishes)


def _of_side(seen: dict[int, list[Points]], marks: Sequence[int]) -> dict[int, Points]:
    """One place for each mark of a side; of two, the larger.

    What is far smaller than the largest is some print that happens to look like a mark.
    """
    found = {mark: max(seen[mark], key=cv2.contourArea) for mark in marks if mark in seen}
    largest = max(map(cv2.contourArea, found.values()), default=0.0)
    return {mark: corners for mark, corners in found.items() if cv2.contourArea(corners) > ALIKE * largest}


def _in_order(side: dict[int, Points]) -> tuple[Points | None, ...]:
    places: list[Points | None] = [None] * 4
    for mark, corners in side.items():
        places[ORDER[mark]] = corners
    return tuple(places)


def _turns_wrong(side: dict[int, Points]) -> bool:
    """Whether three or four marks follow one another against the clock."""
    if len(side) < 3:
        return False
    middles = np.array([side[mark].mean(axis=0) for mark in sorted(side, key=ORDER.__getitem__)], np.float32)
    return bool(cv2.contourArea(middles, oriented=True) < 0)


def _is_mirrored(picture: Picture) -> bool:
    factor = min(1.0, QUICK / max(picture.shape))
    turned = cv2.flip(cv2.resize(picture, None, fx=factor, fy=factor, interpolation=cv2.INTER_AREA), 1)
    seen = _detected(turned, WINDOWS[0], 1.0)
    sides = [_of_side(seen, marks) for marks in (FRONT_MARKS, BACK_MARKS)]
    return any(len(side) >= 3 and not _turns_wrong(side) for side in sides)


def _sharpened(picture: Picture, corners: Points) -> Points:
    """The corners to a part of a pixel, looked at within a cell of the mark."""
    cell = float(np.sqrt(cv2.contourArea(corners))) / 6
    reach = max(2, round(0.7 * cell))
    until = (cv2.TERM_CRITERIA_EPS + cv2.TERM_CRITERIA_MAX_ITER, 20, 0.02)
    at = np.ascontiguousarray(corners, np.float32).reshape(-1, 1, 2).copy()
    height, width = picture.shape
    if (at.min() < reach + 2) or (at[..., 0].max() > width - reach - 3) or (at[..., 1].max() > height - reach - 3):
        return corners
    return np.asarray(cv2.cornerSubPix(picture, at, (reach, reach), (-1, -1), until).reshape(4, 2), np.float32)
