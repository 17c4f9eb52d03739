"""Equal groups answered again: things are laid out and counted, numbers are tried until the printed line is true."""

from __future__ import annotations

from functools import lru_cache
from itertools import permutations
from typing import TYPE_CHECKING

from dayleaf.items.model import Gap, Question, Row, Word

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from dayleaf.items.model import Figure, Item, Token

LARGEST = 1000
"""No answer of these skills is larger."""


def groups_answer(item: Item) -> str | None:
    """The answer of a line with × or ÷, of an array, or of a question about groups; None for anything else."""
    if isinstance(item.prompt, Question):
        solve = _QUESTIONS.get(item.prompt.code)
        return solve(item, {name: int(value) for name, value in item.prompt.values.items()}) if solve else None
    if not isinstance(item.prompt, Row):
        return None
    tokens = item.prompt.tokens
    if any(isinstance(token, Word) and token.code == "rows-of" for token in tokens):
        rows, columns = _sides(item.figure)
        return f"{rows} {columns} {_counted(rows, columns)}"
    if {"×", "÷"} & {token for token in tokens if isinstance(token, str)}:
        return _line(item, [token for token in tokens if not isinstance(token, Word)])
    return None


def _param(figure: Figure | None, name: str) -> int:
    value = figure.params.get(name, 0) if figure else 0
    return value if isinstance(value, int) else 0


def _sides(figure: Figure | None) -> tuple[int, int]:
    return _param(figure, "r"), _param(figure, "c")


def _counted(rows: int, columns: int) -> int:
    """Everything in so many rows, one after another."""
    return sum(1 for _row in range(rows) for _column in range(columns))


# lines


def _line(item: Item, tokens: Sequence[Token]) -> str | None:
    clauses = _clauses(tokens)
    gaps = [token.part for token in tokens if isinstance(token, Gap)]
    if not gaps:
        return "true" if _true(clauses[0], {}) else "not-true"
    if len(gaps) == 1:
        return _only(tuple(clauses[-1]), gaps[0])
    if len(clauses) > 2:  # the numbers of a family are given; two of them are to be put in their places
        given = [clause[0] for clause in clauses[:-1] if isinstance(clause[0], int)]
        fitting = {pair for pair in permutations(given, 2) if _true(clauses[-1], dict(zip(gaps, pair, strict=True)))}
        return " ".join(str(n) for n in fitting.pop()) if len(fitting) == 1 else None
    rows, columns = _sides(item.figure)
    filled = dict(zip(gaps, (rows, columns, _counted(rows, columns)), strict=True))
    return " ".join(str(n) for n in filled.values()) if _true(clauses[0], filled) else None


@lru_cache(maxsize=4096)
def _only(clause: tuple[Token, ...], gap: str) -> str | None:
    """The one number that makes the line true; remembered, because the facts are few and come often."""
    found = [n for n in range(LARGEST + 1) if _true(clause, {gap: n})]
    return str(found[0]) if len(found) == 1 else None


def _clauses(tokens: Sequence[Token]) -> list[list[Token]]:
    clauses: list[list[Token]] = [[]]
    for piece in tokens:
        if piece == ",":
            clauses.append([])
        else:
            clauses[-1].append(piece)
    return clauses


def _true(clause: Sequence[Token], filled: Mapping[str, int]) -> bool:
    """Whether both sides are worth the same; a division by a gap filled with 0 is not true."""
    middle = clause.index("=")
    (above, below), (other_above, other_below) = (
        _worth(side, filled) for side in (clause[:middle], clause[middle + 1 :])
    )
    return bool(below and other_below) and above * other_below == other_above * below


def _worth(side: Sequence[Token], filled: Mapping[str, int]) -> tuple[int, int]:
    """One side as an exact fraction, numerator and denominator, × and ÷ before +; the denominator is 0 for n ÷ 0."""
    total, under, product, below, sign = 0, 1, 0, 1, "+"
    for token in side:
        if isinstance(token, str):
            sign = token
            continue
        n = filled[token.part] if isinstance(token, Gap) else int(str(token))
        if sign == "×":
            product *= n
        elif sign == "÷":
            below *= n
        else:
            total, under = total * below + product * under, under * below
            product, below = n, 1
    return total * below + product * under, under * below


# questions


def _rings(figure: Figure | None) -> list[int]:
    """How many things lie in each ring."""
    sizes = figure.params.get("sizes", ()) if figure else ()
    if isinstance(sizes, tuple) and sizes:
        return [int(size) for size in sizes]
    return [_param(figure, "size")] * _param(figure, "groups")


def _in_all(item: Item, _: Mapping[str, int]) -> str:
    return str(sum(_rings(item.figure)))


def _which(item: Item, asked: Mapping[str, int]) -> str | None:
    wanted = [asked["size"]] * asked["groups"]
    fitting = [option.code for option in item.parts[0].options if _rings(option.figure) == wanted]
    return fitting[0] if len(fitting) == 1 else None


def _drawn(first: str, second: str) -> Callable[[Item, Mapping[str, int]], str]:
    return lambda _item, asked: str(_counted(asked[first], asked[second]))


def _dealt(things: int, hands: int) -> tuple[int, int]:
    """What each hand holds after full rounds of one for each, and what is left."""
    rounds = 0
    while things >= hands:
        things -= hands
        rounds += 1
    return rounds, things


def _times_taken(things: int, by: int) -> str | None:
    rounds, left = _dealt(things, by)
    return str(rounds) if left == 0 else None


def _left_over(_item: Item, asked: Mapping[str, int]) -> str:
    each, left = _dealt(asked["n"], asked["groups"])
    return f"{each} {left}"


_QUESTIONS: Mapping[str, Callable[[Item, Mapping[str, int]], str | None]] = {
    "groups-in-all": _in_all,
    "which-groups": _which,
    "draw-groups": _drawn("groups", "size"),
    "draw-array": _drawn("rows", "columns"),
    "take-again": lambda _item, asked: _times_taken(asked["n"], asked["by"]),
    "draw-share": lambda _item, asked: _times_taken(asked["n"], asked["groups"]),
    "draw-grouping": lambda _item, asked: _times_taken(asked["n"], asked["size"]),
    "draw-share-left": _left_over,
}
