"""Squares that cover a shape, counted and multiplied, and the way all round."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.items.group_stories import group_story
from dayleaf.items.model import Figure, Gap, Part, Question, Row, Step, Word
from dayleaf.items.rule import Made, SkillRule

if TYPE_CHECKING:
    from dayleaf.items.rule import Numbers

COUNT, DRAW, ARRAY = FormatId("count-pic"), FormatId("draw"), FormatId("array")
HORIZ, WORD1 = FormatId("horiz"), FormatId("word1")

BORDER = ErrorWayId("counts-border-only")
SIDES = ErrorWayId("adds-sides")
HALVES = ErrorWayId("half-squares-whole")
_CUT = 2
"""Squares along each side of a corner that is cut off straight."""

ROUND = ErrorWayId("perimeter-for-area")
LEFT_OUT = ErrorWayId("side-left-out")
AREA = ErrorWayId("area-for-perimeter")


def border_squares(rows: int, columns: int) -> int:
    """The squares round the edge of a rectangle; all of them where a side has one or two."""
    inside = max(0, rows - 2) * max(0, columns - 2)
    return rows * columns - inside


def _grid(rows: int, columns: int, cells: tuple[int, ...] = ()) -> Figure:
    return Figure("area-grid", {"r": rows, "c": columns, "cells": cells, "question": 1})


def _rows_make(rows: int, columns: int) -> Step:
    return Step("rows-make", {"rows": rows, "columns": columns, "total": rows * columns})


def _hard(a: int, b: int) -> float:
    return min(1.0, 0.1 + a * b / 100 + 0.02 * (a + b))


# fill a rectangle


def _squares(numbers: Numbers) -> Made:
    a, b = numbers["a"], numbers["b"]
    return Made(
        Question("squares-fill"),
        (Part("1", "digits", str(a * b), 2),),
        (_rows_make(a, b),),
        {BORDER: str(border_squares(a, b))},
        _grid(a, b),
        _hard(a, b),
    )


def _squares_drawn(numbers: Numbers) -> Made:
    a, b = numbers["a"], numbers["b"]
    return Made(
        Question("draw-squares", {"rows": a, "columns": b}),
        (Part("1", "digits", str(a * b), 2),),
        (_rows_make(a, b),),
        {BORDER: str(border_squares(a, b))},
        None,
        _hard(a, b),
    )


def _squares_in_rows(numbers: Numbers) -> Made:
    """[ ] rows of [ ] = [ ] beside a rectangle of squares."""
    a, b = numbers["a"], numbers["b"]
    return Made(
        Row((Gap("1"), Word("rows-of"), Gap("2"), "=", Gap("3"))),
        (Part("1", "digits", str(a), 1), Part("2", "digits", str(b), 1), Part("3", "digits", str(a * b), 2)),
        (_rows_make(a, b),),
        {BORDER: f"{a} {b} {border_squares(a, b)}"},
        _grid(a, b),
        _hard(a, b),
    )


# count the squares of a shape


def _covered(numbers: Numbers) -> Made:
    """A rectangle of a by b with a corner of c by d left out; the way round it is that of the whole rectangle.

    A corner of two by two is cut off straight, so that two half squares are left of it.
    """
    a, b, c, d = (numbers[name] for name in "abcd")
    if c == d == _CUT:
        return _cut_straight(a, b)
    cells = tuple(y * b + x for y in range(a) for x in range(b) if y >= c or x >= d)
    return Made(
        Question("squares-cover"),
        (Part("1", "digits", str(len(cells)), 2),),
        (Step("count-row-by-row", {"total": len(cells)}),),
        {ROUND: str(2 * (a + b))},
        _grid(a, b, cells),
        min(1.0, len(cells) / 50 + 0.2 * (c > 0)),
    )


def halves_as_whole(whole: int, halves: int) -> int:
    """Every half square counted as one."""
    return whole + halves


def _cut_straight(a: int, b: int) -> Made:
    halves = tuple(y * b + _CUT - 1 - y for y in range(_CUT))
    cells = tuple(y * b + x for y in range(a) for x in range(b) if x + y >= _CUT)
    total = len(cells) + len(halves) // 2
    return Made(
        Question("squares-cover"),
        (Part("1", "digits", str(total), 2),),
        (
            Step("count-row-by-row", {"total": len(cells)}),
            Step("halves-make-ones", {"n": len(halves), "ones": len(halves) // 2}),
        ),
        {HALVES: str(halves_as_whole(len(cells), len(halves)))},
        Figure("area-grid", {"r": a, "c": b, "cells": cells, "halves": halves, "question": 1}),
        min(1.0, total / 50 + 0.4),
    )


def _draw_covered(numbers: Numbers) -> Made:
    a, b = numbers["a"], numbers["b"]
    return Made(
        Question("draw-area", {"n": a * b}),
        (Part("1", "look", ""),),
        (Step("one-way-rows", {"rows": a, "columns": b}),),
        {},
        None,
        a * b / 60,
    )


# multiply the sides


def _area(numbers: Numbers) -> Made:
    a, b = numbers["a"], numbers["b"]
    return Made(
        Row((a, "×", b, "=", Gap("1"), Word("square-units"))),
        (Part("1", "digits", str(a * b), 3),),
        (_rows_make(a, b),),
        {SIDES: str(a + b)},
        _grid(a, b),
        _hard(a, b),
    )


def _area_told(numbers: Numbers) -> Made:
    a, b = numbers["a"], numbers["b"]
    return Made(
        group_story("array-product", {"rows": a, "columns": b}),
        (Part("1", "digits", str(a * b), 3),),
        (_rows_make(a, b), Step("write-times", {"a": a, "b": b, "result": a * b})),
        {SIDES: str(a + b)},
        None,
        _hard(a, b),
    )


def _area_drawn(numbers: Numbers) -> Made:
    a, b = numbers["a"], numbers["b"]
    return Made(
        Question("draw-rectangle", {"rows": a, "columns": b}),
        (Part("1", "digits", str(a * b), 3),),
        (_rows_make(a, b),),
        {SIDES: str(a + b)},
        None,
        _hard(a, b),
    )


# all the way round


def _round_errors(a: int, b: int) -> dict[ErrorWayId, str]:
    return {LEFT_OUT: str(a + b), AREA: str(a * b)}


def _round_steps(a: int, b: int) -> tuple[Step, ...]:
    return Step("two-sides", {"a": a, "b": b, "sum": a + b}), Step("and-again", {"half": a + b, "all": 2 * (a + b)})


def _round_sum(numbers: Numbers) -> Made:
    """6 + 4 + 6 + 4 = [ ]."""
    a, b = numbers["a"], numbers["b"]
    return Made(
        Row((a, "+", b, "+", a, "+", b, "=", Gap("1"))),
        (Part("1", "digits", str(2 * (a + b)), 3),),
        _round_steps(a, b),
        _round_errors(a, b),
        None,
        min(1.0, (a + b) / 60),
    )


def _round_told(numbers: Numbers) -> Made:
    a, b = numbers["a"], numbers["b"]
    return Made(
        Question("walk-round", {"a": a, "b": b}),
        (Part("1", "digits", str(2 * (a + b)), 3),),
        _round_steps(a, b),
        _round_errors(a, b),
        None,
        min(1.0, (a + b) / 60 + 0.1),
    )


RULES: tuple[SkillRule, ...] = (
    SkillRule(
        SkillId("tile-rectangle-rows-cols"), formats={DRAW: _squares_drawn, ARRAY: _squares_in_rows, COUNT: _squares}
    ),
    SkillRule(
        SkillId("area-count-squares"),
        formats={COUNT: _covered, DRAW: _draw_covered},
        fits={DRAW: lambda numbers: numbers["c"] == 0 and numbers["a"] <= numbers["b"]},
    ),
    SkillRule(
        SkillId("area-rows-times-columns"),
        formats={HORIZ: _area, WORD1: _area_told, DRAW: _area_drawn},
        fits={WORD1: lambda numbers: numbers["a"] > 1 and numbers["b"] > 1},
    ),
    SkillRule(SkillId("perimeter-add-sides"), formats={HORIZ: _round_sum, WORD1: _round_told}),
)
