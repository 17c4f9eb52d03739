"""A chapter's test on pages, from the blueprint to the decision: JOB (g), story 10."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

import pytest

from dayleaf.course.load import grade2
from dayleaf.events.model import Override
from dayleaf.items.second import second_answer
from dayleaf.learner.words import count_word
from dayleaf.marking.answer import asked_items
from dayleaf.packets.features import features_of
from dayleaf.records import selectors

if TYPE_CHECKING:
    from django.test import Client

    from dayleaf.items.model import Item
    from dayleaf.records.models import Learner, SheetRow

SHARE_RIGHT = 13 / 20
TWENTY_FIVE = 25
"""Rules with so many items or more give two forms nothing in common (JOB 1.11)."""


def print_form(browser: Client, wren: Learner, letter: str) -> list[SheetRow]:
    """Print a form as the page does; its sheets."""
    answer = browser.post(f"/children/{wren.id}/tests/9/print", {"form": letter, "open": "key"})
    assert answer.status_code == 302
    assert browser.get(answer["Location"])["Content-Type"] == "application/pdf"
    sheets = [one for one in selectors.sheets_of(wren) if one.lesson == "day-089"]
    newest = max(one.printed.seq for one in sheets)
    return [one for one in sheets if one.printed.seq == newest]


def items_of(sheets: list[SheetRow]) -> list[Item]:
    specs = [selectors.spec_of(sheet) for sheet in sheets]
    return [placed.item for spec in specs for page in spec.pages for block in page.blocks for placed in block.items]


def mark_with(browser: Client, sheets: list[SheetRow], *, misses: int) -> None:
    """Mark the sheets on their pages, with so many misses, the last items first."""
    for sheet in reversed(sheets):
        asked = asked_items(selectors.pages_of(sheet))
        numbers = [n for n, one in asked.items() if one.spots][-misses:] if misses else []
        misses -= len(numbers)
        answer = browser.post(f"/mark/{sheet.sheet_id}", {f"wrong-{n}": "?" for n in numbers})
        assert answer.status_code == 200


@pytest.mark.slow
def test_a_test_with_a_third_missed_says_what_to_do_and_form_b_is_its_equal(browser: Client, wren: Learner) -> None:
    course = grade2()
    before = browser.get(f"/children/{wren.id}/tests/9").content.decode()
    assert "The test is planned for" in before
    form_a = print_form(browser, wren, "A")
    items_a = items_of(form_a)
    right = round(SHARE_RIGHT * len(items_a))
    mark_with(browser, form_a, misses=len(items_a) - right)

    page = browser.get(f"/children/{wren.id}/tests/9").content.decode()
    form_b = print_form(browser, wren, "B")
    items_b = items_of(form_b)

    result = page[page.index("What the test showed") :]
    assert f"{count_word(right)} of {count_word(len(items_a))} right".capitalize() in result
    for skill in {item.skill for item in items_a}:
        assert course.skills[skill].title in result
    assert "form B next week, on " in result or "minutes on " in result or "Teach again from day " in result
    counts = [Counter((item.skill, item.format) for item in items) for items in (items_a, items_b)]
    assert counts[0] == counts[1]
    features = [
        Counter((f.trades, f.digits, f.answer) for f in (features_of(course.skills[i.skill], i) for i in items))
        for items in (items_a, items_b)
    ]
    assert features[0] == features[1]
    wide = {i.key for i in items_a if (course.skills[i.skill].distinct_items or 0) >= TWENTY_FIVE}
    assert not wide & {item.key for item in items_b}
    assert all(second_answer(item) == item.answer for item in (*items_a, *items_b))


@pytest.mark.slow
def test_another_decision_is_kept_and_can_be_taken_back(browser: Client, wren: Learner) -> None:
    sheets = print_form(browser, wren, "A")
    mark_with(browser, sheets, misses=2)

    browser.post(f"/children/{wren.id}/tests/9/decide", {"decision": "teach again"})
    page = browser.get(f"/children/{wren.id}/tests/9").content.decode()
    browser.post(f"/children/{wren.id}/tests/9/decide", {"decision": "as advised"})

    assert "you decided otherwise than advised" in page
    kept = [one for one in selectors.events_of(wren, Override) if isinstance(one, Override)]
    assert [one.chosen for one in kept] == ["teach again", "as advised"]
    assert "you decided otherwise" not in browser.get(f"/children/{wren.id}/tests/9").content.decode()


def test_a_decision_before_there_are_marks_is_refused_in_words(browser: Client, wren: Learner) -> None:
    answer = browser.post(f"/children/{wren.id}/tests/9/decide", {"decision": "go on"})

    assert answer.status_code == 422
    assert "mark it first" in answer.content.decode()


def test_the_list_names_every_chapters_test_in_at_most_20_queries(
    browser: Client, wren: Learner, django_assert_max_num_queries: pytest.FixtureRequest
) -> None:
    with django_assert_max_num_queries(20):  # type: ignore[operator] # a fixture of pytest-django that is a function
        page = browser.get(f"/children/{wren.id}/tests").content.decode()

    assert page.count(f"/children/{wren.id}/tests/") == len(grade2().chapters)
