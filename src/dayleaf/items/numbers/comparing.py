"""Comparing and ordering numbers, finding them on a line, rounding and guessing how many."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.items.choices import ring_fixed, ring_one
from dayleaf.items.model import Figure, Part, Question, Row
from dayleaf.items.rule import Made, SkillRule
from dayleaf.items.steps import step
from dayleaf.items.two_numbers import GAP, line_of_hops, number_part
from dayleaf.items.ways.addition import rounded
from dayleaf.items.ways.place_value import always_down, always_up, compared_by_ones, sign_between, turned

if TYPE_CHECKING:
    from dayleaf.items.model import Step
    from dayleaf.items.rule import Numbers

COMPARE, CHOOSE, ORDER = FormatId("cmp"), FormatId("choose"), FormatId("order")
MARK, ESTIMATE, MISSING, JUMP = FormatId("nl-mark"), FormatId("estimate"), FormatId("missing"), FormatId("nl-jump")

ONES_FIRST = ErrorWayId("compare-ones-first")
SIGN_TURNED = ErrorWayId("sign-turned")
REVERSED = ErrorWayId("order-reversed")
START_MARK = ErrorWayId("counts-start-mark")
ENDS_IGNORED = ErrorWayId("ends-ignored")
WRONG_WAY = ErrorWayId("jump-wrong-way")
ALWAYS_DOWN = ErrorWayId("always-down")
ADDS_TEN = ErrorWayId("adds-ten")


def _compare_steps(a: int, b: int) -> tuple[Step, ...]:
    if a // 100 != b // 100:
        return (step("compare-hundreds", a, b),)
    if a // 10 != b // 10:
        return (step("compare-tens", a // 10, b // 10),)
    return (step("compare-ones", a % 10, b % 10),)


def _compare_hard(a: int, b: int) -> float:
    """Close numbers, and ones that point the other way, are harder (common practice, no source)."""
    misleads = compared_by_ones(a, b) != sign_between(a, b)
    return min(1.0, 0.2 + 0.3 * misleads + 0.3 * (a // 10 == b // 10) + 0.2 * (abs(a - b) < 10))


def _compare(numbers: Numbers) -> Made:
    """39 ( ) 42."""
    a, b = numbers["a"], numbers["b"]
    sign = sign_between(a, b)
    return Made(
        Row((a, GAP, b)),
        (Part("1", "compare", sign),),
        _compare_steps(a, b),
        {ONES_FIRST: compared_by_ones(a, b), SIGN_TURNED: turned(sign)},
        None,
        _compare_hard(a, b),
    )


def _ring_larger(numbers: Numbers) -> Made:
    """Ring the larger of two numbers."""
    a, b = numbers["a"], numbers["b"]
    larger, smaller = str(max(a, b)), str(min(a, b))
    by_ones = str(a if compared_by_ones(a, b) == ">" else b)
    errors = {ONES_FIRST: by_ones, ErrorWayId("smaller-for-larger"): smaller}
    return Made(
        Question("larger-of", {"a": a, "b": b}),
        (ring_fixed(larger, (str(a), str(b)), errors),),
        _compare_steps(a, b),
        errors,
        None,
        _compare_hard(a, b),
    )


def third_number(a: int, b: int) -> int:
    """A third number of 0 to 120 made of the digits of two others, so that ones and tens pull apart."""
    candidates = (
        10 * (a % 10) + a // 10 % 10,
        10 * (b // 10 % 10) + a % 10,
        10 * (a // 10 % 10) + b % 10,
        a + 10,
        a - 10,
        b + 10,
        b - 10,
        a + 1,
    )
    return next(c for c in candidates if 0 <= c <= 120 and c not in {a, b})


def _three(numbers: Numbers) -> tuple[int, int, int]:
    a, b = numbers["a"], numbers["b"]
    return a, b, third_number(a, b)


def _by_ones(n: int) -> tuple[int, int]:
    return n % 10, n


def _order(numbers: Numbers) -> Made:
    """Three numbers in order, smallest first."""
    a, b, c = _three(numbers)
    right = sorted((a, b, c))
    return Made(
        Question("order-from-smallest", {"a": a, "b": b, "c": c}),
        tuple(number_part(n, 3, str(place)) for place, n in enumerate(right, start=1)),
        (step("in-order", *right),),
        {
            REVERSED: " ".join(str(n) for n in reversed(right)),
            ONES_FIRST: " ".join(str(n) for n in sorted(right, key=_by_ones)),
        },
        None,
        _compare_hard(right[0], right[1]),
    )


def _ring_largest(numbers: Numbers) -> Made:
    """Ring the largest of three numbers."""
    a, b, c = _three(numbers)
    errors = {ONES_FIRST: str(max(a, b, c, key=_by_ones)), REVERSED: str(min(a, b, c))}
    return Made(
        Question("largest-of", {"a": a, "b": b, "c": c}),
        (ring_fixed(str(max(a, b, c)), (str(a), str(b), str(c)), errors),),
        (step("in-order", *sorted((a, b, c))),),
        errors,
        None,
        _compare_hard(a, b),
    )


def _each_wrong_one_is_a_way(numbers: Numbers) -> bool:
    """The largest is wanted, the smallest is the order turned round, and the middle one has the largest ones digit."""
    if not _different(numbers):
        return False
    three = sorted(_three(numbers))
    return max(three, key=_by_ones) == three[1]


def _different(numbers: Numbers) -> bool:
    return numbers["a"] != numbers["b"]


def _line_for(n: int) -> tuple[int, int, int]:
    """A number line on which n is a mark: from 0 to 100 by tens or fives, or between two tens by ones."""
    if n % 10 == 0:
        return 0, 100, 10
    if n % 5 == 0:
        return 0, 100, 5
    return n // 10 * 10, n // 10 * 10 + 10, 1


def _line_hard(n: int) -> float:
    return 0.2 if n % 10 == 0 else 0.5 if n % 5 == 0 else 0.7


def _mark(numbers: Numbers) -> Made:
    """Mark n on the line; the parent looks."""
    n = numbers["n"]
    lo, hi, tick = _line_for(n)
    return Made(
        Question("mark-on-line", {"n": n}),
        (Part("1", "look", ""),),
        (step("ticks-from", lo, (n - lo) // tick, n),),
        {},
        Figure("number-line", {"lo": lo, "hi": hi, "step": tick, "labels": (lo, hi)}),
        _line_hard(n),
    )


def _which_point(numbers: Numbers) -> Made:
    """Three lettered points, one of them at n: one mark short for one who counts the start, one at the far side."""
    n = numbers["n"]
    lo, hi, tick = _line_for(n)
    mirror = lo + hi - n
    spots: dict[int, ErrorWayId | None] = {n: None}
    if lo <= n - tick:
        spots[n - tick] = START_MARK
    if mirror not in spots:
        spots[mirror] = ErrorWayId("read-from-far-end")
    if n + tick <= hi:
        spots.setdefault(n + tick, ErrorWayId("one-mark-far"))
    order = sorted(spots)
    letters = dict(zip(order, "ABCD", strict=False))
    errors = {way: letters[spot] for spot, way in spots.items() if way is not None}
    return Made(
        Question("which-point", {"n": n}),
        (ring_fixed(letters[n], tuple(letters.values()), errors),),
        (step("ticks-from", lo, (n - lo) // tick, n),),
        errors,
        Figure(
            "number-line",
            {"lo": lo, "hi": hi, "step": tick, "labels": (lo, hi), "points": tuple(order), "question": 1},
        ),
        _line_hard(n),
    )


def _about_where(numbers: Numbers) -> Made:
    """An arrow on a line from 0 to 100 without marks: about which number is it?"""
    n = numbers["n"]
    errors = {ENDS_IGNORED: str(n // 5), ErrorWayId("read-from-far-end"): str(100 - n)}
    return Made(
        Question("about-which-number"),
        (ring_one(str(n), errors, turn=n),),
        (step("about-place", n),),
        errors,
        Figure(
            "number-line",
            {"lo": 0, "hi": 100, "step": 100, "labels": (0, 100), "arrow": n, "question": 1},
        ),
        min(1.0, abs(50 - n) / 60),
    )


def _apart(numbers: Numbers) -> bool:
    """The three numbers to choose from lie at least fifteen apart, so that the place tells them apart."""
    n = numbers["n"]
    near = sorted((n, n // 5, 100 - n))
    return near[1] - near[0] >= 15 and near[2] - near[1] >= 15


def _round_steps(n: int) -> tuple[Step, ...]:
    below = n // 10 * 10
    last = step("half-way-up", n, below + 10) if n % 10 == 5 else step("nearer-to", n, rounded(n))
    return step("between-tens", n, below, below + 10), last


def _round_hard(n: int) -> float:
    return 1.0 - abs(n % 10 - 5) / 5 if n % 10 != 5 else 0.9


def _round(numbers: Numbers) -> Made:
    """48 is nearest to [ ]."""
    n = numbers["n"]
    return Made(
        Question("round-to-ten", {"n": n}),
        (number_part(rounded(n), 3),),
        _round_steps(n),
        {ALWAYS_DOWN: str(always_down(n)), ADDS_TEN: str(always_up(n))},
        None,
        _round_hard(n),
    )


def _round_ring(numbers: Numbers) -> Made:
    """Ring the nearer of the two tens."""
    n = numbers["n"]
    below, above = always_down(n), always_up(n)
    errors = {ALWAYS_DOWN: str(below), ADDS_TEN: str(above)}
    return Made(
        Question("round-to-ten", {"n": n}),
        (ring_fixed(str(rounded(n)), (str(below), str(above)), errors),),
        _round_steps(n),
        errors,
        None,
        _round_hard(n),
    )


def _round_mark(numbers: Numbers) -> Made:
    """The number is a dot between two tens; the nearer ten is wanted."""
    n = numbers["n"]
    below, above = always_down(n), always_up(n)
    return Made(
        Question("nearest-ten-on-line", {"n": n}),
        (number_part(rounded(n), 3),),
        _round_steps(n),
        {ALWAYS_DOWN: str(below), ADDS_TEN: str(above)},
        Figure("number-line", {"lo": below, "hi": above, "labels": (below, above), "dots": (n,)}),
        _round_hard(n),
    )


def _guess_tens(numbers: Numbers) -> Made:
    """Things in rows of ten: about how many, to the nearest ten?"""
    n = numbers["n"]
    return Made(
        Question("about-how-many"),
        (number_part(rounded(n), 3),),
        (step("rows-of-ten", rounded(n) // 10, rounded(n)),),
        {ErrorWayId("estimate-is-exact"): str(n), ALWAYS_DOWN: str(always_down(n))},
        Figure("set-objects", {"groups": n // 10, "size": 10, "extra": n % 10, "rings": 0, "question": 1}),
        min(1.0, n / 130 + 0.05 * (5 - abs(n % 10 - 5))),
    )


def _jump_parts(numbers: Numbers) -> tuple[int, int, int, str]:
    """Start, size and end of the jump, and its sign: forward where a + b is even, back where it is odd."""
    a, b = numbers["a"], numbers["b"]
    return (a + b, b, a, "-") if (a + b) % 2 else (a, b, a + b, "+")


def _jump_hard(start: int, end: int) -> float:
    return min(1.0, 0.1 + abs(end - start) / 90 + 0.3 * (start // 10 != end // 10 and abs(end - start) % 10 > 0))


def _jump_step(start: int, by: int, end: int, sign: str) -> Step:
    return step("jump-up", start, by, end) if sign == "+" else step("jump-back", start, by, end)


def _one_jump(numbers: Numbers) -> Made:
    """One jump on an empty line; where does it land?"""
    start, by, end, sign = _jump_parts(numbers)
    errors = {START_MARK: str(end - 1 if sign == "+" else end + 1)}
    other = start - by if sign == "+" else start + by
    if other >= 0:
        errors[WRONG_WAY] = str(other)
    return Made(
        Row((start, sign, by, "=", GAP)),
        (number_part(end, 3),),
        (_jump_step(start, by, end, sign),),
        errors,
        line_of_hops((start, end), (_label(sign, by),)),
        _jump_hard(start, end),
    )


def _label(sign: str, by: int) -> str:
    return f"{'+' if sign == '+' else '−'}{by}"


def _jump_size(numbers: Numbers) -> Made:
    """Start and landing are on the line; how long is the jump?"""
    start, by, end, sign = _jump_parts(numbers)
    return Made(
        Row((start, sign, GAP, "=", end)),
        (number_part(by, 3),),
        (_jump_step(start, by, end, sign),),
        {START_MARK: str(by + 1), ErrorWayId("does-the-sign-shown"): str(start + end if sign == "+" else start - end)},
        line_of_hops((start, end), blank_end=False),
        _jump_hard(start, end),
    )


def _which_jump(numbers: Numbers) -> Made:
    """A jump is drawn; which sum does it show?"""
    start, by, end, sign = _jump_parts(numbers)
    other_sign = "-" if sign == "+" else "+"
    errors = {START_MARK: f"{start}{sign}{by + 1}"}
    if sign == "-" or start >= by:
        errors[WRONG_WAY] = f"{start}{other_sign}{by}"
    return Made(
        Question("which-jump"),
        (ring_one(f"{start}{sign}{by}", errors, turn=start + by),),
        (_jump_step(start, by, end, sign),),
        errors,
        line_of_hops((start, end), ("",), blank_end=False),
        _jump_hard(start, end),
    )


RULES: tuple[SkillRule, ...] = (
    SkillRule(
        SkillId("compare-2digit"),
        formats={COMPARE: _compare, CHOOSE: _ring_larger},
        fits={CHOOSE: _different},
    ),
    SkillRule(
        SkillId("compare-order-2digit"),
        formats={COMPARE: _compare, ORDER: _order, CHOOSE: _ring_largest},
        fits={ORDER: _different, CHOOSE: _each_wrong_one_is_a_way},
    ),
    SkillRule(
        SkillId("numberline-place-100"),
        formats={MARK: _mark, ESTIMATE: _about_where, CHOOSE: _which_point},
        fits={ESTIMATE: _apart},
    ),
    SkillRule(SkillId("round-nearest-10"), formats={MARK: _round_mark, CHOOSE: _round_ring, MISSING: _round}),
    SkillRule(SkillId("estimate-count-by-tens"), formats={ESTIMATE: _guess_tens}),
    SkillRule(
        SkillId("numberline-add-sub-100"),
        formats={JUMP: _one_jump, MISSING: _jump_size, CHOOSE: _which_jump},
    ),
)
