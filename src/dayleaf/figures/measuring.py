"""Lengths at true size: rulers, things laid beside each other, ropes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.figures.pen import Art, circle, line, lines, num, path, polygon, rect, text, text_width, write_box
from dayleaf.figures.values import WrongParameter

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from dayleaf.figures.values import Values

CM, INCH = 10.0, 25.4
_LETTERS = "ABCDEF"


def thing(kind: str, x: float, y: float, length: float, *, tall: float = 6.0) -> str:
    """A strip, pencil or rope with straight ends from x to x + length, its middle at height y."""
    top = y - tall / 2
    if kind == "pencil":
        tip = min(7.0, length * 0.3)
        body = rect(x, top, length - tip, tall)
        body += polygon(((x + length - tip, top), (x + length, y), (x + length - tip, top + tall)))
        body += line(x + min(3.5, length * 0.2), top, x + min(3.5, length * 0.2), top + tall)
        lead = (x + length - tip * 0.3, tall * 0.15)
        return body + polygon(((lead[0], y - lead[1]), (x + length, y), (lead[0], y + lead[1])), fill="#000")
    if kind == "rope":
        half = tall * 0.3
        n = max(2, round(length / 3))
        step = length / n
        twists = [(x + k * step, y + half, x + min((k + 0.8) * step, length), y - half) for k in range(n)]
        return rect(x, y - half, length, 2 * half) + lines(twists)
    return rect(x, top, length, tall)


def _ruler(
    v: Values,
    unit: float,
    ticks: tuple[tuple[int, float], ...],
    top: int,
    name: str,
    *,
    past: float = 0,
    below: str = "",
) -> Art:
    """A ruler at true size; `ticks` are (parts a unit, length of tick) from fine to coarse.

    The thing reaches `past` units past its whole ones; `below` names a centimetre scale along the lower edge.
    """
    length = v.within("length", 1, top)
    start, end = v.within("start", 0, length), v.within("end", 0, length) + past
    if (end and end <= start) or end > length:
        raise WrongParameter(kind=v.kind, name="end", why=f"is {end}, not after {start} and up to {length}")
    edge, tall = 5.5, 32.0 if below else 17.0
    y = 13.0 if end else 0.5
    body = rect(0.5, y, length * unit + 2 * (edge - 0.5), tall, r=0.8, w=0.6)
    drawn: set[float] = set()
    for parts, size in reversed(ticks):
        marks = [k / parts for k in range(length * parts + 1) if k / parts not in drawn]
        drawn.update(marks)
        body += lines([(edge + m * unit, y, edge + m * unit, y + size) for m in marks], w=0.5 if parts == 1 else 0.35)
    body += "".join(text(edge + k * unit, y + 10, str(k), size=4.2) for k in range(length + 1))
    body += text(edge + length * unit, y + 14.4, name, size=2.9, anchor="end")
    if below:
        body += _lower_scale(edge, y + tall, length * unit, below)
    if end:
        body += thing(v.one_of("object", "strip", "pencil", "rope"), edge + start * unit, 5, (end - start) * unit)
        low = y + tall
        dashed = [(8.8, y - 0.6), *([(y + 11.6, low - 10.8), (low - 6, low)] if below else [])]
        ends = (edge + start * unit, edge + end * unit)
        body += path("".join(f"M{num(x)} {num(a)}V{num(b)}" for x in ends for a, b in dashed), w=0.35, dash="1 1")
    return Art(body, length * unit + 2 * edge, y + tall + 0.5)


def _lower_scale(edge: float, y: float, reach: float, name: str) -> str:
    """Centimetres along the lower edge `y` of a ruler, as far as the edge reaches."""
    whole = int(reach // CM)
    marks = [(edge + CM * k, y, edge + CM * k, y - 5.6) for k in range(whole + 1)]
    halves = [(edge + CM * (k + 0.5), y, edge + CM * (k + 0.5), y - 3.2) for k in range(whole)]
    numbers = "".join(text(edge + CM * k, y - 8.6, str(k), size=3.7) for k in range(whole + 1))
    return (
        lines(marks, w=0.5)
        + lines(halves, w=0.35)
        + numbers
        + text(edge + reach, y - 12.6, name, size=2.9, anchor="end")
    )


def ruler_cm(v: Values, words: Mapping[str, str]) -> Art:
    """A centimetre ruler at true size, zero inside the edge, with or without a thing over it."""
    return _ruler(v, CM, ((2, 3.2), (1, 5.6)), 18, words.get("cm", "cm"))


def ruler_in(v: Values, words: Mapping[str, str]) -> Art:
    """An inch ruler at true size with halves or quarters."""
    parts = v.number("parts")
    if parts not in {1, 2, 4}:
        raise WrongParameter(kind=v.kind, name="parts", why=f"is {parts}, not 1, 2 or 4")
    ticks = {1: ((1, 5.6),), 2: ((2, 3.8), (1, 5.6)), 4: ((4, 2.6), (2, 3.8), (1, 5.6))}
    below = words.get("cm", "cm") if v.on("both") else ""
    past = v.within("quarters", 0, 3) / 4
    return _ruler(v, INCH, ticks[parts], 7, words.get("inches", "inches"), past=past, below=below)


def tape_measure(v: Values, words: Mapping[str, str]) -> Art:
    """Ropes in proportion, each with its length or an empty box."""
    values, names, hidden = v.numbers("values"), v.words("names"), set(v.numbers("hidden"))
    if not values or min(values) < 1:
        raise WrongParameter(kind=v.kind, name="values", why="holds no length")
    unit = words.get(v.word("unit"), v.word("unit"))
    titles = [words.get(code, code) for code in names]
    left = max((text_width(title, 4.4) for title in titles), default=0) + (3 if titles else 0.5)
    scale = 100 / max(values)
    body = ""
    for k, value in enumerate(values):
        y = 5 + k * 11
        if k < len(titles):
            body += text(left - 2.5, y, titles[k], size=4.4, anchor="end")
        body += thing("rope", left, y, value * scale, tall=5)
        x = left + value * scale + 3
        if k in hidden:
            body += write_box(x + 7, y, 14, 8) + text(x + 16, y, unit, size=4.4, anchor="start")
        else:
            body += text(x, y, f"{value} {unit}", size=4.4, anchor="start")
    return Art(body, left + 100 + 28, 11 * len(values) - 1)


def _laid(units: Sequence[int], gap: int, x: float, top: float) -> str:
    """Units in a line, each with a knob, so that two beside one another are told apart."""
    body = ""
    for unit in units:
        body += rect(x, top, unit, 7, w=0.5) + circle(x + unit / 2, top + 3.5, 1.3, w=0.4)
        x += unit + gap
    return body


def objects_line(v: Values, words: Mapping[str, str]) -> Art:
    """Two to four things one under another at true size, from one starting line unless pushed."""
    lengths, starts = v.numbers("lengths"), v.numbers("starts")
    starts = starts or (0,) * len(lengths)
    if not 1 <= len(lengths) <= 4 or len(starts) != len(lengths) or min(lengths) < 5:
        raise WrongParameter(kind=v.kind, name="lengths", why="are not one to four lengths of 5 mm or more")
    end = max(a + b for a, b in zip(starts, lengths, strict=True))
    if end > 160 or min(starts) < 0:
        raise WrongParameter(kind=v.kind, name="lengths", why="reach past 160 mm")
    kind = v.one_of("object", "strip", "pencil", "rope", "mixed")
    titles = [words.get(code, code) for code in v.words("names")] or list(_LETTERS[: len(lengths)])
    alone = len(lengths) == 1 and not v.words("names")
    left = 0.5 if alone else max(text_width(title, 4.8) for title in titles) + 4
    mixed = ("strip", "pencil", "rope", "strip")
    body = ""
    for k, (start, length) in enumerate(zip(starts, lengths, strict=True)):
        y = 5 + k * 11
        if not alone:
            body += text(left - 3, y, titles[k], size=4.8, anchor="end", weight=600)
        body += thing(mixed[k] if kind == "mixed" else kind, left + start, y, length)
    height = 11.0 * len(lengths) - 1
    if v.numbers("units"):
        body += _laid(v.numbers("units"), v.within("gap", 0, 20), left + starts[0], height + 1.5)
        height += 9.5
    if len(lengths) > 1 and len(set(starts)) == 1:
        body += line(left + starts[0], 0.5, left + starts[0], height - 0.5, w=0.35, dash="1 1")
    return Art(body, left + end + 1, height)
