"""Systematic ways to take away wrongly, column by column, for tops of at most two digits.

Sources for the procedures: Brown & Burton 1978; Brown & VanLehn 1980; VanLehn 1990 (names and examples as
collected in the project's check values, D.1). The descriptions, ids and code are our own. Where its trigger is
absent each procedure gives the right answer, except those that never look at the digits.

All take the top and the bottom number, 0 <= bottom <= top <= 99, and give the number written.
"""

from __future__ import annotations

from collections.abc import Callable
from types import MappingProxyType
from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId

if TYPE_CHECKING:
    from collections.abc import Mapping

Procedure = Callable[[int, int], int | None]


def smaller_from_larger(top: int, bottom: int) -> int:
    """In each column the smaller digit is taken from the larger: 62 - 38 gives 36."""
    return 10 * abs(top // 10 - bottom // 10) + abs(top % 10 - bottom % 10)


def ten_not_reduced(top: int, bottom: int) -> int:
    """A ten is opened but the tens digit stays as it was: 62 - 38 gives 34."""
    return 10 * (top // 10 - bottom // 10) + (top - bottom) % 10


def zero_minus_is_digit(top: int, bottom: int) -> int:
    """Under a zero the lower digit is copied down: 90 - 36 gives 66."""
    if top % 10:
        return top - bottom
    return 10 * (top // 10 - bottom // 10) + bottom % 10


def zero_minus_is_zero(top: int, bottom: int) -> int:
    """Under a zero a zero is written: 90 - 36 gives 60."""
    if top % 10:
        return top - bottom
    return 10 * (top // 10 - bottom // 10)


def sign_ignored(top: int, bottom: int) -> int:
    """The two numbers are added: 62 - 38 gives 100."""
    return top + bottom


def ten_added_to_lender(top: int, bottom: int) -> int:
    """The tens digit is raised instead of lowered: 62 - 38 gives 44."""
    if top % 10 >= bottom % 10:
        return top - bottom
    return 10 * (top // 10 + 1 - bottom // 10) + (top - bottom) % 10


def zero_instead_of_opening(top: int, bottom: int) -> int:
    """Where the ones are too few a zero is written: 42 - 16 gives 30."""
    if top % 10 >= bottom % 10:
        return top - bottom
    return 10 * (top // 10 - bottom // 10)


def top_instead_of_opening(top: int, bottom: int) -> int:
    """Where the ones are too few the upper digit is copied: 54 - 29 gives 34."""
    if top % 10 >= bottom % 10:
        return top - bottom
    return 10 * (top // 10 - bottom // 10) + top % 10


def always_regroups(top: int, bottom: int) -> int:
    """The tens digit is lowered though no ten was opened: 75 - 32 gives 33."""
    return 10 * max(top // 10 - bottom // 10 - 1, 0) + (top - bottom) % 10


def ones_only(top: int, bottom: int) -> int:
    """The ones are taken and the tens copied: 68 - 23 gives 65."""
    return 10 * (top // 10) + abs(top % 10 - bottom % 10)


def drops_zero(top: int, bottom: int) -> int:
    """Whole tens are answered in ones: 70 - 30 gives 4."""
    return (top - bottom) // 10


def takes_tens_from_ones(top: int, bottom: int) -> int:
    """The tens digit is taken as ones: 58 - 20 gives 56."""
    return top - bottom // 10


def splits_both_loses_part(top: int, bottom: int) -> int:
    """The second number is split and its ones are forgotten: 62 - 38 gives 32."""
    return top - bottom // 10 * 10


def end_not_jumps(top: int, _bottom: int) -> int:
    """Counting up, the number landed on is given: 62 - 47 gives 62."""
    return top


def jump_lost(top: int, bottom: int) -> int | None:
    """Counting up, the first small jump to a ten is forgotten: 62 - 47 gives 12."""
    nearest = bottom + (-bottom % 10)
    return top - nearest if bottom < nearest <= top else None


def takes_from_tens(top: int, bottom: int) -> int | None:
    """A one-digit number is taken from the tens digit: 58 - 3 gives 28."""
    return top - 10 * bottom if bottom <= top // 10 else None


def second_jump_forward(top: int, bottom: int) -> int:
    """After the tens the ones are jumped forward again: 62 - 38 gives 40."""
    return top - bottom // 10 * 10 + bottom % 10


def drops_ones(top: int, bottom: int) -> int:
    """Only the tens are answered: 58 - 20 gives 30."""
    return (top // 10 - bottom // 10) * 10


TWO_DIGIT: Mapping[ErrorWayId, Procedure] = MappingProxyType(
    {
        ErrorWayId("smaller-from-larger"): smaller_from_larger,
        ErrorWayId("ten-not-reduced"): ten_not_reduced,
        ErrorWayId("zero-minus-is-digit"): zero_minus_is_digit,
        ErrorWayId("zero-minus-is-zero"): zero_minus_is_zero,
        ErrorWayId("sign-ignored"): sign_ignored,
        ErrorWayId("ten-added-to-lender"): ten_added_to_lender,
        ErrorWayId("zero-instead-of-opening"): zero_instead_of_opening,
        ErrorWayId("top-instead-of-opening"): top_instead_of_opening,
        ErrorWayId("always-regroups"): always_regroups,
        ErrorWayId("ones-only"): ones_only,
        ErrorWayId("drops-zero"): drops_zero,
        ErrorWayId("drops-ones"): drops_ones,
        ErrorWayId("takes-tens-from-ones"): takes_tens_from_ones,
        ErrorWayId("splits-both-loses-part"): splits_both_loses_part,
        ErrorWayId("end-not-jumps"): end_not_jumps,
        ErrorWayId("jump-lost"): jump_lost,
        ErrorWayId("takes-from-tens"): takes_from_tens,
        ErrorWayId("second-jump-forward"): second_jump_forward,
    }
)
"""Every procedure of this module by its id."""

OPENING: Mapping[ErrorWayId, Procedure] = MappingProxyType({way: TWO_DIGIT[way] for way in tuple(TWO_DIGIT)[:8]})
"""The wider list for the strand: the first eight, for two-digit numbers with a ten to open."""
