"""The answer key: the child's own page with the answers in place."""

from __future__ import annotations

from io import BytesIO
from typing import TYPE_CHECKING

import cv2
import pdfplumber
import zxingcpp

from dayleaf.sheets.model import Look
from dayleaf.sheets.typeset import typeset_key, typeset_pages

if TYPE_CHECKING:
    from collections.abc import Callable

    import numpy as np
    from numpy.typing import NDArray

    from dayleaf.sheets.model import SheetSpec


def test_every_answer_is_printed_inside_its_own_box_of_the_childs_page(
    day: Callable[..., tuple[SheetSpec, ...]], look: Look
) -> None:
    """Boxes from the map of the child's pages, digits read from the key by pdfplumber: the two lie over each other."""
    sheets = day(few=look.large_boxes)
    pages, key = typeset_pages(sheets, look).pages, typeset_key(sheets, look)

    with pdfplumber.open(BytesIO(key)) as document:
        for page in pages:
            signs = document.pages[page.pdf_page - 1].chars
            for box in page.boxes:
                if box.kind in ("digit", "compare") and box.role == "answer":
                    inside = [
                        sign["text"]
                        for sign in signs
                        if box.x < (sign["x0"] + sign["x1"]) / 2 * 25.4 / 72 < box.x + box.w
                        and box.y < (sign["top"] + sign["bottom"]) / 2 * 25.4 / 72 < box.y + box.h
                    ]
                    assert "".join(inside) == box.answer, box.id


def test_right_options_are_marked_and_wrong_ones_are_not(
    day: Callable[..., tuple[SheetSpec, ...]], pictures: Callable[[bytes], tuple[NDArray[np.uint8], ...]]
) -> None:
    """More ink inside a ring's outline or a tick box of the key than on the child's page means that it is marked."""
    typed = typeset_pages(day(), Look())
    page = next(page for page in typed.pages if page.kind == "back")
    blank, filled = (pictures(pdf)[page.pdf_page - 1] for pdf in (typed.pdf, typeset_key(day(), Look())))

    for box in page.boxes:
        if box.kind in ("circle", "tick"):
            rows = slice(int((box.y - 1) * 200 / 25.4), int((box.y + box.h + 1) * 200 / 25.4))
            columns = slice(int((box.x - 1) * 200 / 25.4), int((box.x + box.w + 1) * 200 / 25.4))
            more = int((filled[rows, columns] < 100).sum()) - int((blank[rows, columns] < 100).sum())
            assert (more > 80) == (box.answer == "1"), box.id


def test_a_key_is_never_taken_for_a_childs_sheet(
    day: Callable[..., tuple[SheetSpec, ...]], pictures: Callable[[bytes], tuple[NDArray[np.uint8], ...]]
) -> None:
    detector = cv2.aruco.ArucoDetector(cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_4X4_50))
    for picture in pictures(typeset_key(day(), Look())):
        _, ids, _ = detector.detectMarkers(picture)

        assert ids is None
        assert zxingcpp.read_barcodes(picture) == []


def test_the_last_side_gives_the_steps_of_every_item(day: Callable[..., tuple[SheetSpec, ...]]) -> None:
    sheets = day()
    count = sum(len(block.items) for sheet in sheets for page in sheet.pages for block in page.blocks)

    with pdfplumber.open(BytesIO(typeset_key(sheets, Look()))) as document:
        said = " ".join(page.extract_text(use_text_flow=True) for page in document.pages[5:])

    assert said.count("2 ones, 8 to take: too few.") == count
    assert "A 20" in said


def test_a_key_side_names_the_sheet_and_where_to_tell_a_wrong_answer(
    day: Callable[..., tuple[SheetSpec, ...]],
) -> None:
    sheets = day()
    typed = typeset_pages(sheets, Look())

    with pdfplumber.open(BytesIO(typeset_key(sheets, Look()))) as document:
        for page in typed.pages:
            assert page.qr.text in document.pages[page.pdf_page - 1].extract_text()
