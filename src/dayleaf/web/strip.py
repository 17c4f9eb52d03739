"""The strip of the morning: who is with the adult when, as pieces of a line in hundredths of its length."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import time

QUARTER = 15
CHARACTERS_A_MINUTE = 1.45
"""About how many letters of a label fit on a minute of a laptop's strip of an hour."""


@dataclass(frozen=True, slots=True)
class Stretch:
    """Some minutes of one child's morning; `start` counts from the first minute."""

    kind: str
    start: int
    minutes: int


@dataclass(frozen=True, slots=True)
class Piece:
    """A stretch as drawn: place and width in percent."""

    kind: str
    x: float
    width: float
    label: str
    short: str


@dataclass(frozen=True, slots=True)
class Lane:
    """One child's line, in pieces and in words."""

    name: str
    words: str
    pieces: tuple[Piece, ...]


@dataclass(frozen=True, slots=True)
class Tick:
    """A time above the strip; `anchor` says which end of the text stands at `x` percent."""

    x: float
    anchor: str
    text: str


def lane(name: str, stretches: Sequence[Stretch], *, length: int) -> Lane:
    """The line of one child on a strip of `length` minutes."""
    words = ", then ".join(f"{_said(one.kind)} for {one.minutes} minutes" for one in stretches)
    return Lane(name, f"{name}: {words}", tuple(_piece(one, length) for one in stretches))


def whole_steps(minutes: int) -> int:
    """The length of a strip that shows so many minutes: a whole number of the steps that are marked above it."""
    step = _step(minutes)
    return max(2, -(-minutes // step)) * step


def marks(length: int, start: time | None) -> tuple[Tick, ...]:
    """What stands above the strip: clock times where a start is set, minutes where none is."""
    ticks = range(0, length + 1, _step(length))
    ends = {0: "start", length: "end"}
    return tuple(
        Tick(
            x=round(100 * tick / length, 2),
            anchor=ends.get(tick, "middle"),
            text=clock(start, tick) if start else f"{tick} min" if tick == 0 else str(tick),
        )
        for tick in ticks
    )


def clock(start: time, minutes: int) -> str:
    """The clock time so many minutes after the start, as 9:50."""
    hours, left = divmod(start.hour * 60 + start.minute + minutes, 60)
    return f"{hours % 24}:{left:02d}"


def _step(minutes: int) -> int:
    """Quarters of an hour up to an hour and a quarter, halves beyond."""
    return QUARTER if minutes <= 5 * QUARTER else 2 * QUARTER


def _piece(one: Stretch, length: int) -> Piece:
    full = f"{_said(one.kind)} · {one.minutes} min"
    fits = len(full) <= one.minutes * CHARACTERS_A_MINUTE * 60 / length
    return Piece(
        kind=one.kind,
        x=round(100 * one.start / length, 2),
        width=round(100 * one.minutes / length, 2),
        label=full if fits else f"{one.minutes} min",
        short=_said(one.kind) if one.minutes * 60 / length >= 13 else str(one.minutes),
    )


def _said(kind: str) -> str:
    return "with you" if kind == "with" else "alone"
