"""Library, chapter tests, help and a child's own page for everybody: one visit each, in light and in dark."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect

if TYPE_CHECKING:
    from collections.abc import Callable

    from playwright.sync_api import Page

pytestmark = [pytest.mark.browser, pytest.mark.slow]

LIBRARY = (*("", "/search?q=half past", "/days", "/days/84", "/stories/9", "/cut-outs", "/getting-ready", "/printer"),)
QUESTIONS = 5
FINGER = 44
"""WCAG 2.2, 2.5.5 Target Size (Enhanced), in CSS pixels."""


def stands(page: Page) -> None:
    """Nothing scrolls sideways at 320 pixels (WCAG 2.2, 1.4.10 Reflow), and axe finds nothing, light or dark."""
    page.wait_for_load_state("networkidle")
    assert page.evaluate("() => document.documentElement.scrollWidth") <= 320, page.url
    page.emulate_media(color_scheme="light")
    found = Axe().run(page)
    assert found.violations_count == 0, (page.url, found.generate_report())
    page.emulate_media(color_scheme="dark")  # what differs at night is colour alone
    found = Axe().run(page, options={"runOnly": ["color-contrast"]})
    assert found.violations_count == 0, (page.url, found.generate_report())


def test_every_page_of_the_library_of_tests_and_of_help_is_for_everybody(
    site: str, open_page: Callable[..., Page]
) -> None:
    page = open_page(width=320, height=640)
    page.goto(f"{site}/children")
    page.locator("main .lines a").first.click()
    tests = page.get_by_role("link", name="Chapter tests").get_attribute("href")

    for place in (*(f"/library{one}" for one in LIBRARY), tests, f"{tests}/9", "/help"):
        page.goto(f"{site}{place}")
        stands(page)


def test_a_child_does_a_round_on_a_tablet_by_touch_alone(own_site: str, open_page: Callable[..., Page]) -> None:
    page = open_page(width=320, height=640)
    page.goto(f"{own_site}/children")
    page.locator("main .lines a").first.click()
    page.get_by_role("link", name="A page on a screen").click()
    page.get_by_role("radio", name=str(QUESTIONS), exact=True).check()
    page.get_by_role("button", name="Keep this").click()
    page.get_by_role("link", name="Open Wren’s page").click()
    page.get_by_role("button", name="Begin").click()

    for n in range(1, QUESTIONS + 1):
        expect(page.get_by_role("heading", level=1)).to_have_text(f"Question {n} of {QUESTIONS}")
        assert page.evaluate("() => document.documentElement.scrollWidth") <= 320
        targets = page.locator("main form button:visible")
        assert all((box := one.bounding_box()) is not None and box["height"] >= FINGER for one in targets.all())
        if page.locator(".pad").is_visible():
            page.get_by_role("button", name="7", exact=True).click()
            expect(page.locator("#answer")).to_have_value("7")
            page.get_by_role("button", name="Ready").click()
        else:
            targets.first.click()
        expect(page.get_by_role("status")).to_have_text(
            ("Yes.", "Let’s look at it again.")[page.locator(".how").count()]
        )
        if n == QUESTIONS:
            stands(page)
        page.locator("a.on").click()

    expect(page.get_by_role("heading", level=1)).to_have_text("You are done.")
    stands(page)
