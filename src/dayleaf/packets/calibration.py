"""Does the printer keep the size? A page with bars to measure, and what a measured bar says about the scale."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import TYPE_CHECKING, Final

from dayleaf.core.errors import DayleafError
from dayleaf.figures.pen import text
from dayleaf.figures.pieces import bars
from dayleaf.figures.pieces.cards import moved
from dayleaf.packets.cut_outs.pages import Frame
from dayleaf.sheets.true_size import TrueSide, typeset_true

if TYPE_CHECKING:
    from dayleaf.sheets.model import Paper

TRUE_MM: Final = {"mm": Fraction(100), "cm": Fraction(100), "in": Fraction(1016, 10)}
"""How long the bar of a unit is: 100 mm, and 4 in of 25.4 mm (NIST Handbook 44, appendix C)."""
UNIT_MM: Final = {"mm": Fraction(1), "cm": Fraction(10), "in": Fraction(254, 10)}
LEAST: Final = Fraction(9, 10)
MOST: Final = Fraction(11, 10)
"""A printer that is off by more than a tenth was asked to fit the page; mending that comes first."""
_LENGTH: Final = re.compile(
    r'\s*(?:(\d+)\s+)?(\d+)(?:[.,](\d+))?(?:\s*/\s*(\d+))?\s*(mm|cm|inches|inch|in|")\s*', re.IGNORECASE
)

STEPS: Final = (
    "1  Print this page at 100 %, or “actual size”. Switch “fit to page” off.",
    "2  Measure the upper bar with a real ruler, as exactly as you can.",
    "3  100 mm, or 4 in? Then the printer keeps the size, and nothing more is to do.",
    "4  If not, tell Dayleaf what you measured, as 98.5 mm, or of the lower bar as 3 15/16 in.",
    "    From then on cut-outs are drawn so that they come out true.",
)


LAST: Final = (
    "A printer that is true across and not down cannot be mended by one number:",
    "try another paper tray or another program for printing.",
)


class NotALength(DayleafError):
    """What was measured cannot be read as a length."""

    def __init__(self, written: str) -> None:
        super().__init__(f"“{written}” is not a length; write 98.5mm, 9.85cm or 3 15/16 in.")


class FarOff(DayleafError):
    """A bar that came out more than a tenth too long or too short."""

    def __init__(self, written: str) -> None:
        super().__init__(
            f"{written} is more than a tenth off: the printer was asked to fit the page. "
            "Print at 100 % and measure again."
        )


def measured_mm(written: str) -> tuple[Fraction, Fraction]:
    """(what was measured, what it is meant to be), both in mm, from “98.5mm”, “9.85 cm”, “3.94in” or “3 15/16 in”.

    Millimetres and centimetres speak of the 100 mm bar, inches of the 4 in bar.

    Raises:
        NotALength: it says no length.

    >>> measured_mm("3 15/16 in")
    (Fraction(8001, 80), Fraction(508, 5))
    """
    match = _LENGTH.fullmatch(written)
    if match is None:
        raise NotALength(written)
    whole, number, decimals, under, unit = match.groups()
    if (decimals and (under or whole)) or (whole and not under) or (under and int(under) == 0):
        raise NotALength(written)
    value = Fraction(f"{number}.{decimals}") if decimals else Fraction(int(number), int(under or 1))
    value += int(whole or 0)
    name = unit.lower() if unit.lower() in UNIT_MM else "in"
    return value * UNIT_MM[name], TRUE_MM[name]


def scale_from(written: str) -> float:
    """How many times as large to draw so that the bar comes out true: what it is meant to be over what it measures.

    Raises:
        NotALength: it says no length.
        FarOff: it is more than a tenth off.

    >>> round(scale_from("98.5mm"), 5)
    1.01523
    """
    measured, meant = measured_mm(written)
    if measured <= 0 or not LEAST <= measured / meant <= MOST:
        raise FarOff(written.strip())
    return float(meant / measured)


def print_calibration(*, paper: Paper) -> bytes:
    """The page with the bars, drawn without any correction; a bank card's outline tells the same without a ruler."""
    frame = Frame(paper)
    left = -frame.room[0] / 2
    body = "".join(text(left, 4 + 7 * k, line, size=4, anchor="start") for k, line in enumerate(STEPS))
    across, card, upright = bars.long_bar(), bars.bank_card(), bars.upright_bar()
    body += moved(across.body, left + 10, 46) + moved(card.body, left + 10, 108)
    body += moved(upright.body, frame.room[0] / 2 - 36, 96)
    body += text(frame.room[0] / 2 - 30, 203, "This one is 100 mm long, too.", size=3.4)
    for k, line in enumerate(LAST):
        body += text(left, 220 + 6 * k, line, size=3.6, anchor="start")
    said = "Two bars to measure, 100 mm and 4 in, the outline of a bank card, and an upright bar of 100 mm."
    side = TrueSide(frame.picture(body, said), said, "Does the printer keep the size?")
    return typeset_true((side,), paper=paper)
