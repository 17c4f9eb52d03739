"""Skills about two numbers and one sign: the rows, columns, puzzles and mended sums they all share."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import pairwise
from typing import TYPE_CHECKING

from dayleaf.items.model import Column, Figure, Gap, Part, Row
from dayleaf.items.rule import Fits, Made, Maker, Numbers, Way
from dayleaf.items.steps import step
from dayleaf.items.ways.together import Together

if TYPE_CHECKING:
    from collections.abc import Iterator

    from dayleaf.core.ids import ErrorWayId
    from dayleaf.items.model import Step

Procedure = Callable[[int, int], int | None]
"""What an error way writes for two numbers; None where it writes nothing."""

Picture = Callable[[int, int], Figure]

GAP = Gap("1")


@dataclass(frozen=True, slots=True)
class TwoNumbers:
    """How a skill reads its two numbers, goes on, and goes astray.

    `read` turns the rule's variables into the two numbers of the sum; `hard` says how difficult they are
    (0 to 1); `width` counts the boxes that hold every answer, right or wrong, of the whole rule. `mend`
    names the ways whose answers stand in sums to mend. `partner` are ways that show only where the second
    number is missing and the result given (they take the first number and the result).
    """

    sign: str
    read: Callable[[Numbers], tuple[int, int]]
    ways: Mapping[ErrorWayId, Procedure]
    steps: Callable[[int, int], tuple[Step, ...]]
    hard: Callable[[int, int], float]
    width: int
    mend: tuple[ErrorWayId, ...] = ()
    partner: Mapping[ErrorWayId, Procedure] | None = None

    def result(self, a: int, b: int) -> int:
        """The right number."""
        return a + b if self.sign == "+" else a - b

    def errors(self, a: int, b: int) -> dict[ErrorWayId, str]:
        """The number each error way writes, where it writes one."""
        return answers_of(self.ways, a, b)


def answers_of(ways: Mapping[ErrorWayId, Procedure], a: int, b: int) -> dict[ErrorWayId, str]:
    """What each way writes for two numbers, where it writes something."""
    if isinstance(ways, Together):
        return ways.answers(a, b)
    return {way: str(wrong) for way, go in ways.items() if (wrong := go(a, b)) is not None}


def a_and_b(numbers: Numbers) -> tuple[int, int]:
    """The two numbers where the rule calls them a and b."""
    return numbers["a"], numbers["b"]


@lru_cache(maxsize=8192)
def number_part(answer: int, width: int, part: str = "1") -> Part:
    """A place for one number, one box a digit."""
    return Part(part, "digits", str(answer), width)


def ways_of(kind: TwoNumbers) -> dict[ErrorWayId, Way]:
    """The error ways over the rule's variables, for stories told about the same numbers."""

    def over(go: Procedure) -> Way:
        return lambda numbers: go(*kind.read(numbers))

    return {way: over(go) for way, go in kind.ways.items()}


def in_a_row(kind: TwoNumbers, picture: Picture | None = None) -> Maker:
    """62 - 38 = [ ], with a picture beside it if one is given."""

    def make(numbers: Numbers) -> Made:
        a, b = kind.read(numbers)
        return Made(
            Row((a, kind.sign, b, "=", GAP)),
            (number_part(kind.result(a, b), kind.width),),
            kind.steps(a, b),
            kind.errors(a, b),
            picture(a, b) if picture else None,
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


def second_missing(kind: TwoNumbers, *, width: int, picture: Picture | None = None) -> Maker:
    """8 + [ ] = 13: the second number is wanted.

    The sign done as it stands on the two numbers seen is the common wrong answer; it stands in `partner`.
    """

    def make(numbers: Numbers) -> Made:
        a, b = kind.read(numbers)
        result = kind.result(a, b)
        return Made(
            Row((a, kind.sign, GAP, "=", result)),
            (number_part(b, width),),
            kind.steps(a, b),
            answers_of(kind.partner or {}, a, result),
            picture(a, b) if picture else None,
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
        wrongs = tuple(_wrongs(kind, a, b))
        return Made(
            Column((a, b), kind.sign, shown=wrongs[(a + b) % len(wrongs)]),
            (number_part(right, kind.width),),
            kind.steps(a, b),
            kind.errors(a, b),
            None,
            kind.hard(a, b),
        )

    return make


def mendable(kind: TwoNumbers) -> Fits:
    """Whether some way in `mend` really gives a wrong answer for these numbers."""
    return lambda numbers: any(True for _ in _wrongs(kind, *kind.read(numbers)))


def _wrongs(kind: TwoNumbers, a: int, b: int) -> Iterator[int]:
    right = kind.result(a, b)
    for way in kind.mend:
        wrong = kind.ways[way](a, b)
        if wrong is not None and wrong != right:
            yield wrong


_HIDDEN: Mapping[int, tuple[tuple[tuple[int, int], ...], ...]] = {
    2: (((0, 0), (1, 1)), ((0, 1), (1, 0)), ((1, 0), (2, 1)), ((1, 1), (2, 0))),
    3: (((0, 0), (1, 1), (2, 2)), ((0, 2), (1, 0), (2, 1)), ((0, 1), (1, 2), (2, 0)), ((0, 0), (1, 2), (2, 1))),
}
"""Which (row, place) are hidden in sums of so many digits: one in each place, so that each column has one solution."""


def digit_puzzle(kind: TwoNumbers) -> Maker:
    """A worked sum of two- or three-digit numbers with one digit hidden in each place."""

    def make(numbers: Numbers) -> Made:
        a, b = kind.read(numbers)
        result = kind.result(a, b)
        rows = (a, b, result)
        choices = _HIDDEN[len(str(a))]
        hidden = choices[(a + b) % len(choices)]
        parts = tuple(
            number_part(rows[row] // 10**place % 10, 1, str(n)) for n, (row, place) in enumerate(hidden, start=1)
        )
        return Made(
            Column((a, b), kind.sign, hidden=hidden, shown=result), parts, kind.steps(a, b), {}, None, kind.hard(a, b)
        )

    return make


def all_two_digit(kind: TwoNumbers) -> Fits:
    """Whether both numbers and the result have exactly two digits, as a digit puzzle wants."""
    return _between(kind, 10, 99)


def all_three_digit(kind: TwoNumbers) -> Fits:
    """Whether both numbers and the result have exactly three digits."""
    return _between(kind, 100, 999)


def _between(kind: TwoNumbers, least: int, most: int) -> Fits:
    def fits(numbers: Numbers) -> bool:
        a, b = kind.read(numbers)
        return all(least <= n <= most for n in (a, b, kind.result(a, b)))

    return fits


def hopping(kind: TwoNumbers, *, ten_first: bool) -> Maker:
    """The row beside an empty number line with the hops to the result, their sizes and the end left blank.

    With `ten_first` the first hop goes to the nearest ten on the way (13 - 5 over 10), otherwise the tens of
    the second number are hopped first (62 - 38 over 32). The steps of the key are the hops.
    """

    def stops(a: int, b: int) -> tuple[int, ...]:
        end = kind.result(a, b)
        if ten_first:
            middle = a + (-a % 10) if end > a else a - a % 10
        else:
            middle = a + (b // 10 * 10 if end > a else -(b // 10 * 10))
        return (a, middle, end) if min(a, end) < middle < max(a, end) else (a, end)

    def steps(a: int, b: int) -> tuple[Step, ...]:
        code = "jump-up" if kind.sign == "+" else "jump-back"
        return tuple(step(code, start, abs(end - start), end) for start, end in pairwise(stops(a, b)))

    return in_a_row(replace(kind, steps=steps), lambda a, b: line_of_hops(stops(a, b)))


def line_of_hops(stops: tuple[int, ...], labels: tuple[str, ...] = (), *, blank_end: bool = True) -> Figure:
    """An empty number line from ten to ten around the stops; each hop without a label gets a box."""
    return Figure(
        "number-line",
        {
            "lo": max(0, min(stops) // 10 * 10),
            "hi": max(stops) + (-max(stops) % 10),
            "step": 10,
            "open": 1,
            "jumps": stops,
            "jump_labels": labels or ("?",) * (len(stops) - 1),
            "blank_end": int(blank_end),
        },
    )
