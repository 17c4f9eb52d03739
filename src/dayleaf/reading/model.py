"""What reading gives: one value a page of a file, one a box."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

State = Literal["sure", "ask", "blank"]


@dataclass(frozen=True, slots=True)
class BoxReading:
    """One box as read.

    `reading` is a digit, a comparison sign, or "1" for a tick or ring, "" where nothing is written; `certainty` is 0 to
    1. `reversed` says that the digit is turned round as children turn digits; it counts as its digit. `corners` are
    the corners of the box in the picture, in shares of its width and height, from the top left with the clock.
    `picture` is the box as seen, a PNG file, where that was asked for; blank ones have none. `likely` are the likeliest
    digits of a doubtful one, the reading first. `shift` says in millimetres, right and down, how far from its printed
    place the box lies on the side seen from above.
    """

    id: str
    reading: str
    certainty: float
    state: State
    reversed: bool = False
    corners: tuple[tuple[float, float], ...] = ()
    picture: bytes = b""
    likely: tuple[str, ...] = ()
    shift: tuple[float, float] = (0.0, 0.0)


@dataclass(frozen=True, slots=True)
class PageReading:
    """One page of a file: read, or refused with a code and a sentence.

    `sheet` and `page` (the side) are None where they are not known. `flat` is the side seen from above, a JPEG file,
    where that was asked for.
    """

    status: Literal["read", "refused"]
    page_in_file: int
    code: str | None = None
    message: str = ""
    sheet: str | None = None
    page: int | None = None
    boxes: tuple[BoxReading, ...] = ()
    flat: bytes = b""
