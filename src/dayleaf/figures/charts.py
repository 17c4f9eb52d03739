"""Charts in cells: the hundred chart and its pieces, a table, a month."""

from __future__ import annotations

import calendar as almanac
from typing import TYPE_CHECKING

from dayleaf.figures.pen import Art, box_points, hatch, line, lines, num, path, rect, text, text_width, write_box
from dayleaf.figures.values import WrongParameter

if TYPE_CHECKING:
    from collections.abc import Mapping

    from dayleaf.figures.values import Values


def hundred_chart(v: Values, _words: Mapping[str, str]) -> Art:
    """Numbers in rows of ten, the whole chart or a piece of it."""
    lo, hi = v.within("lo", 1, 1000), v.within("hi", 1, 1000)
    cells = v.numbers("cells") or tuple(range(lo, hi + 1))
    if not cells or len(cells) > 200:
        raise WrongParameter(kind=v.kind, name="hi", why="leaves no cell, or more than 200")
    blanks, rings, hatched = set(v.numbers("blanks")), set(v.numbers("rings")), set(v.numbers("hatched"))
    piece = len(cells) <= 30
    side, size = (11.0, 5.4) if piece else (8.2, 3.9)
    columns = [(n - 1) % 10 for n in cells]
    rows = [(n - 1) // 10 for n in cells]
    first_column, first_row = min(columns), min(rows)
    body, outline = "", ""
    for n, column, row in zip(cells, columns, rows, strict=True):
        x, y = 0.5 + (column - first_column) * side, 0.5 + (row - first_row) * side
        if n in hatched:
            body += hatch(box_points(x, y, side, side), gap=1.9)
            body += rect(x + side * 0.18, y + side * 0.2, side * 0.64, side * 0.6, r=1, fill="#fff", stroke="none")
        outline += f"M{num(x)} {num(y)}h{num(side)}v{num(side)}h-{num(side)}z"
        if n not in blanks:
            body += text(x + side / 2, y + side / 2, str(n), size=size)
        if n in rings:
            body += rect(x + 0.9, y + 0.9, side - 1.8, side - 1.8, r=side / 2 - 0.9, w=0.7)
    body += path(outline, w=0.4)
    return Art(body, (max(columns) - first_column + 1) * side + 1, (max(rows) - first_row + 1) * side + 1)


def table(v: Values, words: Mapping[str, str]) -> Art:
    """Rows and columns; an empty cell is a box to fill."""
    head, cells, columns = v.words("head"), v.words("cells"), v.within("columns", 1, 12)
    if len(cells) % columns or (head and len(head) != columns):
        raise WrongParameter(kind=v.kind, name="cells", why=f"do not fill rows of {columns}")
    rows = [cells[k : k + columns] for k in range(0, len(cells), columns)]
    size, tall = 4.4, 9.0
    said = [[words.get(cell, cell) for cell in row] for row in ([head, *rows] if head else rows)]
    widths = [max(13.0, *(text_width(row[c], size) + 6 for row in said)) for c in range(columns)]
    total = sum(widths)
    body = rect(0.5, 0.5, total, tall * len(said), w=0.6)
    body += lines([(0.5, 0.5 + k * tall, 0.5 + total, 0.5 + k * tall) for k in range(1, len(said))], w=0.4)
    x = 0.5
    for c, wide in enumerate(widths):
        if c:
            body += line(x, 0.5, x, 0.5 + tall * len(said), w=0.4)
        for r, row in enumerate(said):
            y = 0.5 + (r + 0.5) * tall
            if row[c]:
                body += text(x + wide / 2, y, row[c], size=size, weight=600 if head and r == 0 else 400)
            else:
                body += write_box(x + wide / 2, y, 9, 7)
        x += wide
    return Art(body, total + 1, tall * len(said) + 1)


def calendar(v: Values, words: Mapping[str, str]) -> Art:
    """A month under its name, weeks in rows."""
    year, month = v.within("year", 1900, 2200), v.within("month", 1, 12)
    marks, blanks = set(v.numbers("marks")), set(v.numbers("blanks"))
    weeks = almanac.Calendar(v.within("first", 0, 6)).monthdayscalendar(year, month)
    wide, tall, top = 13.0, 9.5, 18.0
    name = f"month-{month}"
    body = text(0.5 + 3.5 * wide, 5, f"{words.get(name, name)} {year}", size=5.4, weight=600)
    for column in range(7):
        day = f"day-{(v.number('first') + column) % 7}"
        body += text(0.5 + (column + 0.5) * wide, top - 4.2, words.get(day, day), size=3.8)
    height = len(weeks) * tall
    body += rect(0.5, top, 7 * wide, height, w=0.6)
    body += lines([(0.5, top + k * tall, 0.5 + 7 * wide, top + k * tall) for k in range(1, len(weeks))], w=0.4)
    body += lines([(0.5 + k * wide, top, 0.5 + k * wide, top + height) for k in range(1, 7)], w=0.4)
    for r, week in enumerate(weeks):
        for c, day_number in enumerate(week):
            if day_number and day_number not in blanks:
                body += text(0.5 + (c + 0.5) * wide, top + (r + 0.5) * tall, str(day_number), size=4.4)
            if day_number in marks:
                x, y = 0.5 + (c + 0.5) * wide, top + (r + 0.5) * tall
                body += rect(x - 4.6, y - 3.9, 9.2, 7.8, r=3.9, w=0.7)
    return Art(body, 7 * wide + 1, top + height + 0.5)
