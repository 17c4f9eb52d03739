"""Every page for everybody: axe finds nothing, nothing scrolls sideways on a narrow phone, targets fit fingers."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from axe_playwright_python.sync_playwright import Axe

if TYPE_CHECKING:
    from collections.abc import Callable

    from playwright.sync_api import Page

pytestmark = [pytest.mark.browser, pytest.mark.slow]

SKILL = "/library/skills/polygon-sides-corners"
PLACES = (
    *("/", "/week", "/mark", "sheet", "/photos", "/phones", "/children", "child", "placement", "practice", "skill"),
    *("/year", "/settings", "/families", "/begin", "/nothing", SKILL),
    *("/records", "records", "/days", "/grades"),
    *("/again/sub-2digit-regroup", "/library/map", "/own-words/day-084", "/library/own-course"),
)
OF_RECORDS = ("records", "/days", "/grades")
ON_A_CHILDS_PAGE = {"placement": "Where to begin", "practice": "Extra practice", "skill": "Compare two groups up to 10"}


def go(page: Page, site: str, place: str) -> None:
    """Open a place; `sheet` and `child` are the first of their lists, others are linked on a child's page."""
    if place in OF_RECORDS:
        page.goto(f"{site}/records")
        page.locator("main h2 a").first.click()
        page.wait_for_url("**/records/*")
        page.goto(page.url + place.removeprefix("records"))
        return
    further = ON_A_CHILDS_PAGE.get(place)
    lists = {"sheet": "/mark", "child": "/children"}
    listed = lists.get("child" if further else place)
    page.goto(f"{site}{listed or place}")
    if listed:
        page.locator("main .lines a").first.click()
    if further:
        page.get_by_role("link", name=further).first.click()
    page.wait_for_load_state("networkidle")


@pytest.mark.parametrize("place", PLACES)
def test_axe_finds_nothing_in_light_and_dark_and_nothing_scrolls_sideways(
    site: str, open_page: Callable[..., Page], place: str
) -> None:
    """WCAG 2.2; 1.4.10 Reflow asks for a width of 320 CSS pixels."""
    page = open_page(width=390, height=844)
    go(page, site, place)
    page.evaluate("() => document.querySelectorAll('main details').forEach((fold) => { fold.open = true; })")

    light = Axe().run(page)
    page.emulate_media(color_scheme="dark")
    dark = Axe().run(page)
    page.set_viewport_size({"width": 320, "height": 640})

    assert light.violations_count == 0, light.generate_report()
    assert dark.violations_count == 0, dark.generate_report()
    assert page.evaluate("() => document.documentElement.scrollWidth") <= 320


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
def test_axe_finds_no_violation_on_the_first_visit(
    new_site: str, open_page: Callable[..., Page], *, dark: bool
) -> None:
    page = open_page(dark=dark)
    page.goto(new_site)

    found = Axe().run(page)

    assert found.violations_count == 0, found.generate_report()


@pytest.mark.parametrize("place", ["/", "sheet", "/week", "placement", "practice", "/settings"])
def test_what_is_touched_on_a_phone_is_44_pixels_high(site: str, open_page: Callable[..., Page], place: str) -> None:
    """WCAG 2.2, 2.5.5 Target Size (Enhanced): 44 CSS pixels."""
    page = open_page(width=390, height=844)
    go(page, site, place)

    targets = page.locator("main button:visible, main input[type=text]:visible").all()

    assert targets
    assert all((box := target.bounding_box()) is not None and box["height"] >= 44 for target in targets)
