"""Boats in a line beside a bridge, for words of place: first, second, third."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.figures.landmarks import LANDMARKS
from dayleaf.figures.pen import Art, arrow_head, line, lines, num, path, rect
from dayleaf.figures.values import WrongParameter

if TYPE_CHECKING:
    from collections.abc import Mapping

    from dayleaf.figures.values import Values

_PITCH, _BRIDGE = 7.6, 16.0
_BOAT = LANDMARKS["boat"]


def _bridge(x: float, y: float) -> str:
    """An arch over the water, 12 mm wide, its middle at (x, y)."""
    arch = f"M{num(x - 6)} {num(y + 4)}V{num(y - 4)}H{num(x + 6)}V{num(y + 4)}"
    under = f"M{num(x - 4)} {num(y + 4)}V{num(y + 2)}A4 4 0 0 1 {num(x + 4)} {num(y + 2)}V{num(y + 4)}"
    stones = [(x - 2, y - 4, x - 2, y - 2.2), (x + 2, y - 4, x + 2, y - 2.2)]
    return path(arch, w=0.7) + path(under, w=0.6) + lines(stones, w=0.4)


def scene(v: Values, _words: Mapping[str, str]) -> Art:
    """Up to twenty boats from the bridge on; rings and the arrow count from the bridge."""
    n, arrow = v.within("n", 1, 20), v.within("arrow", 0, 20)
    rings = v.numbers("rings")
    if any(not 1 <= one <= n for one in (*rings, *((arrow,) if arrow else ()))):
        raise WrongParameter(kind=v.kind, name="rings", why=f"or the arrow do not point at one of {n} boats")
    at_left = v.one_of("end", "left", "right") == "left"
    width = _BRIDGE + _PITCH * n
    top = 9.0 if arrow else 1.0
    y = top + 5.5

    def x(place: int) -> float:
        from_bridge = _BRIDGE + _PITCH * (place - 0.5)
        return from_bridge if at_left else width - from_bridge

    body = _bridge(7.5 if at_left else width - 7.5, y)
    small = "scale(.72)"
    body += "".join(
        f'<path transform="translate({num(x(k))} {num(y)}) {small}" d="{_BOAT}" stroke-width="0.6"/>'
        for k in range(1, n + 1)
    )
    body += line(0.5, y + 5.2, width - 0.5, y + 5.2, w=0.35)
    body += "".join(rect(x(k) - 3.6, y - 4.6, 7.2, 8.8, r=3.2, w=0.8) for k in rings)
    if arrow:
        body += line(x(arrow), 0.8, x(arrow), top - 2, w=0.8) + arrow_head(x(arrow), top + 0.6, 90, size=3)
    return Art(body, width, y + 6)
