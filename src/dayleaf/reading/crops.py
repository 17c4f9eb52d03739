"""Written digits as a network wants them: 28 x 28 pixels, bright on dark, as high as 20, their weight in the middle."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

import cv2
import numpy as np

if TYPE_CHECKING:
    from collections.abc import Iterable

    from dayleaf.reading.arrays import Array
    from dayleaf.reading.ink import Ink

    Picture = Array

SIDE: Final = 28
INKED: Final = 20
"""Pixels of the longer side of what is written, as in the MNIST set."""


def crops_from(inks: Iterable[Ink]) -> Picture:
    """N x 28 x 28 crops of what is written.

    The longer side of the ink becomes 20 pixels, then its centre of mass is laid on the middle, as was done for the
    MNIST set (LeCun, Cortes, Burges).
    """
    crops = [_crop(ink) for ink in inks]
    return np.stack(crops) if crops else np.zeros((0, SIDE, SIDE), np.uint8)


def _crop(ink: Ink) -> Picture:
    x, y, w, h = cv2.boundingRect((ink.strokes > 0.3).astype(np.uint8))
    if w == 0 or h == 0:
        return np.zeros((SIDE, SIDE), np.uint8)
    strokes = ink.strokes[y : y + h, x : x + w]
    factor = INKED / max(w, h)
    size = (max(1, round(w * factor)), max(1, round(h * factor)))
    way = cv2.INTER_AREA if factor < 1 else cv2.INTER_LINEAR
    small = cv2.resize(strokes, size, interpolation=way)
    weight = float(small.sum())
    rows, columns = np.arange(size[1]), np.arange(size[0])
    down, across = float(small.sum(axis=1) @ rows) / weight, float(small.sum(axis=0) @ columns) / weight
    middle = (SIDE - 1) / 2
    lay = np.array([[1, 0, middle - across], [0, 1, middle - down]], np.float32)
    laid = cv2.warpAffine(small, lay, (SIDE, SIDE), flags=cv2.INTER_LINEAR)
    return np.asarray(np.clip(laid * 255, 0, 255), np.uint8)
