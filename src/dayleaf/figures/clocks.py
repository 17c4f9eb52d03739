"""Clock faces with true hands, and a face beside a display."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from dayleaf.figures.pen import Art, circle, dot, line, lines, rect, text, write_box
from dayleaf.figures.values import WrongParameter

if TYPE_CHECKING:
    from collections.abc import Mapping

    from dayleaf.figures.pen import Point
    from dayleaf.figures.values import Values

_R = 19.6
_MINUTE_HAND = 12.2
_HOUR_HAND = 7.4


def hand_angles(hour: int, minute: int) -> tuple[float, float]:
    """Degrees of the hour hand and of the minute hand, clockwise from 12.

    The hour hand moves on with the minutes: 30 degrees an hour and half a degree a minute.

    >>> hand_angles(1, 50)
    (55.0, 300.0)
    """
    return 30.0 * (hour % 12) + minute / 2, 6.0 * minute


def _at(x: float, y: float, r: float, degrees: float) -> Point:
    turn = math.radians(degrees)
    return x + r * math.sin(turn), y - r * math.cos(turn)


def _ticks(x: float, y: float, which: range, inner: float) -> list[tuple[float, float, float, float]]:
    return [(*_at(x, y, inner, 6 * k), *_at(x, y, _R, 6 * k)) for k in which]


_SHORT = tuple(k for k in range(60) if k % 5)


def face(x: float, y: float, *, hour: int, minute: int, hands: bool, numerals: bool) -> str:
    """A clock face of 39.2 mm across, centred on (x, y)."""
    body = circle(x, y, _R, w=0.8)
    body += lines([(*_at(x, y, _R - 1.3, 6 * k), *_at(x, y, _R, 6 * k)) for k in _SHORT])
    body += lines(_ticks(x, y, range(0, 60, 5), _R - 2.3), w=0.7)
    if numerals:
        for n in range(1, 13):
            body += text(*_at(x, y, 15.2, 30 * n), str(n), size=4.5)
    if hands:
        hour_angle, minute_angle = hand_angles(hour, minute)
        body += line(*_at(x, y, 2, minute_angle + 180), *_at(x, y, _MINUTE_HAND, minute_angle), w=0.9)
        body += line(*_at(x, y, 1.5, hour_angle + 180), *_at(x, y, _HOUR_HAND, hour_angle), w=1.9)
    return body + dot(x, y, 1.3)


def clock(v: Values, _words: Mapping[str, str]) -> Art:
    """One face; without hands it is there to draw them."""
    hour, minute = v.within("h", 0, 23), v.within("m", 0, 59)
    body = face(20, 20, hour=hour, minute=minute, hands=v.on("hands"), numerals=v.on("numerals"))
    return Art(body, 40, 40)


def clock_pair(v: Values, _words: Mapping[str, str]) -> Art:
    """A face and a display side by side; one of them may be empty."""
    hour, minute = v.within("h", 0, 23), v.within("m", 0, 59)
    hidden = v.words("hidden")
    if not set(hidden) <= {"digital", "analog"}:
        raise WrongParameter(kind=v.kind, name="hidden", why="names something other than digital and analog")
    body = face(20, 20, hour=hour, minute=minute, hands="analog" not in hidden, numerals=True)
    body += rect(48, 11, 46, 18, r=3, w=0.8)
    if "digital" in hidden:
        body += "".join(write_box(54.5 + k * 9 + (6 if k > 1 else 0), 20, 8, 11) for k in range(4)) + text(
            71, 20, ":", size=9
        )
    else:
        body += text(71, 20, f"{(hour - 1) % 12 + 1}:{minute:02}", size=11)
    return Art(body, 95, 40)
