"""Slots: the places in a guide's text where the day's own numbers go, such as {show.1.a}."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from dayleaf.core.errors import DayleafError

if TYPE_CHECKING:
    from collections.abc import Callable

Place = Literal["child", "show", "together", "own"]
PIECES = ("hundreds", "tens", "ones", "tens-left", "ones-now")
"""What stands in a place of a number; the last two once one ten is opened: 62 has 5 tens left and 12 ones now."""

_BRACES = re.compile(r"\{([^{}]*)\}")
_GRAMMAR = re.compile(r"child|(show|together|own)\.([1-9]\d?)\.([a-z][a-z0-9_]*(?:\.[a-z0-9][a-z0-9-]*)?)")


class SlotNotUnderstood(DayleafError):
    """A text has braces around something that is no slot."""

    def __init__(self, *, slot: str) -> None:
        self.slot = slot
        super().__init__(
            f'"{{{slot}}}" is not a slot; write {{child}}, {{show.N.VAR}}, {{together.N.VAR}} or {{own.N.VAR}} '
            "with N from 1."
        )


@dataclass(frozen=True, slots=True)
class Slot:
    """One slot. `n` counts the items of the place from 1 (0 for the child's name).

    `name` is a rule variable, one with a piece (`a.tens`), `text`, `answer` or `error.WAY`; "" for the child's name.
    """

    place: Place
    n: int = 0
    name: str = ""

    def __str__(self) -> str:
        return f"{{{self.place}}}" if self.place == "child" else f"{{{self.place}.{self.n}.{self.name}}}"

    @property
    def error_way(self) -> str | None:
        """The error way named, if the slot names one."""
        head, _, way = self.name.partition(".")
        return way if head == "error" and way else None

    @property
    def variable(self) -> str | None:
        """The rule variable named, if the slot names one, with or without a piece."""
        head = self.name.partition(".")[0]
        return None if head in {"", "text", "answer", "error"} else head

    @property
    def piece(self) -> str | None:
        """The piece of a variable that is named: what stands after the dot."""
        tail = self.name.partition(".")[2]
        return tail if tail and self.variable is not None else None


def slots_in(text: str) -> tuple[Slot, ...]:
    """Return the slots of a text in order.

    >>> [str(slot) for slot in slots_in("{child} takes {show.1.b.ones} from {show.1.a.ones}.")]
    ['{child}', '{show.1.b.ones}', '{show.1.a.ones}']

    Raises:
        SlotNotUnderstood: braces hold something else, or stand alone.
    """
    _refuse_lone_braces(text)
    return tuple(_slot(match[1]) for match in _BRACES.finditer(text))


def fill(text: str, lookup: Callable[[Slot], str]) -> str:
    """Return the text with every slot replaced by what `lookup` says of it.

    >>> fill("{child} has {show.1.a}.", lambda slot: "Wren" if slot.place == "child" else "62")
    'Wren has 62.'

    Raises:
        SlotNotUnderstood: braces hold something else, or stand alone.
    """
    _refuse_lone_braces(text)
    return _BRACES.sub(lambda match: lookup(_slot(match[1])), text)


def _slot(inside: str) -> Slot:
    match = _GRAMMAR.fullmatch(inside)
    if match is None:
        raise SlotNotUnderstood(slot=inside)
    match match[1]:
        case "show" | "together" | "own" as place:
            return Slot(place, int(match[2]), match[3])
        case _:
            return Slot("child")


def _refuse_lone_braces(text: str) -> None:
    left = _BRACES.sub("", text)
    for brace in "{}":
        if brace in left:
            at = left.index(brace)
            raise SlotNotUnderstood(slot=left[at : at + 12])


def piece_of(number: int, piece: str) -> int:
    """A piece of a number from 0 on: its hundreds, tens or ones digit, or what they are once one ten is opened."""
    tens, ones = number // 10 % 10, number % 10
    return {"hundreds": number // 100, "tens": tens, "ones": ones, "tens-left": tens - 1, "ones-now": ones + 10}[piece]
