"""Counting on and back to 1000, number patterns with a rule, places on a line to 1000."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.items.choices import ring_fixed
from dayleaf.items.model import Figure, Part, Question, Row
from dayleaf.items.rule import Made, SkillRule
from dayleaf.items.steps import step
from dayleaf.items.two_numbers import GAP, line_of_hops, number_part

if TYPE_CHECKING:
    from collections.abc import Callable

    from dayleaf.items.model import Step
    from dayleaf.items.rule import Maker, Numbers

PATTERN, TABLE, MISSING, JUMP = FormatId("pattern"), FormatId("table"), FormatId("missing"), FormatId("nl-jump")
MARK, ESTIMATE, CHOOSE = FormatId("nl-mark"), FormatId("estimate"), FormatId("choose")

STUCK_AT_99 = ErrorWayId("stuck-at-99")
TENS_CROSS_LOST = ErrorWayId("tens-cross-lost")
KEEPS_HUNDRED = ErrorWayId("back-keeps-hundred")
CHANGES_TENS = ErrorWayId("changes-tens")

Count = tuple[int, int]
"""The last number shown, and the step (negative: back)."""

Slips = dict[ErrorWayId, str]


def _next_step(last: int, by: int) -> Step:
    return step("next-by", last, by, last + by) if by > 0 else step("next-less", last, -by, last + by)


def _hard(last: int, by: int) -> float:
    """Turns of a ten or a hundred, and counting back, are harder (common practice, no source)."""
    turns = (last + by) // 100 != last // 100
    return min(1.0, 0.2 + 0.4 * turns + 0.2 * (by < 0) + last / 5000)


def _slips(last: int, by: int) -> Slips:
    """What comes next for one who is lost where the tens or the hundreds turn."""
    slips: Slips = {}
    if by == 1 and last % 100 == 99:
        slips[STUCK_AT_99] = f"{last // 100}100"
    if by == 10 and last // 10 % 10 == 0 and last >= 100:
        slips[TENS_CROSS_LOST] = str(last + 100)
    if by < 0 and (last + by) // 100 != last // 100:
        slips[KEEPS_HUNDRED] = str(last + by + 100)
    if abs(by) == 100:
        slips[CHANGES_TENS] = str(last + 10)
    return {way: wrong for way, wrong in slips.items() if len(wrong) <= 4}


def _pattern(read: Callable[[Numbers], Count]) -> Maker:
    """Up to three numbers in equal steps, then the next is wanted."""

    def make(numbers: Numbers) -> Made:
        last, by = read(numbers)
        shown = [term for term in (last - 2 * by, last - by, last) if 0 <= term <= 1000]
        row = Row((*(token for term in shown for token in (term, ",")), GAP))
        return Made(
            row,
            (number_part(last + by, 4),),
            (_next_step(last, by),),
            _slips(last, by),
            None,
            _hard(last, by),
        )

    return make


def _table(read: Callable[[Numbers], Count]) -> Maker:
    """Four cells in equal steps, the third or the last of them empty."""

    def make(numbers: Numbers) -> Made:
        last, by = read(numbers)
        terms = [last - by, last, last + by, last + 2 * by]
        if not 0 <= terms[-1] <= 1000:
            terms = [last - 2 * by, last - by, last, last + by]
        cells = tuple("" if term == last + by else str(term) for term in terms if 0 <= term <= 1000)
        return Made(
            Question("table-gap"),
            (number_part(last + by, 4),),
            (_next_step(last, by),),
            _slips(last, by),
            Figure("table", {"cells": cells, "columns": len(cells)}),
            _hard(last, by),
        )

    return make


def _by_ones_or_tens(numbers: Numbers) -> Count:
    """By tens from every third number, else by ones; the third number in the row is the last one shown."""
    n = numbers["n"]
    by = 10 if n % 3 == 0 and n <= 970 else 1
    return n + 2 * by, by


def _by_ones(numbers: Numbers) -> Count:
    return numbers["n"] + 1, 1


def _neighbor(numbers: Numbers) -> Made:
    """What comes just after 399, just before 500?"""
    n = numbers["n"]
    before = n % 2 == 0
    return Made(
        Question("just-before", {"n": n + 2}) if before else Question("just-after", {"n": n}),
        (number_part(n + 1, 4),),
        (step("next-less", n + 2, 1, n + 1) if before else step("next-by", n, 1, n + 1),),
        {} if before else _slips(n, 1),
        None,
        _hard(n, 1),
    )


def _hundreds(numbers: Numbers) -> Count:
    return numbers["n"], 100


def _seven(numbers: Numbers) -> Count:
    """The third of seven numbers in a row is the last one shown: each set of numbers shows another row."""
    by = (10 if numbers["s"] else 5) * (-1 if numbers["d"] else 1)
    return numbers["n"] + 2 * by, by


def _hops(numbers: Numbers) -> Made:
    """Three hops of fives or tens, forward or back; the landing is wanted."""
    _, by = _seven(numbers)
    start = numbers["n"]
    stops = tuple(start + place * by for place in range(4))
    asked = Question("hop-on" if by > 0 else "hop-back", {"start": start, "by": abs(by), "hops": 3})
    sign = "+" if by > 0 else "−"
    return Made(
        asked,
        (number_part(stops[-1], 4),),
        tuple(_next_step(stop, by) for stop in stops[:-1]),
        {**_slips(stops[2], by), ErrorWayId("start-counted-twice"): str(stops[2])},
        line_of_hops(stops, (f"{sign}{abs(by)}",) * 3),
        _hard(stops[2], by),
    )


# patterns with a rule


def _terms(numbers: Numbers) -> tuple[int, ...]:
    """Four numbers; down where the first is odd and large enough."""
    a, d = numbers["a"], numbers["d"]
    by = -d if a % 2 and a >= 5 * d else d
    return tuple(a + place * by for place in range(5))


def _rule_step(terms: tuple[int, ...]) -> Step:
    by = terms[1] - terms[0]
    return step("rule-up", by) if by > 0 else step("rule-down", -by)


def _goes_on(numbers: Numbers) -> Made:
    """4, 7, 10, 13: what comes next?"""
    terms = _terms(numbers)
    by = terms[1] - terms[0]
    errors = {ErrorWayId("repeats-last"): str(terms[0])}
    if by < 0:
        errors[ErrorWayId("first-gap-only")] = str(terms[3] - by)
    return Made(
        Row((*(token for term in terms[:4] for token in (term, ",")), GAP)),
        (number_part(terms[4], 3),),
        (_rule_step(terms), _next_step(terms[3], by)),
        errors,
        None,
        min(1.0, 0.1 + 0.05 * abs(by) + 0.3 * (by < 0)),
    )


def _which_rule(numbers: Numbers) -> Made:
    """4, 7, 10, 13: how much is added each time?"""
    terms = _terms(numbers)
    by = terms[1] - terms[0]
    return Made(
        Question("rule-adds" if by > 0 else "rule-takes", dict(zip("abcd", terms, strict=False))),
        (number_part(abs(by), 2),),
        (_rule_step(terms),),
        {},
        None,
        min(1.0, 0.1 + 0.05 * abs(by) + 0.3 * (by < 0)),
    )


# places on a line


def _line(n: int) -> dict[str, int | tuple[int, ...]]:
    """From 0 to 1000 by hundreds where n is one, else between two hundreds by tens."""
    lo, hi, tick = (0, 1000, 100) if n % 100 == 0 else (n // 100 * 100, n // 100 * 100 + 100, 10)
    return {"lo": lo, "hi": hi, "step": tick, "labels": (lo, hi)}


def _ends(n: int) -> tuple[int, int, int]:
    return (0, 1000, 100) if n % 100 == 0 else (n // 100 * 100, n // 100 * 100 + 100, 10)


def _line_step(n: int) -> Step:
    lo, _, tick = _ends(n)
    return step("marks-of", lo, tick, n)


def _mark(numbers: Numbers) -> Made:
    n = numbers["n"]
    return Made(
        Question("mark-on-line", {"n": n}),
        (Part("1", "look", ""),),
        (_line_step(n),),
        {},
        Figure("number-line", _line(n)),
        0.3 if n % 100 == 0 else 0.6,
    )


def _arrow(numbers: Numbers) -> Made:
    """An arrow at a mark of the line: which number is it?"""
    n = numbers["n"]
    lo, _, tick = _ends(n)
    ticks = (n - lo) // tick
    return Made(
        Question("arrow-at"),
        (number_part(n, 4),),
        (_line_step(n),),
        {
            ErrorWayId("scale-misread"): str(lo + ticks * (1 if tick == 10 else 10)),
            ErrorWayId("hundreds-only"): str(n // 100 * 100),
        },
        Figure("number-line", {**_line(n), "arrow": n, "question": 1}),
        0.3 if tick == 100 else 0.6,
    )


def _which_point(numbers: Numbers) -> Made:
    """Three lettered points, one of them at n, the others where a habit looks."""
    n = numbers["n"]
    lo, hi, tick = _ends(n)
    spots: dict[int, ErrorWayId | None] = {n: None}
    if n % 100:
        spots[n // 100 * 100] = ErrorWayId("hundreds-only")
    for spot, way in ((lo + hi - n, "read-from-far-end"), (n - tick, "counts-start-mark"), (n + tick, "one-mark-far")):
        if lo <= spot <= hi and len(spots) < 4:
            spots.setdefault(spot, ErrorWayId(way))
    order = sorted(spots)
    letters = dict(zip(order, "ABCD", strict=False))
    errors = {way: letters[spot] for spot, way in spots.items() if way is not None}
    return Made(
        Question("which-point", {"n": n}),
        (ring_fixed(letters[n], tuple(letters.values()), errors),),
        (_line_step(n),),
        errors,
        Figure("number-line", {**_line(n), "points": tuple(order), "question": 1}),
        0.3 if tick == 100 else 0.6,
    )


RULES: tuple[SkillRule, ...] = (
    SkillRule(
        SkillId("count-within-1000"),
        formats={PATTERN: _pattern(_by_ones_or_tens), MISSING: _neighbor, TABLE: _table(_by_ones)},
        half=lambda numbers: numbers["k"] == 1,
    ),
    SkillRule(
        SkillId("skip-count-100s-to-1000"),
        formats={PATTERN: _pattern(_hundreds), TABLE: _table(_hundreds)},
        fits={PATTERN: lambda numbers: numbers["n"] >= 100, TABLE: lambda numbers: numbers["n"] >= 100},
    ),
    SkillRule(
        SkillId("skip-count-5s-10s-to-1000"),
        formats={PATTERN: _pattern(_seven), TABLE: _table(_seven), JUMP: _hops},
        half=lambda numbers: numbers["d"] == 1,
    ),
    SkillRule(SkillId("number-patterns-rule"), formats={PATTERN: _goes_on, MISSING: _which_rule}),
    SkillRule(SkillId("numberline-place-1000"), formats={MARK: _mark, ESTIMATE: _arrow, CHOOSE: _which_point}),
)
