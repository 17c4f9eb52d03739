"""Tens and ones to see: bundles of sticks, blocks, and the place-value mat."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.figures.pen import (
    THIN,
    Art,
    arrow_head,
    line,
    lines,
    polygon,
    rect,
    strike,
    text,
    write_box,
)
from dayleaf.figures.values import WrongParameter

if TYPE_CHECKING:
    from collections.abc import Mapping

    from dayleaf.figures.values import Values

_STICK_W, _STICK_H = 1.1, 22.0
_PLACES = ("thousands", "hundreds", "tens", "ones")


def _sticks(x: float, y: float, n: int, step: float) -> str:
    return "".join(rect(x + k * step, y, _STICK_W, _STICK_H, r=0.5, w=THIN) for k in range(n))


def bundle(v: Values, _words: Mapping[str, str]) -> Art:
    """Bundles of ten sticks with a band, and single sticks; an opened bundle lies in a dashed ring."""
    tens, ones = v.within("tens", 0, 12), v.within("ones", 0, 19)
    opened = v.within("opened", 0, tens)
    wide, gap, a_line = 10 * 1.25, 4.0, 6
    closed = tens - opened
    body = ""
    for k in range(closed):
        x, y = 1 + (k % a_line) * (wide + gap), 1 + (k // a_line) * (_STICK_H + 4)
        body += _sticks(x, y, 10, 1.25)
        body += rect(x - 0.6, y + 8.5, wide + 1.05, 4.2, r=1, fill="#fff")
    x = 1 + min(closed, a_line) * (wide + gap)
    for _ in range(opened):
        body += rect(x, 1, 10 * 2.6 + 2.4, _STICK_H, r=3, dash="1.6 1.2", w=THIN)
        body += "".join(rect(x + 2 + j * 2.6, 3, _STICK_W, _STICK_H - 4, r=0.5, w=THIN) for j in range(10))
        x += 10 * 2.6 + 2.4 + gap
    if tens and ones:
        x += 1
    for k in range(ones):
        body += rect(
            x + (k % 10) * 3 + (k % 10 // 5) * 1.6, 1 + (k // 10) * (_STICK_H + 4), _STICK_W, _STICK_H, r=0.5, w=THIN
        )
    if ones:
        x += (min(ones, 10) - 1) * 3 + 1.6 + _STICK_W
    stacked = closed > a_line or ones > 10
    return Art(body, max(x + 1, 4.0), 2 + _STICK_H + (_STICK_H + 4 if stacked else 0))


def _rod(x: float, y: float, unit: float, *, dashed: bool = False) -> str:
    if dashed:
        return rect(x, y, unit, 10 * unit, dash="1.4 1.1", w=0.4)
    inner = [(x, y + k * unit, x + unit, y + k * unit) for k in range(1, 10)]
    return lines(inner) + rect(x, y, unit, 10 * unit, w=0.45)


def _flat(x: float, y: float, unit: float) -> str:
    side = 10 * unit
    inner = [(x, y + k * unit, x + side, y + k * unit) for k in range(1, 10)]
    inner += [(x + k * unit, y, x + k * unit, y + side) for k in range(1, 10)]
    return (lines(inner) if unit >= 2.5 else "") + rect(x, y, side, side, w=0.55)


def _cube(x: float, y: float, unit: float) -> str:
    side, deep = 10 * unit, 4 * unit
    top = ((x, y + deep), (x + deep, y), (x + side + deep, y), (x + side, y + deep))
    right = ((x + side, y + deep), (x + side + deep, y), (x + side + deep, y + side), (x + side, y + side + deep))
    return _flat(x, y + deep, unit) + polygon(top) + polygon(right)


def _ones(x: float, y: float, unit: float, n: int, crossed: int) -> tuple[str, float]:
    """Single cubes in columns of five; gives the drawing and its width."""
    step, body = unit + 1.5, ""
    places = [(x + (k // 5) * step, y + (k % 5) * step) for k in range(n)]
    body = "".join(rect(px, py, unit, unit, w=0.45) for px, py in places)
    body += "".join(strike(px + unit / 2, py + unit / 2, unit / 2 + 0.2) for px, py in places[n - crossed :])
    return body, -(-n // 5) * step


def base_ten(v: Values, _words: Mapping[str, str]) -> Art:
    """Thousand cubes, hundred squares, ten rods and one cubes, largest first; pieces crossed out or traded."""
    th, h = v.within("th", 0, 3), v.within("h", 0, 9)
    t, o = v.within("t", 0, 19), v.within("o", 0, 19)
    crossed_t, crossed_o = v.within("crossed_t", 0, t), v.within("crossed_o", 0, o)
    traded = v.on("traded")
    if traded and o < 10:
        raise WrongParameter(kind=v.kind, name="traded", why="asks for at least ten ones")
    unit = 3.0 if h <= 3 and not th else 2.5
    body, x = "", 1.0
    top = 1.0 + (4 * unit if th else 0)
    for _ in range(th):
        body += _cube(x, 1, unit)
        x += 14 * unit + 3
    for k in range(h):
        body += _flat(x + (k % 3) * (10 * unit + 2), top + (k // 3) * (10 * unit + 2), unit)
    if h:
        x += min(h, 3) * (10 * unit + 2) + 2
    height = top + max(1, -(-h // 3)) * (10 * unit + 2) - 1
    for k in range(t):
        rod_x = x + k * (unit + 1.8) + (k // 5) * 1.8
        body += _rod(rod_x, top, unit)
        if k >= t - crossed_t:
            body += strike(rod_x + unit / 2, top + 5 * unit, unit / 2 + 0.8)
    if t:
        x += t * (unit + 1.8) + ((t - 1) // 5) * 1.8 + 2
    if traded:
        art, x = _opened_rod(x, top, unit, o, crossed_o)
        body += art
    elif o:
        art, wide = _ones(x + 0.5, top, unit, o, crossed_o)
        body += art
        x += wide
    return Art(body, max(x, 4.0), height)


def _opened_rod(x: float, top: float, unit: float, o: int, crossed: int) -> tuple[str, float]:
    """A rod that was opened (dashes), an arrow, and its ten cubes in a dashed ring beside the others."""
    body = _rod(x, top, unit, dashed=True)
    middle = top + 2.5 * (unit + 1.5) - 0.75
    x += unit + 1.5
    body += line(x, middle, x + 5, middle) + arrow_head(x + 6, middle, 0)
    x += 8
    loose = o - 10
    ring, wide = _ones(x + 1.2, top + 0.6, unit, 10, min(crossed, 10))
    body += rect(x, top - 0.6, wide + 0.9, 5 * (unit + 1.5) + 0.9, r=1.5, dash="1.4 1.1", w=0.4) + ring
    x += wide + 4
    if loose:
        rest, wide = _ones(x, top + 0.6, unit, loose, max(0, crossed - 10))
        body += rest
        x += wide
    return body, x


def pv_mat(v: Values, words: Mapping[str, str]) -> Art:
    """Columns headed by their places, with digits, blocks or nothing in them."""
    digits = v.numbers("digits")
    show = v.one_of("show", "digits", "blocks", "empty")
    if not 2 <= len(digits) <= 4:
        raise WrongParameter(kind=v.kind, name="digits", why="do not fill two to four places")
    places = _PLACES[-len(digits) :]
    head = 8.0
    widths, tall = _mat_size(digits, show)
    body, x = "", 0.5
    for place, digit, wide in zip(places, digits, widths, strict=True):
        body += text(x + wide / 2, 0.5 + head / 2, words.get(place, place), size=3.9)
        middle = 0.5 + head + tall / 2
        if show == "digits":
            box = write_box(x + wide / 2, middle, 10, 12)
            body += box if digit < 0 else text(x + wide / 2, middle, str(digit), size=9)
        elif show == "blocks":
            body += _mat_pieces(place, max(digit, 0), x + 2, 0.5 + head + 2.5, _mat_unit(len(digits)))
        if x > 1:
            body += line(x, 0.5, x, 0.5 + head + tall, w=0.4)
        x += wide
    body += rect(0.5, 0.5, x - 0.5, head + tall, w=0.7) + line(0.5, 0.5 + head, x, 0.5 + head, w=0.4)
    return Art(body, x + 0.5, head + tall + 1)


def _mat_unit(places: int) -> float:
    """The side of a one cube, smaller where hundreds and thousands must fit; all pieces keep their proportion."""
    return {2: 2.5, 3: 2.0}.get(places, 1.3)


def _mat_size(digits: tuple[int, ...], show: str) -> tuple[list[float], float]:
    if show != "blocks":
        return [26.0] * len(digits), 17.0 if show == "digits" else 40.0
    unit = _mat_unit(len(digits))
    need = {
        "ones": -(-max(digits[-1], 0) // 5) * (unit + 1.5),
        "tens": max(digits[-2], 0) * (unit + 1.3),
        "hundreds": (min(max(digits[-3], 0), 3) if len(digits) > 2 else 0) * (10 * unit + 2),
        "thousands": max(digits[0], 0) * (14 * unit + 2),
    }
    rows = -(-max(digits[-3], 1) // 3) if len(digits) > 2 else 1
    tall = max(rows * (10 * unit + 2), 14 * unit if len(digits) > 3 else 0, 5 * (unit + 1.5)) + 4
    return [max(26.0, need[place] + 4) for place in _PLACES[-len(digits) :]], tall


def _mat_pieces(place: str, n: int, x: float, y: float, unit: float) -> str:
    if place == "ones":
        return _ones(x, y, unit, n, 0)[0]
    if place == "tens":
        return "".join(_rod(x + k * (unit + 1.3), y, unit) for k in range(n))
    if place == "hundreds":
        side = 10 * unit + 2
        return "".join(_flat(x + (k % 3) * side, y + (k // 3) * side, unit) for k in range(n))
    return "".join(_cube(x + k * (14 * unit + 2), y, unit) for k in range(n))
