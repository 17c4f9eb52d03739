"""Polygons judged again by the angles and lengths of their sides."""

from __future__ import annotations

import cmath
import math
from typing import TYPE_CHECKING

from dayleaf.items.model import Question, Row, Word
from dayleaf.items.second.pictured_params import numbers, words
from dayleaf.items.second.pictured_shapes import corners_of

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from dayleaf.items.model import Item

_NEAR = 1e-6
_NAMES = {3: "triangle", 4: "quadrilateral", 5: "pentagon", 6: "hexagon"}


def polygon_answer(item: Item) -> str | None:
    """The answer for items about polygons; None for others."""
    if isinstance(item.prompt, Row):
        codes = {token.code for token in item.prompt.tokens if isinstance(token, Word)}
        if "square-corners" in codes:
            return str(sum(_is_square(turn) for turn in _turns(words(item, "shapes")[0])))
        if codes == {"sides", "corners"}:
            count = len(_sides(words(item, "shapes")[0]))
            return f"{count} {count}"
        return None
    if not isinstance(item.prompt, Question):
        return None
    answer = _QUESTIONS.get(item.prompt.code)
    return answer(item, item.prompt) if answer else None


def _sides(name: str) -> list[complex]:
    corners = corners_of(name)
    return [b - a for a, b in zip(corners, (*corners[1:], *corners[:1]), strict=True)]


def _turns(name: str) -> list[float]:
    sides = _sides(name)
    return [cmath.phase(b / a) for a, b in zip(sides, (*sides[1:], *sides[:1]), strict=True)]


def _is_square(turn: float) -> bool:
    return abs(turn - math.pi / 2) < _NEAR


def _is(name: str, family: str) -> bool:
    sides = _sides(name)
    if len(sides) != 4:
        return False
    right = all(map(_is_square, _turns(name)))
    equal = max(map(abs, sides)) - min(map(abs, sides)) < _NEAR
    return {"square": right and equal, "rectangle": right, "rhombus": equal, "quadrilateral": True}[family]


def _fits_on(item: Item, _: Question) -> str | None:
    """The only shape with the pattern's sides and angles, in size as well."""
    drawn = list(zip(words(item, "shapes"), numbers(item, "sizes"), strict=True))
    same = [chr(97 + i) for i, look in enumerate(drawn) if i and measured(*look) == measured(*drawn[0])]
    return same[0] if len(same) == 1 else None


def name_by_sides(name: str, *, by_kind: bool = True) -> str:
    """What a closed shape with straight sides is called: a square by its sides and corners, others by their number."""
    if by_kind and _is(name, "square"):
        return "square"
    return _NAMES.get(len(_sides(name)), "")


def has_square_corner(name: str) -> bool:
    """Whether a closed shape with straight sides has a corner like that of a sheet of paper."""
    return any(map(_is_square, _turns(name)))


def is_of_kind(name: str, kind: str) -> bool:
    """Whether a shape is closed with straight sides and has what the kind asks of them."""
    if kind in {"triangle", "four-sides", "hexagon"}:
        return len(_sides(name)) == {"triangle": 3, "four-sides": 4, "hexagon": 6}[kind]
    return _is(name, kind)


def measured(name: str, size: int) -> list[tuple[float, float]]:
    """Every side's length and the turn after it, whichever way the shape lies."""
    corners = corners_of(name)
    wide = max(c.real for c in corners) - min(c.real for c in corners)
    tall = max(c.imag for c in corners) - min(c.imag for c in corners)
    scale = size / max(wide, tall)
    pairs = zip(_sides(name), _turns(name), strict=True)
    return sorted((round(abs(side) * scale, 3), round(turn, 3)) for side, turn in pairs)


def _closed(item: Item, question: Question) -> str | None:
    n = int(question.values["n"])
    found = [chr(97 + i) for i, name in enumerate(words(item, "shapes")) if len(_sides(name)) == n]
    return found[0] if len(found) == 1 else None


def _named(item: Item, _: Question) -> str | None:
    options = {option.code for option in item.parts[0].options}
    return _NAMES[len(_sides(words(item, "shapes")[0]))] if "quadrilateral" in options else None


def _every(_: Item, question: Question) -> str:
    return "true" if _is(str(question.values["kind"]), str(question.values["family"])) else "not-true"


def _ticked(item: Item, question: Question) -> str | None:
    family = str(question.values["kind"])
    if family not in ("square", "rectangle", "rhombus", "quadrilateral"):
        return None
    return " ".join(chr(97 + i) for i, name in enumerate(words(item, "shapes")) if _is(name, family))


def _drawn(_: Item, _question: Question) -> str:
    return ""


_QUESTIONS: Mapping[str, Callable[[Item, Question], str | None]] = {
    "fits-on-a": _fits_on,
    "closed-corners": _closed,
    "name-shape": _named,
    "every-is": _every,
    "tick-shapes": _ticked,
    **dict.fromkeys(("draw-corners", "draw-square-corner", "draw-equal-sides", "draw-uneven-sides"), _drawn),
    "draw-pieces": _drawn,
}
