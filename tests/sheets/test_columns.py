"""Numbers under each other. Outside referee: place value itself, by whole-number arithmetic."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from hypothesis import given
from hypothesis import strategies as st

from dayleaf.items.model import Column, Part
from dayleaf.sheets.columns import lines_of_column, trade_places, trades_of

if TYPE_CHECKING:
    from collections.abc import Callable

    from dayleaf.items.model import Item
    from dayleaf.sheets.columns import Line


def _printed(lines: tuple[Line, ...]) -> list[str]:
    marks = {"blank": ".", "box": "#", "trade": "t"}
    return ["".join(cell.text or marks[cell.kind] for cell in line.cells) for line in lines]


def test_a_take_away_stands_in_place_columns_with_a_trade_box_over_each_digit(
    sums: Callable[[int], list[Item]],
) -> None:
    item = sums(1)[0]  # 62 - 28
    assert isinstance(item.prompt, Column)

    assert _printed(lines_of_column(item, item.prompt)) == [".tt", ".62", "−28", ".##"]


def test_an_addition_has_trade_boxes_over_all_places_but_the_ones() -> None:
    assert trade_places(Column((48, 27), "+", trades=True)) == (1,)
    assert trade_places(Column((348, 27), "+", trades=True)) == (1, 2)
    assert trade_places(Column((348, 27), "+")) == ()


def test_hidden_digits_become_boxes_and_the_rest_is_printed(sums: Callable[[int], list[Item]]) -> None:
    puzzle = Column((62, 38), "-", hidden=((0, 0), (2, 1)))
    two = (Part("top", "digits", "2", 1), Part("left", "digits", "2", 1))
    item = _with(sums(1)[0], puzzle, two)

    assert _printed(lines_of_column(item, puzzle)) == [".6#", "−38", ".#4"]


def test_a_sum_to_mend_shows_what_was_written_and_boxes_below(sums: Callable[[int], list[Item]]) -> None:
    wrong = Column((62, 38), "-", shown=36)
    item = _with(sums(1)[0], wrong, (Part("1", "digits", "24", 2),))

    assert _printed(lines_of_column(item, wrong)) == [".62", "−38", ".36", ".##"]


def test_the_trades_of_worked_sums_are_those_a_teacher_writes() -> None:
    """Common practice, no source: worked by hand."""
    assert trades_of(Column((62, 38), "-")) == {0: "12", 1: "5"}
    assert trades_of(Column((65, 21), "-")) == {}
    assert trades_of(Column((402, 137), "-")) == {0: "12", 1: "9", 2: "3"}
    assert trades_of(Column((425, 187), "-")) == {0: "15", 1: "11", 2: "3"}
    assert trades_of(Column((48, 27), "+")) == {1: "1"}
    assert trades_of(Column((19, 18, 17), "+")) == {1: "2"}


@given(st.integers(1, 9999), st.data())
def test_trading_changes_no_value_and_leaves_enough_in_every_place(top: int, data: st.DataObject) -> None:
    bottom = data.draw(st.integers(0, top))

    written = trades_of(Column((top, bottom), "-"))

    digits = [int(written.get(place, str(top)[-1 - place])) for place in range(len(str(top)))]
    assert sum(digit * 10**place for place, digit in enumerate(digits)) == top
    assert all(digit >= bottom // 10**place % 10 for place, digit in enumerate(digits))


@given(st.lists(st.integers(0, 999), min_size=2, max_size=4))
def test_what_is_carried_is_the_tens_of_the_places_to_the_right(rows: list[int]) -> None:
    written = trades_of(Column(tuple(rows), "+"))

    for place in range(1, 4):
        carried = sum(row % 10**place for row in rows) // 10**place
        assert int(written.get(place, "0")) == carried


def _with(item: Item, prompt: Column, parts: tuple[Part, ...]) -> Item:
    return replace(item, prompt=prompt, parts=parts)
