"""Graphs with a scale, tables of numbers in and out, and fractions on a line, answered again from the picture."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from dayleaf.items.model import Gap, Question, Row
from dayleaf.items.second.pictured_params import number, numbers, words

if TYPE_CHECKING:
    from collections.abc import Callable

    from dayleaf.items.model import Item


def scaled_answer(item: Item) -> str | None:
    """The answer of an item about scales, rules of tables or places of fractions; None for others."""
    figure, prompt = item.figure, item.prompt
    if figure is None:
        return None
    if isinstance(prompt, Question):
        return _question(item, prompt)
    if isinstance(prompt, Row) and figure.kind == "number-line" and number(item, "parts") > 1:
        gaps = sum(isinstance(token, Gap) for token in prompt.tokens)
        return f"{number(item, 'arrow')} {number(item, 'parts')}" if gaps == 2 else None
    return None


def _question(item: Item, question: Question) -> str | None:
    if question.code in {"draw-bars", "in-out-rule"}:
        return ""
    if question.code == "in-out-missing":
        return _come_out(item)
    if question.code == "point-at-fraction":
        return _point(item, Fraction(int(question.values["k"]), int(question.values["n"])))
    scaled = question.code.startswith("graph-how-many") and number(item, "each") > 1
    return _graph(item, question) if scaled else None


def _graph(item: Item, question: Question) -> str | None:
    """Each picture or step laid down as so many counters, a half one as half as many."""
    each = number(item, "each")
    halves = numbers(item, "halves") or (0,) * len(numbers(item, "data"))
    heap = {
        label: Fraction(each) * (count + Fraction(half, 2))
        for label, count, half in zip(words(item, "labels"), numbers(item, "data"), halves, strict=True)
    }
    asked = [heap[str(code)] for code in question.values.values()]
    total = asked[0] - asked[1] if question.code.endswith("more") else sum(asked, Fraction(0))
    return str(total.numerator) if total.denominator == 1 and total >= 0 else None


_RULES: tuple[Callable[[int, int], int], ...] = (lambda n, k: n + k, lambda n, k: n - k, lambda n, k: n * k)


def _come_out(item: Item) -> str | None:
    """Every rule of one sign and one number is tried on the rows that are told; all that fit agree, or none counts."""
    cells = words(item, "cells")
    rows = list(zip(cells[::2], cells[1::2], strict=True))
    told = [(int(a), int(b)) for a, b in rows if b]
    asked = [int(a) for a, b in rows if not b]
    found = {
        tuple(rule(n, k) for n in asked)
        for rule in _RULES
        for k in range(2, 101)
        if all(rule(a, k) == b for a, b in told)
    }
    return " ".join(str(n) for n in found.pop()) if len(found) == 1 else None


def _point(item: Item, wanted: Fraction) -> str | None:
    parts = number(item, "parts")
    fitting = [
        letter for letter, n in zip("ABC", numbers(item, "points"), strict=False) if Fraction(n, parts) == wanted
    ]
    return fitting[0] if len(fitting) == 1 else None
