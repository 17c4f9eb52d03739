"""From ink to a digit that counts, or a question: what the network says, and what the ink itself says."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from dayleaf.reading.digits import decide, read_crops
from dayleaf.reading.signs import BLANK, DOT, TINY, Sign

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from dayleaf.reading.arrays import Array
    from dayleaf.reading.ink import Ink

DIRT: Final = 0.45
"""Square millimetres of ink below which a box is empty."""

CLEAR: Final = 0.3
"""Darkness from which a box is not called empty, whatever has become of its strokes."""

PALE: Final = 0.2
"""Darkness below which ink may be a rubbed out digit."""


@dataclass(frozen=True, slots=True)
class Digit:
    """One digit box: what it says, whether the digit is turned round, and which digits it may be."""

    sign: Sign
    reversed: bool = False
    likely: tuple[str, ...] = ()


def judged(crops: Array, inks: Sequence[Ink]) -> Iterator[Digit]:
    """One digit a crop.

    A box is blank by its ink alone, never by the network. Ink that leaves the cut, comes from elsewhere, is pale or
    tiny goes to a person whatever the network says.
    """
    written = [index for index, ink in enumerate(inks) if not is_blank(ink)]
    said = dict(zip(written, _network(crops[written]), strict=True))
    for index, ink in enumerate(inks):
        if index not in said:
            yield Digit(BLANK)
            continue
        digit = said[index]
        doubtful = ink.leaves or ink.strange or ink.tone < PALE or ink.extent < TINY
        if digit.sign.state == "blank" or (doubtful and digit.sign.state == "sure"):
            asked = Sign(digit.sign.reading, min(digit.sign.certainty, 0.9), "ask")
            digit = Digit(asked, digit.reversed, digit.likely or tuple(digit.sign.reading))
        yield digit


def is_blank(ink: Ink) -> bool:
    """Whether nothing is written: no ink, or no more than dirt."""
    return (ink.extent < DOT or ink.area < DIRT) and ink.tone < CLEAR


def _network(crops: Array) -> Iterator[Digit]:
    """What the network reads in each crop."""
    for reading in decide(read_crops(crops)):
        yield Digit(Sign(reading.reading, reading.certainty, reading.state), reading.reversed, reading.likely)
