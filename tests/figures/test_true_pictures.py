"""Pictures show what they say: counts, true sizes, true angles. Measured in the SVG, not in our own numbers."""

import itertools
import math
import re
import xml.etree.ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dayleaf.figures.clocks import hand_angles
from dayleaf.figures.draw import draw
from dayleaf.figures.outlines import SHAPES
from dayleaf.items.model import Figure

SVG = "{http://www.w3.org/2000/svg}"

CLOCKS = {
    (3, 0): (90, 0),
    (3, 15): (97.5, 90),
    (6, 30): (195, 180),
    (9, 45): (292.5, 270),
    (12, 5): (2.5, 30),
    (1, 50): (55, 300),
}
"""CHECKS C.4, clock geometry: (hour, minute) → degrees of the hour and the minute hand."""

COINS_IN = {1: 0.750, 5: 0.835, 10: 0.705, 25: 0.955, 50: 1.205, 100: 1.043}
"""CHECKS C.2: US Mint coin specifications, diameters in inches."""


def svg_of(kind: str, /, **params: int | str | tuple[int, ...] | tuple[str, ...]) -> ET.Element:
    return ET.fromstring(draw(Figure(kind, params), title="t", desc="d").svg)  # noqa: S314 - our own output


def dots(root: ET.Element) -> int:
    return sum(1 for circle in root.iter(f"{SVG}circle") if circle.get("fill") == "#000")


def rings(root: ET.Element) -> int:
    return sum(1 for circle in root.iter(f"{SVG}circle") if circle.get("fill") is None)


def segments(root: ET.Element, *, width: str | None = None) -> list[tuple[float, float, float, float]]:
    """Straight lines of the paths, those of one stroke width if asked."""
    found = []
    for path in root.iter(f"{SVG}path"):
        if width is None or path.get("stroke-width") == width:
            ends = re.findall(r"M(-?[\d.]+) (-?[\d.]+)L(-?[\d.]+) (-?[\d.]+)", path.get("d", ""))
            found += [(float(a), float(b), float(c), float(d)) for a, b, c, d in ends]
    return found


@pytest.mark.parametrize(("time", "angles"), CLOCKS.items())
def test_hands_stand_at_their_true_angles(time: tuple[int, int], angles: tuple[float, float]) -> None:
    assert hand_angles(*time) == angles


@pytest.mark.parametrize(("time", "angles"), CLOCKS.items())
def test_hands_are_drawn_at_those_angles_and_differ_in_length_and_thickness(
    time: tuple[int, int], angles: tuple[float, float]
) -> None:
    root = svg_of("clock", h=time[0], m=time[1])

    lengths = []
    for width, angle in (("1.9", angles[0]), ("0.9", angles[1])):
        (x1, y1, x2, y2) = segments(root, width=width)[0]
        assert math.degrees(math.atan2(x2 - x1, y1 - y2)) % 360 == pytest.approx(angle, abs=0.05)
        lengths.append(math.hypot(x2 - 20, y2 - 20))
    assert lengths[1] > 1.5 * lengths[0]


@pytest.mark.parametrize(("value", "inches"), COINS_IN.items())
def test_coins_have_their_true_size(value: int, inches: float) -> None:
    root = svg_of("coins", coins=(value,))

    widest = max(float(circle.get("r", 0)) for circle in root.iter(f"{SVG}circle"))
    assert 2 * widest == pytest.approx(25.4 * inches, abs=0.011)


def test_no_bill_comes_near_the_size_of_a_true_note() -> None:
    # CHECKS C.2: a picture of paper money must be under 3/4 or over 1 1/2 of 6.14 in.
    root = svg_of("bills", bills=(20,))

    widest = max(float(rect.get("width", 0)) for rect in root.iter(f"{SVG}rect"))
    assert not 0.75 * 6.14 * 25.4 <= widest <= 1.5 * 6.14 * 25.4


@pytest.mark.parametrize(("kind", "unit"), [("ruler-cm", 10.0), ("ruler-in", 25.4)])
def test_long_ticks_of_a_ruler_stand_one_true_unit_apart(kind: str, unit: float) -> None:
    # CHECKS C.1: 1 in is 2.54 cm exactly.
    root = svg_of(kind, length=6)

    long = sorted({x1 for x1, y1, x2, y2 in segments(root) if x1 == x2 and abs(y2 - y1) > 5})
    assert [x - long[0] for x in long] == pytest.approx([k * unit for k in range(7)], abs=0.01)
    assert long[0] > 3  # the zero mark lies inside the edge


def test_a_thing_over_a_ruler_begins_and_ends_at_its_marks() -> None:
    root = svg_of("ruler-cm", length=12, start=2, end=9)

    thing = next(rect for rect in root.iter(f"{SVG}rect") if rect.get("height") == "6")
    zero = min(x1 for x1, y1, x2, y2 in segments(root) if x1 == x2 and abs(y2 - y1) > 5)
    assert float(thing.get("x", 0)) - zero == pytest.approx(20, abs=0.01)
    assert float(thing.get("width", 0)) == pytest.approx(70, abs=0.01)


def test_a_thing_reaches_past_an_inch_by_its_quarters_and_centimeters_run_below_from_the_same_zero() -> None:
    # CHECKS C.1: 1 in is 25.4 mm, 1 cm is 10 mm; 3 3/4 in are 95.25 mm.
    root = svg_of("ruler-in", length=6, end=3, quarters=3, both=1)

    thing = next(rect for rect in root.iter(f"{SVG}rect") if rect.get("height") == "6")
    long = {x1 for x1, y1, x2, y2 in segments(root) if x1 == x2 and abs(y2 - y1) == pytest.approx(5.6)}
    ticks = [x - min(long) for x in sorted(long)]
    assert float(thing.get("width", 0)) == pytest.approx(95.25, abs=0.01)
    assert ticks == pytest.approx(sorted({*(25.4 * k for k in range(7)), *(10.0 * k for k in range(16))}), abs=0.01)


@given(n=st.integers(0, 20))
def test_every_counter_is_drawn_once(n: int) -> None:
    for layout in ("line", "ring"):
        assert dots(svg_of("counters", n=n, layout=layout)) == n
    assert dots(svg_of("ten-frame", a=n)) == n


@given(n=st.integers(1, 10), seed=st.integers(0, 10**6))
def test_scattered_counters_never_touch(n: int, seed: int) -> None:
    root = svg_of("counters", n=n, layout="scatter", seed=seed)

    middles = [(float(c.get("cx", 0)), float(c.get("cy", 0))) for c in root.iter(f"{SVG}circle")]
    assert len(middles) == n
    gaps = [math.dist(a, b) for k, a in enumerate(middles) for b in middles[:k]]
    assert min(gaps, default=99) > 2 * 2.7 + 0.5


@given(a=st.integers(0, 10), b=st.integers(0, 10))
def test_filled_circles_and_rings_are_told_apart(a: int, b: int) -> None:
    root = svg_of("ten-frame", a=a, b=b, apart=1, frames=2)

    assert (dots(root), rings(root)) == (a, b)


@given(r=st.integers(1, 5), c=st.integers(1, 5))
def test_an_array_has_rows_times_columns_dots(r: int, c: int) -> None:
    assert dots(svg_of("array-dots", r=r, c=c)) == r * c


@given(count=st.integers(0, 30))
def test_a_tally_has_one_stroke_for_each_count(count: int) -> None:
    strokes = segments(svg_of("tally", counts=(count,)))

    assert len(strokes) == count
    assert sum(1 for x1, _, x2, _ in strokes if x1 != x2) == count // 5


@given(t=st.integers(0, 9), o=st.integers(0, 19))
def test_blocks_show_each_ten_and_each_one(t: int, o: int) -> None:
    rects = list(svg_of("base-ten", t=t, o=o).iter(f"{SVG}rect"))

    assert sum(1 for rect in rects if rect.get("height") == "30") == t
    assert sum(1 for rect in rects if rect.get("height") == "3") == o


def test_ten_cubes_are_as_long_as_a_rod_and_ten_rods_as_wide_as_a_hundred() -> None:
    heights = {(rect.get("width"), rect.get("height")) for rect in svg_of("base-ten", h=1, t=1, o=1).iter(f"{SVG}rect")}

    assert heights == {("30", "30"), ("3", "30"), ("3", "3")}


def test_bars_of_a_graph_stand_as_high_as_their_numbers() -> None:
    root = svg_of("bar-graph", labels=("egg", "bean", "seed"), data=(2, 4, 6))

    heights = [float(r.get("height", 0)) for r in root.iter(f"{SVG}rect") if r.get("stroke") != "none"]
    assert heights == pytest.approx([heights[0], 2 * heights[0], 3 * heights[0]])


def test_the_longer_bar_is_longer_but_not_to_scale() -> None:
    root = svg_of("bar-model", kind="compare", a=90, b=10)

    bars = [float(r.get("width", 0)) for r in root.iter(f"{SVG}rect") if float(r.get("width", 0)) > 20]
    assert bars[0] > bars[1]
    assert bars[1] > bars[0] / 9 * 2


def test_points_of_a_number_line_lie_where_they_belong() -> None:
    root = svg_of("number-line", lo=0, hi=100, step=10, points=(25,))

    ticks = sorted({x1 for x1, _, x2, _ in segments(root, width="0.4") if x1 == x2})
    point = next(float(c.get("cx", 0)) for c in root.iter(f"{SVG}circle"))
    assert point == pytest.approx((ticks[2] + ticks[3]) / 2, abs=0.01)


@given(stops=st.lists(st.integers(0, 100), min_size=2, max_size=5, unique=True))
def test_stops_of_an_open_line_keep_their_order_and_have_room(stops: list[int]) -> None:
    root = svg_of("number-line", lo=0, hi=100, open=1, jumps=tuple(stops))

    texts = {t.text: float(t.get("x", 0)) for t in root.iter(f"{SVG}text")}
    places = [texts[str(stop)] for stop in sorted(stops)]
    assert all(b - a >= 15 - 0.01 for a, b in itertools.pairwise(places))


SIDES = {"triangle": 3, "kite": 4, "trapezoid": 4, "pentagon": 5, "hexagon": 6, "octagon": 8, "star": 10, "cross": 12}
"""Common knowledge of plane geometry; typed here by hand."""


@pytest.mark.parametrize(("name", "sides"), SIDES.items())
def test_a_polygon_has_the_sides_of_its_name(name: str, sides: int) -> None:
    assert SHAPES[name].sides == len(SHAPES[name].outline) == sides


def area(points: tuple[tuple[float, float], ...]) -> float:
    """The shoelace formula."""
    pairs = zip(points, (*points[1:], points[0]), strict=True)
    return abs(sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in pairs)) / 2


def test_the_regular_hexagon_is_true() -> None:
    # CHECKS C.5: hexagon area 2.598076 for r = 1.
    assert area(SHAPES["hexagon"].outline) == pytest.approx(2.598076, abs=1e-6)


@pytest.mark.parametrize("name", ["triangle", "square", "rhombus", "pentagon", "hexagon", "octagon"])
def test_shapes_that_are_called_even_have_equal_sides(name: str) -> None:
    corners = SHAPES[name].outline
    sides = [math.dist(a, b) for a, b in zip(corners, (*corners[1:], corners[0]), strict=True)]

    assert sides == pytest.approx([sides[0]] * len(sides))


@pytest.mark.parametrize("n", [2, 3, 4, 6, 8])
def test_equal_parts_of_a_circle_are_equal(n: int) -> None:
    spokes = [s for s in segments(svg_of("fraction-shapes", shape="circle", n=n)) if s[:2] == (16.5, 16.5)]

    angles = sorted(math.degrees(math.atan2(x2 - 16.5, 16.5 - y2)) % 360 for _, _, x2, y2 in spokes)
    assert angles == pytest.approx([360 / n * k for k in range(n)], abs=0.1)


@pytest.mark.parametrize("n", [3, 4])
def test_unequal_parts_are_plainly_unequal(n: int) -> None:
    rects = list(svg_of("fraction-shapes", shape="strip", n=n, equal=0).iter(f"{SVG}rect"))[:n]

    widths = sorted(float(r.get("width", 0)) for r in rects)
    assert widths[-1] > 1.5 * widths[0]
