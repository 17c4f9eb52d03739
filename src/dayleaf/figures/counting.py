"""Things to count: ten-frames, counters, pairs, cube trains and sets in rings."""

from __future__ import annotations

import math
from random import Random
from typing import TYPE_CHECKING

from dayleaf.figures.pen import Art, arc_points, box_points, circle, dot, hatch, lines, polygon, rect, strike, text
from dayleaf.figures.values import WrongParameter

if TYPE_CHECKING:
    from collections.abc import Mapping

    from dayleaf.figures.pen import Point
    from dayleaf.figures.values import Values

_CELL = 8.0
_R = 2.7


def ten_frame(v: Values, _words: Mapping[str, str]) -> Art:
    """One or two frames of two rows of five, filled from the top left."""
    a, b = v.within("a", 0, 20), v.within("b", 0, 20)
    crossed = v.within("crossed", 0, a)
    start_b = 10 if v.on("apart") else a
    used = start_b + b if b else a
    frames = v.within("frames", 0, 2) or (2 if used > 10 else 1)
    if used > 10 * frames or (v.on("apart") and a > 10):
        raise WrongParameter(kind=v.kind, name="b", why=f"does not fit: {a} and {b} in {frames} frame(s)")
    frame_width, gap, edge = 5 * _CELL, 6.0, 0.5
    body = ""
    for frame in range(frames):
        x = edge + frame * (frame_width + gap)
        body += rect(x, edge, frame_width, 2 * _CELL, w=0.7)
        inner = [(x, edge + _CELL, x + frame_width, edge + _CELL)]
        inner += [(x + i * _CELL, edge, x + i * _CELL, edge + 2 * _CELL) for i in range(1, 5)]
        body += lines(inner, w=0.4)

    def place(k: int) -> Point:
        frame, cell = divmod(k, 10)
        return (
            edge + frame * (frame_width + gap) + (cell % 5 + 0.5) * _CELL,
            edge + (cell // 5 + 0.5) * _CELL,
        )

    body += "".join(dot(*place(k), _R) for k in range(a))
    body += "".join(circle(*place(start_b + k), _R - 0.1) for k in range(b))
    body += "".join(strike(*place(k), _R + 0.7) for k in range(a - crossed, a))
    return Art(body, frames * frame_width + (frames - 1) * gap + 2 * edge, 2 * _CELL + 2 * edge)


def _scatter(n: int, seed: int) -> list[Point]:
    rng = Random(seed)  # the layout must be the same every time: seeded on purpose
    cells = rng.sample([(column, row) for column in range(5) for row in range(3)], n)
    return [(11 * c + 5.5 + rng.uniform(-2, 2), 10 * r + 5 + rng.uniform(-1.6, 1.6)) for c, r in sorted(cells)]


def counters(v: Values, _words: Mapping[str, str]) -> Art:
    """Loose counters; a second group is drawn as rings in a line of its own."""
    n, m = v.within("n", 0, 20), v.within("m", -1, 20)
    layout = v.one_of("layout", "line", "ring", "scatter")
    crossed = v.within("crossed", 0, n)
    if m >= 0:
        return _two_lines(n, m, spread=v.on("spread"), large=v.within("large", 0, 2))
    if layout == "scatter":
        if n > 10:
            raise WrongParameter(kind=v.kind, name="n", why="is more than 10, too many for a scatter")
        places, width, height = _scatter(n, v.number("seed")), 55.0, 30.0
    elif layout == "ring":
        r = max(9.0, n * 7.2 / (2 * math.pi))
        places = [(x + 3.5, y + 3.5) for x, y in arc_points(r, r, r, 0, 360, step=360 / max(n, 2))[:n]]
        width = height = 2 * r + 7
    else:
        places = [(7.2 * (k % 10) + 3.6, 7.2 * (k // 10) + 3.6) for k in range(n)]
        width, height = 7.2 * max(1, min(n, 10)), 7.2 * max(1, math.ceil(n / 10))
    body = "".join(dot(x, y, _R) for x, y in places)
    body += "".join(strike(x, y, _R + 0.7) for x, y in places[n - crossed :])
    return Art(body, width, height)


_LARGE = 1.5


def _two_lines(n: int, m: int, *, spread: bool, large: int) -> Art:
    step, left = 7.2, 12.0
    longest = max(n, m)
    stretched = {n: 1.0, m: 1.0}
    few = min(n, m)
    if spread and few > 1:
        stretched[few] = (longest + 0.8) / (few - 1)
    body, width = "", 0.0
    for row, (letter, count) in enumerate((("A", n), ("B", m))):
        y = 5 + row * 10
        body += text(4, y, letter, size=5, weight=600)
        stretch = stretched[count] if spread and (n != m or row == 1) else 1.0
        scale = _LARGE if large == row + 1 else 1.0
        for k in range(count):
            x = left + k * step * stretch * scale
            body += dot(x, y, _R * scale) if row == 0 else circle(x, y, _R * scale - 0.1)
            width = max(width, x)
    return Art(body, max(width, left) + 4, 20)


def dot_pairs(v: Values, _words: Mapping[str, str]) -> Art:
    """Dots two by two; the one that stays alone has a ring, unless that is asked."""
    n = v.within("n", 1, 24)
    places = [(7.5 * (k // 2) + 5, 7 * (k % 2) + 4.5) for k in range(n)]
    body = "".join(dot(x, y, 2.4) for x, y in places)
    if n % 2 and not v.on("question"):
        body += circle(*places[-1], 3.6)
    return Art(body, 7.5 * math.ceil(n / 2) + 2.5, 16)


def linking_train(v: Values, _words: Mapping[str, str]) -> Art:
    """Cubes linked in a row: striped ones, then plain ones."""
    a, b = v.within("a", 0, 20), v.within("b", 0, 20)
    if not 1 <= a + b <= 20:
        raise WrongParameter(kind=v.kind, name="a", why=f"and b make {a + b} cubes, not 1 to 20")
    side, edge = 7.0, 0.5
    body = ""
    for k in range(a + b):
        x = edge + k * side
        if k < a:
            body += hatch(box_points(x, edge, side, side), gap=1.4)
        body += rect(x, edge, side, side)
    end = edge + (a + b) * side
    body += rect(end, edge + 2.1, 1.8, 2.8)
    return Art(body, end + 2.3, side + 2 * edge)


def _thing(shape: str, x: float, y: float, r: float) -> str:
    if shape == "dot":
        return dot(x, y, r)
    if shape == "ring":
        return circle(x, y, r)
    if shape == "square":
        return rect(x - r, y - r, 2 * r, 2 * r)
    return polygon(((x, y - 1.1 * r), (x + 1.1 * r, y + 0.9 * r), (x - 1.1 * r, y + 0.9 * r)))


def set_objects(v: Values, _words: Mapping[str, str]) -> Art:
    """Rings with the same number of things in each, and what is left over; or all of them loose in rows."""
    groups, size = v.within("groups", 0, 10), v.within("size", 0, 10)
    extra = v.within("extra", 0, 20)
    sizes = v.numbers("sizes") or (size,) * groups
    if len(sizes) != groups or not all(0 <= here <= 20 for here in sizes):
        raise WrongParameter(kind=v.kind, name="sizes", why=f"are not {groups} numbers within 0 … 20")
    shape = v.one_of("shape", "dot", "ring", "square", "triangle")
    r = 1.9
    if not v.on("rings"):
        total = groups * size + extra
        columns = min(max(total, 1), 10)
        places = [(6 * (k % columns) + 3.5, 6 * (k // columns) + 3.5) for k in range(total)]
        return Art(
            "".join(_thing(shape, x, y, r) for x, y in places), 6 * columns + 1, 6 * max(1, -(-total // columns)) + 1
        )
    most = max(sizes, default=size)
    inner = 1 if most < 2 else math.ceil(math.sqrt(most))
    rows = max(1, math.ceil(most / inner))
    ring_w, ring_h = 5.4 * inner + 6.5, 5.4 * rows + 6.5
    a_line = min(max(groups, 1), 5)
    body = ""
    for g, held in enumerate(sizes):
        x0, y0 = 0.5 + (g % a_line) * (ring_w + 3.5), 0.5 + (g // a_line) * (ring_h + 3.5)
        body += rect(x0, y0, ring_w, ring_h, r=min(ring_w, ring_h) * 0.42)
        lines_held = max(1, math.ceil(held / inner))
        for k in range(held):
            row = k // inner
            here = min(inner, held - row * inner)
            x = x0 + ring_w / 2 + (k % inner - (here - 1) / 2) * 5.4
            body += _thing(shape, x, y0 + ring_h / 2 + (row - (lines_held - 1) / 2) * 5.4, r)
    width = a_line * (ring_w + 3.5) - 2.5
    height = max(1, -(-groups // a_line)) * (ring_h + 3.5) - 2.5
    for k in range(extra):
        body += _thing(shape, width + 5 + 5.4 * (k // 3), height / 2 + (k % 3 - 1) * 5.4, r)
    return Art(body, width + (3 + 5.4 * -(-extra // 3) + 2 if extra else 0), max(height, 17.0 if extra else height))
