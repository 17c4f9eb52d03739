"""A photo marks the sheet: really printed, filled in, photographed, handed in, settled, and tomorrow is another day."""

from __future__ import annotations

import json
import re
import sqlite3
from contextlib import closing
from typing import TYPE_CHECKING

import camera
import numpy as np
import pytest
import scenes
from axe_playwright_python.sync_playwright import Axe
from handwriting import folder_of_digits
from playwright.sync_api import expect

from dayleaf.core.ids import ErrorWayId
from dayleaf.sheets.codec import map_from_data

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from playwright.sync_api import Page

    from dayleaf.sheets.model import PageMap

pytestmark = [pytest.mark.browser, pytest.mark.slow]

PHONE = {"width": 390, "height": 844}
HABIT = ErrorWayId("smaller-from-larger")
KITCHEN = camera.Shot(
    size=(1800, 2400), tilt=12, axis=70, spin=4, fill=0.88, curl=2, light=0.2, shadow=0.2, blur=0.7, noise=3, quality=90
)


def printed(home: Path, lesson: str) -> list[tuple[bytes, tuple[PageMap, ...]]]:
    """(the printed file, the map of its sides) of each sheet of a lesson, from the records."""
    with closing(sqlite3.connect(home / "dayleaf.sqlite3")) as rows:
        found = rows.execute(
            "SELECT p.pages, s.pages FROM records_sheetrow s JOIN records_printrow p ON p.print_id = s.printed_id"
            " WHERE s.lesson = ? ORDER BY p.seq, s.place",
            (lesson,),
        )
        return [(pdf, map_from_data(json.loads(pages))) for pdf, pages in found]


def photo_of(pdf: bytes, page: PageMap, file: Path, *, pale: int = 0) -> tuple[Path, int]:
    """(a photo of the side, how many misses stand on it): a child takes the smaller digit from the larger.

    The first `pale` digits of right answers are half rubbed out.
    """
    said = {box.id: box.answer for box in page.boxes if box.kind == "digit" and box.role == "answer"}
    misses = 0
    rubbed: list[str] = []
    for item in page.items:
        boxes = [box for box in page.boxes if box.item == item.n and box.role == "answer"]
        wrong = item.errors.get(HABIT, "")
        if page.kind == "own" and boxes and wrong.isdigit() and wrong != item.answer and len(wrong) <= len(boxes):
            said.update(
                zip((box.id for box in boxes), (digit.strip() for digit in wrong.rjust(len(boxes))), strict=True)
            )
            misses += 1
        elif len(rubbed) < pale:
            rubbed += [box.id for box in boxes if box.kind == "digit" and box.answer][:1]
    rng = np.random.default_rng(page.pdf_page)
    picture = scenes.picture_of(pdf, page.pdf_page)
    filled = scenes.write_digits(picture, page, said, folder=folder_of_digits(), rng=rng, pale=rubbed)
    seen, _ = camera.photograph(filled, page.size_mm, KITCHEN, rng)
    file.write_bytes(camera.jpeg(seen, KITCHEN.quality))
    return file, misses


def hand_in(page: Page, site: str, *photos: Path) -> None:
    """Choose photos on the page and wait until they are read."""
    page.goto(f"{site}/photos")
    with page.expect_navigation():
        page.set_input_files("#pick", photos)
    expect(page.locator("[hx-trigger^=every]")).to_have_count(0, timeout=60_000)


def all_clear(page: Page) -> None:
    """Axe finds nothing, by day and by night, and nothing scrolls sideways on a narrow phone (WCAG 2.2, 1.4.10)."""
    page.evaluate("() => document.querySelectorAll('main details').forEach((fold) => { fold.open = true; })")
    for scheme in ("light", "dark"):
        page.emulate_media(color_scheme=scheme)
        found = Axe().run(page)
        assert found.violations_count == 0, found.generate_report()
    page.emulate_media(color_scheme="light")
    before = page.viewport_size
    page.set_viewport_size({"width": 320, "height": 640})
    assert page.evaluate("() => document.documentElement.scrollWidth") <= 320
    assert before is not None
    page.set_viewport_size(before)


def test_from_two_photos_to_tomorrows_other_sheet(
    own_site: str, open_page: Callable[..., Page], tmp_path: Path
) -> None:
    """Both sides in the wrong order, two doubtful boxes settled by touch, the habit named, tomorrow's back changed."""
    page = open_page(**PHONE)
    page.goto(own_site)
    wren = page.get_by_role("article").filter(has_text="Wren")
    with page.expect_popup() as paper:
        wren.get_by_role("button", name="Print today’s pages").click()
    paper.value.wait_for_url("**/pages.pdf", wait_until="commit")
    paper.value.close()
    pdf, sides = printed(tmp_path / "home", "day-084")[0]
    photos = [photo_of(pdf, side, tmp_path / f"{n}.jpg", pale=2 * (n == 0)) for n, side in enumerate(sides)]
    misses = sum(number for _, number in photos)
    assert misses >= 4

    hand_in(page, own_site, *(file for file, _ in reversed(photos)))
    expect(page.get_by_role("heading", level=1)).to_have_text("One sheet waits for your look")
    all_clear(page)
    page.locator(".photos a").first.click()
    all_clear(page)
    settled = 0
    while (asked := page.locator("fieldset.asked.ask .touch:not(:has(input:checked))")).count():
        settled += asked.first.locator("input[name^=box-]").count() > 0
        with page.expect_response(re.compile("/photo$")):
            asked.first.locator("label").first.click()
        page.wait_for_timeout(100)
    page.get_by_role("button", name="Keep these marks").click()

    result = page.get_by_role("region", name="What was seen")
    expect(result).to_contain_text("taking the smaller digit from the larger")
    expect(result).to_contain_text("Comes back on Thursday 14 January")
    expect(result.get_by_text(re.compile("added by these marks|Waits for another day")).first).to_be_visible()
    assert settled >= 2
    page.get_by_role("button", name=re.compile("mended alone")).first.click()
    expect(page.get_by_role("status").filter(has_text="mended alone")).to_have_count(1)
    all_clear(page)


def test_a_phone_joins_by_the_code_and_its_page_is_one_large_control(
    own_site: str, open_page: Callable[..., Page]
) -> None:
    computer, phone = open_page(), open_page(**PHONE)
    computer.goto(f"{own_site}/phones")
    computer.get_by_role("button", name="Let a phone join").click()
    all_clear(computer)
    code = computer.locator(".typed").inner_text().replace(" ", "")
    (address,) = re.findall(r"http://127\.0\.0\.1:\d+", computer.locator(".code").inner_text())

    phone.goto(f"{address}/mark")
    expect(phone).to_have_url(f"{address}/join")
    phone.goto(f"{address}/join/{code}")
    all_clear(phone)
    phone.get_by_label("What this phone is called").fill("Mara’s phone")
    phone.get_by_role("button", name="Join").click()

    expect(phone.get_by_label("Take photos")).to_be_visible()
    assert phone.locator("#pick").get_attribute("capture") == "environment"
    all_clear(phone)
    expect(computer.locator(".lines")).to_contain_text("Mara’s phone", timeout=10_000)
    computer.get_by_role("button", name="Send Mara’s phone away").click()
    phone.goto(f"{address}/photos")
    expect(phone).to_have_url(f"{address}/join")
