"""What a camera looks for: four marks at the corners of a side, and the sheet's code twice.

The marks are ArUco 4x4 markers [1], drawn from the bit patterns below so that printing needs no image
library. Front and back have marks of their own; the order is always top left, top right, bottom right,
bottom left, so that a side photographed upside down is still known.

References:
    1. S. Garrido-Jurado et al., "Automatic generation and detection of highly reliable fiducial markers
       under occlusion", Pattern Recognition 47 (2014); the patterns are ids of OpenCV's DICT_4X4_50.
"""

from __future__ import annotations

from functools import cache, lru_cache
from typing import TYPE_CHECKING, Final

import segno

from dayleaf.sheets.model import Mark, Qr

if TYPE_CHECKING:
    from collections.abc import Iterable

MARK_SIZE: Final = 7.0
MARK_INSET: Final = 8.0
CODE_SIZE: Final = 17.0
CODE_MODULES: Final = 21
QUIET: Final = 4 * CODE_SIZE / CODE_MODULES
"""Four modules of white around a code (ISO/IEC 18004)."""

FRONT_MARKS: Final = (8, 9, 12, 13)
BACK_MARKS: Final = (14, 15, 22, 40)
"""Eight markers that differ from one another, in any rotation, in at least five of their sixteen cells."""

PATTERNS: Final = {
    8: "1111111011011010",
    9: "1100111101010110",
    12: "0000111010110111",
    13: "0010101000001111",
    14: "0010010010110001",
    15: "0010011000111110",
    22: "1100110011010101",
    40: "0001011100011000",
}
"""Sixteen cells a marker, along the rows from the top left, 1 = white; a black rim one cell wide goes around."""

_CELLS: Final = 6


def marks_of(page: int, size_mm: tuple[float, float]) -> tuple[Mark, ...]:
    """The four marks of side `page` (from 1) on paper of `size_mm` (width, height)."""
    width, height = size_mm
    near, right, bottom = MARK_INSET, width - MARK_INSET - MARK_SIZE, height - MARK_INSET - MARK_SIZE
    places = ((near, near), (right, near), (right, bottom), (near, bottom))
    ids = FRONT_MARKS if page % 2 == 1 else BACK_MARKS
    return tuple(Mark(one, round(x, 3), round(y, 3), MARK_SIZE) for one, (x, y) in zip(ids, places, strict=True))


def code_of(text: str, size_mm: tuple[float, float]) -> Qr:
    """The first copy of the code: at the top right, beside the mark and clear of it by the quiet zone."""
    x = size_mm[0] - MARK_INSET - MARK_SIZE - QUIET - CODE_SIZE
    return Qr(round(x, 3), MARK_INSET, CODE_SIZE, text)


def second_code_at(size_mm: tuple[float, float]) -> tuple[float, float]:
    """Where the second copy stands: the first one's place turned about the middle of the paper."""
    return round(MARK_INSET + MARK_SIZE + QUIET, 3), round(size_mm[1] - MARK_INSET - CODE_SIZE, 3)


@cache
def mark_svg(mark_id: int) -> str:
    """One marker as a single SVG path, so that no seam shows between its cells."""
    inner = PATTERNS[mark_id]
    cells = [[True] * _CELLS for _ in range(_CELLS)]
    for place, cell in enumerate(inner):
        cells[1 + place // 4][1 + place % 4] = cell == "0"
    return _svg(cells, MARK_SIZE)


@lru_cache(maxsize=64)
def code_svg(text: str) -> str:
    """The code as a single SVG path: version 1, error level Q, alphanumeric."""
    made = segno.make_qr(text, version=1, error="q", boost_error=False)
    return _svg([[bool(cell) for cell in row] for row in made.matrix], CODE_SIZE)


def _svg(cells: Iterable[Iterable[bool]], size: float) -> str:
    rows = [list(row) for row in cells]
    path = "".join(f"M{x} {y}h{run}v1h-{run}z" for y, row in enumerate(_runs(row) for row in rows) for x, run in row)
    n = len(rows)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{size}mm" height="{size}mm" viewBox="0 0 {n} {n}">'
        f'<path d="{path}"/></svg>'
    )


def _runs(row: list[bool]) -> list[tuple[int, int]]:
    found: list[tuple[int, int]] = []
    for x, dark in enumerate(row):
        if not dark:
            continue
        if found and sum(found[-1]) == x:
            found[-1] = (found[-1][0], found[-1][1] + 1)
        else:
            found.append((x, 1))
    return found
