"""Shapes and solids judged again by their corners: coordinates and counts typed apart from the rest of the code."""

from __future__ import annotations

import cmath
import math
from typing import TYPE_CHECKING

from dayleaf.items.model import Question, Row, Word
from dayleaf.items.second.pictured_params import numbers, words

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from dayleaf.items.model import Item

Corners = tuple[complex, ...]

_R3 = math.sqrt(3)
_CORNERS: Mapping[str, Corners] = {
    "triangle": (0, 2, 1 + 1j * _R3),
    "right-triangle": (0, 4, 3j),
    "long-triangle": (0, 50, 62 + 19j),
    "tall-triangle": (0, 2, 1 + 4j),
    "square": (1, 1j, -1, -1j),
    "rectangle": (0, 3, 3 + 2j, 2j),
    "long-rectangle": (0, 50, 50 + 14j, 14j),
    "rhombus": (0, 2, 3 + 1j * _R3, 1 + 1j * _R3),
    "parallelogram": (0, 30, 40 + 17j, 10 + 17j),
    "trapezoid": (0, 4, 3 + 2j, 1 + 2j),
    "right-trapezoid": (0, 40, 24 + 22j, 22j),
    "kite": (-24j, 15 + 6j, 18j, -15 + 6j),
    "quadrilateral": (0, 40 + 5j, 32 + 30j, 8 + 22j),
    "pentagon": tuple(cmath.rect(1, math.pi * (0.5 + 0.4 * k)) for k in range(5)),
    "long-pentagon": (0, 40, 50 + 14j, 24 + 26j, -6 + 16j),
    "house": (0, 10, 10 + 10j, 5 + 16j, 10j),
    "hexagon": tuple(cmath.rect(1, math.pi / 3 * k) for k in range(6)),
    "long-hexagon": (2j, 22 - 4j, 40 + 6j, 42 + 22j, 20 + 28j, -3 + 19j),
    "l-shape": (0, 30, 30 + 12j, 12 + 12j, 12 + 30j, 30j),
    "octagon": tuple(cmath.rect(1, math.pi / 4 * (k + 0.5)) for k in range(8)),
    "arrow": (7j, 24 + 7j, 24, 40 + 13j, 24 + 26j, 24 + 19j, 19j),
}
"""Closed shapes with straight sides; every other name is open or has a curved side."""

_TILT = 0.78539816339
_NEAR = 1e-6


def corners_of(name: str) -> Corners:
    """The corners of a closed shape with straight sides, in order; none for other shapes."""
    corners = _CORNERS.get(name, ())
    return corners if _turns_left(corners) else tuple(reversed(corners))


def _turns_left(corners: Corners) -> bool:
    pairs = zip(corners, (*corners[1:], *corners[:1]), strict=True)
    return sum((a.conjugate() * b).imag for a, b in pairs) >= 0


def shape_answer(item: Item) -> str | None:
    """The answer for items about flat shapes and solids; None for others."""
    if item.figure is None:
        return None
    prompt = item.prompt
    if item.figure.kind == "solids-3d":
        return _solid(item)
    if item.figure.kind != "shapes-2d" or not isinstance(prompt, Question):
        return None
    ask = _ASKED.get(prompt.code)
    return ask(item, prompt) if ask else None


def _ticked(item: Item, question: Question) -> str:
    kind = str(question.values["kind"])
    return " ".join(chr(97 + i) for i, name in enumerate(words(item, "shapes")) if _is(name, kind))


def _named(item: Item, _: Question) -> str | None:
    shape = words(item, "shapes")[0]
    return next((name for name in ("square", "rectangle", "triangle", "hexagon", "circle") if _is(shape, name)), None)


def _matches(item: Item, _: Question) -> str:
    return "yes" if _folds(_CORNERS[words(item, "shapes")[0]], numbers(item, "lines")[0]) else "no"


def _filled(item: Item, _: Question) -> str:
    sized = zip(words(item, "shapes"), numbers(item, "sizes"), strict=True)
    whole, piece = (_area(name, size) for name, size in sized)
    return str(round(whole / piece))


def _sides(corners: Corners) -> list[complex]:
    return [b - a for a, b in zip(corners, (*corners[1:], corners[0]), strict=True)]


def _is(name: str, kind: str) -> bool:
    """Whether a shape is of a kind, by the number, length and angles of its sides."""
    if name == "circle":
        return kind == "circle"
    if name not in _CORNERS:
        return False
    sides = _sides(_CORNERS[name])
    turns = [abs(cmath.phase(b / a)) for a, b in zip(sides, (*sides[1:], sides[0]), strict=True)]
    square_corners = all(abs(turn - math.pi / 2) < _NEAR for turn in turns)
    same_sides = max(map(abs, sides)) - min(map(abs, sides)) < _NEAR
    return {
        "triangle": len(sides) == 3,
        "four-sides": len(sides) == 4,
        "rectangle": len(sides) == 4 and square_corners,
        "square": len(sides) == 4 and square_corners and same_sides,
        "hexagon": len(sides) == 6,
        "circle": False,
    }[kind]


def _upright(name: str) -> Corners:
    """A square lies on a side when it is drawn; the corners above stand it on a point."""
    corners = _CORNERS[name]
    return tuple(corner * cmath.rect(1, _TILT) for corner in corners) if name == "square" else corners


def _folds(corners: Corners, degrees: int) -> bool:
    """Whether the mirror image in the line through the middle of the shape's box has the same sides."""
    if corners == _CORNERS["square"]:
        corners = _upright("square")
    middle = complex(
        (max(c.real for c in corners) + min(c.real for c in corners)) / 2,
        (max(c.imag for c in corners) + min(c.imag for c in corners)) / 2,
    )
    turn = cmath.rect(1, 2 * math.radians(degrees))
    mirrored = [(corner - middle).conjugate() * turn + middle for corner in corners]
    return _side_set(corners) == _side_set(mirrored)


def _side_set(corners: Sequence[complex]) -> set[frozenset[tuple[float, float]]]:
    points = [(round(c.real, 4) + 0.0, round(c.imag, 4) + 0.0) for c in corners]
    return {frozenset(pair) for pair in zip(points, (*points[1:], points[0]), strict=True)}


def _area(name: str, size: int) -> float:
    """The area of a shape whose larger extent is `size` (shoelace formula)."""
    corners = _upright(name)
    wide = max(c.real for c in corners) - min(c.real for c in corners)
    tall = max(c.imag for c in corners) - min(c.imag for c in corners)
    twice = sum((a.conjugate() * b).imag for a, b in zip(corners, (*corners[1:], corners[0]), strict=True))
    return abs(twice) / 2 * (size / max(wide, tall)) ** 2


def _flat_parts(solid: str) -> Mapping[str, int]:
    """Faces, edges and corners counted from how the solid is made.

    A box is three intervals crossed; a pyramid is a base of n sides and a point above it.
    """
    if solid in ("cube", "box"):
        return {"faces": 2 * 3, "edges": 3 * 2**2, "corners": 2**3}
    if solid == "pyramid":
        n = 4
        return {"faces": n + 1, "edges": 2 * n, "corners": n + 1}
    return {"flat-faces": {"cylinder": 2, "cone": 1, "sphere": 0}[solid]}


def _solid(item: Item) -> str | None:
    solids = words(item, "solids")
    if isinstance(item.prompt, Row):
        asked = next(token.code for token in item.prompt.tokens if isinstance(token, Word))
        return str(_flat_parts(solids[0])[asked])
    if not isinstance(item.prompt, Question):
        return None
    if item.prompt.code == "name-solid":
        return solids[0]
    return chr(97 + solids.index(str(item.prompt.values["solid"])))


_ASKED: Mapping[str, Callable[[Item, Question], str | None]] = {
    "tick-shapes": _ticked,
    "name-shape": _named,
    "fold-matches": _matches,
    "fill-with": _filled,
}
