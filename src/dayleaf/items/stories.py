"""Stories: a situation of the published table, who and what it is about, and the numbers it tells.

The situations are the cells of the table of addition and subtraction situations (two kinds of change, parts
and whole, comparison, each with its unknown in every place). A story holds codes and numbers only.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

from dayleaf.core.seeds import seed_from
from dayleaf.items.model import Figure, Story

if TYPE_CHECKING:
    from collections.abc import Mapping

UNKNOWN = "?"

EQUATIONS: Mapping[str, tuple[str, str, str, str]] = {
    "add-to-result": ("start", "+", "change", UNKNOWN),
    "add-to-change": ("start", "+", UNKNOWN, "result"),
    "add-to-start": (UNKNOWN, "+", "change", "result"),
    "take-from-result": ("start", "-", "change", UNKNOWN),
    "take-from-change": ("start", "-", UNKNOWN, "result"),
    "take-from-start": (UNKNOWN, "-", "change", "result"),
    "put-together-total": ("a", "+", "b", UNKNOWN),
    "put-together-addend": ("a", "+", UNKNOWN, "total"),
    "compare-difference-more": ("smaller", "+", UNKNOWN, "bigger"),
    "compare-difference-fewer": ("smaller", "+", UNKNOWN, "bigger"),
    "compare-bigger-more": ("smaller", "+", "difference", UNKNOWN),
    "compare-bigger-fewer": ("smaller", "+", "difference", UNKNOWN),
    "compare-smaller-fewer": ("bigger", "-", "difference", UNKNOWN),
    "compare-smaller-more": ("bigger", "-", "difference", UNKNOWN),
}
"""The equation that tells the same as the story, (left, sign, right, result); the way to solve it may differ."""

CUES: Mapping[str, Literal["+", "-"]] = {
    "add-to-result": "+",
    "add-to-change": "+",
    "add-to-start": "+",
    "take-from-result": "-",
    "take-from-change": "-",
    "take-from-start": "-",
    "put-together-total": "+",
    "put-together-addend": "+",
    "compare-difference-more": "+",
    "compare-difference-fewer": "-",
    "compare-bigger-more": "+",
    "compare-bigger-fewer": "-",
    "compare-smaller-fewer": "-",
    "compare-smaller-more": "+",
}
"""The sign that a single word of the story suggests: what a child does who reads no further."""

_MANY = ("apple", "bean", "brick", "button", "carrot", "radish", "seed", "shell", "stick", "stone")
_FEW = (*_MANY, "egg", "jar", "pumpkin")
_HEAPS = ("bean", "brick", "seed")
_LONG: Mapping[str, tuple[str, ...]] = {"cm": ("ribbon", "string", "plank"), "m": ("rope", "hose")}
_PEOPLE = ("child", "brother", "gran", "lock-keeper", "mother", "father")


def story(cell: str, values: Mapping[str, int], *, unit: str | None = None) -> Story:
    """A story of one situation that tells these numbers.

    Who and what it is about follows from the numbers, so that the same numbers always give the same story.
    Things that nobody has by the dozen (`pumpkin`, `jar`, `egg`) come with numbers up to 20 only, and beyond 300
    there are only things that come in heaps.
    """
    told = tuple(values.values())
    pick = seed_from("story", cell, *told)
    short = _FEW if max(told) <= 20 else _MANY if max(told) <= 300 else _HEAPS
    nouns = short if unit is None else _LONG[unit]
    first = pick % len(_PEOPLE)
    second = (first + 1 + pick // 7 % (len(_PEOPLE) - 1)) % len(_PEOPLE)
    people = (_PEOPLE[first], _PEOPLE[second]) if cell.startswith("compare") else (_PEOPLE[first],)
    return Story(cell, people, nouns[pick // 64 % len(nouns)], dict(values), unit)


def solution(cell: str, values: Mapping[str, int]) -> int:
    """The number that the story asks for."""
    left, sign, right, result = EQUATIONS[cell]
    if result == UNKNOWN:
        return values[left] + values[right] if sign == "+" else values[left] - values[right]
    if left == UNKNOWN:
        return values[result] - values[right] if sign == "+" else values[result] + values[right]
    return values[result] - values[left] if sign == "+" else values[left] - values[result]


def by_the_cue(cell: str, values: Mapping[str, int]) -> int:
    """What comes out when one word of the story alone decides between + and −."""
    a, b = values.values()
    return a + b if CUES[cell] == "+" else abs(a - b)


def whole_and_parts(cell: str, values: Mapping[str, int]) -> tuple[int, int, int, str]:
    """The whole, its two parts, and which of `whole`, `a`, `b` is asked for.

    In a comparison the bigger number is the whole, the smaller one part, the difference the other.
    """
    left, sign, right, result = EQUATIONS[cell]
    filled = {**values, UNKNOWN: solution(cell, values)}
    whole, a, b = (result, left, right) if sign == "+" else (left, right, result)
    asked = "whole" if whole == UNKNOWN else "a" if a == UNKNOWN else "b"
    return filled[whole], filled[a], filled[b], asked


def bar(told: Story) -> Figure:
    """The bar picture of a story, with an empty box where the question is."""
    whole, a, b, asked = whole_and_parts(told.cell, told.values)
    if not told.cell.startswith("compare"):
        return Figure("bar-model", {"kind": "parts", "whole": whole, "a": a, "b": b, "hidden": (asked,)})
    difference = told.cell.startswith("compare-difference")
    smaller = told.values["smaller"] if "smaller" in told.values else whole - told.values["difference"]
    hidden = "difference" if difference else "a" if asked == "whole" else "b"
    return Figure(
        "bar-model",
        {"kind": "compare", "a": whole, "b": smaller, "names": told.people, "hidden": (hidden,)},
    )
