"""Days, months, places in a line and schedules answered again, with the calendar module and counting one by one."""

from __future__ import annotations

from calendar import Calendar, day_name, month_name
from typing import TYPE_CHECKING

from dayleaf.items.model import Question, Row, Word
from dayleaf.items.second.pictured_params import number, numbers, words

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from dayleaf.items.model import Item

_DAYS = tuple(name.lower() for name in day_name)
_MONTHS = tuple(name.lower() for name in month_name if name)


def almanac_answer(item: Item) -> str | None:
    """The answer of an item about days, months, places or schedules; None for others."""
    if isinstance(item.prompt, Row):
        return _row(item, item.prompt)
    if not isinstance(item.prompt, Question):
        return None
    solve = _QUESTIONS.get(item.prompt.code)
    return solve(item, item.prompt) if solve else None


def _row(item: Item, row: Row) -> str | None:
    names = [token for token in row.tokens if isinstance(token, Word)]
    if not names:
        return None
    if names[0].code == "order-name" and names[0].count is not None:
        return f"{names[0].count} {_ending(names[0].count)}"
    codes = [name.code for name in names]
    if all(code.startswith(("weekday-", "month-")) for code in codes):
        after_dash = [int(code.split("-")[1]) for code in codes]
        places = [(n + 1) % 7 for n in after_dash] if codes[0].startswith("weekday-") else after_dash
        return " ".join(str(sum(other <= place for other in places)) for place in places)
    if item.figure is not None and item.figure.kind == "table" and all(code.startswith("plan-") for code in codes):
        return _planned(item, codes)
    return None


def _ending(n: int) -> str:
    """By hand: only these seven dates are not -th."""
    for end, dates in (("st", (1, 21, 31)), ("nd", (2, 22)), ("rd", (3, 23))):
        if n in dates:
            return end
    return "th"


def _minutes(time: str, half: str) -> int:
    """Minutes after midnight of a time such as 12:35 with am or pm."""
    h, m = (int(part) for part in time.split(":"))
    midnight = {"am": 0, "pm": 12 * 60}[half]
    return midnight + (0 if h == 12 else 60 * h) + m


def _planned(item: Item, codes: list[str]) -> str:
    cells = iter(words(item, "cells"))
    plan = {what: (time, half) for what, time, half in zip(cells, cells, cells, strict=True)}
    if len(codes) == 1:
        return " ".join(plan[codes[0]][0].split(":"))
    at = [_minutes(*plan[code]) for code in codes]
    return " ".join(str(sum(other <= time for other in at)) for time in at)


def _next_boat(item: Item, question: Question) -> str:
    cells = iter(words(item, "cells"))
    now = _minutes(f"{question.values['h']}:{question.values['m']}", str(question.values["half"]))
    return min((at, time) for time, half in zip(cells, cells, strict=True) if (at := _minutes(time, half)) > now)[1]


def _arrow(item: Item, _: Question) -> str:
    """Walk along the line from the bridge to the arrow; the picture counts from the bridge already."""
    walked = 0
    while walked != number(item, "arrow"):
        walked += 1
    return str(walked)


def _ringed(item: Item, question: Question) -> str | None:
    fitting = [
        option.code
        for option in item.parts[0].options
        if option.figure is not None and option.figure.params["rings"] == (int(question.values["n"]),)
    ]
    return fitting[0] if len(fitting) == 1 else None


def _beside(names: tuple[str, ...], prefix: str, *, first: int, step: int) -> Callable[[Item, Question], str]:
    """The name before or after, looked up in the library's list of names laid three times in a row."""

    def solve(_: Item, question: Question) -> str:
        at = int(str(question.values["name"]).removeprefix(f"{prefix}-")) - first
        there = (names * 3)[len(names) + at + step]
        return f"{prefix}-{names.index(there) + first}"

    return solve


def _weeks(item: Item) -> list[list[int]]:
    """The month's rows, Sunday first."""
    return Calendar(6).monthdayscalendar(number(item, "year"), number(item, "month"))


def _column(code: str) -> int:
    return ("weekday-6", *(f"weekday-{day}" for day in range(6))).index(code)


def _nth(item: Item, question: Question) -> str:
    column = [week[_column(str(question.values["w"]))] for week in _weeks(item)]
    return str([date for date in column if date][int(question.values["n"]) - 1])


def _weekday(item: Item, question: Question) -> str:
    n = int(question.values["n"])
    column = next(week.index(n) for week in _weeks(item) if n in week)
    return f"weekday-{(column + 6) % 7}"


def _gap(item: Item, _: Question) -> str:
    shown = {date for week in _weeks(item) for date in week if date} - set(numbers(item, "blanks"))
    return str(next(n for n in range(1, max(shown) + 2) if n not in shown))


_QUESTIONS: Mapping[str, Callable[[Item, Question], str | None]] = {
    "which-from-bridge": _arrow,
    "ringed-from-bridge": _ringed,
    "day-after": _beside(_DAYS, "weekday", first=0, step=1),
    "day-before": _beside(_DAYS, "weekday", first=0, step=-1),
    "month-after": _beside(_MONTHS, "month", first=1, step=1),
    "month-before": _beside(_MONTHS, "month", first=1, step=-1),
    "date-of-weekday": _nth,
    "weekday-of-date": _weekday,
    "date-in-gap": _gap,
    "next-boat": _next_boat,
}
