"""Error ways of pictured skills give the wrong answers that the literature names.

Sources: CHECKS D.4 (misconceptions about clocks, length, graphs, coding) and the course's own error ways.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.course.load import grade2
from dayleaf.items.make import make

if TYPE_CHECKING:
    from dayleaf.items.model import Item


def made(skill: str, name: str, **numbers: int) -> Item:
    return make(grade2().skills[SkillId(skill)], FormatId(name), numbers)


def wrong(item: Item, way: str) -> str:
    return item.errors[ErrorWayId(way)]


# CHECKS D.4, clock: hands swapped 3:00 → 12:15; the hour one too many after :30.
def test_swapped_hands_read_three_o_clock_as_a_quarter_past_twelve() -> None:
    item = made("time-hour-half-hour", "clock-read", h=3, m=0)

    assert item.answer == "3 00"
    assert wrong(item, "hands-swapped") == "12 15"
    assert wrong(item, "half-past-next-hour") == item.answer


@pytest.mark.parametrize(("h", "read"), [(4, "5 30"), (11, "12 30"), (12, "1 30")])
def test_half_past_is_read_as_half_past_the_next_hour(h: int, read: str) -> None:
    item = made("time-hour-half-hour", "clock-read", h=h, m=1)

    assert item.answer == f"{h} 30"
    assert wrong(item, "half-past-next-hour") == read


# CHECKS D.4, length: starts at 1 (answer + 1); reads the end mark of an unaligned object; counts marks, not gaps (+1).
def test_an_unaligned_strip_is_read_at_its_end_or_by_its_marks() -> None:
    item = made("ruler-not-from-zero", "measure", s=3, n=5)

    assert item.answer == "5"
    assert wrong(item, "reads-end-mark") == "8"
    assert wrong(item, "counts-marks-not-spaces") == "6"


def test_measuring_from_one_gives_one_too_many() -> None:
    assert wrong(made("measure-length-cm", "measure", n=6), "starts-at-one") == "7"
    assert wrong(made("measure-length-cm", "fix", n=6), "starts-at-one") == "7"


# CHECKS D.4, graphs: "how many more" answered with the larger bar.
def test_how_many_more_is_answered_with_one_bar_or_with_both_together() -> None:
    item = made("graph-compare-questions", "graph-read", a=8, b=4, c=7, d=2, k=0)
    shown = item.figure.params["data"] if item.figure else ()

    assert wrong(item, "reads-one-bar") in {str(n) for n in shown}  # type: ignore[union-attr]  # numbers here
    assert int(wrong(item, "total-for-difference")) - int(item.answer) == 2 * (
        int(wrong(item, "reads-one-bar")) - int(item.answer)
    )


# CHECKS D.4, coding and grid: counts the start cell as step 1.
def test_counting_the_start_square_gives_one_move_too_many_or_stops_one_short() -> None:
    item = made("code-grid-moves", "path", x=1, y=1, u=4, v=3)
    assert (item.answer, wrong(item, "start-square-counted")) == ("5", "6")

    item = made("code-trace", "choose", x=1, y=2, i=3, j=2, d=0)
    assert (item.answer, wrong(item, "start-square-counted")) == ("D4", "C4")


# CHECKS D.4, shapes: orientation changes the name (tilted square = "diamond").
def test_a_tilted_square_tempts_to_say_diamond_and_one_on_its_side_does_not() -> None:
    tilted, flat = (made("shapes-2d-name", "choose", k=2, s=s) for s in (6, 0))

    assert wrong(tilted, "turned-is-different") == "diamond"
    assert ErrorWayId("turned-is-different") not in flat.errors


def test_small_marks_counted_as_ones_and_the_number_above() -> None:
    item = made("temp-thermometer", "scale-read", n=13, k=1)

    assert item.answer == "26"
    assert wrong(item, "mark-as-one") == "23"
    assert wrong(item, "top-label-read") == "30"


def test_a_bundle_counted_as_one() -> None:
    assert wrong(made("data-tally-table", "count-pic", n=13), "tally-by-ones") == "5"


def test_letter_and_number_swapped_and_lines_counted() -> None:
    item = made("grid-map-coordinates", "choose", a=3, b=4)

    assert item.answer == "C4"
    assert wrong(item, "letter-number-swapped") == "D3"
    assert wrong(item, "lines-for-squares") == "D5"


# Counted on a wooden cube held in the hand: three faces, nine edges, seven corners can be seen at once.
@pytest.mark.parametrize(("q", "all_round", "seen"), [(0, "6", "3"), (1, "12", "9"), (2, "8", "7")])
def test_the_back_of_a_cube_is_forgotten(q: int, all_round: str, seen: str) -> None:
    item = made("solids-faces-edges-corners", "table", k=0, q=q)

    assert (item.answer, wrong(item, "hidden-faces-missed")) == (all_round, seen)


def test_a_rectangle_folded_corner_to_corner_seems_to_match() -> None:
    item = made("symmetry-line", "choose", c=6)

    assert item.figure is not None
    assert item.figure.params["shapes"] == ("rectangle",)
    assert (item.answer, wrong(item, "half-is-symmetric")) == ("no", "yes")
