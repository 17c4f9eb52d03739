"""Clocks to five minutes, to the quarter hour and to the minute: read, rung, drawn, said in words."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.core.seeds import seed_from
from dayleaf.items.choices import ring_one
from dayleaf.items.model import Figure, Gap, Part, Question, Row, Step, Word
from dayleaf.items.pictured.clocks import hands_swapped
from dayleaf.items.rule import Made, Maker, SkillRule

if TYPE_CHECKING:
    from collections.abc import Mapping

    from dayleaf.items.rule import Numbers

Time = tuple[int, int]
"""Hour 1 to 12 and minute 0 to 59."""

Misread = Callable[[int, int], Time | None]
"""What a habit reads at a face; None where it reads nothing."""


def after(hour: int) -> int:
    """The next hour on the face.

    >>> after(12)
    1
    """
    return hour % 12 + 1


def numeral_as_minutes(h: int, m: int) -> Time | None:
    """The numeral under the long hand taken for minutes: 4:35 → 4:07; None between two numerals."""
    return None if m % 5 else (h, m // 5 or 12)


def hour_ahead(h: int, m: int) -> Time:
    """The hour that the short hand is nearest to: 4:50 → 5:50."""
    return (after(h) if m > 30 else h), m


def quarter_to_next(h: int, m: int) -> Time:
    """At quarter to, the hour that is coming: 2:45 → 3:45."""
    return (after(h) if m == 45 else h), m


def quarter_to_as_past(h: int, m: int) -> Time:
    """Quarter to read as quarter past the coming hour: 6:45 → 7:15."""
    return (after(h), 15) if m == 45 else (h, m)


def nearest_five(h: int, m: int) -> Time:
    """The nearest five minutes: 4:37 → 4:35, 4:58 → 5:00."""
    near = (m + 2) // 5 * 5
    return (after(h), 0) if near == 60 else (h, near)


def quarter_is_25(h: int, m: int) -> Time:
    """A quarter taken for 25, as of the coin: quarter past seven → 7:25, quarter to six → 5:35."""
    return h, {15: 25, 45: 35}.get(m, m)


def quarter_to_same_hour(h: int, m: int) -> Time:
    """Quarter to six written as 6:45."""
    return quarter_to_next(h, m)


def reading_steps(h: int, m: int) -> tuple[Step, ...]:
    """The hour that the short hand has passed, then fives, then single minutes."""
    first = Step("short-hand-between", {"h": h, "next": after(h)}) if m else Step("short-hand-on", {"h": h})
    fives, ones = divmod(m, 5)
    if m == 0:
        return Step("long-hand-12"), first
    steps = [first]
    if fives:
        steps.append(Step("long-hand-fives", {"numeral": fives, "n": 5 * fives}))
    if ones:
        steps.append(Step("small-marks", {"n": ones, "total": m}))
    return tuple(steps)


def shown(h: int, m: int) -> str:
    """A time as a display shows it: 4:05."""
    return f"{h}:{m:02}"


def _written(time: Time) -> str:
    return f"{time[0]} {time[1]:02}"


def _parts(h: int, m: int) -> tuple[Part, Part]:
    return Part("1", "digits", str(h), 2), Part("2", "digits", f"{m:02}", 2)


_Ways = dict[ErrorWayId, Misread]


def _errors(ways: Mapping[ErrorWayId, Misread], h: int, m: int, say: Callable[[Time], str]) -> dict[ErrorWayId, str]:
    return {way: say(time) for way, misread in ways.items() if (time := misread(h, m)) is not None}


def how_hard(h: int, m: int) -> float:
    """Full hours first, then half past, quarters, fives, single minutes; before the next hour harder than after."""
    base = 0.1 if m == 0 else 0.3 if m == 30 else 0.4 if m % 15 == 0 else 0.5 if m % 5 == 0 else 0.7
    return base + (0.2 if m > 30 else 0.0) + 0.05 * (h == 12)


def reading(ways: Mapping[ErrorWayId, Misread], *, step: int) -> Maker:
    """The time on a face, hour and minutes in boxes; the rule's m counts steps of so many minutes."""

    def make(numbers: Numbers) -> Made:
        h, m = numbers["h"], step * numbers["m"]
        return Made(
            Row((Gap("1"), ":", Gap("2"))),
            _parts(h, m),
            reading_steps(h, m),
            _errors(ways, h, m, _written),
            Figure("clock", {"h": h, "m": m, "question": 1}),
            how_hard(h, m),
        )

    return make


def drawing(*, step: int) -> Maker:
    """A face without hands, to draw them."""

    def make(numbers: Numbers) -> Made:
        h, m = numbers["h"], step * numbers["m"]
        return _drawn(Question("clock-draw", {"h": h, "m": m}), h, m)

    return make


def _drawn(prompt: Question, h: int, m: int) -> Made:
    return Made(
        prompt,
        (Part("1", "look", ""),),
        reading_steps(h, m),
        {},
        Figure("clock", {"h": h, "m": m, "hands": 0, "question": 1}),
        how_hard(h, m),
    )


_FIVES: _Ways = {ErrorWayId("number-as-minutes"): numeral_as_minutes, ErrorWayId("hour-ahead"): hour_ahead}
_QUARTERS: _Ways = {
    ErrorWayId("hands-swapped"): hands_swapped,
    ErrorWayId("quarter-to-next-hour"): quarter_to_next,
    ErrorWayId("quarter-to-as-past"): quarter_to_as_past,
}
_MINUTES: _Ways = {ErrorWayId("nearest-five-read"): nearest_five, ErrorWayId("hour-ahead"): hour_ahead}
_SAID: _Ways = {
    ErrorWayId("quarter-is-25"): quarter_is_25,
    ErrorWayId("quarter-to-same-hour"): quarter_to_same_hour,
}


def _ring_fives(numbers: Numbers) -> Made:
    h, m = numbers["h"], 5 * numbers["m"]
    errors = _errors(_FIVES, h, m, lambda time: shown(*time))
    return Made(
        Question("which-time"),
        (ring_one(shown(h, m), errors, turn=seed_from("which-time", h, m)),),
        reading_steps(h, m),
        errors,
        Figure("clock", {"h": h, "m": m, "question": 1}),
        how_hard(h, m),
    )


# half past, quarter past, quarter to

_WORDS = {15: "quarter-past", 30: "half-past", 45: "quarter-to"}


def _said(numbers: Numbers) -> tuple[int, int, str, int]:
    """Hour, minute, the words for the minute, and the hour that the words name."""
    h, m = numbers["h"], 15 * numbers["m"]
    return h, m, _WORDS[m], after(h) if m == 45 else h


def _in_digits(numbers: Numbers) -> Made:
    h, m, words, named = _said(numbers)
    if m == 45:
        steps: tuple[Step, ...] = (Step("quarter-before", {"named": named, "h": h}),)
    else:
        steps = (Step("after-the-hour", {"n": m, "h": h}),)
    return Made(
        Row((Word(words), Word("number-name", named), "=", Gap("1"), ":", Gap("2"))),
        _parts(h, m),
        steps,
        _errors(_SAID, h, m, _written),
        None,
        how_hard(h, m),
    )


def _draw_said(numbers: Numbers) -> Made:
    h, m, words, named = _said(numbers)
    return _drawn(Question(f"draw-{words}", {"named": named}), h, m)


# the short hand between two numerals


def _fix_hand(numbers: Numbers) -> Made:
    h, m = numbers["h"], 5 * numbers["m"]
    return Made(
        Question("fix-short-hand", {"h": h, "m": m}),
        (Part("1", "digits", str(h), 2), Part("2", "digits", str(after(h)), 2)),
        (Step("short-hand-between", {"h": h, "next": after(h)}),),
        {},
        None,
        how_hard(h, m),
    )


def past_the_hour(numbers: Numbers) -> bool:
    """Only at a full hour does the short hand stand on a numeral."""
    return numbers["m"] > 0


_READ, _DRAW, _CHOOSE = FormatId("clock-read"), FormatId("clock-draw"), FormatId("choose")

RULES: tuple[SkillRule, ...] = (
    SkillRule(SkillId("time-five-minutes"), formats={_READ: reading(_FIVES, step=5), _CHOOSE: _ring_fives}),
    SkillRule(SkillId("time-quarter-hour"), formats={_READ: reading(_QUARTERS, step=15), _DRAW: drawing(step=15)}),
    SkillRule(SkillId("time-past-to-language"), formats={FormatId("words"): _in_digits, _DRAW: _draw_said}),
    SkillRule(
        SkillId("time-draw-hands"),
        formats={_DRAW: drawing(step=5), FormatId("fix"): _fix_hand},
        fits={FormatId("fix"): past_the_hour},
    ),
    SkillRule(SkillId("time-one-minute"), formats={_READ: reading(_MINUTES, step=1), _DRAW: drawing(step=1)}),
)
