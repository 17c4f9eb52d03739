"""Shares and areas answered again: parts and squares of the picture are counted, fractions are exact."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from dayleaf.items.model import Gap, Question, Row, Word
from dayleaf.items.second.pictured_params import number, numbers

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from dayleaf.items.model import Item

_SHARES: Mapping[str, Fraction] = {
    "one-of-2": Fraction(1, 2),
    "one-of-3": Fraction(1, 3),
    "one-of-4": Fraction(1, 4),
}


def parts_answer(item: Item) -> str | None:
    """The answer of a line with fractions or of a question about parts and squares; None for anything else."""
    if isinstance(item.prompt, Row):
        return _row(item, item.prompt)
    if not isinstance(item.prompt, Question):
        return None
    solve = _QUESTIONS.get(item.prompt.code)
    return solve(item, item.prompt.values) if solve else None


def _row(item: Item, row: Row) -> str | None:
    shares = [_SHARES[token.code] for token in row.tokens if isinstance(token, Word) and token.code in _SHARES]
    if shares:
        return " ".join(str(sorted(shares).index(share) + 1) for share in shares)
    if "/" not in row.tokens:
        return None
    match row.tokens:
        case (Gap(), "/", Gap()) if item.figure is not None and item.figure.kind == "fraction-shapes":
            return _hatched(item, {})
        case (int(a), "/", int(b), "=", Gap(), "/", int(n)):
            fitting = [x for x in range(n + 1) if Fraction(x, n) == Fraction(a, b)]
            return str(fitting[0]) if len(fitting) == 1 else None
        case (int(a), "/", int(b), Gap(), int(c), "/", int(d)):
            left, right = Fraction(a, b), Fraction(c, d)
            return "<" if left < right else ">" if left > right else "="
    return None


def _hatched(item: Item, _: Mapping[str, int | str]) -> str:
    parts = ["hatched"] * number(item, "k") + ["plain"] * (number(item, "n") - number(item, "k"))
    return f"{parts.count('hatched')} {len(parts)}"


def _which_shares(item: Item, asked: Mapping[str, int | str]) -> str | None:
    fitting = [
        option.code
        for option in item.parts[0].options
        if option.figure and option.figure.params["n"] == asked["n"] and option.figure.params["equal"]
    ]
    return fitting[0] if len(fitting) == 1 else None


def _cuts(_item: Item, asked: Mapping[str, int | str]) -> str:
    """The ends of the parts of a strip that lie inside it."""
    n = int(asked["n"])
    return str(len({Fraction(k, n) for k in range(n + 1)} - {Fraction(0), Fraction(1)}))


def _which_fraction(item: Item, _: Mapping[str, int | str]) -> str | None:
    share = Fraction(number(item, "k"), number(item, "n"))
    fitting = [option.code for option in item.parts[0].options if Fraction(option.code) == share]
    return fitting[0] if len(fitting) == 1 else None


def _make_whole(_item: Item, asked: Mapping[str, int | str]) -> str:
    covered, pieces = Fraction(0), 0
    while covered < 1:
        covered, pieces = covered + Fraction(1, int(asked["n"])), pieces + 1
    return str(pieces)


def _larger(_item: Item, asked: Mapping[str, int | str]) -> str:
    return max((str(asked["a"]), str(asked["b"])), key=Fraction)


def _is_share(item: Item, asked: Mapping[str, int | str]) -> str:
    hatched = Fraction(len(set(numbers(item, "cells"))), number(item, "r") * number(item, "c"))
    return "yes" if hatched == Fraction(1, int(asked["n"])) else "no"


def _as_much(_item: Item, asked: Mapping[str, int | str]) -> str | None:
    n, wanted = int(asked["n"]), Fraction(int(asked["k"]), int(asked["b"]))
    fitting = [x for x in range(n + 1) if Fraction(x, n) == wanted]
    return str(fitting[0]) if len(fitting) == 1 else None


def _ringed(item: Item, asked: Mapping[str, int | str]) -> str | None:
    things = number(item, "groups") * number(item, "size") + number(item, "extra")
    share = Fraction(things, int(asked["n"]))
    return str(share.numerator) if share.denominator == 1 else None


def _all_squares(item: Item, _: Mapping[str, int | str]) -> str:
    return str(sum(1 for _row in range(number(item, "r")) for _column in range(number(item, "c"))))


def _covered(item: Item, _: Mapping[str, int | str]) -> str | None:
    area = len(set(numbers(item, "cells"))) + Fraction(len(set(numbers(item, "halves"))), 2)
    return str(area) if area.denominator == 1 else None


def _drawn(_item: Item, asked: Mapping[str, int | str]) -> str:
    return str(sum([int(asked["columns"])] * int(asked["rows"])))


def _walked(_item: Item, asked: Mapping[str, int | str]) -> str:
    corners = (0, int(asked["a"]), complex(int(asked["a"]), int(asked["b"])), complex(0, int(asked["b"])))
    return str(round(sum(abs(corners[i] - corners[i - 1]) for i in range(4))))


def _look(_item: Item, _: Mapping[str, int | str]) -> str:
    return ""


_QUESTIONS: Mapping[str, Callable[[Item, Mapping[str, int | str]], str | None]] = {
    "hatched-and-all": _hatched,
    "which-shares": _which_shares,
    "cut-into": _look,
    "cuts-for": _cuts,
    "parts-equal": lambda item, _: "yes" if number(item, "equal") else "no",
    "which-fraction": _which_fraction,
    "parts-make-whole": _make_whole,
    "larger-share": _larger,
    "is-share": _is_share,
    "hatch-share": _look,
    "parts-as-much": _as_much,
    "ring-share": _ringed,
    "squares-fill": _all_squares,
    "squares-cover": _covered,
    "draw-squares": _drawn,
    "draw-rectangle": _drawn,
    "draw-area": _look,
    "walk-round": _walked,
}
