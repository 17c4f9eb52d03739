"""Facts to 20 that add."""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.items.choices import ring_fixed
from dayleaf.items.model import Column, Figure, Row
from dayleaf.items.rule import Made, SkillRule
from dayleaf.items.steps import step
from dayleaf.items.two_numbers import (
    GAP,
    TwoNumbers,
    a_and_b,
    in_a_row,
    number_part,
    second_missing,
    ways_of,
)
from dayleaf.items.ways import facts as ways

if TYPE_CHECKING:
    from dayleaf.items.model import Step
    from dayleaf.items.rule import Numbers

HORIZ, STRIP, MISSING, DRAW = FormatId("horiz"), FormatId("strip"), FormatId("missing"), FormatId("draw")
TRUE_OR_NOT, VERT = FormatId("tf"), FormatId("vert")

OFF_BY_ONE = ErrorWayId("off-by-one-count")
SIGN_IGNORED = ErrorWayId("sign-ignored")
ZERO_ADDS_ONE = ErrorWayId("zero-adds-one")
SIGN_SHOWN = {ErrorWayId("does-the-sign-shown"): lambda a, result: a + result}


def _size(a: int, b: int) -> float:
    """Larger addends make a fact harder (common practice, no source)."""
    return min(1.0, (a + b) / 20 + 0.05 * (min(a, b) > 4))


def _count_on(a: int, b: int) -> tuple[Step, ...]:
    if 0 in (a, b):
        return (step("zero-changes-nothing", a + b),)
    large, small = max(a, b), min(a, b)
    first = (step("turn-round", large, small),) if a < b else ()
    return (*first, step("count-on", large, small, large + small))


def _double(a: int, _b: int) -> tuple[Step, ...]:
    return (step("double", a, 2 * a),)


def _near_double(a: int, b: int) -> tuple[Step, ...]:
    small, more = min(a, b), abs(a - b)
    return step("double", small, 2 * small), step("near-double", 2 * small, more, a + b)


def _fill_ten(a: int, b: int) -> tuple[Step, ...]:
    large, small = max(a, b), min(a, b)
    moved = 10 - large
    return step("fill-ten", large, moved, small - moved), step("ten-and", small - moved, a + b)


def _any_way(a: int, b: int) -> tuple[Step, ...]:
    """The shortest known way: zero, a double, ten, a near double, filling ten, counting on."""
    if 0 in (a, b):
        return _count_on(a, b)
    if a == b:
        return _double(a, b)
    if a + b == 10:
        return (step("partner-of-ten", a, b),)
    if a + b > 10 and max(a, b) >= 8:
        return _fill_ten(a, b)
    if abs(a - b) == 1 and min(a, b) > 3:
        return _near_double(a, b)
    return _fill_ten(a, b) if a + b > 10 else _count_on(a, b)


def _frames(a: int, b: int) -> Figure:
    """The first number in ten-frames, room for the second one to be drawn."""
    return Figure("ten-frame", {"a": max(a, b), "b": 0, "frames": 2})


WITHIN_10 = TwoNumbers(
    "+",
    read=a_and_b,
    ways={
        OFF_BY_ONE: lambda a, b: a + b - 1 if a and b else None,
        ZERO_ADDS_ONE: ways.zero_adds_one,
        SIGN_IGNORED: ways.taken_instead,
    },
    steps=_any_way,
    hard=lambda a, b: min(1.0, (a + b) / 12 + 0.03 * min(a, b)),
    width=2,
    partner=SIGN_SHOWN,
)
COUNT_ON = TwoNumbers(
    "+",
    read=a_and_b,
    ways={ErrorWayId("count-start-number"): ways.one_less, SIGN_IGNORED: ways.taken_instead},
    steps=_count_on,
    hard=lambda a, b: min(1.0, 0.1 * b + 0.03 * a + (0.2 if a % 10 + b > 10 else 0.0)),
    width=2,
)
ZERO_TURN = TwoNumbers(
    "+",
    read=a_and_b,
    ways={ZERO_ADDS_ONE: ways.zero_adds_one, SIGN_IGNORED: ways.taken_instead},
    steps=_count_on,
    hard=lambda a, b: min(1.0, (a + b) / 16 + (0.2 if 0 < a < b else 0.0)),
    width=2,
    partner=SIGN_SHOWN,
)
DOUBLES = TwoNumbers(
    "+",
    read=lambda numbers: (numbers["a"], numbers["a"]),
    ways={ErrorWayId("double-mixed"): ways.double_mixed, ErrorWayId("double-plus-two"): ways.double_plus_two},
    steps=_double,
    hard=lambda a, _b: 0.1 if a in {0, 1, 5, 10} else a / 10,
    width=2,
)
NEAR_DOUBLES = TwoNumbers(
    "+",
    read=a_and_b,
    ways={
        ErrorWayId("near-double-wrong-way"): ways.near_double_wrong_way,
        ErrorWayId("double-only"): ways.double_only,
    },
    steps=_near_double,
    hard=lambda a, b: min(1.0, (a + b) / 18 + 0.15 * (abs(a - b) == 2)),
    width=2,
)
FROM_NINE = TwoNumbers(
    "+",
    read=lambda numbers: (9, numbers["b"]) if numbers["o"] == 0 else (numbers["b"], 9),
    ways={ErrorWayId("adds-ten-not-nine"): ways.adds_ten, ErrorWayId("two-off"): ways.two_off},
    steps=_fill_ten,
    hard=lambda a, b: min(1.0, min(a, b) / 10 + 0.1 * (a < b)),
    width=2,
    partner=SIGN_SHOWN,
)
FROM_EIGHT_SEVEN = TwoNumbers(
    "+",
    read=lambda numbers: a_and_b(numbers) if numbers["o"] == 0 else (numbers["b"], numbers["a"]),
    ways={ErrorWayId("adds-ten-full"): ways.adds_ten, ErrorWayId("wrong-partner"): ways.wrong_partner},
    steps=_fill_ten,
    hard=lambda a, b: min(1.0, min(a, b) / 12 + 0.2 * (max(a, b) == 7) + 0.1 * (a < b)),
    width=2,
    partner=SIGN_SHOWN,
)
ALL_FACTS = TwoNumbers(
    "+",
    read=a_and_b,
    ways={
        ErrorWayId("neighbor-fact"): lambda a, b: 2 * min(a, b) if abs(a - b) == 1 else None,
        OFF_BY_ONE: lambda a, b: a + b - 1 if a and b else None,
        ErrorWayId("zero-adds-one"): ways.zero_adds_one,
        SIGN_IGNORED: ways.taken_instead,
    },
    steps=_any_way,
    hard=_size,
    width=2,
)
TEN_AND_ONES = TwoNumbers(
    "+",
    read=lambda numbers: (10, numbers["n"] - 10),
    ways={
        ErrorWayId("teen-digits-swapped"): lambda _a, b: 10 * b + 1,
        ErrorWayId("one-as-one"): lambda _a, b: 1 + b,
    },
    steps=lambda _a, b: (step("ten-and", b, 10 + b),),
    hard=lambda _a, b: 0.1 * b,
    width=2,
)


def _partner_of_ten(numbers: Numbers) -> Made:
    """7 + [ ] = 10."""
    a = numbers["a"]
    return Made(
        Row((a, "+", GAP, "=", 10)),
        (number_part(10 - a, 2),),
        (step("partner-of-ten", a, 10 - a),),
        {ErrorWayId("off-by-one-partner"): str(11 - a), ErrorWayId("does-the-sign-shown"): str(10 + a)},
        None,
        0.1 if a in {5, 9} else 0.1 * min(9, 10 - a + 1),
    )


def _ten_is(numbers: Numbers) -> Made:
    """10 = 7 + [ ]."""
    made = _partner_of_ten(numbers)
    return Made(Row((10, "=", numbers["a"], "+", GAP)), made.parts, made.steps, made.errors, None, made.difficulty)


def _turned_round(numbers: Numbers) -> Made:
    """2 + 9 = 9 + 2, or with one more on the right: true or not?

    One who lets zero add something says that 9 + 0 = 9 + 1 is true.
    """
    a, b = a_and_b(numbers)
    wrong = (3 * a + b) % 2
    right_side = (b + wrong, a) if 0 not in (a, b) or not wrong else (max(a, b), 1)
    errors: dict[ErrorWayId, str] = {}
    if wrong and 0 in (a, b):
        errors[ZERO_ADDS_ONE] = "true"
    return Made(
        Row((a, "+", b, "=", right_side[0], "+", right_side[1])),
        (ring_fixed("not-true" if wrong else "true", ("true", "not-true"), errors),),
        _count_on(a, b),
        errors,
        None,
        ZERO_TURN.hard(a, b),
    )


def _addends(numbers: Numbers) -> tuple[int, ...]:
    """Three addends, and the fourth where the rule has one that is not zero."""
    return tuple(value for name, value in numbers.items() if name != "e" or value)


def _several_steps(addends: tuple[int, ...]) -> tuple[Step, ...]:
    """A ten or a double first, then the others one by one."""
    pairs = [(i, j) for i in range(len(addends)) for j in range(i + 1, len(addends))]
    tens = [pair for pair in pairs if addends[pair[0]] + addends[pair[1]] == 10]
    doubles = [pair for pair in pairs if addends[pair[0]] == addends[pair[1]]]
    i, j = (tens or doubles or pairs)[0]
    total = addends[i] + addends[j]
    if tens:
        steps = [step("pair-ten", addends[i], addends[j])]
    elif doubles:
        steps = [step("pair-double", addends[i], total)]
    else:
        steps = [step("sum-is", addends[i], addends[j], total)]
    for place, addend in enumerate(addends):
        if place not in {i, j}:
            steps.append(step("add-next", total, addend, total + addend))
            total += addend
    return tuple(steps)


def _several_errors(addends: tuple[int, ...]) -> dict[ErrorWayId, str]:
    total = sum(addends)
    errors = {ErrorWayId("drops-addend"): str(total - addends[-1])}
    for i, one in enumerate(addends):
        twice = [one for j, other in enumerate(addends) if j > i and one + other == 10]
        if twice:
            errors[ErrorWayId("ten-made-counted-twice")] = str(total + one)
            break
    return errors


def _several_hard(addends: tuple[int, ...]) -> float:
    far = not any(one + other == 10 for one, other in itertools.pairwise(addends))
    return min(1.0, sum(addends) / 36 + 0.15 * far + 0.2 * (len(addends) > 3))


def _several_in_a_row(numbers: Numbers) -> Made:
    addends = _addends(numbers)
    tokens: list[int | str] = [addends[0]]
    for addend in addends[1:]:
        tokens += ["+", addend]
    return Made(
        Row((*tokens, "=", GAP)),
        (number_part(sum(addends), 2),),
        _several_steps(addends),
        _several_errors(addends),
        None,
        _several_hard(addends),
    )


def _several_in_columns(numbers: Numbers) -> Made:
    addends = _addends(numbers)
    return Made(
        Column(addends, "+"),
        (number_part(sum(addends), 2),),
        _several_steps(addends),
        _several_errors(addends),
        None,
        _several_hard(addends),
    )


RULES: tuple[SkillRule, ...] = (
    SkillRule(
        SkillId("add-facts-within-10"),
        formats={
            HORIZ: in_a_row(WITHIN_10),
            STRIP: in_a_row(WITHIN_10),
            MISSING: second_missing(WITHIN_10, width=2),
        },
        ways=ways_of(WITHIN_10),
    ),
    SkillRule(
        SkillId("add-count-on-1-2-3"),
        formats={HORIZ: in_a_row(COUNT_ON), STRIP: in_a_row(COUNT_ON)},
        ways=ways_of(COUNT_ON),
    ),
    SkillRule(
        SkillId("add-zero-turnaround"),
        formats={
            HORIZ: in_a_row(ZERO_TURN),
            MISSING: second_missing(ZERO_TURN, width=2),
            TRUE_OR_NOT: _turned_round,
        },
        ways=ways_of(ZERO_TURN),
    ),
    SkillRule(
        SkillId("add-doubles-to-20"),
        formats={HORIZ: in_a_row(DOUBLES), STRIP: in_a_row(DOUBLES)},
        ways=ways_of(DOUBLES),
    ),
    SkillRule(
        SkillId("add-near-doubles"),
        formats={HORIZ: in_a_row(NEAR_DOUBLES), STRIP: in_a_row(NEAR_DOUBLES)},
        ways=ways_of(NEAR_DOUBLES),
    ),
    SkillRule(
        SkillId("add-make-ten-9"),
        formats={
            HORIZ: in_a_row(FROM_NINE),
            STRIP: in_a_row(FROM_NINE),
            MISSING: second_missing(FROM_NINE, width=2),
            DRAW: in_a_row(FROM_NINE, _frames),
        },
        ways=ways_of(FROM_NINE),
    ),
    SkillRule(
        SkillId("add-make-ten-8-7"),
        formats={
            HORIZ: in_a_row(FROM_EIGHT_SEVEN),
            STRIP: in_a_row(FROM_EIGHT_SEVEN),
            MISSING: second_missing(FROM_EIGHT_SEVEN, width=2),
            DRAW: in_a_row(FROM_EIGHT_SEVEN, _frames),
        },
        ways=ways_of(FROM_EIGHT_SEVEN),
    ),
    SkillRule(SkillId("add-three-addends-20"), formats={HORIZ: _several_in_a_row}),
    SkillRule(
        SkillId("add-3-4-addends-1digit"),
        formats={HORIZ: _several_in_a_row, VERT: _several_in_columns},
        half=lambda numbers: numbers.get("e", 0) > 0,
    ),
    SkillRule(
        SkillId("add-facts-within-20-mixed"),
        formats={STRIP: in_a_row(ALL_FACTS), HORIZ: in_a_row(ALL_FACTS)},
        ways=ways_of(ALL_FACTS),
    ),
    SkillRule(SkillId("teen-ten-and-ones"), formats={HORIZ: in_a_row(TEN_AND_ONES)}, ways=ways_of(TEN_AND_ONES)),
    SkillRule(
        SkillId("partners-of-10"),
        formats={MISSING: _partner_of_ten, HORIZ: _ten_is, STRIP: _partner_of_ten},
    ),
)
