"""Data to read: tallies, picture graphs, bar graphs, line plots."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from dayleaf.figures.pen import (
    Art,
    box_points,
    circle,
    dot,
    fraction,
    hatch,
    line,
    lines,
    num,
    path,
    polygon,
    rect,
    text,
    text_width,
    write_box,
)
from dayleaf.figures.values import WrongParameter

if TYPE_CHECKING:
    from collections.abc import Mapping

    from dayleaf.figures.values import Values

_SIZE = 4.4


def _titles(v: Values, words: Mapping[str, str], n: int) -> list[str]:
    labels = v.words("labels")
    if labels and len(labels) != n:
        raise WrongParameter(kind=v.kind, name="labels", why=f"are {len(labels)} for {n} numbers")
    return [words.get(code, code) for code in labels]


def _marks(x: float, y: float, count: int) -> str:
    """Tally marks 8 mm tall: four strokes and a fifth across them."""
    body = ""
    for k in range(-(-count // 5)):
        here = min(5, count - 5 * k)
        x0 = x + 11.5 * k
        strokes = [(x0 + 2.1 * j, y - 4, x0 + 2.1 * j, y + 4) for j in range(min(here, 4))]
        if here == 5:
            strokes.append((x0 - 1.6, y + 3.2, x0 + 7.9, y - 3.2))
        body += lines(strokes, w=0.6)
    return body


def tally(v: Values, words: Mapping[str, str]) -> Art:
    """Tally marks, alone or in a table with a line for each category."""
    counts = v.numbers("counts")
    if not counts or min(counts) < 0 or max(counts) > 30:
        raise WrongParameter(kind=v.kind, name="counts", why="are not numbers from 0 to 30")
    titles = _titles(v, words, len(counts))
    wide = max(11.5 * -(-count // 5) for count in counts)
    if not titles:
        body = "".join(_marks(2.5, 5.5 + 12 * k, count) for k, count in enumerate(counts))
        return Art(body, max(wide, 8) + 1, 12.0 * len(counts) - 1)
    numbers = v.within("numbers", 0, 2)
    left = max(text_width(title, _SIZE) for title in titles) + 6
    middle = max(wide + 5, 26.0)
    right = 16.0 if numbers else 0.0
    tall = 11.0
    total = left + middle + right
    body = rect(0.5, 0.5, total, tall * len(counts), w=0.6)
    rules = [(0.5, 0.5 + k * tall, 0.5 + total, 0.5 + k * tall) for k in range(1, len(counts))]
    rules.append((0.5 + left, 0.5, 0.5 + left, 0.5 + tall * len(counts)))
    if numbers:
        rules.append((0.5 + left + middle, 0.5, 0.5 + left + middle, 0.5 + tall * len(counts)))
    body += lines(rules, w=0.4)
    for k, count in enumerate(counts):
        y = 0.5 + (k + 0.5) * tall
        body += text(3.5, y, titles[k], size=_SIZE, anchor="start") + _marks(0.5 + left + 4, y, count)
        x = 0.5 + left + middle + right / 2
        if numbers:
            body += write_box(x, y, 11, 8) if numbers == 2 else text(x, y, str(count), size=_SIZE)
    return Art(body, total + 1, tall * len(counts) + 1)


def _half_icon(kind: str, x: float, y: float) -> str:
    """The left half of a picture, cut straight down the middle."""
    if kind in {"dot", "ring"}:
        r = 2.7 if kind == "dot" else 2.6
        half = f"M{num(x)} {num(y - r)}A{num(r)} {num(r)} 0 0 0 {num(x)} {num(y + r)}Z"
        return path(half, w=0.35, fill="#000") if kind == "dot" else path(half, w=0.6)
    if kind == "square":
        return rect(x - 2.5, y - 2.5, 2.5, 5, w=0.6)
    return polygon(((x, y - 2.8), (x, y + 2.4), (x - 2.9, y + 2.4)), w=0.6)


def _icon(kind: str, x: float, y: float) -> str:
    if kind == "dot":
        return dot(x, y, 2.7)
    if kind == "ring":
        return circle(x, y, 2.6, w=0.6)
    if kind == "square":
        return rect(x - 2.5, y - 2.5, 5, 5, w=0.6)
    return polygon(((x, y - 2.8), (x + 2.9, y + 2.4), (x - 2.9, y + 2.4)), w=0.6)


def picture_graph(v: Values, words: Mapping[str, str]) -> Art:
    """Rows of one and the same picture from a common edge, with a key."""
    data = v.numbers("data")
    if not 1 <= len(data) <= 6 or min(data) < 0 or max(data) > 12:
        raise WrongParameter(kind=v.kind, name="data", why="are not up to six numbers from 0 to 12")
    titles = _titles(v, words, len(data))
    icon = v.one_of("icon", "dot", "square", "triangle", "ring")
    halves = v.numbers("halves") or (0,) * len(data)
    if len(halves) != len(data):
        raise WrongParameter(kind=v.kind, name="halves", why=f"are {len(halves)} for {len(data)} rows")
    heading = words.get(v.word("title"), v.word("title"))
    left = max((text_width(title, _SIZE) for title in titles), default=0) + 4
    step, tall, top = 8.0, 10.0, 9.0 if heading else 1.0
    most = max(*(n + half for n, half in zip(data, halves, strict=True)), v.within("room", 0, 12), 5)
    wide = max(step * most + 3, 44.0)
    bottom = top + tall * len(data)
    body = text(left + wide / 2, 4, heading, size=5, weight=600) if heading else ""
    body += line(left, top, left, bottom, w=0.7)
    body += lines(
        [(left, top + k * tall, left + wide, top + k * tall) for k in range(1, len(data))], w=0.35, stroke="#8c8c8c"
    )
    for k, count in enumerate(data):
        y = top + (k + 0.5) * tall
        body += text(left - 2.5, y, titles[k] if titles else "", size=_SIZE, anchor="end")
        body += "".join(_icon(icon, left + 1 + step * (j + 0.5), y) for j in range(count))
        if halves[k]:
            body += _half_icon(icon, left + 1 + step * (count + 0.5), y)
    body += line(left, bottom, left + wide, bottom, w=0.7)
    key = f"= {v.number('each')}"
    body += _icon(icon, left + 6, bottom + 6) + text(left + 11, bottom + 6, key, size=_SIZE, anchor="start")
    return Art(body, left + wide + 1, bottom + 11)


def bar_graph(v: Values, words: Mapping[str, str]) -> Art:
    """Upright bars on a square grid, one step a square, each labelled under its foot."""
    data = v.numbers("data")
    if not 1 <= len(data) <= 6 or min(data) < -1 or max(data) > 20:
        raise WrongParameter(kind=v.kind, name="data", why="are not up to six numbers from -1 to 20")
    top_number = v.within("max", 0, 21) or max(*data, 3) + 1
    if max(data) > top_number:
        raise WrongParameter(kind=v.kind, name="max", why=f"is {top_number}, lower than a bar")
    titles = _titles(v, words, len(data))
    heading = words.get(v.word("title"), v.word("title"))
    cell = 6.0 if top_number <= 12 else 4.6
    column = max(2 * cell, max((text_width(title, 4) for title in titles), default=0) + 3)
    each = v.within("each", 1, 100)
    left, top = 9.0 if each == 1 else 12.0, 9.0 if heading else 3.0
    width, bottom = column * len(data) + cell, top + cell * top_number
    body = text(left + width / 2, 4, heading, size=5, weight=600) if heading else ""
    grid = [(left, bottom - cell * k, left + width, bottom - cell * k) for k in range(1, top_number + 1)]
    body += lines(grid, w=0.35, stroke="#8c8c8c")
    for k, count in enumerate(data):
        x, tall = left + cell / 2 + column * k + (column - 1.4 * cell) / 2, cell * max(count, 0)
        if count > 0:
            body += rect(x, bottom - tall, 1.4 * cell, tall, fill="#fff", stroke="none")
            body += hatch(box_points(x, bottom - tall, 1.4 * cell, tall), gap=1.6)
            body += rect(x, bottom - tall, 1.4 * cell, tall, w=0.6)
        if titles:
            body += text(left + cell / 2 + column * (k + 0.5), bottom + 4.5, titles[k], size=4)
    every = 1 if cell > 5 or top_number <= 12 else 2
    body += "".join(
        text(left - 2, bottom - cell * k, str(k * each), size=3.7, anchor="end")
        for k in range(0, top_number + 1, every)
    )
    body += lines([(left, top - 1, left, bottom), (left, bottom, left + width, bottom)], w=0.7)
    return Art(body, left + width + 1, bottom + (8 if titles else 2))


def line_plot(v: Values, words: Mapping[str, str]) -> Art:
    """Crosses in columns over a line of whole numbers."""
    lo, data = v.number("lo"), v.numbers("data")
    if not 2 <= len(data) <= 16 or min(data) < 0 or max(data) > 12:
        raise WrongParameter(kind=v.kind, name="data", why="are not 2 to 16 numbers from 0 to 12")
    heading, unit = (words.get(code, code) for code in (v.word("title"), v.word("unit")))
    step, rise = 11.0, 5.4
    top = 9.0 if heading else 2.0
    parts = v.within("parts", 1, 4)
    y = top + rise * max(*data, v.within("room", 0, 12), 1) + 2
    width = step * len(data) + 6
    body = text(width / 2, 4, heading, size=5, weight=600) if heading else ""
    body += line(1, y, width - 1, y, w=0.6)
    for k, count in enumerate(data):
        x = 3 + step * (k + 0.5)
        body += line(x, y - 1.6, x, y + 1.6) + _length(x, y + 5.6, lo + k, parts)
        marks = [(x - 1.6, cy - 1.6, x + 1.6, cy + 1.6) for cy in (y - 4.2 - rise * j for j in range(count))]
        body += lines([*marks, *((a, d, c, b) for a, b, c, d in marks)], w=0.6)
    under = 11.5 if parts == 1 else 15.5
    body += text(width / 2, y + under, unit, size=4) if unit else ""
    return Art(body, width, y + under + (3 if unit else -2.5))


def _length(x: float, y: float, n: int, parts: int) -> str:
    """So many parts of a unit: the whole ones, then a stacked fraction in lowest terms."""
    whole, top = divmod(n, parts)
    if not top:
        return text(x, y, str(whole), size=4.2)
    by = math.gcd(top, parts)
    said = text(x - 2.6, y + 1.6, str(whole), size=4.2) if whole else ""
    return said + fraction(x + (1.4 if whole else 0), y + 1.6, top // by, parts // by, size=3.4)
