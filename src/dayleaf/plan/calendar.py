"""The days on which a family sits down to learn."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from typing import TYPE_CHECKING, Final

from dayleaf.core.errors import DayleafError

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

LONGEST: Final = timedelta(days=2 * 366)
"""How far a calendar without an end is followed: two years."""

WEEKDAYS: Final = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


class UnknownHolidays(DayleafError):
    """There is no holiday list for this country."""

    def __init__(self, country: str) -> None:
        self.country = country
        super().__init__(f"There is no holiday list for “{country}”; give a country's two letters, such as US or IE.")


@dataclass(frozen=True, slots=True)
class DaysOff:
    """Days on end under one name, from `first` to `last`, the last one included: days off, or a term."""

    first: date
    last: date
    name: str


@dataclass(frozen=True, slots=True)
class LearningDay:
    """One day with time for lessons."""

    day: date
    minutes: int


@dataclass(frozen=True, slots=True)
class LearningCalendar:
    """A family's year: from `start` to `end` (included), minutes a weekday (0 = Monday), and the days off.

    `holidays` are the public holidays that the family keeps, with their dates copied in, so that the plan
    stays the same when a list of holidays is mended. A weekday without minutes has no lessons. `half_days`
    have minutes of their own. With `terms`, learning days lie inside them. `free` days are kept without
    lessons on purpose; `missed` days were lost.
    """

    start: date
    minutes: Mapping[int, int]
    off: tuple[DaysOff, ...] = ()
    holidays: tuple[DaysOff, ...] = ()
    end: date | None = None
    half_days: tuple[LearningDay, ...] = ()
    terms: tuple[DaysOff, ...] = ()
    free: tuple[date, ...] = ()
    missed: tuple[date, ...] = ()

    @property
    def last(self) -> date:
        """The last date that a lesson can have: the end, or two years on where none is set."""
        return self.start + LONGEST if self.end is None else self.end


def learning_days(calendar: LearningCalendar) -> tuple[LearningDay, ...]:
    """All learning days in order, up to the calendar's end or two years on."""
    return tuple(_days(calendar))


def holidays_of(country: str, years: Iterable[int], *, subdivision: str | None = None) -> tuple[DaysOff, ...]:
    """The public holidays of a country (two letters) in these years, in order, with the days they are kept on.

    Raises:
        UnknownHolidays: the country or the subdivision is not known.
    """
    # Imported here: the lists cost a tenth of a second and most calls never need them.
    import holidays  # noqa: PLC0415 -- see above

    try:
        found = holidays.country_holidays(country.upper(), subdiv=subdivision, years=list(years))
    except NotImplementedError:
        raise UnknownHolidays(country if subdivision is None else f"{country}-{subdivision}") from None
    return tuple(DaysOff(first=day, last=day, name=name) for day, name in sorted(found.items()))


def _days(calendar: LearningCalendar) -> Iterator[LearningDay]:
    closed = dates_in((*calendar.off, *calendar.holidays)).union(calendar.free, calendar.missed)
    half = {one.day: one.minutes for one in calendar.half_days}
    in_term = dates_in(calendar.terms)
    day, last = calendar.start, calendar.last
    while day <= last:
        minutes = half.get(day, calendar.minutes.get(day.weekday(), 0))
        if minutes > 0 and day not in closed and (not calendar.terms or day in in_term):
            yield LearningDay(day=day, minutes=minutes)
        day += timedelta(days=1)


def dates_in(spans: Iterable[DaysOff]) -> frozenset[date]:
    """Every date of these spans, their last days included."""
    return frozenset(
        span.first + timedelta(days=offset) for span in spans for offset in range((span.last - span.first).days + 1)
    )
