"""What can be printed by its name: print-outs of every day, pages to read, the front, the list to get ready by."""

from __future__ import annotations

import tomllib
from dataclasses import replace
from datetime import date
from fractions import Fraction
from io import BytesIO
from itertools import pairwise
from typing import TYPE_CHECKING

import pdfplumber
import pypdfium2 as pdfium
import pytest
import textstat  # type: ignore[import-untyped]  # it ships no types

from dayleaf.core.ids import LearnerId
from dayleaf.course.front import texts_of_page
from dayleaf.course.load import CONTENT
from dayleaf.course.stories import words_of
from dayleaf.items.model import Figure
from dayleaf.packets.calibration import FarOff, NotALength, measured_mm, print_calibration, scale_from
from dayleaf.packets.cut_outs.model import NothingPrintable
from dayleaf.packets.front import getting_ready, print_front, print_getting_ready, print_parts, totals
from dayleaf.packets.print_outs import SHOWN
from dayleaf.packets.printables import check_things, print_outs_of, print_thing, things
from dayleaf.packets.reading_pages import NoSuchChapter, print_chapter_page, print_reading, print_story
from dayleaf.packets.week_papers import week_cut_outs, week_print_outs
from dayleaf.plan.week import WeekLesson, prepare_week

if TYPE_CHECKING:
    from dayleaf.course.model import Course
    from dayleaf.sheets.model import Paper

MM = 25.4 / 72


def _sides(pdf: bytes) -> list[str]:
    document = pdfium.PdfDocument(pdf)
    return [page.get_textpage().get_text_range().replace("\r\n", "\n") for page in document]


def test_every_print_out_and_every_set_of_the_course_can_be_printed(course: Course) -> None:
    """Names read a second time, straight from the files."""
    asked = {
        word
        for path in (CONTENT / "grade2" / "chapters").glob("*/day-*.toml")
        for word in tomllib.loads(path.read_text("utf-8"))["print_outs"]
    }
    materials = tomllib.loads((CONTENT / "grade2" / "materials.toml").read_text("utf-8"))
    cut = {name for name, one in materials.items() if name != "source" and one["from"] == "cut-out set"}
    known = set(things(course)) | {"chapter-page", "story-page"}

    assert len(cut) == 17
    assert asked - known == set()
    assert cut - known == set()
    assert list(check_things(course)) == []


def test_a_day_that_asks_for_something_nobody_drew_is_named(course: Course) -> None:
    first = replace(course.days[0], print_outs=("picture-card:unicorn", "pv-mat"))
    odd = replace(course.materials["ruler"], id="sextant", source="cut-out set", substitute="")
    changed = replace(course, days=(first, *course.days[1:]), materials={**course.materials, "sextant": odd})

    found = [str(problem) for problem in check_things(changed)]

    assert len(found) == 2
    assert found[0].startswith("grade2/chapters/01/day-001.toml: print_outs: ")
    assert "sextant" in found[1]


def test_a_calendar_shows_the_month_the_day_falls_in(course: Course) -> None:
    """January 2027 begins on a Friday and has 31 days (Python's calendar agrees with any wall calendar)."""
    pdf = print_thing(course, "month-calendar", paper="letter", month=date(2027, 1, 1)).pdf
    (text,) = _sides(pdf)

    assert "January 2027" in text
    assert "1 2\n" in text
    assert "31" in text
    with pytest.raises(NothingPrintable, match="2027-01"):
        print_thing(course, "month-calendar:soon", paper="letter")


def test_dot_and_grid_paper_are_a_centimetre_apart(course: Course) -> None:
    with pdfplumber.open(BytesIO(print_thing(course, "grid-paper", paper="a4").pdf)) as document:
        page = document.pages[0]
        long = [line for line in page.lines if (line["x1"] - line["x0"]) * MM > 150]
        rows = sorted(line["top"] * MM for line in long)

    assert len(rows) > 20
    assert all(abs(b - a - 10) < 0.01 for a, b in pairwise(rows))


def test_picture_cards_of_a_day_show_its_own_pictures_two_to_a_side(course: Course) -> None:
    day = replace(course.days[80], print_outs=("picture-card:clock-pair", "picture-card:tally", "picture-card:table"))
    own = (Figure("clock-pair", {"h": 3, "m": 20}),)

    (cards,) = print_outs_of(course, day, paper="letter", pictures=own)
    text = "\n".join(_sides(cards))

    assert len(_sides(cards)) == 2
    assert "3:20" in text
    assert str(SHOWN["clock-pair"][0].params["m"]) not in text.split("3:20")[0]


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_the_longest_story_fits_on_two_sides_with_its_question_last(course: Course, paper: Paper) -> None:
    chapter = max(course.stories, key=lambda number: words_of(course.stories[number]))
    story = course.stories[chapter]

    sides = _sides(print_story(course, chapter, paper=paper))
    text = " ".join(" ".join(sides).split())

    assert len(sides) <= 2
    assert story.title in text
    assert text.index(" ".join(story.question.split())) > text.index(story.paragraphs[-2].replace("*", "")[:30])


def test_a_chapter_page_holds_on_one_side_what_the_chapter_teaches_and_when(course: Course) -> None:
    (text,) = _sides(print_chapter_page(course, 9, paper="letter"))

    for day in course.days[80:90]:
        assert f"{day.number} {day.title}" in text
    assert "open a ten" in text
    assert "base-ten blocks" in text
    with pytest.raises(NoSuchChapter, match="from 1 to 18"):
        print_chapter_page(course, 19, paper="letter")


def test_chapter_page_and_story_come_bound_each_on_a_sheet_of_its_own(course: Course) -> None:
    chapter = next(iter(course.stories))

    sides = _sides(print_reading(course, chapter, paper="letter"))

    assert sides[1] == ""
    assert course.stories[chapter].title in sides[2]


def test_the_front_of_the_course_has_four_sides_in_plain_words(course: Course) -> None:
    """Grade 6 or below is what the issue asks of text for adults (Flesch and Kincaid, by textstat)."""
    sides = _sides(print_front(course, paper="a4"))
    words = " ".join(text for page in course.front for text in texts_of_page(page))

    assert len(sides) == 4
    assert "180 days in 18 chapters" in " ".join(sides[0].split())
    assert textstat.flesch_kincaid_grade(words) <= 6
    assert "{" not in "".join(sides)


def test_the_parts_page_is_one_picture_with_words_for_it(course: Course) -> None:
    pdf = print_parts(course, paper="letter")

    assert len(_sides(pdf)) == 1
    for name in ("lesson guide", "together page", "practice sheet", "answer key", "chapter test", "cut-out sets"):
        assert name in _sides(pdf)[0]


def test_the_totals_of_the_year_are_those_counted_when_the_course_was_drafted(course: Course) -> None:
    """JOB 1.1: 17 sets, 161 minutes once, peaks of 32 and 35 minutes in weeks 1 and 5, four things to buy, 19 + 22."""
    found = totals(course)

    assert (found.sets, found.minutes, found.to_buy) == (17, 161, 4)
    assert dict(found.cutting)[1] == 32
    assert dict(found.cutting)[5] == 35
    assert max(minutes for _, minutes in found.cutting) == 35
    assert (found.adult, found.alone) == (19, 22)


def test_the_getting_ready_list_has_every_thing_once_with_its_week_and_what_else_would_do(course: Course) -> None:
    sheet = getting_ready(course)
    lines = [line for _, group in sheet.prep for line in group]

    assert [head for head, _ in sheet.prep] == ["Print now", "Cut now", "Wait until", "Buy", "Have"]
    assert len(lines) == len({line.what for line in lines}) == len(course.materials)
    by_name = {line.what: line for line in lines}
    assert by_name["Play coins"].when == "week 19"  # first asked for on day 91
    assert "real coins" in by_name["Play coins"].more
    assert by_name["Play coins"].mind
    assert len(_sides(print_getting_ready(course, paper="letter"))) <= 2


@pytest.mark.parametrize(
    ("written", "measured", "meant"),
    [
        ("98.5mm", Fraction(197, 2), Fraction(100)),
        ("9.85 cm", Fraction(197, 2), Fraction(100)),
        ("98,5 mm", Fraction(197, 2), Fraction(100)),
        ("3.94in", Fraction(394, 100) * Fraction(254, 10), Fraction(1016, 10)),
        ("3 15/16 in", Fraction(63, 16) * Fraction(254, 10), Fraction(1016, 10)),
        ("63/16 inches", Fraction(63, 16) * Fraction(254, 10), Fraction(1016, 10)),
        ('4"', Fraction(1016, 10), Fraction(1016, 10)),
    ],
)
def test_a_measured_bar_is_read_in_millimetres_and_inches(written: str, measured: Fraction, meant: Fraction) -> None:
    """1 in is 25.4 mm exactly (NIST Handbook 44, appendix C)."""
    assert measured_mm(written) == (measured, meant)
    assert scale_from(written) == pytest.approx(float(meant / measured))


@pytest.mark.parametrize("written", ["100", "about 98 mm", "3 1 in", "1/0 in", "", "98.5 km"])
def test_what_is_no_length_is_refused(written: str) -> None:
    with pytest.raises(NotALength):
        scale_from(written)


@pytest.mark.parametrize("written", ["80mm", "111mm", "0 mm", "3 in"])
def test_a_bar_far_off_asks_for_another_print_first(written: str) -> None:
    with pytest.raises(FarOff, match="100 %"):
        scale_from(written)


def test_the_calibration_page_has_the_outline_of_a_bank_card_and_both_bars() -> None:
    """ISO/IEC 7810, ID-1: 85.60 x 53.98 mm; CHECKS C.3."""
    with pdfplumber.open(BytesIO(print_calibration(paper="a4"))) as document:
        page = document.pages[0]
        sizes = {(round(one["width"] * MM, 2), round(one["height"] * MM, 2)) for one in (*page.curves, *page.rects)}

    assert (85.6, 53.98) in sizes
    assert (100.0, 12.0) in sizes
    assert (101.6, 12.0) in sizes
    assert (12.0, 100.0) in sizes


def test_the_first_week_cuts_three_sets_and_prints_its_papers_once_for_each_child(course: Course) -> None:
    """JOB 1.1: 32 minutes of cutting in week 1, for base-ten blocks, digit cards and the number path."""
    monday = date(2027, 1, 11)
    lessons = [
        WeekLesson(LearnerId(child), date(2027, 1, 11 + k), course.days[k]) for child in ("a", "b") for k in range(5)
    ]
    week = prepare_week(course, lessons, first=monday, last=date(2027, 1, 17), today=monday)

    cut = _sides(week_cut_outs(course, week, paper="letter") or b"")
    papers = _sides(week_print_outs(course, week, paper="letter") or b"")

    assert sum(need.minutes for need in week.prep if need.kind == "cut") == 32
    for title in ("Base-ten blocks", "Digit cards", "Number path"):
        assert any(side.startswith(title) for side in cut)
    assert sum(side.startswith("Hundred chart") for side in papers) == 2
    assert sum("to read aloud" in side for side in papers) == 1
