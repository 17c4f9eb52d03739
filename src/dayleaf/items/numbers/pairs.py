"""Even and odd, equal addends, and more or fewer at a glance."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.items.choices import ring_fixed
from dayleaf.items.model import Figure, Gap, Option, Part, Question, Row
from dayleaf.items.rule import Made, SkillRule
from dayleaf.items.steps import step
from dayleaf.items.two_numbers import GAP, number_part

if TYPE_CHECKING:
    from dayleaf.items.rule import Numbers

CHOOSE, SORT, DRAW = FormatId("choose"), FormatId("sort"), FormatId("draw")
MISSING, HORIZ = FormatId("missing"), FormatId("horiz")

BY_TENS = ErrorWayId("judge-by-tens-digit")
UNEQUAL = ErrorWayId("unequal-addends")

PARITY = ("even", "odd")
SORTED = 6
"""How many numbers stand in one sorting item."""


def _by_tens_digit(n: int) -> str:
    return PARITY[n // 10 % 2] if n >= 10 else PARITY[n % 2]


def _even_or_odd(numbers: Numbers) -> Made:
    """Dots in pairs: is their number even or odd?"""
    n = numbers["n"]
    errors = {BY_TENS: _by_tens_digit(n)}
    return Made(
        Question("even-or-odd", {"n": n}),
        (ring_fixed(PARITY[n % 2], PARITY, errors),),
        (step("pairs-left", n // 2, n % 2),),
        errors,
        Figure("dot-pairs", {"n": n}),
        n / 20,
    )


def sorting_row(n: int) -> tuple[int, ...]:
    """Six different numbers of 1 to 20, the first of them n, odd and even mixed."""
    return tuple((n - 1 + 3 * k * (k + 1) // 2) % 20 + 1 for k in range(SORTED))


def _tick_even(numbers: Numbers) -> Made:
    """Six numbers; the even ones are ticked (the odd ones where n is odd)."""
    n = numbers["n"]
    row = sorting_row(n)
    wanted = n % 2
    right = " ".join(str(one) for one in row if one % 2 == wanted)
    errors: dict[ErrorWayId, str] = {}
    ticked = " ".join(str(one) for one in row if _by_tens_digit(one) == PARITY[wanted])
    if ticked:
        errors[BY_TENS] = ticked
    return Made(
        Question("tick-odd" if wanted else "tick-even"),
        (Part("1", "many", right, options=tuple(Option(str(one)) for one in row)),),
        tuple(step("pairs-left", one // 2, one % 2) for one in row),
        errors,
        None,
        0.5,
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


def _which_row(numbers: Numbers) -> Made:
    """Two rows of counters, sometimes the shorter one stretched: which has more?"""
    a, b = numbers["a"], numbers["b"]
    spread = (a + b) % 2
    looks_longer = _more(b, a) if spread else _more(a, b)
    errors = {ErrorWayId("longer-is-more"): looks_longer}
    return Made(
        Question("which-row-more"),
        (ring_fixed(_more(a, b), ROWS, errors),),
        (step("rows-hold", a, b),),
        errors,
        Figure("counters", {"n": a, "m": b, "spread": spread}),
        min(1.0, 0.3 + min(a, b) / 20 + 0.3 * spread - 0.03 * abs(a - b)),
    )


RULES: tuple[SkillRule, ...] = (
    SkillRule(
        SkillId("even-odd-pairs"),
        formats={CHOOSE: _even_or_odd, SORT: _tick_even, DRAW: _draw_pairs},
        fits={CHOOSE: _some_pair, DRAW: _some_pair},
    ),
    SkillRule(SkillId("even-equal-addends"), formats={MISSING: _equal_addends, HORIZ: _double_of, DRAW: _split_train}),
    SkillRule(SkillId("compare-sets-10"), formats={CHOOSE: _which_row}),
)
