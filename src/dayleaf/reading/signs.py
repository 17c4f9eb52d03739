"""Signs that are no digits: less, greater, equal; a tick in a box; a ring around an option."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal

import cv2
import numpy as np

from dayleaf.reading.flat import DOTS
from dayleaf.reading.ink import FAINTEST, cut, own_ink

if TYPE_CHECKING:
    from dayleaf.reading.arrays import Array
    from dayleaf.reading.flat import FlatPage
    from dayleaf.reading.ink import Ink
    from dayleaf.reading.placing import Places
    from dayleaf.sheets.model import Box

    Floats = Array

State = Literal["sure", "ask", "blank"]

PILL: Final = 6.0
"""Millimetres: the radius of the corners of an option to ring."""

RING_REACH: Final = (-1.6, 3.4)
"""Millimetres inside and outside an option's outline between which a ring is drawn."""

SECTORS: Final = 48
RINGED: Final = (0.25, 0.5, 0.7)
"""Share of the way around with pencil: below the first no ring, above the second one, above the third surely."""

LEANS: Final = (0.22, 0.5)
"""How a sign opens: an equals sign less than the first, < and > more than the second (an exact one by 1)."""

DOT: Final = 1.0
TINY: Final = 2.2
"""Millimetres: shorter ink than the first is dirt, shorter than the second is asked about."""


@dataclass(frozen=True, slots=True)
class Sign:
    """What a box says, how certain that is (0 to 1), and whether it is taken, asked about or left empty."""

    reading: str
    certainty: float
    state: State


BLANK: Final = Sign("", 1.0, "blank")


def comparison(ink: Ink) -> Sign:
    """Which of <, > and = is written: by where the strokes stand far apart."""
    if ink.extent < DOT:
        return BLANK
    mask = ink.strokes > 0.4
    columns = np.flatnonzero(mask.any(axis=0))
    rows = np.flatnonzero(mask.any(axis=1))
    if len(columns) < DOTS or len(rows) < 3 or ink.leaves or ink.strange:
        return Sign("", 0.0, "ask")
    inner = columns[len(columns) // 12 : len(columns) - len(columns) // 12]
    heights = np.array([np.ptp(np.flatnonzero(mask[:, column])) if mask[:, column].any() else 0 for column in inner])
    lean = float(np.polyfit(np.linspace(0, 1, len(inner)), heights / len(rows), 1)[0])
    pieces = cv2.connectedComponents(mask.astype(np.uint8))[0] - 1
    if abs(lean) >= LEANS[1] and pieces <= 2:
        certainty = min(0.99, 0.9 + 0.2 * (abs(lean) - LEANS[1]))
        return Sign("<" if lean > 0 else ">", certainty, "sure")
    gap = not mask[(rows[0] + rows[-1]) // 2, inner].any()
    if abs(lean) <= LEANS[0] and pieces == 2 and gap and len(columns) > len(rows):
        return Sign("=", 0.98 - abs(lean) / 4, "sure")
    guess = "=" if abs(lean) < sum(LEANS) / 2 else "<" if lean > 0 else ">"
    return Sign(guess, 0.6, "ask")


def tick(ink: Ink, box: Box) -> Sign:
    """Whether a box is ticked or crossed; one that is filled with scribble is asked about."""
    if ink.extent < DOT:
        return BLANK
    share = ink.area / (box.w * box.h)
    if ink.extent < 0.3 * box.w or share > 0.75 or ink.strange:
        return Sign("1", 0.6, "ask")
    return Sign("1", min(0.995, 0.9 + ink.extent / box.w / 10), "sure")


def round_ink(flat: FlatPage, box: Box, places: Places, index: int, *, paper: float) -> Ink:
    """The ink in a round box."""
    margin = 1.6
    shown = cut(flat, box, places, index, margin)
    dark, _ = _outline_off(shown.astype(np.float32) / 255, box, margin, radius=box.w / 2)
    return own_ink(dark, cv2.bitwise_not(shown), margin, paper)


def ring(flat: FlatPage, box: Box, places: Places, index: int) -> tuple[Sign, Array]:
    """Whether an option is ringed: how far around it pencil is found near its outline; and the option as seen."""
    margin = RING_REACH[1] + 0.6
    shown = cut(flat, box, places, index, margin)
    dark, away = _outline_off(shown.astype(np.float32) / 255, box, margin, radius=min(PILL, box.h / 2))
    soft = cv2.blur(dark, (3, 3))
    near = (away > RING_REACH[0]) & (away < RING_REACH[1])
    noise = 7 * float(np.median(soft[near]))
    drawn = near & (soft > max(FAINTEST + 0.04, noise))
    around = _sectors(dark.shape)
    filled = np.bincount(around[drawn], minlength=SECTORS) >= 3
    share = float(filled.mean())
    picture = cv2.bitwise_not(shown)
    if share < RINGED[0]:
        return Sign("", 1 - share, "blank"), picture
    if share < RINGED[1]:
        return Sign("1", share, "ask"), picture
    return Sign("1", min(0.99, 0.8 + 0.2 * share), "sure" if share >= RINGED[2] else "ask"), picture


def _sectors(shape: tuple[int, ...]) -> Array:
    """The sector of every pixel around the middle, all of them equally long on the rim of a rectangle of this shape."""
    height, width = shape
    y, x = np.mgrid[0:height, 0:width]
    turn = np.arctan2((y - height / 2) / height, (x - width / 2) / width)
    return np.asarray(((turn + np.pi) / (2 * np.pi) * SECTORS).astype(np.int64) % SECTORS)


def _outline_off(dark: Floats, box: Box, margin: float, *, radius: float) -> tuple[Floats, Floats]:
    """(the cut without its rounded outline, millimetres from that outline, negative inside).

    How dark the outline is, is measured along its whole way, by distance from it.
    """
    height, width = dark.shape
    y, x = np.mgrid[0:height, 0:width]
    across = np.abs((x + 0.5) / DOTS - margin - box.w / 2) - (box.w / 2 - radius)
    down = np.abs((y + 0.5) / DOTS - margin - box.h / 2) - (box.h / 2 - radius)
    outside = np.hypot(np.maximum(across, 0), np.maximum(down, 0))
    away = outside + np.minimum(np.maximum(across, down), 0) - radius
    step = np.clip(np.rint(away * DOTS).astype(int), -4, 4) + 4
    print_of = np.zeros_like(dark)
    for bin_ in range(1, 8):
        at = step == bin_
        if at.any():
            print_of[at] = min(0.5, float(np.percentile(dark[at], 40)))
    clear = np.clip((dark - print_of) / (1 - print_of), 0, 1)
    return np.asarray(clear, np.float32), np.asarray(away, np.float32)
