"""Taking away within 100."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.items.model import Column, Figure, Gap, Row
from dayleaf.items.rule import Made, SkillRule
from dayleaf.items.steps import adding_digits, step, taking_digits
from dayleaf.items.two_numbers import (
    GAP,
    TwoNumbers,
    a_and_b,
    all_two_digit,
    answers_of,
    digit_puzzle,
    find_and_fix,
    hopping,
    in_a_row,
    in_columns,
    line_of_hops,
    mendable,
    number_part,
    ways_of,
)
from dayleaf.items.ways import addition
from dayleaf.items.ways import subtraction as ways

if TYPE_CHECKING:
    from dayleaf.items.model import Step
    from dayleaf.items.rule import Fits, Numbers

VERT, HORIZ, FIX, JUMP = FormatId("vert"), FormatId("horiz"), FormatId("fix"), FormatId("nl-jump")
MISSING, PUZZLE = FormatId("missing"), FormatId("digit-puzzle")

SMALLER_FROM_LARGER = ErrorWayId("smaller-from-larger")
TEN_NOT_REDUCED = ErrorWayId("ten-not-reduced")
ALWAYS_REGROUPS = ErrorWayId("always-regroups")
SIGN_IGNORED = ErrorWayId("sign-ignored")


def opens(a: int, b: int) -> bool:
    """Whether a ten has to be opened."""
    return a % 10 < b % 10


def hard(top: int, bottom: int) -> float:
    """How difficult a take-away is: facts far through ten and nothing left in the tens make it harder.

    The weights are ours (common practice, no source).
    """
    ones, take = top % 10, bottom % 10
    if ones >= take:
        return 0.1 + 0.02 * take
    return min(1.0, 0.3 + 0.05 * (take - ones) + (0.2 if ones == 0 else 0.0) + (0.1 if top - bottom < 10 else 0.0))


def _steps_in_tens(top: int, bottom: int) -> tuple[Step, ...]:
    left = (top - bottom) // 10
    return step("tens-minus-tens", top // 10, bottom // 10, left), step("tens-are", left, top - bottom)


def _steps_take_tens(top: int, bottom: int) -> tuple[Step, ...]:
    tens, ones = divmod(top, 10)
    return (
        step("take-tens", tens, bottom // 10, tens - bottom // 10),
        step("ones-stay", ones),
        step("check-by-adding", top - bottom, bottom, top),
    )


def _steps_split(top: int, bottom: int) -> tuple[Step, ...]:
    tens, ones = bottom // 10 * 10, bottom % 10
    if not ones:
        return (step("first-take", top, tens, top - tens),)
    return (
        step("split-number", bottom, tens, ones),
        step("first-take", top, tens, top - tens),
        step("then-take", top - tens, ones, top - bottom),
    )


def _steps_up(top: int, bottom: int) -> tuple[Step, ...]:
    ten = bottom + (-bottom % 10)
    if not bottom < ten < top:
        return step("jump-up", bottom, top - bottom, top), step("jumps-together", top - bottom)
    return (
        step("jump-up", bottom, ten - bottom, ten),
        step("jump-up", ten, top - ten, top),
        step("jumps-together", top - bottom),
    )


def _count_up_line(top: int, bottom: int) -> Figure:
    ten = bottom + (-bottom % 10)
    whole_tens = top // 10 * 10
    stops = sorted({bottom, top, *(stop for stop in (ten, whole_tens) if bottom < stop < top)})
    return line_of_hops(tuple(stops), blank_end=False)


def _pick(*names: str) -> dict[ErrorWayId, ways.Procedure]:
    return {ErrorWayId(name): ways.TWO_DIGIT[ErrorWayId(name)] for name in names}


WHOLE_TENS = TwoNumbers(
    "-",
    read=lambda numbers: (10 * numbers["a"], 10 * numbers["b"]),
    ways=_pick("drops-zero", "sign-ignored"),
    steps=_steps_in_tens,
    hard=lambda top, bottom: min(1.0, 0.01 * bottom + 0.002 * top),
    width=3,
)
NO_REGROUP = TwoNumbers(
    "-",
    read=a_and_b,
    ways=_pick("sign-ignored", "ones-only", "always-regroups"),
    steps=taking_digits,
    hard=lambda top, bottom: min(1.0, 0.04 * (top % 10 + bottom % 10) + (0.15 if bottom % 10 == 0 else 0.0)),
    width=3,
)
REGROUP = TwoNumbers(
    "-",
    read=a_and_b,
    ways=ways.OPENING,
    steps=taking_digits,
    hard=hard,
    width=3,
    mend=(SMALLER_FROM_LARGER, TEN_NOT_REDUCED),
)
FROM_WHOLE_TENS = TwoNumbers(
    "-",
    read=lambda numbers: (10 * numbers["a"], numbers["b"]),
    ways=ways.OPENING,
    steps=taking_digits,
    hard=lambda top, bottom: min(1.0, 0.06 * (bottom % 10) + (0.2 if top - bottom < 10 else 0.0)),
    width=3,
)
MIXED = TwoNumbers(
    "-",
    read=a_and_b,
    ways={ALWAYS_REGROUPS: ways.always_regroups, **ways.OPENING},
    steps=taking_digits,
    hard=hard,
    width=3,
    mend=(ALWAYS_REGROUPS, SMALLER_FROM_LARGER, TEN_NOT_REDUCED),
)
MINUS_TENS = TwoNumbers(
    "-",
    read=lambda numbers: (numbers["a"], 10 * numbers["b"]),
    ways=_pick("takes-tens-from-ones", "drops-ones", "sign-ignored"),
    steps=_steps_take_tens,
    hard=lambda top, bottom: min(1.0, 0.01 * bottom + 0.02 * (top % 10)),
    width=3,
)
MINUS_ONES = TwoNumbers(
    "-",
    read=a_and_b,
    ways=_pick("takes-from-tens", "sign-ignored"),
    steps=taking_digits,
    hard=lambda top, bottom: min(1.0, 0.05 * bottom + 0.02 * (top % 10)),
    width=3,
)
SPLIT = TwoNumbers(
    "-",
    read=a_and_b,
    ways=_pick("splits-both-loses-part", "second-jump-forward", "smaller-from-larger"),
    steps=_steps_split,
    hard=hard,
    width=3,
)
COUNT_UP = TwoNumbers(
    "-",
    read=a_and_b,
    ways=_pick("end-not-jumps", "jump-lost", "smaller-from-larger"),
    steps=_steps_up,
    hard=lambda top, bottom: min(1.0, 0.012 * (top - bottom) + (0.25 if opens(top, bottom) else 0.0)),
    width=3,
)


def _add_to_check(numbers: Numbers) -> Made:
    """62 - 38 = 24, 24 + [ ] = [ ]: what was taken and what it comes back to."""
    a, b = numbers["a"], numbers["b"]
    left = a - b
    return Made(
        Row((a, "-", b, "=", left, ",", left, "+", GAP, "=", Gap("2"))),
        (number_part(b, 2), number_part(a, 3, "2")),
        (step("check-by-adding", left, b, a),),
        {ErrorWayId("adds-the-wrong-two"): f"{a} {left + a}", ErrorWayId("copies-top-number"): f"{b} {a}"},
        None,
        hard(a, b),
    )


CHECK_WAYS = {
    ErrorWayId("ten-forgotten"): addition.ten_forgotten,
    ErrorWayId("writes-both-digits"): addition.writes_both_digits,
    ErrorWayId("digits-all-added"): addition.digits_all_added,
}


def _check_in_columns(numbers: Numbers) -> Made:
    """What is left and what was taken, under each other, to be added."""
    a, b = numbers["a"], numbers["b"]
    return Made(
        Column((a - b, b), "+", trades=True),
        (number_part(a, 3),),
        adding_digits(a - b, b),
        answers_of(CHECK_WAYS, a - b, b),
        None,
        hard(a, b),
    )


CHECKED = TwoNumbers(
    "-",
    read=a_and_b,
    ways=ways.OPENING,
    steps=taking_digits,
    hard=hard,
    width=3,
    mend=(SMALLER_FROM_LARGER, TEN_NOT_REDUCED),
)


def _rule(
    skill: str,
    kind: TwoNumbers,
    *formats: FormatId,
    ten_first: bool = False,
    half: Fits | None = None,
) -> SkillRule:
    makers = {
        VERT: lambda: in_columns(kind, trades=True),
        HORIZ: lambda: in_a_row(kind),
        FIX: lambda: find_and_fix(kind),
        PUZZLE: lambda: digit_puzzle(kind),
        JUMP: lambda: hopping(kind, ten_first=ten_first),
    }
    narrow = {FIX: mendable, PUZZLE: all_two_digit}
    return SkillRule(
        SkillId(skill),
        formats={format_id: makers[format_id]() for format_id in formats},
        ways=ways_of(kind),
        fits={format_id: narrow[format_id](kind) for format_id in formats if format_id in narrow},
        half=half,
    )


RULES: tuple[SkillRule, ...] = (
    _rule("sub-tens-from-tens", WHOLE_TENS, HORIZ, JUMP),
    _rule("sub-2digit-tens", MINUS_TENS, HORIZ, VERT, JUMP),
    _rule("sub-2digit-1digit-no-regroup", MINUS_ONES, HORIZ, VERT, JUMP),
    _rule("sub-2digit-no-regroup", NO_REGROUP, VERT, HORIZ),
    _rule("sub-2digit-1digit-regroup", REGROUP, VERT, HORIZ, JUMP, ten_first=True),
    _rule("sub-2digit-regroup", REGROUP, VERT, HORIZ, FIX),
    _rule("sub-2digit-multiple-of-10", FROM_WHOLE_TENS, VERT, HORIZ, JUMP),
    _rule("sub-2digit-mixed", MIXED, VERT, HORIZ, PUZZLE, FIX, half=lambda numbers: opens(*a_and_b(numbers))),
    _rule("sub-2digit-mental-split", SPLIT, JUMP, HORIZ),
    SkillRule(
        SkillId("sub-2digit-numberline-count-up"),
        formats={JUMP: in_a_row(COUNT_UP, _count_up_line), HORIZ: in_a_row(COUNT_UP)},
        ways=ways_of(COUNT_UP),
    ),
    SkillRule(
        SkillId("sub-check-by-adding"),
        formats={MISSING: _add_to_check, VERT: _check_in_columns, FIX: find_and_fix(CHECKED)},
        fits={FIX: mendable(CHECKED)},
    ),
)
