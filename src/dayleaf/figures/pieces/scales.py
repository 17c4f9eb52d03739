"""Scales to cut out: rulers, sticks and tapes in strips, number lines, the number path, the thermometer.

A scale runs from left to right; its zero lies inside the edge. Every tick is computed from its own number, never by
adding steps, so that the last one lies as true as the first.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from dayleaf.figures.pen import Art, arrow_head, hatch, line, lines, path, rect, text

if TYPE_CHECKING:
    from collections.abc import Sequence

CM: Final = 10.0
INCH: Final = 25.4
"""Exactly, since 1959 (NIST Handbook 44, appendix C)."""
EDGE: Final = 8.0
"""Millimetres from a ruler's end to its first mark."""
TAB: Final = 10.0
"""Millimetres of paper at a strip's right end that the next strip is glued on."""
BETWEEN: Final = 0.45
"""Where strips meet, in units after a mark."""


@dataclass(frozen=True, slots=True)
class Ticks:
    """How one edge of a scale is cut: `unit` mm, `parts` of a unit with the length of their ticks, coarse to fine."""

    unit: float
    parts: tuple[tuple[int, float], ...]
    name: str = ""


METRIC: Final = Ticks(CM, ((1, 7.5), (2, 5.2), (10, 3.2)), "cm")
WHOLE_CM: Final = Ticks(CM, ((1, 7.5), (2, 4.5)), "cm")
INCHES: Final = Ticks(INCH, ((1, 7.5), (2, 5.2), (4, 3.4)), "in")


def _edge(ticks: Ticks, *, first: int, last: int, x0: float, y: float, down: bool) -> str:
    """The ticks of `first` … `last` at `x0` + distance from `first`, reaching down from y or up from it."""
    sign = 1.0 if down else -1.0
    done: set[float] = set()
    body = ""
    for parts, length in ticks.parts:
        marks = [first + k / parts for k in range((last - first) * parts + 1)]
        fresh = [mark for mark in marks if mark not in done]
        done.update(fresh)
        at = [x0 + (mark - first) * ticks.unit for mark in fresh]
        body += lines([(x, y, x, y + sign * length) for x in at], w=0.5 if parts == 1 else 0.35)
    numbers = range(first, last + 1)
    body += "".join(
        text(x0 + (n - first) * ticks.unit, y + sign * 11.0, str(n), size=4.4 if ticks.unit >= CM else 3.4)
        for n in numbers
    )
    return body


def ruler(upper: Ticks, last: int, *, lower: Ticks | None = None, lower_last: int = 0, first: int = 0) -> Art:
    """A ruler with one scale or two; one that does not begin at 0 has its left end torn off."""
    reach = max((last - first) * upper.unit, (lower_last * lower.unit) if lower else 0)
    height = 34.0 if lower else 24.0
    width = reach + 2 * EDGE
    body = _edge(upper, first=first, last=last, x0=EDGE, y=0.0, down=True)
    body += text(EDGE + 0.5 * upper.unit, 11.0, upper.name, size=3.2) if not lower and not first else ""
    if lower:
        body += _edge(lower, first=0, last=lower_last, x0=EDGE, y=height, down=False)
        body += text(3.2, 6.0, upper.name, size=2.6) + text(3.2, height - 6.0, lower.name, size=2.6)
    if first:
        bite = "".join(f"L{x} {y}" for x, y in ((3.5, 5), (1, 9), (4.5, 13), (1.5, 17.5), (4, 21), (0.6, height)))
        body += path(f"M0.6 0{bite}", w=0.5)
    return Art(body, width, height)


def strip(
    ticks: Ticks,
    *,
    first: int,
    last: int,
    labels: Sequence[int],
    each: int = 1,
    bold: int = 10,
    tall: float = 26.0,
    begins: bool,
    ends: bool,
    note: str = "",
) -> Art:
    """One strip of a longer scale, from `first` to `last` units; `each` is what a unit counts.

    Where the scale `begins` or `ends` there is paper beyond the mark. Between strips the cut lies 0.45 of a unit after
    a mark, where no tick and no number is; a hatched tab carries the next strip, whose left edge is that place.
    """
    start = float(first) if begins else first + BETWEEN
    stop = float(last) if ends else last + BETWEEN
    left = EDGE if begins else 0.0
    width = left + (stop - start) * ticks.unit + (EDGE if ends else TAB)
    body = ""
    done: set[float] = set()
    for parts, length in ticks.parts:
        marks = [first + k / parts for k in range((last - first + 1) * parts + 1)]
        fresh = [mark for mark in marks if start <= mark <= stop and mark not in done]
        done.update(fresh)
        at = [(left + (mark - start) * ticks.unit, mark % bold == 0) for mark in fresh]
        body += lines([(x, 0.0, x, length) for x, heavy in at if not heavy], w=0.5 if parts == 1 else 0.35)
        body += lines([(x, 0.0, x, length + 3) for x, heavy in at if heavy], w=0.8)
    for n in labels:
        if start <= n <= stop:
            heavy = n % bold == 0
            x = left + (n - start) * ticks.unit
            body += text(x, 15.0, str(n * each), size=5.0 if heavy else 3.6, weight=600 if heavy else 400)
    if note:
        body += text(left + 2, tall - 3.4, note, size=2.8, anchor="start")
    return Art(body + ("" if ends else _tab(width - TAB, tall)), width, tall)


def _tab(x: float, tall: float) -> str:
    """Hatched paper that the next strip is glued on."""
    body = hatch(((x, 0), (x + TAB, 0), (x + TAB, tall), (x, tall)), gap=2.2) + line(x, 0, x, tall, w=0.35)
    body += rect(x + 2.4, tall / 2 - 8, 5.2, 16, fill="#fff", stroke="none")
    return (
        body
        + f'<g transform="translate({x + 5:.3f} {tall / 2:.3f}) rotate(90)">{text(0, 0, "glue here", size=2.8)}</g>'
    )


def path_strip(numbers: Sequence[int], *, side: float, ends: bool) -> Art:
    """Squares of a number path in a row, with a tab for the next row where the path goes on."""
    body = ""
    for k, n in enumerate(numbers):
        if k:
            body += line(k * side, 0, k * side, side, w=0.6)
        ten = n % 10 == 0
        body += text((k + 0.5) * side, side / 2, str(n), size=side * 0.42, weight=600 if ten else 400)
        if ten:
            body += rect(k * side + 2, 2, side - 4, side - 4, r=3, w=0.4)
    width = len(numbers) * side
    body += line(width, 0, width, side, w=0.6)
    if not ends:
        body += _tab(width, side)
    return Art(body, width + (0 if ends else TAB), side)


def thermometer(*, width: float = 62.0, height: float = 220.0) -> Art:
    """A thermometer in °F and °C with two slits for a strip that is half dark; both scales lie on one column.

    10 °F is 14 mm; a degree Celsius is 1.8 of that (0 °C = 32 °F, 100 °C = 212 °F).
    """
    x, low, degree = width / 2, height - 32.0, 1.4
    body = rect(x - 5, 12, 10, low - 12 + 14, r=5, w=0.6)
    body += "".join(line(x - 7, y, x + 7, y, w=0.6, dash="1 1") for y in (18.0, low + 8))
    fahrenheit = range(-10, 111, 2)
    for n in fahrenheit:
        y = low - (n + 10) * degree
        size = 6.0 if n % 10 == 0 else 3.0
        body += line(x - 5 - size, y, x - 5, y, w=0.5 if n % 10 == 0 else 0.35)
        body += text(x - 13, y, str(n).replace("-", "−"), size=4.2, anchor="end") if n % 10 == 0 else ""
    for n in range(-23, 44):
        y = low - (n * 1.8 + 32 + 10) * degree
        size = 6.0 if n % 10 == 0 else 4.2 if n % 5 == 0 else 2.6
        body += line(x + 5, y, x + 5 + size, y, w=0.5 if n % 10 == 0 else 0.35)
        body += text(x + 13, y, str(n).replace("-", "−"), size=4.2, anchor="start") if n % 10 == 0 else ""
    body += text(x - 15, 7, "°F", size=5, weight=600) + text(x + 15, 7, "°C", size=5, weight=600)
    return Art(body, width, height)


def thermometer_strip(*, width: float = 9.0, height: float = 220.0) -> Art:
    """The strip that slides through the thermometer: dark below, white above."""
    middle = height / 2
    body = rect(0, middle, width, middle, fill="#000", stroke="none")
    return Art(body + arrow_head(width / 2, middle + 0.1, 270, size=3.6), width, height)
