"""Papers to work on that fill a side: mats, charts, dot and grid paper, logs, clock faces.

Each takes the room it may fill in mm and gives a picture of that width; what is measured (dots, squares) is at true
size whatever the room.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from dayleaf.figures import clocks
from dayleaf.figures.draw import DRAWERS
from dayleaf.figures.pen import GREY, Art, circle, dot, line, lines, num, rect, text
from dayleaf.figures.pieces.cards import fitted, moved
from dayleaf.figures.values import values_of

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from dayleaf.items.model import Figure

GRID: Final = 10.0
"""The squares of dot and grid paper: a centimetre."""
AT_TRUE_SIZE: Final = frozenset({"coins", "bills", "ruler-cm", "ruler-in", "objects-line"})
PLACE_WIDTHS: Final[Mapping[str, float]] = {"hundreds": 104.0, "tens": 44.0, "ones": 36.0}
"""Wide enough for the blocks themselves: a hundred is 100 mm wide."""


def place_mat(places: Sequence[str], words: Mapping[str, str], height: float) -> Art:
    """Columns for blocks, headed by their places; each is wide enough for the cut-out pieces."""
    widths = [PLACE_WIDTHS[place] if len(places) > 2 else 92.0 for place in places]
    body, x, head = "", 0.0, 14.0
    for place, wide in zip(places, widths, strict=True):
        body += text(x + wide / 2, head / 2, words.get(place, place), size=6)
        body += line(x, 0, x, height, w=0.6) if x else ""
        x += wide
    return Art(body + line(0, head, x, head, w=0.6) + rect(0, 0, x, height, r=2, w=0.9), x, height)


def part_whole_mat(words: Mapping[str, str], width: float) -> Art:
    """A large box for the whole over two for its parts."""
    tall, wide = 84.0, (width - 14) / 2
    whole, parts = words.get("whole", "whole"), words.get("part", "part")
    middle = width / 2
    body = "".join(
        line(middle + side * 18, tall, middle + side * (width / 4 + 3), tall + 30, w=0.7) for side in (-1, 1)
    )
    body += rect((width - wide - 20) / 2, 0, wide + 20, tall, r=3, w=0.9)
    body += text(middle, 7, whole, size=5)
    for x in (0.0, width - wide):
        body += rect(x, tall + 30, wide, tall, r=3, w=0.9) + text(x + wide / 2, tall + 37, parts, size=5)
    return Art(body, width, 2 * tall + 30)


def hundred_chart(width: float, *, first: int = 1) -> Art:
    """A hundred numbers in rows of ten."""
    side = width / 10
    inner = [(k * side, 0.0, k * side, width) for k in range(1, 10)]
    inner += [(0.0, k * side, width, k * side) for k in range(1, 10)]
    body = lines(inner, w=0.4) + rect(0, 0, width, width, w=0.9)
    for k in range(100):
        n = first + k
        x, y = (k % 10 + 0.5) * side, (k // 10 + 0.5) * side
        body += text(x, y, str(n), size=side * 0.34, weight=600 if n % 10 == 0 else 400)
    return Art(body, width, width)


def month(figure: Figure | None, words: Mapping[str, str], width: float) -> Art:
    """A real month as large as the room is wide; without one, a frame in which the child writes the dates."""
    if figure is not None:
        art = DRAWERS["calendar"](values_of(figure), words)
        scale = width / art.width
        return Art(f'<g transform="scale({num(scale)})">{art.body}</g>', width, scale * art.height)
    wide, tall, top = width / 7, 26.0, 26.0
    body = line(width * 0.25, 10, width * 0.75, 10, w=0.5)
    for k in range(7):
        day = f"day-{(6 + k) % 7}"
        body += text((k + 0.5) * wide, top - 6, words.get(day, day), size=5)
    inner = [(k * wide, top, k * wide, top + 6 * tall) for k in range(1, 7)]
    inner += [(0.0, top + k * tall, width, top + k * tall) for k in range(1, 6)]
    return Art(body + lines(inner, w=0.4) + rect(0, top, width, 6 * tall, w=0.9), width, top + 6 * tall)


def dot_paper(width: float, height: float) -> Art:
    """Dots a centimetre apart."""
    columns, rows = int(width // GRID), int(height // GRID)
    body = "".join(dot(x * GRID, y * GRID, 0.55) for y in range(rows + 1) for x in range(columns + 1))
    return Art(body, columns * GRID, rows * GRID)


def grid_paper(width: float, height: float) -> Art:
    """Squares of a centimetre."""
    columns, rows = int(width // GRID), int(height // GRID)
    wide, tall = columns * GRID, rows * GRID
    body = lines([(k * GRID, 0, k * GRID, tall) for k in range(columns + 1)], w=0.35, stroke=GREY)
    return Art(body + lines([(0, k * GRID, wide, k * GRID) for k in range(rows + 1)], w=0.35, stroke=GREY), wide, tall)


def map_grid(columns: int = 5, rows: int = 5) -> Art:
    """A map for a small mover and its step cards: squares of 34 mm, letters along the bottom, numbers up the side."""
    side, left = 34.0, 10.0
    wide, tall = columns * side, rows * side
    body = rect(left, 0, wide, tall, w=0.9)
    body += lines([(left + k * side, 0, left + k * side, tall) for k in range(1, columns)], w=0.5)
    body += lines([(left, k * side, left + wide, k * side) for k in range(1, rows)], w=0.5)
    body += "".join(text(left + (k + 0.5) * side, tall + 7, "ABCDEFGHI"[k], size=7) for k in range(columns))
    body += "".join(text(4, tall - (k + 0.5) * side, str(k + 1), size=7) for k in range(rows))
    return Art(body, left + wide, tall + 12)


def graph_paper(width: float, words: Mapping[str, str]) -> Art:
    """A frame for a graph of up to four kinds: a line for the title, squares over each kind, a scale at the left."""
    cell, rows, left, top = 11.0, 14, 22.0, 20.0
    band = (width - left) / 4
    foot = top + rows * cell
    body = text(0, 6, words.get("title", ""), size=4, anchor="start") + line(left, 8, width, 8, w=0.4)
    body += lines([(left, top + k * cell, width, top + k * cell) for k in range(rows)], w=0.35, stroke=GREY)
    for k in range(4):
        x = left + k * band + (band - 2 * cell) / 2
        body += lines([(x + j * cell, top, x + j * cell, foot) for j in range(3)], w=0.35, stroke=GREY)
        body += line(left + k * band + 4, foot + 15, left + (k + 1) * band - 4, foot + 15, w=0.4)
    body += line(left, foot, width, foot, w=0.9) + line(left, top - 3, left, foot, w=0.9)
    body += "".join(line(left - 2, top + k * cell, left, top + k * cell, w=0.5) for k in range(rows))
    body += text(left - 7, foot, "0", size=4.4)
    return Art(body, width, foot + 18)


def log_sheet(width: float, height: float, words: Mapping[str, str]) -> Art:
    """A log to keep over days: a line for the question, then rows for when, what was counted, how many."""
    columns = (0.0, width * 0.24, width * 0.5, width * 0.84, width)
    heads = tuple(words.get(name, name) for name in ("when", "what", "tally", "how many"))
    top, tall = 26.0, 15.5
    rows = int((height - top - 12) // tall)
    foot = top + 12 + rows * tall
    body = text(0, 9, words.get("question", ""), size=4.4, anchor="start") + line(26, 11, width, 11, w=0.4)
    body += lines([(x, top, x, foot) for x in columns[1:-1]], w=0.4)
    body += lines([(0, top + 12 + k * tall, width, top + 12 + k * tall) for k in range(rows)], w=0.4)
    body += rect(0, top, width, foot - top, w=0.8)
    for a, b, head in zip(columns, columns[1:], heads, strict=False):
        body += text((a + b) / 2, top + 6, head, size=4.4, weight=500)
    return Art(body, width, foot)


def clock_faces(width: float) -> Art:
    """Six faces without hands, each with a place for the time in figures."""
    scale, step = 1.66, 76.0
    body = ""
    for k in range(6):
        x, y = width * (0.25 + 0.5 * (k % 2)), 33 + (k // 2) * step
        face = clocks.face(0, 0, hour=0, minute=0, hands=False, numerals=True)
        body += f'<g transform="translate({num(x)} {num(y)}) scale({scale})">{face}</g>'
        body += text(x, y + 37.5, ":", size=6) + "".join(
            line(x + side * 3, y + 40, x + side * 14, y + 40, w=0.4) for side in (-1, 1)
        )
    return Art(body, width, 33 + 2 * step + 41)


def paper_circle() -> Art:
    """A circle of 16 cm with its middle."""
    return Art(circle(81, 81, 80, w=0.7) + dot(81, 81, 0.8), 162, 162)


def paper_balance(width: float, words: Mapping[str, str]) -> Art:
    """Two pans on a level beam, large enough to lay cards and counters on."""
    middle, pan = width / 2, width * 0.42
    body = line(pan / 2, 20, width - pan / 2, 20, w=1.6) + line(middle, 20, middle, 128, w=1.6)
    body += f'<path d="M{num(middle)} 10l7 10h-14z" stroke-width="0.9"/>' + line(
        middle - 26, 128, middle + 26, 128, w=1.6
    )
    for x in (0.0, width - pan):
        body += lines([(x + pan / 2, 20, x + 3, 104), (x + pan / 2, 20, x + pan - 3, 104)], w=0.5)
        body += rect(x, 104, pan, 8, r=3, w=0.9)
    box = width * 0.42
    body += rect(0, 148, box, 44, r=3, w=0.7) + rect(width - box, 148, box, 44, r=3, w=0.7)
    body += text(middle, 170, "=", size=12)
    return Art(body + text(middle, 4, words.get("level", ""), size=4), width, 192)


def picture_page(figures: Sequence[tuple[Figure, Mapping[str, str]]], width: float, height: float) -> Art:
    """One or two pictures, half a side each, as large as fits and at most two and a half times their own size.

    Coins, rulers and whatever else is drawn at true size stays so.
    """
    half = (height - 6) / 2
    body = ""
    for k, (figure, words) in enumerate(figures[:2]):
        body += moved(
            fitted(figure, width, half - 8, words=words, most=1 if figure.kind in AT_TRUE_SIZE else 2.5),
            0,
            k * (half + 6) + 4,
        )
    if len(figures) > 1:
        body += line(0, half + 3, width, half + 3, w=0.3, dash="1.6 1.4", stroke=GREY)
    return Art(body, width, height)
