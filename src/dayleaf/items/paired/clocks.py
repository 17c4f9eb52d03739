"""Times to match: the hands of a clock or the words for a time, and the digits."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, SkillId
from dayleaf.items.model import Figure, Row, Word
from dayleaf.items.paired.partners import Sides, rules_for
from dayleaf.items.pictured import clocks, times

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from dayleaf.items.pictured.times import Misread
    from dayleaf.items.rule import Numbers, SkillRule, Way


def _at(hour: int, minute: int) -> int:
    """A time as minutes, hours from 1 to 12."""
    return 60 * hour + minute


def _over(misread: Misread, step: int) -> Way:
    def way(numbers: Numbers) -> int | None:
        read = misread(numbers["h"], step * numbers["m"])
        return None if read is None else _at(*read)

    return way


def _near(step: int) -> Callable[[Numbers], Iterable[int]]:
    """The same minutes an hour later and earlier, then half an hour apart."""

    def near(numbers: Numbers) -> Iterable[int]:
        h, m = numbers["h"], step * numbers["m"]
        return (_at(times.after(h), m), _at((h - 2) % 12 + 1, m), _at(h, (m + 30) % 60))

    return near


def _faces(rule: str, step: int, ways: dict[str, Misread]) -> Sides:
    """A clock, and 4:35."""
    return Sides(
        rule,
        value=lambda numbers: _at(numbers["h"], step * numbers["m"]),
        left=lambda numbers: Figure("clock", {"h": numbers["h"], "m": step * numbers["m"], "question": 1}),
        right=lambda numbers: Row((times.shown(numbers["h"], step * numbers["m"]),)),
        step=lambda numbers: times.reading_steps(numbers["h"], step * numbers["m"])[-1],
        hard=lambda numbers: min(1.0, times.how_hard(numbers["h"], step * numbers["m"])),
        ways={ErrorWayId(way): _over(misread, step) for way, misread in ways.items()},
        pairs=3,
        near=_near(step),
    )


_SAID = {15: "quarter-past", 30: "half-past", 45: "quarter-to"}


def _said(numbers: Numbers) -> Row:
    h, m = numbers["h"], 15 * numbers["m"]
    return Row((Word(_SAID[m]), Word("number-name", times.after(h) if m == 45 else h)))


WORDS = Sides(
    "h=1..12 m=1..3 |",
    value=lambda numbers: _at(numbers["h"], 15 * numbers["m"]),
    left=_said,
    right=lambda numbers: Row((times.shown(numbers["h"], 15 * numbers["m"]),)),
    step=lambda numbers: times.said_step(numbers["h"], 15 * numbers["m"]),
    hard=lambda numbers: min(1.0, times.how_hard(numbers["h"], 15 * numbers["m"])),
    ways={ErrorWayId("quarter-to-same-hour"): _over(times.quarter_to_same_hour, 15)},
    near=_near(15),
)
"""Quarter to six, and 5:45."""

SIDES: dict[SkillId, Sides] = {
    SkillId("time-hour-half-hour"): _faces("h=1..12 m=0..1 |", 30, {"half-past-next-hour": clocks.half_past_next}),
    SkillId("time-quarter-hour"): _faces(
        "h=1..12 m=0..3 |",
        15,
        {
            "hands-swapped": clocks.hands_swapped,
            "quarter-to-next-hour": times.quarter_to_next,
            "quarter-to-as-past": times.quarter_to_as_past,
        },
    ),
    SkillId("time-five-minutes"): _faces(
        "h=1..12 m=0..11 |", 5, {"number-as-minutes": times.numeral_as_minutes, "hour-ahead": times.hour_ahead}
    ),
    SkillId("time-past-to-language"): WORDS,
}
"""The two sides of every skill here; a test holds their rules against the skills' files."""

RULES: tuple[SkillRule, ...] = rules_for(SIDES)
