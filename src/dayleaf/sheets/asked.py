"""The boxes that an item asks for, before anybody knows where they stand."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from dayleaf.items.model import Column, Sort
from dayleaf.sheets.columns import lines_of_column

if TYPE_CHECKING:
    from collections.abc import Iterator

    from dayleaf.items.model import Item, Option, Part
    from dayleaf.sheets.model import BoxKind, BoxRole

LOOKED: Final = ("look-alone", "look-helped", "look-not-yet")
"""What a grown-up ticks where an answer is drawn, built or told."""


@dataclass(frozen=True, slots=True)
class Asked:
    """A box before its place is known."""

    id: str
    item: int
    part: str
    role: BoxRole
    kind: BoxKind
    answer: str


def boxes_of(n: int, item: Item) -> Iterator[Asked]:
    """Every box of an item: trade boxes, then the parts in order."""
    if isinstance(item.prompt, Column):
        for line in lines_of_column(item, item.prompt):
            for cell in line.cells:
                if cell.kind == "trade":
                    yield Asked(f"{n}.trade.{cell.place}", n, "trade", "trade", "digit", "")
    ringed = not isinstance(item.prompt, Sort)
    for part in item.parts:
        yield from _boxes_of_part(n, part, ringed=ringed)


def _boxes_of_part(n: int, part: Part, *, ringed: bool) -> Iterator[Asked]:
    """`ringed` says that one option is rung; in a table to sort it is ticked."""
    start = f"{n}.{part.id}"
    if part.kind == "digits":
        for place in range(part.width - 1, -1, -1):
            yield Asked(f"{start}.{place}", n, part.id, "answer", "digit", digit_at(part, place))
    elif part.kind == "compare":
        yield Asked(start, n, part.id, "answer", "compare", part.answer)
    elif part.kind == "look":
        yield from (Asked(f"{start}.{code}", n, part.id, "look", "tick", "") for code in LOOKED)
    else:
        kind: BoxKind = "circle" if part.kind == "choice" and ringed else "tick"
        for option in part.options:
            right = "1" if option_is_right(part, option) else ""
            yield Asked(f"{start}.{option.code}", n, part.id, "answer", kind, right)


def digit_at(part: Part, place: int) -> str:
    """The digit a child writes at this place (0 = last box), "" where the answer is shorter."""
    return part.answer[-1 - place] if place < len(part.answer) else ""


def option_is_right(part: Part, option: Option) -> bool:
    """Whether this option is (one of) the answer(s)."""
    return option.code == part.answer if part.kind == "choice" else option.code in part.answer.split()
