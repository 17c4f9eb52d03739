"""Questions about hundreds and thousands, tables and lines, answered from their values and pictures."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from dayleaf.items.model import Gap, Question, Row

if TYPE_CHECKING:
    from collections.abc import Callable

    from dayleaf.items.model import Item


def large_question_answer(item: Item) -> str | None:
    """The answer of a question this module knows, or of a comparison to judge; None for other items."""
    prompt = item.prompt
    if isinstance(prompt, Question) and prompt.code in _SOLVERS:
        return _SOLVERS[prompt.code](item, prompt)
    if isinstance(prompt, Question) and prompt.code == "how-many-in-all" and _has_hundreds(item):
        return str(_blocks(item))
    if isinstance(prompt, Question) and prompt.code == "how-many-in-all" and _shows_counters(item):
        return str(len("x" * _number(item, "a") + "x" * _number(item, "n")))
    if isinstance(prompt, Row) and item.parts[0].kind == "choice" and {"<", ">"} & set(map(str, prompt.tokens)):
        return _judged(prompt)
    if isinstance(prompt, Row) and item.format == "expanded" and len(item.parts) > 2:
        return _expanded(prompt)
    return None


def _number(item: Item, name: str) -> int:
    value = item.figure.params.get(name, 0) if item.figure else 0
    return value if isinstance(value, int) else 0


def _has_hundreds(item: Item) -> bool:
    return _number(item, "h") > 0 or _number(item, "th") > 0


def _shows_counters(item: Item) -> bool:
    return item.figure is not None and item.figure.kind in {"ten-frame", "counters"}


def _blocks(item: Item) -> int:
    """Each piece laid out in small cubes."""
    return sum(_number(item, piece) * len("x" * worth) for piece, worth in _WORTH.items())


_WORTH = {"th": 1000, "h": 100, "t": 10, "o": 1}


def _judged(row: Row) -> str | None:
    """Two numbers of any length compared as text filled up with zeros."""
    first, sign, second = (str(token).rjust(6, "0") for token in row.tokens)
    shown = sign[-1]
    right = "<" if first < second else ">" if first > second else "="
    return "true" if shown == right else "not-true"


def _expanded(row: Row) -> str:
    """Zeros after each digit, as far as it has a gap, of the number before the equals sign."""
    text = str(row.tokens[0])
    filled = [str(int(digit + "0" * (len(text) - place))) for place, digit in enumerate(text, start=1)]
    return " ".join(filled[: sum(isinstance(token, Gap) for token in row.tokens)])


def _spelled(_: Item, question: Question) -> str:
    return " ".join(str(question.values["n"]))


def _told(_: Item, question: Question) -> str:
    return " ".join(str(question.values[name]) for name in ("hundreds", "tens", "ones"))


def _in_pieces(worth: int) -> Callable[[Item, Question], str]:
    return lambda item, _: str(_blocks(item) // worth)


def _nearest(unit: int) -> Callable[[Item, Question], str]:
    def solve(_: Item, question: Question) -> str:
        n = int(question.values["n"])
        return str(min(range(0, 1101, unit), key=lambda multiple: (abs(multiple - n), -multiple)))

    return solve


def _changed(sign: int) -> Callable[[Item, Question], str]:
    return lambda _, question: str(int(question.values["n"]) - -sign * int(question.values["by"]))


def _gap(item: Item, _: Question) -> str | None:
    """The empty cell of a row in equal steps."""
    cells = item.figure.params["cells"] if item.figure else ()
    texts = [str(cell) for cell in cells] if isinstance(cells, tuple) else []
    known = [(place, int(text)) for place, text in enumerate(texts) if text]
    (first_place, first), (last_place, last) = known[0], known[-1]
    if (last - first) % (last_place - first_place):
        return None
    by = (last - first) // (last_place - first_place)
    return str(first + (texts.index("") - first_place) * by)


def _hopped(_: Item, question: Question) -> str:
    at = int(question.values["start"])
    for _hop in range(int(question.values["hops"])):
        at -= int(question.values["by"])
    return str(at)


def _difference(_: Item, question: Question) -> str | None:
    terms = [int(value) for value in question.values.values()]
    steps = {abs(second - first) for first, second in pairwise(terms)}
    return str(steps.pop()) if len(steps) == 1 else None


_SOLVERS: dict[str, Callable[[Item, Question], str | None]] = {
    "places-of": _spelled,
    "places-told": _told,
    "how-many-tens": _in_pieces(10),
    "how-many-hundreds": _in_pieces(100),
    "which-is-named": lambda _, question: str(question.values["n"]),
    "round-to-hundred": _nearest(100),
    "nearest-hundred-on-line": _nearest(100),
    "round-to-ten": _nearest(10),
    "nearest-ten-on-line": _nearest(10),
    "more-than": _changed(1),
    "less-than": _changed(-1),
    "table-gap": _gap,
    "arrow-at": lambda item, _: str(_number(item, "arrow")),
    "hop-back": _hopped,
    "just-after": lambda _, question: str(len("x" * int(question.values["n"]) + "x")),
    "just-before": lambda _, question: str(len("x" * int(question.values["n"])) - 1),
    "rule-adds": _difference,
    "rule-takes": _difference,
}
