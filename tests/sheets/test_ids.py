"""Sheet ids and their code. Outside referees: the QR standard's alphanumeric set, zxing-cpp, OpenCV's markers."""

from __future__ import annotations

import cv2
import numpy as np
import pypdfium2 as pdfium
import pytest
import segno
import typst
import zxingcpp
from hypothesis import given
from hypothesis import strategies as st

from dayleaf.core.ids import SheetId
from dayleaf.sheets.corners import BACK_MARKS, FRONT_MARKS, MARK_SIZE, PATTERNS, code_svg, marks_of
from dayleaf.sheets.ids import SIGNS, NotASheetCode, code_text, read_code, sheet_id

ALPHANUMERIC = set("0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:")
"""ISO/IEC 18004, table of the alphanumeric mode."""

ids = st.text(alphabet=SIGNS, min_size=7, max_size=7).map(SheetId)
sides = st.integers(1, 31)


@given(ids, sides)
def test_a_code_is_read_back_as_the_sheet_and_side_it_names(sheet: SheetId, page: int) -> None:
    assert read_code(code_text(sheet, page)) == (sheet, page)


@given(ids, sides)
def test_a_code_uses_only_signs_of_the_alphanumeric_mode_and_fits_version_1(sheet: SheetId, page: int) -> None:
    """Version 1, level Q holds 16 alphanumeric signs (ISO/IEC 18004, table 7)."""
    text = code_text(sheet, page)

    assert set(text) <= ALPHANUMERIC
    assert len(text) <= 16


def test_every_single_wrong_sign_is_noticed() -> None:
    sheet = sheet_id("household", "wren", "day-084", 1)
    for place in range(7):
        for sign in SIGNS:
            if sign != sheet[place]:
                wrong = sheet[:place] + sign + sheet[place + 1 :]
                with pytest.raises(NotASheetCode):
                    read_code(code_text(sheet, 1).replace(sheet, wrong))


@given(ids, sides, st.integers(0, 5))
def test_two_neighbours_exchanged_are_noticed(sheet: SheetId, page: int, place: int) -> None:
    swapped = sheet[:place] + sheet[place + 1] + sheet[place] + sheet[place + 2 :]
    if swapped != sheet:
        with pytest.raises(NotASheetCode):
            read_code(code_text(sheet, page).replace(sheet, swapped))


def test_a_typed_code_may_be_in_small_letters_with_spaces_and_look_alikes() -> None:
    text = code_text(SheetId("10AB0C1"), 2)

    typed = text.lower().replace("10ab0c1", "lOab Oc i")

    assert read_code(f" {typed} ") == (SheetId("10AB0C1"), 2)


@pytest.mark.parametrize("text", ["", "S1", "S2.ABCDEFG.1.00", "S1.ABC.1.00", "S1.ABCDEFG.x.00", "S1.ABCDEFG.²"])
def test_what_is_not_a_code_is_named_in_one_sentence(text: str) -> None:
    with pytest.raises(NotASheetCode) as caught:
        read_code(text)

    assert text in str(caught.value)
    assert "\n" not in str(caught.value)


def test_an_id_depends_on_every_part_and_on_their_order() -> None:
    made = {sheet_id("a", "b"), sheet_id("b", "a"), sheet_id("ab"), sheet_id("a", "b", 1), sheet_id("a", "b", 2)}

    assert len(made) == 5
    assert all(len(one) == 7 and set(one) <= set(SIGNS) for one in made)


def test_the_marker_patterns_are_those_of_the_published_dictionary() -> None:
    dictionary = cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_4X4_50)
    assert set(PATTERNS) == {*FRONT_MARKS, *BACK_MARKS}
    for one, pattern in PATTERNS.items():
        drawn = cv2.aruco.generateImageMarker(dictionary, one, 6, borderBits=1)

        assert "".join("1" if cell else "0" for cell in drawn[1:5, 1:5].flatten()) == pattern


def test_front_and_back_have_marks_of_their_own_in_the_corners() -> None:
    front, back = marks_of(1, (210.0, 297.0)), marks_of(2, (210.0, 297.0))

    assert [(mark.x, mark.y) for mark in front] == [(8, 8), (195, 8), (195, 282), (8, 282)]
    assert not {mark.id for mark in front} & {mark.id for mark in back}
    assert all(mark.size == MARK_SIZE == 7 for mark in front + back)


def test_the_drawn_code_is_version_1_level_q_with_a_quarter_of_it_lost_still_read() -> None:
    text = code_text(sheet_id("any"), 1)
    made = segno.make(text, version=1, error="q", boost_error=False)
    assert made.designator == "1-Q"
    page = (
        '#set page(width: 40mm, height: 40mm, margin: 10mm)\n#image(bytes(sys.inputs.svg), format: "svg", width: 17mm)'
    )
    pdf = typst.Compiler(input=page.encode(), sys_inputs={"svg": code_svg(text)}).compile(format="pdf")
    picture = pdfium.PdfDocument(pdf)[0].render(scale=200 / 72, grayscale=True).to_numpy().squeeze().copy()

    picture[130:160, 130:160] = np.uint8(255)

    assert [code.text for code in zxingcpp.read_barcodes(picture)] == [text]
