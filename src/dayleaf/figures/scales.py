"""Scales to read: a balance, a pitcher, a thermometer."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from dayleaf.figures.pen import Art, circle, dot, line, lines, num, path, polygon, rect, text, text_width
from dayleaf.figures.values import WrongParameter

if TYPE_CHECKING:
    from collections.abc import Mapping

    from dayleaf.figures.values import Values


_BETWEEN_CORDS = 13.0
"""Millimetres between the cords of a pan; a wider word stands below the pan."""


def balance(v: Values, words: Mapping[str, str]) -> Art:
    """Two pans on a beam that leans to the heavier side, or is held level by a peg."""
    left, right, locked = v.number("left"), v.number("right"), v.on("locked")
    lean = 0.0 if locked or left == right else (-7.0 if left > right else 7.0)
    titles = v.words("names") or (str(left), str(right))
    if len(titles) != 2:
        raise WrongParameter(kind=v.kind, name="names", why="are not two")
    x, y, arm = 45.0, 9.0, 29.0
    turn = math.radians(lean)
    dx, dy = arm * math.cos(turn), arm * math.sin(turn)
    body = polygon(((x - 9, 43), (x + 9, 43), (x + 1.2, y), (x - 1.2, y)))
    body += line(x - 14, 43, x + 14, 43, w=0.9)
    body += line(x - dx, y - dy, x + dx, y + dy, w=1.4) + circle(x, y, 1.8, fill="#fff")
    for side, title in zip((-1, 1), titles, strict=True):
        px, py = x + side * dx, y + side * dy
        body += lines([(px, py, px - 10, py + 17), (px, py, px + 10, py + 17)], w=0.4)
        body += path(f"M{num(px - 12)} {num(py + 17)}H{num(px + 12)}q-2 5 -7 5h-10q-5 0 -7 -5z", w=0.7)
        said = words.get(title, title)
        inside = text_width(said, 5.2) <= _BETWEEN_CORDS
        body += text(px, py + (12 if inside else 26.5), said, size=5.2 if inside else 4.6)
    if locked:
        body += rect(x - 4, y - 5.5, 8, 3, r=0.6, fill="#fff") + lines(
            [(x - 2, y - 2.5, x - 2, y - 0.8), (x + 2, y - 2.5, x + 2, y - 0.8)]
        )
    return Art(body, 90, 44)


def _scale(v: Values, lo: int, hi: int) -> tuple[int, int]:
    step, level = v.number("step"), v.number("level")
    if step < 1 or hi <= lo or (hi - lo) % step:
        raise WrongParameter(kind=v.kind, name="step", why=f"does not lead from {lo} to {hi}")
    if not lo <= level <= hi:
        raise WrongParameter(kind=v.kind, name="level", why=f"is {level}, not within {lo} … {hi}")
    return step, level


def jug(v: Values, words: Mapping[str, str]) -> Art:
    """A pitcher with marks up its side and the water's level as a thick line."""
    top = v.number("max")
    step, level = _scale(v, 0, top)
    unit = words.get(v.word("unit"), v.word("unit"))
    left, right, low, high = 6.0, 40.0, 50.0, 10.0

    def at(amount: float) -> float:
        return low - (low - high) * amount / top

    body = path(f"M{num(left - 5)} 3L{num(left)} 7V{num(low)}q0 3 3 3H{num(right - 3)}q3 0 3 -3V3z", w=0.8)
    body += path(f"M{num(right)} 12h6q5 0 5 6v14q0 6 -5 6h-6", w=0.8)
    marks = range(step, top + 1, step)
    body += lines(
        [(left, at(n), left + (7 if (n // step) % v.number("every") == 0 else 4), at(n)) for n in marks], w=0.45
    )
    for n in marks:
        if (n // step) % v.number("every") == 0:
            label = f"{n} {unit}" if n == marks[-1] else str(n)
            body += text(left + 8.5, at(n), label, size=3.7, anchor="start")
    if level:
        ripples = [(left + 22 + 4 * (k % 2), y, right - 3 + 0 * k, y) for k, y in enumerate(_down(at(level) + 3, low))]
        body += line(left, at(level), right, at(level), w=1.1) + lines(ripples)
    return Art(body, right + 12, low + 4)


def _down(start: float, end: float) -> list[float]:
    return [start + 3.4 * k for k in range(max(0, math.ceil((end - start) / 3.4)))]


def thermometer(v: Values, words: Mapping[str, str]) -> Art:
    """An upright scale with a filled tube."""
    lo, hi = v.number("lo"), v.number("hi")
    step, level = _scale(v, lo, hi)
    unit = v.one_of("unit", "F", "C")
    every = max(1, v.number("every"))
    marks = list(range(lo, hi + 1, step))
    pitch = min(7.0, max(1.5, 70 / (len(marks) - 1)))
    labelled = [n for k, n in enumerate(marks) if k % every == 0]
    wide = max(text_width(str(n), 4) for n in labelled)
    x, top = 4.5, 10.0
    low = top + pitch * (len(marks) - 1)

    def at(degrees: float) -> float:
        return low - (low - top) * (degrees - lo) / (hi - lo)

    body = path(f"M{num(x - 2)} {num(low + 5)}V{num(top - 4)}a2 2 0 0 1 4 0V{num(low + 5)}", w=0.6)
    body += circle(x, low + 8, 3.6, w=0.6) + dot(x, low + 8, 2.9)
    body += path(f"M{num(x)} {num(low + 8)}V{num(at(level))}", w=2.2, cap="butt")
    body += lines([(x + 3, at(n), x + 5, at(n)) for n in marks if n not in labelled], w=0.35)
    body += lines([(x + 3, at(n), x + 7, at(n)) for n in labelled], w=0.55)
    body += "".join(text(x + 8.5 + wide, at(n), str(n).replace("-", "−"), size=4, anchor="end") for n in labelled)
    body += text(x + 8.5 + wide / 2, 3, words.get(f"degrees-{unit}", f"°{unit}"), size=4.2, weight=600)
    return Art(body, x + 10 + wide + 2, low + 12.5)
