"""The way from the paper to the picture while the paper is taken as flat: a homography from the corner marks."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

import cv2
import numpy as np

from dayleaf.reading.refusals import CornerMissing
from dayleaf.sheets.corners import marks_of
from dayleaf.sheets.geometry import PAPER

if TYPE_CHECKING:
    from dayleaf.reading.arrays import Array
    from dayleaf.reading.marks import Found

    Floats = Array

MISSES: Final = 1.5
"""Millimetres (root mean square) by which true marks miss a plane at most, however bent the sheet."""

ROOM: Final = 1.0
"""Pixels by which a covered mark may lie at the very edge of the picture."""


def trusted(found: Found) -> Found:
    """The marks without one that cannot be where it seems to be: print that happens to look like a mark."""
    missed = min(_fit(found, size)[1] for size in PAPER.values())
    if found.missing or missed < MISSES * found.dots:
        return found
    fewer = [
        replace(found, corners=tuple(None if at == place else c for at, c in enumerate(found.corners)))
        for place in range(len(found.corners))
    ]
    best, least = min(
        ((one, min(_fit(one, size)[1] for size in PAPER.values())) for one in fewer), key=lambda fit: fit[1]
    )
    return best if least < missed / 4 else found


def planes_of(found: Found) -> tuple[tuple[Floats, tuple[float, float]], ...]:
    """(homography from millimetres of the paper to pixels, width and height of the paper), the likeliest paper first.

    Letter or A4 is told by the marks themselves: they are 7 mm wide, so their sizes and distances fit only one. On a
    bent sheet that can mislead; the code then says which it is.
    """
    fits = sorted(((*_fit(found, size), size) for size in PAPER.values()), key=lambda fit: fit[1])
    return tuple((way, size) for way, _, size in fits)


def plane_of(found: Found, size_mm: tuple[float, float]) -> Floats:
    """The homography from millimetres of a paper of known size to pixels."""
    return _fit(found, size_mm)[0]


def through(way: Floats, points: object) -> Floats:
    """Points (N x 2) taken through a homography."""
    at = np.asarray(points, float).reshape(-1, 1, 2)
    return np.asarray(cv2.perspectiveTransform(at, way).reshape(-1, 2))


def check_corners(found: Found, way: Floats, size_mm: tuple[float, float], shape: tuple[int, ...]) -> None:
    """Nothing of a mark that is not seen may lie outside the picture of `shape` (height, width).

    Raises:
        CornerMissing: it does.
    """
    marks = marks_of(1, size_mm)
    for place in found.missing:
        mark = marks[place]
        at = through(way, [[mark.x, mark.y], [mark.x + mark.size, mark.y + mark.size]])
        if at.min() < ROOM or (at >= np.array([shape[1], shape[0]]) - ROOM).any():
            raise CornerMissing((place,))


def _fit(found: Found, size_mm: tuple[float, float]) -> tuple[Floats, float]:
    """The homography of the least squares for one size of paper, and what it misses by, in pixels."""
    marks = marks_of(1, size_mm)
    paper, picture = [], []
    for mark, corners in zip(marks, found.corners, strict=True):
        if corners is not None:
            far, low = mark.x + mark.size, mark.y + mark.size
            paper.append([[mark.x, mark.y], [far, mark.y], [far, low], [mark.x, low]])
            picture.append(corners)
    from_mm, to_dots = np.array(paper, float).reshape(-1, 2), np.array(picture, float).reshape(-1, 2)
    way, _ = cv2.findHomography(from_mm, to_dots, 0)
    missed = np.linalg.norm(through(way, from_mm) - to_dots, axis=1)
    return np.asarray(way, float), float(np.sqrt((missed**2).mean()))
