"""The calendar of a household's file: weekdays with minutes, terms, days off, half days, holidays chosen one by one."""

from __future__ import annotations

import difflib
from datetime import date
from typing import TYPE_CHECKING, Final

from dayleaf.plan.calendar import (
    LONGEST,
    WEEKDAYS,
    DaysOff,
    LearningCalendar,
    LearningDay,
    UnknownHolidays,
    dates_in,
    holidays_of,
)
from dayleaf.plan.run import SPREAD_PERCENT

if TYPE_CHECKING:
    from dayleaf.course.shape import Fields

WEEKDAY_NAMES: Final = tuple(name.lower() for name in WEEKDAYS)
LONGEST_DAY: Final = 24 * 60
NO_START: Final = date(2000, 1, 1)
"""Stands in for a start that is missing or wrong, which was noted already."""
ALL = "all"


def read_calendar(top: Fields, about: Fields) -> tuple[LearningCalendar, date | None, int]:
    """The family's calendar, the end it wishes for, and the percentage of free days to spread."""
    table = top.table("calendar") or top.nothing()
    given = table.day("start")
    end = table.day("end", optional=True)
    start = given or end or NO_START
    wished = table.day("wished_end", optional=True)
    if end is not None and end < start:
        table.problem("end", f"{end} lies before the start, {start}")
    if end is not None and end - start > LONGEST:
        table.problem("end", f"{end} lies more than two years after the start; a plan runs two years at most")
    if wished is not None and wished < start:
        table.problem("wished_end", f"{wished} lies before the start, {start}")
    spread = table.whole("spread_percent") if table.has("spread_percent") else SPREAD_PERCENT
    if spread > 100:
        table.problem("spread_percent", f"is {spread}; the most it can be is 100")
    calendar = LearningCalendar(
        start=start,
        end=end,
        minutes=read_weekdays(table.table("weekdays")),
        off=_spans(table, "off"),
        holidays=_holidays(about, start=start, end=end),
        half_days=_half_days(table),
        terms=_spans(table, "terms"),
        free=table.days("free_days"),
        missed=table.days("missed"),
    )
    off = dates_in((*calendar.off, *calendar.holidays))
    for n, one in enumerate(calendar.half_days, start=1):
        if one.day in off:
            table.problem(f"half_days[{n}].date", f"{one.day} is a day off too; keep one of the two")
    table.done()
    return calendar, wished, spread


def read_weekdays(table: Fields | None) -> dict[int, int]:
    """Minutes for lessons by weekday (0 = Monday); a weekday that is not named has none."""
    if table is None:
        return {}
    found = {number: table.whole(name) for number, name in enumerate(WEEKDAY_NAMES) if table.has(name)}
    for number, minutes in found.items():
        if minutes > LONGEST_DAY:
            table.problem(WEEKDAY_NAMES[number], f"is {minutes}; a day has {LONGEST_DAY} minutes")
    for name in WEEKDAY_NAMES:
        table.raw(name)
    table.done()
    return {number: minutes for number, minutes in found.items() if minutes}


def _spans(table: Fields, name: str) -> tuple[DaysOff, ...]:
    found = []
    for row in table.tables(name):
        first = row.day("first")
        last = row.day("last", optional=True) or first
        title = row.text("name", optional=True)
        if first is not None and last is not None:
            if last < first:
                row.problem("last", f"{last} lies before the first day, {first}")
            elif last - first > LONGEST:
                row.problem("last", f"{last} lies more than two years after the first day, {first}")
            else:
                found.append(DaysOff(first=first, last=last, name=title))
        row.done()
    return tuple(found)


def _half_days(table: Fields) -> tuple[LearningDay, ...]:
    found: dict[date, LearningDay] = {}
    for row in table.tables("half_days"):
        day, minutes = row.day("date"), row.whole("minutes")
        if minutes > LONGEST_DAY:
            row.problem("minutes", f"is {minutes}; a day has {LONGEST_DAY} minutes")
        if day is not None:
            if day in found:
                row.problem("date", f"{day} stands twice; keep one of the two")
            found[day] = LearningDay(day=day, minutes=minutes)
        row.done()
    return tuple(found.values())


def _holidays(about: Fields, *, start: date, end: date | None) -> tuple[DaysOff, ...]:
    """The public holidays that the family keeps: those named, or `all`; a name brings its observed days too."""
    country = about.text("country", optional=True)
    subdivision = about.text("subdivision", optional=True) or None
    chosen = about.texts("holidays", optional=True)
    if not chosen:
        return ()
    if not country:
        about.problem("country", 'is missing; holidays are chosen from a country\'s list: write country = "US"')
        return ()
    years = range(start.year, (end or start + LONGEST).year + 1)
    try:
        known = holidays_of(country, years, subdivision=subdivision)
    except UnknownHolidays as unknown:
        about.problem("country" if subdivision is None else "subdivision", str(unknown))
        return ()
    if chosen == (ALL,):
        return known
    names = {part: one for one in known for part in _parts(one.name)}
    for name in chosen:
        if name not in names:
            close = difflib.get_close_matches(name, names, n=1)
            meant = f"did you mean “{close[0]}”" if close else "the names are " + ", ".join(sorted(names))
            about.problem("holidays", f"“{name}” is no holiday in {country} from {years[0]} to {years[-1]}; {meant}")
    return tuple(one for one in known if _parts(one.name) & set(chosen))


def _parts(name: str) -> frozenset[str]:
    """The names of a holiday: two that fall on one date stand side by side, and an observed day is its holiday's."""
    return frozenset(part.removesuffix(" (observed)") for part in name.split("; "))
