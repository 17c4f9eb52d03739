"""Rows and columns: dots, squares, a map with lettered squares, cards with steps."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.figures.landmarks import landmark
from dayleaf.figures.pen import (
    Art,
    arrow_head,
    box_points,
    dot,
    hatch,
    line,
    lines,
    num,
    path,
    polygon,
    polyline,
    rect,
    text,
)
from dayleaf.figures.values import WrongParameter

if TYPE_CHECKING:
    from collections.abc import Mapping

    from dayleaf.figures.pen import Point
    from dayleaf.figures.values import Values


def array_dots(v: Values, _words: Mapping[str, str]) -> Art:
    """Dots in even rows, rows or columns ringed if asked."""
    r, c = v.within("r", 1, 12), v.within("c", 1, 12)
    ring = v.one_of("ring", "none", "rows", "columns")
    step = 8.0 if ring != "none" else 7.0
    body = "".join(dot(step * (x + 0.5) + 1, step * (y + 0.5) + 1, 2.2) for y in range(r) for x in range(c))
    if ring == "rows":
        body += "".join(rect(1, step * y + 1.6, step * c, step - 1.2, r=3.2) for y in range(r))
    elif ring == "columns":
        body += "".join(rect(step * x + 1.6, 1, step - 1.2, step * r, r=3.2) for x in range(c))
    return Art(body, step * c + 2, step * r + 2)


def area_grid(v: Values, _words: Mapping[str, str]) -> Art:
    """Squares in rows, some of them hatched."""
    r, c = v.within("r", 1, 12), v.within("c", 1, 12)
    cells = v.numbers("cells")
    if any(not 0 <= cell < r * c for cell in cells):
        raise WrongParameter(kind=v.kind, name="cells", why=f"are not all within 0 … {r * c - 1}")
    side = 8.0
    body = "".join(
        hatch(box_points(0.5 + side * (k % c), 0.5 + side * (k // c), side, side)) for k in sorted(set(cells))
    )
    for k in v.numbers("halves"):
        x, y = 0.5 + side * (k % c), 0.5 + side * (k // c)
        corner = ((x, y + side), (x + side, y), (x + side, y + side))
        body += hatch(corner) + line(*corner[0], *corner[1], w=0.6)
    body += rect(0.5, 0.5, side * c, side * r, w=0.7)
    inner = [(0.5, 0.5 + side * k, 0.5 + side * c, 0.5 + side * k) for k in range(1, r)]
    inner += [(0.5 + side * k, 0.5, 0.5 + side * k, 0.5 + side * r) for k in range(1, c)]
    return Art(body + lines(inner, w=0.4), side * c + 1, side * r + 1)


_TURN = {"up": 0, "right": 90, "down": 180, "left": 270}


def grid_map(v: Values, words: Mapping[str, str]) -> Art:
    """A map: letters along the bottom, numbers up the side, things in squares, a mover with a nose."""
    columns, rows = v.within("columns", 2, 9), v.within("rows", 2, 9)
    things, places = v.words("things"), v.words("places")
    if len(things) != len(places):
        raise WrongParameter(kind=v.kind, name="places", why=f"are {len(places)} for {len(things)} things")
    side, left, top = 13.0, 8.0, 0.5

    def middle(square: str) -> Point:
        column, row = ord(square[:1] or " ") - ord("A"), int(square[1:]) if square[1:].isdecimal() else 0
        if not (0 <= column < columns and 1 <= row <= rows):
            raise WrongParameter(kind=v.kind, name="places", why=f"or another square, “{square}”, is not on the map")
        return left + (column + 0.5) * side, top + (rows - row + 0.5) * side

    body = rect(left, top, columns * side, rows * side, w=0.7)
    inner = [(left, top + side * k, left + columns * side, top + side * k) for k in range(1, rows)]
    inner += [(left + side * k, top, left + side * k, top + rows * side) for k in range(1, columns)]
    body += lines(inner, w=0.4)
    body += "".join(
        text(left + (k + 0.5) * side, top + rows * side + 5, "ABCDEFGHI"[k], size=5) for k in range(columns)
    )
    body += "".join(text(left - 4.5, top + (rows - k - 0.5) * side, str(k + 1), size=5) for k in range(rows))
    for code, square in zip(things, places, strict=True):
        body += landmark(code, *middle(square), word=words.get(code, code), room=side - 2)
    if v.words("path"):
        body += polyline([middle(square) for square in v.words("path")], w=0.9, dash="2 1.6")
    for mark in v.words("marks"):
        letter, _, square = mark.partition("=")
        body += text(*middle(square), letter, size=6, weight=600)
    if v.word("start"):
        x, y = middle(v.word("start"))
        turn = _TURN[v.one_of("facing", *_TURN)]
        nose = polygon(((x, y - 5), (x + 4, y + 3.8), (x, y + 1.8), (x - 4, y + 3.8)), w=0.6, fill="#000")
        body += f'<g transform="rotate({turn} {num(x)} {num(y)})">{nose}</g>'
    return Art(body, left + columns * side + 0.5, top + rows * side + 8.5)


_CARD_W, _CARD_H = 13.0, 13.0


def _card(step: str, x: float, y: float) -> str:
    cx, cy = x + _CARD_W / 2, y + _CARD_H / 2
    body = rect(x, y, _CARD_W, _CARD_H, r=1.6, w=0.5, dash="1.6 1.3" if step == "blank" else "")
    if step in {"forward", *_TURN}:
        degrees = 0 if step == "forward" else _TURN[step]
        arrow = line(cx, cy + 4.2, cx, cy - 2, w=1.1) + arrow_head(cx, cy - 4.4, 270, size=4)
        if step == "forward":
            arrow += line(cx - 3, cy + 4.2, cx + 3, cy + 4.2, w=1.1)
        return body + f'<g transform="rotate({degrees} {num(cx)} {num(cy)})">{arrow}</g>'
    if step in {"turn-left", "turn-right"}:
        s = -1 if step == "turn-left" else 1
        sweep = 1 if s > 0 else 0
        turn = f"A3.5 3.5 0 0 {sweep} {num(cx + s * 0.5)} {num(cy - 2.5)}h{num(s * 1.4)}"
        body += path(f"M{num(cx - s * 3)} {num(cy + 4.5)}V{num(cy + 1)}{turn}", w=1.1)
        return body + arrow_head(cx + s * 5, cy - 2.5, 0 if s > 0 else 180, size=4)
    return body


def one_step(step: str) -> Art:
    """One card alone, as large as it is in a row of them."""
    return Art(_card(step, 0, 0), _CARD_W, _CARD_H)


def step_cards(v: Values, _words: Mapping[str, str]) -> Art:
    """Steps on cards in order; a bracket with a number holds what is done again and again."""
    steps = v.words("steps")
    known = {"forward", "turn-left", "turn-right", "blank", "end", *_TURN}
    body, x, number, y = "", 0.5, 0, 7.5
    opened: list[tuple[float, str]] = []
    for step in steps:
        again = step.removeprefix("repeat-")
        if again != step and again.isdecimal():
            opened.append((x, again))
            x += 3
        elif step == "end" and opened:
            start, times = opened.pop()
            x += 1
            body += rect(start, y - 2, x - start, _CARD_H + 4, r=2.5, w=0.7)
            body += text((start + x) / 2, 2.4, f"{times} ×", size=4.6, weight=600)
            x += 2.5
        elif step in known - {"end"}:
            number += 1
            body += _card(step, x, y)
            if v.on("numbered"):
                body += text(x + _CARD_W / 2, y + _CARD_H + 5.2, str(number), size=4)
            x += _CARD_W + 2
        else:
            raise WrongParameter(kind=v.kind, name="steps", why=f"hold “{step}”, which is no step here")
    if opened:
        raise WrongParameter(kind=v.kind, name="steps", why="begin a repeat that has no end")
    return Art(body, x, y + _CARD_H + (8 if v.on("numbered") else 3))
