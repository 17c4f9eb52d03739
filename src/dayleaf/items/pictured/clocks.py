"""Clocks to the hour and half hour."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.items.model import Figure, Gap, Part, Question, Row, Step
from dayleaf.items.rule import Made, SkillRule

if TYPE_CHECKING:
    from dayleaf.items.rule import Numbers


def hands_swapped(h: int, m: int) -> tuple[int, int]:
    """What the face says when the long hand is taken for the hour hand: 3:00 → 12:15.

    The short hand of a half hour stands between two numerals; its earlier one is read, as for the hour.
    """
    return m // 5 or 12, h % 12 * 5


def half_past_next(h: int, m: int) -> tuple[int, int]:
    """The hour to which the short hand is going, 4:30 → 5:30; a full hour is read right."""
    return (h % 12 + 1 if m else h), m


def clock_steps(h: int, m: int) -> tuple[Step, ...]:
    """First the long hand, then the short one."""
    if m:
        return Step("long-hand-6"), Step("short-hand-between", {"h": h, "next": h % 12 + 1})
    return Step("long-hand-12"), Step("short-hand-on", {"h": h})


def _time(numbers: Numbers) -> tuple[int, int]:
    return numbers["h"], 30 * numbers["m"]


def _written(h: int, m: int) -> str:
    return f"{h} {m:02}"


def _read(numbers: Numbers) -> Made:
    h, m = _time(numbers)
    return Made(
        Row((Gap("1"), ":", Gap("2"))),
        (Part("1", "digits", str(h), 2), Part("2", "digits", f"{m:02}", 2)),
        clock_steps(h, m),
        {
            ErrorWayId("hands-swapped"): _written(*hands_swapped(h, m)),
            ErrorWayId("half-past-next-hour"): _written(*half_past_next(h, m)),
        },
        Figure("clock", {"h": h, "m": m, "question": 1}),
        0.6 if m else 0.2,
    )


def _draw(numbers: Numbers) -> Made:
    h, m = _time(numbers)
    return Made(
        Question("clock-draw", {"h": h, "m": m}),
        (Part("1", "look", ""),),
        clock_steps(h, m),
        {},
        Figure("clock", {"h": h, "m": m, "hands": 0, "question": 1}),
        0.7 if m else 0.3,
    )


RULES: tuple[SkillRule, ...] = (
    SkillRule(SkillId("time-hour-half-hour"), formats={FormatId("clock-read"): _read, FormatId("clock-draw"): _draw}),
)
