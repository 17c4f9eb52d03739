"""Skills about equal groups: what the rows of × and ÷ share."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from dayleaf.items.model import Row
from dayleaf.items.rule import Made, Maker, Numbers, Way
from dayleaf.items.two_numbers import GAP, Procedure, answers_of, number_part

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from dayleaf.core.ids import ErrorWayId
    from dayleaf.items.model import Figure, Step


@dataclass(frozen=True, slots=True)
class GroupFact:
    """How a skill reads its two numbers, goes on, and goes astray.

    `read` gives the two numbers as they stand in the row, `a × b` or `whole ÷ part`; `hard` says how difficult
    they are (0 to 1); `width` counts the boxes that hold every answer, right or wrong, of the whole rule.
    """

    sign: Literal["×", "÷"]
    read: Callable[[Numbers], tuple[int, int]]
    ways: Mapping[ErrorWayId, Procedure]
    steps: Callable[[int, int], tuple[Step, ...]]
    hard: Callable[[int, int], float]
    width: int

    def result(self, a: int, b: int) -> int:
        """The right number; divisions here leave nothing over."""
        return a * b if self.sign == "×" else a // b


def fact_row(kind: GroupFact, picture: Callable[[int, int], Figure] | None = None) -> Maker:
    """3 × 4 = [ ] or 12 ÷ 3 = [ ]."""

    def make(numbers: Numbers) -> Made:
        a, b = kind.read(numbers)
        return Made(
            Row((a, kind.sign, b, "=", GAP)),
            (number_part(kind.result(a, b), kind.width),),
            kind.steps(a, b),
            answers_of(kind.ways, a, b),
            picture(a, b) if picture else None,
            kind.hard(a, b),
        )

    return make


def ways_of_fact(kind: GroupFact) -> dict[ErrorWayId, Way]:
    """The error ways over the rule's variables, for stories told about the same numbers."""

    def over(go: Procedure) -> Way:
        return lambda numbers: go(*kind.read(numbers))

    return {way: over(go) for way, go in kind.ways.items()}
