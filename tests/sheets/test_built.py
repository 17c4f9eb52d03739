"""Every format that can be made today, with its own words and pictures, on paper."""

from __future__ import annotations

import json
import re
from collections import Counter
from typing import TYPE_CHECKING

import pypdfium2 as pdfium
import pytest

from dayleaf.core.ids import LessonId
from dayleaf.course.load import grade2
from dayleaf.items.built import formats_built
from dayleaf.items.draw import draw_items
from dayleaf.items.model import Column, Row, Word
from dayleaf.sheets import cells, typeset
from dayleaf.sheets.arrangement import BETWEEN, frame_of
from dayleaf.sheets.cells import page_data
from dayleaf.sheets.ids import sheet_id
from dayleaf.sheets.measuring import cell_wanted, frame_data
from dayleaf.sheets.model import Block, Look, PageSpec, Placed, SheetSpec
from dayleaf.sheets.press import ask
from dayleaf.wording import say

if TYPE_CHECKING:
    from collections.abc import Iterator

    from dayleaf.course.model import Skill
    from dayleaf.items.model import Item
    from dayleaf.sheets.model import PageMap

A_FEW = 7
"""Every seventh format in the looks other than the usual one."""

AT_ONCE = 24
"""So many sheets are set in one run of the typesetter."""


@pytest.fixture(scope="module", autouse=True)
def real_words(plain_words: None) -> Iterator[None]:
    assert plain_words is None
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(cells, "say", say)
        patch.setattr(typeset, "say", say)
        yield


def _all_items() -> list[tuple[Skill, Item]]:
    return [
        (skill, draw_items(skill, n=1, seed=84, format=form)[0])
        for skill in grade2().skills.values()
        for form in formats_built(skill.id)
    ]


def _sheet(item: Item) -> SheetSpec:
    block = Block(say.instruction_for(item, "en"), (Placed(1, item),))
    return SheetSpec(sheet_id(item.key), LessonId("day-001"), "Ivo", (PageSpec("own", "My page", (block,)),))


@pytest.mark.parametrize(
    ("look", "every"),
    [(Look(), 1), (Look(paper="a4", left_handed=True), A_FEW), (Look(large_boxes=True), A_FEW)],
    ids=["letter", "a4-left", "large"],
)
def test_every_format_fits_on_a_side_and_has_all_its_boxes(look: Look, every: int) -> None:
    items = _all_items()[::every]
    assert items
    for some in _by(AT_ONCE, [item for _, item in items]):
        pages = typeset.typeset_pages(tuple(_sheet(item) for item in some), look).pages
        _has_its_boxes(some, pages)


def _by(size: int, items: list[Item]) -> Iterator[list[Item]]:
    for start in range(0, len(items), size):
        yield items[start : start + size]


def _has_its_boxes(items: list[Item], pages: tuple[PageMap, ...]) -> None:
    for item, page in zip(items, pages, strict=True):  # one side each: nothing ran over
        boxes = Counter(box.part for box in page.boxes if box.role == "answer")
        wanted = {
            part.id: part.width if part.kind == "digits" else 1 if part.kind == "compare" else len(part.options)
            for part in item.parts
            if part.kind != "look"
        }
        assert boxes == wanted, item.key


@pytest.mark.parametrize(
    ("look", "every"),
    [(Look(), 1), (Look(left_handed=True, large_boxes=True), A_FEW), (Look(compact=True), A_FEW)],
    ids=["usual", "left", "compact"],
)
def test_heights_worked_out_are_those_that_laying_out_gives(look: Look, every: int) -> None:
    """The press works most heights out from boxes and texts; asked for a proof, it lays each item out as well."""
    frame = frame_of(look)
    widths = (frame.width, (frame.width - BETWEEN) / 2)
    items = [item for _, item in _all_items()][::every]
    compared = 0
    for some in _by(24, items):
        blocks = tuple(Block("Work.", (Placed(1, item), Placed(2, item))) for item in some)
        runs, _ = page_data(PageSpec("own", "My page", blocks), "en")
        wanted = [cell_wanted(run["cells"][0], widths) for run in runs]
        asked = [{"what": "proof", "data": json.loads(one.data)} for one in wanted]
        pairs = ask("measure", frame_data(look) | {"wanted": asked}, label="measured")
        for item, heights in zip(some, pairs, strict=True):
            for known, taken in heights:
                assert known == pytest.approx(taken, abs=0.01), item.key
            compared += bool(heights)

    assert compared > len(items) / 2


def test_the_numbers_of_every_row_and_column_are_printed_in_their_order() -> None:
    """The numbers as the item holds them, against the numbers pypdfium2 reads from the page."""
    items = [item for _, item in _all_items() if isinstance(item.prompt, Row | Column) and item.figure is None]
    assert len(items) > 50
    sheets = [
        SheetSpec(
            sheet_id(item.key),
            LessonId("day-001"),
            "Ivo",
            (PageSpec("own", "My page", (Block("Work.", (Placed(1, item),)),)),),
        )
        for item in items
    ]
    bodies = [
        side.get_textpage().get_text_bounded(left=50, bottom=90, right=560, top=side.get_height() - 90)
        for side in pdfium.PdfDocument(typeset.typeset_pages(sheets, Look()).pdf)
    ]
    fronts = [body for body in bodies if body.strip()]  # a sheet of one side has an empty back
    for item, body in zip(items, fronts, strict=True):
        numbers = re.findall(r"\d", body.split("Work.")[1])[1:]

        assert numbers == _digits_of(item), item.key


def _digits_of(item: Item) -> list[str]:
    """Every digit that the item shows, hidden ones and options in words left out."""
    prompt = item.prompt
    shown: list[str] = []
    if isinstance(prompt, Row):
        said = [
            say.word_of(token.code, "en", token.count) if isinstance(token, Word) else token for token in prompt.tokens
        ]
        shown = [str(token) for token in said if isinstance(token, int | str)]
    elif isinstance(prompt, Column):
        rows = list(prompt.rows) + ([prompt.shown] if prompt.shown is not None else [])
        for row, number in enumerate(rows):
            places = range(len(str(number)))
            shown += [
                digit
                for place, digit in zip(reversed(places), str(number), strict=True)
                if (row, place) not in prompt.hidden
            ]
    options = [option.code for part in item.parts for option in part.options]
    return list("".join(re.findall(r"\d", "".join(shown + options))))
