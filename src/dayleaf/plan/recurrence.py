"""The days on which a recurring event comes round (RFC 5545, 3.3.10), on the wall clock, never beyond a last moment.

Rules that come round daily or more rarely; a rule that can never come true ends with the last moment like any other.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from itertools import product
from typing import TYPE_CHECKING, Any, Final

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

DAY: Final = timedelta(days=1)
WEEKDAYS: Final = ("MO", "TU", "WE", "TH", "FR", "SA", "SU")
FREQUENCIES: Final = ("DAILY", "WEEKLY", "MONTHLY", "YEARLY")
MOST_PERIODS: Final = 12_000
"""So many days, weeks, months or years a counted rule may have passed through (33 years of days)."""


class TooLongAgo(ValueError):
    """A counted rule began so long ago that counting would take too long."""

    def __init__(self) -> None:
        super().__init__("it is counted from too long ago")


@dataclass(frozen=True, slots=True)
class Rule:
    """A recurrence rule, read. Empty filters let every day pass; `nth` holds (n, weekday) with n not 0."""

    freq: str
    interval: int
    count: int | None
    wkst: int
    months: frozenset[int]
    week_numbers: frozenset[int]
    year_days: frozenset[int]
    month_days: frozenset[int]
    weekdays: frozenset[int]
    nth: frozenset[tuple[int, int]]
    positions: tuple[int, ...]
    times: tuple[time, ...]


def read_rule(raw: Mapping[str, Any], begins: datetime) -> Rule:
    """The rule of an event that first begins at a wall-clock time; parts it does not name come from there.

    Raises:
        ValueError: a part is not what the standard allows.
    """
    parts = {str(key).upper(): [str(one).upper() for one in value] for key, value in raw.items()}
    freq = parts.get("FREQ", [""])[0]
    if freq not in FREQUENCIES:
        raise ValueError(f"it comes round {freq.lower() or 'in no way that is told'}")
    plain, nth = set(), set()
    for one in parts.get("BYDAY", []):
        weekday, n = WEEKDAYS.index(one[-2:]), int(one[:-2] or 0)
        if n and freq in ("MONTHLY", "YEARLY"):
            nth.add((n, weekday))
        else:
            plain.add(weekday)
    months, month_days = _whole(parts, "BYMONTH"), _whole(parts, "BYMONTHDAY")
    week_numbers, year_days = _whole(parts, "BYWEEKNO"), _whole(parts, "BYYEARDAY")
    if not (plain or nth or month_days or week_numbers or year_days):
        if freq == "WEEKLY":
            plain = {begins.weekday()}
        elif freq in ("MONTHLY", "YEARLY"):
            month_days = frozenset({begins.day})
            months = months or (frozenset({begins.month}) if freq == "YEARLY" else months)
    interval = int(parts.get("INTERVAL", ["1"])[0])
    if interval < 1:
        raise ValueError("its interval is less than 1")
    return Rule(
        freq=freq,
        interval=interval,
        count=int(parts["COUNT"][0]) if "COUNT" in parts else None,
        wkst=WEEKDAYS.index(parts.get("WKST", ["MO"])[0]),
        months=months,
        week_numbers=week_numbers,
        year_days=year_days,
        month_days=month_days,
        weekdays=frozenset(plain),
        nth=frozenset(nth),
        positions=tuple(sorted(_whole(parts, "BYSETPOS"))),
        times=_times(parts, begins),
    )


def rounds(rule: Rule, begins: datetime, *, since: date, last: datetime) -> Iterator[datetime]:
    """Every time of the rule from `begins` to `last` (included), in order; earlier ones than `since` may be left out.

    Raises:
        TooLongAgo: the rule is counted, and there is too much to count.
    """
    counted = rule.count is not None
    if counted and _periods_before(rule, begins, since) > MOST_PERIODS:
        raise TooLongAgo
    number = 0 if counted else _periods_before(rule, begins, since)
    seen = 0
    while True:
        days = _period(rule, begins, number)
        if not days or days[0] > last.date():
            return
        for moment in _in_period(rule, days):
            if moment < begins:
                continue
            seen += 1
            if moment > last or (rule.count is not None and seen > rule.count):
                return
            yield moment
        number += 1


def _periods_before(rule: Rule, begins: datetime, since: date) -> int:
    """A period that is over before `since`, counted in the rule's own steps from the first."""
    days = (since - begins.date()).days
    longest = {"DAILY": 1, "WEEKLY": 7, "MONTHLY": 31, "YEARLY": 366}[rule.freq] * rule.interval
    return max(0, days // longest - 2)


def _period(rule: Rule, begins: datetime, number: int) -> Sequence[date]:
    """The days of the rule's period of a number; none past the end of the calendar."""
    first, step = begins.date(), number * rule.interval
    try:
        if rule.freq == "DAILY":
            return (first + step * DAY,)
        if rule.freq == "WEEKLY":
            monday = first - ((first.weekday() - rule.wkst) % 7) * DAY + 7 * step * DAY
            return [monday + n * DAY for n in range(7)]
        months = first.year * 12 + first.month - 1 + step
        begin = date(months // 12, months % 12 + 1, 1) if rule.freq == "MONTHLY" else date(first.year + step, 1, 1)
        after = _month_after(begin) if rule.freq == "MONTHLY" else date(begin.year + 1, 1, 1)
    except (ValueError, OverflowError):
        return ()
    return [begin + n * DAY for n in range((after - begin).days)]


def _in_period(rule: Rule, days: Sequence[date]) -> list[datetime]:
    found = [datetime.combine(day, at) for day in days if _passes(rule, day) for at in rule.times]
    if not rule.positions:
        return found
    places = {n - 1 if n > 0 else len(found) + n for n in rule.positions}
    return [moment for place, moment in enumerate(found) if place in places]


def _passes(rule: Rule, day: date) -> bool:
    if rule.months and day.month not in rule.months:
        return False
    if rule.month_days:
        length = (_month_after(day) - day.replace(day=1)).days
        if not {day.day, day.day - length - 1} & rule.month_days:
            return False
    if rule.year_days:
        number, length = day.timetuple().tm_yday, (date(day.year, 12, 31) - date(day.year, 1, 1)).days + 1
        if not {number, number - length - 1} & rule.year_days:
            return False
    if rule.week_numbers and not _week_numbers(day, rule.wkst) & rule.week_numbers:
        return False
    if rule.weekdays or rule.nth:
        return day.weekday() in rule.weekdays or bool(_nths(rule, day) & rule.nth)
    return True


def _nths(rule: Rule, day: date) -> set[tuple[int, int]]:
    """Which weekday of its kind the day is, from the front and from the back, in its month or year."""
    if rule.freq == "MONTHLY" or rule.months:
        first, after = day.replace(day=1), _month_after(day)
    else:
        first, after = date(day.year, 1, 1), date(day.year + 1, 1, 1)
    return {((day - first).days // 7 + 1, day.weekday()), (-((after - DAY - day).days // 7) - 1, day.weekday())}


def _week_numbers(day: date, wkst: int) -> set[int]:
    """The number of the day's week from the front and the back: week 1 has at least four days of its year."""
    start = day - ((day.weekday() - wkst) % 7) * DAY
    year = (start + 3 * DAY).year
    first, following = _first_week(year, wkst), _first_week(year + 1, wkst)
    number, weeks = (start - first).days // 7 + 1, (following - first).days // 7
    return {number, number - weeks - 1}


def _first_week(year: int, wkst: int) -> date:
    fourth = date(year, 1, 4)
    return fourth - ((fourth.weekday() - wkst) % 7) * DAY


def _month_after(day: date) -> date:
    return date(day.year + day.month // 12, day.month % 12 + 1, 1)


def _times(parts: Mapping[str, list[str]], begins: datetime) -> tuple[time, ...]:
    hours = sorted(_whole(parts, "BYHOUR")) or [begins.hour]
    minutes = sorted(_whole(parts, "BYMINUTE")) or [begins.minute]
    seconds = sorted(_whole(parts, "BYSECOND")) or [begins.second]
    return tuple(time(*clock) for clock in product(hours, minutes, seconds))


def _whole(parts: Mapping[str, list[str]], name: str) -> frozenset[int]:
    return frozenset(int(one) for one in parts.get(name, []))
