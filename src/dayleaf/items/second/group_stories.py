"""Stories about equal groups answered again: the things of the story are laid out one by one."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.items.model import Story

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from dayleaf.items.model import Item


def _laid_out(groups: int, size: int) -> int:
    return len([0] * groups * size)


def _hands(total: int, hands: int) -> list[int]:
    """What each hand holds when full rounds are dealt, one thing a hand."""
    held = [0] * hands
    while sum(held) + hands <= total:
        held = [one + 1 for one in held]
    return held


def _each(total: int, hands: int) -> int:
    return _hands(total, hands)[0]


def _left(total: int, hands: int) -> int:
    return total - sum(_hands(total, hands))


_ANSWERS: Mapping[str, Callable[[Mapping[str, int]], int]] = {
    "groups-product": lambda told: _laid_out(told["groups"], told["size"]),
    "array-product": lambda told: _laid_out(told["rows"], told["columns"]),
    "groups-size": lambda told: _each(told["total"], told["groups"]),
    "groups-number": lambda told: len(range(0, told["total"], told["size"])),
    "array-columns": lambda told: _each(told["total"], told["rows"]),
    "array-rows": lambda told: len(range(0, told["total"], told["columns"])),
    "left-each": lambda told: _each(told["total"], told["groups"]),
    "left-over": lambda told: _left(told["total"], told["groups"]),
    "share-half": lambda told: _each(told["total"], 2),
    "share-third": lambda told: _each(told["total"], 3),
    "share-fourth": lambda told: _each(told["total"], 4),
}


def group_story_answer(item: Item) -> str | None:
    """The number asked for, or the option that comes to it; None where the item tells no such story."""
    if not isinstance(item.prompt, Story) or item.prompt.cell not in _ANSWERS:
        return None
    answer = _ANSWERS[item.prompt.cell](item.prompt.values)
    part = item.parts[0]
    if part.kind != "choice":
        return str(answer)
    fitting = [option.code for option in part.options if _comes_to(option.code) == answer]
    return fitting[0] if len(fitting) == 1 else None


def _comes_to(code: str) -> int | None:
    for sign in "+×÷":
        first, found, second = code.partition(sign)
        if found:
            a, b = int(first), int(second)
            if sign == "+":
                return a + b
            return _laid_out(a, b) if sign == "×" else _each(a, b) if a % b == 0 else None
    return None
