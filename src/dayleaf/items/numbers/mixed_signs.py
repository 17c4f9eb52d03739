"""Adding and taking away within 100, signs mixed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.items.choices import ring_fixed
from dayleaf.items.model import Row
from dayleaf.items.numbers import adding_tens, taking_tens
from dayleaf.items.rule import Made, Maker, SkillRule
from dayleaf.items.steps import adding_digits, step, taking_digits
from dayleaf.items.two_numbers import GAP, TwoNumbers, a_and_b, in_a_row, in_columns, number_part
from dayleaf.items.ways import addition, subtraction

if TYPE_CHECKING:
    from dayleaf.items.rule import Numbers

SIGN_IGNORED = ErrorWayId("sign-ignored")
DOES_SIGN = ErrorWayId("does-the-sign-shown")

PLUS = TwoNumbers(
    "+",
    read=a_and_b,
    ways={
        ErrorWayId("ten-forgotten"): addition.ten_forgotten,
        ErrorWayId("writes-both-digits"): addition.writes_both_digits,
        SIGN_IGNORED: addition.sign_ignored,
    },
    steps=adding_digits,
    hard=adding_tens.hard,
    width=3,
)
MINUS = TwoNumbers(
    "-",
    read=a_and_b,
    ways={
        ErrorWayId("smaller-from-larger"): subtraction.smaller_from_larger,
        ErrorWayId("ten-not-reduced"): subtraction.ten_not_reduced,
        SIGN_IGNORED: subtraction.sign_ignored,
    },
    steps=taking_digits,
    hard=taking_tens.hard,
    width=3,
)


def _kind(numbers: Numbers) -> TwoNumbers:
    return MINUS if numbers["k"] else PLUS


def _either(plus: Maker, minus: Maker) -> Maker:
    return lambda numbers: minus(numbers) if numbers["k"] else plus(numbers)


def _partner(numbers: Numbers) -> Made:
    """65 + [ ] = 100 or 82 - [ ] = 47."""
    a, b = a_and_b(numbers)
    kind = _kind(numbers)
    result = kind.result(a, b)
    errors = {DOES_SIGN: str(a + result if kind is PLUS else abs(a - result))}
    if result == 100 and a % 10:
        errors[ErrorWayId("tens-to-100")] = str(10 * (10 - a // 10) + 10 - a % 10)
    return Made(
        Row((a, kind.sign, GAP, "=", result)),
        (number_part(b, 3),),
        (step("parts-and-whole", a, b, result),) if kind is PLUS else (step("parts-and-whole", result, b, a),),
        errors,
        None,
        kind.hard(a, b),
    )


def _sign(numbers: Numbers) -> Made:
    """82 ( ) 35 = 47."""
    a, b = a_and_b(numbers)
    kind = _kind(numbers)
    result = kind.result(a, b)
    errors = {ErrorWayId("plus-by-habit"): "+"}
    return Made(
        Row((a, GAP, b, "=", result)),
        (ring_fixed(kind.sign, ("+", "-"), errors),),
        (step("result-shrank" if numbers["k"] else "result-grew", a, result),),
        errors,
        None,
        kind.hard(a, b),
    )


RULES: tuple[SkillRule, ...] = (
    SkillRule(
        SkillId("add-sub-100-mixed"),
        formats={
            FormatId("horiz"): _either(in_a_row(PLUS), in_a_row(MINUS)),
            FormatId("vert"): _either(in_columns(PLUS, trades=True), in_columns(MINUS, trades=True)),
            FormatId("missing"): _partner,
            FormatId("sign"): _sign,
        },
        half=lambda numbers: numbers["k"] == 1,
    ),
)
