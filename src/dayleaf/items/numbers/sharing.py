"""Dividing: sharing out, making groups, taking away again and again, and the times fact behind it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.items.groups import GroupFact, fact_row, ways_of_fact
from dayleaf.items.model import Figure, Gap, Question, Row
from dayleaf.items.rule import Made, SkillRule
from dayleaf.items.steps import step
from dayleaf.items.two_numbers import GAP, answers_of, line_of_hops, number_part
from dayleaf.items.ways import groups as ways

if TYPE_CHECKING:
    from collections.abc import Callable

    from dayleaf.items.model import Step, Token
    from dayleaf.items.rule import Maker, Numbers

HORIZ, STRIP, MISSING, DRAW = FormatId("horiz"), FormatId("strip"), FormatId("missing"), FormatId("draw")
JUMP, FAMILY = FormatId("nl-jump"), FormatId("family")

ONCE = ErrorWayId("subtracts-once")
OFF_BY_ONE = ErrorWayId("off-by-one-group")


def _hard(whole: int, part: int) -> float:
    """Larger wholes are harder, tens surer (common practice, no source)."""
    return min(1.0, whole / (200 if part == 10 else 60))


def _times(whole: int, part: int) -> tuple[Step, ...]:
    return step("think-times", part, whole // part, whole), step("divide-is", whole, part, whole // part)


def _half(whole: int, part: int) -> tuple[Step, ...]:
    return step("half", whole, whole // part), step("divide-is", whole, part, whole // part)


def _by(factor: int) -> Callable[[Numbers], tuple[int, int]]:
    return lambda numbers: (factor * numbers["a"], factor)


def _whole_and_first(numbers: Numbers) -> tuple[int, int]:
    return numbers["a"] * numbers["b"], numbers["a"]


BY_TWO = GroupFact(
    "÷", _by(2), {ONCE: ways.taken_once, ErrorWayId("half-neighbor"): ways.one_group_more}, _half, _hard, 2
)
BY_FIVE = GroupFact("÷", _by(5), {ONCE: ways.taken_once, OFF_BY_ONE: ways.one_group_more}, _times, _hard, 2)
BY_TEN = GroupFact("÷", _by(10), {ONCE: ways.taken_once, OFF_BY_ONE: ways.one_group_fewer}, _times, _hard, 2)
BY_THREE_FOUR = GroupFact(
    "÷",
    lambda numbers: (numbers["k"] * numbers["a"], numbers["k"]),
    {ONCE: ways.taken_once, OFF_BY_ONE: ways.one_group_fewer},
    _times,
    _hard,
    2,
)
WITHIN_100 = GroupFact(
    "÷",
    _whole_and_first,
    {ErrorWayId("neighbor-fact"): ways.one_group_fewer, ONCE: ways.taken_once},
    _times,
    _hard,
    2,
)
SENTENCE = GroupFact(
    "÷",
    _whole_and_first,
    {ONCE: ways.taken_once},
    lambda whole, part: (
        step("make-groups", whole, part, whole // part),
        step("divide-is", whole, part, whole // part),
    ),
    _hard,
    2,
)


def _one_missing(kind: GroupFact) -> Maker:
    """24 ÷ [ ] = 6 where the result is even, else [ ] ÷ 4 = 5. Where ÷ is read as −, the errors follow."""

    def make(numbers: Numbers) -> Made:
        whole, part = kind.read(numbers)
        result = whole // part
        inside = result % 2 == 0
        tokens: tuple[Token, ...] = (whole, "÷", GAP, "=", result) if inside else (GAP, "÷", part, "=", result)
        return Made(
            Row(tokens),
            (number_part(part if inside else whole, 2),),
            (step("think-times", part, result, whole),),
            {ONCE: str(whole - result if inside else result + part)},
            None,
            min(1.0, _hard(whole, part) + 0.1),
        )

    return make


# sharing and grouping, drawn


def _loose(whole: int, part: int) -> Figure:
    """All the things in rows of ten, not yet shared."""
    return Figure("set-objects", {"groups": whole // part, "size": part, "rings": 0, "question": 1})


SHARE_WAYS = {ErrorWayId("groups-for-share"): ways.group_size}
GROUPING_WAYS = {
    ErrorWayId("share-for-group"): ways.shared_out,
    ErrorWayId("group-size-for-count"): ways.group_size,
}


def _draw_share(numbers: Numbers) -> Made:
    """12 dots shared by 3: how many for each?"""
    whole, part = _whole_and_first(numbers)
    return Made(
        Question("draw-share", {"n": whole, "groups": part}),
        (number_part(whole // part, 2),),
        (step("deal-out", whole, part, whole // part),),
        answers_of(SHARE_WAYS, whole, part),
        _loose(whole, part),
        _hard(whole, part),
    )


def _draw_grouping(numbers: Numbers) -> Made:
    """12 dots in groups of 4: how many groups?"""
    whole, part = _whole_and_first(numbers)
    return Made(
        Question("draw-grouping", {"n": whole, "size": part}),
        (number_part(whole // part, 2),),
        (step("make-groups", whole, part, whole // part),),
        answers_of(GROUPING_WAYS, whole, part),
        _loose(whole, part),
        _hard(whole, part),
    )


INTO_ONE = ErrorWayId("leftover-into-one-group")
TOO_MANY = ErrorWayId("leftover-too-many")


MOST_ROWS = 10
"""So many rows of dots have room in a picture."""


def _draw_leftovers(numbers: Numbers) -> Made:
    """13 dots shared by 4: how many for each, how many left over?"""
    n, k = numbers["n"], numbers["k"]
    each, left = divmod(n, k)
    return Made(
        Question("draw-share-left", {"n": n, "groups": k}),
        (number_part(each, 2), number_part(left, 1, "2")),
        (step("deal-out", n - left, k, each), step("some-left", n, n - left, left)),
        {INTO_ONE: f"{each} 0", TOO_MANY: f"{each - 1} {left + k}"},
        Figure("set-objects", {"groups": each, "size": k, "extra": left, "rings": 0, "question": 1}),
        min(1.0, n / 30 + 0.1),
    )


# taking away again and again


JUMPS = GroupFact(
    "÷",
    _whole_and_first,
    {ErrorWayId("counts-start-mark"): ways.one_group_more, ErrorWayId("last-number-answer"): ways.last_number},
    lambda whole, part: (step("jumps-to-zero", whole, part, whole // part),),
    _hard,
    2,
)


def _jumps_back(whole: int, part: int) -> Figure:
    stops = tuple(range(whole, -1, -part))
    return line_of_hops(stops, tuple(f"−{part}" for _ in stops[1:]), blank_end=False)


def _take_again(numbers: Numbers) -> Made:
    """Take 5 from 15 again and again: how many times?"""
    whole, part = JUMPS.read(numbers)
    return Made(
        Question("take-again", {"n": whole, "by": part}),
        (number_part(whole // part, 2),),
        JUMPS.steps(whole, part),
        answers_of(JUMPS.ways, whole, part),
        None,
        _hard(whole, part),
    )


def _last_taken(numbers: Numbers) -> Made:
    """15 - 5 - 5 - [ ] = 0."""
    whole, part = JUMPS.read(numbers)
    tokens: list[Token] = [whole]
    for _ in range(whole // part - 1):
        tokens += ["-", part]
    return Made(
        Row((*tokens, "-", GAP, "=", 0)),
        (number_part(part, 2),),
        JUMPS.steps(whole, part),
        {},
        None,
        _hard(whole, part),
    )


# the times fact behind it


def _family(numbers: Numbers) -> Made:
    """5, 6, 30: [ ] ÷ [ ] = 6. The whole comes first; a part first is the way to go astray."""
    whole, part = _whole_and_first(numbers)
    other = whole // part
    return Made(
        Row((part, ",", other, ",", whole, ",", GAP, "÷", Gap("2"), "=", other)),
        (number_part(whole, 3), number_part(part, 3, "2")),
        (step("think-times", part, other, whole), step("divide-is", whole, part, other)),
        {ErrorWayId("four-with-wrong-whole"): f"{part} {whole}"},
        Figure("family-card", {"w": whole, "a": part, "b": other}),
        _hard(whole, part),
    )


def _from_times(numbers: Numbers) -> Made:
    """5 × 6 = 30, 30 ÷ 5 = [ ]. A family of plus and minus takes away."""
    whole, part = _whole_and_first(numbers)
    other = whole // part
    return Made(
        Row((part, "×", other, "=", whole, ",", whole, "÷", part, "=", GAP)),
        (number_part(other, 2),),
        (step("think-times", part, other, whole),),
        {ErrorWayId("plus-minus-family"): str(ways.taken_once(whole, part))},
        None,
        _hard(whole, part),
    )


def _facts(skill: str, kind: GroupFact, *, missing: bool = False) -> SkillRule:
    formats = {HORIZ: fact_row(kind), STRIP: fact_row(kind)}
    if missing:
        formats[MISSING] = _one_missing(kind)
    return SkillRule(SkillId(skill), formats=formats, ways=ways_of_fact(kind))


RULES: tuple[SkillRule, ...] = (
    _facts("div-by-2", BY_TWO),
    _facts("div-by-5", BY_FIVE),
    _facts("div-by-10", BY_TEN),
    _facts("div-by-3-4", BY_THREE_FOUR, missing=True),
    _facts("div-facts-within-100", WITHIN_100, missing=True),
    SkillRule(SkillId("div-sentence"), formats={HORIZ: fact_row(SENTENCE)}, ways=ways_of_fact(SENTENCE)),
    SkillRule(SkillId("div-fair-share"), formats={DRAW: _draw_share}),
    SkillRule(SkillId("div-grouping"), formats={DRAW: _draw_grouping}),
    SkillRule(
        SkillId("div-leftovers"),
        formats={DRAW: _draw_leftovers},
        fits={DRAW: lambda numbers: numbers["n"] // numbers["k"] <= MOST_ROWS},
    ),
    SkillRule(
        SkillId("div-repeated-subtraction"),
        formats={JUMP: fact_row(JUMPS, _jumps_back), HORIZ: _take_again, MISSING: _last_taken},
        fits={MISSING: lambda numbers: 2 <= numbers["b"] <= 5},
        ways=ways_of_fact(JUMPS),
    ),
    SkillRule(SkillId("div-related-mul"), formats={FAMILY: _family, MISSING: _from_times}),
)
