"""JOB (g) story 1 in a real browser: questions aloud over two sittings, a map, a start with reasons, another start."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from dayleaf.course.load import grade2

if TYPE_CHECKING:
    from collections.abc import Callable

    from playwright.sync_api import Page

pytestmark = [pytest.mark.browser, pytest.mark.slow]

KNOWN_TO = 60
"""The child of this walk knows what the course brings up to this day, and nothing after."""


def brought() -> dict[str, int]:
    """The day of the course that brings each skill."""
    days: dict[str, int] = {}
    for day in grade2().days:
        for skill in day.new_skills:
            days.setdefault(skill, day.number)
    return days


def test_a_placement_stops_by_itself_says_where_to_begin_and_takes_another_day(
    own_site: str, open_page: Callable[..., Page]
) -> None:
    page, days = open_page(width=390, height=844), brought()
    page.goto(f"{own_site}/children")
    page.get_by_role("link", name="Ivo").click()
    page.get_by_role("link", name="Where to begin").click()
    questions, right = page.locator("form.aloud input[name=skill]"), 0
    answered = 0
    while questions.count():
        answered += 1
        assert answered <= 25
        knows = days.get(questions.get_attribute("value") or "", 0) <= KNOWN_TO
        right += knows
        page.get_by_role("button", name="right" if knows else "not yet", exact=True).click()
        expect(page.locator("#placement")).to_contain_text(
            re.compile(rf"Question {answered + 1},|After {answered} answers?")
        )
        if answered == 10:
            expect(page.locator("#placement")).to_contain_text("enough for one sitting")
            page.reload()  # another day, another sitting: everything is there

    expect(page.get_by_role("heading", level=1)).to_have_text(re.compile(r"Begin with day \d+, “.+”"))
    start = int(re.findall(r"day (\d+)", page.get_by_role("heading", level=1).inner_text())[0])
    reasons = page.locator("#placement > p").all_inner_texts()
    named = re.findall(r"“[^”]+”", " ".join(reasons))
    assert 30 <= start <= 90  # nearer to the day after the last that the child knows than to either end
    assert len(named) >= 2
    for word in ("firm", "not yet"):
        expect(page.locator("#placement details.more > summary", has_text=word).first).to_be_visible()

    page.get_by_label("Another day").fill("50")
    page.get_by_role("button", name="Begin there").click()
    expect(page.get_by_role("status")).to_contain_text("Ivo begins with day 50")
    expect(page.locator("#placement")).to_contain_text("The plan now begins with day 50.")
    page.get_by_role("button", name="Undo").click()
    expect(page.locator("#placement")).to_contain_text("The plan now begins with day 11.")
