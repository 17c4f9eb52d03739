"""A child's own page: off until asked for, one thing at a time, ends by itself, and joins the record."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest

from dayleaf.course.load import grade2
from dayleaf.events.model import Marked
from dayleaf.records import selectors
from dayleaf.records.beliefs import beliefs_now
from dayleaf.records.screen import BY, fits_screen, round_begin, screen_switch

if TYPE_CHECKING:
    from django.test import Client

    from dayleaf.records.models import Learner

from datetime import date

TODAY = date(2027, 1, 12)
CHILD_WORDS_NEVER = ("wrong", "score", "points", "minutes", "seconds", "fail")
"""Words that JOB 3.2 and 3.8 keep from a child."""


def marks_of(wren: Learner) -> list[Marked]:
    return [one for one in selectors.events_of(wren, Marked) if isinstance(one, Marked)]


def answer(browser: Client, wren: Learner, said: str) -> str:
    page = browser.get(f"/go/{wren.id}/now").content.decode()
    n = re.search(r'name="n" value="(\d+)"', page)
    touched = re.search(r'name="answer" value="([^"]+)"', page)
    assert n is not None
    sent = {"n": n[1], "answer": touched[1].replace("&lt;", "<") if touched else said}
    return browser.post(f"/go/{wren.id}/answer", sent).content.decode()


def test_the_page_is_not_there_until_an_adult_switches_it_on(browser: Client, wren: Learner) -> None:
    before = browser.get(f"/go/{wren.id}")
    browser.post(f"/go/{wren.id}/switch", {"items": "5"})

    assert before.status_code == 404
    assert "a grown-up can switch it on" in before.content.decode()
    assert browser.get(f"/go/{wren.id}").status_code == 200


def test_a_round_ends_by_itself_and_every_answer_is_a_mark(browser: Client, wren: Learner) -> None:
    screen_switch(learner=wren, items=5)
    browser.post(f"/go/{wren.id}")

    pages = [answer(browser, wren, "7") for _ in range(5)]

    assert "You are done." in browser.get(f"/go/{wren.id}/now").content.decode()
    marks = marks_of(wren)
    assert [mark.n for one in marks for mark in one.items] == [1, 2, 3, 4, 5]
    assert {spot.by for one in marks for spot in one.evidence} == {BY}
    for page in pages:
        assert not [word for word in CHILD_WORDS_NEVER if word in re.sub(r"<[^>]+>", " ", page).lower()]


def test_the_answers_count_in_what_is_believed_like_those_of_a_sheet(browser: Client, wren: Learner) -> None:
    screen_switch(learner=wren, items=5)
    before = {skill: one.asked for skill, one in beliefs_now(wren, grade2(), upto=TODAY).known_all(TODAY).items()}
    browser.post(f"/go/{wren.id}")
    for _ in range(5):
        answer(browser, wren, "7")

    after = {skill: one.asked for skill, one in beliefs_now(wren, grade2(), upto=TODAY).known_all(TODAY).items()}

    asked = [mark.skill for one in marks_of(wren) for mark in one.items]
    assert {skill: after[skill] - before[skill] for skill in set(asked)} == {s: asked.count(s) for s in set(asked)}


def test_an_answer_sent_twice_counts_once(browser: Client, wren: Learner) -> None:
    screen_switch(learner=wren, items=5)
    browser.post(f"/go/{wren.id}")
    page = browser.get(f"/go/{wren.id}/now").content.decode()
    touched = re.search(r'name="answer" value="([^"]+)"', page)
    sent = {"n": "0", "answer": touched[1] if touched else "7"}

    browser.post(f"/go/{wren.id}/answer", sent)
    browser.post(f"/go/{wren.id}/answer", sent)

    assert len(marks_of(wren)) == 1


def test_stopping_early_keeps_what_was_answered(browser: Client, wren: Learner) -> None:
    screen_switch(learner=wren, items=5)
    browser.post(f"/go/{wren.id}")
    answer(browser, wren, "7")

    browser.post(f"/go/{wren.id}/stop")

    assert len(marks_of(wren)) == 1
    assert browser.get(f"/go/{wren.id}/now").status_code == 302


def test_only_items_that_a_screen_can_ask_are_chosen_and_rounds_differ(browser: Client, wren: Learner) -> None:
    screen_switch(learner=wren, items=12)
    first = round_begin(wren, today=TODAY)
    browser.post(f"/go/{wren.id}")
    answer(browser, wren, "7")

    second = round_begin(wren, today=TODAY)

    assert all(fits_screen(one.item()) for one in (*first, *second))
    assert len({one.item().key for one in first}) == len(first) == 12
    assert first != second


@pytest.mark.parametrize("items", ["3", "", "100", "-1"])
def test_no_other_number_of_questions_can_be_asked_for(browser: Client, wren: Learner, items: str) -> None:
    assert browser.post(f"/go/{wren.id}/switch", {"items": items}).status_code == 422
