"""The pen: a few SVG shapes in millimetres, black on white, with short and steady numbers.

Nothing here needs an id (hatching is computed as lines), so that many pictures can stand on one page.
Coordinates: x to the right, y down, in mm.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

Point = tuple[float, float]

THIN = 0.35
"""The thinnest line, 1 point: below it a poor printer drops lines."""
LINE = 0.5
GREY = "#6b6b6b"
"""Outline of a box to write in; 5.3 to 1 on white (WCAG 2.2, 1.4.11 asks for 3 to 1)."""

_ESCAPES = str.maketrans({"&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;"})


@dataclass(frozen=True, slots=True)
class Art:
    """The inside of a picture and its size in mm."""

    body: str
    width: float
    height: float


def num(value: float) -> str:
    """A number with at most three decimals, the shortest way to write it."""
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def escaped(text: str) -> str:
    """Text that is safe inside an element and inside a quoted attribute."""
    return text.translate(_ESCAPES)


def _style(w: float, fill: str, dash: str, stroke: str) -> str:
    style = "" if w == LINE else f' stroke-width="{num(w)}"'
    if fill:
        style += f' fill="{fill}"'
    if dash:
        style += f' stroke-dasharray="{dash}"'
    if stroke:
        style += f' stroke="{stroke}"'
    return style


def path(d: str, *, w: float = LINE, fill: str = "", dash: str = "", stroke: str = "", cap: str = "") -> str:
    """Any path, stroked unless `stroke` is none; `cap` butt ends a line exactly where it ends."""
    ends = f' stroke-linecap="{cap}"' if cap else ""
    return f'<path d="{d}"{_style(w, fill, dash, stroke)}{ends}/>'


def line(x1: float, y1: float, x2: float, y2: float, *, w: float = LINE, dash: str = "", stroke: str = "") -> str:
    """A straight line."""
    return path(f"M{num(x1)} {num(y1)}L{num(x2)} {num(y2)}", w=w, dash=dash, stroke=stroke)


def lines(segments: Iterable[tuple[float, float, float, float]], *, w: float = THIN, stroke: str = "") -> str:
    """Many straight lines in one path."""
    d = "".join(f"M{num(a)} {num(b)}L{num(c)} {num(e)}" for a, b, c, e in segments)
    return path(d, w=w, stroke=stroke) if d else ""


def polyline(points: Iterable[Point], *, w: float = LINE, dash: str = "") -> str:
    """An open chain of straight lines."""
    return path("M" + "L".join(f"{num(x)} {num(y)}" for x, y in points), w=w, dash=dash)


def polygon(points: Iterable[Point], *, w: float = LINE, fill: str = "", dash: str = "", stroke: str = "") -> str:
    """A closed shape with straight sides."""
    d = "M" + "L".join(f"{num(x)} {num(y)}" for x, y in points) + "Z"
    return path(d, w=w, fill=fill, dash=dash, stroke=stroke)


def rect(
    x: float,
    y: float,
    width: float,
    height: float,
    *,
    r: float = 0,
    w: float = LINE,
    fill: str = "",
    dash: str = "",
    stroke: str = "",
) -> str:
    """A rectangle with its top left corner at (x, y), corners rounded by `r`."""
    corner = f' rx="{num(r)}"' if r else ""
    box = f'x="{num(x)}" y="{num(y)}" width="{num(width)}" height="{num(height)}"'
    return f"<rect {box}{corner}{_style(w, fill, dash, stroke)}/>"


def circle(x: float, y: float, r: float, *, w: float = LINE, fill: str = "", dash: str = "", stroke: str = "") -> str:
    """A circle, an outline unless filled."""
    return f'<circle cx="{num(x)}" cy="{num(y)}" r="{num(r)}"{_style(w, fill, dash, stroke)}/>'


def dot(x: float, y: float, r: float) -> str:
    """A filled circle."""
    return f'<circle cx="{num(x)}" cy="{num(y)}" r="{num(r)}" fill="#000" stroke="none"/>'


def text(x: float, y: float, words: str, *, size: float = 4.2, anchor: str = "middle", weight: int = 400) -> str:
    """One line of text centred on the height `y` (Lexend's digits are 0.7 em tall)."""
    bold = "" if weight == 400 else f' font-weight="{weight}"'
    side = "" if anchor == "middle" else f' text-anchor="{anchor}"'
    place = f'x="{num(x)}" y="{num(y + 0.35 * size)}" font-size="{num(size)}"'
    return f'<text {place}{side}{bold} fill="#000" stroke="none">{escaped(words)}</text>'


def fraction(x: float, y: float, top: int, bottom: int, *, size: float = 4.2) -> str:
    """A stacked fraction whose bar lies at the height `y`: the top number over the bar, the bottom one under it."""
    half = text_width(str(max(top, bottom)), size) / 2 + 0.4
    return (
        text(x, y - 0.56 * size, str(top), size=size)
        + line(x - half, y, x + half, y, w=0.4)
        + text(x, y + 0.56 * size, str(bottom), size=size)
    )


def text_width(words: str, size: float) -> float:
    """About how wide a text is in mm: digits of Lexend are 0.62 em, letters 0.58 em on average."""
    return sum(0.34 if sign in " .,:;il|" else 0.62 for sign in words) * size


def write_box(x: float, y: float, width: float, height: float) -> str:
    """An empty box to write in, centred on (x, y)."""
    return rect(x - width / 2, y - height / 2, width, height, r=0.6, stroke=GREY, fill="#fff")


def strike(x: float, y: float, reach: float) -> str:
    """Crossed out: one rising stroke with a white edge, so that it shows on black too."""
    d = f"M{num(x - reach)} {num(y + reach)}L{num(x + reach)} {num(y - reach)}"
    return path(d, w=1.7, stroke="#fff", cap="butt") + path(d, w=0.7)


def arrow_head(x: float, y: float, degrees: float, *, size: float = 2.4) -> str:
    """A filled arrow head whose point lies at (x, y); 0 degrees points right, 90 down."""
    turn = math.radians(degrees)
    back = (x - size * math.cos(turn), y - size * math.sin(turn))
    side = (-0.42 * size * math.sin(turn), 0.42 * size * math.cos(turn))
    points = ((x, y), (back[0] + side[0], back[1] + side[1]), (back[0] - side[0], back[1] - side[1]))
    return polygon(points, w=THIN, fill="#000")


def hatch(points: Sequence[Point], *, gap: float = 1.5, degrees: float = 45) -> str:
    """Parallel lines that fill a simple polygon, `gap` mm apart, rising to the right at 45 degrees.

    Every line is cut at the outline (even-odd rule), so no clip path is needed.
    """
    turn = math.radians(-degrees)
    along, across = (math.cos(turn), math.sin(turn)), (-math.sin(turn), math.cos(turn))
    turned = [(x * along[0] + y * along[1], x * across[0] + y * across[1]) for x, y in points]
    edges = list(zip(turned, [*turned[1:], turned[0]], strict=True))
    low, high = min(v for _, v in turned), max(v for _, v in turned)
    segments = []
    for k in range(math.floor(low / gap) + 1, math.ceil(high / gap)):
        v = k * gap
        cuts = sorted(
            u1 + (v - v1) / (v2 - v1) * (u2 - u1) for (u1, v1), (u2, v2) in edges if (v1 <= v < v2) or (v2 <= v < v1)
        )
        for start, end in zip(cuts[::2], cuts[1::2], strict=True):
            segments.append(
                (
                    start * along[0] + v * across[0],
                    start * along[1] + v * across[1],
                    end * along[0] + v * across[0],
                    end * along[1] + v * across[1],
                )
            )
    return lines(segments)


def box_points(x: float, y: float, width: float, height: float) -> tuple[Point, ...]:
    """The corners of a rectangle."""
    return ((x, y), (x + width, y), (x + width, y + height), (x, y + height))


def arc_points(x: float, y: float, r: float, start: float, end: float, *, step: float = 6) -> tuple[Point, ...]:
    """Points on a circle from `start` to `end` degrees, clockwise from the top, both ends included."""
    n = max(2, math.ceil(abs(end - start) / step) + 1)
    angles = [math.radians(start + (end - start) * i / (n - 1)) for i in range(n)]
    return tuple((x + r * math.sin(a), y - r * math.cos(a)) for a in angles)
