"""Wholes and parts: boxes, the family card, bars."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.figures.pen import Art, line, num, path, rect, text, text_width, write_box
from dayleaf.figures.values import WrongParameter

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from dayleaf.figures.values import Values


def _number(x: float, y: float, value: int, *, empty: bool, size: float = 6.4) -> str:
    return write_box(x, y, 14, 9.5) if empty else text(x, y, str(value), size=size)


def _hidden(v: Values, known: Sequence[str]) -> tuple[str, ...]:
    hidden = v.words("hidden")
    for name in hidden:
        if name not in known:
            raise WrongParameter(kind=v.kind, name="hidden", why=f"names “{name}”, not one of {', '.join(known)}")
    return hidden


def _boxes(whole: int | None, parts: Sequence[int | None]) -> tuple[str, float, float]:
    """A box over two or three boxes, joined by lines; None is an empty box."""
    wide, tall, gap = 20.0, 14.0, 8.0
    total = len(parts) * wide + (len(parts) - 1) * gap
    middle = 0.5 + total / 2
    low = 0.5 + tall + 10
    body = ""
    for k, part in enumerate(parts):
        x = 0.5 + k * (wide + gap)
        body += line(middle, 0.5 + tall, x + wide / 2, low)
        body += rect(x, low, wide, tall, r=1.5, w=0.6)
        body += "" if part is None else text(x + wide / 2, low + tall / 2, str(part), size=7)
    body += rect(middle - wide / 2, 0.5, wide, tall, r=1.5, w=0.6)
    body += "" if whole is None else text(middle, 0.5 + tall / 2, str(whole), size=7)
    return body, total + 1, low + tall + 0.5


def part_whole(v: Values, _words: Mapping[str, str]) -> Art:
    """The whole in a box over the boxes of its parts."""
    hidden = _hidden(v, ("whole", "a", "b", "c"))
    names = ("a", "b", "c") if v.number("c") >= 0 else ("a", "b")
    parts = [None if name in hidden else v.number(name) for name in names]
    return Art(*_boxes(None if "whole" in hidden else v.number("whole"), parts))


def family_card(v: Values, _words: Mapping[str, str]) -> Art:
    """A card with the whole above and its two parts below."""
    hidden = _hidden(v, ("w", "a", "b"))
    shown = {name: None if name in hidden else v.number(name) for name in ("w", "a", "b")}
    body, width, height = _boxes(shown["w"], (shown["a"], shown["b"]))
    inner = f'<g transform="translate(5 4.5)">{body}</g>'
    return Art(rect(0.5, 0.5, width + 9, height + 8, r=4, w=0.7) + inner, width + 10, height + 9)


def _brace(x1: float, x2: float, y: float) -> str:
    """A brace that opens downward over x1 … x2, its tip 4 mm above."""
    m = (x1 + x2) / 2
    d = f"M{num(x1)} {num(y)}q0 -2 2 -2H{num(m - 2)}q2 0 2 -2q0 2 2 2H{num(x2 - 2)}q2 0 2 2"
    return path(d)


def _shares(parts: Sequence[int]) -> list[float]:
    """Widths of the parts of a bar: a larger number has the longer part, not to scale."""
    order = sorted(set(parts))
    weights = [3 + 1.5 * order.index(part) for part in parts]
    return [weight / sum(weights) for weight in weights]


def bar_model(v: Values, words: Mapping[str, str]) -> Art:
    """One bar in parts under a brace, or two bars to compare with the difference between their ends."""
    if v.one_of("kind", "parts", "compare") == "compare":
        return _compare(v, words)
    hidden = _hidden(v, ("whole", "a", "b", "c"))
    names = ("a", "b", "c") if v.number("c") >= 0 else ("a", "b")
    parts = [v.number(name) for name in names]
    titles = [words.get(code, code) for code in v.words("names")]
    width, top, tall = 110.0, 17.0, 14.0
    body = _number(0.5 + width / 2, 6, v.number("whole"), empty="whole" in hidden)
    body += _brace(0.5, 0.5 + width, top - 1.5)
    x = 0.5
    for k, (name, part, share) in enumerate(zip(names, parts, _shares(parts), strict=True)):
        wide = width * share
        body += rect(x, top, wide, tall, w=0.6)
        body += _number(x + wide / 2, top + tall / 2, part, empty=name in hidden)
        if k < len(titles):
            body += text(x + wide / 2, top + tall + 4, titles[k], size=4.2)
        x += wide
    return Art(body, width + 1, top + tall + (7 if titles else 0.5))


def _compare(v: Values, words: Mapping[str, str]) -> Art:
    hidden = _hidden(v, ("a", "b", "difference"))
    big, small = v.number("a"), v.number("b")
    if big < small:
        raise WrongParameter(kind=v.kind, name="a", why=f"is {big}, the smaller of the two")
    titles = [words.get(code, code) for code in v.words("names")] or ["", ""]
    left = max(text_width(title, 4.6) for title in titles) + (4 if any(titles) else 0.5)
    long, tall = 96.0, 11.0
    short = long if big == small else 58.0
    body = ""
    for row, (name, value, wide) in enumerate((("a", big, long), ("b", small, short))):
        y = 0.5 + row * (tall + 3)
        body += rect(left, y, wide, tall, w=0.6)
        body += _number(left + wide / 2, y + tall / 2, value, empty=name in hidden, size=6)
        body += text(left - 3, y + tall / 2, titles[row], size=4.6, anchor="end") if titles[row] else ""
    if big > small:
        y = 0.5 + tall + 3
        body += line(left + long, 0.5 + tall, left + long, y + tall, dash="1.6 1.3", w=0.4)
        body += path(f"M{num(left + short + 1.5)} {num(y + tall / 2)}H{num(left + long - 1)}", dash="1.6 1.3", w=0.4)
        middle = left + (short + long) / 2
        box = "difference" in hidden
        body += rect(middle - 8, y, 16, tall, fill="#fff", stroke="none")
        body += _number(middle, y + tall / 2, big - small, empty=box, size=6)
    return Art(body, left + long + 1, 2 * tall + 4)
