"""The learning days of a year, each with what lies before and after it: a weekend, a break, a holiday."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta
from itertools import pairwise
from typing import TYPE_CHECKING

from dayleaf.plan.calendar import learning_days
from dayleaf.plan.wishes import LONG_BREAK, TWO_WEEKS

if TYPE_CHECKING:
    from datetime import date

    from dayleaf.plan.calendar import LearningCalendar

ONE_DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class YearDay:
    """One learning day.

    A gap is the run of days between two learning days. It is *cut* where at least one of them would have been a
    learning day by the weekdays alone; a missed day cuts the gap before a day, but not the gap after it, for nobody
    knew of it. `after_break`: the gap before is cut and lasts five days or more.
    `after_weekend`: it lasts two days or more and is no such break. `before_holiday`: the gap after is cut.
    `before_two_weeks`: it is cut and lasts 14 days or more. `short`: it has fewer minutes than the longest
    weekday.
    """

    day: date
    minutes: int
    after_break: bool
    after_weekend: bool
    before_holiday: bool
    before_two_weeks: bool
    short: bool


def year_days(calendar: LearningCalendar) -> tuple[YearDay, ...]:
    """All learning days with their surroundings; before the first and after the last of them lies nothing."""
    days = learning_days(calendar)
    longest = max(calendar.minutes.values(), default=0)
    gaps = [_gap(calendar, one.day, other.day) for one, other in pairwise(days)]
    nothing = (0, False, False)
    return tuple(
        YearDay(
            day=one.day,
            minutes=one.minutes,
            after_break=before[1] and before[0] >= LONG_BREAK,
            after_weekend=before[0] >= 2 and not (before[1] and before[0] >= LONG_BREAK),
            before_holiday=after[2],
            before_two_weeks=after[2] and after[0] >= TWO_WEEKS,
            short=one.minutes < longest,
        )
        for one, before, after in zip(days, (nothing, *gaps), (*gaps, nothing), strict=False)
    )


def _gap(calendar: LearningCalendar, left: date, right: date) -> tuple[int, bool, bool]:
    """How many days lie between two learning days, whether the gap is cut, and whether it is so without missed days."""
    length = (right - left).days - 1
    if length == 0:
        return 0, False, False
    between = [left + n * ONE_DAY for n in range(1, length + 1)]
    cut = [day for day in between if calendar.minutes.get(day.weekday(), 0) > 0]
    return length, bool(cut), any(day not in calendar.missed for day in cut)
