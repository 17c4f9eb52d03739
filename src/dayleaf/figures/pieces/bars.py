"""Bars that tell whether a printer kept the size: 100 mm and 4 inches, and the outline of a bank card."""

from __future__ import annotations

from typing import Final

from dayleaf.figures.pen import Art, line, lines, path, rect, text

BAR_MM: Final = 100.0
BAR_IN_MM: Final = 101.6
"""4 inches of 25.4 mm."""
CARD_MM: Final = (85.60, 53.98)
"""ISO/IEC 7810, ID-1: the size of bank cards and most library cards."""
CARD_CORNER: Final = 3.18


def check_bar() -> Art:
    """Two bars, 100 mm over 4 in, with end marks; their ends are cut square, so that each is exactly so long."""
    upper, lower = 2.5, 7.0
    body = path(f"M0 {upper}L{BAR_MM:g} {upper}", w=0.6, cap="butt")
    body += path(f"M0 {lower}L{BAR_IN_MM:g} {lower}", w=0.6, cap="butt")
    body += lines([(x, upper - 1.6, x, upper + 1.6) for x in (0.0, BAR_MM)], w=0.35)
    body += lines([(x, upper - 0.9, x, upper + 0.9) for x in range(10, 100, 10)], w=0.35)
    body += lines([(x, lower - 1.6, x, lower + 1.6) for x in (0.0, BAR_IN_MM)], w=0.35)
    body += lines([(x * 25.4, lower - 0.9, x * 25.4, lower + 0.9) for x in (1, 2, 3)], w=0.35)
    body += text(104.5, upper, "100 mm", size=2.9, anchor="start")
    return Art(body + text(104.5, lower, "4 in", size=2.9, anchor="start"), 116.0, 9.5)


def long_bar() -> Art:
    """The bar of the calibration page: 100 mm with every millimetre, 4 in with every sixteenth."""
    body = rect(0, 0, BAR_MM, 12, w=0.35) + rect(0, 26, BAR_IN_MM, 12, w=0.35)
    body += lines([(k, 12.0, k, 12 - (5.5 if k % 10 == 0 else 4 if k % 5 == 0 else 2.5)) for k in range(1, 100)], w=0.2)
    body += lines(
        [(k * 25.4 / 16, 38.0, k * 25.4 / 16, 38 - (5.5 if k % 16 == 0 else 4 if k % 8 == 0 else 2.5))
         for k in range(1, 64)], w=0.2,
    )  # fmt: skip
    body += text(BAR_MM + 4, 6, "100 mm", size=4.4, anchor="start", weight=500)
    return Art(body + text(BAR_IN_MM + 4, 32, "4 in", size=4.4, anchor="start", weight=500), 124.0, 38.0)


def upright_bar() -> Art:
    """A plain bar of 100 mm that stands on its end."""
    body = rect(0, 0, 12, BAR_MM, w=0.35)
    return Art(body + line(0, 50, 5, 50, w=0.2), 12, BAR_MM)


def bank_card() -> Art:
    """The outline of a bank card."""
    width, height = CARD_MM
    body = rect(0, 0, width, height, r=CARD_CORNER, w=0.35)
    body += text(width / 2, height / 2 - 2.5, "Lay a bank or library card here.", size=3.4)
    return Art(body + text(width / 2, height / 2 + 3, "It covers the outline exactly.", size=3.4), width, height)
