"""What is written, drawn by plain pens: blank or not, ink over outlines, signs, ticks, rings."""

from __future__ import annotations

from typing import TYPE_CHECKING

import cv2
import numpy as np
import pytest

from dayleaf.reading.crops import crops_from
from dayleaf.reading.flat import DOTS, FlatPage
from dayleaf.reading.ink import ink_in
from dayleaf.reading.judging import judged_signs
from dayleaf.reading.placing import Places, place_boxes
from dayleaf.reading.signs import comparison, ring, round_ink, tick
from dayleaf.sheets.model import Box, BoxKind

if TYPE_CHECKING:
    from collections.abc import Sequence

    Line = Sequence[tuple[float, float]]

W, H = 12.0, 14.0
SIZE = (60.0, 60.0)
GREY = 89  # 35 % of black, as outlines are printed
PENCIL = 170


def box(kind: BoxKind = "digit", w: float = W, h: float = H) -> Box:
    return Box("1.a.0", 1, "a", "answer", kind, 20.0, 20.0, w, h, "")


def page(one: Box, *lines: Line, dark: int = PENCIL, thick: float = 0.7, radius: float = 0.0) -> FlatPage:
    """A flat page with the outline of one box and pencil lines given in shares of the box."""
    fine = 4
    k = DOTS * fine
    canvas = np.zeros((round(SIZE[1] * k), round(SIZE[0] * k)), np.uint8)
    if radius:
        across, down = (np.array([one.w, one.h]) / 2 - radius) * k
        middle = np.array([one.x + one.w / 2, one.y + one.h / 2]) * k
        turn = np.linspace(0, 2 * np.pi, 720)
        rim = np.column_stack([np.sign(np.cos(turn)) * across + radius * k * np.cos(turn),
                               np.sign(np.sin(turn)) * down + radius * k * np.sin(turn)]) + middle  # fmt: skip
        cv2.polylines(canvas, [np.rint(rim).astype(np.int32)], isClosed=True, color=GREY, thickness=round(0.35 * k))
    else:
        first, last = (one.x, one.y), (one.x + one.w, one.y + one.h)
        ends = [tuple(round(value * k) for value in point) for point in (first, last)]
        cv2.rectangle(canvas, ends[0], ends[1], GREY, round(0.35 * k))
    for line in lines:
        points = (np.array(line) * (one.w, one.h) + (one.x, one.y)) * k
        ink = np.zeros_like(canvas)
        cv2.polylines(ink, [np.rint(points).astype(np.int32)], isClosed=False, color=dark, thickness=round(thick * k))
        canvas = np.maximum(canvas, ink)
    small = cv2.resize(canvas, None, fx=1 / fine, fy=1 / fine, interpolation=cv2.INTER_AREA)
    return FlatPage(np.asarray(cv2.GaussianBlur(small, (0, 0), 0.8), np.uint8), SIZE)


def still() -> Places:
    return Places(np.zeros((1, 2)), np.zeros((1, 2, 2)), np.ones(1, bool))


SEVEN: Line = [(0.2, 0.2), (0.8, 0.2), (0.4, 0.9)]


def test_an_empty_box_has_no_ink() -> None:
    (ink,) = ink_in(page(box()), [box()], still())

    assert ink.area == 0


@pytest.mark.parametrize("off", [(0.3, 0.0), (0.0, -0.3), (0.4, 0.4)])
def test_an_outline_a_little_off_its_place_is_no_ink(off: tuple[float, float]) -> None:
    places = Places(np.array([off]), np.zeros((1, 2, 2)), np.ones(1, bool))

    assert ink_in(page(box()), [box()], places)[0].area == 0


@pytest.mark.parametrize(
    "line",
    [
        pytest.param([(0.2, 0.0), (0.8, 0.0), (0.4, 0.9)], id="the bar of a 7 on the upper outline"),
        pytest.param([(0.2, 0.2), (1.0, 0.2), (1.0, 0.95)], id="a stroke down the right outline"),
        pytest.param([(0.5, -0.08), (0.5, 0.95)], id="a stroke that begins above the box"),
        pytest.param([(0.3, 0.2), (0.3, 0.8), (1.06, 0.8)], id="a tail that leaves at the right"),
    ],
)
def test_ink_that_crosses_or_follows_an_outline_stays_whole(line: Line) -> None:
    drawn = np.zeros((round(SIZE[1] * DOTS), round(SIZE[0] * DOTS)), np.uint8)
    points = (np.array(line) * (W, H) + 20) * DOTS
    cv2.polylines(drawn, [np.rint(points).astype(np.int32)], isClosed=False, color=1, thickness=2)
    top, left = round((20 - 1.6) * DOTS), round((20 - 1.6) * DOTS)

    (ink,) = ink_in(page(box(), line), [box()], still())

    wanted = drawn[top : top + ink.strokes.shape[0], left : left + ink.strokes.shape[1]]
    kept = cv2.dilate((ink.strokes > 0.25).astype(np.uint8), np.ones((3, 3), np.uint8)) > 0
    assert (kept & (wanted > 0)).sum() >= 0.97 * wanted.sum()


def test_ink_that_leaves_the_cut_is_told() -> None:
    (ink,) = ink_in(page(box(), [(0.3, 0.3), (0.3, 1.4)]), [box()], still())

    assert ink.leaves


def test_print_beside_the_box_is_not_its_ink() -> None:
    (ink,) = ink_in(page(box(), [(-0.1, 0.2), (-0.1, 0.9)], SEVEN), [box()], still())
    (alone,) = ink_in(page(box(), SEVEN), [box()], still())

    assert abs(ink.area - alone.area) < 0.2


def test_a_crop_is_20_pixels_long_and_weighs_evenly_around_its_middle() -> None:  # as the MNIST set was made
    (crop,) = crops_from(ink_in(page(box(), SEVEN), [box()], still()))

    rows, columns = np.flatnonzero(crop.max(axis=1) > 60), np.flatnonzero(crop.max(axis=0) > 60)
    assert 19 <= max(np.ptp(rows), np.ptp(columns)) + 1 <= 21
    weight = crop.astype(float)
    assert abs(float(weight.sum(axis=1) @ np.arange(28)) / weight.sum() - 13.5) < 0.3
    assert abs(float(weight.sum(axis=0) @ np.arange(28)) / weight.sum() - 13.5) < 0.3


SIGNS: dict[str, tuple[Line, ...]] = {
    "<": ([(0.7, 0.3), (0.3, 0.5), (0.7, 0.7)],),
    ">": ([(0.3, 0.32), (0.72, 0.5), (0.28, 0.72)],),
    "=": ([(0.3, 0.42), (0.7, 0.4)], [(0.3, 0.6), (0.72, 0.58)]),
}


@pytest.mark.parametrize("sign", SIGNS)
def test_comparison_signs_are_told_apart(sign: str) -> None:
    one = box("compare", 14, 14)

    ink = round_ink(page(one, *SIGNS[sign], radius=7), one, still(), 0, paper=0.004)

    for said in (comparison(ink), *judged_signs([ink])):
        assert (said.reading, said.state) == (sign, "sure")


def test_a_digit_in_the_place_of_a_sign_is_asked_about() -> None:
    one = box("compare", 14, 14)
    for line in ([(0.5, 0.2), (0.5, 0.8)], [(0.3, 0.25), (0.7, 0.3), (0.3, 0.5), (0.7, 0.7), (0.3, 0.75)]):
        ink = round_ink(page(one, line, radius=7), one, still(), 0, paper=0.004)
        assert [said.state for said in (comparison(ink), *judged_signs([ink]))] == ["ask", "ask"]


def test_an_empty_circle_is_blank() -> None:
    one = box("compare", 14, 14)

    ink = round_ink(page(one, radius=7), one, still(), 0, paper=0.004)

    assert [said.state for said in (comparison(ink), *judged_signs([ink]))] == ["blank", "blank"]


@pytest.mark.parametrize(
    ("lines", "state"),
    [
        ((), "blank"),
        (([(0.1, 0.5), (0.4, 0.9), (1.2, -0.2)],), "sure"),
        (([(0.1, 0.1), (0.9, 0.9)], [(0.9, 0.1), (0.1, 0.9)]), "sure"),
        (([(0.45, 0.5), (0.6, 0.55)],), "ask"),
    ],
)
def test_ticks(lines: tuple[Line, ...], state: str) -> None:
    one = box("tick", 8, 8)

    assert tick(ink_in(page(one, *lines), [one], still())[0], one).state == state


def oval(share: float, reach: float) -> Line:
    turn = np.linspace(0.4, 0.4 + 2 * np.pi * share, 60)
    return [(0.5 + reach * float(np.cos(a)) * 0.55, 0.5 + reach * float(np.sin(a)) * 0.6) for a in turn]


@pytest.mark.parametrize(
    ("lines", "state"),
    [
        ((), "blank"),
        (([(0.35, 0.3), (0.35, 0.7)], [(0.6, 0.3), (0.6, 0.7)]), "blank"),
        ((oval(1.0, 1.0),), "sure"),
        ((oval(0.9, 1.12),), "sure"),
        ((oval(0.45, 1.0),), "ask"),
    ],
)
def test_rings_are_told_from_what_is_printed_inside(lines: tuple[Line, ...], state: str) -> None:
    one = box("circle", 20, 12)

    said, _ = ring(page(one, *lines, radius=6), one, still(), 0)

    assert said.state == state


def test_a_page_without_boxes_has_no_places() -> None:
    assert place_boxes(page(box()), (), ()).shift.shape == (0, 2)
