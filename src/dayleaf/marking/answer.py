"""What was written in the places of one printed item, and how it compares with the right answer."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import zip_longest
from typing import TYPE_CHECKING, Final

from dayleaf.core.errors import DayleafError
from dayleaf.items.built import NotBuilt, rule_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from dayleaf.sheets.model import Box, BoxKind, MapItem, PageMap

SQUEEZED_IN: Final = 1
"""Digits that a child may write beyond the printed boxes; more is a typing slip (common practice, no source)."""


class NotAnAnswer(DayleafError):
    """What was typed cannot stand in the places of this item."""


@dataclass(frozen=True, slots=True)
class Spot:
    """One place of an item: `size` counts digit boxes, or the options to ring or tick."""

    part: str
    kind: BoxKind
    size: int


@dataclass(frozen=True, slots=True)
class AskedItem:
    """A printed item with its places in order; none where the child draws, builds or tells."""

    item: MapItem
    spots: tuple[Spot, ...]
    with_parent: bool
    options: tuple[str, ...] = ()
    """The codes of the options, in order, where the item has one place to ring or tick and they are known."""


def asked_items(pages: Iterable[PageMap]) -> dict[int, AskedItem]:
    """Every item of a sheet by its number. Items of a together page count as worked with the parent."""
    asked: dict[int, AskedItem] = {}
    for page in pages:
        for item in page.items:
            boxes = [box for box in page.boxes if box.item == item.n and box.role == "answer"]
            spots = _spots(boxes)
            asked[item.n] = AskedItem(
                item=item,
                spots=spots,
                with_parent=page.kind == "together",
                options=_options_of(item) if len(spots) == 1 and spots[0].kind in {"circle", "tick"} else (),
            )
    return dict(sorted(asked.items()))


def read_typed(asked: AskedItem, typed: str) -> str:
    """The canonical answer that `typed` stands for.

    Digits stand as they are, parts apart by a space; one option is typed by its letter (A is the first) or
    its code, several options as letters together or apart; a comparison by its sign.

    Raises:
        NotAnAnswer: no child could have left this in the places of the item.
    """
    spots, text = asked.spots, " ".join(typed.replace("−", "-").split())
    if not spots:
        raise NotAnAnswer("is drawn, built or told; give its number alone")
    if len(spots) == 1 and spots[0].kind in {"circle", "tick"}:
        return _options(asked, text)
    words = text.split(" ")
    if len(words) != len(spots):
        raise NotAnAnswer(f"has {len(spots)} places; “{typed}” fills {len(words)}")
    for spot, word in zip(spots, words, strict=True):
        _check_word(spot, word)
    return text


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


def _check_word(spot: Spot, word: str) -> None:
    if spot.kind == "compare":
        if word not in {"<", ">", "="}:
            raise NotAnAnswer(f"is answered by <, > or =; “{word}” is none of them")
    elif spot.kind == "digit":
        if not (word.isascii() and word.isdigit()):
            raise NotAnAnswer(f"is answered in digits; “{word}” is not a number")
        if len(word) > spot.size + SQUEEZED_IN:
            boxes = "box" if spot.size == 1 else "boxes"
            raise NotAnAnswer(f"has {spot.size} digit {boxes}; “{word}” does not fit")


def _options(asked: AskedItem, text: str) -> str:
    spot = asked.spots[0]
    if text in asked.options:
        return text
    chosen = text.replace(" ", "").upper()
    letters = [chr(ord("A") + index) for index in range(spot.size)]
    if any(letter not in letters for letter in chosen) or len(set(chosen)) < len(chosen) or not chosen:
        words = set(text.split(" "))
        if spot.kind == "tick" and words <= set(asked.options):
            return " ".join(code for code in asked.options if code in words)
        raise NotAnAnswer(f"is answered by a letter from A to {letters[-1]}; “{text}” is not one of them")
    if spot.kind == "circle" and len(chosen) > 1:
        raise NotAnAnswer(f"has one letter to ring; “{text}” are {len(chosen)}")
    codes = asked.options or letters
    return " ".join(code for letter, code in zip(letters, codes, strict=False) if letter in chosen)


def _options_of(item: MapItem) -> tuple[str, ...]:
    """The option codes, made again from the item's numbers; () unless they belong to the printed answer."""
    try:
        made = rule_of(item.skill).formats[item.format](item.numbers)
    except (NotBuilt, KeyError):
        return ()
    if " ".join(part.answer for part in made.parts) != item.answer:
        return ()
    return tuple(option.code for option in made.parts[0].options)


def _spots(boxes: Sequence[Box]) -> tuple[Spot, ...]:
    parts: dict[str, list[Box]] = {}
    for box in boxes:
        parts.setdefault(box.part, []).append(box)
    return tuple(Spot(part=part, kind=found[0].kind, size=len(found)) for part, found in parts.items())
