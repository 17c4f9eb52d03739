"""Equations within 20: a missing number, balance, the missing sign."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.items.choices import ring_fixed
from dayleaf.items.model import Figure, Part, Question, Row
from dayleaf.items.rule import Made, SkillRule
from dayleaf.items.steps import step
from dayleaf.items.two_numbers import GAP, number_part
from dayleaf.items.ways.place_value import sign_between

if TYPE_CHECKING:
    from dayleaf.items.model import Step, Token
    from dayleaf.items.rule import Numbers

MISSING, BAR, TRUE_OR_NOT = FormatId("missing"), FormatId("bar-fill"), FormatId("tf")
COMPARE, SIGN = FormatId("cmp"), FormatId("sign")

DOES_SIGN = ErrorWayId("does-the-sign-shown")
SAME_OP = ErrorWayId("start-missing-same-op")
ANSWER_AFTER = ErrorWayId("answer-after-equal")
RUNS_ON = ErrorWayId("runs-on")
FIRST_ONLY = ErrorWayId("compare-start-only")
PLUS_BY_HABIT = ErrorWayId("plus-by-habit")

TRUTH = ("true", "not-true")


def _missing(numbers: Numbers) -> Made:
    """The place of the gap follows k: a + [ ] = c, [ ] + b = c, c - [ ] = a, [ ] - b = a."""
    a, b, k = numbers["a"], numbers["b"], numbers["k"]
    c = a + b
    tokens: tuple[Token, ...]
    tokens, answer, errors = (
        ((a, "+", GAP, "=", c), b, {DOES_SIGN: str(a + c)}),
        ((GAP, "+", b, "=", c), a, {DOES_SIGN: str(b + c)}),
        ((c, "-", GAP, "=", a), b, {DOES_SIGN: str(c - a)}),
        ((GAP, "-", b, "=", a), c, {SAME_OP: str(abs(a - b))}),
    )[k]
    return Made(
        Row(tokens),
        (number_part(answer, 2),),
        (step("parts-and-whole", a, b, c),),
        errors,
        None,
        min(1.0, (0.0, 0.1, 0.15, 0.3)[k] + c / 30),
    )


def _bar(numbers: Numbers) -> Made:
    """One part or the whole of a bar picture is empty."""
    a, b, k = numbers["a"], numbers["b"], numbers["k"]
    c = a + b
    hidden, answer, wrong = (("b", b, a + c), ("a", a, b + c), ("b", b, a + c), ("whole", c, abs(a - b)))[k]
    return Made(
        Question("fill-bar"),
        (number_part(answer, 2),),
        (step("parts-and-whole", a, b, a + b),),
        {(SAME_OP if hidden == "whole" else DOES_SIGN): str(wrong)},
        Figure("bar-model", {"kind": "parts", "whole": c, "a": a, "b": b, "hidden": (hidden,)}),
        min(1.0, 0.1 + (a + b) / 30),
    )


def _balance_steps(a: int, b: int, d: int) -> tuple[Step, ...]:
    total = a + b
    return step("side-is", a, b, total), step("other-side-needs", d, total - d, total)


def _balance_hard(a: int, b: int, d: int) -> float:
    return min(1.0, (a + b) / 20 + 0.02 * abs(d - a))


def _balance(numbers: Numbers) -> Made:
    """8 + 4 = [ ] + 5."""
    a, b, d = numbers["a"], numbers["b"], numbers["d"]
    return Made(
        Row((a, "+", b, "=", GAP, "+", d)),
        (number_part(a + b - d, 2),),
        _balance_steps(a, b, d),
        {ANSWER_AFTER: str(a + b), RUNS_ON: str(a + b + d)},
        None,
        _balance_hard(a, b, d),
    )


def _balance_truth(numbers: Numbers) -> Made:
    """8 + 4 = 7 + 5, or 8 + 4 = 12 + 5: true or not?

    One who reads = as "here comes the answer" takes the second for true and the first for not.
    """
    a, b, d = numbers["a"], numbers["b"], numbers["d"]
    holds = (a + b + d) % 2 == 0
    right_side = (a + b - d, d) if holds else (a + b, d)
    answer, other = TRUTH if holds else TRUTH[::-1]
    errors = {ANSWER_AFTER: other}
    return Made(
        Row((a, "+", b, "=", right_side[0], "+", right_side[1])),
        (ring_fixed(answer, TRUTH, errors),),
        (step("side-is", a, b, a + b), step("side-is", *right_side, sum(right_side))),
        errors,
        None,
        _balance_hard(a, b, d),
    )


def _balance_compare(numbers: Numbers) -> Made:
    """8 + 4 ( ) 5 + 6: the right side is one less, the same or one more."""
    a, b, d = numbers["a"], numbers["b"], numbers["d"]
    other = max(0, a + b - d + (a * b + d) % 3 - 1)
    sign = sign_between(a + b, d + other)
    by_first = sign_between(a, d)
    return Made(
        Row((a, "+", b, GAP, d, "+", other)),
        (Part("1", "compare", sign),),
        (step("side-is", a, b, a + b), step("side-is", d, other, d + other)),
        {ErrorWayId("compares-first-numbers"): by_first},
        None,
        _balance_hard(a, b, d),
    )


MEANS_ANSWER = ErrorWayId("equal-means-answer")


def _same_on_both_sides(numbers: Numbers) -> Made:
    """3 + 4 = [ ] + 2, within 10."""
    a, b, d = numbers["a"], numbers["b"], numbers["d"]
    return Made(
        Row((a, "+", b, "=", GAP, "+", d)),
        (number_part(a + b - d, 2),),
        _balance_steps(a, b, d),
        {RUNS_ON: str(a + b + d), MEANS_ANSWER: str(a + b)},
        None,
        _balance_hard(a, b, d),
    )


def _turned_truth(numbers: Numbers) -> Made:
    """7 = 5 + 2, or 8 = 5 + 2: true or not? One who wants the answer on the right calls both not true."""
    a, b = numbers["a"], numbers["b"]
    holds = (a + 2 * b) % 3 != 0
    answer = TRUTH[0] if holds else TRUTH[1]
    errors = {MEANS_ANSWER: TRUTH[1]}
    return Made(
        Row((a + b if holds else a + b + 1, "=", a, "+", b)),
        (ring_fixed(answer, TRUTH, errors),),
        (step("side-is", a, b, a + b),),
        errors,
        None,
        _balance_hard(a, b, 0),
    )


def _first_free(numbers: Numbers) -> bool:
    """One item for each two numbers, whatever third one the rule brings with them."""
    a, b, d = numbers["a"], numbers["b"], numbers["d"]
    return d == min(n for n in range(1, 10) if n not in {a, b})


def _sign_steps(a: int, result: int) -> tuple[Step, ...]:
    return (step("result-grew" if result > a else "result-shrank", a, result),)


def by_first_number(a: int, b: int) -> str:
    """The sign decided from the first number, without a look at the result: minus where it is the larger one."""
    return "-" if a > b else "+"


def _sign(numbers: Numbers) -> Made:
    """8 ( ) 4 = 12."""
    a, b, k = numbers["a"], numbers["b"], numbers["k"]
    result = a - b if k else a + b
    errors = {PLUS_BY_HABIT: "+", FIRST_ONLY: by_first_number(a, b)}
    return Made(
        Row((a, GAP, b, "=", result)),
        (ring_fixed("-" if k else "+", ("+", "-"), errors),),
        _sign_steps(a, result),
        errors,
        None,
        min(1.0, 0.2 + max(a, result) / 40 + 0.2 * k),
    )


def _sign_truth(numbers: Numbers) -> Made:
    """8 + 4 = 4: true or not? The sign shown is the right one or the other."""
    a, b, k = numbers["a"], numbers["b"], numbers["k"]
    result = a - b if k else a + b
    holds = (a + 2 * b) % 3 != 0
    sign = "-" if bool(k) == holds else "+"
    answer = TRUTH[0] if holds else TRUTH[1]
    errors = {PLUS_BY_HABIT: TRUTH[0] if sign == "+" else TRUTH[1]}
    return Made(
        Row((a, sign, b, "=", result)),
        (ring_fixed(answer, TRUTH, errors),),
        _sign_steps(a, result),
        errors,
        None,
        min(1.0, 0.2 + max(a, result) / 40 + 0.2 * k),
    )


RULES: tuple[SkillRule, ...] = (
    SkillRule(
        SkillId("missing-number-within-20"),
        formats={MISSING: _missing, BAR: _bar},
        fits={BAR: lambda numbers: numbers["k"] != 2},
    ),
    SkillRule(
        SkillId("equation-balance-20"),
        formats={MISSING: _balance, TRUE_OR_NOT: _balance_truth, COMPARE: _balance_compare},
    ),
    SkillRule(
        SkillId("equal-sign-meaning"),
        formats={TRUE_OR_NOT: _turned_truth, MISSING: _same_on_both_sides, COMPARE: _balance_compare},
        fits={TRUE_OR_NOT: _first_free},
    ),
    SkillRule(
        SkillId("choose-operation-sign"),
        formats={SIGN: _sign, TRUE_OR_NOT: _sign_truth},
        half=lambda numbers: numbers["k"] == 1,
    ),
)
