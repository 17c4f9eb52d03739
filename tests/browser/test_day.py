"""One real day in a real browser: see the day, print it, mark by exception, and find tomorrow changed."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

if TYPE_CHECKING:
    from collections.abc import Callable

    from playwright.sync_api import Page, Response

pytestmark = [pytest.mark.browser, pytest.mark.slow]

LAPTOP = {"width": 1280, "height": 800}
PHONE = {"width": 390, "height": 844}


def overflow(page: Page) -> tuple[int, int]:
    """Pixels by which the page is higher and wider than its window."""
    page.wait_for_load_state("networkidle")
    page.evaluate("() => document.fonts.ready")
    high, wide = page.evaluate(
        "() => { const d = document.documentElement;"
        " return [d.scrollHeight - window.innerHeight, d.scrollWidth - window.innerWidth]; }"
    )
    return high, wide


@pytest.mark.parametrize("window", [LAPTOP, PHONE], ids=["laptop", "phone"])
def test_two_childrens_day_is_one_screen_without_scrolling(
    site: str, open_page: Callable[..., Page], window: dict[str, int]
) -> None:
    page = open_page(**window)

    page.goto(site)

    expect(page.get_by_role("article")).to_have_count(2)
    expect(page.get_by_role("button", name="Print today’s pages")).to_have_count(2)
    assert overflow(page) <= (0, 0)


def test_from_the_day_to_the_pencil_and_back(own_site: str, open_page: Callable[..., Page]) -> None:
    """Start, see the day, print, mark by exception; tomorrow's back is another than it would have been."""
    page = open_page()
    page.goto(own_site)
    wren = page.get_by_role("article").filter(has_text="Wren")
    expect(page.get_by_role("heading", level=1)).to_contain_text("minutes with you, done by")

    papers: list[Response] = []
    page.context.on("response", lambda answer: papers.append(answer) if answer.url.endswith(".pdf") else None)
    with page.expect_popup() as paper:
        wren.get_by_role("button", name="Print today’s pages").click()
    paper.value.wait_for_url("**/pages.pdf", wait_until="commit")
    assert {(one.status, one.headers["content-type"]) for one in papers} == {(200, "application/pdf")}

    page.goto(f"{own_site}/mark")
    page.get_by_role("link", name=re.compile("Wren: Not enough ones: two-digit")).first.click()
    page.wait_for_url(re.compile(r"/mark/[0-9A-Z]{7}$"))

    touches = 0
    fields = page.locator("section:has(h2:text('Own page')) input[type=text]")
    for n in (0, 1, 2, 3):
        fields.nth(n).click()
        touches += 1
        fields.nth(n).fill(_turned_round(page, n))
    page.get_by_role("button", name="Keep these marks").click()
    touches += 1

    result = page.get_by_role("region", name="What was seen")
    expect(result).to_contain_text("taking the smaller digit from the larger")
    expect(result).to_contain_text("Comes back on Thursday 14 January")
    expect(result.get_by_text(re.compile("added by these marks|Waits for another day")).first).to_be_visible()
    assert touches <= 6


def _turned_round(page: Page, n: int) -> str:
    """What a child writes who takes the smaller digit from the larger, place by place (JOB 1.7)."""
    text = page.locator("section:has(h2:text('Own page')) .given").nth(n).inner_text()
    numbers = re.findall(r"\d+", text.rsplit(":", 1)[-1])
    top, bottom = (number.zfill(2) for number in numbers[:2])
    return str(int("".join(str(abs(int(a) - int(b))) for a, b in zip(top, bottom, strict=True))))


def test_done_is_one_touch_and_undo_another(own_site: str, open_page: Callable[..., Page]) -> None:
    page = open_page(**PHONE)
    page.goto(own_site)
    ivo = page.get_by_role("article").filter(has_text="Ivo")

    ivo.get_by_role("button", name="done", exact=True).click()
    expect(ivo.get_by_role("status")).to_contain_text("Done today.")
    ivo.get_by_role("button", name="Undo").click()

    expect(ivo.get_by_role("button", name="done", exact=True)).to_be_visible()


def test_the_first_visit_asks_three_questions_and_then_shows_a_day(
    new_site: str, open_page: Callable[..., Page]
) -> None:
    page = open_page(**PHONE)
    page.goto(new_site)

    expect(page.locator("legend")).to_have_count(3)
    page.get_by_label("Name of a child").fill("Wren")
    page.get_by_role("button", name="Show me the first day").click()

    expect(page.get_by_role("article")).to_contain_text("Wren · the first day")
    expect(page.get_by_role("button", name="Print today’s pages")).to_be_visible()


def test_a_day_can_be_done_with_the_keyboard_alone(own_site: str, open_page: Callable[..., Page]) -> None:
    page = open_page()
    page.goto(own_site)

    for _ in range(40):
        page.keyboard.press("Tab")
        if page.evaluate("() => document.activeElement.textContent.trim()") == "half":
            break
    page.keyboard.press("Enter")

    expect(page.get_by_role("status").first).to_contain_text("Half done today.")
