"""Every speed figure of the project, each beside an alternative measured in the same run.

`python3 dev.py bench` prints the table; `--write` also writes it into docs/measured.md, whose later sections stay.
"""

from __future__ import annotations

import argparse
import os
import platform
import sys
from itertools import chain
from pathlib import Path
from typing import TYPE_CHECKING

from household import household_figures
from item_speed import item_figures
from learner_speed import learner_figures
from mornings import morning_figures
from paper import paper_figures
from photos import photo_figures
from plan_speed import plan_figures
from pure import pure_figures
from rich.console import Console
from rich.progress import track
from rich.table import Table
from timed import REPEATS
from understanding import understanding_figures
from year import year_figures

if TYPE_CHECKING:
    from collections.abc import Sequence

    from timed import Figure

MEASURED = Path(__file__).resolve().parent.parent / "docs" / "measured.md"
HEAD = f"""# Measured

Written by `python3 dev.py bench --write`. Each figure is the median of {REPEATS} repeats or more, beside an alternative
measured in the same run on the same machine. *Ratio* is ours over the alternative: below 1 ours is quicker, and that is
the number to compare from machine to machine. What the alternative leaves out stands beside it.

"""
COLUMNS = ("what", "ms", "limit", "alternative", "ms", "ratio", "what the alternative lacks")


def main() -> int:
    """Measure, print, perhaps write; exit 1 where a figure is over its limit."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--write", action="store_true", help="write docs/measured.md")
    wishes = parser.parse_args()
    console = Console(stderr=True)
    found = chain(
        pure_figures(),
        item_figures(),
        learner_figures(),
        plan_figures(),
        morning_figures(),
        understanding_figures(),
        paper_figures(),
        year_figures(),
        household_figures(),
        photo_figures(),
    )
    figures = list(track(found, description="Measuring", console=console, total=None))
    table = Table(*COLUMNS)
    for figure in figures:
        table.add_row(*_row(figure))
    Console(width=None if sys.stdout.isatty() else 200).print(table)
    if wishes.write:
        before = MEASURED.read_text(encoding="utf-8") if MEASURED.exists() else ""
        _, heading, kept = before.partition("\n## ")
        MEASURED.write_text(HEAD + _markdown(figures) + heading + kept, encoding="utf-8")
    over = [figure for figure in figures if figure.limit_ms is not None and figure.ms > figure.limit_ms]
    for figure in over:
        console.print(f"Over its limit of {figure.limit_ms:.0f} ms: {figure.what}, {figure.ms:.0f} ms")
    return 1 if over else 0


def _row(figure: Figure) -> tuple[str, ...]:
    return (
        figure.what,
        _number(figure.ms),
        "" if figure.limit_ms is None else _number(figure.limit_ms),
        figure.other,
        "not here" if figure.other_ms is None else _number(figure.other_ms),
        "" if figure.ratio is None else _number(figure.ratio),
        figure.lacks,
    )


def _markdown(figures: Sequence[Figure]) -> str:
    lines = [f"| {' | '.join(COLUMNS)} |", "|---|--:|--:|---|--:|--:|---|"]
    lines += [f"| {' | '.join(_row(figure))} |" for figure in figures]
    machine = f"{platform.system()} {platform.machine()}, Python {platform.python_version()}"
    if hasattr(os, "getloadavg"):
        machine += f"; {os.getloadavg()[0]:.1f} programs wanted its {os.cpu_count()} cores at the end of the run"
    return "\n".join(lines) + f"\n\nOne process on one core of a shared machine: {machine}.\n"


def _number(value: float) -> str:
    """Three digits that count."""
    digits = 3 if value < 0.1 else 2 if value < 10 else 1 if value < 100 else 0
    return f"{value:,.{digits}f}"


if __name__ == "__main__":
    sys.exit(main())
