"""What a hand wrote in and around each box: the printed outline taken off, strokes kept whole where they cross it.

An outline is not erased. How dark it is, is measured along each side of each box, and just so much is taken off;
where a stroke crosses or follows the outline, the stroke is darker and stays.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

import cv2
import numpy as np

from dayleaf.reading.flat import DOTS

if TYPE_CHECKING:
    from collections.abc import Sequence

    from dayleaf.reading.arrays import Array
    from dayleaf.reading.flat import FlatPage
    from dayleaf.reading.placing import Places
    from dayleaf.sheets.model import Box

    Floats = Array
    Picture = Array

MARGIN: Final = 1.6
"""Millimetres around a box that are looked at with it; other boxes and print keep at least two away."""

BAND: Final = 0.8
"""Millimetres to both sides of an outline within which it may show."""

CORNER: Final = 1.2
"""Millimetres at the ends of a side that say nothing about it."""

DARKEST: Final = 0.5
"""An outline is never darker than this share of black: more along a side is a stroke that follows it."""

LIKE: Final = 1.3
"""How much darker one side of a box may be than the second palest one."""

FAINTEST: Final = 0.13
"""Darkness below which nothing counts as written."""

_AROUND: Final = np.ones((3, 3), np.uint8)

SPECK: Final = 0.2
"""Square millimetres below which a spot is dirt."""


@dataclass(frozen=True, slots=True)
class Ink:
    """What is written in one box; lengths in millimetres.

    `strokes` is 0 to 1, `DOTS` pixels a millimetre, the margin around the box included, and 0 wherever nothing of this
    box is written. `shown` is the same cut as it was seen, paper white. `area` is in square millimetres, `extent` the
    longer side of what is written, `tone` how dark it is. `leaves` says that ink runs out of the cut, `strange` that
    ink of elsewhere runs in.
    """

    strokes: Floats
    shown: Picture
    area: float
    extent: float
    tone: float
    leaves: bool
    strange: bool


def ink_in(flat: FlatPage, boxes: Sequence[Box], places: Places, *, margin: float = MARGIN) -> tuple[Ink, ...]:
    """The ink of every box, in their order; the outlines are taken for straight sides."""
    found: dict[int, Ink] = {}
    sizes: dict[tuple[float, float], list[int]] = {}
    for index, box in enumerate(boxes):
        sizes.setdefault((box.w, box.h), []).append(index)
    paper = unevenness_of(flat)
    for (width, height), group in sizes.items():
        cuts = np.stack([cut(flat, boxes[index], places, index, margin) for index in group])
        clear = _outlines_off(cuts.astype(np.float32) / 255, width, height, margin)
        for index, shown, dark in zip(group, cuts, clear, strict=True):
            found[index] = own_ink(dark, cv2.bitwise_not(shown), margin, paper)
    return tuple(found[index] for index in range(len(boxes)))


def cut(flat: FlatPage, box: Box, places: Places, index: int, margin: float) -> Picture:
    """Darkness in and around a box, turned and stretched as the paper bends there."""
    wide, tall = (round((side + 2 * margin) * DOTS) for side in (box.w, box.h))
    middle = np.array([box.x + box.w / 2, box.y + box.h / 2]) + places.shift[index]
    turn = np.eye(2) + places.bend[index]
    start = middle * DOTS - 0.5 - turn @ (np.array([wide, tall]) / 2 - 0.5)
    lay = np.column_stack([turn, start])
    flags = cv2.INTER_LINEAR | cv2.WARP_INVERSE_MAP
    return np.asarray(cv2.warpAffine(flat.dark, lay, (wide, tall), flags=flags, borderValue=0))


def _outlines_off(dark: Floats, width: float, height: float, margin: float) -> Floats:
    """Boxes of one size (N x rows x columns) without what their outlines add.

    The four sides of a box are printed alike: one that is darker than the others is followed by a stroke, and only as
    much is taken off as the others show.
    """
    turned = dark.transpose(0, 2, 1)
    across, down = (margin, margin + width), (margin, margin + height)
    upright = [_side(dark, place, down) for place in across]
    level = [_side(turned, place, across) for place in down]
    peaks = np.sort(np.stack([side.max(axis=1) for side in (*upright, *level)], axis=1), axis=1)
    most = np.minimum(LIKE * peaks[:, 1] + 0.02, DARKEST)[:, None]
    print_of = np.zeros_like(dark)
    turned_print = print_of.transpose(0, 2, 1)
    for whole, sides, places, along in ((print_of, upright, across, down), (turned_print, level, down, across)):
        reach = slice(max(0, round((along[0] - 0.3) * DOTS)), round((along[1] + 0.3) * DOTS))
        for side, place in zip(sides, places, strict=True):
            spot = whole[:, reach, _band(place)]
            np.maximum(spot, np.minimum(side, most)[:, None, :], out=spot)
    return np.asarray(np.clip((dark - print_of) / (1 - print_of), 0, 1), np.float32)


def _side(dark: Floats, place: float, along: tuple[float, float]) -> Floats:
    """How dark an upright outline at `place` is, across it (N x pixels): what most of its length shows."""
    inner = slice(round((along[0] + CORNER) * DOTS), round((along[1] - CORNER) * DOTS))
    lengthwise = np.sort(dark[:, inner, _band(place)], axis=1)
    return np.asarray(lengthwise[:, round(0.4 * lengthwise.shape[1])])


def _band(place: float) -> slice:
    """The pixels across an outline."""
    return slice(max(0, round((place - BAND) * DOTS)), round((place + BAND) * DOTS) + 1)


def unevenness_of(flat: FlatPage) -> float:
    """How uneven the paper of a page can be anywhere, as a share of black."""
    return 3 * _unevenness(cv2.blur(flat.dark, (3, 3))[::7, ::7].astype(np.float32) / 255) + 0.004


def _unevenness(dark: Floats) -> float:
    """How much the paper's own darkness varies: the median of what it differs by from its median."""
    return float(np.median(np.abs(dark - np.median(dark))))


def own_ink(dark: Floats, shown: Picture, margin: float, paper: float) -> Ink:
    """The strokes that belong to the box, of all that is dark in its cut.

    `paper` bounds how uneven the paper can be, for a box full of ink says little about that.
    """
    soft = cv2.blur(dark, (3, 3))
    edge = round((margin + 0.5) * DOTS)
    levels = np.sort(soft[edge:-edge:2, edge:-edge:2], axis=None)
    quarter, tone = len(levels) // 4, float(levels[int(0.985 * len(levels))])
    noise = 0.75 * min(float(levels[3 * quarter] - levels[quarter]), 2 * paper)
    least = max(FAINTEST, 0.4 * tone, min(5 * noise, 0.7 * tone))
    nothing = Ink(np.zeros_like(dark), shown, 0.0, 0.0, tone, leaves=False, strange=False)
    if float(soft.max()) <= least:
        return nothing
    count, names, stats, _ = cv2.connectedComponentsWithStats((soft > least).astype(np.uint8), connectivity=8)
    within = np.bincount(names[edge:-edge, edge:-edge].ravel(), minlength=count)
    speck = SPECK * DOTS * DOTS
    height, width = dark.shape
    strange, leaves, kept = False, False, np.zeros(count, np.uint8)
    for name in np.flatnonzero((stats[1:, 4] >= speck) & (within[1:] > 0)) + 1:
        x, y, w, h, dots = stats[name].tolist()
        touches = x <= 0 or y <= 0 or x + w >= width or y + h >= height
        if touches and within[name] < 0.3 * dots:
            strange = strange or bool(within[name] > speck)
        elif within[name] == dots or not _is_rest_of_outline(names == name, soft, margin, dots):
            kept[name] = 1
            leaves = leaves or touches
    if not kept.any():
        return replace(nothing, strange=strange)
    mask = kept[names]
    _, _, w, h = cv2.boundingRect(mask)
    inked = np.sort(soft[mask > 0])
    level = max(float(inked[int(0.8 * len(inked))]), least)
    strokes = np.minimum(dark * (cv2.dilate(mask, _AROUND) / level), 1).astype(np.float32)
    return Ink(strokes, shown, len(inked) / DOTS**2, max(w, h) / DOTS, level, leaves=leaves, strange=strange)


def _is_rest_of_outline(spot: Array, soft: Floats, margin: float, dots: int) -> bool:
    """Whether a spot is only what an outline left: pale, and all of it in the outline's band."""
    band = np.ones(spot.shape, bool)
    far, near = round((margin + BAND) * DOTS), round((margin - BAND) * DOTS)
    band[far:-far, far:-far] = False
    band[:near], band[-near:], band[:, :near], band[:, -near:] = (False,) * 4
    return int((spot & band).sum()) > 0.9 * dots and float(soft[spot].mean()) < 0.3
