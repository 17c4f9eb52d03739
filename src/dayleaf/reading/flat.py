"""The sheet seen from straight above in even light: a grey page of so many pixels a millimetre, paper white."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import cv2
import numpy as np

if TYPE_CHECKING:
    from dayleaf.reading.arrays import Array

    Picture = Array

DOTS: Final = 5
"""Pixels a millimetre."""

COARSE: Final = 1.25
"""Pixels a millimetre of the copy in which the light is measured."""

WIDEST_INK: Final = 7.0
"""Millimetres: nothing printed or written is wider without paper showing between."""


@dataclass(frozen=True, slots=True)
class FlatPage:
    """Darkness of a side: 0 is its paper, 255 black, `DOTS` pixels a millimetre, the paper's top left at pixel 0."""

    dark: Picture
    size_mm: tuple[float, float]


def flatten(picture: Picture, way: Array, size_mm: tuple[float, float]) -> FlatPage:
    """The side laid flat by the homography `way` (millimetres to pixels), shadows divided out.

    The light is what remains of the page when every dark thing narrower than `WIDEST_INK` is closed.
    """
    wide, tall = (round(length * DOTS) for length in size_mm)
    lay = np.array([[1 / DOTS, 0, 0.5 / DOTS], [0, 1 / DOTS, 0.5 / DOTS], [0, 0, 1]])
    flags = cv2.INTER_LINEAR | cv2.WARP_INVERSE_MAP
    page = cv2.warpPerspective(picture, way @ lay, (wide, tall), flags=flags, borderMode=cv2.BORDER_REPLICATE)
    light = cv2.resize(light_on(page), (wide, tall), interpolation=cv2.INTER_LINEAR)
    even = cv2.divide(page, light, scale=255)
    return FlatPage(cv2.bitwise_not(even), size_mm)


def light_on(page: Picture) -> Picture:
    """How bright the paper itself is, `COARSE` pixels a millimetre."""
    factor = COARSE / DOTS
    small = cv2.resize(page, None, fx=factor, fy=factor, interpolation=cv2.INTER_AREA)
    small = cv2.medianBlur(small, 3)
    reach = round(WIDEST_INK * COARSE) | 1
    closed = cv2.morphologyEx(small, cv2.MORPH_CLOSE, np.ones((reach, reach), np.uint8))
    return np.asarray(np.maximum(cv2.blur(closed, (5, 5)), 16))
