"""Times worked out again: hands from their angles, spans by a clock that goes on minute by minute."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import TYPE_CHECKING

from dayleaf.items.model import Question, Row, Word
from dayleaf.items.second.pictured_params import number, numbers

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from dayleaf.items.model import Item, Token

_DAY = datetime(2026, 8, 17)  # noqa: DTZ001 -- a clock on the wall has no time zone

_SECONDS: Mapping[str, int] = {"second": 1, "minute": 60, "hour": 3600, "day": 86_400, "week": 604_800}
_MONTHS: Mapping[str, int] = {"month": 1, "year": 12}

_MORNING = frozenset(
    {"wake", "breakfast", "rooster", "bread-oven", "milk-goats", "lock-opens", "stars-late", "midnight"}
)
"""What happens between midnight and noon; everything else belongs to the other half of the day."""

_LASTS: Mapping[str, frozenset[str]] = {
    "seconds": frozenset({"sneeze", "tie-knot", "clap"}),
    "minutes": frozenset({"brush-teeth", "eat-lunch", "boil-egg"}),
    "hours": frozenset({"sleep", "boat-trip", "bake-bread"}),
    "days": frozenset({"bean-sprouts", "holiday", "cold"}),
    "months": frozenset({"winter", "pumpkin-grows", "goat-carries"}),
}


def time_answer(item: Item) -> str | None:
    """The answer of an item about clocks, spans or units of time; None for others."""
    if isinstance(item.prompt, Row):
        return _row(item, item.prompt.tokens)
    if isinstance(item.prompt, Question):
        if item.prompt.code.startswith(("draw-half-past", "draw-quarter-", "draw-later-")):
            return ""
        answer = _QUESTIONS.get(item.prompt.code)
        return answer(item, item.prompt) if answer else None
    return None


def _row(item: Item, tokens: tuple[Token, ...]) -> str | None:
    words = [token for token in tokens if isinstance(token, Word)]
    codes = [word.code for word in words]
    if item.figure is not None and item.figure.kind == "timeline":
        stops = numbers(item, "jumps")
        span = timedelta(minutes=stops[-1]) - timedelta(minutes=stops[0])
        minutes = int(span.total_seconds()) // 60
        return str(minutes) if "hours" not in codes else f"{minutes // 60} {minutes % 60}"
    if codes[:1] in (["half-past"], ["quarter-past"], ["quarter-to"]):
        minutes = {"half-past": 30, "quarter-past": 15, "quarter-to": -15}[codes[0]]
        at = _DAY + timedelta(hours=words[1].count or 0, minutes=minutes)
        return f"{at.strftime('%I').lstrip('0')} {at:%M}"
    if len(codes) == 2:
        for size in (_SECONDS, _MONTHS):
            if set(codes) <= size.keys() and isinstance(tokens[0], int):
                return str(tokens[0] * size[codes[0]] // size[codes[1]])
    return None


def _which_time(item: Item, _: Question) -> str:
    """The hour hand stands 30·h + m/2 degrees from twelve, the minute hand 6·m."""
    short, long = 30 * (number(item, "h") % 12) + number(item, "m") / 2, 6 * number(item, "m")
    return f"{int(short // 30) or 12}:{long // 6:02}"


def _between(_: Item, question: Question) -> str:
    h = int(question.values["h"])
    return f"{h} {1 if h == 12 else h + 1}"


def _span(question: Question, *, minute: int, end_minute: int) -> int:
    """Minutes from the first time to the next moment at which the face shows the second."""
    first = _DAY + timedelta(hours=int(question.values["h"]), minutes=minute)
    last = _DAY + timedelta(hours=int(question.values["end"]), minutes=end_minute)
    while last <= first:
        last += timedelta(hours=12)
    return int((last - first).total_seconds()) // 60


def _hours(_: Item, question: Question) -> str:
    minutes = _span(question, minute=0, end_minute=int(question.values["m"]))
    return f"{minutes // 60} {minutes % 60}"


def _minutes(_: Item, question: Question) -> str:
    return str(_span(question, minute=int(question.values["m"]), end_minute=int(question.values["end_m"])))


def _half_of_day(_: Item, question: Question) -> str:
    return "am" if question.values["what"] in _MORNING else "pm"


def _unit(_: Item, question: Question) -> str:
    return next(unit for unit, things in _LASTS.items() if question.values["what"] in things)


def _done(_: Item, question: Question) -> str:
    told = {name: int(question.values[name]) for name in ("h", "m", "k")}
    at = _DAY + timedelta(hours=told["h"], minutes=told["m"]) + timedelta(minutes=told["k"])
    return f"{at.strftime('%I').lstrip('0')} {at:%M}"


_QUESTIONS: Mapping[str, Callable[[Item, Question], str | None]] = {
    "when-done": _done,
    "which-time": _which_time,
    "fix-short-hand": _between,
    "how-long-hours": _hours,
    "how-long-minutes": _minutes,
    "am-or-pm": _half_of_day,
    "unit-of-time": _unit,
}
