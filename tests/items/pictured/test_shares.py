"""Shares and areas go astray as the literature names it.

Sources: CHECKS D.4, row Fractions, and the course's own skill files; perimeters and areas by a polygon's own
corners (the shoelace formula, written out here).
"""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

import pytest
from shapely import Polygon, box, unary_union  # type: ignore[import-untyped]  # it ships no types

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.course.load import grade2
from dayleaf.items.make import make

if TYPE_CHECKING:
    from dayleaf.items.model import Item


def made(skill: str, name: str, **numbers: int) -> Item:
    return make(grade2().skills[SkillId(skill)], FormatId(name), numbers)


# CHECKS D.4: the larger denominator is taken for larger, 1/4 > 1/3.
@pytest.mark.parametrize(("a", "b"), [(3, 4), (2, 4), (2, 3)])
def test_more_parts_are_taken_for_more(a: int, b: int) -> None:
    item = made("frac-compare-unit", "cmp", a=a, b=b)

    assert Fraction(1, a) > Fraction(1, b)
    assert item.answer == ">"
    assert item.errors == {ErrorWayId("more-shares-bigger"): "<"}


# CHECKS D.4: part to part, 1 of 3 hatched is written 1/2; numerator and denominator swapped.
def test_hatched_parts_are_written_over_plain_ones_or_upside_down() -> None:
    item = made("frac-unit-notation", "frac-name", n=3, s=0)

    assert item.answer == "1 3"
    assert item.errors[ErrorWayId("part-to-part")] == "1 2"
    assert item.errors[ErrorWayId("upside-down")] == "3 1"


# CHECKS D.4: unequal parts accepted; equal pieces must be congruent.
def test_unequal_parts_are_accepted_and_a_share_of_another_shape_is_not() -> None:
    unequal = made("frac-equal-parts", "choose", n=2, s=1, e=0)
    patch = made("frac-same-share-different-shape", "choose", n=2, p=1, e=1)

    assert (unequal.answer, unequal.errors[ErrorWayId("unequal-is-fair")]) == ("no", "yes")
    assert (patch.answer, patch.errors[ErrorWayId("same-shape-needed")]) == ("yes", "no")


def test_the_same_is_added_to_top_and_bottom() -> None:
    item = made("frac-equivalent", "missing", k=1, b=2, m=2)

    assert item.answer == "2"
    assert item.errors[ErrorWayId("adds-same")] == "3"


@pytest.mark.parametrize(("a", "b", "c", "d"), [(4, 5, 0, 0), (4, 5, 1, 2), (7, 7, 2, 1)])
def test_the_squares_of_a_shape_are_its_area_and_the_way_round_is_taken_for_it(a: int, b: int, c: int, d: int) -> None:
    item = made("area-count-squares", "count-pic", a=a, b=b, c=c, d=d)
    corners = [(0, c), (d, c), (d, 0), (b, 0), (b, a), (0, a)]
    pairs = list(zip(corners, corners[1:] + corners[:1], strict=True))
    area = abs(sum(x * v - u * y for (x, y), (u, v) in pairs)) // 2
    way_round = sum(abs(x - u) + abs(y - v) for (x, y), (u, v) in pairs)

    assert item.answer == str(area)
    assert item.errors[ErrorWayId("perimeter-for-area")] == str(way_round)


@pytest.mark.parametrize(("a", "b"), [(3, 3), (4, 7), (7, 5)])
def test_a_corner_cut_off_straight_leaves_half_squares(a: int, b: int) -> None:
    """Referee: shapely, from the corners of the whole shape and from the squares and triangles that are drawn."""
    item = made("area-count-squares", "count-pic", a=a, b=b, c=2, d=2)
    assert item.figure is not None
    cells, halves = item.figure.params["cells"], item.figure.params["halves"]
    assert isinstance(cells, tuple)
    assert isinstance(halves, tuple)
    squares = [box(int(k) % b, int(k) // b, int(k) % b + 1, int(k) // b + 1) for k in cells]
    corners = [(int(k) % b, int(k) // b) for k in halves]
    triangles = [Polygon([(x, y + 1), (x + 1, y), (x + 1, y + 1)]) for x, y in corners]
    drawn = unary_union([*squares, *triangles])

    assert drawn.equals(Polygon([(2, 0), (b, 0), (b, a), (0, a), (0, 2)]))
    assert item.answer == str(round(drawn.area))
    assert item.errors[ErrorWayId("half-squares-whole")] == str(len(squares) + len(triangles))


# A frame of squares: all less those inside, 3 by 4 leaves 2 inside (common practice, no source).
@pytest.mark.parametrize(("a", "b", "frame"), [(3, 4, 10), (5, 5, 16), (2, 5, 10)])
def test_only_the_squares_at_the_edge_are_counted(a: int, b: int, frame: int) -> None:
    item = made("tile-rectangle-rows-cols", "count-pic", a=a, b=b)

    assert item.errors[ErrorWayId("counts-border-only")] == str(frame)


def test_two_sides_are_left_out_or_the_area_is_given() -> None:
    item = made("perimeter-add-sides", "horiz", a=6, b=4)

    assert item.answer == "20"  # the course's own example: 6 + 4 + 6 + 4 = 20
    assert set(item.errors.values()) == {"10", "24"}
