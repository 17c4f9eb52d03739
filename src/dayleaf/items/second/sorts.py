"""Things to sort, each looked at by itself: which of the groups does it belong to?"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from dayleaf.items.model import Figure, Question, Row, Sort, Word
from dayleaf.items.second.daily_time import time_answer
from dayleaf.items.second.pictured import pictured_answer
from dayleaf.items.second.polygons import has_square_corner, is_of_kind, name_by_sides

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from dayleaf.items.model import Item

_NONE = "none-of-these"
_GROUPED: Mapping[str, Callable[[int], bool]] = {
    "even": lambda n: n % 2 == 0,
    "odd": lambda n: n % 2 == 1,
    "go-right": lambda n: n % 2 == 0,
    "go-up": lambda n: n % 2 == 1,
}


def sorted_answer(item: Item) -> str | None:
    """The group of every thing in order; None for anything that is no sort, or where a thing has no plain group."""
    if not isinstance(item.prompt, Sort):
        return None
    groups = item.prompt.groups
    found = [_drawn(item, one, groups) if isinstance(one, Figure) else _told(item, one) for one in item.prompt.things]
    return None if any(group not in groups for group in found) else " ".join(str(group) for group in found)


def _told(item: Item, row: Row) -> str | None:
    """A number by what it is, a thing to measure by its tool or unit, what happens by its half of the day."""
    match row.tokens:
        case (int(n),) if isinstance(item.prompt, Sort):
            return next((name for name, fits in _GROUPED.items() if name in item.prompt.groups and fits(n)), None)
        case (Word(code=code),) if code.startswith("daily-"):
            return time_answer(_asked(item, "am-or-pm", what=code.removeprefix("daily-")))
        case (Word(code=code),) if code.startswith("thing-") and isinstance(item.prompt, Sort):
            asked = "choose-unit" if "cm" in item.prompt.groups else "choose-tool"
            return pictured_answer(_asked(item, asked, thing=code.removeprefix("thing-")))
    return None


def _asked(item: Item, question: str, **values: str) -> Item:
    return replace(item, prompt=Question(question, values), figure=None)


def _drawn(item: Item, figure: Figure, groups: tuple[str, ...]) -> str | None:
    if figure.kind == "fraction-shapes":
        return "yes" if figure.params["equal"] else "no"
    if figure.kind == "solids-3d":
        return _among(_first(figure, "solids"), groups)
    if "lines" in figure.params:
        return pictured_answer(replace(item, prompt=Question("fold-matches"), figure=figure))
    return _flat(item, figure, groups)


def _flat(item: Item, figure: Figure, groups: tuple[str, ...]) -> str | None:
    """A flat shape by its corners: has it a square one, is it of a kind, what is it called?"""
    shape = _first(figure, "shapes")
    if groups == ("yes", "no"):
        return "yes" if has_square_corner(shape) else "no"
    if f"not-{groups[0]}" in groups:
        return groups[0] if is_of_kind(shape, groups[0]) else f"not-{groups[0]}"
    if {"quadrilateral", "pentagon"} & set(groups) or _NONE not in groups:
        return _among(name_by_sides(shape, by_kind=False), groups)
    return _among(pictured_answer(replace(item, prompt=Question("name-shape"), figure=figure)), groups)


def _first(figure: Figure, name: str) -> str:
    told = figure.params[name]
    return str(told[0]) if isinstance(told, tuple) else str(told)


def _among(name: str | None, groups: tuple[str, ...]) -> str | None:
    return name if name in groups else _NONE
