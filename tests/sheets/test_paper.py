"""What a camera will see: every side rendered at 200 dots an inch, looked at by detectors that know nothing of us."""

from __future__ import annotations

from dataclasses import dataclass
from io import BytesIO
from itertools import combinations
from typing import TYPE_CHECKING, Any

import cv2
import numpy as np
import pdfplumber
import pytest
import zxingcpp

from dayleaf.sheets.typeset import typeset_pages

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

    from dayleaf.sheets.model import Box, Look, PageMap, SheetSpec

MM = 25.4 / 200
NEAR = 0.3
"""Millimetres: what the issue asks for."""


@dataclass(frozen=True)
class Side:
    """A side as mapped, as a grey picture, and as the signs printed on it."""

    page: PageMap
    picture: NDArray[np.uint8]
    signs: list[dict[str, Any]]


@pytest.fixture(scope="module")
def paper(
    day: Callable[..., tuple[SheetSpec, ...]], look: Look, pictures: Callable[[bytes], tuple[NDArray[np.uint8], ...]]
) -> tuple[Side, ...]:
    typed = typeset_pages(day(few=look.large_boxes), look)
    seen = pictures(typed.pdf)
    with pdfplumber.open(BytesIO(typed.pdf)) as document:
        read = [side.chars for side in document.pages]
    return tuple(Side(page, seen[page.pdf_page - 1], read[page.pdf_page - 1]) for page in typed.pages)


def _outlines(picture: NDArray[np.uint8]) -> NDArray[np.float64]:
    """Centre and size in millimetres of every closed outline that OpenCV finds."""
    _, ink = cv2.threshold(picture, 225, 255, cv2.THRESH_BINARY_INV)
    contours, _ = cv2.findContours(ink, cv2.RETR_LIST, cv2.CHAIN_APPROX_NONE)
    found = [cv2.boundingRect(contour) for contour in contours]
    return np.array([((x + w / 2) * MM, (y + h / 2) * MM, w * MM, h * MM) for x, y, w, h in found])


def _seen(box: Box, outlines: NDArray[np.float64]) -> bool:
    centre = np.hypot(outlines[:, 0] - box.x - box.w / 2, outlines[:, 1] - box.y - box.h / 2)
    size = np.maximum(abs(outlines[:, 2] - box.w), abs(outlines[:, 3] - box.h))
    return bool(np.any((centre <= NEAR) & (size <= 0.5)))


def test_every_mark_is_found_where_the_map_says(paper: tuple[Side, ...]) -> None:
    detector = cv2.aruco.ArucoDetector(cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_4X4_50))
    for side in paper:
        corners, ids, _ = detector.detectMarkers(side.picture)

        found = {int(one): quad.reshape(4, 2) * MM for one, quad in zip(ids.flatten(), corners, strict=True)}
        assert set(found) == {mark.id for mark in side.page.marks}
        for mark in side.page.marks:
            square = [(mark.x, mark.y), (mark.x + mark.size, mark.y)]
            square += [(mark.x + mark.size, mark.y + mark.size), (mark.x, mark.y + mark.size)]
            assert np.abs(found[mark.id] - np.array(square)).max() <= NEAR


def test_both_copies_of_the_code_are_read_and_the_first_stands_where_the_map_says(paper: tuple[Side, ...]) -> None:
    for side in paper:
        codes = zxingcpp.read_barcodes(side.picture)

        assert [code.text for code in codes] == [side.page.qr.text] * 2
        first = min(codes, key=lambda code: code.position.top_left.y)
        assert abs(first.position.top_left.x * MM - side.page.qr.x) <= NEAR
        assert abs(first.position.top_left.y * MM - side.page.qr.y) <= NEAR
        assert abs(first.position.bottom_right.x * MM - side.page.qr.x - side.page.qr.size) <= NEAR


def test_every_box_of_the_map_is_an_outline_on_the_paper(paper: tuple[Side, ...]) -> None:
    for side in paper:
        outlines = _outlines(side.picture)

        unseen = [box.id for box in side.page.boxes if not _seen(box, outlines)]

        assert unseen == []


def test_every_outline_of_a_digit_box_on_the_paper_is_in_the_map(paper: tuple[Side, ...]) -> None:
    for side in paper:
        digit = next(box for box in side.page.boxes if box.kind == "digit" and box.role == "answer")
        outlines = _outlines(side.picture)
        near = (abs(outlines[:, 2] - digit.w) <= 0.5) & (abs(outlines[:, 3] - digit.h) <= 0.5)

        centres = {(round(x), round(y)) for x, y in outlines[near][:, :2]}

        mapped = [(box.x + box.w / 2, box.y + box.h / 2) for box in side.page.boxes]
        assert all(min(np.hypot(x - mx, y - my) for mx, my in mapped) <= 1 for x, y in centres)


def test_outlines_are_light_and_thin(paper: tuple[Side, ...]) -> None:
    """35 % grey, 0.35 mm (DESIGN 8): measured across the left edge of a box."""
    page, picture = paper[0].page, paper[0].picture
    box = next(box for box in page.boxes if box.role == "answer")
    x, y = int(box.x / MM), int((box.y + box.h / 2) / MM)

    across = picture[y, x - 6 : x + 7].astype(float)

    assert 150 <= across.min() <= 185
    assert (255 - across).sum() / (255 * 0.35) * MM == pytest.approx(0.35, abs=0.06)


def test_no_box_overlaps_another_and_all_lie_inside_the_margins(paper: tuple[Side, ...]) -> None:
    for page in (side.page for side in paper):
        for one, other in combinations(page.boxes, 2):
            assert _gap(one, other) >= 1.2, (one.id, other.id)
        for box in page.boxes:
            assert box.x >= 18
            assert box.y >= 18
            assert box.x + box.w <= page.size_mm[0] - 18 + 0.01
            assert box.y + box.h <= page.size_mm[1] - 18


def test_answer_boxes_in_one_row_stand_at_least_two_millimetres_apart(paper: tuple[Side, ...]) -> None:
    for page in (side.page for side in paper):
        answers = [box for box in page.boxes if box.role == "answer"]
        for one, other in combinations(answers, 2):
            assert _gap(one, other) >= 2 - 0.01, (one.id, other.id)


def _gap(one: Box, other: Box) -> float:
    across = max(one.x, other.x) - min(one.x + one.w, other.x + other.w)
    down = max(one.y, other.y) - min(one.y + one.h, other.y + other.h)
    return max(across, down)


def test_no_text_touches_a_box_or_leaves_the_margins(paper: tuple[Side, ...]) -> None:
    for side in paper:
        for sign in side.signs:
            left, top, right, bottom = (sign[name] * 25.4 / 72 for name in ("x0", "top", "x1", "bottom"))
            if float(sign["size"]) < 8:
                continue  # the code's own text, beside the code
            assert left >= 18 - 0.3, sign["text"]
            assert right <= side.page.size_mm[0] - 18 + 0.3, sign["text"]
            assert top >= 17
            assert bottom <= side.page.size_mm[1] - 17
            centre = ((left + right) / 2, (top + bottom) / 2)
            for box in side.page.boxes:
                inside = box.x < centre[0] < box.x + box.w and box.y < centre[1] < box.y + box.h
                assert box.kind == "circle" or not inside, (sign["text"], box.id)


def test_at_least_a_third_of_every_side_is_empty(paper: tuple[Side, ...]) -> None:
    """JOB 3.1. Counted in squares of 5 mm: empty where nothing at all is printed, boxes and pictures filled in."""
    for side in paper:
        ink = side.picture < 225
        for box in side.page.boxes:
            rows = slice(int(box.y / MM), int((box.y + box.h) / MM))
            ink[rows, int(box.x / MM) : int((box.x + box.w) / MM)] = True
        step = int(5 / MM)
        squares = [
            ink[y : y + step, x : x + step].any()
            for y in range(0, ink.shape[0] - step, step)
            for x in range(0, ink.shape[1] - step, step)
        ]

        assert 1 - np.mean(squares) >= 1 / 3


def test_all_text_is_black_or_grey(paper: tuple[Side, ...]) -> None:
    for side in paper:
        for sign in side.signs:
            colour = sign["non_stroking_color"]
            assert len(set(colour)) == 1, sign["text"]


def test_numbers_to_work_with_are_twenty_points_or_more(paper: tuple[Side, ...]) -> None:
    for side in paper:
        if {item.format for item in side.page.items} == {"word1"}:
            continue  # stories are read, not worked in
        sizes = {round(float(sign["size"])) for sign in side.signs}
        assert max(sizes) >= 20
