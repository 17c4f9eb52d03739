"""Facts to 20 that take away, families of facts, and equations within 20."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.items.choices import ring_fixed
from dayleaf.items.model import Figure, Gap, Question, Row
from dayleaf.items.rule import Made, SkillRule
from dayleaf.items.steps import step
from dayleaf.items.two_numbers import (
    GAP,
    TwoNumbers,
    a_and_b,
    hopping,
    in_a_row,
    line_of_hops,
    number_part,
    second_missing,
    ways_of,
)
from dayleaf.items.ways import facts as ways

if TYPE_CHECKING:
    from dayleaf.items.model import Step
    from dayleaf.items.rule import Numbers

HORIZ, STRIP, MISSING, DRAW = FormatId("horiz"), FormatId("strip"), FormatId("missing"), FormatId("draw")
JUMP, FAMILY, FIX = FormatId("nl-jump"), FormatId("family"), FormatId("fix")

SIGN_IGNORED = ErrorWayId("sign-ignored")
PART_MINUS_WHOLE = ErrorWayId("part-minus-whole")
SIGN_SHOWN = {ErrorWayId("does-the-sign-shown"): lambda a, left: a + left}


def _count_back(a: int, b: int) -> tuple[Step, ...]:
    if b == 0:
        return (step("zero-changes-nothing", a),)
    return (step("count-back", a, b, a - b),)


def _half(a: int, b: int) -> tuple[Step, ...]:
    return (step("half", a, a - b),)


def _think(a: int, b: int) -> tuple[Step, ...]:
    return (step("think-addition", b, a - b, a),)


def _through_ten(a: int, b: int) -> tuple[Step, ...]:
    over = a - 10
    return step("to-ten", a, over), step("on-from-ten", b - over, a - b)


def _from_the_ten(a: int, b: int) -> tuple[Step, ...]:
    return step("from-the-ten", b, 10 - b), step("with-the-ones", 10 - b, a - 10, a - b)


def _any_way(a: int, b: int) -> tuple[Step, ...]:
    """The shortest known way: nothing, a half, from the ten, through ten, counting back, thinking of a sum."""
    if b <= 3:
        return _count_back(a, b)
    if a == 2 * b:
        return _half(a, b)
    if a > 10 and a - b < 10:
        return _from_the_ten(a, b) if b >= 8 else _through_ten(a, b)
    return _think(a, b)


def _size(a: int, b: int) -> float:
    """Larger wholes, and wholes that are left through ten, are harder (common practice, no source)."""
    return min(1.0, a / 24 + 0.02 * min(b, a - b) + (0.2 if a > 10 > a - b else 0.0))


def _frames(a: int, _b: int) -> Figure:
    """The whole in ten-frames, to cross out from."""
    return Figure("ten-frame", {"a": a, "frames": 2})


WITHIN_10 = TwoNumbers(
    "-",
    read=a_and_b,
    ways={
        ErrorWayId("count-start-number"): lambda a, b: a - b + 1 if b else None,
        SIGN_IGNORED: ways.added_instead,
    },
    steps=_any_way,
    hard=lambda a, b: min(1.0, a / 14 + 0.04 * min(b, a - b)),
    width=2,
    partner=SIGN_SHOWN,
)
COUNT_BACK = TwoNumbers(
    "-",
    read=a_and_b,
    ways={ErrorWayId("count-start-number"): ways.smaller_count, SIGN_IGNORED: ways.added_instead},
    steps=_count_back,
    hard=lambda a, b: min(1.0, 0.15 * b + 0.02 * (a - 10) + (0.2 if a % 10 < b and a < 20 else 0.0)),
    width=2,
)
THINK = TwoNumbers(
    "-",
    read=a_and_b,
    ways={SIGN_IGNORED: ways.added_instead, ErrorWayId("neighbor-fact"): lambda a, b: a - b - 1},
    steps=_think,
    hard=_size,
    width=2,
    partner=SIGN_SHOWN,
)
HALVES = TwoNumbers(
    "-",
    read=lambda numbers: (2 * numbers["a"], numbers["a"]),
    ways={ErrorWayId("double-again"): ways.double_again, ErrorWayId("half-neighbor"): ways.half_neighbor},
    steps=_half,
    hard=lambda _a, b: 0.1 if b in {1, 5, 10} else b / 10,
    width=2,
)
THROUGH_TEN = TwoNumbers(
    "-",
    read=a_and_b,
    ways={
        ErrorWayId("stops-at-ten"): ways.stops_at_ten,
        ErrorWayId("ones-turned"): ways.ones_turned,
        SIGN_IGNORED: ways.added_instead,
    },
    steps=_through_ten,
    hard=lambda a, b: min(1.0, 0.2 + 0.08 * (10 - (a - b)) + 0.02 * b),
    width=2,
)
FROM_THE_TEN = TwoNumbers(
    "-",
    read=a_and_b,
    ways={
        ErrorWayId("minus-ten-left"): ways.minus_ten_left,
        ErrorWayId("gives-back-wrong"): ways.gives_back_wrong,
        ErrorWayId("ones-turned"): ways.ones_turned,
    },
    steps=_from_the_ten,
    hard=lambda a, b: min(1.0, 0.08 * (a - 10) + 0.3 * (b == 8)),
    width=2,
)
ALL_FACTS = TwoNumbers(
    "-",
    read=a_and_b,
    ways={
        ErrorWayId("one-left-over"): lambda a, b: a - b + 1 if b else None,
        SIGN_IGNORED: ways.added_instead,
        ErrorWayId("ones-turned"): ways.ones_turned,
    },
    steps=_any_way,
    hard=_size,
    width=2,
)


CLOSE = TwoNumbers(
    "-",
    read=a_and_b,
    ways={
        ErrorWayId("counts-both-ends"): ways.smaller_count,
        ErrorWayId("total-not-gap"): lambda a, _b: a,
        SIGN_IGNORED: ways.added_instead,
    },
    steps=lambda a, b: (step("jump-up", b, a - b, a), step("jumps-together", a - b)),
    hard=lambda a, b: min(1.0, 0.15 * (a - b) + 0.02 * a + (0.2 if b < 10 < a else 0.0)),
    width=2,
)
UP_TO = TwoNumbers(
    "+",
    read=lambda numbers: (numbers["b"], numbers["a"] - numbers["b"]),
    ways={},
    steps=lambda a, b: (step("jump-up", a, b, a + b),),
    hard=lambda a, b: min(1.0, 0.15 * b + 0.02 * a + (0.2 if a < 10 < a + b else 0.0)),
    width=2,
    partner={ErrorWayId("counts-both-ends"): lambda a, whole: whole - a + 1, **SIGN_SHOWN},
)
ZERO_OR_ALL = TwoNumbers(
    "-",
    read=lambda numbers: (numbers["a"], numbers["a"] if numbers["k"] else 0),
    ways={
        ErrorWayId("minus-zero-is-zero"): lambda a, b: 0 if b == 0 else a - b,
        ErrorWayId("minus-same-is-same"): lambda a, b: a if a == b else a - b,
    },
    steps=lambda a, b: (step("zero-changes-nothing", a) if b == 0 else step("all-taken", a, 0),),
    hard=lambda a, b: min(1.0, a / 30 + 0.2 * (b > 0)),
    width=2,
)


def _zero_or_all_truth(numbers: Numbers) -> Made:
    """8 - 0 = 8 or 8 - 0 = 0: true or not?"""
    a, b = ZERO_OR_ALL.read(numbers)
    right, other = a - b, b
    shown = right if a % 2 else other
    holds = shown == right
    way = ErrorWayId("minus-same-is-same" if b else "minus-zero-is-zero")
    errors = {way: "not-true" if holds else "true"}
    return Made(
        Row((a, "-", b, "=", shown)),
        (ring_fixed("true" if holds else "not-true", ("true", "not-true"), errors),),
        ZERO_OR_ALL.steps(a, b),
        errors,
        None,
        ZERO_OR_ALL.hard(a, b),
    )


def _not_nothing(numbers: Numbers) -> bool:
    """0 - 0 is the same sum whichever way it is meant."""
    return numbers["a"] > 0 or numbers["k"] == 0


def _close_line(a: int, b: int) -> Figure:
    return line_of_hops((b, a), blank_end=False)


def _whole(numbers: Numbers) -> tuple[int, int, int]:
    a, b = a_and_b(numbers)
    return a, b, a + b


def _taken_and_left(a: int, b: int) -> tuple[int, int]:
    """Which part is taken and which is left.

    Where one part is twice the other only the larger may be left: 8 - 4 = 4 would use one number twice.
    """
    return (a, b) if (a + b) % 2 or b == 2 * a else (b, a)


def _card(a: int, b: int, whole: int, hidden: tuple[str, ...] = ()) -> Figure:
    return Figure("family-card", {"w": whole, "a": a, "b": b, "hidden": hidden})


def _family_hard(a: int, b: int) -> float:
    return min(1.0, (a + b) / 20 + 0.03 * a)


def _family(numbers: Numbers) -> Made:
    """All three numbers are given; the take-away that leaves one part is to be written: 7, 8, 15, [ ] - [ ] = 7."""
    a, b, whole = _whole(numbers)
    take, left = _taken_and_left(a, b)
    return Made(
        Row((a, ",", b, ",", whole, ",", GAP, "-", Gap("2"), "=", left)),
        (number_part(whole, 2), number_part(take, 2, "2")),
        (step("think-addition", take, left, whole),),
        {PART_MINUS_WHOLE: f"{take} {whole}"},
        _card(a, b, whole),
        _family_hard(a, b),
    )


def _family_part(numbers: Numbers) -> Made:
    """15 - 8 = [ ] beside a card that hides one part."""
    a, b, whole = _whole(numbers)
    take, left, box = (a, b, "b") if (a + b) % 2 else (b, a, "a")
    return Made(
        Row((whole, "-", take, "=", GAP)),
        (number_part(left, 2),),
        (step("think-addition", take, left, whole),),
        {SIGN_IGNORED: str(whole + take), ErrorWayId("neighbor-fact"): str(left - 1)},
        _card(a, b, whole, (box,)),
        _family_hard(a, b),
    )


def _family_turned(numbers: Numbers) -> Made:
    """8 - 15 = 7 was written; the take-away has to start with the whole."""
    a, b, whole = _whole(numbers)
    take, left = _taken_and_left(a, b)
    return Made(
        Question("fix-turned-take-away", {"first": take, "second": whole, "left": left}),
        (number_part(whole, 2), number_part(take, 2, "2")),
        (step("think-addition", take, left, whole),),
        {PART_MINUS_WHOLE: f"{take} {whole}"},
        None,
        _family_hard(a, b),
    )


def _simple(skill: str, kind: TwoNumbers, *formats: FormatId) -> SkillRule:
    makers = {
        HORIZ: lambda: in_a_row(kind),
        STRIP: lambda: in_a_row(kind),
        MISSING: lambda: second_missing(kind, width=2),
        DRAW: lambda: in_a_row(kind, _frames),
        JUMP: lambda: hopping(kind, ten_first=True),
    }
    return SkillRule(
        SkillId(skill), formats={format_id: makers[format_id]() for format_id in formats}, ways=ways_of(kind)
    )


def _thought_card(a: int, b: int) -> Figure:
    return _card(b, a - b, a, ("b",))


RULES: tuple[SkillRule, ...] = (
    _simple("sub-facts-within-10", WITHIN_10, HORIZ, STRIP, MISSING),
    _simple("sub-count-back-1-2-3", COUNT_BACK, HORIZ, STRIP, JUMP),
    SkillRule(
        SkillId("sub-think-addition"),
        formats={
            MISSING: second_missing(THINK, width=2),
            HORIZ: in_a_row(THINK),
            FAMILY: in_a_row(THINK, _thought_card),
            STRIP: in_a_row(THINK),
        },
        ways=ways_of(THINK),
    ),
    SkillRule(
        SkillId("sub-count-up-close"),
        formats={HORIZ: in_a_row(CLOSE), JUMP: in_a_row(CLOSE, _close_line), MISSING: second_missing(UP_TO, width=2)},
        ways=ways_of(CLOSE),
    ),
    SkillRule(
        SkillId("sub-zero-and-same"),
        formats={HORIZ: in_a_row(ZERO_OR_ALL), STRIP: in_a_row(ZERO_OR_ALL), FormatId("tf"): _zero_or_all_truth},
        ways=ways_of(ZERO_OR_ALL),
        fits={HORIZ: _not_nothing, STRIP: _not_nothing, FormatId("tf"): lambda numbers: numbers["a"] > 0},
        half=lambda numbers: numbers["k"] == 1,
    ),
    _simple("sub-doubles-halves", HALVES, HORIZ, STRIP),
    _simple("sub-through-ten", THROUGH_TEN, HORIZ, JUMP, DRAW, STRIP),
    _simple("sub-teens-minus-8-9", FROM_THE_TEN, HORIZ, STRIP, DRAW),
    _simple("sub-facts-within-20-mixed", ALL_FACTS, STRIP, HORIZ),
    SkillRule(SkillId("fact-family-within-10"), formats={FAMILY: _family, MISSING: _family_part}),
    SkillRule(SkillId("fact-family-within-20"), formats={FAMILY: _family, MISSING: _family_part, FIX: _family_turned}),
)
