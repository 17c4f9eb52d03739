"""How well photos and scans are read: scenes of four levels, counted; the table of docs/reading.md.

`python3 bench/reading_report.py --scenes 60 --write` needs the digits (DAYLEAF_DIGITS) and some minutes.
"""

from __future__ import annotations

import argparse
import sys
from collections import Counter
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

import cv2
import numpy as np
from handwriting import VARIABLE, folder_of_digits
from rich.console import Console
from rich.progress import track
from scenes import LEVELS, scene

from dayleaf.reading.pictures import pictures_in
from dayleaf.reading.sides import read_picture

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from scenes import Level, Scene

    from dayleaf.reading.model import BoxReading, PageReading

PAGE = Path(__file__).resolve().parent.parent / "docs" / "reading.md"
BEGIN, END = "<!-- the table: bench/reading_report.py --write -->", "<!-- end of the table -->"
UNSEEN = 100_000
"""Seeds from here on were never looked at while the reader was made."""

PROMISED: dict[str, float] = {"easy": 0.99, "normal": 0.97, "hard": 0.85, "scan": 0.99}
"""Share of pages that are accepted and placed."""

PLACED = 0.7
"""Millimetres from its true middle within which a box counts as placed."""


@dataclass(slots=True)
class Count:
    """What was found in the scenes of one level."""

    scenes: int = 0
    read: int = 0
    placed: int = 0
    away: list[float] = field(default_factory=list)
    boxes: Counter[str] = field(default_factory=Counter)
    refused: Counter[str] = field(default_factory=Counter)

    def note(self, one: Scene, page: PageReading) -> None:
        """Count one scene."""
        self.scenes += 1
        if page.status == "refused":
            self.refused[str(page.code)] += 1
            return
        self.read += 1
        away = _away(one, page)
        self.away += away
        self.placed += all(distance <= PLACED for distance in away)
        kinds = {box.id: (box.kind, box.role) for box in one.page.boxes}
        for box in page.boxes:
            self._box(box, *kinds[box.id], written=one.written[box.id])

    def _box(self, box: BoxReading, kind: str, role: str, *, written: str) -> None:
        del role
        if kind != "digit":
            self.boxes["signs"] += 1
            self.boxes["signs asked"] += box.state == "ask"
            self.boxes["signs wrong"] += box.state != "ask" and box.reading != written
        elif written == "":
            self.boxes["blank"] += 1
            self.boxes["blank taken for written"] += box.state == "sure"
            self.boxes["blank asked"] += box.state == "ask"
        else:
            self.boxes["written"] += 1
            self.boxes["written taken for blank"] += box.state == "blank"
            self.boxes["asked"] += box.state == "ask"
            self.boxes["right"] += box.state == "sure" and box.reading == written
            self.boxes["silently wrong"] += box.state == "sure" and box.reading != written


def count_level(level: Level, seeds: Iterable[int], folder: Path) -> Count:
    """The scenes of a level, read."""
    found = Count()
    for seed in seeds:
        one = scene(level, seed=seed, folder=folder)
        known = {(one.page.sheet, one.page.page): one.page}
        for looked in pictures_in(one.file):
            found.note(one, read_picture(looked, lambda sheet, page, known=known: known.get((sheet, page))))  # type: ignore[misc]  # the map of this scene
    return found


def _away(one: Scene, page: PageReading) -> list[float]:
    """Millimetres between each box as found and as the camera saw it; nothing is known of that for scans."""
    if one.view is None:
        return []
    size = np.array(one.view.shot.size)
    distances = []
    for box, found in zip(one.page.boxes, page.boxes, strict=True):
        x, y = box.x + box.w / 2, box.y + box.h / 2
        middle, side = one.view.see([[x, y], [x + 1, y]])
        seen = np.array(found.corners).mean(axis=0) * size - 0.5
        distances.append(float(np.linalg.norm(seen - middle) / np.linalg.norm(side - middle)))
    return distances


def _share(part: int, whole: int, digits: int = 1) -> str:
    return f"{100 * part / whole:.{digits}f} %" if whole else "–"


def row_of(level: str, found: Count) -> tuple[str, ...]:
    """One level as a line of the table."""
    boxes = found.boxes
    away = np.percentile(found.away, [50, 99]) if found.away else None
    return (
        level,
        str(found.scenes),
        _share(found.read, found.scenes),
        _share(found.placed, found.scenes) if found.away else "–",
        f"{away[0]:.2f} / {away[1]:.2f}" if away is not None else "–",
        str(boxes["written"]),
        _share(boxes["right"], boxes["written"]),
        _share(boxes["asked"], boxes["written"]),
        _share(boxes["silently wrong"], boxes["written"], 2),
        f"{boxes['written taken for blank']}",
        f"{boxes['blank taken for written']} / {boxes['blank asked']} of {boxes['blank']}",
        f"{boxes['signs wrong']} / {boxes['signs asked']} of {boxes['signs']}",
        ", ".join(f"{code} {times}" for code, times in found.refused.most_common()) or "none",
    )


def broken_promises(level: Level, found: Count) -> list[str]:
    """What was promised of this level and is not so (issue of reading photos)."""
    boxes, placed = found.boxes, found.placed if found.away else found.read
    promises = {
        f"{placed} of {found.scenes} pages placed": placed >= PROMISED[level] * found.scenes,
        f"{boxes['silently wrong']} digits silently wrong": boxes["silently wrong"] <= 0.003 * boxes["written"],
        f"{boxes['asked']} digits asked about": boxes["asked"] <= 0.08 * boxes["written"],
        f"{boxes['blank taken for written']} blanks taken for written": boxes["blank taken for written"]
        <= 0.003 * boxes["blank"],
        f"{boxes['written taken for blank']} digits taken for blank": boxes["written taken for blank"] == 0,
    }
    return [what for what, kept in promises.items() if not kept]


HEADS = (
    "level", "scenes", "read", "all boxes within 0.7 mm", "off by (median / 99 of 100), mm", "written digits", "right",
    "asked", "silently wrong", "written taken for blank", "blank taken for written / asked", "signs wrong / asked",
    "refused",
)  # fmt: skip


def table_of(rows: Iterable[tuple[str, ...]]) -> str:
    """The table in Markdown."""
    lines = [f"| {' | '.join(HEADS)} |", "|---|" + "--:|" * (len(HEADS) - 2) + "---|"]
    return "\n".join([*lines, *(f"| {' | '.join(row)} |" for row in rows)])


def main(words: Sequence[str] | None = None) -> int:
    """Count, print, perhaps write; exit 1 where a promise is not kept. Without digits there is nothing to count."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--scenes", type=int, default=60, help="scenes a level")
    parser.add_argument("--seed", type=int, default=UNSEEN, help="the first seed")
    parser.add_argument("--write", action="store_true", help="write the table into docs/reading.md")
    wishes = parser.parse_args(words)
    folder = folder_of_digits()
    if folder is None:
        Console(stderr=True).print(f"{VARIABLE} names no folder of digits; bench/handwriting.py fetches one.")
        return 0
    cv2.setNumThreads(1)
    rows, broken = [], []
    for level in LEVELS:
        seeds = range(wishes.seed, wishes.seed + wishes.scenes)
        seen = track(seeds, description=level, console=Console(stderr=True))
        found = count_level(level, seen, folder)
        rows.append(row_of(level, found))
        broken += [f"{level}: {what}" for what in broken_promises(level, found)]
    table = table_of(rows)
    print(table)
    if wishes.write:
        text = PAGE.read_text(encoding="utf-8")
        before, after = text.split(BEGIN)[0], text.split(END)[1]
        PAGE.write_text(f"{before}{BEGIN}\n\n{table}\n\n{END}{after}", encoding="utf-8")
    for what in broken:
        print(f"Not as promised: {what}")
    return 1 if broken else 0


if __name__ == "__main__":
    sys.exit(main())
