"""Comparing, ordering and rounding numbers of three and four digits; 10, 100 or 1000 more or less."""

from __future__ import annotations

from itertools import permutations
from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.items.choices import ring_fixed, ring_one
from dayleaf.items.model import Figure, Part, Question, Row
from dayleaf.items.numbers.hundreds import short
from dayleaf.items.rule import Made, SkillRule
from dayleaf.items.steps import step
from dayleaf.items.two_numbers import GAP, number_part
from dayleaf.items.ways import large_numbers as ways
from dayleaf.items.ways.place_value import sign_between
from dayleaf.items.ways.places import nearest

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from dayleaf.items.model import Step
    from dayleaf.items.rule import Maker, Numbers

COMPARE, CHOOSE, TRUE_FALSE, ORDER = FormatId("cmp"), FormatId("choose"), FormatId("tf"), FormatId("order")
MARK, MISSING, TABLE, HORIZ = FormatId("nl-mark"), FormatId("missing"), FormatId("table"), FormatId("horiz")

LAST_DIGIT = ErrorWayId("compare-last-digit")
DIGIT_SUM = ErrorWayId("more-digits-sum")
FIRST_DIGIT = ErrorWayId("first-digit-any-length")
REVERSED = ErrorWayId("order-reversed")
ALWAYS_DOWN = ErrorWayId("always-down")

Signs = dict[ErrorWayId, "Callable[[int, int], str]"]

THREE_DIGITS: Signs = {LAST_DIGIT: ways.by_last_digit, DIGIT_SUM: ways.by_digit_sum}
MIXED_LENGTHS: Signs = {FIRST_DIGIT: ways.by_first_digit, LAST_DIGIT: ways.by_last_digit}


def _pair(numbers: Numbers) -> tuple[int, int]:
    return numbers["a"], numbers["b"]


def _close_pair(numbers: Numbers) -> tuple[int, int]:
    """The first number, and one made from it: two digits changed about, a digit fewer, or a step away.

    Which, is the variable k.
    """
    a, k = numbers["a"], numbers["k"]
    text = str(a)
    other = (
        int(text[:-2] + text[-1] + text[-2]),
        int(text[:-3] + text[-2] + text[-3] + text[-1]),
        int(text[1] + text[0] + text[2:]),
        a // 10 if a >= 1000 else 10 * a + 1,
        a + 1000 if a < 9000 else a - 1000,
        a - 100,
        a + 9,
        a,
    )[k]
    return a, other if 100 <= other <= 9999 else a - 10 if a > 9900 else a + 100


def _five_digits(numbers: Numbers) -> tuple[int, int]:
    """The number, and one with two of its neighboring digits changed about; equal where they are the same digit.

    Which two digits, follows from the number.
    """
    n = numbers["n"]
    text = str(n)
    place = 1 + n % 4
    turned = text[: place - 1] + text[place] + text[place - 1] + text[place + 1 :]
    return n, int(turned) if turned[0] != "0" else n


def _deciding_step(a: int, b: int) -> Step:
    """The first place, from the left, in which the numbers differ."""
    if len(str(a)) != len(str(b)):
        return step("compare-lengths", len(str(a)), len(str(b)))
    pairs = list(zip(ways.parts(a), ways.parts(b), strict=True))
    one, other = next((pair for pair in pairs if pair[0] != pair[1]), (a, b))
    return step("compare-parts", one, other) if a != b else step("compare-same", a)


def _hard(a: int, b: int) -> float:
    """Numbers with the same front, and ones that pull the other way, are harder (common practice, no source)."""
    misleads = ways.by_last_digit(a, b) != sign_between(a, b)
    return min(1.0, 0.2 + 0.3 * misleads + 0.3 * (a // 100 == b // 100) + 0.2 * (len(str(a)) != len(str(b))))


def _compare(read: Callable[[Numbers], tuple[int, int]], signs: Signs) -> Maker:
    """482 ( ) 428."""

    def make(numbers: Numbers) -> Made:
        a, b = read(numbers)
        return Made(
            Row((a, GAP, b)),
            (Part("1", "compare", sign_between(a, b)),),
            (_deciding_step(a, b),),
            {way: go(a, b) for way, go in signs.items()},
            None,
            _hard(a, b),
        )

    return make


def _ring_larger(read: Callable[[Numbers], tuple[int, int]], signs: Signs) -> Maker:
    """Ring the larger of two numbers."""

    def make(numbers: Numbers) -> Made:
        a, b = read(numbers)
        errors = {way: str(a if go(a, b) == ">" else b) for way, go in signs.items()}
        errors[ErrorWayId("smaller-for-larger")] = str(min(a, b))
        return Made(
            Question("larger-of", {"a": a, "b": b}),
            (ring_fixed(str(max(a, b)), (str(a), str(b)), errors),),
            (_deciding_step(a, b),),
            errors,
            None,
            _hard(a, b),
        )

    return make


def _true_or_not(numbers: Numbers) -> Made:
    """329 > 341: true or not true? The sign shown is the one that the last digits suggest."""
    a, b = _pair(numbers)
    right, shown = sign_between(a, b), ways.by_last_digit(a, b)
    if (a + b) % 2:
        shown = right
    errors = {way: "true" if go(a, b) == shown else "not-true" for way, go in THREE_DIGITS.items()}
    answer = "true" if shown == right else "not-true"
    return Made(
        Row((a, shown, b)),
        (ring_fixed(answer, ("true", "not-true"), errors),),
        (_deciding_step(a, b),),
        errors,
        None,
        _hard(a, b),
    )


def _different(read: Callable[[Numbers], tuple[int, int]]) -> Callable[[Numbers], bool]:
    return lambda numbers: read(numbers)[0] != read(numbers)[1]


def _by_ones(n: int) -> tuple[int, int]:
    return n % 10, n


def _ordered(told: Sequence[int], by_slip: tuple[int, ...], slip: ErrorWayId, width: int) -> Made:
    right = sorted(told)
    return Made(
        Question("order-from-smallest", dict(zip("abc", told, strict=True))),
        tuple(number_part(n, width, str(place)) for place, n in enumerate(right, start=1)),
        (step("in-order", *right),),
        {REVERSED: " ".join(str(n) for n in reversed(right)), slip: " ".join(str(n) for n in by_slip)},
        None,
        _hard(right[0], right[1]),
    )


def _same_digits(numbers: Numbers) -> tuple[int, int, int]:
    """Three numbers of the same three digits in other orders; k says which."""
    orders = list(permutations((numbers["a"], numbers["b"], numbers["c"])))
    first, second, third = ((0, 3, 4), (1, 2, 5), (0, 1, 5), (2, 3, 5))[numbers["k"]]
    a, b, c = (int("".join(map(str, orders[place]))) for place in (first, second, third))
    return a, b, c


def _order_three(numbers: Numbers) -> Made:
    """507, 570, 175: smallest first."""
    told = _same_digits(numbers)
    return _ordered(told, tuple(sorted(told, key=_by_ones)), ErrorWayId("order-by-last-digit"), 3)


def _order_lengths(numbers: Numbers) -> Made:
    """987, 1203, 1023: smallest first; the third number is the larger one with a digit fewer."""
    a, b = _close_pair(numbers)
    c = _third(a, b)
    by_first = tuple(sorted((a, b, c), key=lambda n: (str(n)[0], n)))
    return _ordered((a, b, c), by_first, FIRST_DIGIT, 4)


def _third(a: int, b: int) -> int:
    """A third number that is neither of two others: the larger one with a digit fewer, or one near it."""
    tried = (int(f"9{min(a, b) % 100:02}"), min(a, b) + 90, min(a, b) + 91)
    return next(n for n in tried if n not in {a, b})


def _mark(numbers: Numbers) -> Made:
    """The first of the three numbers, to be marked between its hundreds; the parent looks."""
    n = _same_digits(numbers)[0]
    lo = n // 100 * 100
    return Made(
        Question("mark-on-line", {"n": n}),
        (Part("1", "look", ""),),
        (step("between-tens", n, n // 10 * 10, n // 10 * 10 + 10),),
        {},
        Figure("number-line", {"lo": lo, "hi": lo + 100, "step": 10, "labels": (lo, lo + 100)}),
        min(1.0, 0.3 + abs(n % 10 - 5) / 10),
    )


# rounding


def _round_steps(n: int, unit: int) -> tuple[Step, ...]:
    below = n // unit * unit
    near = nearest(n, unit)
    last = step("half-way-up", n, near) if n % unit == unit // 2 else step("nearer-to", n, near)
    between = step("between-tens" if unit == 10 else "between-hundreds", n, below, below + unit)
    return (between, last) if n != below else (step("is-already", n),)


def _round_hard(n: int, unit: int) -> float:
    half = unit // 2
    return 0.9 if n % unit == half else 1.0 - abs(n % unit - half) / half


def _unit(numbers: Numbers) -> int:
    """The unit asked for: a hundred, or where the rule has a k of 0 a ten."""
    return 10 if numbers.get("k") == 0 else 100


def _slips(n: int, unit: int, *, both: bool) -> dict[ErrorWayId, str]:
    """What comes out for one who drops the rest or looks at the wrong place."""
    if not both:
        return short(4, {"always-down": n // 100 * 100, "looks-at-ones": ways.by_the_ones(n)})
    if unit == 10:
        return short(4, {"wrong-place-rounded": nearest(n, 100), "always-down": n // 10 * 10})
    return short(4, {"wrong-place-rounded": nearest(n, 10), "chain-rounding": ways.rounded_twice(n)})


def _round(shape: str, *, both: bool) -> Maker:
    """To the nearest hundred (or ten): written, ringed, or found beside a dot on the line."""

    def make(numbers: Numbers) -> Made:
        n, unit = numbers["n"], _unit(numbers)
        below, right = n // unit * unit, nearest(n, unit)
        errors = _slips(n, unit, both=both)
        code = "ten" if unit == 10 else "hundred"
        asked = f"nearest-{code}-on-line" if shape == "line" else f"round-to-{code}"
        line = Figure("number-line", {"lo": below, "hi": below + unit, "labels": (below, below + unit), "dots": (n,)})
        if unit == 100:
            line = Figure("number-line", {**line.params, "step": 10})
        return Made(
            Question(asked, {"n": n}),
            (ring_one(str(right), errors, turn=n) if shape == "ring" else number_part(right, 4),),
            _round_steps(n, unit),
            errors,
            line if shape == "line" else None,
            _round_hard(n, unit),
        )

    return make


def _not_round(numbers: Numbers) -> bool:
    return numbers["n"] % _unit(numbers) != 0


def _two_to_ring(*, both: bool) -> Callable[[Numbers], bool]:
    """A wrong number is there to be ringed."""

    def fits(numbers: Numbers) -> bool:
        n, unit = numbers["n"], _unit(numbers)
        return set(_slips(n, unit, both=both).values()) > {str(nearest(n, unit))}

    return fits


# more and less

STEPS_OF_K = (10, -10, 100, -100, 1000, -1000)


def _changed(numbers: Numbers) -> tuple[int, int]:
    return numbers["n"], STEPS_OF_K[numbers["k"]]


def _change_errors(n: int, by: int, width: int) -> dict[ErrorWayId, str]:
    return short(
        width,
        {"wrong-place-changed": ways.changed_one_place_higher(n, by), "cross-stuck": ways.stuck_at_the_turn(n, by)},
    )


def _change_hard(n: int, by: int) -> float:
    turns = (n + by) // abs(10 * by) != n // abs(10 * by)
    return min(1.0, 0.2 + 0.4 * turns + 0.15 * (by < 0) + n / 50_000)


def _change(shape: str, width: int) -> Maker:
    """What is 100 more than 2950? As a question, as a sum, or as the empty box of a table."""

    def make(numbers: Numbers) -> Made:
        n, by = _changed(numbers)
        asked = Question("more-than" if by > 0 else "less-than", {"n": n, "by": abs(by)})
        return Made(
            Row((n, "+" if by > 0 else "-", abs(by), "=", GAP)) if shape == "sum" else asked,
            (number_part(n + by, width),),
            (step("next-by", n, by, n + by) if by > 0 else step("next-less", n, -by, n + by),),
            _change_errors(n, by, width),
            Figure("table", {"cells": (str(n), ""), "columns": 2}) if shape == "table" else None,
            _change_hard(n, by),
        )

    return make


RULES: tuple[SkillRule, ...] = (
    SkillRule(
        SkillId("compare-3digit"),
        formats={
            COMPARE: _compare(_pair, THREE_DIGITS),
            CHOOSE: _ring_larger(_pair, THREE_DIGITS),
            TRUE_FALSE: _true_or_not,
        },
        fits={CHOOSE: _different(_pair), TRUE_FALSE: _different(_pair)},
        half=lambda numbers: numbers["a"] // 100 == numbers["b"] // 100,
    ),
    SkillRule(SkillId("pv-5digit"), formats={COMPARE: _compare(_five_digits, {LAST_DIGIT: ways.by_last_digit})}),
    SkillRule(
        SkillId("order-3digit"),
        formats={ORDER: _order_three, MARK: _mark},
        fits={MARK: lambda numbers: numbers["k"] == 0},
    ),
    SkillRule(
        SkillId("compare-order-4digit"),
        formats={
            COMPARE: _compare(_close_pair, MIXED_LENGTHS),
            ORDER: _order_lengths,
            CHOOSE: _ring_larger(_close_pair, MIXED_LENGTHS),
        },
        fits={ORDER: _different(_close_pair), CHOOSE: _different(_close_pair)},
    ),
    SkillRule(
        SkillId("round-nearest-100"),
        formats={
            MARK: _round("line", both=False),
            CHOOSE: _round("ring", both=False),
            MISSING: _round("write", both=False),
        },
        fits={CHOOSE: _two_to_ring(both=False)},
    ),
    SkillRule(
        SkillId("round-10-100-3digit"),
        formats={
            CHOOSE: _round("ring", both=True),
            MISSING: _round("write", both=True),
            MARK: _round("line", both=True),
        },
        fits={CHOOSE: _two_to_ring(both=True), MARK: _not_round, MISSING: _not_round},
        half=lambda numbers: numbers["k"] == 0,
    ),
    SkillRule(
        SkillId("add-sub-10-100-mental"),
        formats={MISSING: _change("ask", 4), TABLE: _change("table", 4), HORIZ: _change("sum", 4)},
    ),
    SkillRule(
        SkillId("add-sub-10-100-1000-mental"),
        formats={MISSING: _change("ask", 5), TABLE: _change("table", 5)},
    ),
)
