"""Things to sort: a table with a line for each thing and a box to tick under each group."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import FormatId, SkillId
from dayleaf.items.choices import ring_fixed
from dayleaf.items.model import Row, Sort
from dayleaf.items.numbers.pairs import BY_TENS, PARITY, by_tens_digit
from dayleaf.items.rule import Made, SkillRule
from dayleaf.items.steps import step

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from dayleaf.core.ids import ErrorWayId
    from dayleaf.items.model import Figure, Step
    from dayleaf.items.rule import Numbers

SORT = FormatId("sort")

SORTED = 6
"""How many things stand in one table."""


def sorted_made(
    things: Sequence[Row | Figure],
    right: Sequence[str],
    groups: tuple[str, ...],
    *,
    seen: Mapping[ErrorWayId, Sequence[str]],
    steps: tuple[Step, ...],
    difficulty: float,
) -> Made:
    """A table of things: the group of each, and the groups that each error way sees."""
    return Made(
        Sort(tuple(things), groups),
        tuple(
            ring_fixed(group, groups, {way: said[place] for way, said in seen.items()}, str(place + 1))
            for place, group in enumerate(right)
        ),
        steps,
        {way: " ".join(said) for way, said in seen.items()},
        None,
        difficulty,
    )


def sorting_row(n: int) -> tuple[int, ...]:
    """Six different numbers of 1 to 20, the first of them n, odd and even mixed."""
    return tuple((n - 1 + 3 * k * (k + 1) // 2) % 20 + 1 for k in range(SORTED))


def _even_and_odd(numbers: Numbers) -> Made:
    """Six numbers: each is even or odd."""
    row = sorting_row(numbers["n"])
    seen = [by_tens_digit(one) for one in row]
    return sorted_made(
        [Row((one,)) for one in row],
        [PARITY[one % 2] for one in row],
        PARITY,
        seen={BY_TENS: seen},
        steps=tuple(step("pairs-left", one // 2, one % 2) for one in row),
        difficulty=0.5,
    )


RULES: tuple[SkillRule, ...] = (SkillRule(SkillId("even-odd-pairs"), formats={SORT: _even_and_odd}),)
