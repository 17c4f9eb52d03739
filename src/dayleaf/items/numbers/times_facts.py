"""Multiplication facts, known by known ones: doubles, fives, tens, zero and one, then the others."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.items.choices import ring_fixed
from dayleaf.items.groups import GroupFact, fact_row, ways_of_fact
from dayleaf.items.model import Figure, Row
from dayleaf.items.rule import Made, SkillRule
from dayleaf.items.steps import step
from dayleaf.items.two_numbers import GAP, answers_of, number_part
from dayleaf.items.ways import groups as ways

if TYPE_CHECKING:
    from collections.abc import Callable

    from dayleaf.items.model import Step
    from dayleaf.items.rule import Numbers

HORIZ, STRIP, MISSING = FormatId("horiz"), FormatId("strip"), FormatId("missing")
TRUE_OR_NOT, ARRAY = FormatId("tf"), FormatId("array")

ADDS = ErrorWayId("adds-for-times")
SHORT = ErrorWayId("one-group-short")


def _hard(a: int, b: int) -> float:
    """Zero, one and ten are sure; larger factors make a fact harder (common practice, no source)."""
    return 0.1 if {a, b} & {0, 1, 10} and min(a, b) < 3 else min(1.0, a * b / 90 + 0.05 * b)


def _double(_a: int, b: int) -> tuple[Step, ...]:
    return (step("double", b, 2 * b),)


def _double_and_one(_a: int, b: int) -> tuple[Step, ...]:
    return step("double", b, 2 * b), step("one-more-group", 2 * b, b, 3 * b)


def _double_twice(_a: int, b: int) -> tuple[Step, ...]:
    return step("double", b, 2 * b), step("double-again", 2 * b, 4 * b)


def _count_by(a: int, b: int) -> tuple[Step, ...]:
    return (step("count-by", a, b, a * b),) if b else (step("nothing-in-groups", 0),)


def _tens(_a: int, b: int) -> tuple[Step, ...]:
    return (step("tens-are", b, 10 * b),)


def _none_or_one(a: int, b: int) -> tuple[Step, ...]:
    return (step("nothing-in-groups", 0),) if 0 in (a, b) else (step("one-group", a * b),)


def _five_and_more(a: int, b: int) -> tuple[Step, ...]:
    """7 × 8 as 5 × 8 and 2 × 8."""
    if b < 2:
        return _none_or_one(a, b)
    first, then = 5 * b, (a - 5) * b
    return step("first-times", 5, b, first), step("then-times", a - 5, b, then), step("sum-is", first, then, a * b)


def _times_tens(a: int, b: int) -> tuple[Step, ...]:
    return step("times-tens", a, b // 10, a * b // 10), step("tens-are", a * b // 10, a * b)


def _by(factor: int) -> Callable[[Numbers], tuple[int, int]]:
    return lambda numbers: (factor, numbers["a"])


BY_TWO = GroupFact("×", _by(2), {ADDS: ways.added, SHORT: ways.one_group_short}, _double, _hard, 2)
BY_THREE = GroupFact(
    "×",
    _by(3),
    {ErrorWayId("double-only"): ways.double_only, SHORT: ways.one_group_short},
    _double_and_one,
    _hard,
    2,
)
BY_FOUR = GroupFact(
    "×",
    _by(4),
    {ErrorWayId("double-only"): ways.double_only, ErrorWayId("adds-four"): ways.added},
    _double_twice,
    _hard,
    2,
)
BY_FIVE = GroupFact("×", _by(5), {ADDS: ways.added, SHORT: ways.one_group_short}, _count_by, _hard, 2)
BY_TEN = GroupFact("×", _by(10), {ADDS: ways.added}, _tens, lambda _a, b: 0.05 * b, 3)
SIX_TO_NINE = GroupFact(
    "×",
    lambda numbers: (numbers["a"], numbers["b"]),
    {ErrorWayId("neighbor-fact"): ways.neighbor_product, ADDS: ways.added},
    _five_and_more,
    _hard,
    2,
)
TIMES_TENS = GroupFact(
    "×",
    lambda numbers: (numbers["a"], 10 * numbers["b"]),
    {ErrorWayId("zero-lost-in-product"): ways.zero_lost, ErrorWayId("zero-doubled"): ways.zero_doubled},
    _times_tens,
    lambda a, b: min(1.0, a * b / 810),
    4,
)


def _zero_one_read(numbers: Numbers) -> tuple[int, int]:
    """6 × 0 or 0 × 6: zero or one stands first beside odd numbers from 3 on."""
    few, other = numbers["a"], numbers["b"]
    return (few, other) if other % 2 and other > 1 else (other, few)


ZERO_ONE = GroupFact(
    "×",
    _zero_one_read,
    {
        ErrorWayId("times-zero-same"): ways.zero_changes_nothing,
        ErrorWayId("times-one-adds-one"): ways.one_adds_one,
    },
    _none_or_one,
    lambda a, b: min(1.0, 0.1 + 0.05 * max(a, b) + 0.2 * (a < b)),
    2,
)


def _zero_one_true(numbers: Numbers) -> Made:
    """6 × 0 = 6: true or not? The result shown is the right one or that of a way to go astray."""
    a, b = ZERO_ONE.read(numbers)
    wrongs = {way: wrong for way, go in ZERO_ONE.ways.items() if (wrong := go(a, b)) is not None and wrong != a * b}
    untrue = bool(wrongs) and (3 * numbers["a"] + numbers["b"]) % 3 != 1
    shown = next(iter(wrongs.values())) if untrue else a * b
    errors = {way: "true" if wrong == shown else "not-true" for way, wrong in wrongs.items()}
    return Made(
        Row((a, "×", b, "=", shown)),
        (ring_fixed("not-true" if untrue else "true", ("true", "not-true"), errors),),
        _none_or_one(a, b),
        errors,
        None,
        ZERO_ONE.hard(a, b),
    )


def _second_factor(numbers: Numbers) -> Made:
    """7 × [ ] = 56. One who reads + writes what is missing to the result."""
    a, b = SIX_TO_NINE.read(numbers)
    return Made(
        Row((a, "×", GAP, "=", a * b)),
        (number_part(b, 2),),
        (step("think-times", a, b, a * b),),
        {ADDS: str(ways.taken_once(a * b, a))} if b else {},
        None,
        _hard(a, b),
    )


def _unknown_factor(numbers: Numbers) -> Made:
    """4 × [ ] = 28."""
    a, b = numbers["a"], numbers["b"]
    product = a * b
    going = {
        ErrorWayId("subtracts-for-factor"): ways.taken_once,
        ErrorWayId("off-by-one-group"): ways.one_group_fewer,
    }
    return Made(
        Row((a, "×", GAP, "=", product)),
        (number_part(b, 2),),
        (step("think-times", a, b, product),),
        answers_of(going, product, a),
        None,
        _hard(a, b),
    )


SPLIT = {
    ErrorWayId("second-part-lost"): ways.part_of_product,
    ErrorWayId("splits-both"): ways.splits_both,
}


def _split_array(numbers: Numbers) -> Made:
    """5 × 6 + 2 × 6 = [ ] beside seven rows of six, the first five of them hatched."""
    a, b = numbers["a"], numbers["b"]
    return Made(
        Row((5, "×", b, "+", a - 5, "×", b, "=", GAP)),
        (number_part(a * b, 2),),
        _five_and_more(a, b),
        answers_of(SPLIT, a, b),
        Figure("area-grid", {"r": a, "c": b, "cells": tuple(range(5 * b)), "question": 1}),
        _hard(a, b),
    )


def _split_missing(numbers: Numbers) -> Made:
    """7 × 6 = 5 × 6 + [ ] × 6."""
    a, b = numbers["a"], numbers["b"]
    return Made(
        Row((a, "×", b, "=", 5, "×", b, "+", GAP, "×", b)),
        (number_part(a - 5, 1),),
        (step("first-times", 5, b, 5 * b), step("then-times", a - 5, b, (a - 5) * b)),
        {},
        None,
        _hard(a, b),
    )


def _facts(skill: str, kind: GroupFact) -> SkillRule:
    return SkillRule(SkillId(skill), formats={HORIZ: fact_row(kind), STRIP: fact_row(kind)}, ways=ways_of_fact(kind))


RULES: tuple[SkillRule, ...] = (
    _facts("mul-by-2", BY_TWO),
    _facts("mul-by-3", BY_THREE),
    _facts("mul-by-4", BY_FOUR),
    _facts("mul-by-5", BY_FIVE),
    _facts("mul-by-10", BY_TEN),
    SkillRule(
        SkillId("mul-by-0-1"),
        formats={HORIZ: fact_row(ZERO_ONE), STRIP: fact_row(ZERO_ONE), TRUE_OR_NOT: _zero_one_true},
        ways=ways_of_fact(ZERO_ONE),
    ),
    SkillRule(
        SkillId("mul-facts-6-to-9"),
        formats={HORIZ: fact_row(SIX_TO_NINE), STRIP: fact_row(SIX_TO_NINE), MISSING: _second_factor},
        ways=ways_of_fact(SIX_TO_NINE),
    ),
    SkillRule(SkillId("mul-multiples-of-10"), formats={HORIZ: fact_row(TIMES_TENS)}, ways=ways_of_fact(TIMES_TENS)),
    SkillRule(SkillId("mul-unknown-factor"), formats={MISSING: _unknown_factor}),
    SkillRule(SkillId("mul-split-distributive"), formats={ARRAY: _split_array, MISSING: _split_missing}),
)
