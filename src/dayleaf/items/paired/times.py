"""Times to match: a face and the time in digits, words and digits, units of time, dates and their place words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, SkillId
from dayleaf.items.model import Figure, Row, Step, Word
from dayleaf.items.paired.partners import Sides, rules_for
from dayleaf.items.pictured.clocks import half_past_next, hands_swapped
from dayleaf.items.pictured.hours import RELATIONS
from dayleaf.items.pictured.places_in_line import ending
from dayleaf.items.pictured.times import (
    after,
    hour_ahead,
    how_hard,
    numeral_as_minutes,
    quarter_to_as_past,
    quarter_to_next,
    quarter_to_same_hour,
    shown,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping

    from dayleaf.items.pictured.times import Misread, Time
    from dayleaf.items.rule import Numbers, SkillRule, Way


def _minutes(time: Time) -> int:
    return 60 * (time[0] % 12) + time[1]


def _over(misread: Misread, time_of: Callable[[Numbers], Time]) -> Way:
    """A misreading of a face as the minutes after twelve that it gives."""

    def way(numbers: Numbers) -> int | None:
        wrong = misread(*time_of(numbers))
        return None if wrong is None else _minutes(wrong)

    return way


def _faces(rule: str, *, step: int, misread: Mapping[ErrorWayId, Misread]) -> Sides:
    """A face and 4:35; the rule's m counts steps of so many minutes. Three faces stand under each other."""

    def time_of(numbers: Numbers) -> Time:
        return numbers["h"], step * numbers["m"]

    return Sides(
        rule,
        value=lambda numbers: _minutes(time_of(numbers)),
        left=lambda numbers: Figure("clock", {"h": numbers["h"], "m": step * numbers["m"], "question": 1}),
        right=lambda numbers: Row((shown(*time_of(numbers)),)),
        step=lambda numbers: _read_face(*time_of(numbers)),
        hard=lambda numbers: how_hard(*time_of(numbers)),
        ways={way: _over(go, time_of) for way, go in misread.items()},
        pairs=3,
        near=lambda numbers: _turned_hands(*time_of(numbers), step),
    )


def _read_face(h: int, m: int) -> Step:
    return Step("short-hand-between", {"h": h, "next": after(h)}) if m else Step("short-hand-on", {"h": h})


def _turned_hands(h: int, m: int, step: int) -> Iterator[int]:
    """The same minutes an hour later, then the same hour with the next minutes."""
    yield _minutes((after(h), m))
    yield _minutes((h, (m + step) % 60))


def _said_time(numbers: Numbers) -> Time:
    return numbers["h"], 15 * numbers["m"]


def _in_words(numbers: Numbers) -> Row:
    """Half past four, quarter to six: the hour that the words name."""
    h, m = _said_time(numbers)
    words = {15: "quarter-past", 30: "half-past", 45: "quarter-to"}[m]
    return Row((Word(words), Word("number-name", after(h) if m == 45 else h)))


def _about_the_same_hour(numbers: Numbers) -> Iterator[int]:
    """The quarters on both sides of the hour that is named."""
    h, m = _said_time(numbers)
    for quarter in (15, 45, 30):
        if quarter != m:
            yield _minutes((h, quarter))
    yield _minutes((after(h), 15))


SAID = Sides(
    "h=1..12 m=1..3 |",
    value=lambda numbers: _minutes(_said_time(numbers)),
    left=_in_words,
    right=lambda numbers: Row((shown(*_said_time(numbers)),)),
    step=lambda numbers: _why_said(*_said_time(numbers)),
    hard=lambda numbers: how_hard(*_said_time(numbers)),
    ways={ErrorWayId("quarter-to-same-hour"): _over(quarter_to_same_hour, _said_time)},
    near=_about_the_same_hour,
)
"""Quarter to six and 5:45."""


def _why_said(h: int, m: int) -> Step:
    if m == 45:
        return Step("quarter-before", {"named": after(h), "h": h})
    return Step("after-the-hour", {"n": m, "h": h})


def _unit(numbers: Numbers) -> Step:
    larger, smaller, many = RELATIONS[numbers["i"]]
    n = numbers["n"]
    if n == 1:
        return Step("one-unit-is", {"larger": larger, "n": many, "smaller": smaller})
    return Step("units-are", {"n": n, "noun": larger, "total": n * many, "smaller": smaller})


def _larger_unit(numbers: Numbers) -> Row:
    return Row((numbers["n"], Word(RELATIONS[numbers["i"]][0], numbers["n"])))


def _smaller_unit(numbers: Numbers) -> Row:
    _, smaller, many = RELATIONS[numbers["i"]]
    return Row((numbers["n"] * many, Word(smaller, numbers["n"] * many)))


UNITS = Sides(
    "i=0..4 n=1..3",
    value=lambda numbers: 10 * numbers["i"] + numbers["n"],
    left=_larger_unit,
    right=_smaller_unit,
    step=_unit,
    hard=lambda numbers: 0.2 + 0.2 * numbers["n"],
    ways={},
    near=lambda numbers: [10 * ((numbers["i"] + k) % 5) + numbers["n"] for k in range(1, 5)],
)
"""2 hours and 120 minutes, beside as many days, weeks and years."""


def _near_in_sound(numbers: Numbers) -> list[int]:
    """The same ones digit in the other tens: twelfth, second and twenty-second; twentieth and twelfth."""
    n = numbers["n"]
    return [(n + 9) % 30 + 1, (n + 19) % 30 + 1]


DATES = Sides(
    "n=1..31 |",
    value=lambda numbers: numbers["n"],
    left=lambda numbers: Row((Word("order-name", numbers["n"]),)),
    right=lambda numbers: Row((f"{numbers['n']}{ending(numbers['n'])}",)),
    step=lambda numbers: Step("ending-of", {"n": numbers["n"], "ending": ending(numbers["n"])}),
    hard=lambda numbers: 0.2 + 0.3 * (ending(numbers["n"]) != "th") + 0.2 * (numbers["n"] > 20),
    ways={},
    near=_near_in_sound,
)
"""Twenty-second and 22nd."""

SIDES: dict[SkillId, Sides] = {
    SkillId("time-hour-half-hour"): _faces(
        "h=1..12 m=0..1 |",
        step=30,
        misread={ErrorWayId("hands-swapped"): hands_swapped, ErrorWayId("half-past-next-hour"): half_past_next},
    ),
    SkillId("time-quarter-hour"): _faces(
        "h=1..12 m=0..3 |",
        step=15,
        misread={
            ErrorWayId("quarter-to-next-hour"): quarter_to_next,
            ErrorWayId("quarter-to-as-past"): quarter_to_as_past,
            ErrorWayId("hands-swapped"): hands_swapped,
        },
    ),
    SkillId("time-five-minutes"): _faces(
        "h=1..12 m=0..11 |",
        step=5,
        misread={ErrorWayId("hour-ahead"): hour_ahead, ErrorWayId("number-as-minutes"): numeral_as_minutes},
    ),
    SkillId("time-past-to-language"): SAID,
    SkillId("time-units-relations"): UNITS,
    SkillId("ordinals-dates-31"): DATES,
}
"""The two sides of every skill here; a test holds their rules against the skills' files."""

RULES: tuple[SkillRule, ...] = rules_for(SIDES)
