"""Fractions on lines, graphs with a scale, tables of numbers in and out, programs: against outside arithmetic.

Referees: fractions for places on a line, sympy for the rule of a table, a turtle of complex numbers for programs,
and the examples of the skills' own files.
"""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

import pytest
import sympy  # type: ignore[import-untyped]  # it ships no types

from dayleaf.core.ids import ErrorWayId
from dayleaf.items.pictured.bills import money_of, one_number
from dayleaf.items.pictured.end_to_end import UNIT, of_two_sizes, with_gaps
from dayleaf.items.pictured.fraction_lines import counted_marks, of_the_whole_line
from dayleaf.items.pictured.hours import minutes_past_sixty
from dayleaf.items.pictured.making import quarters_said
from dayleaf.items.pictured.nested_loops import last_only, turn_left_out, unrolled
from dayleaf.items.pictured.scaled_graphs import worth

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from dayleaf.items.model import Item

    Every = Callable[..., Iterator[Item]]


def numbers_of(item: Item, name: str) -> tuple[int, ...]:
    value = item.figure.params[name] if item.figure else ()
    return tuple(int(one) for one in value) if isinstance(value, tuple) else (int(value),)


# fractions on a line


def test_the_arrow_stands_at_the_fraction_that_is_written(every: Every) -> None:
    for item in every("frac-numberline", "nl-mark"):
        (arrow,), (parts,) = numbers_of(item, "arrow"), numbers_of(item, "parts")
        top, bottom = (int(part.answer) for part in item.parts)

        assert Fraction(top, bottom) == Fraction(arrow, parts)


def test_three_fourths_is_called_three_fifths_by_its_marks_and_three_eighths_by_the_whole_line() -> None:
    # The skill's file: cuts into too many parts; takes the whole line as 1 although it goes to 2.
    assert counted_marks(3, 4) == (3, 5)
    assert of_the_whole_line(3, 4, ones=2) == (3, 8)


def test_one_point_only_stands_at_the_fraction_that_is_asked(every: Every) -> None:
    for item in every("frac-numberline", "choose"):
        wanted = Fraction(item.numbers["k"], item.numbers["n"])
        (parts,) = numbers_of(item, "parts")
        at = {letter: Fraction(n, parts) for letter, n in zip("ABC", numbers_of(item, "points"), strict=False)}

        assert [letter for letter, place in at.items() if place == wanted] == [item.answer]


@pytest.mark.parametrize(("quarters", "said"), [(1, "1/4"), (2, "1/2"), (5, "1 1/4"), (14, "3 1/2"), (24, "6")])
def test_quarter_inches_are_said_in_lowest_terms(quarters: int, said: str) -> None:
    whole, _, share = said.rpartition(" ")

    assert quarters_said(quarters) == said
    assert Fraction(quarters, 4) == (Fraction(whole) if whole else 0) + Fraction(share)


# graphs with a scale


def test_three_and_a_half_pictures_of_two_are_seven() -> None:
    # The skill's own example.
    assert worth(3, 2, half=1) == 7


def test_a_key_that_is_ignored_counts_every_picture_as_one(every: Every) -> None:
    for item in every("graph-scaled", "graph-read", 5):
        if item.numbers["q"] == 0 and item.numbers["k"] < 2:
            drawn = item.numbers["a"] + (item.numbers["k"] == 1)
            assert item.errors[ErrorWayId("key-ignored")] == str(drawn)


# tables


def test_one_rule_fits_every_row_and_gives_the_numbers_that_come_out(every: Every) -> None:
    """The line through the rows that are told, found by sympy: a sum has slope 1, a product goes through 0."""
    for item in every("number-pattern-table", "table", 3):
        cells = item.figure.params["cells"] if item.figure else ()
        assert isinstance(cells, tuple)
        rows = [(str(a), str(b)) for a, b in zip(cells[::2], cells[1::2], strict=True)]
        told = [(int(a), int(b)) for a, b in rows if b]
        x = sympy.Symbol("x")
        rule = sympy.interpolate(told, x)

        assert sympy.diff(rule, x) == 1 or rule.subs(x, 0) == 0
        assert [rule.subs(x, int(a)) for a, b in rows if not b] == [int(part.answer) for part in item.parts]


def test_two_to_six_and_five_to_nine_adds_four_and_is_not_times_three(every: Every) -> None:
    # The skill's own example: 2 → 6, 5 → 9, add 4; a rule that fits only the first row gives three times.
    found = [item for item in every("number-pattern-table", "table") if item.numbers == {"r": 0, "k": 4, "x": 2}]
    into = [int(str(n)) for n in found[0].figure.params["cells"][::2]]  # type: ignore[union-attr,index]  # a table

    assert into[0] == 2
    assert found[0].errors[ErrorWayId("first-row-only")] == " ".join(str(3 * n) for n in into[2:])


# cubes end to end


@pytest.mark.parametrize("n", range(4, 21))
def test_gaps_and_two_sizes_reach_as_far_with_fewer_units(n: int) -> None:
    spaced, gap = with_gaps(n)
    mixed = of_two_sizes(n)

    assert sum(spaced) + gap * (len(spaced) - 1) <= UNIT * n
    assert sum(mixed) == UNIT * n
    assert len(set(mixed)) == 2
    assert len(spaced) < n > len(mixed)


# money and time


def test_dollars_and_cents_are_added_as_one_number() -> None:
    # The skill's own example: $3 and 25¢ → 28.
    assert one_number(3, 25) == 28


def test_a_five_two_ones_and_three_dimes_are_seven_dollars_and_thirty_cents() -> None:
    # The skill's own example.
    bills, coins = money_of({"t": 0, "f": 1, "o": 2, "c": 2, "n": 3})

    assert (sum(bills), sum(coins)) == (7, 30)


def test_minutes_go_on_past_sixty() -> None:
    # The skill's file: 9:50 and 20 minutes → 9:70.
    assert minutes_past_sixty(9, 50, 20) == (9, 70)
    assert minutes_past_sixty(9, 10, 20) is None


# programs


def walked(cards: tuple[str, ...]) -> list[complex]:
    """A turtle that looks up, square after square."""
    place, nose, found = 0j, 1j, [0j]
    for card in cards:
        if card == "forward":
            place += nose
            found.append(place)
        else:
            nose *= 1j if card == "turn-left" else -1j
    return found


@pytest.mark.parametrize("side", [1, 2, 3])
def test_a_square_closes_only_with_its_turn_inside(side: int) -> None:
    # The skill's file: leaves the turn out of the box so the shape doesn't close; repeats only the last step.
    body = (*["forward"] * side, "turn-right")
    whole = unrolled(("repeat-4", *body, "end"))

    assert walked(whole)[-1] == 0
    assert len(set(walked(whole))) == 4 * side
    assert walked(unrolled(turn_left_out(4, body)))[-1] == 4j * side
    assert walked(unrolled(last_only(4, body)))[-1] == 1j * side


def test_a_part_inside_a_part_is_done_as_often_as_both_say() -> None:
    cards = ("repeat-4", "repeat-3", "forward", "end", "turn-right", "end")

    assert unrolled(cards).count("forward") == 12
    assert unrolled(cards).count("turn-right") == 4
    assert walked(unrolled(cards))[-1] == 0
