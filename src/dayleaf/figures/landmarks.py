"""Small line drawings of what can lie on a map; a thing without one is written as its word."""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING, Final

from dayleaf.figures.pen import num, text, text_width

if TYPE_CHECKING:
    from collections.abc import Mapping

LANDMARKS: Final[Mapping[str, str]] = MappingProxyType(
    {
        "tree": "M0 4V0M0 0A3 3 0 1 1 .01 0M-2 4H2",
        "house": "M-3.5 4V-.5L0 -4L3.5 -.5V4ZM-1 4V1H1V4",
        "hut": "M-3.6 4V-.6H3.6V4ZM-4.6 -.6L0 -4.4L4.6 -.6M-1 4V1.2H1V4",
        "bell": "M-3.6 2.4Q-2.6 1 -2.6 -1Q-2.4 -4 0 -4Q2.4 -4 2.6 -1Q2.6 1 3.6 2.4ZM-.9 2.4A.9 .9 0 0 0 .9 2.4",
        "bench": "M-4.4 .4H4.4M-3.4 .4V4M3.4 .4V4M-4.4 -2.4H4.4M-3.4 -2.4V.4M3.4 -2.4V.4",
        "flower": "M0 .6V4.4M0 3.4Q2.2 3 2.6 1.2M-1 -1.6A1 1 0 1 1 1 -1.6A1 1 0 1 1 -1 -1.6"
        "M-.7 -2.3A1.3 1.3 0 1 1 .7 -2.3"
        "M.8 -2.2A1.3 1.3 0 1 1 .8 -1M.7 -.9A1.3 1.3 0 1 1 -.7 -.9M-.8 -1A1.3 1.3 0 1 1 -.8 -2.2",
        "shed": "M-4 4V-1.5L4 -4V4ZM-1 4V0H2V4",
        "pond": "M-4.5 0A4.5 3 0 1 0 4.5 0A4.5 3 0 1 0 -4.5 0M-2 0q1 -1 2 0t2 0",
        "boat": "M-4.5 1H4.5L3 4H-3ZM0 1V-4.2L3.2 0H0",
        "flag": "M-2 4.2V-4.2L3.4 -2.2L-2 -.2",
        "gate": "M-4 4V-3M4 4V-3M-4 -1.5H4M-4 2H4M-4 2L4 -1.5",
        "bridge": "M-4.6 2.5V0Q0 -5 4.6 0V2.5M-3 2.5Q0 -2 3 2.5M-4.6 2.5H-3M3 2.5H4.6",
        "well": "M-3 4V0H3V4ZM-3 0V-4M3 0V-4M-4 -2.6L0 -4.6L4 -2.6",
        "key": "M-3.6 0A1.7 1.7 0 1 1 -.2 0A1.7 1.7 0 1 1 -3.6 0M-.2 0H4.2V1.8M2.6 0V1.5",
        "goat": "M-3.4 4V.4Q-3.4 -1.2 -1.6 -1.2H1.2L2 -3.4L4.2 -2L3.2 -.4V.6L2.2 1V4M-2.4 1.6H2.2M2 -3.4L1 -4.6",
        "heron": "M-.6 4.4V1.4M.8 4.4V1.4M-3 1Q0 2.4 1.8 .4Q.6 -1.8 1.4 -3.6Q1.8 -4.6 2.6 -4L4.8 -3.4L2.4 -2.9",
        "apple": "M0 -2Q-3.6 -3.4 -3.6 .6Q-3 4.2 0 3.4Q3 4.2 3.6 .6Q3.6 -3.4 0 -2Q0 -3.6 1.2 -4.4",
        "basket": "M-4 -.5H4L3 4H-3ZM-3 -.5A3 3.4 0 0 1 3 -.5",
        "tent": "M-4.4 4L0 -4L4.4 4ZM0 -4V0L-1.6 4M0 0L1.6 4",
        "ladder": "M-1.8 4.4V-4.4M1.8 4.4V-4.4M-1.8 -2.6H1.8M-1.8 -.2H1.8M-1.8 2.2H1.8",
    }
)


def landmark(code: str, x: float, y: float, *, word: str, room: float) -> str:
    """The drawing of `code` centred on (x, y), or its word made small enough for `room` mm."""
    drawing = LANDMARKS.get(code)
    if drawing is None:
        return text(x, y, word, size=min(4.0, 4.0 * room / max(text_width(word, 4.0), 0.1)))
    return f'<path transform="translate({num(x)} {num(y)})" d="{drawing}"/>'
