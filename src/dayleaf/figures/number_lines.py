"""Lines with numbers: ticks, points with letters, hops; and hours in a line."""

from __future__ import annotations

import itertools
import math
from typing import TYPE_CHECKING

from dayleaf.figures.pen import Art, arrow_head, dot, fraction, line, lines, num, path, text, text_width, write_box
from dayleaf.figures.values import WrongParameter

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from dayleaf.figures.values import Values

_SIZE = 4.2
_ALL = (-1,)


def _hops(stops: Sequence[int], labels: Sequence[str], at: Callable[[float], float], y: float) -> tuple[str, float]:
    """Arcs from stop to stop over the line at height `y`; gives the drawing and how high it reaches."""
    body, reach = "", 0.0
    for k, (start, end) in enumerate(itertools.pairwise(stops)):
        x1, x2 = at(start), at(end)
        high = min(13.0, max(4.5, abs(x2 - x1) * 0.32))
        lift = 4 / 3 * high
        body += path(
            f"M{num(x1)} {num(y - 0.6)}C{num(x1)} {num(y - lift)} {num(x2)} {num(y - lift)} {num(x2)} {num(y - 1.2)}"
        )
        body += arrow_head(x2, y - 0.6, 90, size=2.2)
        reach = max(reach, high)
        if k < len(labels) and labels[k]:
            middle, over = (x1 + x2) / 2, y - high - 3
            body += (
                write_box(middle, over - 0.6, 8, 6.4) if labels[k] == "?" else text(middle, over, labels[k], size=_SIZE)
            )
            reach = max(reach, high + 6.4)
    return body, reach


def _labelled(v: Values, ticks: Sequence[int], pitch: float) -> tuple[int, ...]:
    """The numbers printed under the line: those asked for, or as many ticks as there is room for."""
    asked = v.numbers("labels")
    if asked != _ALL:
        return asked
    big = v.number("big")
    if v.numbers("jumps"):
        return tuple(n for n in ticks if n in (ticks[0], ticks[-1]) or (big and n % big == 0))
    widest = max(text_width(str(n), _SIZE) for n in ticks) + 1.6
    step = v.number("step")
    if pitch >= widest:
        return tuple(ticks)
    for every in (big, 2 * step, 5 * step, 10 * step, 50 * step, 100 * step):
        if every and pitch * every / step >= widest:
            return tuple(n for n in ticks if n % every == 0)
    return (ticks[0], ticks[-1])


def _even(lo: int, hi: int, left: float, span: float) -> Callable[[float], float]:
    return lambda n: left + span * (n - lo) / (hi - lo)


def _spread(stops: Sequence[int], width: float) -> Callable[[float], float]:
    """Places for the stops of an open line: in order, longer hops longer, with room for each label.

    An open line shows order and hops, not scale (common practice, no source).
    """
    order = sorted(set(stops))
    least, left = 15.0, 12.0
    free = max(0.0, width - 2 * left - least * (len(order) - 1))
    total = order[-1] - order[0]
    places = {order[0]: left}
    for before, after in itertools.pairwise(order):
        places[after] = places[before] + least + free * (after - before) / total
    return lambda n: places[int(n)]


def number_line(v: Values, _words: Mapping[str, str]) -> Art:
    """A line from `lo` to `hi` with its ticks, labels, lettered points, an arrow and hops."""
    lo, hi, step = v.number("lo"), v.number("hi"), v.number("step")
    if not lo < hi or step < 1 or (hi - lo) % step:
        raise WrongParameter(kind=v.kind, name="step", why=f"does not lead from {lo} to {hi}")
    width = v.within("width", 40, 180)
    stops, blanks = v.numbers("jumps"), v.numbers("blanks")
    for n in (*stops, *v.numbers("points"), *v.numbers("dots"), *blanks):
        if not lo <= n <= hi:
            raise WrongParameter(kind=v.kind, name="lo", why=f"and hi do not reach {n}")
    span = width - 14.0
    at = _spread(stops, width) if v.on("open") and len(set(stops)) > 1 else _even(lo, hi, 7.0, span)
    hops, reach = _hops(stops, v.words("jump_labels"), at, 0)
    points, arrow = v.numbers("points"), v.number("arrow")
    if points or arrow >= 0:
        reach = max(reach, 10.0)
    y = reach + 3.5
    body = line(1.5, y, width - 1.5, y, w=0.6) + arrow_head(width - 0.8, y, 0) + arrow_head(0.8, y, 180)
    body += f'<g transform="translate(0 {num(y)})">{hops}</g>' if hops else ""
    if v.on("open"):
        shown: tuple[int, ...] = tuple(dict.fromkeys(stops)) or (lo, hi)
        body += lines([(at(n), y - 1.8, at(n), y + 1.8) for n in shown], w=0.5)
    else:
        ticks = tuple(range(lo, hi + 1, step))
        body += _ticks(ticks, at, y, v.number("big"))
        shown = _labelled(v, ticks, span * step / (hi - lo))
    if v.on("blank_end") and stops:
        blanks = (*blanks, stops[-1])
    parts = v.within("parts", 1, 144)
    body += _labels(shown, stops, blanks, at, y + 6.2) if parts == 1 else _shares(shown, parts, at, y + 6.2)
    for letter, n in zip("ABCDEFGH", points, strict=False):
        body += dot(at(n), y, 1.25) + text(at(n), y - 5.2, letter, size=4.8, weight=600)
    body += "".join(dot(at(n), y, 1.25) for n in v.numbers("dots"))
    if arrow >= 0:
        body += line(at(arrow), y - 9, at(arrow), y - 2.6, w=0.7) + arrow_head(at(arrow), y - 1, 90, size=2.8)
    stacked = any(n % parts for n in shown)
    return Art(body, width, y + (13.5 if stacked else 11.5 if blanks else 9.2))


def _shares(shown: Sequence[int], parts: int, at: Callable[[float], float], y: float) -> str:
    """Labels that count parts of one: whole numbers in a row, fractions stacked."""
    body = ""
    for n in shown:
        whole, top = divmod(n, parts)
        body += fraction(at(n), y + 2, n, parts) if top else text(at(n), y, str(whole), size=_SIZE)
    return body


def _ticks(ticks: Sequence[int], at: Callable[[float], float], y: float, big: int) -> str:
    long = [n for n in ticks if big and n % big == 0]
    short = [n for n in ticks if not (big and n % big == 0)]
    half = 1.3 if long else 1.8
    body = lines([(at(n), y - half, at(n), y + half) for n in short], w=0.4)
    return body + lines([(at(n), y - 2.4, at(n), y + 2.4) for n in long], w=0.6)


def _labels(
    shown: Sequence[int], stops: Sequence[int], blanks: Sequence[int], at: Callable[[float], float], y: float
) -> str:
    """Numbers under the line, stops of hops included where there is room, boxes in place of the blank ones."""
    taken: list[tuple[float, float]] = []
    body = ""
    for n in dict.fromkeys((*blanks, *stops, *shown)):
        half = 5.5 if n in blanks else text_width(str(n), _SIZE) / 2
        x = at(n)
        if any(x - half < right + 0.8 and x + half > left - 0.8 for left, right in taken):
            continue
        taken.append((x - half, x + half))
        body += write_box(x, y + 0.6, 10, 8) if n in blanks else text(x, y, str(n), size=_SIZE)
    return body


def _clock_time(minutes: int) -> str:
    hour, minute = divmod(minutes, 60)
    return f"{(hour - 1) % 12 + 1}:{minute:02}"


def timeline(v: Values, _words: Mapping[str, str]) -> Art:
    """Hours in a line with hops from one time to another."""
    start, end, step = v.number("start"), v.number("end"), v.number("step")
    if not start < end or start % 60 or end % 60 or step < 1 or 60 % step:
        raise WrongParameter(
            kind=v.kind, name="start", why="and end are not full hours in order, or step splits no hour"
        )
    width, left = 160.0, 9.0

    def at(minutes: float) -> float:
        return left + (width - 2 * left) * (minutes - start) / (end - start)

    stops = v.numbers("jumps")
    hops, reach = _hops(stops, v.words("jump_labels"), at, 0)
    y = reach + 3.5
    body = line(1.5, y, width - 1.5, y, w=0.6) + arrow_head(width - 0.8, y, 0)
    body += f'<g transform="translate(0 {num(y)})">{hops}</g>' if hops else ""
    ticks = range(start, end + 1, step)
    body += _ticks(ticks, at, y, 60)
    hours = [n for n in ticks if n % 60 == 0]
    every = math.ceil(13 / max(0.1, at(start + 60) - at(start)))
    named = dict.fromkeys((*hours[::every], *(() if v.on("question") else stops)))
    taken: list[float] = []
    for n in named:
        if all(abs(at(n) - x) >= 12 for x in taken):
            taken.append(at(n))
            body += text(at(n), y + 6.2, _clock_time(n), size=_SIZE)
    return Art(body, width, y + 9.2)
