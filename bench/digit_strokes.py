"""Written signs drawn from points: digits in many hands, letters, signs, hatching and ticks, as 28 × 28 pictures.

The shapes are our own; nothing here was traced. What a person would read without thinking carries one digit; what could
be two digits carries both, so that the network learns to hesitate.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
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


Strokes: TypeAlias = tuple[tuple[bool, Points], ...]
"""(whether a smooth curve goes through the points, else straight lines; the points in a unit square, y down)."""


@cache
def strokes_of(shape: str) -> Strokes:
    """Strokes parted by /, each begun by ~ for a curve or - for straight lines, points in hundredths."""
    found = []
    for stroke in shape.split(" / "):
        points = [[int(place) / 100 for place in point.split(",")] for point in stroke[1:].split()]
        found.append((stroke[0] == "~", np.array(points)))
    return tuple(found)


DIGITS: Mapping[int, tuple[str, ...]] = {
    0: (
        "~50,0 12,25 8,70 45,100 88,75 90,30 55,2",
        "~8,70 45,100 88,75 90,30 55,2 12,25 8,70",
        "~50,0 12,25 8,70 45,100 88,75 90,30 62,10",
    ),
    1: (
        "-50,0 50,100",
        "-50,0 48,50 50,100",
        "-30,20 52,0 52,100",
        "-26,26 52,0 52,100",
        "-34,16 52,0 52,100 / -20,100 85,100",
        "-50,0 50,100 / -22,100 80,100",
    ),
    2: (
        "~12,28 35,2 75,10 78,40 45,75 8,100 / -8,100 92,97",
        "~12,28 35,2 75,10 78,40 45,75 12,100 6,86 30,82 95,100",
        "~12,28 35,2 75,10 78,40 45,75 8,100 / ~8,100 40,92 95,100",
        "-12,5 85,5 10,100 92,100",
    ),
    3: (
        "~12,12 50,0 82,20 42,46 / ~42,46 90,70 50,100 8,88",
        "-12,3 85,3 42,40 / ~42,40 88,60 75,95 10,92",
        "~15,8 75,5 70,40 50,50 85,65 70,97 10,95",
    ),
    4: (
        "-25,0 10,58 92,58 / -72,15 68,100",
        "-15,0 12,50 90,50 / -80,0 78,100",
        "-68,0 5,65 95,65 / -68,0 68,100",
        "~20,0 12,35 35,52 80,45 / -80,0 75,100",
        "-66,100 68,0 6,68 90,66",
    ),
    5: (
        "-25,0 22,45 / ~22,45 55,36 88,62 60,97 10,93 / -25,0 85,0",
        "-85,2 25,2 20,45 / ~22,45 55,36 88,62 60,97 10,93",
        "~85,0 30,3 22,42 60,42 85,70 55,100 10,92",
        "-20,3 20,50 / ~20,50 70,42 85,80 10,100 / -20,6 90,2",
    ),
    6: (
        "~75,2 35,25 10,65 35,100 85,85 75,55 35,58 14,78",
        "~60,0 20,40 15,85 50,100 85,78 50,60 17,75",
        "~40,0 20,50 22,92 60,100 82,75 50,62 20,80",
    ),
    7: (
        "-8,5 90,5 40,100",
        "~8,8 50,4 92,4 / ~92,4 60,50 45,100",
        "-8,22 10,4 90,5 42,100",
        "-8,5 90,5 40,100 / -30,52 88,50",
        "~6,15 30,2 60,10 90,3 / -90,3 40,100 / -28,50 85,50",
    ),
    8: (
        "~78,15 45,0 20,20 50,46 85,75 50,100 15,76 50,46 80,20 66,4",
        "~50,0 22,22 50,46 78,22 50,0 / ~50,46 12,74 50,100 88,74 50,46",
        "~50,48 20,20 50,0 80,20 15,78 50,100 85,78 45,46",
    ),
    9: (
        "~82,18 50,0 14,25 40,50 78,32 84,12 / -84,12 80,100",
        "~82,18 50,0 14,25 40,50 78,32 84,12 / ~84,12 82,70 50,100 15,90",
        "~80,30 40,50 15,20 55,0 82,25 72,70 60,100",
        "~78,10 45,2 18,26 42,46 80,30 / -82,5 76,100",
    ),
}
"""The shapes of each digit that are taught or met in English-speaking schools: common practice, no source."""

DOUBTFUL: tuple[tuple[tuple[int, int], str], ...] = (
    ((1, 7), "-12,30 72,0 60,100"),
    ((1, 7), "-8,38 60,0 60,100"),
    ((1, 7), "-14,20 66,2 58,100"),
)
SIGNS: Mapping[str, tuple[str, ...]] = {
    "<": (
        "-95,5 5,50 95,95",
        "~95,8 50,25 8,50 50,72 95,92",
        "-90,0 5,45 / -5,52 90,100",
    ),
    ">": (
        "-5,5 95,50 5,95",
        "~5,8 50,25 92,50 50,72 5,92",
        "-10,0 95,45 / -95,52 10,100",
    ),
    "=": (
        "-5,25 95,25 / -5,75 95,75",
        "~5,30 50,22 95,28 / ~5,72 50,78 95,70",
    ),
}
LETTERS = "AHKMNRVWXkmnvwx+%&@#*?"
"""Signs that nobody takes for a digit; what resembles one (O, l, S, Z, B, q, E, P, d, c …) is left out on purpose."""
TICKS: tuple[str, ...] = (
    "-5,55 35,95 95,5",
    "-5,5 95,95 / -95,5 5,95",
    "-50,5 50,95 / -5,50 95,50",
)
_FONTS = (
    cv2.FONT_HERSHEY_SIMPLEX,
    cv2.FONT_HERSHEY_DUPLEX,
    cv2.FONT_HERSHEY_COMPLEX,
    cv2.FONT_HERSHEY_TRIPLEX,
    cv2.FONT_HERSHEY_SCRIPT_SIMPLEX,
    cv2.FONT_HERSHEY_SCRIPT_COMPLEX,
    cv2.FONT_HERSHEY_COMPLEX_SMALL,
)


def written(rng: np.random.Generator, shape: str, *, width: float = 0.7, shake: float = 0.035) -> Picture:
    """One hand's way of writing a shape: moved, stretched, slanted, drawn with a round pen, centred as MNIST is."""
    high = 80.0
    wide = high * width * rng.uniform(0.75, 1.25)
    slant = rng.normal(0.0, 0.15)
    thick = int(rng.integers(4, 14))
    canvas = np.zeros((CANVAS, CANVAS), np.uint8)
    for bend, taught in strokes_of(shape):
        points = taught + rng.normal(0.0, shake, taught.shape)
        if bend and len(points) > 2:
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
        curve = 2 * b + (c - a) * t + (2 * a - 5 * b + 4 * c - d) * t**2 + (3 * b - a - 3 * c + d) * t**3
        pieces.append(0.5 * curve)
    return np.vstack([*pieces, points[-1:]])


def centred(canvas: Picture) -> Picture:
    """As MNIST's makers describe it: the longer side scaled to 20 pixels, the centre of mass in the middle."""
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
    moved = cv2.warpAffine(small, np.array([[1, 0, 13.5 - x], [0, 1, 13.5 - y]], np.float32), (28, 28))
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
    cv2.polylines(
        canvas, [line], isClosed=False, color=255, thickness=int(rng.integers(3, 12)), lineType=cv2.LINE_AA, shift=4
    )
    return centred(canvas)


@dataclass(frozen=True, slots=True)
class Drawn:
    """A stock of pictures (n, 28, 28), with what they say: shares of the digits 0–9 (n, 10), or a sign's number."""

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
        np.stack(digit_list),
        np.stack(digit_shares),
        np.stack(doubtful_list),
        np.stack(doubtful_shares),
        np.stack(junk_list),
        np.stack(sign_list),
        kinds,
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
