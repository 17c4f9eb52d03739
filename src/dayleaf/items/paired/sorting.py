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
    from dayleaf.items.rule import Numbers

SORT = FormatId("sort")

SORTED = 6
"""How many things stand in one table."""


def sorting_row(n: int) -> tuple[int, ...]:
    """Six different numbers of 1 to 20, the first of them n, odd and even mixed."""
    return tuple((n - 1 + 3 * k * (k + 1) // 2) % 20 + 1 for k in range(SORTED))


def _even_and_odd(numbers: Numbers) -> Made:
    """Six numbers: each is even or odd."""
    row = sorting_row(numbers["n"])
    seen = [by_tens_digit(one) for one in row]
    return Made(
        Sort(tuple(Row((one,)) for one in row), PARITY),
        tuple(
            ring_fixed(PARITY[one % 2], PARITY, {BY_TENS: wrong}, str(place))
            for place, (one, wrong) in enumerate(zip(row, seen, strict=True), start=1)
        ),
        tuple(step("pairs-left", one // 2, one % 2) for one in row),
        {BY_TENS: " ".join(seen)},
        None,
        0.5,
    )


RULES: tuple[SkillRule, ...] = (SkillRule(SkillId("even-odd-pairs"), formats={SORT: _even_and_odd}),)
