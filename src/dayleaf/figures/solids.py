"""Solids in line drawing, the edges that lie behind in dashes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.figures.pen import Art, circle, num, path, text
from dayleaf.figures.values import WrongParameter

if TYPE_CHECKING:
    from collections.abc import Mapping

    from dayleaf.figures.values import Values

_DASH = "1.5 1.3"


def _box(wide: float, tall: float, deep: float) -> tuple[str, float, float]:
    """A box seen from the front, above and right; gives drawing, width, height."""
    dx, dy = deep * 0.8, deep * 0.55
    front = f"M0 {num(dy)}h{num(wide)}v{num(tall)}h{num(-wide)}z"
    slant = f"l{num(dx)} {num(-dy)}"
    back = f"M0 {num(dy)}{slant}h{num(wide)}v{num(tall)}l{num(-dx)} {num(dy)}M{num(wide)} {num(dy)}{slant}"
    hidden = f"M{num(dx)} 0v{num(tall)}h{num(wide)}M{num(dx)} {num(tall)}L0 {num(tall + dy)}"
    return path(front + back, w=0.6) + path(hidden, w=0.4, dash=_DASH), wide + dx, tall + dy


def _pyramid() -> tuple[str, float, float]:
    seen = path("M0 24H21L30 16.5L14 0ZM14 0L21 24", w=0.6)
    return seen + path("M0 24L9 16.5H30M9 16.5L14 0", w=0.4, dash=_DASH), 30, 24


def _prism() -> tuple[str, float, float]:
    seen = path("M0 20H16L8 5ZM8 5L22 0L30 15L16 20", w=0.6)
    return seen + path("M0 20L14 15H30M14 15L22 0", w=0.4, dash=_DASH), 30, 20


def _cylinder() -> tuple[str, float, float]:
    seen = path("M0 4A9 4 0 1 1 18 4A9 4 0 1 1 0 4M0 4V22A9 4 0 0 0 18 22V4", w=0.6)
    return seen + path("M0 22A9 4 0 0 1 18 22", w=0.4, dash=_DASH), 18, 26


def _cone() -> tuple[str, float, float]:
    seen = path("M0.3 21L10 0L19.7 21M0 22A10 4.2 0 0 0 20 22M0 22L0.3 21M20 22L19.7 21", w=0.6)
    return seen + path("M0 22A10 4.2 0 0 1 20 22", w=0.4, dash=_DASH), 20, 26.2


def _sphere() -> tuple[str, float, float]:
    seen = circle(11, 11, 11, w=0.6) + path("M0 11A11 3.6 0 0 0 22 11", w=0.4)
    return seen + path("M0 11A11 3.6 0 0 1 22 11", w=0.4, dash=_DASH), 22, 22


_SOLIDS = {
    "cube": _box(17, 17, 13),
    "box": _box(27, 13, 10),
    "pyramid": _pyramid(),
    "prism": _prism(),
    "cylinder": _cylinder(),
    "cone": _cone(),
    "sphere": _sphere(),
}


def solids_3d(v: Values, _words: Mapping[str, str]) -> Art:
    """Solids side by side on a ground line, at most four in a row, lettered when there are several."""
    names = v.words("solids")
    if not 1 <= len(names) <= 6 or any(name not in _SOLIDS for name in names):
        raise WrongParameter(kind=v.kind, name="solids", why="are none, more than six, or not all known")
    drawn = [_SOLIDS[name] for name in names]
    lettered = v.on("letters") and len(names) > 1
    a_line = len(names) if len(names) <= 4 else 3
    body, top, width = "", 1.0, 0.0
    for first in range(0, len(drawn), a_line):
        row = drawn[first : first + a_line]
        tallest = max(height for _, _, height in row)
        x = 1.0
        for k, (solid, wide, height) in enumerate(row, start=first):
            body += f'<g transform="translate({num(x)} {num(top + tallest - height)})">{solid}</g>'
            if lettered:
                body += text(x + wide / 2, top + tallest + 5, "ABCDEF"[k], size=4.8, weight=600)
            x += wide + 7
        width = max(width, x - 6)
        top += tallest + (10 if lettered else 4)
    return Art(body, width, top - (2 if lettered else 3))
