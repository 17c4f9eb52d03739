"""The figures of docs/digits.md: `python3 bench/digit_card.py --write` needs the digits (DAYLEAF_DIGITS).

Everything is measured with the weights in the package, on digits that they were not trained on.
"""

from __future__ import annotations

import argparse
import sys
from hashlib import sha256
from importlib.resources import files
from pathlib import Path
from statistics import median
from time import process_time
from typing import TYPE_CHECKING

import cv2
import numpy as np
from digit_strokes import stock
from handwriting import FOR_SCENES, VARIABLE, digits, folder_of_digits
from rich.console import Console
from sklearn.datasets import load_digits  # type: ignore[import-untyped]  # it has no stubs

from dayleaf.reading.digits import decide, read_crops, read_signs
from dayleaf.reading.digits.classes import SIGNS, TURNABLE

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from dayleaf.reading.arrays import Array

CARD = Path(__file__).resolve().parent.parent / "docs" / "digits.md"
BEGIN, END = "<!-- the table: bench/digit_card.py --write -->", "<!-- end of the table -->"
HEADS = ("set", "crops", "read right", "sure", "asked", "sure and wrong", "taken for blank")
FRESH = 20_000
"""Seeds of drawn signs from here on were not used in training."""


def row_of(name: str, crops: Array, labels: Sequence[int] | Array, *, turned: bool = False) -> tuple[str, ...]:
    """One set as a line of the table; digits turned round must also be noted as such to be read right."""
    readings = decide(read_crops(crops))
    right = np.array([one.reading == str(label) for one, label in zip(readings, labels, strict=True)])
    noted = np.array([one.reversed for one in readings])
    states = np.array([one.state for one in readings])
    sure = states == "sure"
    return (
        name,
        f"{len(readings):,}",
        f"{100 * (right & noted if turned else right).mean():.2f} %" if any(label >= 0 for label in labels) else "–",
        f"{100 * sure.mean():.1f} %",
        f"{100 * (states == 'ask').mean():.1f} %",
        f"{(sure & ~right).sum()} ({100 * (sure & ~right).mean():.2f} %)",
        str((states == "blank").sum()),
    )


def rows(folder: Path) -> Iterator[tuple[str, ...]]:
    """Every set, people's digits first."""
    crops, labels = digits(folder)
    turnable = np.isin(labels, TURNABLE)
    for name, part in (
        ("MNIST test 0–4999 (used to choose thresholds)", slice(0, FOR_SCENES)),
        ("MNIST test 5000–9999 (kept back)", slice(FOR_SCENES, None)),
        ("MNIST test, all", slice(None)),
    ):
        yield row_of(f"{name}, upright", crops[part], labels[part])
        some = turnable[part]
        yield row_of(
            f"{name}, 2 3 4 5 6 7 9 in a mirror", crops[part][some][:, :, ::-1], labels[part][some], turned=True
        )
    source = load_digits()
    yield row_of("load_digits, 8 × 8 pixels enlarged", as_crops(source.images / 16), source.target)
    drawn = stock(FRESH, digits=2000, doubtful=1, junk=2000, signs=1000)
    wanted = drawn.digit_shares.argmax(axis=1)
    yield row_of("drawn digits, every taught shape", drawn.digits, wanted)
    yield row_of("drawn letters, ticks, scribbles (none is a digit)", drawn.junk, [-1] * len(drawn.junk))


def as_crops(pictures: Array) -> Array:
    """Small pictures from 0 to 1, enlarged to 20 × 20 in the middle of 28 × 28."""
    grown = [cv2.resize(one.astype(np.float32), (20, 20), interpolation=cv2.INTER_CUBIC) for one in pictures]
    return np.stack([np.pad(np.clip(one, 0, 1), 4) for one in grown])


def facts() -> Iterator[str]:
    """What the file of weights is, and how long reading takes."""
    kept = (files("dayleaf.reading.digits") / "weights.npz").read_bytes()
    yield f"`weights.npz`: {len(kept):,} bytes, SHA-256 `{sha256(kept).hexdigest()}`."
    signs = stock(FRESH + 1, digits=1, doubtful=1, junk=1, signs=1000)
    said = read_signs(signs.signs).argmax(axis=1)
    right = np.mean([SIGNS[one] == "<>="[kind] for one, kind in zip(said, signs.sign_kinds, strict=True)])
    yield f"Second head, drawn <, > and = from a fresh seed: {100 * right:.1f} % of 1,000 right."
    crops = np.random.default_rng(1).integers(0, 256, (60, 28, 28)).astype(np.uint8)
    taken = []
    for _ in range(31):
        start = process_time()
        read_crops(crops)
        taken.append((process_time() - start) * 1000)
    yield f"60 crops: {min(taken):.0f} ms of processor time at best, {median(taken):.0f} ms in the median of 31."


def main() -> int:
    """Measure, print, perhaps write."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--write", action="store_true", help="write the table into docs/digits.md")
    wishes = parser.parse_args()
    folder = folder_of_digits()
    if folder is None:
        Console(stderr=True).print(f"{VARIABLE} names no folder of digits; bench/handwriting.py fetches one.")
        return 0
    lines = [f"| {' | '.join(HEADS)} |", "|---|" + "--:|" * (len(HEADS) - 1)]
    lines += [f"| {' | '.join(row)} |" for row in rows(folder)]
    text = "\n".join([*(f"- {fact}" for fact in facts()), "", *lines])
    print(text)
    if wishes.write:
        card = CARD.read_text(encoding="utf-8")
        CARD.write_text(f"{card.split(BEGIN)[0]}{BEGIN}\n\n{text}\n\n{END}{card.split(END)[1]}", encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
