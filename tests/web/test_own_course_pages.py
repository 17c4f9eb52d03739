"""A family's own course, its own words, a skill seen again and the course map, on pages and without a script."""

from __future__ import annotations

import html
import re
from typing import TYPE_CHECKING

import pytest

from dayleaf.course.load import CONTENT

if TYPE_CHECKING:
    from django.test import Client

UNITS = (CONTENT / "outlines" / "twelve-units.txt").read_text("utf-8")


def test_pasted_contents_are_read_confirmed_kept_and_planned(browser: Client) -> None:
    read = browser.post("/library/own-course/lines", {"text": UNITS})
    page = read.content.decode()
    outline = html.unescape(re.search(r'name="outline" value="([^"]*)"', page)[1])  # type: ignore[index] # it is there
    child = re.search(r'<option value="(\w+)">Wren', page)[1]  # type: ignore[index] # it is there
    chosen = dict(re.findall(r'name="(skill-\d+)" value="([a-z0-9-]+)" checked', page))

    kept = browser.post(
        "/library/own-course/keep",
        {"outline": outline, "title": "Lanterns", "learner": child, "start": "2027-01-12", **chosen},
    )

    assert len(chosen) > 100
    assert kept.status_code == 302, kept.content.decode()[:500]
    assert kept["Location"] == f"/year/{child}"
    assert "of the family&#x27;s book" in browser.get("/").content.decode()
    assert "Lanterns" in browser.get("/library/own-course").content.decode()


def test_contents_without_a_lesson_are_said_and_nothing_is_kept(browser: Client) -> None:
    said = browser.post("/library/own-course/lines", {"text": "\n\n"})

    assert said.status_code == 422
    assert "There is no lesson in it" in said.content.decode()


def test_a_line_is_kept_taken_away_and_put_back(browser: Client) -> None:
    place = {"part": "open", "of": "chapter"}
    browser.post("/own-words/day-084/line", {"text": "Many hands.", **place})
    taken = browser.post("/own-words/day-084/line", {"text": "", **place}, follow=True).content.decode()

    assert "Put it back" in taken
    back = browser.post("/own-words/day-084/line", {"text": "Many hands.", **place}, follow=True).content.decode()
    assert 'value="Many hands."' in back
    assert 'value="Many hands."' in browser.get("/own-words/day-085").content.decode()


def test_a_note_stays_with_the_day(browser: Client) -> None:
    browser.post("/own-words/day-003/note", {"text": "Shoes on the stairs."})

    assert "Shoes on the stairs." in browser.get("/own-words/day-003").content.decode()
    assert browser.get("/own-words/day-999").status_code == 404


def test_a_skill_is_gone_through_by_next_and_back_to_its_end(browser: Client) -> None:
    page, steps = browser.get("/again/sub-2digit-regroup").content.decode(), 1
    while found := re.search(r'href="\?step=(\d+)&amp;seed=0" data-next', page):
        steps = int(found[1])
        page = browser.get(f"/again/sub-2digit-regroup?step={steps}").content.decode()

    assert f"{steps} of {steps}" in page
    assert "Once more with other numbers" in page
    assert browser.get("/again/sub-2digit-regroup.pdf")["Content-Type"] == "application/pdf"
    assert browser.get("/again/knitting").status_code == 404


@pytest.mark.parametrize("place", ["/library/map", "/library/map?skill=sub-2digit-regroup"])
def test_the_map_says_in_words_what_it_shows(browser: Client, place: str) -> None:
    page = browser.get(place).content.decode()

    assert page.count("<circle") == page.count("</circle>") > 150
    assert "An ordinary week, complete" in page
    assert browser.get("/library/map?skill=knitting").status_code == 404
