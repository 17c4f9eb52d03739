"""The measures of a page, in millimetres and points.

Boxes: one digit a box, 12 x 14 mm; compact 10 x 14; large 15 x 18; small trade boxes above columns.
Widths and type sizes are common practice, no source; the boxes were measured for photo reading.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from dayleaf.sheets.model import Look, Paper

PAPER: Final[dict[Paper, tuple[float, float]]] = {"letter": (215.9, 279.4), "a4": (210.0, 297.0)}
"""US Letter (ANSI/ASME Y14.1) and A4 (ISO 216)."""

MARGIN: Final = 18.0
NUMBER_GUTTER: Final = 10.0
"""The narrow column that holds an item's number."""

BODY_TOP: Final = 33.0
BODY_BOTTOM: Final = 30.0
"""Clear of the second copy of the code with its quiet zone."""


@dataclass(frozen=True, slots=True)
class Sizes:
    """What the typesetter is told about boxes (mm) and type (pt)."""

    digit_w: float
    digit_h: float
    digit_gap: float
    trade_w: float
    trade_h: float
    ring_w: float
    ring_h: float
    tick: float
    compare: float
    number_pt: float
    column_pt: float
    child_pt: float
    instruction_pt: float
    story_room: float
    gaps: tuple[float, float]
    """Least and greatest white space between rows of items."""


_NORMAL: Final = Sizes(
    digit_w=12, digit_h=14, digit_gap=3, trade_w=7, trade_h=8, ring_w=20, ring_h=12, tick=8, compare=14,
    number_pt=20, column_pt=24, child_pt=18, instruction_pt=14, story_room=45, gaps=(6, 20),
)  # fmt: skip
_COMPACT: Final = Sizes(
    digit_w=10, digit_h=14, digit_gap=2, trade_w=7, trade_h=8, ring_w=20, ring_h=12, tick=8, compare=14,
    number_pt=20, column_pt=22, child_pt=16, instruction_pt=14, story_room=36, gaps=(4, 13),
)  # fmt: skip
_LARGE: Final = Sizes(
    digit_w=15, digit_h=18, digit_gap=3, trade_w=9, trade_h=9, ring_w=24, ring_h=15, tick=10, compare=16,
    number_pt=26, column_pt=28, child_pt=20, instruction_pt=15, story_room=48, gaps=(7, 20),
)  # fmt: skip


def sizes_of(look: Look) -> Sizes:
    """The measures of this look; large boxes win over compact ones."""
    if look.large_boxes:
        return _LARGE
    return _COMPACT if look.compact else _NORMAL
