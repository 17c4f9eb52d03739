"""Base-ten blocks on a grid of centimetres, money as plain circles, the clock, circles and strips in equal parts."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from dayleaf.figures import money
from dayleaf.figures.pen import GREY, Art, circle, dot, line, lines, num, path, polygon, rect, text, text_width
from dayleaf.figures.values import Values

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from dayleaf.figures.pen import Point

UNIT: Final = 10.0
"""The side of a one in mm: a centimetre, so that a ten is also a decimetre to measure with."""


def block(columns: int, rows: int) -> Art:
    """A block of ones: 1 × 1, 1 × 10 or 10 × 10."""
    width, height = columns * UNIT, rows * UNIT
    inner = [(k * UNIT, 0.0, k * UNIT, height) for k in range(1, columns)]
    inner += [(0.0, k * UNIT, width, k * UNIT) for k in range(1, rows)]
    return Art(lines(inner, w=0.35, stroke=GREY) + rect(0, 0, width, height, w=0.7), width, height)


def coin(value: int, words: Mapping[str, str], *, side: float) -> Art:
    """One coin at true size in the middle of a square; see `figures.money.COIN_MM`."""
    art = money.coins(Values("coins", {"coins": (value,), "show_value": 1, "question": 0}), words)
    x, y = (side - art.width) / 2, (side - art.height) / 2
    return Art(f'<g transform="translate({num(x)} {num(y)})">{art.body}</g>', side, side)


def bill(value: int, words: Mapping[str, str], *, under: str) -> Art:
    """One bill of our own drawing, plainly smaller than a note, with the name of its set printed small."""
    wide, tall = money.BILL_MM
    body = rect(2.5, 2.5, wide - 5, tall - 5, r=4, w=0.5)
    body += "".join(text(x, y, f"${value}", size=3.6) for x in (9, wide - 9) for y in (7.2, tall - 7.2))
    body += text(wide / 2, tall / 2 - 1.5, f"${value}", size=11, weight=600)
    return Art(body + text(wide / 2, tall - 7, words.get("play-money", under), size=3), wide, tall)


def _at(middle: float, r: float, degrees: float) -> Point:
    turn = math.radians(degrees)
    return middle + r * math.sin(turn), middle - r * math.cos(turn)


def clock_face(across: float) -> Art:
    """A face to cut round: hours 1–12, every minute a tick, the minutes of the fives small inside the rim."""
    middle, r = across / 2, across / 2 - 1
    body = circle(middle, middle, r, w=0.9)
    body += lines([(*_at(middle, r - 3, 6 * k), *_at(middle, r, 6 * k)) for k in range(60) if k % 5], w=0.4)
    body += lines([(*_at(middle, r - 6, 30 * k), *_at(middle, r, 30 * k)) for k in range(12)], w=1.1)
    for n in range(1, 13):
        body += text(*_at(middle, r - 24, 30 * n), str(n), size=across * 0.085, weight=500)
        body += text(*_at(middle, r - 10.5, 30 * n), str(5 * n % 60), size=across * 0.028)
    return Art(body + circle(middle, middle, 1.6, w=0.5) + dot(middle, middle, 0.4), across, across)


def clock_hand(length: float, width: float, name: str) -> Art:
    """A hand to stand on its end, its hole at the foot; `length` runs from the hole to the point."""
    foot = width / 2 + 1
    height = length + foot
    x = width / 2
    tip = min(width * 1.1, length * 0.3)
    shaft = width * 0.27
    outline = (
        (x, 0.0), (width - 0.5, tip), (x + shaft, tip), (x + shaft, height - width * 0.75),
        (width - 0.6, height - foot), (x + shaft, height - 0.4), (x - shaft, height - 0.4), (0.6, height - foot),
        (x - shaft, height - width * 0.75),
        (x - shaft, tip), (0.5, tip),
    )  # fmt: skip
    body = polygon(outline, w=0.6) + circle(x, height - foot, 1.6, w=0.5)
    turned = f'<g transform="translate({num(x)} {num(height * 0.52)}) rotate(-90)">{text(0, 0, name, size=3.6)}</g>'
    return Art(body + turned, width, height)


def circle_parts(across: float, n: int) -> Art:
    """A circle to cut round and through into n equal parts; one part is the whole circle."""
    middle, r = across / 2, across / 2 - 1
    body = circle(middle, middle, r, w=0.7)
    if n > 1:
        body += lines([(middle, middle, *_at(middle, r, 360 * k / n)) for k in range(n)], w=0.7)
    return Art(body, across, across)


def circle_backs(across: float, n: int, words: str, under: str) -> Art:
    """The back of `circle_parts`: each part says its name. Seen from the back, left and right are changed."""
    middle, r = across / 2, across / 2 - 1
    body = ""
    for k in range(n):
        x, y = (middle, middle) if n == 1 else _at(middle, r * (0.5 if n == 2 else 0.56), -360 * (k + 0.5) / n)
        body += text(x, y - 2, words, size=5 if n < 4 else 4.2, weight=500) + text(x, y + 3.2, under, size=2.3)
    return Art(body, across, across)


def bar_part(width: float, height: float) -> Art:
    """One of the equal parts of a bar."""
    return Art(rect(0, 0, width, height, w=0.6), width, height)


def outline(points: Sequence[Point]) -> Art:
    """A flat shape in the middle of its box with a rim of 2 mm; `points` lie around 0, 0."""
    wide = max(x for x, _ in points) - min(x for x, _ in points) + 4
    tall = max(y for _, y in points) - min(y for _, y in points) + 4
    moved = [(x + wide / 2, y + tall / 2) for x, y in points]
    d = "M" + "L".join(f"{num(x)} {num(y)}" for x, y in moved) + "Z"
    return Art(path(d, w=0.7), wide, tall)


def outline_back(points: Sequence[Point], words: str) -> Art:
    """The back of `outline`: the name where the shape is at home, at its centre of area, as large as it is wide there.

    Seen from the back, left and right are changed.
    """
    front = outline(points)
    left, top = min(x for x, _ in points) - 2, min(y for _, y in points) - 2
    x, y = _centre(points)
    rows = [_chord(points, x, y + dy) for dy in (-1.4, 0.0, 1.4)]
    low, high = max(a for a, _ in rows), min(b for _, b in rows)
    size = min(3.0, 0.86 * (high - low) / text_width(words, 1))
    return Art(text(front.width - ((low + high) / 2 - left), y - top, words, size=size), front.width, front.height)


def _centre(points: Sequence[Point]) -> Point:
    """The centre of area of a simple polygon (the shoelace formula)."""
    area = x = y = 0.0
    for (x1, y1), (x2, y2) in zip(points, [*points[1:], points[0]], strict=True):
        cross = x1 * y2 - x2 * y1
        area, x, y = area + cross / 2, x + (x1 + x2) * cross, y + (y1 + y2) * cross
    return x / (6 * area), y / (6 * area)


def _chord(points: Sequence[Point], x: float, y: float) -> tuple[float, float]:
    """The ends of the stretch of the line at height y that lies inside the polygon and holds x."""
    ends = sorted(
        x1 + (y - y1) / (y2 - y1) * (x2 - x1)
        for (x1, y1), (x2, y2) in zip(points, [*points[1:], points[0]], strict=True)
        if (y1 <= y < y2) or (y2 <= y < y1)
    )
    pairs = list(zip(ends[::2], ends[1::2], strict=True))
    return min(pairs, key=lambda pair: max(pair[0] - x, x - pair[1], 0.0), default=(x, x))


def ten_frame(cell: float) -> Art:
    """An empty frame of two rows of five."""
    width, height = 5 * cell, 2 * cell
    body = lines([(k * cell, 0, k * cell, height) for k in range(1, 5)], w=0.7) + line(0, cell, width, cell, w=0.7)
    return Art(body + rect(0, 0, width, height, w=1.1), width, height)
