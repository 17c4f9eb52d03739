"""The library: every day open to look at, papers at true size, and a search in anybody's words."""

from __future__ import annotations

import html
import json
import re
from io import BytesIO
from typing import TYPE_CHECKING

import pdfplumber
import pytest
from django.test import Client

from dayleaf.course.load import grade2
from dayleaf.packets.cut_outs.sets import SETS
from dayleaf.records.models import EventRow, PrintRow

if TYPE_CHECKING:
    from dayleaf.records.home import Home

SHELVES = ("", "/days", "/stories", "/cut-outs", "/papers", "/getting-ready", "/printer", "/search?q=borrowing")


def read(browser: Client, path: str) -> str:
    answer = browser.get(f"/library{path}")
    assert answer.status_code == 200, path
    return html.unescape(answer.content.decode())


@pytest.mark.parametrize("path", SHELVES)
def test_the_whole_course_is_open_before_anybody_has_begun(home: Home, path: str) -> None:
    assert home.warning is None

    assert "<h1>" in read(Client(), path)


def test_every_day_of_the_course_is_listed_with_a_way_to_it(browser: Client) -> None:
    page = read(browser, "/days")

    assert re.findall(r'href="/library/days/(\d+)"', page) == [str(day.number) for day in grade2().days]


@pytest.mark.parametrize("number", [84, 40, 89, 20])
def test_a_days_guide_stands_on_the_screen_with_its_numbers_filled_in(browser: Client, number: int) -> None:
    page = read(browser, f"/days/{number}")

    assert grade2().days[number - 1].title in page
    assert not re.search(r"\{(show|together|own|child)[.}]", page)


def test_looking_at_a_day_and_printing_it_without_a_name_records_nothing(browser: Client) -> None:
    before = EventRow.objects.count(), PrintRow.objects.count()

    guide = browser.get("/library/days/84/guide.pdf")
    picture = browser.get("/library/days/84/side-1.png")

    assert picture.content.startswith(b"\x89PNG")
    with pdfplumber.open(BytesIO(guide.content)) as pdf:
        words = " ".join(page.extract_text() for page in pdf.pages)
    assert "the child" in words
    assert "Wren" not in words
    assert (EventRow.objects.count(), PrintRow.objects.count()) == before


@pytest.mark.parametrize(
    ("query", "day", "skill"),
    [
        ("regrouping", 84, "Subtract 2-digit numbers, opening a ten"),
        ("borrowing", 84, "Subtract 2-digit numbers, opening a ten"),
        ("telling time", 124, "Tell time to five minutes"),
    ],
)
def test_a_word_of_any_book_finds_its_days_and_skills(browser: Client, query: str, day: int, skill: str) -> None:
    """The trade's words for opening a ten: regrouping, borrowing (common practice, no source)."""
    page = read(browser, f"/search?q={query}")

    assert f'href="/library/days/{day}"' in page
    assert skill in page


def test_a_search_that_finds_nothing_says_what_to_do_next(browser: Client) -> None:
    assert "Try one word of it" in read(browser, "/search?q=zzz")


def test_every_set_is_offered_and_a_single_piece_can_be_printed_again(browser: Client) -> None:
    page = read(browser, "/cut-outs")
    piece = browser.get("/library/print/base-ten-blocks.pdf", {"piece-ten": "3"})

    assert set(re.findall(r'href="/library/print/([a-z0-9-]+)\.pdf"', page)) == set(SETS)
    with pdfplumber.open(BytesIO(piece.content)) as pdf:
        assert len(pdf.pages) == 2  # three tens on a front, and their backs


def test_what_the_bar_measured_corrects_the_size_of_what_is_printed_next(browser: Client, home: Home) -> None:
    kept = browser.post("/library/printer", {"measured": "98.5 mm"})

    assert "1.5% larger" in kept.content.decode()
    assert json.loads((home.folder / "printer.json").read_text())["scale"] == pytest.approx(100 / 98.5)


def test_a_bar_far_too_short_is_refused_in_words_and_changes_nothing(browser: Client, home: Home) -> None:
    answer = browser.post("/library/printer", {"measured": "60 mm"})

    assert answer.status_code == 422
    assert "asked to fit the page" in answer.content.decode()
    assert not (home.folder / "printer.json").exists()


@pytest.mark.parametrize("path", ["/days/0", "/days/181", "/days/84/side-9.png", "/days/84/diary.pdf", "/stories/99"])
def test_what_is_not_there_is_said_in_words(browser: Client, path: str) -> None:
    answer = browser.get(f"/library{path}")

    assert answer.status_code == 404
    assert "There is no page at this address." in answer.content.decode()


def test_something_nobody_can_print_is_named(browser: Client) -> None:
    answer = browser.get("/library/print/base-ten-block.pdf")

    assert answer.status_code in (404, 409)
    assert "base-ten-blocks" in answer.content.decode()


def test_help_has_a_dozen_plain_answers_and_every_caution(browser: Client) -> None:
    """The cautions of JOB (f), each by its own word."""
    page = browser.get("/help").content.decode()

    assert page.count("<section>") == 12
    for word in ("choking", "Scissors", "stove", "check the rules where you live", "Not a diagnosis", "not validated"):
        assert word in page.replace("\n", " ")
