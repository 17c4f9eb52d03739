"""The finished files: what is printed on them, what they ask of a printer, and that nothing is cut off."""

from __future__ import annotations

import threading
from collections import Counter
from dataclasses import replace
from io import BytesIO
from typing import TYPE_CHECKING

import pdfplumber
import pikepdf
import pytest

from dayleaf.sheets.fonts import UnprintableText
from dayleaf.sheets.model import Look, PageSpec
from dayleaf.sheets.typeset import NothingToPrint, PageTooFull, typeset_key, typeset_pages

if TYPE_CHECKING:
    from collections.abc import Callable

    from dayleaf.items.model import Item
    from dayleaf.sheets.model import Block, SheetSpec


def _text(pdf: bytes, side: int) -> str:
    with pdfplumber.open(BytesIO(pdf)) as document:
        return str(document.pages[side].extract_text(use_text_flow=True))


def _signs(pdf: bytes, side: int) -> Counter[str]:
    with pdfplumber.open(BytesIO(pdf)) as document:
        return Counter("".join(sign["text"] for sign in document.pages[side].chars).replace(" ", ""))


def test_a_side_prints_exactly_its_own_text(day: Callable[..., tuple[SheetSpec, ...]]) -> None:
    sheets = day()
    typed = typeset_pages(sheets, Look())

    code = typed.pages[2].qr.text
    words = ["Practice: today", "Wren", "Date", code, "Take away.", "Write the number that is left."]
    words += ["Find the mistake and mend it.", "Write the sign."]
    items = ["1 62 − 38", "2 71 − 47", "3 84 − 29", "4 53 − 17 =", "5 90 − 36 =", "6 81 − 44 43", "7 62 26"]
    assert _signs(typed.pdf, 2) == Counter("".join(words + items).replace(" ", ""))


def test_only_the_last_side_says_that_the_child_is_done(day: Callable[..., tuple[SheetSpec, ...]]) -> None:
    typed = typeset_pages(day(), Look())

    said = ["You are done." in _text(typed.pdf, page.pdf_page - 1) for page in typed.pages]

    assert said == [False] * (len(said) - 1) + [True]


def test_a_sheet_begins_on_the_front_of_a_piece_of_paper(day: Callable[..., tuple[SheetSpec, ...]]) -> None:
    """CHECKS G: side 2k is the back of side 2k - 1."""
    together, practice, stories = day()
    typed = typeset_pages((stories, practice, together), Look())

    assert [page.pdf_page for page in typed.pages] == [1, 3, 4, 5, 6]
    assert [page.page for page in typed.pages] == [1, 1, 2, 1, 2]
    assert _text(typed.pdf, 1) == ""


def test_a_printer_is_asked_for_true_size_and_to_turn_over_the_long_edge(
    day: Callable[..., tuple[SheetSpec, ...]],
) -> None:
    """ISO 32000-1, table 150."""
    for pdf in (typeset_pages(day(), Look()).pdf, typeset_key(day(), Look())):
        with pikepdf.open(BytesIO(pdf)) as document:
            wishes = document.Root.ViewerPreferences
            assert wishes.PrintScaling == "/None"
            assert wishes.Duplex == "/DuplexFlipLongEdge"


def test_the_file_is_tagged_has_a_title_and_a_language_and_says_that_it_is_accessible(
    day: Callable[..., tuple[SheetSpec, ...]],
) -> None:
    """PDF/UA-1 (ISO 14289-1), clauses 5, 7.1 and 7.2."""
    with pikepdf.open(BytesIO(typeset_pages(day(), Look()).pdf)) as document:
        assert document.Root.MarkInfo.Marked
        assert document.Root.Lang == "en"
        assert document.Root.ViewerPreferences.DisplayDocTitle
        with document.open_metadata() as metadata:
            assert metadata["pdfuaid:part"] == "1"
            assert "Practice: earlier" in metadata["dc:title"]


def test_every_picture_has_an_alternative_text(day: Callable[..., tuple[SheetSpec, ...]]) -> None:
    with pikepdf.open(BytesIO(typeset_pages(day(), Look()).pdf)) as document:
        figures = [
            item for item in document.objects if isinstance(item, pikepdf.Dictionary) and item.get("/S") == "/Figure"
        ]

        codes = [str(figure.Alt) for figure in figures if str(figure.Alt).startswith("S1.")]

        assert len(codes) == 5
        assert len(figures) == 5 + 2 + 1
        assert all(str(figure.Alt).strip() for figure in figures)


def test_only_our_own_typefaces_are_in_the_file_and_all_of_them_are(day: Callable[..., tuple[SheetSpec, ...]]) -> None:
    for pdf, faces in (
        (typeset_pages(day(), Look()).pdf, {"Lexend"}),
        (typeset_key(day(), Look()), {"Lexend", "SourceSans3", "Literata"}),
    ):
        with pikepdf.open(BytesIO(pdf)) as document:
            fonts = [
                item
                for item in document.objects
                if isinstance(item, pikepdf.Dictionary) and item.get("/Type") == "/FontDescriptor"
            ]
            named = {str(font.FontName).split("+")[-1].split("-")[0] for font in fonts}
            assert {next((face for face in faces if name.startswith(face)), name) for name in named} == faces
            assert all("/FontFile2" in font or "/FontFile3" in font for font in fonts)


def test_the_same_sheets_give_the_same_bytes_also_on_a_fresh_press(day: Callable[..., tuple[SheetSpec, ...]]) -> None:
    made: list[bytes] = []
    thread = threading.Thread(target=lambda: made.append(typeset_pages(day(), Look()).pdf))
    thread.start()
    thread.join()

    assert made == [typeset_pages(day(), Look()).pdf]


@pytest.mark.parametrize(
    "name",
    ["#let x = 1", "$x^2$ *bold* _it_ `raw`", '"quoted" \\ back', "<label> @ref [b] {c}", "// comment /* */ ~ --"],
)
def test_hostile_text_is_printed_as_it_stands(name: str, day: Callable[..., tuple[SheetSpec, ...]]) -> None:
    (sheet, *_) = day()
    typed = typeset_pages((replace(sheet, child=name, pages=sheet.pages[:1]),), Look())

    with pdfplumber.open(BytesIO(typed.pdf)) as document:
        signs = "".join(sign["text"] for sign in document.pages[0].chars if round(float(sign["size"])) == 11)
    assert name.replace(" ", "") in signs.replace(" ", "")


def test_a_name_with_signs_that_our_typefaces_lack_is_refused_before_anything_is_set(
    day: Callable[..., tuple[SheetSpec, ...]],
) -> None:
    for name in ("Wren 😀", "רן", "Wren\u202e"):
        with pytest.raises(UnprintableText):
            typeset_pages(day(child=name), Look())


def test_a_side_that_is_too_full_is_refused_and_says_how_many_items_fit(
    day: Callable[..., tuple[SheetSpec, ...]],
    sums: Callable[[int], list[Item]],
    make_block: Callable[..., Block],
) -> None:
    (sheet, *_) = day()

    def page(n: int) -> tuple[SheetSpec, ...]:
        spec = PageSpec("own", "Too much", (make_block("Take away.", 1, *sums(n)),))
        return (replace(sheet, pages=(spec,)),)

    with pytest.raises(PageTooFull) as caught:
        typeset_pages(page(15), Look())

    assert caught.value.page == 1
    assert caught.value.items == 15
    assert caught.value.over > 0
    assert len(typeset_pages(page(caught.value.fits), Look()).pages[0].items) == caught.value.fits
    with pytest.raises(PageTooFull):
        typeset_pages(page(caught.value.fits + 3), Look())
    with pytest.raises(PageTooFull):
        typeset_key(page(15), Look())


def test_the_worked_example_stands_at_the_top_right_for_a_left_hander(
    day: Callable[..., tuple[SheetSpec, ...]],
) -> None:
    """JOB 3.4: models to copy stand where the hand does not cover them."""
    middles = []
    for look in (Look(), Look(left_handed=True)):
        with pdfplumber.open(BytesIO(typeset_pages(day(), look).pdf)) as document:
            page = document.pages[1]
            frame = max((shape for shape in (*page.rects, *page.curves)), key=lambda shape: shape["width"])
            middles.append((frame["x0"] + frame["x1"]) / 2 / page.width)

    assert middles[0] < 0.5 < middles[1]


def test_a_left_hander_writes_story_answers_at_the_left(day: Callable[..., tuple[SheetSpec, ...]]) -> None:
    right, left = (typeset_pages(day(), look).pages[-1] for look in (Look(), Look(left_handed=True)))

    assert min(box.x for box in right.boxes) > right.size_mm[0] / 2
    assert max(box.x + box.w for box in left.boxes) < left.size_mm[0] / 2


def test_a_day_without_sheets_is_refused_in_one_sentence() -> None:
    with pytest.raises(NothingToPrint, match="nothing to print"):
        typeset_pages((), Look())


def test_every_side_that_is_too_full_is_named_at_once(
    day: Callable[..., tuple[SheetSpec, ...]], sums: Callable[[int], list[Item]], make_block: Callable[..., Block]
) -> None:
    """Sides are counted as they were asked for: the blank back between two one-sided sheets does not count."""
    (sheet, *_) = day()
    full = PageSpec("own", "Too much", (make_block("Take away.", 1, *sums(15)),))
    fine = PageSpec("own", "Little", (make_block("Take away.", 1, *sums(3)),))

    with pytest.raises(PageTooFull) as caught:
        typeset_pages(tuple(replace(sheet, pages=(side,)) for side in (full, fine, full)), Look())

    assert set(caught.value.room) == {1, 3}
    assert caught.value.page == 1
