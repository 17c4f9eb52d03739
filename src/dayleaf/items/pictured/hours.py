"""How long from one time to another, morning and afternoon, and the units of time."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.core.seeds import seed_from
from dayleaf.items.choices import ring_fixed
from dayleaf.items.model import Figure, Gap, Part, Question, Row, Step, Word
from dayleaf.items.pictured.daily_codes import DAILY, LASTING
from dayleaf.items.rule import Made, SkillRule

if TYPE_CHECKING:
    from dayleaf.items.rule import Numbers

COUNTS_START = ErrorWayId("counts-start-hour")
_PEOPLE = ("child", "brother", "gran", "lock-keeper", "mother", "father")


def on_the_face(minutes: int) -> tuple[int, int]:
    """Hour 1 to 12 and minute of a number of minutes after noon.

    >>> on_the_face(840)
    (2, 0)
    """
    return (minutes // 60 - 1) % 12 + 1, minutes % 60


# hours and half hours


def hours_of(half_hours: int) -> tuple[int, int]:
    """Hours and minutes."""
    return half_hours // 2, half_hours % 2 * 30


def counts_start_hour(half_hours: int) -> tuple[int, int]:
    """One hour too many: the hour of the start is counted."""
    hours, minutes = hours_of(half_hours)
    return hours + 1, minutes


def subtracts_numerals(h: int, half_hours: int) -> tuple[int, int]:
    """The smaller time on the face from the larger: 11:00 to 2:00 → 9 hours; right where no 12 is passed."""
    end_hour, end_minute = on_the_face(60 * h + 30 * half_hours)
    apart = abs(60 * end_hour + end_minute - 60 * h)
    return apart // 60, apart % 60


def _pair(time: tuple[int, int]) -> str:
    return f"{time[0]} {time[1]}"


def _span(numbers: Numbers) -> tuple[int, int, int, int]:
    """Start hour, number of half hours, end hour, end minute."""
    h, k = numbers["h"], numbers["k"]
    return (h, k, *on_the_face(60 * h + 30 * k))


def _long_made(numbers: Numbers, prompt: Row | Question, figure: Figure | None) -> Made:
    h, k, end_hour, end_minute = _span(numbers)
    hours, minutes = hours_of(k)
    steps: list[Step] = []
    if hours:
        steps.append(Step("hops-of-an-hour", {"h": h, "to": on_the_face(60 * (h + hours))[0], "n": hours}))
    if minutes:
        steps.append(Step("half-hour-more", {"h": end_hour, "m": end_minute}))
    crosses = h + k / 2 > 12
    return Made(
        prompt,
        (Part("1", "digits", str(hours), 2), Part("2", "digits", str(minutes), 2)),
        tuple(steps),
        {
            COUNTS_START: _pair(counts_start_hour(k)),
            ErrorWayId("subtract-across-noon"): _pair(subtracts_numerals(h, k)),
        },
        figure,
        min(1.0, 0.04 * k + 0.2 * (minutes > 0) + 0.2 * crosses),
    )


def _hour_line(numbers: Numbers) -> Made:
    h, k, _, end_minute = _span(numbers)
    hours = hours_of(k)[0]
    start, stop = 60 * h, 60 * h + 30 * k
    halts = (*range(start, start + 60 * hours + 1, 60), *((stop,) if end_minute else ()))
    picture = Figure(
        "timeline",
        {"start": start, "end": 60 * (h + 7), "step": 30, "jumps": halts, "question": 1},
    )
    ends = (f"{h}:00", Word("to-time"), f"{on_the_face(stop)[0]}:{end_minute:02}", "=")
    row = Row((*ends, Gap("1"), Word("hours"), Gap("2"), Word("minutes")))
    return _long_made(numbers, row, picture)


def _hours_told(numbers: Numbers) -> Made:
    h, k, end_hour, end_minute = _span(numbers)
    pick = seed_from("starts", h, k)
    doing = ("garden", "deck", "wall", "oven")[pick % 4]
    values: dict[str, int | str] = {"p": _PEOPLE[pick // 4 % 6], "doing": doing}
    values |= {"h": h, "end": end_hour, "m": end_minute}
    return _long_made(numbers, Question("how-long-hours", values), None)


def _hours_later(numbers: Numbers) -> Made:
    h, k, end_hour, end_minute = _span(numbers)
    hours, minutes = hours_of(k)
    later = {(True, False): "hours", (False, True): "half", (True, True): "hours-half"}[hours > 0, minutes > 0]
    values = {"h": h} if later == "half" else {"h": h, "hours": hours}
    made = _long_made(numbers, Question(f"draw-later-{later}", values), None)
    picture = Figure("clock", {"h": end_hour, "m": end_minute, "hands": 0, "question": 1})
    return Made(made.prompt, (Part("1", "look", ""),), made.steps, {}, picture, made.difficulty)


# minutes


def hundred_minutes(start: int, minutes: int) -> int:
    """An hour taken as 100 minutes: 9:50 to 10:10 → 60, as 1010 − 950."""
    first, last = divmod(start, 60), divmod(start + minutes, 60)
    return 100 * last[0] + last[1] - 100 * first[0] - first[1]


def _minutes_made(numbers: Numbers, prompt: Row | Question, figure: Figure | None) -> Made:
    start, k = 60 * numbers["h"] + numbers["m"], numbers["k"]
    stops = minute_stops(start, k)
    steps = [
        Step("minutes-jump", {"h": hour, "m": minute, "n": b - a})
        for a, b in pairwise(stops)
        for hour, minute in (on_the_face(b),)
    ]
    return Made(
        prompt,
        (Part("1", "digits", str(k), 3),),
        (*steps, Step("minutes-in-all", {"n": k})),
        {
            ErrorWayId("hundred-minutes"): str(hundred_minutes(start, k)),
            COUNTS_START: str(k + 60),
        },
        figure,
        min(1.0, 0.2 + 0.2 * (len(stops) - 2) + 0.2 * (k % 5 != 0) + 0.1 * (k > 60)),
    )


def minute_stops(start: int, minutes: int) -> tuple[int, ...]:
    """The start, each full hour on the way, the end."""
    end = start + minutes
    return (start, *range(start // 60 * 60 + 60, end, 60), end)


def _minute_line(numbers: Numbers) -> Made:
    start, k = 60 * numbers["h"] + numbers["m"], numbers["k"]
    stops = minute_stops(start, k)
    first = start // 60 * 60
    picture = Figure(
        "timeline",
        {
            "start": first,
            "end": max(first + 120, -(-(start + k) // 60) * 60),
            "step": 10,
            "jumps": stops,
            "jump_labels": ("?",) * (len(stops) - 1),
            "question": 1,
        },
    )
    end_hour, end_minute = on_the_face(start + k)
    ends = (f"{numbers['h']}:{numbers['m']:02}", Word("to-time"), f"{end_hour}:{end_minute:02}", "=")
    return _minutes_made(numbers, Row((*ends, Gap("1"), Word("minutes"))), picture)


def no_tiny_hop(numbers: Numbers) -> bool:
    """A hop under ten minutes is too short on the line for a box of its own."""
    stops = minute_stops(60 * numbers["h"] + numbers["m"], numbers["k"])
    return all(b - a >= 10 for a, b in pairwise(stops))


def minutes_past_sixty(hour: int, minute: int, minutes: int) -> tuple[int, int] | None:
    """Minutes added past the full hour: 9:50 and 20 minutes → 9:70; None within the hour, or from a hundred on."""
    total = minute + minutes
    return (hour, total) if 60 <= total < 100 else None


def _when_done(numbers: Numbers, values: dict[str, int | str]) -> Made:
    """The end is asked; it lies past the next full hour."""
    h, m, k = numbers["h"], numbers["m"], numbers["k"]
    stops = minute_stops(60 * h + m, k)
    faces = [(*on_the_face(b), b - a) for a, b in pairwise(stops)]
    end_hour, end_minute, _ = faces[-1]
    wrong = minutes_past_sixty(h, m, k)
    return Made(
        Question("when-done", {**values, "h": h, "m": m, "k": k}),
        (Part("1", "digits", str(end_hour), 2), Part("2", "digits", f"{end_minute:02}", 2)),
        tuple(Step("minutes-jump", {"h": hour, "m": minute, "n": n}) for hour, minute, n in faces),
        {ErrorWayId("minutes-past-sixty"): f"{wrong[0]} {wrong[1]}"} if wrong else {},
        None,
        0.5 + 0.2 * (k % 5 != 0),
    )


def _minutes_told(numbers: Numbers) -> Made:
    """How long it took; or, where a full hour is passed on the way, for every second one when it was done."""
    start, k = 60 * numbers["h"] + numbers["m"], numbers["k"]
    pick = seed_from("minutes", start, k)
    end_hour, end_minute = on_the_face(start + k)
    values: dict[str, int | str] = {"p": _PEOPLE[pick % 6], "doing": ("garden", "deck", "wall", "oven")[pick // 6 % 4]}
    if pick // 24 % 2 and minutes_past_sixty(numbers["h"], numbers["m"], k):
        return _when_done(numbers, values)
    values |= {"h": numbers["h"], "m": numbers["m"], "end": end_hour, "end_m": end_minute}
    return _minutes_made(numbers, Question("how-long-minutes", values), None)


# a.m. and p.m.


def daytime_is_am(hour: int) -> str:
    """p.m. taken for the dark part of the day: from 6 in the evening to 6 in the morning."""
    return "am" if 6 <= hour < 18 else "pm"


def _am_or_pm(numbers: Numbers) -> Made:
    what = tuple(DAILY)[numbers["i"]]
    hour, minute = DAILY[what]
    answer = "am" if hour < 12 else "pm"
    errors = {ErrorWayId("pm-is-dark"): daytime_is_am(hour)}
    if hour % 12 == 0:
        errors[ErrorWayId("noon-midnight-mixed")] = "pm" if answer == "am" else "am"
    code = "before-noon" if hour < 12 else "from-noon"
    return Made(
        Question("am-or-pm", {"what": what, "h": (hour - 1) % 12 + 1, "m": minute}),
        (ring_fixed(answer, ("am", "pm"), errors),),
        (Step(code),),
        errors,
        None,
        0.9 if hour % 12 == 0 else 0.6 if daytime_is_am(hour) != answer else 0.3,
    )


# units of time

UNITS = ("second", "minute", "hour", "day", "month", "year")
RELATIONS = (("minute", "second", 60), ("hour", "minute", 60), ("day", "hour", 24), ("week", "day", 7),
             ("year", "month", 12))  # fmt: skip
"""Larger unit, smaller unit, how many of it. Source: NIST Handbook 44, Appendix C."""


def _relation(numbers: Numbers) -> Made:
    larger, smaller, many = RELATIONS[numbers["i"]]
    n = numbers["n"]
    steps = [Step("one-unit-is", {"larger": larger, "n": many, "smaller": smaller})]
    if n > 1:
        steps.append(Step("units-are", {"n": n, "noun": larger, "total": n * many, "smaller": smaller}))
    errors = {ErrorWayId("hundred-minutes"): str(100 * n)} if larger == "hour" else {}
    return Made(
        Row((n, Word(larger, n), "=", Gap("1"), Word(smaller, 2))),
        (Part("1", "digits", str(n * many), 3),),
        tuple(steps),
        errors,
        None,
        0.2 + 0.2 * n,
    )


def _lasting(numbers: Numbers) -> Made:
    """Which unit fits a number told; the next larger one is the way to go astray."""
    i, n = numbers["i"], numbers["n"]
    what, count = LASTING[UNITS[i]][n - 1]
    first = i if i % 3 == 0 else i - 1  # so that the right one does not always stand in the middle
    options = tuple(f"{unit}s" for unit in UNITS[first : first + 3])
    errors = {ErrorWayId("time-unit-unsure"): f"{UNITS[i + 1]}s"}
    return Made(
        Question("unit-of-time", {"what": what, "n": count}),
        (ring_fixed(f"{UNITS[i]}s", options, errors),),
        (Step("lasts-about", {"n": count, "noun": UNITS[i]}),),
        errors,
        None,
        0.3,
    )


_LINE, _WORD1, _DRAW = FormatId("nl-jump"), FormatId("word1"), FormatId("clock-draw")

RULES: tuple[SkillRule, ...] = (
    SkillRule(
        SkillId("time-elapsed-hours-half-hours"),
        formats={_LINE: _hour_line, _WORD1: _hours_told, _DRAW: _hours_later},
    ),
    SkillRule(
        SkillId("time-elapsed-minutes"),
        formats={_LINE: _minute_line, _WORD1: _minutes_told},
        fits={_LINE: no_tiny_hop},
    ),
    SkillRule(SkillId("time-am-pm"), formats={FormatId("choose"): _am_or_pm}),
    SkillRule(
        SkillId("time-units-relations"),
        formats={FormatId("choose"): _lasting, FormatId("missing"): _relation},
    ),
)
