"""The long runs of chapter tests: every form for many seeds, and the end of every chapter on paper in every look."""

from __future__ import annotations

import argparse
import sys
from itertools import pairwise
from typing import TYPE_CHECKING

from proofs import Tally
from rich.console import Console
from rich.progress import track

from dayleaf.course.load import grade2
from dayleaf.learner.review import Back
from dayleaf.packets.day import prepare_day, print_packet
from dayleaf.packets.form_check import check_tests
from dayleaf.packets.model import Child
from dayleaf.sheets.model import Look

if TYPE_CHECKING:
    from collections.abc import Sequence

    from dayleaf.course.model import Day

LOOKS = (Look(), Look(paper="a4", left_handed=True), Look(large_boxes=True), Look(compact=True))
MARGIN = 8.0
"""Millimetres that home printers leave unprinted, or less (common practice, no source)."""
NAMES = {
    "forms": "chapter tests whose forms A and B keep every promise, by seed",
    "paper": "tests, look backs and looks over all printed whole, numbers running on, boxes within the margins",
    "topics": "look backs that meet every topic once",
}


def main(argv: Sequence[str] | None = None) -> int:
    """Make, print and look; exit status 1 if one thing is not as it must be."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seeds", type=int, default=40, help="seeds of every pair of forms")
    wishes = parser.parse_args(argv)
    tallies = {name: Tally(words) for name, words in NAMES.items()}
    course = grade2()
    for seed in track(range(1, wishes.seeds + 1), description="Forms", console=Console(stderr=True)):
        found = check_tests(course, seeds=(seed,))
        tallies["forms"].checked += found.tests
        for problem in found.problems:
            tallies["forms"].fail(f"{problem} (seed {seed})")
    days = [day for day in course.days if day.kind in ("test", "look-back", "look-back-all")]
    for day in track(days, description="Ends of chapters on paper", console=Console(stderr=True)):
        for look in LOOKS:
            _on_paper(day, look, tallies)
    for tally in tallies.values():
        print(f"{tally.name}: {tally.checked:,} looked at, {tally.failures:,} not so")
        for one in tally.shown:
            print(f"  not so for {one}")
    return int(any(tally.failures for tally in tallies.values()))


def _on_paper(day: Day, look: Look, tallies: dict[str, Tally]) -> None:
    course = grade2()
    backs = [Back(skill, "on the course's list") for skill in day.back_skills]
    packet = prepare_day(course, day, Child("Wren", look), seed=1, backs=backs)
    sides = [side for sheet in packet.sheets for side in sheet.pages]
    asked = {one.item.key for side in sides for block in side.blocks for one in block.items}
    pages = print_packet(course, packet).pages.pages
    printed = {item.key for page in pages for item in page.items}
    numbers = [item.n for page in pages for item in page.items]
    inside = all(
        box.x >= MARGIN and box.x + box.w <= page.size_mm[0] - MARGIN and box.y + box.h <= page.size_mm[1] - MARGIN
        for page in pages
        for box in page.boxes
    )
    stretch = {key for key in asked - printed if key.split("/")[0] in day.stretch_skills}
    whole = printed | stretch == asked and all(after == before + 1 for before, after in pairwise(numbers))
    tallies["paper"].note(f"{day.id} {look}", fine=whole and inside)
    if day.kind == "look-back":
        met = {item.skill for page in pages for item in page.items}
        tallies["topics"].note(f"{day.id} {look}", fine=set(day.front_skills) <= met)


if __name__ == "__main__":
    sys.exit(main())
