"""Pictures for the front of the course: a chapter's ten days as sheets to color in, and how the papers go together."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING, Final

from dayleaf.figures.pen import THIN, Art, arrow_head, escaped, line, lines, num, path, text_width

if TYPE_CHECKING:
    from collections.abc import Sequence

    from dayleaf.figures.pen import Point

ADULT: Final = "font-family=\"'Source Sans 3'\""


def svg(art: Art, *, title: str, said: str) -> str:
    """A picture as one SVG element in millimetres, with its words for people who do not see it."""
    width, height = num(art.width), num(art.height)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm" '
        f'viewBox="0 0 {width} {height}" role="img"><title>{escaped(title)}</title><desc>{escaped(said)}</desc>'
        '<g fill="none" stroke="#000" stroke-width="0.5" stroke-linecap="round" stroke-linejoin="round" '
        f'text-anchor="middle">{art.body}</g></svg>'
    )


def _words(x: float, y: float, said: str, *, size: float = 3.4, weight: int = 500, anchor: str = "middle") -> str:
    # Inside a picture the typesetter sets Source Sans at its thinnest when asked for 400, and rightly from 500 on.
    place = f'x="{num(x)}" y="{num(y + 0.33 * size)}" font-size="{num(size)}" font-weight="{weight}"'
    return f'<text {place} {ADULT} text-anchor="{anchor}" fill="#000" stroke="none">{escaped(said)}</text>'


def _paper(x: float, y: float, width: float, height: float, *, w: float = 0.5) -> str:
    """A sheet of paper with its upper right corner turned down."""
    fold = min(width, height) * 0.22
    outline = f"M{num(x)} {num(y)}H{num(x + width - fold)}L{num(x + width)} {num(y + fold)}V{num(y + height)}H{num(x)}Z"
    corner = f"M{num(x + width - fold)} {num(y)}V{num(y + fold)}H{num(x + width)}"
    return path(outline, w=w, fill="#fff") + path(corner, w=THIN)


def day_strip(days: Sequence[tuple[int, str]], *, width: float = 170.0) -> Art:
    """The days of a chapter as sheets in a row to color in, one a day; each has its number and, if any, its kind."""
    step = width / len(days)
    wide, tall = step - 3.4, 21.0
    body = ""
    for k, (number, kind) in enumerate(days):
        x = k * step + 1.7
        body += _paper(x, 1, wide, tall, w=0.7)
        place = f'x="{num(x + wide / 2)}" y="{num(15.5)}" font-size="6.2" font-family="Lexend"'
        body += f'<text {place} fill="#000" stroke="none">{number}</text>'
        body += _words(x + wide / 2, 26.0, kind, size=3.1) if kind else ""
    return Art(body, width, 29.0)


def _arrow(*points: Point) -> str:
    (x1, y1), (x2, y2) = points[-2], points[-1]
    turn = 0 if x2 > x1 else 180 if x2 < x1 else 90 if y2 > y1 else 270
    d = "M" + "L".join(f"{num(x)} {num(y)}" for x, y in points)
    return path(d, w=0.6) + arrow_head(x2, y2, turn, size=2.8)


def _thing(x: float, y: float, title: str, under: str, *, rows: int = 4) -> str:
    """A small sheet with a few lines on it, its name below and who holds it."""
    wide, tall = 15.5, 20.0
    body = _paper(x - wide / 2, y, wide, tall, w=0.6)
    body += lines([(x - 5, y + 7 + 3 * k, x + (5 if k % 2 == 0 else 2), y + 7 + 3 * k) for k in range(rows)])
    body += _words(x, y + tall + 3.6, title, size=3.5, weight=700)
    return body + (_words(x, y + tall + 7.6, under, size=3.2) if under else "")


def _bag(x: float, y: float, title: str, under: str) -> str:
    """A bag of cut-out pieces."""
    body = path(f"M{num(x - 8)} {num(y + 5)}L{num(x - 9)} {num(y + 20)}H{num(x + 9)}L{num(x + 8)} {num(y + 5)}Z", w=0.6)
    body += path(f"M{num(x - 8)} {num(y + 5)}Q{num(x)} {num(y + 1)} {num(x + 8)} {num(y + 5)}", w=0.6)
    body += "".join(
        path(f"M{num(x + dx)} {num(y + dy)}h4v4h-4z", w=THIN) for dx, dy in ((-6, 9), (-1, 13), (2.5, 8), (-5.5, 15))
    )
    return body + _words(x, y + 23.6, title, size=3.5, weight=700) + _words(x, y + 27.6, under, size=3.2)


def day_line(parts: Sequence[tuple[str, int, bool]], *, width: float = 170.0) -> Art:
    """A day as one bar: each part with its minutes, dark where the adult is there, open where the child is alone."""
    whole = sum(minutes for _, minutes, _ in parts)
    body, x = "", 0.0
    for name, minutes, led in parts:
        wide = width * minutes / whole
        fill = "#000" if led else "#fff"
        body += path(f"M{num(x + 0.4)} 9h{num(wide - 0.8)}v8h-{num(wide - 0.8)}z", w=0.5, fill=fill)
        body += _words(x + wide / 2, 4.5, name, size=3.4, weight=700) + _words(
            x + wide / 2, 21.5, str(minutes), size=3.4
        )
        x += wide
    return Art(body, width, 25.0)


BANDS: Final = ("Once", "Each chapter", "Each week", "Each day", "That evening", "At the end")


DAY: Final = (
    ("lesson guide", "you"),
    ("together page", "both"),
    ("own page", "the child"),
    ("practice sheet", "front: today"),
    ("practice sheet", "back: earlier"),
)
END: Final = (
    ("look back", "the child sorts"),
    ("chapter test", "form A"),
    ("fix-up", "ten minutes"),
    ("project", "or a spare day"),
)
NEXT: Final = "next chapter, or form B first"


def _row(columns: Sequence[float], y: float, names: Sequence[tuple[str, str]], *, arrows: int) -> str:
    """Things side by side from the first column on, with an arrow from one to the next for the first few."""
    body = "".join(_thing(x, y, title, under) for x, (title, under) in zip(columns, names, strict=False))
    return body + "".join(_arrow((a + 10, y + 10), (b - 10, y + 10)) for a, b in pairwise(columns[: arrows + 1]))


def parts_picture() -> Art:
    """How guide, pages, sheets, tests and cut-outs work together: one row for how often, arrows for what leads on."""
    width, band, left = 172.0, 36.0, 26.0
    c = [left + 14 + 28 * k for k in range(5)]
    once, chapter, week, day, evening, end = (k * band + 3 for k in range(6))
    body = "".join(line(0, k * band, width, k * band, w=0.35) for k in range(1, 6))
    body += "".join(_words(0, k * band + 6, name, size=4.2, weight=700, anchor="start") for k, name in enumerate(BANDS))
    body += _thing(c[0], once, "getting-ready list", "you") + _bag(c[1], once, "cut-out sets", "the child")
    body += _arrow((c[0] + 10, once + 10), (c[1] - 10.5, once + 10))
    body += _row(c[2:], once, (("placement", "first day"), ("year plan", "dates")), arrows=1)
    body += _row(c, chapter, (("chapter page", "on the wall"), ("story page", "you read")), arrows=0)
    body += _row(c[3:], week, (("week sheet", "on the fridge"), ("print-outs", "mats, cards")), arrows=1)
    body += _arrow((c[3], once + 30), (c[3], week - 0.6))
    body += _row(c, day, DAY, arrows=3) + line(c[3] + 9, day + 10, c[4] - 9, day + 10, w=0.6, dash="1.4 1.2")
    turn = c[1] + 14
    body += _arrow((c[1] + 10, once + 14), (turn, once + 14), (turn, day - 7), (c[1], day - 7), (c[1], day - 0.6))
    seen = (("answer key", "you"), ("marks", "all but a few"), ("what was seen", "habit or slip"))
    body += _row(c[1:], evening, seen, arrows=2)
    body += _arrow((c[3] + 10, evening + 10), (c[4], evening + 10), (c[4], day + 30))
    body += _words(c[4] + 3, evening + 10, "tomorrow’s back", size=3.2, anchor="start")
    body += _row(c, end, END, arrows=3) + _arrow((c[3] + 10, end + 10), (c[4] - 8, end + 10))
    body += _words(c[4] - 6, end + 10, NEXT, size=3.2, anchor="start")
    return Art(body, max(width, c[4] - 6 + text_width(NEXT, 3.0)), 6 * band + 2)
