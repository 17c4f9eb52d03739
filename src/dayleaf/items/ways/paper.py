"""Taking away in columns, step by step, with each step open to a habit.

Columns are worked from the ones to the left. A habit replaces one of two things: what is done in a column, or what
is done to the column that lends. Everything else goes on as it is taught, so that a habit is silent where its
trigger is absent.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Literal


@dataclass(slots=True)
class Paper:
    """The digits as they stand at one moment, ones first; opened and lowered digits are changed in place.

    `bottom` is filled up with zeros where the lower number has no digit; its own digits are the first `filled`.
    `opened` counts the places that have been opened so far.
    """

    top: list[int]
    bottom: list[int]
    filled: int
    opened: int = 0

    def blank(self, place: int) -> bool:
        """Whether the lower number has no digit in this place."""
        return place >= self.filled


Need = Literal["", "opens", "opens twice", "zero", "one", "nought", "zero below", "gap"]
"""What a habit needs to show: a place to open, two of them, a zero or a one that may have to lend, a zero above (there
or left by lending), a zero below, places where nothing stands below."""

Lend = Callable[[Paper, int], bool]
"""Takes one from a place, or what the habit does instead; False where nothing is left that could lend."""

Column = Callable[[Paper, int, Lend], int | None]
"""What is written under one column; None where nothing is written."""


def lend(paper: Paper, place: int) -> bool:
    """One is taken as taught: a zero first gets ten from its left and keeps nine."""
    return lowered(paper, place, lend)


def lowered(paper: Paper, place: int, lender: Lend) -> bool:
    """One is taken from a place; where that is a zero, `lender` first serves it from the left."""
    if place >= len(paper.top):
        return False
    if paper.top[place]:
        paper.top[place] -= 1
        return True
    if not lender(paper, place + 1):
        return False
    paper.top[place] = 9
    return True


def take(paper: Paper, place: int, lender: Lend) -> int:
    """A column as taught: opened where the upper digit is too small, then taken.

    Where a habit has left nothing to open, the smaller digit is taken from the larger: what a child does who is
    stuck there is not told by the habit itself, and this is the commonest way out (common practice, no source).
    """
    if paper.top[place] < paper.bottom[place] and lender(paper, place + 1):
        paper.top[place] += 10
        paper.opened += 1
    return abs(paper.top[place] - paper.bottom[place])


def needs_met(upper: Sequence[int], lower: Sequence[int], filled: int) -> frozenset[Need]:
    """What two numbers offer a habit, given by their digits, ones first; rather too much than too little."""
    opened, owed = 0, False
    for above, below in zip(upper, lower, strict=True):
        owed = above - owed < below
        opened += owed
    met: set[Need] = {""}
    if opened:
        met.add("opens")
        if opened > 1:
            met.add("opens twice")
        if 0 in upper[1:]:
            met.add("zero")
        if 1 in upper[1:]:
            met |= {"one", "nought"}
    if 0 in upper:
        met.add("nought")
    if 0 in lower[:filled]:
        met.add("zero below")
    if filled < len(upper):
        met.add("gap")
    return frozenset(met)


def worked(top: int, bottom: int, *, column: Column = take, lender: Lend = lend) -> tuple[int | None, ...]:
    """What stands under each column, from the left; a habit may write two digits, or nothing, under one.

    Both numbers are at least 0 and bottom <= top.
    """
    upper, lower = str(top)[::-1], str(bottom)[::-1]
    paper = Paper([*map(int, upper)], [*map(int, lower), *(0 for _ in upper[len(lower) :])], len(lower))
    return tuple(column(paper, place, lender) for place in range(len(upper)))[::-1]


def read(columns: tuple[int | None, ...]) -> int:
    """The number that written columns make; a column left empty closes up."""
    return int("".join(str(one) for one in columns if one is not None) or "0")
