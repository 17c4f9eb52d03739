"""Numbers under each other: which digit, sign or box stands in which cell of the place columns."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from dayleaf.items.model import Column, Item, Part

SIGNS = {"-": "−", "+": "+", "x": "×", "×": "×", "−": "−", "÷": "÷", "/": "/", "<": "<", ">": ">", "=": "=", ",": ","}
"""How the signs of an item are printed."""


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell: printed text, or the box of one digit of a part (`part` "" for a trade box)."""

    kind: Literal["blank", "text", "box", "trade"]
    text: str = ""
    part: str = ""
    place: int = 0


@dataclass(frozen=True, slots=True)
class Line:
    """One line of cells from the highest place to the ones; `ruled` draws the line of the result above it."""

    cells: tuple[Cell, ...]
    ruled: bool = False


_BLANK = Cell("blank")


def result_of(column: Column) -> int:
    """What the column comes to."""
    first, *rest = column.rows
    for number in rest:
        if column.sign == "+":
            first += number
        elif column.sign in ("-", "−"):
            first -= number
        else:
            first *= number
    return first


def trades_of(column: Column) -> dict[int, str]:
    """What is written into the trade boxes: place (0 = ones) to text, for the key.

    Taking away: where the upper digit is too small a ten is opened, so it grows by ten and its left neighbour
    loses one. Adding: the tens of a full place are written over the next one.
    """
    written: dict[int, str] = {}
    if column.sign == "+":
        carried, place = 0, 0
        for place in range(max(len(str(row)) for row in column.rows)):
            carried = (sum(row // 10**place % 10 for row in column.rows) + carried) // 10
            if carried:
                written[place + 1] = str(carried)
        return written
    if len(column.rows) != 2:
        return written
    above, below = column.rows
    upper = [int(digit) for digit in reversed(str(above))]
    for place in range(len(upper)):
        if upper[place] < below // 10**place % 10 and place + 1 < len(upper):
            upper[place] += 10
            giver = place + 1
            while upper[giver] == 0 and giver + 1 < len(upper):
                upper[giver] = 9
                written[giver] = "9"
                giver += 1
            upper[giver] -= 1
            written[giver] = str(upper[giver])
            written[place] = str(upper[place])
    return written


def trade_places(column: Column) -> tuple[int, ...]:
    """The places that get a trade box: all of the upper number when taking away, all but the ones when adding."""
    if not column.trades:
        return ()
    digits = max(len(str(row)) for row in column.rows)
    return tuple(range(1, digits)) if column.sign == "+" else tuple(range(digits))


def lines_of_column(item: Item, column: Column) -> tuple[Line, ...]:
    """The column as lines of cells; every part that is answered with digits has its boxes in it."""
    parts = [part for part in item.parts if part.kind == "digits"]
    digits = max(len(str(row)) for row in column.rows)
    results = [len(str(column.shown))] if column.shown is not None else []
    width = max(digits + 1, *results, *[part.width for part in parts], len(str(result_of(column))))
    hidden = _hidden_parts(column, parts)
    lines: list[Line] = []
    places = trade_places(column)
    if places:
        lines.append(Line(tuple(Cell("trade", place=p) if p in places else _BLANK for p in _down(width))))
    for row, number in enumerate(column.rows):
        cells = _written(number, width, row=row, hidden=hidden)
        if row == len(column.rows) - 1:
            cells[width - 1 - digits] = Cell("text", SIGNS.get(column.sign, column.sign))
        lines.append(Line(tuple(cells)))
    if column.hidden:
        result = result_of(column) if column.shown is None else column.shown
        lines.append(Line(tuple(_written(result, width, row=len(column.rows), hidden=hidden)), ruled=True))
        return tuple(lines)
    if column.shown is not None:
        lines.append(Line(tuple(_written(column.shown, width, row=len(column.rows), hidden={})), ruled=True))
    for index, part in enumerate(parts):
        boxes = tuple(Cell("box", part=part.id, place=p) if p < part.width else _BLANK for p in _down(width))
        lines.append(Line(boxes, ruled=index == 0 and column.shown is None))
    return tuple(lines)


def _down(width: int) -> range:
    return range(width - 1, -1, -1)


def _hidden_parts(column: Column, parts: list[Part]) -> dict[tuple[int, int], Cell]:
    """One part a hidden digit; or one part for all of them, its digits in the order of `hidden`."""
    if len(parts) == 1 and len(column.hidden) > 1:
        last = len(column.hidden) - 1
        return {spot: Cell("box", part=parts[0].id, place=last - i) for i, spot in enumerate(column.hidden)}
    return {spot: Cell("box", part=part.id) for spot, part in zip(column.hidden, parts, strict=False)}


def _written(number: int, width: int, *, row: int, hidden: dict[tuple[int, int], Cell]) -> list[Cell]:
    text = str(number).rjust(width)
    return [
        hidden.get((row, place))
        or (_BLANK if text[width - 1 - place] == " " else Cell("text", text[width - 1 - place]))
        for place in _down(width)
    ]
