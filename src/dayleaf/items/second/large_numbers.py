"""Rows and columns with large numbers: the gap found from two guesses, columns by undoing them.

Trying every number, as `sums` does, takes too long beyond a few hundred.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.items.model import Column, Gap, Question, Row, Word

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from dayleaf.items.model import Item, Token

LARGE = 100
"""From here on a number is large; `sums` reads what has only smaller ones."""

_WORTH = {"thousands": 1000, "hundreds": 100, "tens": 10, "ones": 1}


def large_answer(item: Item) -> str | None:
    """The answer of an item with a large number, or with hundreds in words; None for other items."""
    prompt = item.prompt
    if isinstance(prompt, Column) and not prompt.hidden and max(prompt.rows) >= LARGE:
        return _column(prompt)
    if isinstance(prompt, Row) and _is_large(prompt.tokens) and item.parts[0].kind == "digits":
        return _row(prompt.tokens)
    if isinstance(prompt, Question) and prompt.code in _QUESTIONS:
        return _QUESTIONS[prompt.code](item, prompt)
    return None


def _column(column: Column) -> str:
    """Halving an interval until the only number is left that undoes the column."""
    first, *others = column.rows
    low, high = 0, 10 ** (len(str(first)) + 1)
    while low < high:
        middle = (low + high) // 2
        undone = middle - sum(others) if column.sign == "+" else middle + sum(others)
        if undone < first:
            low = middle + 1
        else:
            high = middle
    return str(low)


def _is_large(tokens: Sequence[Token]) -> bool:
    words = {token.code for token in tokens if isinstance(token, Word)}
    if not words <= {*_WORTH, "number-name"}:
        return False
    named = (token.count or 0 for token in tokens if isinstance(token, Word) and token.code == "number-name")
    large = any(n >= LARGE for n in (*named, *(token for token in tokens if isinstance(token, int))))
    return "=" in tokens and "," not in tokens and (large or bool(words & {"hundreds", "thousands"}))


def _side(tokens: Sequence[Token], gap: int) -> int:
    """Worth of one side with a number in its gap."""
    total, sign, pending = 0, 1, 0
    for token in tokens:
        match token:
            case Gap():
                pending = gap
            case Word(code="number-name", count=count):
                pending = count or 0
            case Word(code=code):
                total, pending = total + sign * pending * _WORTH[code], 0
            case int():
                pending = token
            case _:
                total, pending, sign = total + sign * pending, 0, {"+": 1, "-": -1}[token]
    return total + sign * pending


def _row(tokens: Sequence[Token]) -> str | None:
    """Both sides differ by a straight line in the gap: two guesses tell where it crosses zero."""
    if sum(isinstance(token, Gap) for token in tokens) != 1:
        return None
    middle = tokens.index("=")
    at_zero, at_one = (_side(tokens[:middle], n) - _side(tokens[middle + 1 :], n) for n in (0, 1))
    answer, rest = divmod(-at_zero, at_one - at_zero)
    return str(answer) if rest == 0 else None


def _nearest(n: int, unit: int) -> int:
    """The multiple at the smallest distance, the larger of two equally near."""
    below = max(multiple for multiple in range(0, n + 1, unit))
    return min((below + unit, below), key=lambda multiple: abs(multiple - n))


def _about(sign: int, unit: int) -> Callable[[Item, Question], str]:
    def solve(_: Item, question: Question) -> str:
        a, b = (_nearest(int(question.values[name]), unit) for name in "ab")
        return str(a + sign * b)

    return solve


_QUESTIONS: dict[str, Callable[[Item, Question], str | None]] = {
    "about-sum-hundreds": _about(1, 100),
    "about-difference": _about(-1, 10),
}
