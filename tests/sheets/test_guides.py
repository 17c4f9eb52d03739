"""A printed guide: at most two sides, nothing lost, readable by a screen reader."""

from __future__ import annotations

from dataclasses import replace
from io import BytesIO
from typing import TYPE_CHECKING

import pdfplumber
import pikepdf
import pytest

from dayleaf.core.ids import LessonId
from dayleaf.sheets.fonts import UnprintableText
from dayleaf.sheets.guides import guide_data, surely_two_sides
from dayleaf.sheets.model import GuideLine, GuideSection, GuideSheet, Look
from dayleaf.sheets.press import press, sides_of
from dayleaf.sheets.typeset import PageTooFull, typeset_guide

if TYPE_CHECKING:
    from typing import Literal

ASK = (
    GuideLine("say", "Look at the ones first: enough? If not, open a ten."),
    GuideLine("do", "Build 62 only: six tens and two ones."),
    GuideLine("ask", "Eight ones to give: do we have enough?"),
    GuideLine("answer", "No, only two."),
    GuideLine("if-instead", "“Six, because 8 take away 2”: ask the child to put eight ones in your hand."),
)


def a_guide(lines: int = 1) -> GuideSheet:
    return GuideSheet(
        LessonId("day-084"),
        "Not enough ones",
        "Take away two-digit numbers and open a ten when the ones run short.",
        (("Fetch", "tens and ones, mat"), ("Yesterday", "1 of 8 wrong, a slip")),
        (
            GuideSection("Before you sit down", None, (GuideLine("", "Children build only the larger number."),)),
            GuideSection("Show", 8, ASK * lines, core=True),
            GuideSection("Together", 8, ASK * lines),
            GuideSection("Close", 2, ASK[2:4]),
        ),
        "Show with one item.",
        "Draw tens as lines and ones as dots.",
        (("Own page", ("1: 24", "2: 55")), ("Practice", ("1: 36", "2: <"))),
    )


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("lines", [1, 5])
def test_every_line_of_a_guide_is_printed_on_at_most_two_sides(paper: Literal["letter", "a4"], lines: int) -> None:
    guide = a_guide(lines)

    with pdfplumber.open(BytesIO(typeset_guide(guide, Look(paper=paper)))) as document:
        sides = len(document.pages)
        said = "".join(sign["text"] for page in document.pages for sign in page.chars).replace(" ", "")

    assert sides <= 2
    texts = [line.text for section in guide.sections for line in section.lines]
    texts += [guide.title, guide.under_title, guide.short, guide.bare, *(fact for _, fact in guide.facts)]
    texts += [answer for _, answers in guide.answers for answer in answers]
    for text in texts:
        assert said.count(text.replace(" ", "")) >= texts.count(text), text


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_a_guide_that_is_not_tried_on_one_side_would_not_have_fitted_there(paper: Literal["letter", "a4"]) -> None:
    """Against the typesetter itself, in the smallest type that one side may have."""
    look = Look(paper=paper)
    begun = a_guide(1)
    untried = []
    for lines in range(6, 60, 3):
        guide = replace(begun, sections=(*begun.sections[:-1], GuideSection("Close", 2, ASK[:1] * lines)))
        if surely_two_sides(guide, look):
            pdf, _ = press("guide", guide_data(guide, look, points=10.5, picture=30.0))
            untried.append(sides_of(pdf))
            break

    assert untried == [2]


def test_text_is_ten_points_or_more_and_stays_inside_the_margins() -> None:
    with pdfplumber.open(BytesIO(typeset_guide(a_guide(5), Look()))) as document:
        for page in document.pages:
            for sign in page.chars:
                assert sign["x0"] >= 18 * 72 / 25.4
                assert sign["x1"] <= page.width - 18 * 72 / 25.4
                assert sign["bottom"] <= page.height - 8 * 72 / 25.4
            sizes = [float(sign["size"]) for sign in page.chars]
            assert sum(size >= 10 for size in sizes) / len(sizes) > 0.85


def test_a_guide_that_needs_a_third_side_is_refused() -> None:
    with pytest.raises(PageTooFull) as caught:
        typeset_guide(a_guide(14), Look())

    assert caught.value.page == 3


def test_only_the_core_step_has_a_rule_at_its_left() -> None:
    """LOOK: a rule at the left belongs to the core step alone."""

    def upright(guide: GuideSheet) -> int:
        with pdfplumber.open(BytesIO(typeset_guide(guide, Look()))) as document:
            return sum(edge["orientation"] == "v" and edge["height"] > 30 for edge in document.pages[0].edges)

    plain = replace(a_guide(), sections=tuple(replace(section, core=False) for section in a_guide().sections))

    assert upright(plain) == 0
    assert upright(a_guide()) > 0


def test_a_guide_is_tagged_and_asks_for_true_size() -> None:
    with pikepdf.open(BytesIO(typeset_guide(a_guide(), Look()))) as document:
        assert document.Root.ViewerPreferences.PrintScaling == "/None"
        assert document.Root.Lang == "en"
        with document.open_metadata() as metadata:
            assert metadata["pdfuaid:part"] == "1"
            assert metadata["dc:title"] == "Not enough ones"


def test_hostile_words_in_a_guide_are_printed_as_they_stand_or_named() -> None:
    strange = '#panic("x") $a$ *b* [c] \\ <d> @e'
    with pdfplumber.open(BytesIO(typeset_guide(replace(a_guide(), short=strange), Look()))) as document:
        said = "".join(sign["text"] for page in document.pages for sign in page.chars)
    assert strange.replace(" ", "") in said.replace(" ", "")

    with pytest.raises(UnprintableText):
        typeset_guide(replace(a_guide(), short="take 😀"), Look())
