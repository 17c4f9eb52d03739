"""Tens and ones: models, digits and their worth, expanded form, trading."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.items.choices import ring_one
from dayleaf.items.model import Figure, Gap, Question, Row, Word
from dayleaf.items.rule import Made, SkillRule
from dayleaf.items.steps import step
from dayleaf.items.two_numbers import GAP, number_part
from dayleaf.items.ways.place_value import digits_swapped, glued, ten_as_one

if TYPE_CHECKING:
    from dayleaf.items.model import Token
    from dayleaf.items.rule import Numbers

COUNT, CHART, CHOOSE, HORIZ = FormatId("count-pic"), FormatId("pvchart"), FormatId("choose"), FormatId("horiz")
EXPANDED, MISSING = FormatId("expanded"), FormatId("missing")

ROD_AS_ONE = ErrorWayId("ten-rod-as-one")
SWAPPED = ErrorWayId("digits-swapped")
FACE_VALUE = ErrorWayId("face-value")
DIGITS_ADDED = ErrorWayId("digits-added")
NOT_REDUCED = ErrorWayId("ten-not-reduced")
GIVES_ONE = ErrorWayId("ten-gives-one")

ONES = Word("ones")
TENS = Word("tens")


def tens_word(count: int) -> Word:
    """The word tens after a number (1 ten, 3 tens)."""
    return Word("tens", count)


def ones_word(count: int) -> Word:
    """The word ones after a number (1 one, 4 ones)."""
    return Word("ones", count)


def _blocks(n: int, *, question: int = 1) -> Figure:
    """Bundles for odd numbers, blocks for even ones."""
    tens, ones = divmod(n, 10)
    if n % 2:
        return Figure("bundle", {"tens": tens, "ones": ones, "question": question})
    return Figure("base-ten", {"t": tens, "o": ones, "question": question})


def _model_hard(n: int) -> float:
    tens, ones = divmod(n, 10)
    return min(1.0, 0.1 + tens / 20 + ones / 40 + 0.2 * (ones == 0) + 0.1 * (tens == 1))


def _count_blocks(numbers: Numbers) -> Made:
    n = numbers["n"]
    errors = {ROD_AS_ONE: str(ten_as_one(n)), SWAPPED: str(digits_swapped(n))}
    return Made(
        Question("how-many-in-all"),
        (number_part(n, 2),),
        (step("ten-and-number", n // 10, n % 10, n),),
        errors,
        _blocks(n),
        _model_hard(n),
    )


def _blocks_to_digits(numbers: Numbers) -> Made:
    n = numbers["n"]
    tens, ones = divmod(n, 10)
    return Made(
        Question("how-many-tens-ones"),
        (number_part(tens, 1), number_part(ones, 1, "2")),
        (step("ten-and-number", tens, ones, n),),
        {SWAPPED: f"{ones} {tens}"},
        _blocks(n),
        _model_hard(n),
    )


def _tens_digit(n: int) -> tuple[int, int]:
    return n // 10, n // 10 * 10


def _ring_value(numbers: Numbers) -> Made:
    """What is the 3 in 37 worth: 30, 3 or tens?"""
    n = numbers["n"]
    digit, value = _tens_digit(n)
    errors = {FACE_VALUE: str(digit), ErrorWayId("place-named-for-value"): "tens"}
    return Made(
        Question("value-of-digit", {"digit": digit, "n": n}),
        (ring_one(str(value), errors, turn=n),),
        (step("tens-digit-worth", digit, value),),
        errors,
        None,
        _model_hard(n),
    )


def _write_value(numbers: Numbers) -> Made:
    """The 3 in 37 is worth [ ]."""
    n = numbers["n"]
    digit, value = _tens_digit(n)
    return Made(
        Question("digit-worth", {"digit": digit, "n": n}),
        (number_part(value, 2),),
        (step("tens-digit-worth", digit, value),),
        {FACE_VALUE: str(digit), ErrorWayId("value-of-other-digit"): str(n % 10)},
        None,
        _model_hard(n),
    )


def _write_digits(numbers: Numbers) -> Made:
    """37 into the place-value chart."""
    n = numbers["n"]
    tens, ones = divmod(n, 10)
    return Made(
        Question("tens-and-ones-of", {"n": n}),
        (number_part(tens, 1), number_part(ones, 1, "2")),
        (step("ten-and-number", tens, ones, n),),
        {SWAPPED: f"{ones} {tens}"},
        Figure("pv-mat", {"digits": (-1, -1), "show": "empty"}),
        _model_hard(n),
    )


def _expand(numbers: Numbers) -> Made:
    """58 = [ ] + [ ]: the tens first, then the ones."""
    n = numbers["n"]
    tens, ones = n // 10 * 10, n % 10
    return Made(
        Row((n, "=", GAP, "+", Gap("2"))),
        (number_part(tens, 2), number_part(ones, 1, "2")),
        (step("tens-digit-worth", tens // 10, tens), step("sum-is", tens, ones, n)),
        {DIGITS_ADDED: f"{tens // 10} {ones}"},
        None,
        _model_hard(n),
    )


def _join(numbers: Numbers) -> Made:
    """50 + 8 = [ ]."""
    n = numbers["n"]
    tens, ones = n // 10 * 10, n % 10
    return Made(
        Row((tens, "+", ones, "=", GAP)),
        (number_part(n, 3),),
        (step("ten-and-number", tens // 10, ones, n),),
        {ErrorWayId("glued-parts"): str(glued(tens, ones)), DIGITS_ADDED: str(tens // 10 + ones)},
        None,
        _model_hard(n),
    )


def _other_names(numbers: Numbers) -> Made:
    """34 = 2 tens [ ] ones."""
    n, k = numbers["n"], numbers["k"]
    tens, ones = divmod(n, 10)
    left = tens - k
    return Made(
        Row((n, "=", left, tens_word(left), GAP, ONES)),
        (number_part(10 * k + ones, 2),),
        (step("ten-and-number", tens, ones, n), step("open-tens", k, left, 10 * k + ones)),
        {ErrorWayId("one-way-only"): str(ones), ErrorWayId("ten-lost-in-trade"): str(ones + k)},
        None,
        min(1.0, 0.25 * k + 0.02 * ones),
    )


def _named(tens: int, ones: int) -> tuple[Token, ...]:
    return tens, tens_word(tens), ones, ones_word(ones)


def _open_one_ten(numbers: Numbers) -> Made:
    """3 tens 4 ones = 2 tens [ ] ones; where the number is odd the tens are asked."""
    n = numbers["n"]
    tens, ones = divmod(n, 10)
    steps = (step("open-ten", tens, tens - 1, ones + 10), step("same-number", n))
    hard = min(1.0, 0.1 * ones + 0.2 * (ones == 0))
    if n % 2:
        row = Row((*_named(tens, ones), "=", GAP, TENS, ones + 10, ones_word(ones + 10)))
        return Made(row, (number_part(tens - 1, 1),), steps, {NOT_REDUCED: str(tens)}, None, hard)
    row = Row((*_named(tens, ones), "=", tens - 1, tens_word(tens - 1), GAP, ONES))
    errors = {GIVES_ONE: str(ones + 1), ErrorWayId("one-way-only"): str(ones)}
    return Made(row, (number_part(ones + 10, 2),), steps, errors, None, hard)


def _open_in_chart(numbers: Numbers) -> Made:
    """Open one ten of the chart's tens, write tens and ones."""
    n = numbers["n"]
    tens, ones = divmod(n, 10)
    return Made(
        Question("open-one-ten", {"tens": tens, "ones": ones}),
        (number_part(tens - 1, 1), number_part(ones + 10, 2, "2")),
        (step("open-ten", tens, tens - 1, ones + 10), step("same-number", n)),
        {NOT_REDUCED: f"{tens} {ones + 10}", GIVES_ONE: f"{tens - 1} {ones + 1}"},
        Figure("pv-mat", {"digits": (tens, ones), "show": "blocks"}),
        min(1.0, 0.1 * ones + 0.2 * (ones == 0)),
    )


def _trade_hard(tens: int, ones: int) -> float:
    return min(1.0, 0.1 + tens / 20 + (ones - 10) / 20)


def _trade_in_row(numbers: Numbers) -> Made:
    """3 tens 13 ones = [ ]."""
    tens, ones = numbers["t"], numbers["n"]
    n = 10 * tens + ones
    return Made(
        Row((*_named(tens, ones), "=", GAP)),
        (number_part(n, 3),),
        (step("trade-ten", ones, ones - 10), step("ten-and-number", tens + 1, ones - 10, n)),
        {
            ErrorWayId("trade-adds-amount"): str(n + 10),
            ErrorWayId("trade-not-noticed"): str(glued(tens, ones)),
        },
        None,
        _trade_hard(tens, ones),
    )


def _trade_in_chart(numbers: Numbers) -> Made:
    """Trade ten ones of the chart for a ten, write tens and ones."""
    tens, ones = numbers["t"], numbers["n"]
    return Made(
        Question("trade-ten-ones", {"tens": tens, "ones": ones}),
        (number_part(tens + 1, 1), number_part(ones - 10, 2, "2")),
        (step("trade-ten", ones, ones - 10), step("same-number", 10 * tens + ones)),
        {
            ErrorWayId("trade-adds-amount"): f"{tens + 1} {ones}",
            ErrorWayId("trade-not-noticed"): f"{tens} {ones}",
        },
        Figure("pv-mat", {"digits": (tens, ones), "show": "blocks"}),
        _trade_hard(tens, ones),
    )


RULES: tuple[SkillRule, ...] = (
    SkillRule(SkillId("tens-ones-model-99"), formats={COUNT: _count_blocks, CHART: _blocks_to_digits}),
    SkillRule(
        SkillId("pv-2digit-digit-value"), formats={CHOOSE: _ring_value, CHART: _write_digits, HORIZ: _write_value}
    ),
    SkillRule(SkillId("pv-2digit-expanded"), formats={EXPANDED: _expand, MISSING: _join}),
    SkillRule(SkillId("pv-2digit-regroup-names"), formats={MISSING: _other_names}),
    SkillRule(SkillId("regroup-ten-for-ones"), formats={MISSING: _open_one_ten, CHART: _open_in_chart}),
    SkillRule(SkillId("regroup-ten-ones"), formats={MISSING: _trade_in_row, CHART: _trade_in_chart}),
)
