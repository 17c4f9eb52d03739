"""Counting on by ones, twos, fives and tens, with patterns, hops and pieces of the hundred chart."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.items.model import Figure, Question, Row, Word
from dayleaf.items.rule import Made, SkillRule
from dayleaf.items.steps import step
from dayleaf.items.two_numbers import GAP, line_of_hops, number_part
from dayleaf.items.ways.place_value import digits_swapped, teen_ty_mixed, written_as_heard

if TYPE_CHECKING:
    from collections.abc import Callable

    from dayleaf.items.rule import Maker, Numbers

PATTERN, TABLE, JUMP = FormatId("pattern"), FormatId("table"), FormatId("nl-jump")
MISSING, PATH, WORDS = FormatId("missing"), FormatId("path"), FormatId("words")

DECADE_STUMBLE = ErrorWayId("decade-stumble")
AFTER_100 = ErrorWayId("after-100-jump")
ONES_DROPPED = ErrorWayId("ones-dropped")
FIVE_TO_TEN = ErrorWayId("five-slip-to-ten")
START_TWICE = ErrorWayId("start-counted-twice")
LOST_AT_DECADE = ErrorWayId("lost-at-decade")
ODD_START = ErrorWayId("odd-start-switches")

CHART_END = 120


def chart_around(*seen: int, blank: int) -> Figure:
    """A piece of the hundred chart: the rows that hold these numbers, one cell empty."""
    rows = range(min((*seen, blank)) - 1, max((*seen, blank)))
    first, last = rows[0] // 10, rows[-1] // 10
    cells = tuple(n for n in range(10 * first + 1, 10 * last + 11) if n <= CHART_END)
    return Figure("hundred-chart", {"lo": 1, "hi": CHART_END, "cells": cells, "blanks": (blank,)})


def _hard(n: int, by: int) -> float:
    """Crossing a ten or a hundred is harder than staying inside (common practice, no source)."""
    crosses = (n + by) // 10 != n // 10 and by < 10
    return min(1.0, 0.2 + n / 300 + 0.3 * crosses + 0.3 * (n < 100 <= n + by))


def one_more_errors(n: int) -> dict[ErrorWayId, str]:
    """What comes after n for one who loops at a decade, or jumps by hundreds after 100."""
    errors: dict[ErrorWayId, str] = {}
    if n % 10 == 9:
        errors[DECADE_STUMBLE] = str(n - 9)
    if n == 100:
        errors[AFTER_100] = "200"
    return errors


def tens_errors(n: int) -> dict[ErrorWayId, str]:
    """What comes ten after n for one who jumps from 90 to hundreds, or drops the ones."""
    errors: dict[ErrorWayId, str] = {}
    if n >= 100:
        errors[AFTER_100] = "200"
    if n % 10:
        errors[ONES_DROPPED] = str(n // 10 * 10 + 10)
    return errors


def fives_errors(n: int) -> dict[ErrorWayId, str]:
    """What comes five after n for one who slips into tens."""
    return {FIVE_TO_TEN: str(n + 10)}


def twos_errors(n: int) -> dict[ErrorWayId, str]:
    """What comes two after n for one who says the next number at a decade, or after an odd one."""
    errors: dict[ErrorWayId, str] = {}
    if n % 10 in {8, 9}:
        errors[LOST_AT_DECADE] = str(n + 1)
    if n % 2:
        errors[ODD_START] = str(n + 1)
    return errors


def _pattern(
    read: Callable[[Numbers], int], by: int, slips: Callable[[int], dict[ErrorWayId, str]], width: int = 3
) -> Maker:
    """Up to three numbers that step by `by`, then the next one is wanted."""

    def make(numbers: Numbers) -> Made:
        n = read(numbers)
        shown = [term for term in (n - 2 * by, n - by, n) if term >= 0]
        tokens: list[int | str] = []
        for term in shown:
            tokens += [term, ","]
        return Made(
            Row((*tokens, GAP)),
            (number_part(n + by, width),),
            (step("next-by", n, by, n + by),),
            slips(n),
            None,
            _hard(n, by),
        )

    return make


def _seen_in_pattern(read: Callable[[Numbers], int], by: int) -> Callable[[Numbers], bool]:
    """A pattern needs two numbers to show its step."""
    return lambda numbers: read(numbers) >= by


def _chart(
    read: Callable[[Numbers], int], by: int, slips: Callable[[int], dict[ErrorWayId, str]], width: int = 3
) -> Maker:
    """The cell `by` after n is empty in a piece of the hundred chart."""

    def make(numbers: Numbers) -> Made:
        n = read(numbers)
        return Made(
            Question("chart-gap", {"start": n}),
            (number_part(n + by, width),),
            (step("chart-step", n, by, n + by),),
            slips(n),
            chart_around(n, blank=n + by),
            _hard(n, by),
        )

    return make


def _on_chart(read: Callable[[Numbers], int]) -> Callable[[Numbers], bool]:
    return lambda numbers: read(numbers) >= 1


def _hops(read: Callable[[Numbers], int], by: int, end: int, width: int) -> Maker:
    """Up to three hops of `by` on a number line; the last landing is wanted."""

    def make(numbers: Numbers) -> Made:
        n = read(numbers)
        count = min(3, (end - n) // by)
        last = n + count * by
        return Made(
            Question("hop-on", {"start": n, "by": by, "hops": count}),
            (number_part(last, width),),
            tuple(step("next-by", n + k * by, by, n + (k + 1) * by) for k in range(count)),
            {START_TWICE: str(last - by)},
            line_of_hops(tuple(n + k * by for k in range(count + 1)), (f"+{by}",) * count),
            _hard(n, by),
        )

    return make


def _n(numbers: Numbers) -> int:
    return numbers["n"]


def _fives(numbers: Numbers) -> int:
    return 5 * numbers["n"]


def _skip(
    skill: str,
    read: Callable[[Numbers], int],
    *,
    by: int,
    end: int,
    slips: Callable[[int], dict[ErrorWayId, str]],
) -> SkillRule:
    width = 2 if end < 90 else 3
    return SkillRule(
        SkillId(skill),
        formats={
            PATTERN: _pattern(read, by, slips, width),
            TABLE: _chart(read, by, slips, width),
            JUMP: _hops(read, by, end, width),
        },
        fits={PATTERN: _seen_in_pattern(read, by), TABLE: _on_chart(read)},
    )


def _ten_more_or_less(numbers: Numbers) -> Made:
    """10 more than 34 is [ ], or 10 less."""
    n, less = numbers["n"], numbers["s"]
    by = -10 if less else 10
    return Made(
        Question("ten-less" if less else "ten-more", {"n": n}),
        (number_part(n + by, 3),),
        (step("next-less", n, 10, n - 10) if less else step("next-by", n, 10, n + 10),),
        {ErrorWayId("changes-ones"): str(n + by // 10)},
        None,
        min(1.0, 0.1 + n / 150 + 0.2 * less + 0.2 * (n + by > 99 or n + by < 10)),
    )


def _ten_on_chart(numbers: Numbers) -> Made:
    """The cell above or below n is empty."""
    n = numbers["n"]
    by = -10 if numbers["s"] else 10
    return Made(
        Question("chart-gap", {"start": n}),
        (number_part(n + by, 3),),
        (step("chart-step", n, by, n + by),),
        {ErrorWayId("changes-ones"): str(n + by // 10)},
        chart_around(n, blank=n + by),
        min(1.0, 0.1 + n / 150 + 0.2 * numbers["s"]),
    )


MOVES = (1, -1, 10, -10, 9, -9, 11, -11)
CARDS = {1: ("right",), -1: ("left",), 10: ("down",), -10: ("up",), 9: ("down", "left"), -9: ("up", "right")}
CARDS |= {11: ("down", "right"), -11: ("up", "left")}


def _move(numbers: Numbers) -> tuple[int, int]:
    return numbers["n"], MOVES[numbers["m"]]


def _move_errors(n: int, by: int) -> dict[ErrorWayId, str]:
    """Down taken for less; and at the end of a row a jump into the wrong row."""
    errors: dict[ErrorWayId, str] = {}
    down = round(by / 10) * 10
    if down and 1 <= n + by - 2 * down <= CHART_END:
        errors[ErrorWayId("down-is-less")] = str(n + by - 2 * down)
    if (by, n % 10) in {(1, 0), (-1, 1)}:
        errors[ErrorWayId("wrap-lost")] = str(n + by - 10 * by)
    return errors


def _move_hard(n: int, by: int) -> float:
    wraps = (n - 1) // 10 != (n + by - 1) // 10 and abs(by) == 1
    return min(1.0, {1: 0.1, 10: 0.3, 9: 0.6, 11: 0.5}[abs(by)] + 0.3 * wraps + 0.05 * (by < 0))


def _inside_chart(numbers: Numbers) -> bool:
    """The move stays inside the columns of the chart, so that it can be seen as a step there."""
    n, by = _move(numbers)
    column = (n - 1) % 10 + by - round(by / 10) * 10
    return 0 <= column <= 9


def _chart_move(numbers: Numbers) -> Made:
    """N is on a piece of the chart, the number a move away is missing."""
    n, by = _move(numbers)
    return Made(
        Question("chart-gap", {"start": n}),
        (number_part(n + by, 3),),
        (step("chart-step", n, by, n + by),),
        _move_errors(n, by),
        chart_around(n, blank=n + by),
        _move_hard(n, by),
    )


def _move_as_sum(numbers: Numbers) -> Made:
    """34 + 11 = [ ], to be found by moving on the chart."""
    n, by = _move(numbers)
    return Made(
        Row((n, "+" if by > 0 else "-", abs(by), "=", GAP)),
        (number_part(n + by, 3),),
        (step("chart-step", n, by, n + by),),
        _move_errors(n, by),
        None,
        _move_hard(n, by),
    )


def _move_by_cards(numbers: Numbers) -> Made:
    """Step cards lead from n to another number of the chart."""
    n, by = _move(numbers)
    return Made(
        Question("follow-cards-on-chart", {"n": n}),
        (number_part(n + by, 3),),
        (step("chart-step", n, by, n + by),),
        _move_errors(n, by),
        Figure("step-cards", {"steps": CARDS[by]}),
        _move_hard(n, by),
    )


def _written(numbers: Numbers) -> Made:
    """A number's name; the numeral is wanted, with room for one digit more than it has."""
    n = numbers["n"]
    heard, swapped, mixed = written_as_heard(n), digits_swapped(n), teen_ty_mixed(n)
    errors: dict[ErrorWayId, str] = {}
    if heard is not None:
        errors[ErrorWayId("write-as-heard")] = str(heard)
    if swapped is not None:
        errors[ErrorWayId("digits-swapped")] = str(swapped)
    if mixed is not None:
        errors[ErrorWayId("teen-ty-mixed")] = str(mixed)
    hundred, rest = divmod(n, 100)
    tens, ones = divmod(rest, 10)
    steps = (step("ten-and-number", 10 * hundred + tens, ones, n),) if n >= 10 else (step("numeral-is", n),)
    return Made(
        Row((Word("number-name", n), "=", GAP)),
        (number_part(n, 3 if n < 100 else 4),),
        steps,
        errors,
        None,
        min(1.0, 0.1 + 0.3 * (n > 20 and ones > 0) + 0.2 * (10 < n < 20) + 0.5 * (n > 100)),
    )


RULES: tuple[SkillRule, ...] = (
    SkillRule(
        SkillId("count-to-120"),
        formats={PATTERN: _pattern(_n, 1, one_more_errors), TABLE: _chart(_n, 1, one_more_errors)},
        fits={PATTERN: _seen_in_pattern(_n, 1), TABLE: _on_chart(_n)},
    ),
    SkillRule(
        SkillId("numerals-to-120"),
        formats={
            WORDS: _written,
            TABLE: _chart(lambda numbers: numbers["n"] - 1, 1, one_more_errors),
        },
        fits={TABLE: lambda numbers: numbers["n"] >= 2},
    ),
    SkillRule(SkillId("number-words-to-100"), formats={WORDS: _written}),
    SkillRule(
        SkillId("ten-more-ten-less"),
        formats={MISSING: _ten_more_or_less, TABLE: _ten_on_chart},
        fits={TABLE: lambda numbers: numbers["n"] > 10 or numbers["s"] == 0},
        half=lambda numbers: numbers["s"] == 1,
    ),
    _skip("skip-count-10s-to-120", _n, by=10, end=120, slips=tens_errors),
    _skip("skip-count-5s-to-100", _fives, by=5, end=100, slips=fives_errors),
    _skip("skip-count-2s-to-40", _n, by=2, end=40, slips=twos_errors),
    SkillRule(
        SkillId("hundred-chart-moves"),
        formats={TABLE: _chart_move, MISSING: _move_as_sum, PATH: _move_by_cards},
        fits={TABLE: _inside_chart, PATH: _inside_chart},
    ),
)
