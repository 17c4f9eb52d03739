"""What a thing to match stands for, worked out from what is printed: an amount, a time, a share, a name, a form.

Two things are partners when they stand for the same. Units, coins and shapes are typed here apart from the rest.
"""

from __future__ import annotations

import re
from fractions import Fraction
from typing import TYPE_CHECKING

from dayleaf.items.model import Figure, Row, Word
from dayleaf.items.second.polygons import measured, name_by_sides

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from dayleaf.items.model import Token

Worth = tuple[str, object]
"""A kind of thing and how much of it; things of different kinds are never the same."""

_UNITS: Mapping[str, tuple[str, int]] = {
    "second": ("time", 1), "minute": ("time", 60), "hour": ("time", 60 * 60), "day": ("time", 60 * 60 * 24),
    "week": ("time", 60 * 60 * 24 * 7), "month": ("months", 1), "year": ("months", 12),
    "inches": ("length", 1), "feet": ("length", 12), "yards": ("length", 12 * 3),
    "cups": ("liquid", 1), "pints": ("liquid", 2), "quarts": ("liquid", 2 * 2), "gallons": ("liquid", 2 * 2 * 4),
    "penny": ("money", 1), "nickel": ("money", 5), "dime": ("money", 10), "quarter": ("money", 25),
    "cent": ("money", 1), "dollar": ("money", 100),
    "squares-far": ("squares", 1), "flat-faces-each": ("flat faces", 1),
    "thousands": ("number", 1000), "hundreds": ("number", 100), "tens": ("number", 10), "ones": ("number", 1),
}  # fmt: skip
_PARTS = {"halves": 2, "thirds": 3, "fourths": 4}
_PAST = {"quarter-past": 15, "half-past": 30, "quarter-to": -15}
_NAMED = frozenset({"triangle", "square", "quadrilateral", "pentagon", "hexagon", "circle"})
_FLAT_FACES = {"cube": 6, "box": 6, "pyramid": 5, "cylinder": 2, "cone": 1, "sphere": 0}
_TIME = re.compile(r"(\d+):(\d\d)")
_PLACE = re.compile(r"(\d+)(?:st|nd|rd|th)")
_MONEY = re.compile(r"\$(\d+)|(\d+)¢")


def worth_of(thing: Row | Figure, across: Sequence[Row | Figure]) -> Worth | None:
    """What the thing stands for; None where this reader does not know. A picture is read as the other side wants it."""
    if isinstance(thing, Figure):
        look = _PICTURES.get(thing.kind)
        return look(thing, across[0]) if look else None
    return _row(thing.tokens)


def _row(tokens: tuple[Token, ...]) -> Worth | None:
    return _named(tokens) or _counted(tokens) or _several(tokens)


def _named(tokens: tuple[Token, ...]) -> Worth | None:
    """What is told in words, or by one sign alone."""
    found: Worth | None = None
    match tokens:
        case (Word(code=code), Word(code="number-name", count=int(hour))) if code in _PAST:
            found = "clock", (60 * hour + _PAST[code]) % 720
        case (Word(code="number-name", count=int(n)), Word(code=unit)) if unit in _UNITS:
            found = _UNITS[unit][0], n * _UNITS[unit][1]
        case (Word(code="order-name", count=int(n)),):
            found = "place", n
        case (Word(code=name),):
            found = _UNITS.get(name, ("name", name))
        case (str(told),):
            found = _signs(told)
    return found


def _counted(tokens: tuple[Token, ...]) -> Worth | None:
    """A number, rows of an array, rounds of a program, parts of a whole, a fraction."""
    found: Worth | None = None
    match tokens:
        case (int(n),):
            found = "number", n
        case (int(rows), Word(code="rows-of-each"), int(columns)):
            found = "array", (rows, columns)
        case (int(times), Word(code="times-forward"), int(far)):
            found = "squares", sum([far] * times)
        case (int(k), Word(code=part)) if part in _PARTS:
            found = "parts", (k, _PARTS[part])
        case (int(top), "/", int(bottom)):
            found = "share", Fraction(top, bottom) if top < bottom else (top, bottom)
    return found


def _signs(told: str) -> Worth | None:
    """A time, a place in order, or an amount of money."""
    if found := _TIME.fullmatch(told):
        return "clock", (60 * int(found[1]) + int(found[2])) % 720
    if found := _PLACE.fullmatch(told):
        return "place", int(found[1])
    if found := _MONEY.fullmatch(told):
        return "money", 100 * int(found[1]) if found[1] else int(found[2])
    return None


def _several(tokens: Sequence[Token]) -> Worth | None:
    """Amounts of one kind side by side: 1 quarter 2 dimes, $10 $5 3 dimes, 2 tens 3 ones."""
    total, kind, waiting = 0, "", None
    for token in tokens:
        found: Worth | None = None
        if isinstance(token, int) and waiting is None:
            waiting = token
            continue
        if isinstance(token, Word) and token.code == "and-cents":
            continue
        if isinstance(token, Word) and token.code in _UNITS and waiting is not None:
            unit, size = _UNITS[token.code]
            found, waiting = (unit, waiting * size), None
        elif isinstance(token, str):
            found = _signs(token)
        if found is None or kind not in ("", found[0]):
            return None
        kind, total = found[0], total + int(str(found[1]))
    return (kind, total) if waiting is None and kind else None


def _number(figure: Figure, name: str) -> int:
    return int(str(figure.params.get(name, 0)))


def _parts_hatched(figure: Figure, other: Row | Figure) -> Worth:
    n, k = _number(figure, "n"), _number(figure, "k")
    if isinstance(other, Row) and "/" in other.tokens:
        return "share", Fraction(k, n) if k < n else (k, n)
    return "parts", (k, n)


def _flat(figure: Figure, other: Row | Figure) -> Worth | None:
    """By name where the names stand across, by sides and angles where shapes do."""
    shapes, sizes = figure.params["shapes"], figure.params["sizes"]
    if not isinstance(shapes, tuple) or not isinstance(sizes, tuple):
        return None
    name = str(shapes[0])
    if isinstance(other, Figure):
        return "form", tuple(measured(name, int(sizes[0])))
    if name == "circle":
        return "name", name
    wanted = {token.code for token in other.tokens if isinstance(token, Word)}
    return "name", name_by_sides(name, by_kind=bool(wanted & _NAMED))


def _solid(figure: Figure, other: Row | Figure) -> Worth | None:
    solids = figure.params["solids"]
    if not isinstance(solids, tuple):
        return None
    name = str(solids[0])
    by_faces = isinstance(other, Row) and any(
        isinstance(token, Word) and token.code == "flat-faces-each" for token in other.tokens
    )
    return ("flat faces", _FLAT_FACES[name]) if by_faces else ("name", name)


def _tallied(figure: Figure, _: Row | Figure) -> Worth | None:
    counts = figure.params["counts"]
    return ("number", sum(map(int, counts))) if isinstance(counts, tuple) else None


def _blocks(figure: Figure, _: Row | Figure) -> Worth:
    return "number", sum(_number(figure, name) * size for name, size in (("h", 100), ("t", 10), ("o", 1)))


_PICTURES: Mapping[str, Callable[[Figure, Row | Figure], Worth | None]] = {
    "clock": lambda figure, _: ("clock", (60 * _number(figure, "h") + _number(figure, "m")) % 720),
    "fraction-shapes": _parts_hatched,
    "shapes-2d": _flat,
    "solids-3d": _solid,
    "tally": _tallied,
    "base-ten": _blocks,
    "array-dots": lambda figure, _: ("array", (_number(figure, "r"), _number(figure, "c"))),
}
