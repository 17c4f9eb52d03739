"""Figures of paper: a day of four sides, its guide and its key, beside a browser printing plain pages."""

from __future__ import annotations

import shutil
import subprocess
import tempfile
from html import escape
from itertools import count
from pathlib import Path
from threading import Thread
from typing import TYPE_CHECKING

from timed import REPEATS, Figure, median_ms

from dayleaf.course.load import grade2
from dayleaf.items.built import is_built
from dayleaf.learner.review import Back
from dayleaf.packets.day import prepare_day
from dayleaf.packets.guide import compose_guide
from dayleaf.packets.model import Child
from dayleaf.sheets.typeset import typeset_guide, typeset_key, typeset_pages
from dayleaf.wording.say import text_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from dayleaf.packets.model import Packet
    from dayleaf.sheets.model import GuideSheet

BROWSER = next((found for name in ("chromium", "chromium-browser") if (found := shutil.which(name))), None)
QUIET = (
    "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-sync",
    "--disable-background-networking", "--disable-component-update",
)  # fmt: skip
PLAIN = "plain text of the same items through Chromium, its start included"
LACKS = "no boxes, pictures, corner marks, map or tags; a start of the browser each time"


def day_packet(seed: int) -> Packet:
    """Day 84 for the demo's child, with the course's own list for the back."""
    course = grade2()
    day = course.days[83]
    backs = [Back(skill, "on the course's list") for skill in day.back_skills if is_built(skill)]
    return prepare_day(course, day, Child("Wren", two_sheets=True), seed=seed, backs=backs)


def paper_figures() -> Iterator[Figure]:
    """The pages warm and cold, the key, the guide, and the items chosen; every repeat sets other numbers."""
    seeds = count(100)
    packet = day_packet(1)
    look = packet.child.look
    typeset_pages(packet.sheets, look)
    packets = [day_packet(next(seeds)) for _ in range(3 * REPEATS)]
    guides = iter([compose_guide(grade2(), one) for one in packets[:REPEATS]])
    for_pages, for_key, for_press = (iter(packets[n::3]) for n in range(3))
    browsed = _printed(_pages_html(packet))
    pages = median_ms(lambda: typeset_pages(next(for_pages).sheets, look))
    yield Figure(
        "four sides put together (items chosen, nothing set)",
        median_ms(lambda: day_packet(next(seeds))),
        "the same sides set on paper",
        pages,
        "one follows the other",
    )
    yield Figure("four sides set, press warm", pages, PLAIN, browsed, LACKS, 500)
    yield Figure(
        "four sides set by a press of its own", median_ms(lambda: _alone(next(for_press))), PLAIN, browsed, LACKS
    )
    yield Figure("the key", median_ms(lambda: typeset_key(next(for_key).sheets, look)), PLAIN, browsed, LACKS)
    told = _printed(_guide_html(compose_guide(grade2(), packet)))
    yield Figure("the lesson guide", median_ms(lambda: typeset_guide(next(guides), look)), PLAIN, told, LACKS)


def _alone(packet: Packet) -> None:
    """A new thread has a press of its own, as after a start."""
    thread = Thread(target=typeset_pages, args=(packet.sheets, packet.child.look))
    thread.start()
    thread.join()


def _pages_html(packet: Packet) -> str:
    sides = (
        "<section style='break-after: page'>"
        + "".join(
            f"<p>{placed.n}. {escape(text_of(placed.item, 'en'))}</p>"
            for block in side.blocks
            for placed in block.items
        )
        + "</section>"
        for sheet in packet.sheets
        for side in sheet.pages
    )
    return "".join(sides)


def _guide_html(guide: GuideSheet) -> str:
    return "".join(
        f"<h2>{escape(section.heading)}</h2>" + "".join(f"<p>{escape(line.text)}</p>" for line in section.lines)
        for section in guide.sections
    )


def _printed(html: str) -> float | None:
    """Median of printing a page to PDF; None where there is no Chromium."""
    if BROWSER is None:
        return None
    with tempfile.TemporaryDirectory() as folder:
        page = Path(folder) / "page.html"
        page.write_text(f"<!doctype html><meta charset='utf-8'><body>{html}", encoding="utf-8")
        command = [
            BROWSER, *QUIET, f"--user-data-dir={folder}/profile", f"--print-to-pdf={folder}/page.pdf", page.as_uri()
        ]  # fmt: skip
        return median_ms(lambda: subprocess.run(command, check=True, capture_output=True))
