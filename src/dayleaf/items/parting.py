"""A few items that tell as many ways apart as can be told apart."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

    from dayleaf.core.ids import ErrorWayId
    from dayleaf.items.model import Item

    Pair = tuple[ErrorWayId | None, ErrorWayId | None]
    """Two hypotheses about the child; None is the one who does it right."""


@dataclass(frozen=True, slots=True)
class Parting:
    """The items chosen, and the pairs of hypotheses to which they all get the same answers."""

    items: tuple[Item, ...]
    unparted: tuple[Pair, ...]


def parting_items(pool: Iterable[Item], *, most: int) -> Parting:
    """Up to `most` items of the pool, taken greedily: next the one that parts most pairs not parted so far.

    Fewer come where no item parts any further pair. A way that gives no answer to an item is not parted by it.
    """
    items = tuple(pool)
    ways: tuple[ErrorWayId | None, ...] = (None, *dict.fromkeys(way for item in items for way in item.errors))
    pairs = tuple(combinations(ways, 2))
    masks = [_mask(item, pairs) for item in items]
    left = (1 << len(pairs)) - 1
    chosen: list[Item] = []
    while left and len(chosen) < most and items:
        best = max(range(len(items)), key=lambda place: (masks[place] & left).bit_count())
        if not masks[best] & left:
            break
        chosen.append(items[best])
        left &= ~masks[best]
    return Parting(tuple(chosen), tuple(pair for bit, pair in enumerate(pairs) if left >> bit & 1))


def _mask(item: Item, pairs: tuple[Pair, ...]) -> int:
    """One bit for each pair that gets two different answers."""
    answers: dict[ErrorWayId | None, str] = {None: item.answer}
    answers.update(item.errors.items())
    mask = 0
    for bit, (one, other) in enumerate(pairs):
        first, second = answers.get(one), answers.get(other)
        if first is not None and second is not None and first != second:
            mask |= 1 << bit
    return mask
