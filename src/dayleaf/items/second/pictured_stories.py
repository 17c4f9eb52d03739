"""Stories answered again: the same things counted in two ways, and the number that makes both counts equal."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.items.model import Story

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from dayleaf.items.model import Item

_APART: Mapping[str, Callable[[Mapping[str, int], int], int]] = {
    # there are some, more come, so many there are then
    "add-to-result": lambda told, x: x - told["start"] - told["change"],
    "add-to-change": lambda told, x: told["result"] - x - told["start"],
    "add-to-start": lambda told, x: told["result"] - told["change"] - x,
    # there are some, some go, so many are left
    "take-from-result": lambda told, x: x + told["change"] - told["start"],
    "take-from-change": lambda told, x: told["result"] + x - told["start"],
    "take-from-start": lambda told, x: x - told["result"] - told["change"],
    # two or three parts are the whole
    "put-together-total": lambda told, x: x - told["b"] - told["a"],
    "put-together-addend": lambda told, x: x + told["a"] - told["total"],
    "put-together-three": lambda told, x: x - told["a"] - told["b"] - told["c"],
    # one has so many more than the other
    "compare-difference-more": lambda told, x: told["smaller"] + x - told["bigger"],
    "compare-difference-fewer": lambda told, x: told["bigger"] - x - told["smaller"],
    "compare-bigger-more": lambda told, x: x - told["smaller"] - told["difference"],
    "compare-bigger-fewer": lambda told, x: x - told["difference"] - told["smaller"],
    "compare-smaller-fewer": lambda told, x: told["bigger"] - x - told["difference"],
    "compare-smaller-more": lambda told, x: x + told["difference"] - told["bigger"],
}
"""How far apart two counts of the same things are if x is the number asked for; 0 where the story is true."""


def story_answer(item: Item) -> str | None:
    """The only number that fits the story; None where the item tells none or the number is not alone."""
    if not isinstance(item.prompt, Story) or item.prompt.cell not in _APART:
        return None
    apart, told = _APART[item.prompt.cell], item.prompt.values
    start = apart(told, 0)
    x = abs(start)  # each thing more moves the two counts by one
    return str(x) if apart(told, 1) != start and apart(told, x) == 0 else None
