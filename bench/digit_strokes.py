"""Written signs drawn from points: digits in many hands, letters, signs, hatching and ticks, as 28 × 28 pictures.

The shapes are our own; nothing here was traced. What a person would read without thinking carries one digit; what could be
two digits carries both, so that the network learns to hesitate.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

import cv2
import numpy as np
from numpy.typing import NDArray

if TYPE_CHECKING:
    from collections.abc import Mapping

Picture: TypeAlias = NDArray[np.uint8]
Points: TypeAlias = NDArray[np.float64]

CANVAS = 112
"""Side in pixels of the canvas that is drawn on before it is made small: four to a pixel of the picture."""
_BEND = "c"
_STRAIGHT = "s"


@dataclass(frozen=True, slots=True)
class Stroke:
    """Points in a unit square, x to the right, y down; a bend is a smooth curve through them, else straight lines."""

    points: tuple[tuple[float, float], ...]
    bend: bool = True


def _bend(*points: tuple[float, float]) -> Stroke:
    return Stroke(points)


def _line(*points: tuple[float, float]) -> Stroke:
    return Stroke(points, bend=False)


_RING = ((0.5, 0.0), (0.12, 0.25), (0.08, 0.7), (0.45, 1.0), (0.88, 0.75), (0.9, 0.3), (0.55, 0.02))
_ROUND_TWO = ((0.12, 0.28), (0.35, 0.02), (0.75, 0.1), (0.78, 0.4), (0.45, 0.75), (0.08, 1.0))
_BELLY = ((0.22, 0.45), (0.55, 0.36), (0.88, 0.62), (0.6, 0.97), (0.1, 0.93))
_SIX = ((0.75, 0.02), (0.35, 0.25), (0.1, 0.65), (0.35, 1.0), (0.85, 0.85), (0.75, 0.55), (0.35, 0.58), (0.14, 0.78))
_NINE = ((0.82, 0.18), (0.5, 0.0), (0.14, 0.25), (0.4, 0.5), (0.78, 0.32), (0.84, 0.12))

DIGITS: Mapping[int, tuple[tuple[Stroke, ...], ...]] = {
    0: ((_bend(*_RING),), (_bend(*_RING[2:], *_RING[1:3]),), (_bend(*_RING[:-1], (0.62, 0.1)),)),
    1: (
        (_line((0.5, 0.0), (0.5, 1.0)),),
        (_line((0.5, 0.0), (0.48, 0.5), (0.5, 1.0)),),
        (_line((0.3, 0.2), (0.52, 0.0), (0.52, 1.0)),),
        (_line((0.26, 0.26), (0.52, 0.0), (0.52, 1.0)),),
        (_line((0.34, 0.16), (0.52, 0.0), (0.52, 1.0)), _line((0.2, 1.0), (0.85, 1.0))),
        (_line((0.5, 0.0), (0.5, 1.0)), _line((0.22, 1.0), (0.8, 1.0))),
    ),
    2: (
        (_bend(*_ROUND_TWO), _line((0.08, 1.0), (0.92, 0.97))),
        (_bend(*_ROUND_TWO[:-1], (0.12, 1.0), (0.06, 0.86), (0.3, 0.82), (0.95, 1.0)),),
        (_bend(*_ROUND_TWO), _bend((0.08, 1.0), (0.4, 0.92), (0.95, 1.0))),
        (_line((0.12, 0.05), (0.85, 0.05), (0.1, 1.0), (0.92, 1.0)),),
    ),
    3: (
        (_bend((0.12, 0.12), (0.5, 0.0), (0.82, 0.2), (0.42, 0.46)), _bend((0.42, 0.46), (0.9, 0.7), (0.5, 1.0), (0.08, 0.88))),
        (_line((0.12, 0.03), (0.85, 0.03), (0.42, 0.4)), _bend((0.42, 0.4), (0.88, 0.6), (0.75, 0.95), (0.1, 0.92))),
        (_bend((0.15, 0.08), (0.75, 0.05), (0.7, 0.4), (0.5, 0.5), (0.85, 0.65), (0.7, 0.97), (0.1, 0.95)),),
    ),
    4: (
        (_line((0.25, 0.0), (0.1, 0.58), (0.92, 0.58)), _line((0.72, 0.15), (0.68, 1.0))),
        (_line((0.15, 0.0), (0.12, 0.5), (0.9, 0.5)), _line((0.8, 0.0), (0.78, 1.0))),
        (_line((0.68, 0.0), (0.05, 0.65), (0.95, 0.65)), _line((0.68, 0.0), (0.68, 1.0))),
        (_bend((0.2, 0.0), (0.12, 0.35), (0.35, 0.52), (0.8, 0.45)), _line((0.8, 0.0), (0.75, 1.0))),
        (_line((0.66, 1.0), (0.68, 0.0), (0.06, 0.68), (0.9, 0.66)),),
    ),
    5: (
        (_line((0.25, 0.0), (0.22, 0.45)), _bend(*_BELLY), _line((0.25, 0.0), (0.85, 0.0))),
        (_line((0.85, 0.02), (0.25, 0.02), (0.2, 0.45)), _bend(*_BELLY)),
        (_bend((0.85, 0.0), (0.3, 0.03), (0.22, 0.42), (0.6, 0.42), (0.85, 0.7), (0.55, 1.0), (0.1, 0.92)),),
        (_line((0.2, 0.03), (0.2, 0.5)), _bend((0.2, 0.5), (0.7, 0.42), (0.85, 0.8), (0.1, 1.0)), _line((0.2, 0.06), (0.9, 0.02))),
    ),
    6: (
        (_bend(*_SIX),),
        (_bend((0.6, 0.0), (0.2, 0.4), (0.15, 0.85), (0.5, 1.0), (0.85, 0.78), (0.5, 0.6), (0.17, 0.75)),),
        (_bend((0.4, 0.0), (0.2, 0.5), (0.22, 0.92), (0.6, 1.0), (0.82, 0.75), (0.5, 0.62), (0.2, 0.8)),),
    ),
    7: (
        (_line((0.08, 0.05), (0.9, 0.05), (0.4, 1.0)),),
        (_bend((0.08, 0.08), (0.5, 0.04), (0.92, 0.04)), _bend((0.92, 0.04), (0.6, 0.5), (0.45, 1.0))),
        (_line((0.08, 0.22), (0.1, 0.04), (0.9, 0.05), (0.42, 1.0)),),
        (_line((0.08, 0.05), (0.9, 0.05), (0.4, 1.0)), _line((0.3, 0.52), (0.88, 0.5))),
        (_bend((0.06, 0.15), (0.3, 0.02), (0.6, 0.1), (0.9, 0.03)), _line((0.9, 0.03), (0.4, 1.0)), _line((0.28, 0.5), (0.85, 0.5))),
    ),
    8: (
        (_bend((0.78, 0.15), (0.45, 0.0), (0.2, 0.2), (0.5, 0.46), (0.85, 0.75), (0.5, 1.0), (0.15, 0.76), (0.5, 0.46), (0.8, 0.2), (0.66, 0.04)),),
        (_bend((0.5, 0.0), (0.22, 0.22), (0.5, 0.46), (0.78, 0.22), (0.5, 0.0)), _bend((0.5, 0.46), (0.12, 0.74), (0.5, 1.0), (0.88, 0.74), (0.5, 0.46))),
        (_bend((0.5, 0.48), (0.2, 0.2), (0.5, 0.0), (0.8, 0.2), (0.15, 0.78), (0.5, 1.0), (0.85, 0.78), (0.45, 0.46)),),
    ),
    9: (
        (_bend(*_NINE), _line((0.84, 0.12), (0.8, 1.0))),
        (_bend(*_NINE), _bend((0.84, 0.12), (0.82, 0.7), (0.5, 1.0), (0.15, 0.9))),
        (_bend((0.8, 0.3), (0.4, 0.5), (0.15, 0.2), (0.55, 0.0), (0.82, 0.25), (0.72, 0.7), (0.6, 1.0)),),
        (_bend((0.78, 0.1), (0.45, 0.02), (0.18, 0.26), (0.42, 0.46), (0.8, 0.3)), _line((0.82, 0.05), (0.76, 1.0))),
    ),
}
"""The shapes of each digit that are taught or met in English-speaking schools: common practice, no source."""

DOUBTFUL: tuple[tuple[tuple[int, int], tuple[Stroke, ...]], ...] = (
    ((1, 7), (_line((0.12, 0.3), (0.72, 0.0), (0.6, 1.0)),)),
    ((1, 7), (_line((0.08, 0.38), (0.6, 0.0), (0.6, 1.0)),)),
    ((1, 7), (_line((0.14, 0.2), (0.66, 0.02), (0.58, 1.0)),)),
)
SIGNS: Mapping[str, tuple[tuple[Stroke, ...], ...]] = {
    "<": ((_line((0.95, 0.05), (0.05, 0.5), (0.95, 0.95)),), (_bend((0.95, 0.08), (0.5, 0.25), (0.08, 0.5), (0.5, 0.72), (0.95, 0.92)),), (_line((0.9, 0.0), (0.05, 0.45)), _line((0.05, 0.52), (0.9, 1.0)))),
    ">": ((_line((0.05, 0.05), (0.95, 0.5), (0.05, 0.95)),), (_bend((0.05, 0.08), (0.5, 0.25), (0.92, 0.5), (0.5, 0.72), (0.05, 0.92)),), (_line((0.1, 0.0), (0.95, 0.45)), _line((0.95, 0.52), (0.1, 1.0)))),
    "=": ((_line((0.05, 0.25), (0.95, 0.25)), _line((0.05, 0.75), (0.95, 0.75))), (_bend((0.05, 0.3), (0.5, 0.22), (0.95, 0.28)), _bend((0.05, 0.72), (0.5, 0.78), (0.95, 0.7)))),
}
LETTERS = "AHKMNRVWXkmnvwx+%&@#*?"
"""Signs that nobody takes for a digit; what resembles one (O, l, S, Z, B, q, E, P, d, c …) is left out on purpose."""
TICKS: tuple[tuple[Stroke, ...], ...] = (
    (_line((0.05, 0.55), (0.35, 0.95), (0.95, 0.05)),),
    (_line((0.05, 0.05), (0.95, 0.95)), _line((0.95, 0.05), (0.05, 0.95))),
    (_line((0.5, 0.05), (0.5, 0.95)), _line((0.05, 0.5), (0.95, 0.5))),
)
_FONTS = (
    cv2.FONT_HERSHEY_SIMPLEX, cv2.FONT_HERSHEY_DUPLEX, cv2.FONT_HERSHEY_COMPLEX, cv2.FONT_HERSHEY_TRIPLEX,
    cv2.FONT_HERSHEY_SCRIPT_SIMPLEX, cv2.FONT_HERSHEY_SCRIPT_COMPLEX, cv2.FONT_HERSHEY_COMPLEX_SMALL,
)


def written(rng: np.random.Generator, strokes: tuple[Stroke, ...], *, width: float = 0.7, shake: float = 0.035) -> Picture:
    """One hand's way of writing the strokes: points moved, stretched, slanted, drawn with a round pen, centred as MNIST is."""
    high = 80.0
    wide = high * width * rng.uniform(0.75, 1.25)
    slant = rng.normal(0.0, 0.15)
    thick = int(rng.integers(4, 14))
    canvas = np.zeros((CANVAS, CANVAS), np.uint8)
    for stroke in strokes:
        points = np.asarray(stroke.points) + rng.normal(0.0, shake, (len(stroke.points), 2))
        if stroke.bend and len(points) > 2:
            points = _through(points)
        x = (points[:, 0] - 0.5) * wide - (points[:, 1] - 0.5) * slant * high + CANVAS / 2
        y = (points[:, 1] - 0.5) * high + CANVAS / 2
        line = np.round(np.stack([x, y], axis=1) * 16).astype(np.int32)
        cv2.polylines(canvas, [line], isClosed=False, color=255, thickness=thick, lineType=cv2.LINE_AA, shift=4)
    return centred(canvas)


def _through(points: Points, steps: int = 8) -> Points:
    """A smooth curve through the points (Catmull and Rom 1974, the uniform form)."""
    before = np.vstack([2 * points[0] - points[1], points, 2 * points[-1] - points[-2]])
    t = np.linspace(0.0, 1.0, steps, endpoint=False)[:, None]
    pieces = []
    for a, b, c, d in zip(before, before[1:], before[2:], before[3:], strict=False):
        pieces.append(0.5 * (2 * b + (c - a) * t + (2 * a - 5 * b + 4 * c - d) * t**2 + (3 * b - a - 3 * c + d) * t**3))
    return np.vstack([*pieces, points[-1:]])


def centred(canvas: Picture) -> Picture:
    """As MNIST's makers describe it: the longer side scaled to 20 pixels, the centre of mass in the middle of 28 × 28."""
    ys, xs = np.nonzero(canvas > 20)
    if len(xs) == 0:
        return np.zeros((28, 28), np.uint8)
    cut = canvas[ys.min() : ys.max() + 1, xs.min() : xs.max() + 1]
    scale = 20.0 / max(cut.shape)
    size = (max(1, round(cut.shape[1] * scale)), max(1, round(cut.shape[0] * scale)))
    small = cv2.resize(cut, size, interpolation=cv2.INTER_AREA).astype(np.float32)
    total = float(small.sum()) or 1.0
    x = float((small.sum(0) * np.arange(size[0])).sum()) / total
    y = float((small.sum(1) * np.arange(size[1])).sum()) / total
    moved = cv2.warpAffine(small, np.float32([[1, 0, 13.5 - x], [0, 1, 13.5 - y]]), (28, 28))
    top = float(moved.max()) or 1.0
    return np.asarray(np.clip(moved * (255.0 / top), 0, 255), np.uint8)


def lettered(rng: np.random.Generator, sign: str) -> Picture:
    """A sign in one of the single-stroke faces that OpenCV brings."""
    canvas = np.zeros((CANVAS, CANVAS), np.uint8)
    font = _FONTS[int(rng.integers(len(_FONTS)))]
    thick = int(rng.integers(3, 12))
    (wide, high), _ = cv2.getTextSize(sign, font, 2.6, thick)
    cv2.putText(canvas, sign, ((CANVAS - wide) // 2, (CANVAS + high) // 2), font, 2.6, 255, thick, cv2.LINE_AA)
    return centred(canvas)


def hatched(rng: np.random.Generator) -> Picture:
    """Hatching, scribbles and blots: lines to and fro with some turn, or a knot of random points."""
    canvas = np.zeros((CANVAS, CANVAS), np.uint8)
    if rng.random() < 0.5:
        turns = int(rng.integers(6, 14))
        across = np.linspace(0, 1, turns) + rng.normal(0, 0.03, turns)
        points = np.stack([across, np.arange(turns) % 2 + rng.normal(0, 0.08, turns)], axis=1)
        points = points if rng.random() < 0.5 else points[:, ::-1]
    else:
        points = _through(rng.uniform(0, 1, (int(rng.integers(9, 18)), 2)))
    turn = rng.uniform(-0.6, 0.6)
    points = (points - 0.5) @ np.array([[np.cos(turn), np.sin(turn)], [-np.sin(turn), np.cos(turn)]]) * 70 + CANVAS / 2
    line = np.round(points * 16).astype(np.int32)
    cv2.polylines(canvas, [line], isClosed=False, color=255, thickness=int(rng.integers(3, 12)), lineType=cv2.LINE_AA, shift=4)
    return centred(canvas)


@dataclass(frozen=True, slots=True)
class Drawn:
    """A stock of pictures (n, 28, 28), with what they say: digits 0–9 as shares of certainty (n, 10), or a sign's number."""

    digits: Picture
    digit_shares: NDArray[np.float32]
    doubtful: Picture
    doubtful_shares: NDArray[np.float32]
    junk: Picture
    signs: Picture
    sign_kinds: NDArray[np.int64]


def stock(seed: int, *, digits: int, doubtful: int, junk: int, signs: int) -> Drawn:
    """So many pictures of each sort, always the same for the same seed and library versions."""
    rng = np.random.default_rng(seed)
    shares = np.eye(10, dtype=np.float32)
    digit_list, digit_shares = [], []
    for _ in range(digits):
        digit = int(rng.integers(10))
        if rng.random() < 0.15:
            digit_list.append(lettered(rng, str(digit)))
        else:
            shapes = DIGITS[digit]
            width = 0.7 if digit != 1 else 0.55
            digit_list.append(written(rng, shapes[int(rng.integers(len(shapes)))], width=width))
        digit_shares.append(shares[digit])
    doubtful_list, doubtful_shares = [], []
    for _ in range(doubtful):
        pair, shape = DOUBTFUL[int(rng.integers(len(DOUBTFUL)))]
        doubtful_list.append(written(rng, shape))
        doubtful_shares.append((shares[pair[0]] + shares[pair[1]]) / 2)
    junk_list = [_junk(rng) for _ in range(junk)]
    kinds = rng.integers(3, size=signs)
    sign_list = [_sign(rng, int(kind)) for kind in kinds]
    return Drawn(
        np.stack(digit_list), np.stack(digit_shares), np.stack(doubtful_list), np.stack(doubtful_shares),
        np.stack(junk_list), np.stack(sign_list), kinds,
    )


def _junk(rng: np.random.Generator) -> Picture:
    roll = rng.random()
    if roll < 0.45:
        return lettered(rng, LETTERS[int(rng.integers(len(LETTERS)))])
    if roll < 0.6:
        return written(rng, TICKS[int(rng.integers(len(TICKS)))], width=0.9)
    return hatched(rng)


def _sign(rng: np.random.Generator, kind: int) -> Picture:
    shapes = SIGNS["<>="[kind]]
    return written(rng, shapes[int(rng.integers(len(shapes)))], width=rng.uniform(0.7, 1.3), shake=0.05)
