"""What was written in the places of one printed item, and how it compares with the right answer."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import zip_longest
from typing import TYPE_CHECKING, Final

from dayleaf.core.errors import DayleafError

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from dayleaf.sheets.model import Box, BoxKind, MapItem, PageMap

SQUEEZED_IN: Final = 1
"""Digits that a child may write beyond the printed boxes; more is a typing slip (common practice, no source)."""


class NotAnAnswer(DayleafError):
    """What was typed cannot stand in the places of this item."""


@dataclass(frozen=True, slots=True)
class Spot:
    """One place of an item: `size` counts its boxes; `options` are the codes to ring or tick, A first."""

    part: str
    kind: BoxKind
    size: int
    options: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class AskedItem:
    """A printed item with its places in order; none where the child draws, builds or tells."""

    item: MapItem
    spots: tuple[Spot, ...]
    with_parent: bool


def asked_items(pages: Iterable[PageMap]) -> dict[int, AskedItem]:
    """Every item of a sheet by its number. Items of a together page count as worked with the parent."""
    asked: dict[int, AskedItem] = {}
    for page in pages:
        for item in page.items:
            boxes = [box for box in page.boxes if box.item == item.n and box.role == "answer"]
            asked[item.n] = AskedItem(item=item, spots=_spots(boxes), with_parent=page.kind == "together")
    return dict(sorted(asked.items()))


def read_typed(asked: AskedItem, typed: str) -> str:
    """The canonical answer that `typed` stands for.

    Digits stand as they are, parts apart by a space; one option is typed by its letter (A is the first) or
    its code, several options as letters together or apart; a comparison by its sign.

    Raises:
        NotAnAnswer: no child could have left this in the places of the item.
    """
    spots, text = asked.spots, " ".join(typed.replace("−", "-").split())
    if not text:
        raise NotAnAnswer("says nothing; give what the child wrote")
    if not spots:
        raise NotAnAnswer("is drawn, built or told; give its number alone")
    words = [text] if len(spots) == 1 else text.split(" ")
    if len(words) != len(spots):
        raise NotAnAnswer(f"has {len(spots)} places; “{typed}” fills {len(words)}")
    return " ".join(_read_word(spot, word) for spot, word in zip(spots, words, strict=True))


def same_answer(first: str, second: str) -> bool:
    """Whether two canonical answers say the same; a zero in front of a number changes nothing."""
    return [_bare(word) for word in first.split()] == [_bare(word) for word in second.split()]


def digits_right(answer: str, written: str) -> int:
    """How many digits of `written` stand in the right place, counted from the ones.

    The scoring rule of curriculum-based measurement: one credit a digit in the right place (CHECKS D.7:
    key 135, written 145 gives 2). Parts are compared part by part; signs and letters earn nothing.
    """
    pairs = zip_longest(answer.split(), written.split(), fillvalue="")
    return sum(
        one == other and one.isdigit()
        for part, wrote in pairs
        for one, other in zip(reversed(part), reversed(wrote), strict=False)
    )


def _bare(word: str) -> str:
    return word.lstrip("0") or "0" if word.isdigit() else word


def _read_word(spot: Spot, word: str) -> str:
    if spot.kind in {"circle", "tick"}:
        return _read_options(spot, word)
    if spot.kind == "compare":
        if word not in {"<", ">", "="}:
            raise NotAnAnswer(f"is answered by <, > or =; “{word}” is none of them")
        return word
    if not (word.isascii() and word.isdigit()):
        raise NotAnAnswer(f"is answered in digits; “{word}” is not a number")
    if len(word) > spot.size + SQUEEZED_IN:
        boxes = "box" if spot.size == 1 else "boxes"
        raise NotAnAnswer(f"has {spot.size} digit {boxes}; “{word}” does not fit")
    return word


def _read_options(spot: Spot, text: str) -> str:
    words = text.split(" ")
    letters = {chr(ord("A") + index): code for index, code in enumerate(spot.options)}
    if all(word in spot.options for word in words):
        chosen = set(words)
    else:
        typed = "".join(words).upper()
        if not set(typed) <= set(letters):
            raise NotAnAnswer(f"is answered by a letter from A to {max(letters)}; “{text}” is not one of them")
        chosen = {letters[letter] for letter in typed}
    if spot.kind == "circle" and len(chosen) > 1:
        raise NotAnAnswer(f"has one letter to ring; “{text}” are {len(chosen)}")
    return " ".join(code for code in spot.options if code in chosen)


def _spots(boxes: Sequence[Box]) -> tuple[Spot, ...]:
    parts: dict[str, list[Box]] = {}
    for box in boxes:
        parts.setdefault(box.part, []).append(box)
    return tuple(
        Spot(
            part=part,
            kind=found[0].kind,
            size=len(found),
            options=tuple(_code(box) for box in found) if found[0].kind in {"circle", "tick"} else (),
        )
        for part, found in parts.items()
    )


def _code(box: Box) -> str:
    """The option's code: what a box to ring or tick is called after its item and part."""
    return box.id.removeprefix(f"{box.item}.{box.part}.")
