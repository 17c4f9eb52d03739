"""The parts of an answer said as one: 3:45, 1/4, and all others one after another."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING, Final

from dayleaf.items.model import Gap, Row

if TYPE_CHECKING:
    from collections.abc import Sequence

    from dayleaf.items.model import Item

TIES: Final = frozenset({":", "/"})
"""Signs that make one thing of the numbers beside them."""


def joined(item: Item, said: Sequence[str]) -> str:
    """What is said of each part, in the order of the parts; a time and a fraction keep their sign."""
    found = ""
    for index, words in enumerate(said):
        found += (_tie(item, index) if found else "") + words
    return found


def _tie(item: Item, index: int) -> str:
    """What stands between a part and the one before it."""
    tokens = item.prompt.tokens if isinstance(item.prompt, Row) else ()
    before, after = item.parts[index - 1].id, item.parts[index].id
    for (left, sign), (_, right) in pairwise(pairwise(tokens)):
        if isinstance(left, Gap) and isinstance(right, Gap) and (left.part, right.part) == (before, after):
            return sign if isinstance(sign, str) and sign in TIES else ", "
    return ", "
