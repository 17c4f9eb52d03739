"""Stories answered again: every number is tried in the situation until it fits."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.items.model import Story

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from dayleaf.items.model import Item

_FITS: Mapping[str, Callable[[Mapping[str, int], int], bool]] = {
    # there are some, more come, so many there are then
    "add-to-result": lambda told, x: x - told["start"] == told["change"],
    "add-to-change": lambda told, x: told["result"] - x == told["start"],
    "add-to-start": lambda told, x: told["result"] - told["change"] == x,
    # there are some, some go, so many are left
    "take-from-result": lambda told, x: x + told["change"] == told["start"],
    "take-from-change": lambda told, x: told["result"] + x == told["start"],
    "take-from-start": lambda told, x: x - told["result"] == told["change"],
    # two or three parts are the whole
    "put-together-total": lambda told, x: x - told["b"] == told["a"],
    "put-together-addend": lambda told, x: x + told["a"] == told["total"],
    "put-together-three": lambda told, x: x - told["a"] - told["b"] == told["c"],
    # one has so many more than the other
    "compare-difference-more": lambda told, x: told["smaller"] + x == told["bigger"],
    "compare-difference-fewer": lambda told, x: told["bigger"] - x == told["smaller"],
    "compare-bigger-more": lambda told, x: x - told["smaller"] == told["difference"],
    "compare-bigger-fewer": lambda told, x: x - told["difference"] == told["smaller"],
    "compare-smaller-fewer": lambda told, x: told["bigger"] - x == told["difference"],
    "compare-smaller-more": lambda told, x: x + told["difference"] == told["bigger"],
}


def story_answer(item: Item) -> str | None:
    """The only number that fits the story; None where the item tells none or the number is not alone."""
    if not isinstance(item.prompt, Story) or item.prompt.cell not in _FITS:
        return None
    fits, told = _FITS[item.prompt.cell], item.prompt.values
    most = sum(told.values())  # no story asks for more than all that it tells together
    found = [x for x in range(most + 1) if fits(told, x)]
    return str(found[0]) if len(found) == 1 else None
