"""How well printed outlines are seen at a guessed place: lines of the flat page, and boxes held against them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import cv2
import numpy as np

from dayleaf.reading.flat import DOTS

if TYPE_CHECKING:
    from collections.abc import Sequence

    from dayleaf.reading.arrays import Array
    from dayleaf.reading.flat import FlatPage
    from dayleaf.sheets.model import Box

    Floats = Array
    Picture = Array

OUTLINE: Final = 90
"""Darkness (of 255) at which a printed outline is full: darker ink counts no more than an outline."""

ALONG: Final = 3.0
"""Millimetres of a side over which darkness is averaged."""

WHOLE: Final = 0.4 * OUTLINE
"""What an outline of 0.35 mm comes to in the averages of a sharp picture."""


@dataclass(frozen=True, slots=True)
class Lines:
    """Darkness along upright and along level lines, each averaged over `ALONG`, less what lies beside it."""

    upright: Picture
    level: Picture

    def thickened(self, millimetres: float) -> Lines:
        """The same with every line so much wider, for a rough look."""
        reach = 2 * round(millimetres * DOTS) + 1
        across, down = np.ones((1, reach), np.uint8), np.ones((reach, 1), np.uint8)
        return Lines(cv2.dilate(self.upright, across), cv2.dilate(self.level, down))


@dataclass(frozen=True, slots=True)
class Rims:
    """The outlines of boxes as printed, in millimetres.

    `middles` and `halves` (half sizes) are N x 2, as is `spread`: how far from the middle of each side it is looked
    at, two places on a straight side, one on a round one. `pill` (N) names the options to ring.
    """

    middles: Floats
    halves: Floats
    spread: Floats
    pill: Array


def lines_of(flat: FlatPage) -> Lines:
    """The lines of a flat page."""
    capped = np.minimum(flat.dark, np.uint8(OUTLINE))
    long, side = round(ALONG * DOTS), 2 * DOTS + 1
    across, down = cv2.blur(capped, (1, long)), cv2.blur(capped, (long, 1))
    return Lines(cv2.subtract(across, cv2.blur(across, (side, 1))), cv2.subtract(down, cv2.blur(down, (1, side))))


def rims_of(boxes: Sequence[Box]) -> Rims:
    """The outlines of boxes as they were printed."""
    rects = np.array([[box.x, box.y, box.w, box.h] for box in boxes], float).reshape(-1, 4)
    halves = rects[:, 2:] / 2
    square = np.array([box.kind in ("digit", "tick") for box in boxes], bool)
    pill = np.array([box.kind == "circle" for box in boxes], bool)
    spread = np.where(square[:, None], 0.44 * halves, 0.0)
    spread[pill, 0] = 0.3 * halves[pill, 0]
    return Rims(rects[:, :2] + halves, halves, spread, pill)


def seen_at(lines: Lines, rims: Rims, shift: Floats) -> Floats:
    """How much of each outline is seen at a shift (… x N x 2 millimetres): 0 none, about 1 all of it (… x N)."""
    at = rims.middles + shift
    total = []
    for way, lined in ((0, lines.upright), (1, lines.level)):
        for side in (-1, 1):
            for place in (-1, 1):
                point = at.copy()
                point[..., way] += side * rims.halves[:, way]
                point[..., 1 - way] += place * rims.spread[:, 1 - way]
                total.append(_look(lined, point[..., 1], point[..., 0]))
    return np.asarray(np.mean(total, axis=0) / WHOLE)


def searched(lines: Lines, rims: Rims, guess: Floats, reach: Floats) -> tuple[Floats, Floats]:
    """(shift, seen): where each box lies on its outline, near a guess.

    `guess` and the shift are N x 2 millimetres, `reach` (N) bounds the search; `seen` (N) is how much of the outline is
    there.     Across and down are searched apart: a side of 3 mm does not mind a small shift along itself.
    """
    steps = np.arange(-float(reach.max()), float(reach.max()) + 1e-9, 1 / DOTS)
    allowed = np.abs(steps)[None, :] <= reach[:, None]
    found, seen = guess.copy(), []
    for way, lined in ((0, lines.upright), (1, lines.level)):
        score = _pairs(lined, rims, found, way, steps)
        moved, share = _peak(score, allowed, steps)
        if way == 0:
            share = np.where(rims.pill, 1.0, share)
            moved = np.where(rims.pill & (score.max(axis=1) < 0.5 * WHOLE), 0.0, moved)
        found[:, way] += moved
        seen.append(share)
    return found, np.minimum(*seen)


def _pairs(lined: Picture, rims: Rims, guess: Floats, way: int, steps: Floats) -> Floats:
    """Darkness under both parallel sides, at two places each, for every shift along `way` (N x steps)."""
    at = rims.middles + guess
    total = []
    for side in (-1, 1):
        along = (at[:, way] + side * rims.halves[:, way])[:, None] + steps[None, :]
        for place in (-1, 1):
            fixed = np.broadcast_to((at[:, 1 - way] + place * rims.spread[:, 1 - way])[:, None], along.shape)
            total.append(_look(lined, fixed, along) if way == 0 else _look(lined, along, fixed))
    seen = np.sort(np.stack(total), axis=0)
    return np.asarray(seen.mean(axis=0) * 0.5 + seen[0] * 0.25 + seen[1] * 0.25)


def _look(lined: Picture, down: Floats, across: Floats) -> Array:
    height, width = lined.shape
    row = np.clip((down * DOTS).astype(np.int32), 0, height - 1)
    column = np.clip((across * DOTS).astype(np.int32), 0, width - 1)
    return np.asarray(lined.ravel()[row * width + column], np.float32)


def _peak(score: Floats, allowed: Array, steps: Floats) -> tuple[Floats, Floats]:
    """The shift with the highest score to a part of a step, and that score as a part of a whole outline."""
    smooth = score.copy()
    smooth[:, 1:-1] = 0.25 * score[:, :-2] + 0.5 * score[:, 1:-1] + 0.25 * score[:, 2:]
    held = np.where(allowed, smooth, -1.0)
    best = held.argmax(axis=1)
    rows = np.arange(len(score))
    inner = np.clip(best, 1, len(steps) - 2)
    before, here, after = (smooth[rows, inner + k] for k in (-1, 0, 1))
    bow = before - 2 * here + after
    bent = np.abs(bow) > 1e-9
    part = np.where(bent, 0.5 * (before - after) / np.where(bent, bow, 1.0), 0.0)
    return steps[inner] + np.clip(part, -0.5, 0.5) / DOTS, held[rows, best] / WHOLE
