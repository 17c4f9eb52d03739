"""Tables of numbers that go in and come out: find the rule, fill the table, tell how it was found."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.items.model import Figure, Part, Question, Step
from dayleaf.items.rule import Made, SkillRule

if TYPE_CHECKING:
    from collections.abc import Sequence

    from dayleaf.items.rule import Numbers

DOWN, FIRST_ROW = ErrorWayId("down-not-across"), ErrorWayId("first-row-only")
_GAPS = ((1, 3, 2), (3, 1, 4), (2, 5, 3))
"""From one number in to the next: never even, so that going on down a column does not give the rule's numbers."""


def _rows(numbers: Numbers) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """Four numbers in, four numbers out; r names the rule: add k, take k away, k times."""
    r, k, x = numbers["r"], numbers["k"], numbers["x"]
    first = x + k if r == 1 else x
    gaps = _GAPS[(k + x) % len(_GAPS)]
    into = (first, first + gaps[0], first + sum(gaps[:2]), first + sum(gaps))
    out = tuple((n + k, n - k, n * k)[r] for n in into)
    return into, out


def down_the_column(out: Sequence[int]) -> tuple[int, int]:
    """The column of results gone on by its first step, whatever goes in: 6, 9 → 12, 15."""
    step = out[1] - out[0]
    return out[1] + step, out[1] + 2 * step


def first_row_only(into: Sequence[int], out: Sequence[int]) -> tuple[int, ...] | None:
    """Another rule that fits the first row: times for an addition, adding for times; None where there is none."""
    first, result = into[0], out[0]
    if first < result == out[1] - into[1] + first:  # it adds
        times, left = divmod(result, first)
        return None if left or times < 2 else tuple(n * times for n in into[2:])
    return tuple(n + result - first for n in into[2:]) if result > first else None


def _fill(numbers: Numbers) -> Made:
    into, out = _rows(numbers)
    errors = {DOWN: " ".join(str(n) for n in down_the_column(out))}
    other = first_row_only(into, out)
    if other is not None:
        errors[FIRST_ROW] = " ".join(str(n) for n in other)
    cells = [str(n) for pair in zip(into, out, strict=True) for n in pair]
    cells[5] = cells[7] = ""
    return Made(
        Question("in-out-missing"),
        tuple(Part(str(i), "digits", str(n), 3) for i, n in enumerate(out[2:], start=1)),
        (
            _rule_step(numbers),
            *(Step("goes-in-comes-out", {"a": a, "b": b}) for a, b in zip(into[2:], out[2:], strict=True)),
        ),
        errors,
        Figure("table", {"head": ("goes-in", "comes-out"), "cells": tuple(cells), "columns": 2}),
        (0.2, 0.4, 0.6)[numbers["r"]] + 0.02 * numbers["k"],
    )


def _rule_step(numbers: Numbers) -> Step:
    return Step(("rule-add", "rule-take", "rule-times")[numbers["r"]], {"n": numbers["k"]})


def _tell(numbers: Numbers) -> Made:
    into, out = _rows(numbers)
    cells = tuple(str(n) for pair in zip(into, out, strict=True) for n in pair)
    return Made(
        Question("in-out-rule"),
        (Part("1", "look", ""),),
        (_rule_step(numbers), Step("try-each-row")),
        {},
        Figure("table", {"head": ("goes-in", "comes-out"), "cells": cells, "columns": 2}),
        (0.2, 0.4, 0.6)[numbers["r"]] + 0.02 * numbers["k"],
    )


RULES: tuple[SkillRule, ...] = (
    SkillRule(SkillId("number-pattern-table"), formats={FormatId("table"): _fill, FormatId("explain"): _tell}),
)
