"""A picture's parameters by type."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

if TYPE_CHECKING:
    from dayleaf.items.model import Figure, Item


def _param(item: Item, name: str, default: object) -> object:
    return item.figure.params.get(name, default) if item.figure else default


def number(item: Item, name: str) -> int:
    """A whole number; 0 where it is left out."""
    return cast("int", _param(item, name, 0))


def word(item: Item, name: str) -> str:
    """A code; empty where it is left out."""
    return cast("str", _param(item, name, ""))


def numbers(item: Item, name: str) -> tuple[int, ...]:
    """Whole numbers; none where they are left out."""
    return cast("tuple[int, ...]", _param(item, name, ()))


def words(item: Item, name: str) -> tuple[str, ...]:
    """Codes; none where they are left out."""
    return cast("tuple[str, ...]", _param(item, name, ()))


def steps_of(figure: Figure) -> tuple[str, ...]:
    """The cards of a program."""
    return cast("tuple[str, ...]", figure.params["steps"])
