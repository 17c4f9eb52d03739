"""The years of a published table, which every planner is held against."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from dayleaf.plan.calendar import DaysOff, LearningCalendar, holidays_of

MONDAY = date(2026, 8, 17)
FIVE = dict.fromkeys(range(5), 45)
FOUR = dict.fromkeys(range(4), 45)
FEDERAL = holidays_of("US", (2026, 2027))
BREAKS = (
    DaysOff(first=date(2026, 11, 23), last=date(2026, 11, 27), name="harvest week"),
    DaysOff(first=date(2026, 12, 21), last=date(2027, 1, 1), name="midwinter"),
    DaysOff(first=date(2027, 3, 15), last=date(2027, 3, 19), name="spring week"),
)


@dataclass(frozen=True, slots=True)
class PublishedYear:
    """A calendar, and the days of its ninetieth and its last lesson."""

    calendar: LearningCalendar
    lesson_90: date
    lesson_180: date


def _year(
    minutes: dict[int, int], holidays: tuple[DaysOff, ...], off: tuple[DaysOff, ...], lesson_90: date, lesson_180: date
) -> PublishedYear:
    calendar = LearningCalendar(start=MONDAY, minutes=minutes, holidays=holidays, off=off)
    return PublishedYear(calendar, lesson_90, lesson_180)


# CHECKS E.2: its referees are numpy.busday_offset and dateutil's rule sets
YEARS = {
    "every weekday": _year(FIVE, (), (), date(2026, 12, 18), date(2027, 4, 23)),
    "federal holidays": _year(FIVE, FEDERAL, (), date(2026, 12, 24), date(2027, 5, 5)),
    "holidays and breaks": _year(FIVE, FEDERAL, BREAKS, date(2027, 1, 13), date(2027, 5, 28)),
    "four days a week": _year(FOUR, FEDERAL, (), date(2027, 1, 27), date(2027, 7, 8)),
}
