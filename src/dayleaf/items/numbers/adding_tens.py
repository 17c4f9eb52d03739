"""Adding within 100."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.items.choices import ring_one
from dayleaf.items.model import Question
from dayleaf.items.rule import Made, SkillRule
from dayleaf.items.steps import adding_digits, step
from dayleaf.items.two_numbers import (
    TwoNumbers,
    a_and_b,
    all_two_digit,
    answers_of,
    digit_puzzle,
    find_and_fix,
    hopping,
    in_a_row,
    in_columns,
    mendable,
    number_part,
    second_missing,
    ways_of,
)
from dayleaf.items.ways import addition as ways

if TYPE_CHECKING:
    from dayleaf.items.model import Step
    from dayleaf.items.rule import Numbers

VERT, HORIZ, FIX, JUMP = FormatId("vert"), FormatId("horiz"), FormatId("fix"), FormatId("nl-jump")
MISSING, PUZZLE, ESTIMATE, CHOOSE = (
    FormatId("missing"),
    FormatId("digit-puzzle"),
    FormatId("estimate"),
    FormatId("choose"),
)

ALWAYS_REGROUPS = ErrorWayId("always-regroups")
TEN_FORGOTTEN = ErrorWayId("ten-forgotten")
WRITES_BOTH = ErrorWayId("writes-both-digits")
DIGITS_ALL_ADDED = ErrorWayId("digits-all-added")
TEN_WRITTEN = ErrorWayId("ten-written-one-carried")
SIGN_IGNORED = ErrorWayId("sign-ignored")
EXACT_FIRST = ErrorWayId("exact-first")
ONE_ONLY = ErrorWayId("rounds-one-only")

TRADING = {
    TEN_FORGOTTEN: ways.ten_forgotten,
    WRITES_BOTH: ways.writes_both_digits,
    TEN_WRITTEN: ways.ten_written_one_carried,
    DIGITS_ALL_ADDED: ways.digits_all_added,
    SIGN_IGNORED: ways.sign_ignored,
}
"""The wider list for the strand: ways with a ten to trade."""


def trades(a: int, b: int) -> bool:
    """Whether the ones make a ten."""
    return a % 10 + b % 10 >= 10


def hard(a: int, b: int) -> float:
    """How difficult a sum is: a trade makes it harder, and so do facts far beyond ten.

    The weights are ours (common practice, no source).
    """
    ones = a % 10 + b % 10
    return 0.02 * ones if ones < 10 else min(1.0, 0.35 + 0.04 * (ones - 10) + 0.04 * min(a % 10, b % 10))


def _steps_tens(a: int, b: int) -> tuple[Step, ...]:
    return step("add-tens", a // 10, b // 10, (a + b) // 10), step("ones-stay", a % 10), step("sum-is", a, b, a + b)


def _steps_split(a: int, b: int) -> tuple[Step, ...]:
    tens, ones = b // 10 * 10, b % 10
    if not ones:
        return (step("first-add", a, tens, a + tens),)
    return (
        step("split-number", b, tens, ones),
        step("first-add", a, tens, a + tens),
        step("then-add", a + tens, ones, a + b),
    )


def _steps_bridge(a: int, b: int) -> tuple[Step, ...]:
    moved = -a % 10
    if moved == b:
        return (step("sum-is", a, b, a + b),)
    return (
        step("split-number", b, moved, b - moved),
        step("first-add", a, moved, a + moved),
        step("then-add", a + moved, b - moved, a + b),
    )


def _steps_helper(a: int, b: int) -> tuple[Step, ...]:
    helper = -a % 10
    return (
        step("helper-add", a, helper, a + helper),
        step("first-add", a + helper, b, a + helper + b),
        step("helper-off", a + helper + b, helper, a + b),
    )


def _steps_about(a: int, b: int) -> tuple[Step, ...]:
    near_a, near_b = ways.rounded(a), ways.rounded(b)
    return (
        step("round-number", a, near_a),
        step("round-number", b, near_b),
        step("about-sum", near_a, near_b, near_a + near_b),
    )


PLUS_TENS = TwoNumbers(
    "+",
    read=lambda numbers: (numbers["a"], 10 * numbers["b"]),
    ways={
        ErrorWayId("adds-to-ones"): ways.adds_to_ones,
        ErrorWayId("drops-ones"): ways.drops_ones,
        SIGN_IGNORED: ways.sign_ignored,
    },
    steps=_steps_tens,
    hard=lambda a, b: min(1.0, 0.008 * b + 0.02 * (a % 10)),
    width=2,
)
NO_BRIDGE = TwoNumbers(
    "+",
    read=a_and_b,
    ways={
        ErrorWayId("adds-to-tens"): ways.adds_to_tens,
        ErrorWayId("digit-added-to-tens-too"): ways.digit_added_to_tens_too,
        SIGN_IGNORED: ways.sign_ignored,
    },
    steps=adding_digits,
    hard=lambda a, b: min(1.0, 0.06 * b + 0.03 * (a % 10)),
    width=3,
)
OVER_100 = TwoNumbers(
    "+",
    read=a_and_b,
    ways={
        ErrorWayId("hundred-dropped"): ways.hundred_dropped,
        TEN_FORGOTTEN: ways.ten_forgotten,
        ErrorWayId("adds-from-the-left"): ways.adds_from_the_left,
        WRITES_BOTH: ways.writes_both_digits,
    },
    steps=adding_digits,
    hard=hard,
    width=4,
)
NO_REGROUP = TwoNumbers(
    "+",
    read=a_and_b,
    ways={
        DIGITS_ALL_ADDED: ways.digits_all_added,
        ErrorWayId("misaligned"): ways.misaligned,
        ALWAYS_REGROUPS: ways.always_regroups,
        SIGN_IGNORED: ways.sign_ignored,
    },
    steps=adding_digits,
    hard=lambda a, b: min(1.0, 0.03 * (a % 10 + b % 10) + 0.03 * (a // 10 + b // 10)),
    width=3,
)
BRIDGE = TwoNumbers(
    "+",
    read=a_and_b,
    ways={
        TEN_FORGOTTEN: ways.ten_forgotten,
        WRITES_BOTH: ways.writes_both_digits,
        ErrorWayId("digit-added-to-tens-too"): ways.digit_added_to_tens_too,
    },
    steps=_steps_bridge,
    hard=hard,
    width=3,
    partner={ErrorWayId("does-the-sign-shown"): lambda a, result: a + result},
)
REGROUP = TwoNumbers(
    "+", read=a_and_b, ways=TRADING, steps=adding_digits, hard=hard, width=3, mend=(WRITES_BOTH, TEN_FORGOTTEN)
)
MIXED = TwoNumbers(
    "+",
    read=a_and_b,
    ways={ALWAYS_REGROUPS: ways.always_regroups, **TRADING},
    steps=adding_digits,
    hard=hard,
    width=3,
    mend=(ALWAYS_REGROUPS, TEN_FORGOTTEN),
)
SPLIT = TwoNumbers(
    "+",
    read=a_and_b,
    ways={
        ErrorWayId("splits-both-loses-part"): ways.splits_both_loses_part,
        ErrorWayId("adds-tens-as-ones"): ways.adds_tens_as_ones,
        TEN_FORGOTTEN: ways.ten_forgotten,
    },
    steps=_steps_split,
    hard=hard,
    width=2,
)
HELPER = TwoNumbers(
    "+",
    read=a_and_b,
    ways={
        ErrorWayId("compensates-wrong-way"): ways.compensates_wrong_way,
        ErrorWayId("helper-forgotten"): ways.helper_forgotten,
        TEN_FORGOTTEN: ways.ten_forgotten,
    },
    steps=_steps_helper,
    hard=lambda a, b: min(1.0, 0.1 * (-a % 10) + 0.06 * (b % 10)),
    width=3,
)
ABOUT = TwoNumbers(
    "+",
    read=a_and_b,
    ways={EXACT_FIRST: ways.exact_first, ONE_ONLY: ways.rounds_one_only},
    steps=_steps_about,
    hard=lambda a, b: 0.3 + 0.1 * ((a % 10 == 5) + (b % 10 == 5)) + 0.004 * (a + b) // 2,
    width=3,
)


def _about_how_much(numbers: Numbers) -> Made:
    """About how much is 43 + 28? Round first, then add."""
    a, b = a_and_b(numbers)
    return Made(
        Question("about-sum", {"a": a, "b": b}),
        (number_part(ways.rounded(a) + ways.rounded(b), ABOUT.width),),
        _steps_about(a, b),
        ABOUT.errors(a, b),
        None,
        ABOUT.hard(a, b),
    )


def _ring_about(numbers: Numbers) -> Made:
    a, b = a_and_b(numbers)
    errors = answers_of({**ABOUT.ways, ErrorWayId("estimate-is-exact"): lambda x, y: x + y}, a, b)
    return Made(
        Question("about-sum", {"a": a, "b": b}),
        (ring_one(str(ways.rounded(a) + ways.rounded(b)), errors, turn=a + 2 * b),),
        _steps_about(a, b),
        errors,
        None,
        ABOUT.hard(a, b),
    )


RULES: tuple[SkillRule, ...] = (
    SkillRule(
        SkillId("add-2digit-tens"),
        formats={
            HORIZ: in_a_row(PLUS_TENS),
            VERT: in_columns(PLUS_TENS, trades=False),
            JUMP: hopping(PLUS_TENS, ten_first=False),
        },
        ways=ways_of(PLUS_TENS),
    ),
    SkillRule(
        SkillId("add-2digit-1digit-no-bridge"),
        formats={
            HORIZ: in_a_row(NO_BRIDGE),
            VERT: in_columns(NO_BRIDGE, trades=False),
            JUMP: hopping(NO_BRIDGE, ten_first=True),
        },
        ways=ways_of(NO_BRIDGE),
    ),
    SkillRule(
        SkillId("add-2digit-sum-over-100"),
        formats={
            VERT: in_columns(OVER_100, trades=True),
            HORIZ: in_a_row(OVER_100),
            JUMP: hopping(OVER_100, ten_first=False),
        },
        ways=ways_of(OVER_100),
    ),
    SkillRule(
        SkillId("add-2digit-no-regroup"),
        formats={VERT: in_columns(NO_REGROUP, trades=True), HORIZ: in_a_row(NO_REGROUP)},
        ways=ways_of(NO_REGROUP),
    ),
    SkillRule(
        SkillId("add-2digit-1digit-bridge"),
        formats={
            HORIZ: in_a_row(BRIDGE),
            JUMP: hopping(BRIDGE, ten_first=True),
            MISSING: second_missing(BRIDGE, width=3),
        },
        ways=ways_of(BRIDGE),
    ),
    SkillRule(
        SkillId("add-2digit-regroup-ones"),
        formats={VERT: in_columns(REGROUP, trades=True), HORIZ: in_a_row(REGROUP), FIX: find_and_fix(REGROUP)},
        ways=ways_of(REGROUP),
        fits={FIX: mendable(REGROUP)},
    ),
    SkillRule(
        SkillId("add-2digit-mixed"),
        formats={
            VERT: in_columns(MIXED, trades=True),
            HORIZ: in_a_row(MIXED),
            PUZZLE: digit_puzzle(MIXED),
            FIX: find_and_fix(MIXED),
        },
        ways=ways_of(MIXED),
        fits={FIX: mendable(MIXED), PUZZLE: all_two_digit(MIXED)},
        half=lambda numbers: trades(*a_and_b(numbers)),
    ),
    SkillRule(
        SkillId("add-2digit-mental-split"),
        formats={JUMP: hopping(SPLIT, ten_first=False), HORIZ: in_a_row(SPLIT)},
        ways=ways_of(SPLIT),
        half=lambda numbers: trades(*a_and_b(numbers)),
    ),
    SkillRule(SkillId("add-2digit-compensate"), formats={HORIZ: in_a_row(HELPER)}, ways=ways_of(HELPER)),
    SkillRule(
        SkillId("add-estimate-2digit"),
        formats={ESTIMATE: _about_how_much, CHOOSE: _ring_about},
        ways=ways_of(ABOUT),
    ),
)
