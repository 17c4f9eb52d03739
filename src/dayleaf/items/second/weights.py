"""Scales climbed mark by mark, capacities counted in cups, line plots counted stick by stick."""

from __future__ import annotations

from statistics import mode
from typing import TYPE_CHECKING

from dayleaf.items.model import Gap, Question, Row, Word
from dayleaf.items.second.pictured_params import number, numbers, words

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from dayleaf.items.model import Item

_CUPS: Mapping[str, int] = {"cups": 1, "pints": 2, "quarts": 4, "gallons": 16}
"""NIST Handbook 44, Appendix C: 8, 16, 32 and 128 fluid ounces."""

_UNITS = frozenset({"ounces", "pounds", "grams", "kilograms", "milliliters", "liters"})
_ON_SCALES = frozenset({"kg", "g", "lb", "mL", "L"})

_LIGHT = frozenset({"bread-slice", "one-egg", "an-apple", "letter-paper", "spoon", "a-mouse", "paper-clip"})
_SMALL = frozenset({"spoonful", "drinking-glass", "small-cup", "egg-shell", "jam-jar"})
_LARGE_BUT_LIGHT = frozenset({"pillow", "balloon", "hat", "paper-bag"})


def weight_answer(item: Item) -> str | None:
    """The answer for items about weights and capacities; None for others."""
    prompt = item.prompt
    if isinstance(prompt, Row):
        return _row(item, prompt)
    if not isinstance(prompt, Question):
        return None
    options = [option.code for part in item.parts for option in part.options]
    if prompt.code == "unit-for" or prompt.code.startswith("about-"):
        return _fitting(str(prompt.values.get("thing", "")), options)
    answer = _COMPARED.get(prompt.code)
    return answer(item, prompt) if answer else None


def _fitting(thing: str, options: Sequence[str]) -> str | None:
    by_size = {"milliliters": thing in _SMALL, "liters": thing not in _SMALL}
    by_weight = {code: (thing in _LIGHT) == (code in ("ounces", "grams")) for code in options}
    fitting = [code for code in options if by_size.get(code, by_weight[code])]
    return fitting[0] if len(fitting) == 1 and set(options) <= _UNITS else None


def _heavier(item: Item, _: Question) -> str:
    if item.figure is None:
        return next(option.code for option in item.parts[0].options if option.code not in _LARGE_BUT_LIGHT)
    return words(item, "names")[0 if number(item, "left") > number(item, "right") else 1]


def _pints_or_quarts(item: Item, _: Question) -> str:
    return max((option.code for option in item.parts[0].options), key=lambda code: _CUPS[code])


def _tall_or_wide(_: Item, question: Question) -> str:
    return "tall-jar" if int(question.values["a"]) > int(question.values["b"]) else "wide-jar"


def _sticks(item: Item) -> list[int]:
    """Every stick of a line plot by its length."""
    return [number(item, "lo") + k for k, count in enumerate(numbers(item, "data")) for _ in range(count)]


def _this_long(item: Item, question: Question) -> str:
    return str(_sticks(item).count(int(question.values["n"])))


def _most_often(item: Item, _: Question) -> str:
    return str(mode(_sticks(item)))


_COMPARED: Mapping[str, Callable[[Item, Question], str]] = {
    "which-heavier": _heavier,
    "pints-or-quarts": _pints_or_quarts,
    "tall-or-wide": _tall_or_wide,
    "sticks-this-long": _this_long,
    "most-often": _most_often,
}


def _row(item: Item, row: Row) -> str | None:
    codes = [token.code for token in row.tokens if isinstance(token, Word)]
    if set(codes) <= _ON_SCALES and len(codes) == 1 and item.figure is not None:
        wanted = number(item, "arrow") if item.figure.kind == "number-line" else number(item, "level")
        reached = 0
        while reached < wanted:
            reached += number(item, "step")
        return str(reached)
    if item.figure is None and codes and set(codes) <= _CUPS.keys():
        told = next(token for token in row.tokens if isinstance(token, int))
        gaps = sum(isinstance(token, Gap) for token in row.tokens)
        cups = told * _CUPS[codes[0]]
        return " ".join(str(cups // _CUPS[code]) for code in codes[-gaps:])
    if codes and all(code.endswith("-jar") for code in codes):
        counts = numbers(item, "counts")
        return " ".join(str(sum(other <= count for other in counts)) for count in counts)
    return None
