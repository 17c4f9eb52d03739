"""The outlines of flat shapes, y up; any unit, since a shape is scaled to the size asked for."""

from __future__ import annotations

import math
from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Mapping

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Outline:
    """A shape: its corners in order, whether it is closed, the lines inside, and its straight sides.

    `sides` is None when a side is curved or the shape is open (no polygon).
    """

    outline: tuple[Point, ...]
    closed: bool = True
    inner: tuple[tuple[Point, Point], ...] = ()
    sides: int | None = None


def _polygon(*points: Point, inner: tuple[tuple[Point, Point], ...] = ()) -> Outline:
    return Outline(points, inner=inner, sides=len(points))


def _regular(n: int, *, first: float = 90.0) -> tuple[Point, ...]:
    turns = [math.radians(first + 360 * k / n) for k in range(n)]
    return tuple((math.cos(t), math.sin(t)) for t in turns)


def _ellipse(a: float, b: float, start: float = 0, end: float = 360) -> tuple[Point, ...]:
    n = max(8, round((end - start) / 5))
    steps = range(n) if end - start == 360 else range(n + 1)
    turns = [math.radians(start + (end - start) * k / n) for k in steps]
    return tuple((a * math.cos(t), b * math.sin(t)) for t in turns)


def _heart() -> tuple[Point, ...]:
    turns = [math.radians(6 * k) for k in range(60)]
    return tuple(
        (16 * math.sin(t) ** 3, 13 * math.cos(t) - 5 * math.cos(2 * t) - 2 * math.cos(3 * t) - math.cos(4 * t))
        for t in turns
    )


def _star() -> tuple[Point, ...]:
    outer, inner = _regular(5), _regular(5, first=126)
    return tuple(point for a, (x, y) in zip(outer, inner, strict=True) for point in (a, (0.42 * x, 0.42 * y)))


_H = math.sqrt(3) / 2
_HEX = _regular(6, first=0)
_O = (0.0, 0.0)
_SQUARE = ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0))
_TRIANGLE = ((0.0, 0.0), (1.0, 0.0), (0.5, _H))
_CURVED = (*_ellipse(1, 1, 0, 180), (0.0, -1.4))

SHAPES: Final[Mapping[str, Outline]] = MappingProxyType(
    {
        # three sides
        "triangle": _polygon(*_TRIANGLE),
        "right-triangle": _polygon((0, 0), (4, 0), (0, 3)),
        "long-triangle": _polygon((0, 0), (5, 0), (6.2, 1.9)),
        "tall-triangle": _polygon((0, 0), (2, 0), (1, 4)),
        # four sides
        "square": _polygon(*_SQUARE),
        "rectangle": _polygon((0, 0), (3, 0), (3, 2), (0, 2)),
        "long-rectangle": _polygon((0, 0), (5, 0), (5, 1.4), (0, 1.4)),
        "rhombus": _polygon((0, 0), (1, 0), (1.5, _H), (0.5, _H)),
        "parallelogram": _polygon((0, 0), (3, 0), (4, 1.7), (1, 1.7)),
        "trapezoid": _polygon((0, 0), (4, 0), (3, 2), (1, 2)),
        "right-trapezoid": _polygon((0, 0), (4, 0), (2.4, 2.2), (0, 2.2)),
        "kite": _polygon((0, -2.4), (1.5, 0.6), (0, 1.8), (-1.5, 0.6)),
        "quadrilateral": _polygon((0, 0), (4, 0.5), (3.2, 3), (0.8, 2.2)),
        # five and more sides
        "pentagon": _polygon(*_regular(5)),
        "long-pentagon": _polygon((0, 0), (4, 0), (5, 1.4), (2.4, 2.6), (-0.6, 1.6)),
        "house": _polygon((0, 0), (2, 0), (2, 2), (1, 3.2), (0, 2)),
        "hexagon": _polygon(*_HEX),
        "long-hexagon": _polygon((0, 0.2), (2.2, -0.4), (4, 0.6), (4.2, 2.2), (2, 2.8), (-0.3, 1.9)),
        "l-shape": _polygon((0, 0), (3, 0), (3, 1.2), (1.2, 1.2), (1.2, 3), (0, 3)),
        "octagon": _polygon(*_regular(8, first=22.5)),
        "arrow": _polygon((0, 0.7), (2.4, 0.7), (2.4, 0), (4, 1.3), (2.4, 2.6), (2.4, 1.9), (0, 1.9)),
        "cross": _polygon(
            (1, 0), (2, 0), (2, 1), (3, 1), (3, 2), (2, 2), (2, 3), (1, 3), (1, 2), (0, 2), (0, 1), (1, 1)
        ),
        "star": _polygon(*_star()),
        # no polygons
        "circle": Outline(_ellipse(1, 1)),
        "oval": Outline(_ellipse(1.6, 1)),
        "half-circle": Outline(_ellipse(1, 1, 0, 180)),
        "drop": Outline(_CURVED),
        "heart": Outline(_heart()),
        "open-triangle": Outline(((1.35, _H * 1.5), (1.8, 0.0), (0.0, 0.0), (0.75, _H * 1.5)), closed=False),
        "open-square": Outline(((0.65, 1.0), (1.0, 1.0), (1.0, 0.0), (0.0, 0.0), (0.0, 1.0), (0.3, 1.0)), closed=False),
        # put together from smaller ones
        "square-2-triangles": _polygon(*_SQUARE, inner=(((0, 0), (1, 1)),)),
        "square-4-triangles": _polygon(*_SQUARE, inner=(((0, 0), (1, 1)), ((0, 1), (1, 0)))),
        "square-2-rectangles": _polygon(*_SQUARE, inner=(((0, 0.5), (1, 0.5)),)),
        "square-4-squares": _polygon(*_SQUARE, inner=(((0, 0.5), (1, 0.5)), ((0.5, 0), (0.5, 1)))),
        "rectangle-2-squares": _polygon((0, 0), (2, 0), (2, 1), (0, 1), inner=(((1, 0), (1, 1)),)),
        "rectangle-3-squares": _polygon((0, 0), (3, 0), (3, 1), (0, 1), inner=(((1, 0), (1, 1)), ((2, 0), (2, 1)))),
        "rectangle-2-triangles": _polygon((0, 0), (3, 0), (3, 2), (0, 2), inner=(((0, 0), (3, 2)),)),
        "rhombus-2-triangles": _polygon((0, 0), (1, 0), (1.5, _H), (0.5, _H), inner=(((1, 0), (0.5, _H)),)),
        "trapezoid-3-triangles": _polygon(
            (0, 0), (2, 0), (1.5, _H), (0.5, _H), inner=(((1, 0), (0.5, _H)), ((1, 0), (1.5, _H)))
        ),
        "triangle-4-triangles": _polygon(
            *_TRIANGLE,
            inner=(((0.5, 0), (0.25, _H / 2)), ((0.5, 0), (0.75, _H / 2)), ((0.25, _H / 2), (0.75, _H / 2))),
        ),
        "triangle-2-triangles": _polygon(*_TRIANGLE, inner=(((0.5, 0), (0.5, _H)),)),
        "hexagon-2-trapezoids": _polygon(*_HEX, inner=((_HEX[0], _HEX[3]),)),
        "hexagon-3-rhombuses": _polygon(*_HEX, inner=((_O, _HEX[0]), (_O, _HEX[2]), (_O, _HEX[4]))),
        "hexagon-6-triangles": _polygon(*_HEX, inner=tuple((_O, corner) for corner in _HEX)),
        "house-square-triangle": _polygon((0, 0), (2, 0), (2, 2), (1, 3.2), (0, 2), inner=(((0, 2), (2, 2)),)),
    }
)
"""Every flat shape by name. `name-n-parts` is a shape that shows its parts."""
