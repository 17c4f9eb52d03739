"""Everything that can be printed by its name, on both papers and for printers that shrink or stretch.

Bars are read back from the finished files by another library (pdfplumber); exit status 1 for the first thing that is
not at true size, does not fit, or cannot be printed.
"""

from __future__ import annotations

import argparse
import sys
from io import BytesIO
from typing import TYPE_CHECKING

import pdfplumber
from rich.console import Console
from rich.progress import track
from rich.table import Table

from dayleaf.core.errors import DayleafError
from dayleaf.course.load import grade2
from dayleaf.packets.cut_outs.sets import SETS
from dayleaf.packets.print_outs import PAPERS, PICTURE_CARD, SHOWN
from dayleaf.packets.printables import print_outs_of, print_thing, things

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from dayleaf.sheets.model import Paper

PAPERS_TRIED: tuple[Paper, ...] = ("letter", "a4")
SCALES = (0.97, 1.0, 1.03)
MM = 25.4 / 72
NEAR_MM = 0.005
MOST_SIDES = {"story-page": 2, "chapter-page": 1, "front": 4, "parts": 1, "getting-ready": 2, "calibration": 1}


def main(words: Sequence[str] | None = None) -> int:
    """Print everything and say what was found; exit 1 where one thing is not as it must be."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--every", type=int, default=1, help="only every n-th thing, page and day")
    every = parser.parse_args(words).every
    true_size = (*SETS, *PAPERS, *(f"{PICTURE_CARD}{kind}" for kind in SHOWN))
    rest = [word for word in things(grade2()) if word not in true_size]
    runs = [(word, paper, scale) for word in true_size for paper in PAPERS_TRIED for scale in SCALES]
    read = [(word, paper) for word in rest for paper in PAPERS_TRIED][::every]
    found: dict[str, list[str]] = {"fronts with true bars": [], "pages to read": [], "days with print-outs": []}
    counts = dict.fromkeys(found, 0)
    console = Console(stderr=True)
    for word, paper, scale in track(runs[::every], description="True size", console=console):
        counts["fronts with true bars"] += 1
        found["fronts with true bars"] += _bars_off(word, paper, scale)
    for word, paper in track(read, description="To read", console=console):
        counts["pages to read"] += 1
        found["pages to read"] += _too_long(word, paper)
    for day in track(grade2().days[::every], description="Days", console=console):
        counts["days with print-outs"] += 1
        try:
            print_outs_of(grade2(), day, paper="letter")
        except DayleafError as error:
            found["days with print-outs"].append(f"{day.id}: {error}")
    table = Table("looked at", "how many", "not as they must be")
    for name, wrong in found.items():
        table.add_row(name, str(counts[name]), str(len(wrong)))
    Console().print(table)
    for line in (line for wrong in found.values() for line in wrong[:20]):
        print(line)
    return int(any(found.values()))


def _bars_off(word: str, paper: Paper, scale: float) -> Iterator[str]:
    """Whether both bars stand on the first front at their size times the correction."""
    try:
        printed = print_thing(grade2(), word, paper=paper, scale=scale)
    except DayleafError as error:
        yield f"{word} on {paper} at {scale}: {error}"
        return
    with pdfplumber.open(BytesIO(printed.pdf)) as document:
        lengths = [(line["x1"] - line["x0"]) * MM for line in document.pages[0].lines]
    for wanted in (100.0, 101.6):
        if not any(abs(length - wanted * scale) < NEAR_MM for length in lengths):
            yield f"{word} on {paper} at {scale}: no bar of {wanted * scale:.2f} mm"


def _too_long(word: str, paper: Paper) -> Iterator[str]:
    try:
        printed = print_thing(grade2(), word, paper=paper)
    except DayleafError as error:
        yield f"{word} on {paper}: {error}"
        return
    most = MOST_SIDES[word.partition(":")[0]]
    if printed.sides > most:
        yield f"{word} on {paper}: {printed.sides} sides where {most} are wanted"


if __name__ == "__main__":
    sys.exit(main())
