"""Even and odd, equal addends, and more or fewer at a glance."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.items.choices import ring_fixed
from dayleaf.items.model import Figure, Gap, Part, Question, Row
from dayleaf.items.rule import Made, SkillRule
from dayleaf.items.steps import step
from dayleaf.items.two_numbers import GAP, number_part

if TYPE_CHECKING:
    from dayleaf.items.rule import Numbers

CHOOSE, DRAW = FormatId("choose"), FormatId("draw")
MISSING, HORIZ = FormatId("missing"), FormatId("horiz")

BY_TENS = ErrorWayId("judge-by-tens-digit")
UNEQUAL = ErrorWayId("unequal-addends")

PARITY = ("even", "odd")


def by_tens_digit(n: int) -> str:
    """Even or odd, judged by the tens digit: 12 is called odd because of the 1."""
    return PARITY[n // 10 % 2] if n >= 10 else PARITY[n % 2]


def _even_or_odd(numbers: Numbers) -> Made:
    """Dots in pairs: is their number even or odd?"""
    n = numbers["n"]
    errors = {BY_TENS: by_tens_digit(n)}
    return Made(
        Question("even-or-odd", {"n": n}),
        (ring_fixed(PARITY[n % 2], PARITY, errors),),
        (step("pairs-left", n // 2, n % 2),),
        errors,
        Figure("dot-pairs", {"n": n}),
        n / 20,
    )


def _draw_pairs(numbers: Numbers) -> Made:
    """Draw n dots in pairs; the parent looks."""
    n = numbers["n"]
    return Made(
        Question("draw-pairs", {"n": n}),
        (Part("1", "look", ""),),
        (step("pairs-left", n // 2, n % 2),),
        {},
        None,
        n / 20,
    )


def _some_pair(numbers: Numbers) -> bool:
    """One dot alone is no pair to look at."""
    return numbers["n"] > 1


def _equal_addends(numbers: Numbers) -> Made:
    """14 = [ ] + [ ], both the same."""
    a = numbers["a"]
    return Made(
        Row((2 * a, "=", GAP, "+", Gap("2"))),
        (number_part(a, 2), number_part(a, 2, "2")),
        (step("half", 2 * a, a),),
        {UNEQUAL: f"{a + 1} {a - 1}"},
        Figure("dot-pairs", {"n": 2 * a}),
        a / 10,
    )


def _double_of(numbers: Numbers) -> Made:
    """7 + 7 = [ ]."""
    a = numbers["a"]
    return Made(
        Row((a, "+", a, "=", GAP)),
        (number_part(2 * a, 2),),
        (step("double", a, 2 * a),),
        {ErrorWayId("double-plus-two"): str(a + 2)},
        None,
        a / 10,
    )


def _split_train(numbers: Numbers) -> Made:
    """A cube train to be cut in two equal parts."""
    a = numbers["a"]
    return Made(
        Row((2 * a, "=", GAP, "+", Gap("2"))),
        (number_part(a, 2), number_part(a, 2, "2")),
        (step("half", 2 * a, a),),
        {UNEQUAL: f"{a + 1} {a - 1}"},
        Figure("linking-train", {"a": 2 * a}),
        a / 10,
    )


ROWS = ("A", "B", "same")


def _more(a: int, b: int) -> str:
    return "A" if a > b else "B" if b > a else "same"


def row_lengths(a: int, b: int, *, large: int) -> tuple[int, int]:
    """How long the two rows look, in half counters: things of row `large` (1 or 2) are half as large again."""
    return a * (3 if large == 1 else 2), b * (3 if large == 2 else 2)


def _which_row(numbers: Numbers) -> Made:
    """Two rows of counters, the shorter one sometimes stretched or of larger things: which has more?"""
    a, b = numbers["a"], numbers["b"]
    spread = (a + b) % 2
    large = 0 if spread or a == b else 1 if a < b else 2
    looks_longer = _more(b, a) if spread else _more(*row_lengths(a, b, large=large))
    errors = {ErrorWayId("longer-is-more"): looks_longer}
    if large:
        errors[ErrorWayId("bigger-things-more")] = ROWS[large - 1]
    return Made(
        Question("which-row-more"),
        (ring_fixed(_more(a, b), ROWS, errors),),
        (step("rows-hold", a, b),),
        errors,
        Figure("counters", {"n": a, "m": b, "spread": spread, "large": large}),
        min(1.0, 0.3 + min(a, b) / 20 + 0.3 * spread - 0.03 * abs(a - b)),
    )


RULES: tuple[SkillRule, ...] = (
    SkillRule(
        SkillId("even-odd-pairs"),
        formats={CHOOSE: _even_or_odd, DRAW: _draw_pairs},
        fits={CHOOSE: _some_pair, DRAW: _some_pair},
    ),
    SkillRule(SkillId("even-equal-addends"), formats={MISSING: _equal_addends, HORIZ: _double_of, DRAW: _split_train}),
    SkillRule(SkillId("compare-sets-10"), formats={CHOOSE: _which_row}),
)
