"""The first five minutes, and a Sunday: from nothing to printed pages, and a week made ready for two children."""

from __future__ import annotations

import io
import re
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect
from pypdfium2 import PdfDocument

if TYPE_CHECKING:
    from collections.abc import Callable

    from playwright.sync_api import Page, Response

pytestmark = [pytest.mark.browser, pytest.mark.slow]


def test_from_a_fresh_start_to_printed_pages_in_five_actions(new_site: str, open_page: Callable[..., Page]) -> None:
    """Issue 8: at most 5 actions; opening the address, typing a name and every touch count."""
    page = open_page()
    papers: list[Response] = []
    page.context.on("response", lambda answer: papers.append(answer) if answer.url.endswith(".pdf") else None)

    page.goto(new_site)
    page.get_by_label("Name of a child").fill("Wren")
    page.get_by_role("button", name="Show me the first day").click()
    with page.expect_popup() as paper:
        page.get_by_role("button", name="Print today’s pages").click()
    expect(page.get_by_role("status").filter(has_text="The pages are being set")).to_be_visible()  # at once, by script
    paper.value.wait_for_url("**/pages.pdf", wait_until="commit")

    actions = 4
    assert actions <= 5
    assert {(one.status, one.headers["content-type"]) for one in papers} == {(200, "application/pdf")}


def test_a_sunday_for_two_children_is_one_list_and_one_run(own_site: str, open_page: Callable[..., Page]) -> None:
    """JOB (g) story 3: no material twice, one PDF in the order of use, both names, every sheet's id its own."""
    page = open_page()
    page.goto(f"{own_site}/week")
    things = [text.split("\n")[0] for text in page.locator("#ready .check").all_inner_texts()]
    assert len(things) == len(set(things))

    page.locator("#ready .check").first.click()
    expect(page.locator("#ready .check").first).to_have_attribute("aria-pressed", "true")
    page.reload()
    expect(page.locator("#ready .check").first).to_have_attribute("aria-pressed", "true")

    page.get_by_role("button", name=re.compile("^Print Tuesday")).click()
    expect(page.locator("#run")).to_contain_text(re.compile(r"\d of \d lessons are set"))
    pages = page.get_by_role("link", name="the pages")
    expect(pages).to_be_visible(timeout=60_000)

    answer = page.request.get(f"{own_site}{pages.get_attribute('href')}")
    document = PdfDocument(io.BytesIO(answer.body()))
    sides = [document[n].get_textpage().get_text_range() for n in range(len(document))]
    ids = [found.group(1) for side in sides if (found := re.search(r"S1\.([0-9A-Z]{7})\.1\.", side))]
    assert len(ids) == len(set(ids)) >= 6
    assert any("Wren" in side for side in sides)
    assert any("Ivo" in side for side in sides)
    assert len(sides) % 2 == 0  # two-sided: every sheet begins on a front
