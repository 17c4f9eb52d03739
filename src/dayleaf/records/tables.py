"""Tables for other programs: CSV by RFC 4180, in UTF-8, and safe to open in a spreadsheet."""

from __future__ import annotations

import csv
from io import StringIO
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    Cell = str | int | None

STARTS_A_FORMULA: Final = ("=", "+", "-", "@", "\t", "\r", "\n")
"""A text that begins so would be worked out as a formula (OWASP, CSV Injection)."""


def csv_of(head: Sequence[str], rows: Iterable[Sequence[Cell]]) -> bytes:
    """A table with its headings: lines end in CRLF, quotes are doubled, every row has as many cells as the head.

    A text that a spreadsheet would take for a formula gets an apostrophe before it; whole numbers stay numbers.

    Raises:
        ValueError: a row has more or fewer cells than the head.

    >>> csv_of(("day", "what"), [("2027-01-12", "=1+1"), ("2027-01-13", "maps, charts")]).decode().splitlines()
    ['day,what', "2027-01-12,'=1+1", '2027-01-13,"maps, charts"']
    """
    out = StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow([_safe(one) for one in head])
    for row in rows:
        if len(row) != len(head):
            raise ValueError(f"a row of {len(row)} cells in a table of {len(head)}")
        writer.writerow([_safe(one) for one in row])
    return out.getvalue().encode()


def _safe(cell: Cell) -> Cell:
    if isinstance(cell, str) and cell.lstrip(" ").startswith(STARTS_A_FORMULA):
        return f"'{cell}"
    return "" if cell is None else cell
