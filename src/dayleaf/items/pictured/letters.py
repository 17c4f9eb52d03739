"""Letters that name pictures, and an order of things that follows from the item alone."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.seeds import seed_from

if TYPE_CHECKING:
    from collections.abc import Iterable

LETTERS = "abcdefghi"


def shuffled(things: Iterable[str], *key: str | int) -> tuple[str, ...]:
    """The things in an order that follows from the key."""
    return tuple(sorted(things, key=lambda thing: seed_from(*key, thing)))
