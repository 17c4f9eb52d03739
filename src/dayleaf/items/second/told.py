"""Items built, told, ringed, drawn and measured, answered again: things laid down and counted one by one."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.items.model import Question, Row, Story, Word
from dayleaf.items.second.pictured_params import number, numbers, word, words

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from dayleaf.items.model import Item

_LETTERS = "ABCDEFGHIJ"
_AHEAD: Mapping[str, complex] = {"right": 1, "left": -1, "up": 1j, "down": -1j}
_EULER: Mapping[str, tuple[int, int]] = {"cube": (12, 8), "box": (12, 8), "pyramid": (8, 5)}
"""Edges and corners; with 6, 6 and 5 faces each has corners − edges + faces = 2 (Euler)."""

_LOOKED_AT = frozenset(
    {
        "build-number", "build-count", "build-rows", "build-trains-short", "build-trains-long", "build-hold",
        "build-fill", "build-pieces", "draw-shape-large", "draw-shape-small", "draw-shape-turned", "draw-fold-line",
        "draw-level", "draw-graph", "draw-plot", "measure-at-home",
    }
)  # fmt: skip


def told_answer(item: Item) -> str | None:
    """The answer of an item that is built, told, ringed, drawn or measured; None for others."""
    prompt = item.prompt
    if isinstance(prompt, Story):
        return "" if [part.kind for part in item.parts] == ["look"] else None
    if isinstance(prompt, Row):
        return _row(item, prompt)
    if not isinstance(prompt, Question):
        return None
    if prompt.code in _LOOKED_AT or (prompt.code.startswith("why-") and not item.parts[0].options):
        return ""
    solve = _QUESTIONS.get(prompt.code)
    return solve(item, prompt) if solve else None


def _at(square: str) -> complex:
    return complex(_LETTERS.index(square[0]) + 1, int(square[1:]))


def _row(item: Item, row: Row) -> str | None:
    codes = [token.code for token in row.tokens if isinstance(token, Word)]
    if "all-round" in codes:
        a, b = (length // 10 for length in numbers(item, "lengths"))
        return f"{a} {b} {sum((a, b, a, b))}"
    if codes and all(code.startswith("go-") for code in codes):
        stop = _at((words(item, "path") or words(item, "places"))[-1])
        way = stop - _at(word(item, "start"))
        parts = {"right": way.real, "left": -way.real, "up": way.imag, "down": -way.imag}
        return " ".join(str(round(parts[code.removeprefix("go-")])) for code in codes)
    single = item.figure is not None and item.figure.kind == "objects-line" and len(numbers(item, "lengths")) == 1
    if codes == ["cm"] and single and not numbers(item, "units"):
        return str(sum(1 for _ in range(0, numbers(item, "lengths")[0], 10)))
    return None


def _told(question: Question, name: str) -> int:
    return int(question.values[name])


def _heap(*sizes: int) -> int:
    return sum(1 for size in sizes for _ in range(size))


def _put_together(_: Item, question: Question) -> str:
    return str(_heap(_told(question, "a"), _told(question, "b")))


def _taken(_: Item, question: Question) -> str:
    return str(len(range(_told(question, "b"), _told(question, "a"))))


def _parity(_: Item, question: Question) -> str:
    alone = _told(question, "n")
    while alone > 1:
        alone -= 2
    return "odd" if alone else "even"


def _dealt(total: int, groups: int) -> str | None:
    rounds = 0
    while total >= groups:
        total, rounds = total - groups, rounds + 1
    return None if total else str(rounds)


def _shares(_: Item, question: Question) -> str | None:
    return _dealt(_told(question, "n"), _told(question, "groups"))


def _groups_of(_: Item, question: Question) -> str | None:
    return _dealt(_told(question, "n"), _told(question, "size"))


def _renamed(by: int) -> Callable[[Item, Question], str]:
    """One ten made (1) or opened (−1), every block counted again."""

    def solve(_: Item, question: Question) -> str:
        tens = _told(question, "tens") + by
        blocks = _heap(*([10] * _told(question, "tens")), _told(question, "ones"))
        return f"{tens} {blocks - _heap(*([10] * tens))}"

    return solve


def _ones_beside(_: Item, question: Question) -> str:
    return str(len(range(_heap(*([10] * _told(question, "tens"))), _told(question, "n"))))


def _tens_only(_: Item, question: Question) -> str:
    left, tens = _told(question, "n"), 0
    while left >= 10:
        left, tens = left - 10, tens + 1
    return str(tens)


def _of_size(size: int) -> Callable[[Item, Question], str]:
    return lambda _, question: str(_heap(*([size] * _told(question, "n"))))


def _solid(_: Item, question: Question) -> str:
    edges, corners = _EULER[str(question.values["solid"])]
    return f"{edges} {corners}"


def _rings_of_ten(item: Item, _: Question) -> str:
    dots = _heap(*([number(item, "size")] * number(item, "groups")), number(item, "extra"))
    rings = 0
    while dots >= 10:
        dots, rings = dots - 10, rings + 1
    return f"{rings} {dots}"


def _compared(_: Item, question: Question) -> str | None:
    a, b = _told(question, "a"), _told(question, "b")
    if question.code.endswith("both"):
        return str(_heap(a, b))
    more, fewer = (a, b) if question.code.endswith("more") else (b, a)
    return str(len(range(fewer, more))) if more > fewer else None


def _spaces(item: Item, _: Question) -> str:
    return str(sum(1 for _ in range(number(item, "start"), number(item, "end"))))


def _walked(item: Item, question: Question) -> str:
    here = _at(dict(zip(words(item, "things"), words(item, "places"), strict=True))[str(question.values["thing"])])
    for way, steps in (("first", "n"), ("second", "m")):
        here += _AHEAD[str(question.values[way])] * _told(question, steps)
    return f"{_LETTERS[round(here.real) - 1]}{round(here.imag)}"


_QUESTIONS: Mapping[str, Callable[[Item, Question], str | None]] = {
    "build-add": _put_together,
    "build-take": _taken,
    "build-pairs": _parity,
    "build-share": _shares,
    "build-compare": lambda _, question: str(max(_told(question, "a"), _told(question, "b"))),
    "build-trade": _renamed(1),
    "build-open": _renamed(-1),
    "build-with-tens": _ones_beside,
    "build-tens-only": _tens_only,
    "build-tens": _of_size(10),
    "build-hundreds": _of_size(100),
    "build-cups": _of_size(2),
    "build-solid": _solid,
    "ring-groups-of": _groups_of,
    "ring-shares": _shares,
    "ring-tens": _rings_of_ten,
    "told-how-many-more": _compared,
    "told-how-many-fewer": _compared,
    "told-how-many-both": _compared,
    "guess-then-measure-cm": _spaces,
    "path-from": _walked,
}
