"""Adding with three digits, and adding several two-digit numbers."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.items.choices import ring_one
from dayleaf.items.model import Column, Question, Row
from dayleaf.items.place_steps import adding_places
from dayleaf.items.rule import Made, SkillRule
from dayleaf.items.steps import step
from dayleaf.items.two_numbers import (
    GAP,
    TwoNumbers,
    a_and_b,
    all_three_digit,
    answers_of,
    digit_puzzle,
    find_and_fix,
    in_a_row,
    in_columns,
    line_of_hops,
    mendable,
    number_part,
    ways_of,
)
from dayleaf.items.ways import places
from dayleaf.items.ways.together import within

if TYPE_CHECKING:
    from dayleaf.items.model import Figure, Prompt, Step
    from dayleaf.items.rule import Numbers
    from dayleaf.items.two_numbers import Procedure

VERT, HORIZ, FIX, JUMP = FormatId("vert"), FormatId("horiz"), FormatId("fix"), FormatId("nl-jump")
PUZZLE, ESTIMATE, CHOOSE = FormatId("digit-puzzle"), FormatId("estimate"), FormatId("choose")

WRITES_BOTH = ErrorWayId("writes-both-digits")
TEN_FORGOTTEN = ErrorWayId("ten-forgotten")
HUNDRED_FORGOTTEN = ErrorWayId("hundred-forgotten")
SECOND_FORGOTTEN = ErrorWayId("second-trade-forgotten")
ALWAYS_TRADES = ErrorWayId("always-regroups")
MISALIGNED = ErrorWayId("misaligned")
SIGN_IGNORED = ErrorWayId("sign-ignored")

WIDTH = 4

TRADING: dict[ErrorWayId, Procedure] = {
    WRITES_BOTH: places.writes_both_digits,
    TEN_FORGOTTEN: places.ten_forgotten,
    HUNDRED_FORGOTTEN: places.hundred_forgotten,
    SECOND_FORGOTTEN: places.second_trade_forgotten,
    ALWAYS_TRADES: places.always_trades,
    MISALIGNED: places.aligned_left,
    SIGN_IGNORED: places.taken_instead,
}
"""Every way to add in columns wrongly that is known here."""


def trading(*but: ErrorWayId, width: int = WIDTH) -> dict[ErrorWayId, Procedure]:
    """The ways but those named, where their answers have room in the boxes."""
    return within(width, {way: go for way, go in TRADING.items() if way not in but})


def hard(a: int, b: int) -> float:
    """Each trade makes a sum harder (common practice, no source for the weights)."""
    return min(1.0, 0.1 + 0.3 * len(places.trades(a, b)) + 0.01 * (a % 10 + b % 10))


def _kind(ways: dict[ErrorWayId, Procedure], *mend: ErrorWayId) -> TwoNumbers:
    return TwoNumbers("+", read=a_and_b, ways=ways, steps=adding_places, hard=hard, width=WIDTH, mend=mend)


NO_REGROUP = _kind(
    {
        ErrorWayId("column-skipped"): places.column_skipped,
        **trading(WRITES_BOTH, TEN_FORGOTTEN, HUNDRED_FORGOTTEN, SECOND_FORGOTTEN),
    }
)
ONES_TRADE = _kind(trading(HUNDRED_FORGOTTEN, SECOND_FORGOTTEN), WRITES_BOTH, TEN_FORGOTTEN)
TENS_TRADE = _kind(trading(TEN_FORGOTTEN, SECOND_FORGOTTEN), WRITES_BOTH, HUNDRED_FORGOTTEN)
BOTH_TRADE = _kind(trading(HUNDRED_FORGOTTEN), SECOND_FORGOTTEN, TEN_FORGOTTEN)


def _with_tens(numbers: Numbers) -> tuple[int, int]:
    return numbers["a"], 10 * numbers["b"]


def _stops(a: int, b: int) -> tuple[int, ...]:
    """First the hundreds of the second number, then its tens."""
    return a, a + b // 100 * 100, a + b


def _steps_jumps(a: int, b: int) -> tuple[Step, ...]:
    return tuple(step("jump-up", start, end - start, end) for start, end in pairwise(_stops(a, b)) if start != end)


def _line(a: int, b: int) -> Figure:
    return line_of_hops(tuple(dict.fromkeys(_stops(a, b))))


IN_THE_HEAD = TwoNumbers(
    "+",
    read=_with_tens,
    ways={
        ErrorWayId("splits-both-loses-part"): places.tens_lost,
        ErrorWayId("adds-tens-as-ones"): places.tens_as_ones,
    },
    steps=_steps_jumps,
    hard=lambda a, b: min(1.0, 0.15 + b / 3000 + 0.4 * (a // 10 % 10 + b // 10 % 10 > 9)),
    width=3,
)


def _addends(numbers: Numbers) -> tuple[int, ...]:
    return tuple(numbers[name] for name in "abde" if numbers[name])


def _steps_all(addends: tuple[int, ...]) -> tuple[Step, ...]:
    ones = sum(one % 10 for one in addends)
    total = sum(addends)
    trade = (step("trade-tens", ones, ones // 10, ones % 10),) if ones > 9 else ()
    return (step("ones-of-all", ones), *trade, step("tens-of-all", total // 10), step("all-is", total))


def _several(numbers: Numbers, *, columns: bool) -> Made:
    """Three or four numbers to add at once."""
    addends = _addends(numbers)
    ones = sum(one % 10 for one in addends)
    first, *others = addends
    row = Row((first, *(token for other in others for token in ("+", other)), "=", GAP))
    prompt: Prompt = Column(addends, "+", trades=True) if columns else row
    return Made(
        prompt,
        (number_part(sum(addends), 3),),
        _steps_all(addends),
        {
            ErrorWayId("drops-addend"): str(places.last_dropped(*addends)),
            ErrorWayId("only-one-ten-traded"): str(places.ten_once(*addends)),
            TEN_FORGOTTEN: str(sum(addends) - ones // 10 * 10),
        },
        None,
        min(1.0, 0.15 * len(addends) + 0.01 * ones),
    )


def _about_steps(a: int, b: int) -> tuple[Step, ...]:
    near_a, near_b = places.nearest(a, 100), places.nearest(b, 100)
    return (
        step("round-number", a, near_a),
        step("round-number", b, near_b),
        step("about-sum", near_a, near_b, near_a + near_b),
    )


ABOUT: dict[ErrorWayId, Procedure] = {
    ErrorWayId("exact-first"): lambda a, b: places.nearest(a + b, 100),
    ErrorWayId("always-down"): lambda a, b: a // 100 * 100 + b // 100 * 100,
}
EXACT = {**ABOUT, ErrorWayId("estimate-is-exact"): lambda a, b: a + b}


def _about(numbers: Numbers, *, ring: bool) -> Made:
    """About how much is 290 + 480? Round to hundreds first, then add."""
    a, b = a_and_b(numbers)
    errors = answers_of(EXACT if ring else ABOUT, a, b)
    right = places.nearest(a, 100) + places.nearest(b, 100)
    return Made(
        Question("about-sum-hundreds", {"a": a, "b": b}),
        (ring_one(str(right), errors, turn=a + 2 * b) if ring else number_part(right, 4),),
        _about_steps(a, b),
        errors,
        None,
        min(1.0, 0.3 + 0.15 * ((a % 100 == 50) + (b % 100 == 50)) + (a + b) / 3000),
    )


def _rule(skill: str, kind: TwoNumbers, *formats: FormatId) -> SkillRule:
    makers = {
        VERT: lambda: in_columns(kind, trades=True),
        HORIZ: lambda: in_a_row(kind),
        FIX: lambda: find_and_fix(kind),
        PUZZLE: lambda: digit_puzzle(kind),
        JUMP: lambda: in_a_row(kind, _line),
    }
    narrow = {FIX: mendable, PUZZLE: all_three_digit}
    return SkillRule(
        SkillId(skill),
        formats={format_id: makers[format_id]() for format_id in formats},
        ways=ways_of(kind),
        fits={format_id: narrow[format_id](kind) for format_id in formats if format_id in narrow},
    )


RULES: tuple[SkillRule, ...] = (
    _rule("add-3digit-no-regroup", NO_REGROUP, VERT, HORIZ),
    _rule("add-3digit-regroup-ones", ONES_TRADE, VERT, HORIZ, FIX),
    _rule("add-3digit-regroup-tens", TENS_TRADE, VERT, HORIZ, FIX),
    _rule("add-3digit-regroup-both", BOTH_TRADE, VERT, HORIZ, PUZZLE, FIX),
    _rule("add-3digit-mental", IN_THE_HEAD, JUMP, HORIZ),
    SkillRule(
        SkillId("add-2digit-three-four-addends"),
        formats={
            VERT: lambda numbers: _several(numbers, columns=True),
            HORIZ: lambda numbers: _several(numbers, columns=False),
        },
        half=lambda numbers: sum(one % 10 for one in _addends(numbers)) >= 20,
    ),
    SkillRule(
        SkillId("add-estimate-3digit"),
        formats={
            ESTIMATE: lambda numbers: _about(numbers, ring=False),
            CHOOSE: lambda numbers: _about(numbers, ring=True),
        },
    ),
)
