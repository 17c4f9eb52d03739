"""Flat shapes, plain and put together, turned and in sizes; shapes cut into parts."""

from __future__ import annotations

import itertools
import math
from random import Random
from typing import TYPE_CHECKING

from dayleaf.figures.outlines import SHAPES
from dayleaf.figures.pen import Art, arc_points, box_points, circle, hatch, line, lines, num, path, polygon, rect, text
from dayleaf.figures.values import WrongParameter

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from dayleaf.figures.pen import Point
    from dayleaf.figures.values import Values

_LETTERS = "ABCDEFGHI"


def placed(points: Sequence[Point], *, size: float, degrees: float) -> list[Point]:
    """The points scaled and turned around 0, 0, y down.

    The larger side of their box becomes `size` mm; the turn is anticlockwise; then the box is
    centred on 0, 0.
    """
    xs, ys = [x for x, _ in points], [y for _, y in points]
    scale = size / max(max(xs) - min(xs), max(ys) - min(ys))
    turn = math.radians(degrees)
    cos, sin = math.cos(turn), math.sin(turn)
    turned = [(scale * (x * cos - y * sin), -scale * (x * sin + y * cos)) for x, y in points]
    cx = (min(x for x, _ in turned) + max(x for x, _ in turned)) / 2
    cy = (min(y for _, y in turned) + max(y for _, y in turned)) / 2
    return [(x - cx, y - cy) for x, y in turned]


def _shape(name: str, *, size: float, degrees: float) -> tuple[str, float, float]:
    """One shape around 0, 0; gives the drawing and half its width and height."""
    shape = SHAPES[name]
    n = len(shape.outline)
    ends = [point for a, b in shape.inner for point in (a, b)]
    points = placed([*shape.outline, *ends], size=size, degrees=degrees)
    outline, cuts = points[:n], points[n:]
    if shape.closed:
        body = polygon(outline, w=0.7)
    else:
        body = path("M" + "L".join(f"{num(x)} {num(y)}" for x, y in outline), w=0.7)
    body += lines([(*a, *b) for a, b in zip(cuts[::2], cuts[1::2], strict=True)], w=0.4)
    return body, max(abs(x) for x, _ in outline), max(abs(y) for _, y in outline)


def shapes_2d(v: Values, _words: Mapping[str, str]) -> Art:
    """Shapes side by side in rows of at most five, lettered when there are several."""
    names = v.words("shapes")
    n = len(names)
    for name in names:
        if name not in SHAPES:
            raise WrongParameter(kind=v.kind, name="shapes", why=f"hold “{name}”, which has no outline")
    sizes, angles, axes = (
        v.numbers(key) or (usual,) * n for key, usual in (("sizes", 26), ("angles", 0), ("lines", -1))
    )
    if not 1 <= n <= 9 or not len(sizes) == len(angles) == len(axes) == n:
        raise WrongParameter(
            kind=v.kind, name="shapes", why="are none or more than nine, or sizes or angles are missing"
        )
    if not all(10 <= size <= 60 for size in sizes):
        raise WrongParameter(kind=v.kind, name="sizes", why="are not all within 10 … 60")
    lettered = v.on("letters") and n > 1
    drawn = [_shape(name, size=size, degrees=turn) for name, size, turn in zip(names, sizes, angles, strict=True)]
    a_line = n if n <= 5 else -(-n // 2)
    over = 4.0 if any(axis >= 0 for axis in axes) else 0.0
    body, top, width = "", 1.0, 0.0
    for first in range(0, n, a_line):
        row = range(first, min(n, first + a_line))
        half = max(drawn[k][2] for k in row) + over
        x = 1.0
        for k in row:
            shape, half_w, _ = drawn[k]
            cx, cy = x + half_w + over, top + half
            body += f'<g transform="translate({num(cx)} {num(cy)})">{shape}{_axis(axes[k], drawn[k][1:], over)}</g>'
            if lettered:
                body += text(cx, top + 2 * half + 5, _LETTERS[k], size=4.8, weight=600)
            x = cx + half_w + over + 7
        width = max(width, x - 6)
        top += 2 * half + (10 if lettered else 5)
    return Art(body, width, top - (1.5 if lettered else 4))


def _axis(degrees: int, halves: Sequence[float], over: float) -> str:
    if degrees < 0:
        return ""
    turn = math.radians(degrees)
    dx, dy = math.cos(turn), -math.sin(turn)
    reach = min(h / abs(d) for h, d in zip(halves, (dx, dy), strict=True) if abs(d) > 1e-9) + over - 0.5
    return line(-dx * reach, -dy * reach, dx * reach, dy * reach, dash="2 1.5", w=0.6)


def _chosen(n: int, k: int, seed: int) -> set[int]:
    return set(range(k)) if not seed else set(Random(seed).sample(range(n), k))


def _cuts(n: int, *, equal: bool) -> list[float]:
    """Where a length or a turn of 1 is cut; unequal parts differ plainly."""
    if equal:
        return [k / n for k in range(n + 1)]
    weights = [1.0 + 1.3 * (k % 2) + 0.35 * k for k in range(n)]
    total, at, cuts = sum(weights), 0.0, [0.0]
    for weight in weights:
        at += weight / total
        cuts.append(at)
    return cuts


def fraction_shapes(v: Values, _words: Mapping[str, str]) -> Art:
    """A circle, rectangle or strip in n parts, k of them hatched."""
    n = v.within("n", 1, 12)
    k = v.within("k", 0, n)
    shape = v.one_of("shape", "circle", "rectangle", "strip")
    chosen = _chosen(n, k, v.number("seed"))
    cuts = _cuts(n, equal=v.on("equal"))
    if shape == "circle":
        return _pie(cuts, chosen)
    wide, tall = (42.0, 26.0) if shape == "rectangle" else (72.0, 12.0)
    body = ""
    two_rows = shape == "rectangle" and n >= 4 and n % 2 == 0 and v.on("equal")
    if two_rows:
        cell_w, cell_h = 2 * wide / n, tall / 2
        boxes = [(0.5 + cell_w * (j % (n // 2)), 0.5 + cell_h * (j // (n // 2)), cell_w, cell_h) for j in range(n)]
    else:
        boxes = [(0.5 + wide * a, 0.5, wide * (b - a), tall) for a, b in itertools.pairwise(cuts)]
    body = "".join(hatch(box_points(*boxes[j])) for j in sorted(chosen))
    body += "".join(rect(*box, w=0.4) for box in boxes) + rect(0.5, 0.5, wide, tall, w=0.7)
    return Art(body, wide + 1, tall + 1)


def _pie(cuts: Sequence[float], chosen: set[int]) -> Art:
    r, middle = 16.0, 16.5
    body = ""
    for j in sorted(chosen):
        rim = arc_points(middle, middle, r, 360 * cuts[j], 360 * cuts[j + 1])
        body += hatch(rim if len(cuts) == 2 else [(middle, middle), *rim])
    if len(cuts) > 2:
        rims = [arc_points(middle, middle, r, 360 * cut, 360 * cut + 1)[0] for cut in cuts[:-1]]
        body += lines([(middle, middle, x, y) for x, y in rims], w=0.5)
    return Art(body + circle(middle, middle, r, w=0.7), 33, 33)
