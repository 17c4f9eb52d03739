"""Taking away within 100."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.items.model import Step
from dayleaf.items.rule import SkillRule
from dayleaf.items.two_numbers import TwoNumbers, find_and_fix, in_a_row, in_columns, mendable, ways_of
from dayleaf.items.ways.subtraction import OPENING

if TYPE_CHECKING:
    from dayleaf.items.rule import Numbers


def a_and_b(numbers: Numbers) -> tuple[int, int]:
    """The two numbers where the rule calls them a and b."""
    return numbers["a"], numbers["b"]


def digit_steps(top: int, bottom: int) -> tuple[Step, ...]:
    """The written way: look at the ones, open a ten if they are too few, take ones, take tens, check."""
    tens, ones = divmod(top, 10)
    take_tens, take_ones = divmod(bottom, 10)
    looked: tuple[Step, ...]
    if ones >= take_ones:
        looked = (Step("enough-ones", {"top": ones, "bottom": take_ones}),)
    else:
        looked = (
            Step("too-few-ones", {"top": ones, "bottom": take_ones}),
            Step("open-ten", {"tens": tens, "tens_left": tens - 1, "ones": ones + 10}),
        )
        tens, ones = tens - 1, ones + 10
    return (
        *looked,
        Step("take-ones", {"from": ones, "take": take_ones, "left": ones - take_ones}),
        Step("take-tens", {"from": tens, "take": take_tens, "left": tens - take_tens}),
        Step("check-by-adding", {"left": top - bottom, "taken": bottom, "start": top}),
    )


def hard_to_open(top: int, bottom: int) -> float:
    """How difficult a take-away is: facts far through ten and nothing left in the tens make it harder.

    The weights are ours (common practice, no source).
    """
    ones, take = top % 10, bottom % 10
    if ones >= take:
        return 0.15 + 0.02 * take
    return min(1.0, 0.3 + 0.05 * (take - ones) + (0.2 if ones == 0 else 0.0) + (0.1 if top - bottom < 10 else 0.0))


REGROUP = TwoNumbers(
    "-",
    read=a_and_b,
    ways=OPENING,
    steps=digit_steps,
    hard=hard_to_open,
    width=3,
    mend=(ErrorWayId("smaller-from-larger"), ErrorWayId("ten-not-reduced")),
)

RULES: tuple[SkillRule, ...] = (
    SkillRule(
        SkillId("sub-2digit-regroup"),
        formats={
            FormatId("vert"): in_columns(REGROUP, trades=True),
            FormatId("horiz"): in_a_row(REGROUP),
            FormatId("fix"): find_and_fix(REGROUP),
        },
        ways=ways_of(REGROUP),
        fits={FormatId("fix"): mendable(REGROUP)},
    ),
)
