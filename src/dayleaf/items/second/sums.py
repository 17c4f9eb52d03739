"""Rows and columns answered by looking for the numbers that make the printed sum true."""

from __future__ import annotations

from itertools import pairwise, permutations, product
from operator import mul
from typing import TYPE_CHECKING

from dayleaf.items.model import Column, Gap, Row, Word

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from dayleaf.items.model import Item, Token

LARGEST = 1000
"""No answer of these skills is larger."""

_WORTH = {"tens": 10, "ones": 1}


def sum_answer(item: Item) -> str | None:
    """The answer of a row or column of numbers; None for anything else."""
    if isinstance(item.prompt, Column):
        return _column(item.prompt)
    if isinstance(item.prompt, Row) and _is_sum(item.prompt.tokens):
        return _row(item, item.prompt.tokens)
    return None


def _is_sum(tokens: Sequence[Token]) -> bool:
    """Numbers, signs, gaps and the words tens and ones; a number's name counts as a number."""
    known = {*_WORTH, "number-name"}
    numerals = any(
        isinstance(token, int) or (isinstance(token, Word) and token.code == "number-name") for token in tokens
    )
    return numerals and all(token.code in known for token in tokens if isinstance(token, Word))


def _row(item: Item, tokens: Sequence[Token]) -> str | None:
    part = item.parts[0]
    clauses = list(_clauses(tokens))
    if part.kind == "compare":
        return _compared(tokens)
    if part.kind == "choice":
        return _chosen(item, clauses[0])
    if "=" not in tokens:
        return _next_term(tokens)
    gaps = [token.part for token in tokens if isinstance(token, Gap)]
    if len(gaps) == 1:
        open_clause = next(clause for clause in clauses if _has_gap(clause))
        return _filled(open_clause, gaps[0])
    return _two_gaps(item, clauses, gaps)


def _filled(clause: Sequence[Token], gap: str) -> str | None:
    """The number that makes the line true.

    Numbers in the gap move one side against the other by equal steps, so two of them show where both are level; there
    the line is read once more.
    """
    middle = clause.index("=")

    def apart(n: int) -> int:
        return _value(clause[:middle], {gap: n}) - _value(clause[middle + 1 :], {gap: n})

    start = apart(0)
    step = apart(1) - start
    n = -start // step if step else -1
    return str(n) if n >= 0 and _true(clause, {gap: n}) else None


def _has_gap(clause: Sequence[Token]) -> bool:
    return any(isinstance(token, Gap) for token in clause)


def _clauses(tokens: Sequence[Token]) -> Iterator[tuple[Token, ...]]:
    clause: list[Token] = []
    for sign in (*tokens, ","):
        if sign == ",":
            yield tuple(clause)
            clause = []
        else:
            clause.append(sign)


def _value(side: Sequence[Token], filled: Mapping[str, int]) -> int:
    """Worth of one side, from left to right; numbers followed by tens or ones stand for a sum of places."""
    total, sign, number = 0, 1, 0
    for token in side:
        if isinstance(token, Gap):
            number = filled[token.part]
        elif isinstance(token, int):
            number = token
        elif isinstance(token, Word) and token.code in _WORTH:
            total += sign * number * _WORTH[token.code]
            number = 0
        elif isinstance(token, Word):
            number = token.count or 0
        else:
            total += sign * number
            sign, number = {"+": 1, "-": -1}[token], 0
    return total + sign * number


def _true(clause: Sequence[Token], filled: Mapping[str, int]) -> bool:
    middle = clause.index("=")
    return _value(clause[:middle], filled) == _value(clause[middle + 1 :], filled)


def _compared(tokens: Sequence[Token]) -> str:
    middle = next(place for place, token in enumerate(tokens) if isinstance(token, Gap))
    difference = _value(tokens[:middle], {}) - _value(tokens[middle + 1 :], {})
    return "=" if difference == 0 else "><"[difference < 0]


def _chosen(item: Item, clause: Sequence[Token]) -> str | None:
    """The sign that makes the sum true, or whether the sum is true."""
    if not _has_gap(clause):
        return "true" if _true(clause, {}) else "not-true"
    fitting = [
        option.code
        for option in item.parts[0].options
        if _true(tuple(option.code if isinstance(token, Gap) else token for token in clause), {})
    ]
    return fitting[0] if len(fitting) == 1 else None


def _next_term(tokens: Sequence[Token]) -> str | None:
    """A pattern of equal steps goes on."""
    terms = [token for token in tokens if isinstance(token, int)]
    steps = {second - first for first, second in pairwise(terms)}
    if len(steps) != 1:
        return None
    return str(terms[-1] + steps.pop())


def _two_gaps(item: Item, clauses: Sequence[tuple[Token, ...]], gaps: Sequence[str]) -> str | None:
    """Two numbers are asked: two of those given, the two places, two equal ones, or what a check comes back to."""
    tried: Iterable[tuple[int, int]]
    if len(clauses) > 2:
        given = [clause[0] for clause in clauses[:-1] if isinstance(clause[0], int)]
        tried = permutations(given, 2)
    elif len(clauses) == 2:
        start, taken = clauses[0][0], clauses[0][2]
        tried = [(taken, start)] if isinstance(start, int) and isinstance(taken, int) else []
    elif item.format == "expanded":
        tried = product(range(10, 100, 10), range(10))
    else:
        tried = ((number, number) for number in range(LARGEST))
    solutions = {pair for pair in tried if _true(clauses[-1], dict(zip(gaps, pair, strict=True)))}
    return " ".join(str(number) for number in solutions.pop()) if len(solutions) == 1 else None


def _column(column: Column) -> str | None:
    if column.hidden:
        return _puzzle(column)
    first, *others = column.rows
    if column.sign == "+":
        return next((str(n) for n in range(LARGEST) if n - sum(others) == first), None)
    return next((str(n) for n in range(LARGEST) if n + sum(others) == first), None)


def _puzzle(column: Column) -> str | None:
    """Every filling of the hidden digits but one is tried, the last digit follows; exactly one may be true."""
    if column.shown is None:
        return None
    lines = [list(str(number)) for number in (*column.rows, column.shown)]
    last = 1 if column.sign == "+" else -1
    signs = (1, *(last for _ in column.rows[1:]), -1)
    for row, place in column.hidden:
        lines[row][-1 - place] = "0"
    known = sum(sign * int("".join(line)) for sign, line in zip(signs, lines, strict=True))
    *worths, closing = (signs[row] * 10**place for row, place in column.hidden)
    found: list[tuple[int, ...]] = []
    for digits in product(range(10), repeat=len(worths)):
        left = -known - sum(map(mul, worths, digits))
        if left % closing == 0 and 0 <= left // closing <= 9:
            found.append((*digits, left // closing))
    full = [digits for digits in found if not _padded(lines, column.hidden, digits)]
    return " ".join(map(str, full[0])) if len(full) == 1 else None


def _padded(lines: Sequence[Sequence[str]], hidden: Sequence[tuple[int, int]], digits: Sequence[int]) -> bool:
    """Whether a number of several digits would begin with 0."""
    filled = [list(line) for line in lines]
    for (row, place), digit in zip(hidden, digits, strict=True):
        filled[row][-1 - place] = str(digit)
    return any(len(line) > 1 and line[0] == "0" for line in filled)
