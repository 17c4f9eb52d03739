"""Skills about two numbers and one sign: the rows, columns and mended sums they all share."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from dayleaf.items.model import Column, Gap, Part, Row, Step
from dayleaf.items.rule import Made, Maker, Numbers, Way

if TYPE_CHECKING:
    from collections.abc import Iterable

    from dayleaf.core.ids import ErrorWayId

Procedure = Callable[[int, int], int | None]
"""What an error way writes for two numbers; None where it writes nothing."""

_GAP = Gap("1")


@dataclass(frozen=True, slots=True)
class TwoNumbers:
    """How a skill reads its two numbers, goes on, and goes astray.

    `read` turns the rule's variables into the two numbers of the sum; `hard` says how difficult they are
    (0 to 1); `width` counts the boxes that hold every answer, right or wrong, of the whole rule. `mend`
    names the ways whose answers stand in sums to mend.
    """

    sign: str
    read: Callable[[Numbers], tuple[int, int]]
    ways: Mapping[ErrorWayId, Procedure]
    steps: Callable[[int, int], tuple[Step, ...]]
    hard: Callable[[int, int], float]
    width: int
    mend: tuple[ErrorWayId, ...] = ()

    def result(self, a: int, b: int) -> int:
        """The right number."""
        return a + b if self.sign == "+" else a - b

    def errors(self, a: int, b: int) -> dict[ErrorWayId, str]:
        """The number each error way writes, where it writes one."""
        return {way: str(wrong) for way, go in self.ways.items() if (wrong := go(a, b)) is not None}


def number_part(answer: int, width: int, part: str = "1") -> Part:
    """A place for one number, one box a digit."""
    return Part(part, "digits", str(answer), width)


def ways_of(kind: TwoNumbers) -> dict[ErrorWayId, Way]:
    """The error ways over the rule's variables, for stories told about the same numbers."""

    def over(go: Procedure) -> Way:
        return lambda numbers: go(*kind.read(numbers))

    return {way: over(go) for way, go in kind.ways.items()}


def in_a_row(kind: TwoNumbers) -> Maker:
    """62 - 38 = [ ]."""

    def make(numbers: Numbers) -> Made:
        a, b = kind.read(numbers)
        return Made(
            Row((a, kind.sign, b, "=", _GAP)),
            (number_part(kind.result(a, b), kind.width),),
            kind.steps(a, b),
            kind.errors(a, b),
            None,
            kind.hard(a, b),
        )

    return make


def in_columns(kind: TwoNumbers, *, trades: bool) -> Maker:
    """The two numbers under each other, with or without trade boxes above."""

    def make(numbers: Numbers) -> Made:
        a, b = kind.read(numbers)
        return Made(
            Column((a, b), kind.sign, trades),
            (number_part(kind.result(a, b), kind.width),),
            kind.steps(a, b),
            kind.errors(a, b),
            None,
            kind.hard(a, b),
        )

    return make


def find_and_fix(kind: TwoNumbers) -> Maker:
    """A sum already worked, wrongly, by one of the ways in `mend`; the right answer is wanted.

    Which way was used follows from the numbers, so that the same item always shows the same mistake.
    """

    def make(numbers: Numbers) -> Made:
        a, b = kind.read(numbers)
        right = kind.result(a, b)
        return Made(
            Column((a, b), kind.sign, shown=_wrong(kind, a, b, right)),
            (number_part(right, kind.width),),
            kind.steps(a, b),
            kind.errors(a, b),
            None,
            kind.hard(a, b),
        )

    return make


def mendable(kind: TwoNumbers) -> Callable[[Numbers], bool]:
    """Whether some way in `mend` really gives a wrong answer for these numbers."""

    def fits(numbers: Numbers) -> bool:
        a, b = kind.read(numbers)
        return any(_wrongs(kind, a, b, kind.result(a, b)))

    return fits


def _wrongs(kind: TwoNumbers, a: int, b: int, right: int) -> Iterable[int]:
    for way in kind.mend:
        wrong = kind.ways[way](a, b)
        if wrong is not None and wrong != right:
            yield wrong


def _wrong(kind: TwoNumbers, a: int, b: int, right: int) -> int:
    found = tuple(_wrongs(kind, a, b, right))
    return found[(a + b) % len(found)]
