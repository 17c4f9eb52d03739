"""The long runs, with counts, times and every failure: `python3 dev.py prove`.

Exit status 1 as soon as one thing is not as it must be.
"""

from __future__ import annotations

import argparse
import sys
from contextlib import contextmanager
from time import perf_counter
from typing import TYPE_CHECKING

import error_ways
import mornings
import prove_families
import prove_items
import prove_plan
import prove_tests
import prove_true_size
import reading_report
import year
from proofs import Tally, built_skills, every_day, every_page, kills, one_day, telling_apart
from rich.console import Console
from rich.progress import Progress
from rich.table import Table

if TYPE_CHECKING:
    from collections.abc import Iterator

LOOKED_AT = 7
"""Every seventh day goes under the detectors."""
NAMES = {
    "page": "chosen pages without the same numbers twice",
    "apart": "own pages of regrouping that part the two commonest ways",
    "print": "days on paper: guide, sides, key",
    "sheet": "sheets without the same item twice",
    "paper": "sides with marks, codes and boxes within 0.3 mm",
    "unbuilt": "days that say they cannot be printed yet",
    "kill": "runs of eight kills, old or new state each time",
}


def main() -> int:
    """Run every proof and say what was found."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--items", type=int, default=2_000_000, help="different items over all skills and formats")
    parser.add_argument("--write", action="store_true", help="write what the items gave into docs/proved.md")
    parser.add_argument("--pages", type=int, default=50, help="chosen pages a skill")
    parser.add_argument("--seeds", type=int, default=1000, help="seeds of the own page")
    parser.add_argument("--every", type=int, default=1, help="only every n-th day on paper")
    parser.add_argument("--kills", type=int, default=12, help="runs of eight kills")
    wishes = parser.parse_args()
    tallies = {name: Tally(words) for name, words in NAMES.items()}
    taken: dict[str, float] = {}
    with Progress(console=Console(stderr=True)) as progress:
        skills = built_skills()
        with _timed("pages", taken):
            for skill in progress.track(skills, description="Pages"):
                every_page(skill, tallies["page"], pages=wishes.pages)
        with _timed("seeds", taken):
            telling_apart(progress.track(range(wishes.seeds), description="Seeds"), tallies["apart"])
        with _timed("days", taken):
            days = every_day()[:: wishes.every]
            for n, (day, look, two) in enumerate(progress.track(days, description="Days on paper")):
                one_day(day, look, tallies, two=two, looked_at=n % LOOKED_AT == 0)
        with _timed("kills", taken):
            for said, fine in progress.track(kills(wishes.kills), total=wishes.kills, description="Kills"):
                tallies["kill"].note(said, fine=fine)
    others = (
        *(error_ways.main, mornings.main, prove_families.main, prove_plan.main, prove_tests.main),
        *(prove_true_size.main, reading_report.main, year.main),
    )
    items = prove_items.main(["--items", str(wishes.items), *(["--write"] if wishes.write else [])])
    return max(items, _report(tallies, taken), *(one([]) for one in others))


@contextmanager
def _timed(name: str, taken: dict[str, float]) -> Iterator[None]:
    start = perf_counter()
    yield
    taken[name] = perf_counter() - start


def _report(tallies: dict[str, Tally], taken: dict[str, float]) -> int:
    table = Table("what", "looked at", "not so")
    for tally in tallies.values():
        table.add_row(tally.name, f"{tally.checked:,}", f"{tally.failures:,}")
    console = Console()
    console.print(table)
    console.print(" · ".join(f"{name} {seconds:.0f} s" for name, seconds in taken.items()))
    for tally in tallies.values():
        for one in tally.shown:
            console.print(f"{tally.name}: not so for {one}")
    return 1 if any(tally.failures for tally in tallies.values()) else 0


if __name__ == "__main__":
    sys.exit(main())
