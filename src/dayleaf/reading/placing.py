"""Where each box really lies on the flat page: paper bends, so the corners alone are not enough.

From the marks outwards: the shift of every box is predicted from what is known so far, measured on its printed outline
near the prediction, and kept where its neighbours agree. Boxes that cannot be measured take the prediction. Where that
finds too few, the sheet is taken as a bent one and every plausible bend is tried first.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from dayleaf.reading.outlines import lines_of, rims_of, searched, seen_at

if TYPE_CHECKING:
    from collections.abc import Sequence

    from dayleaf.reading.arrays import Array
    from dayleaf.reading.flat import FlatPage
    from dayleaf.reading.outlines import Lines, Rims
    from dayleaf.sheets.model import Box, Mark

    Floats = Array

ROUNDS: Final = 4
NEAR: Final = 0.9
"""Millimetres searched beside a known place."""

WIDENS: Final = 0.045
"""Millimetres more for each millimetre to the nearest known place."""

WIDEST: Final = 4.0
FIRST: Final = 45.0
"""Millimetres from a known place within which boxes are measured first."""

LEAST: Final = (0.14, 0.3)
"""Least part of a whole outline that must be seen for a box to count as measured: a third of what the better boxes of
the page show, within these bounds, for in a soft picture every outline is pale and on a bent sheet some lie aslant.
"""

AGREES: Final = 0.6
"""Millimetres by which a measured box may differ from what the others say."""

ENOUGH: Final = 0.85
"""Share of the boxes that must be measured for the sheet to count as flat enough."""

BENT_BY: Final = 12.0
"""Millimetres at the middle of the page up to which bends are tried."""

DEGREE: Final = np.array([0, 1, 1, 2, 2, 2, 3, 3, 3, 3])
HOLD: Final = np.array([1e-6, 1e-4, 2e-3, 4e-2])[DEGREE]
"""How firmly each term of the field is held at zero (ridge regression)."""


@dataclass(frozen=True, slots=True)
class Places:
    """The place of each box.

    `shift` (N x 2) is in millimetres from where the corners alone put it, `bend` (N x 2 x 2) how the shift changes a
    millimetre to the right and down, `measured` (N) whether its own outline was seen.
    """

    shift: Floats
    bend: Floats
    measured: Array


@dataclass(frozen=True, slots=True)
class Field:
    """A smooth shift over a page of `size` millimetres: a cubic in x and y."""

    size: Floats
    weights: Floats

    def at(self, points: Floats) -> Floats:
        """The shift at points (N x 2)."""
        return np.asarray(_terms(points, self.size) @ self.weights)

    def slope(self, points: Floats) -> Floats:
        """How the shift changes a millimetre to the right and down (N x 2 x 2)."""
        across, along = np.array([1.0, 0.0]), np.array([0.0, 1.0])
        changes = [(self.at(points + step) - self.at(points - step)) / 2 for step in (across, along)]
        return np.stack(changes, axis=2)


def place_boxes(flat: FlatPage, boxes: Sequence[Box], marks: Sequence[Mark]) -> Places:
    """The place of every box on the flat page."""
    if not boxes:
        return Places(np.zeros((0, 2)), np.zeros((0, 2, 2)), np.zeros(0, bool))
    lines, rims = lines_of(flat), rims_of(boxes)
    corners = np.array([[mark.x + dx, mark.y + dy] for mark in marks for dx in (0, mark.size) for dy in (0, mark.size)])
    size = np.array(flat.size_mm)
    places = _grown(lines, rims, corners, size, start=np.zeros_like(rims.middles))
    if places.measured.mean() < ENOUGH:
        bent = _grown(lines, rims, corners, size, start=_bent(lines, rims, size))
        places = max((places, bent), key=lambda one: int(one.measured.sum()))
    return places


def _grown(lines: Lines, rims: Rims, corners: Floats, size: Floats, *, start: Floats) -> Places:
    """Boxes measured outward from the corners; `start` is the first guess of every shift."""
    still = np.zeros_like(corners)
    shift, sure = start.copy(), np.zeros(len(start), bool)
    begun = bool(start.any())
    for _ in range(ROUNDS):
        known = np.vstack([corners, rims.middles[sure]])
        away = np.linalg.norm(rims.middles[:, None] - known[None], axis=2).min(axis=1)
        if begun and not sure.any():
            guess, reach, looked = start, np.full(len(start), 1.5), np.ones(len(start), bool)
        else:
            guess = _field(known, np.vstack([still, shift[sure]]), size).at(rims.middles)
            reach = np.minimum(NEAR + WIDENS * away, WIDEST)
            looked = sure | (away <= max(FIRST, float(np.median(away[~sure])))) if not sure.all() else sure
        found, seen = searched(lines, rims, guess, reach)
        if not looked.any():
            break
        shift[looked] = found[looked]
        least = float(np.clip(np.percentile(seen[looked], 75) / 3, *LEAST))
        before, sure = sure, looked & (seen >= least)
        sure = _agreeing(rims, corners, shift, sure, size)
        if sure.all() and before.all():
            break
    field = _field(np.vstack([corners, rims.middles[sure]]), np.vstack([still, shift[sure]]), size)
    shift[~sure] = field.at(rims.middles)[~sure]
    return Places(shift, field.slope(rims.middles), sure)


def _bent(lines: Lines, rims: Rims, size: Floats) -> Floats:
    """The shift of every box under the bend that puts most outlines on lines.

    A lifted sheet moves by its height times the way to the camera's foot: a bump across, along or aslant the page,
    times a shift that is the same everywhere plus one that grows from the middle.
    """
    rough = lines.thickened(0.6)
    off = rims.middles / size * 2 - 1
    x, y = off.T
    from_middle = (rims.middles - size / 2) / 100
    steps = np.arange(-BENT_BY, BENT_BY + 0.1, 1.2)
    p = np.stack(np.meshgrid(steps, steps, indexing="ij"), axis=-1).reshape(-1, 1, 2)
    best, most = np.zeros_like(rims.middles), 0.0
    for bump in (1 - x * x, 1 - y * y, 1 - (x + y) ** 2 / 4, 1 - (x - y) ** 2 / 4):
        for grows in (-2.0, 0.0, 2.0, 4.0):
            shifts = bump[:, None] * (p + grows * from_middle)
            seen = np.minimum(seen_at(rough, rims, shifts), 1.0).sum(axis=1)
            top = int(seen.argmax())
            if seen[top] > most:
                best, most = shifts[top], float(seen[top])
    return best


def _field(known: Floats, moved: Floats, size: Floats) -> Field:
    """The smooth shift that comes nearest to what is known."""
    terms = _terms(known, size)
    return Field(size, np.linalg.solve(terms.T @ terms + np.diag(HOLD), terms.T @ moved))


def _terms(points: Floats, size: Floats) -> Floats:
    x, y = (2 * points / size - 1).T
    return np.column_stack([np.ones_like(x), x, y, x * x, x * y, y * y, x**3, x * x * y, x * y * y, y**3])


def _agreeing(rims: Rims, corners: Floats, shift: Floats, sure: Array, size: Floats) -> Array:
    """Which of the measured boxes lie where all the others together say."""
    if sure.sum() < 3:
        return sure
    known, moved = np.vstack([corners, rims.middles[sure]]), np.vstack([np.zeros_like(corners), shift[sure]])
    off = np.linalg.norm(_field(known, moved, size).at(rims.middles[sure]) - shift[sure], axis=1)
    agreed = sure.copy()
    agreed[np.flatnonzero(sure)[off > max(AGREES, 3 * float(np.median(off)))]] = False
    return agreed
