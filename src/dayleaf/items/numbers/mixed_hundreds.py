"""Adding and taking away within 1000 with both signs on one page, and with four digits."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.core.seeds import seed_from
from dayleaf.items.choices import ring_fixed
from dayleaf.items.model import Row
from dayleaf.items.numbers import adding_hundreds, taking_hundreds
from dayleaf.items.place_steps import adding_places, taking_places
from dayleaf.items.rule import Made, Maker, SkillRule
from dayleaf.items.steps import step
from dayleaf.items.two_numbers import (
    GAP,
    TwoNumbers,
    a_and_b,
    all_three_digit,
    digit_puzzle,
    find_and_fix,
    in_a_row,
    in_columns,
    mendable,
    ways_of,
)
from dayleaf.items.ways import places
from dayleaf.items.ways.together import within

if TYPE_CHECKING:
    from dayleaf.items.rule import Fits, Numbers

VERT, HORIZ, FIX, SIGN = FormatId("vert"), FormatId("horiz"), FormatId("fix"), FormatId("sign")
PUZZLE = FormatId("digit-puzzle")

TRADE_WRONG_WAY = ErrorWayId("trade-wrong-way")
LENDER_RAISED = ErrorWayId("ten-added-to-lender")
WIDTH = 4

PLUS = TwoNumbers(
    "+",
    read=a_and_b,
    ways={**adding_hundreds.trading(), **within(WIDTH, {TRADE_WRONG_WAY: places.carried_off})},
    steps=adding_places,
    hard=adding_hundreds.hard,
    width=WIDTH,
    mend=(adding_hundreds.TEN_FORGOTTEN, adding_hundreds.SECOND_FORGOTTEN, TRADE_WRONG_WAY),
)
MINUS = TwoNumbers(
    "-",
    read=a_and_b,
    ways=taking_hundreds.published("ten-added-to-lender", renamed={TRADE_WRONG_WAY: LENDER_RAISED}),
    steps=taking_places,
    hard=taking_hundreds.hard,
    width=WIDTH,
    mend=(taking_hundreds.SMALLER_FROM_LARGER, taking_hundreds.TEN_NOT_REDUCED, TRADE_WRONG_WAY),
)


def _minus(numbers: Numbers) -> bool:
    return numbers["k"] == 1


def _either(plus: Maker, minus: Maker) -> Maker:
    return lambda numbers: minus(numbers) if _minus(numbers) else plus(numbers)


def _either_fits(plus: Fits, minus: Fits) -> Fits:
    return lambda numbers: minus(numbers) if _minus(numbers) else plus(numbers)


def _sign(numbers: Numbers) -> Made:
    """703 ( ) 256 = 447."""
    a, b = a_and_b(numbers)
    kind = MINUS if _minus(numbers) else PLUS
    result = kind.result(a, b)
    errors = {ErrorWayId("plus-by-habit"): "+"}
    return Made(
        Row((a, GAP, b, "=", result)),
        (ring_fixed(kind.sign, ("+", "-"), errors),),
        (step("result-shrank" if _minus(numbers) else "result-grew", a, result),),
        errors,
        None,
        kind.hard(a, b),
    )


_COLUMNS = _either(in_columns(PLUS, trades=True), in_columns(MINUS, trades=True))
_PUZZLES = _either(digit_puzzle(PLUS), digit_puzzle(MINUS))
_THREE_DIGITS = _either_fits(all_three_digit(PLUS), all_three_digit(MINUS))


def _four_digit_sum(numbers: Numbers) -> tuple[int, int]:
    """The first number, and the k-th of the second numbers with which it trades at least once up to 9999.

    The first number does not end in 0, so that a second one ending in 9 always trades.
    """
    a, k = numbers["a"], numbers["k"]
    room = 9999 - a
    most = room if k % 4 else min(room, 899)
    b = 11 + seed_from("four-digit-sum", a, k) % (most - 10)
    if not places.trades(a, b):
        b += 9 - b % 10
    return a, b if b <= room else b - 10


def _four_digit_difference(numbers: Numbers) -> tuple[int, int]:
    """The first number, and the k-th of the second numbers for which it has to be opened.

    Where nothing has to be opened a 9 goes under the first digit (from the ones) that is smaller.
    """
    a, k = numbers["a"], numbers["k"]
    most = a - 1 if k % 4 else min(a - 1, 899)
    b = 11 + seed_from("four-digit-difference", a, k) % (most - 10)
    if not places.openings(a, b):
        one = next(one for one in (1, 10, 100) if a // one % 10 < 9)
        b += (9 - b // one % 10) * one
    return a, b if b < a else b - 1000


FOUR_PLUS = TwoNumbers(
    "+",
    read=_four_digit_sum,
    ways=adding_hundreds.trading(width=5),
    steps=adding_places,
    hard=adding_hundreds.hard,
    width=5,
)
FOUR_MINUS = TwoNumbers(
    "-",
    read=_four_digit_difference,
    ways=taking_hundreds.published(width=5),
    steps=taking_places,
    hard=taking_hundreds.hard,
    width=5,
)

RULES: tuple[SkillRule, ...] = (
    SkillRule(
        SkillId("add-sub-3digit-mixed"),
        formats={
            VERT: _COLUMNS,
            SIGN: _sign,
            FIX: _either(find_and_fix(PLUS), find_and_fix(MINUS)),
            PUZZLE: _PUZZLES,
        },
        fits={FIX: _either_fits(mendable(PLUS), mendable(MINUS)), PUZZLE: _THREE_DIGITS},
        half=_minus,
    ),
    SkillRule(
        SkillId("add-sub-1000-fluent"),
        formats={VERT: _COLUMNS, HORIZ: _either(in_a_row(PLUS), in_a_row(MINUS)), PUZZLE: _PUZZLES},
        fits={PUZZLE: _THREE_DIGITS},
        half=_minus,
    ),
    SkillRule(
        SkillId("add-4digit-regroup"), formats={VERT: in_columns(FOUR_PLUS, trades=True)}, ways=ways_of(FOUR_PLUS)
    ),
    SkillRule(
        SkillId("sub-4digit-regroup"), formats={VERT: in_columns(FOUR_MINUS, trades=True)}, ways=ways_of(FOUR_MINUS)
    ),
)
