"""A family's own calendar file (RFC 5545) read as times that are taken: recurrences, exceptions, time zones."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from itertools import islice
from typing import TYPE_CHECKING, Any, Final
from zoneinfo import ZoneInfo

from dayleaf.core.errors import Problem
from dayleaf.plan.calendar import DaysOff
from dayleaf.plan.recurrence import read_rule, rounds

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from icalendar import Component

MOST_BYTES: Final = 8 * 2**20
MOST_EVENTS: Final = 5_000
MOST_TIMES: Final = 20_000
"""How many times one event may come round between its first and the last day asked for."""
TOO_OFTEN: Final = ("SECONDLY", "MINUTELY", "HOURLY")
NAMELESS: Final = "busy"


@dataclass(frozen=True, slots=True)
class BusyTime:
    """Minutes of one day that are taken, in the household's own time; `who` is empty where it is the adult's.

    An all-day event takes the whole day (`all_day`, from midnight, 1440 minutes).
    """

    day: date
    start: time
    minutes: int
    name: str
    all_day: bool = False
    who: tuple[str, ...] = ()


def read_busy(
    content: bytes, *, first: date, last: date, zone: str, who: Sequence[str] = ()
) -> tuple[tuple[BusyTime, ...], tuple[Problem, ...]]:
    """The busy times of a calendar file from `first` to `last` (included), in order, and what could not be read.

    Events that are cancelled or do not block time (TRANSP:TRANSPARENT) are left aside. A time without a zone is
    taken in `zone`, the household's. An event over midnight is cut at it. What cannot be read is one problem
    each; the rest is still given.
    """
    if len(content) > MOST_BYTES:
        return (), (Problem("calendar", f"the file is larger than {MOST_BYTES // 2**20} MB; export fewer years"),)
    events, problems = _events(content)
    window = _Window(first, last, ZoneInfo(zone), tuple(who))
    replaced = _replaced(events)
    found: list[BusyTime] = []
    for event in events:
        try:
            if _takes_time(event):
                found += _times(event, window, replaced.get(_uid(event), frozenset()), problems)
        except (ValueError, TypeError, OverflowError, AttributeError, KeyError) as error:
            problems.append(Problem(_where(event), f"it cannot be read ({error}); mend or remove it"))
    return tuple(sorted(set(found), key=lambda one: (one.day, one.start, one.minutes, one.name))), tuple(problems)


def days_off(busy: Iterable[BusyTime]) -> tuple[DaysOff, ...]:
    """The all-day events as days off, neighbouring days of one name joined."""
    off: list[DaysOff] = []
    for one in sorted((one for one in busy if one.all_day), key=lambda one: (one.name, one.day)):
        if off and off[-1].name == one.name and (one.day - off[-1].last).days <= 1:
            off[-1] = DaysOff(off[-1].first, one.day, one.name)
        else:
            off.append(DaysOff(one.day, one.day, one.name))
    return tuple(sorted(off, key=lambda one: (one.first, one.name)))


@dataclass(frozen=True, slots=True)
class _Window:
    """The days asked for and the household's zone."""

    first: date
    last: date
    zone: ZoneInfo
    who: tuple[str, ...]


def _events(content: bytes) -> tuple[list[Component], list[Problem]]:
    # Imported here: it costs a third of a second, and most calls never need it.
    from icalendar import Calendar  # noqa: PLC0415 -- see above

    try:
        calendars = Calendar.from_ical(content.decode("utf-8-sig"), multiple=True)
    except (ValueError, KeyError, IndexError, TypeError) as error:
        said = str(error).splitlines()[0][:120] if str(error) else type(error).__name__
        return [], [Problem("calendar", f"this is no calendar file that can be read ({said})")]
    events = [event for calendar in calendars for event in calendar.walk("VEVENT")]
    problems = [] if calendars else [Problem("calendar", "there is no calendar in this file")]
    if len(events) > MOST_EVENTS:
        problems.append(Problem("calendar", f"only the first {MOST_EVENTS} events were read; export fewer years"))
    return events[:MOST_EVENTS], problems


def _takes_time(event: Component) -> bool:
    away = str(event.get("STATUS", "")).upper() == "CANCELLED"
    return not away and str(event.get("TRANSP", "")).upper() != "TRANSPARENT"


def _replaced(events: Iterable[Component]) -> dict[str, frozenset[datetime | date]]:
    """The times of a recurring event that other events stand for (RECURRENCE-ID), by UID."""
    replaced: dict[str, set[datetime | date]] = {}
    for event in events:
        moved = event.get("RECURRENCE-ID")
        if moved is not None:
            replaced.setdefault(_uid(event), set()).add(_instant(moved.dt))
    return {uid: frozenset(times) for uid, times in replaced.items()}


def _times(
    event: Component, window: _Window, replaced: frozenset[datetime | date], problems: list[Problem]
) -> Iterator[BusyTime]:
    start = event.get("DTSTART")
    if start is None:
        raise ValueError("it has no beginning")
    begins = start.dt
    length = _length(event, begins)
    if length < timedelta(0):
        raise ValueError("it ends before it begins")
    if "RECURRENCE-ID" in event:
        if str(event["RECURRENCE-ID"].params.get("RANGE", "")).upper() == "THISANDFUTURE":
            problems.append(Problem(_where(event), "only this one time was moved, the later ones stand as they were"))
        yield from _pieces(event, begins, length, window)
        return
    excluded = {_instant(one) for one in _listed(event, "EXDATE")} | replaced
    for one, its_length in _rounds(event, begins, length, window, problems):
        if _instant(one) not in excluded and _as_day(one) not in excluded:
            yield from _pieces(event, one, its_length, window)


def _rounds(
    event: Component, begins: date, length: timedelta, window: _Window, problems: list[Problem]
) -> Iterator[tuple[date, timedelta]]:
    """Every time the event comes round: its own, its rules', its extra dates; each once."""
    rounds: dict[datetime | date, tuple[date, timedelta]] = {_instant(begins): (begins, length)}
    rules = event.get("RRULE", [])
    for rule in rules if isinstance(rules, list) else [rules]:
        for one in _ruled(event, rule, begins, window, problems):
            rounds.setdefault(_instant(one), (one, length))
    for extra in _listed(event, "RDATE"):
        if isinstance(extra, tuple):
            since, until = extra
            its_length = until if isinstance(until, timedelta) else until - since
            rounds[_instant(since)] = (since, its_length)
        else:
            rounds.setdefault(_instant(extra), (extra, length))
    yield from rounds.values()


def _ruled(event: Component, rule: Any, begins: date, window: _Window, problems: list[Problem]) -> Iterator[date]:
    """The times of a rule up to the window's end, reckoned on the wall clock of the event's own zone."""
    parts = {str(key).upper(): value for key, value in rule.items()}
    if {str(one).upper() for one in parts.get("FREQ", [])} & set(TOO_OFTEN):
        problems.append(Problem(_where(event), "it comes round more often than daily; only its first time was taken"))
        return
    zone = begins.tzinfo if isinstance(begins, datetime) else None
    wall = begins.replace(tzinfo=None) if isinstance(begins, datetime) else datetime.combine(begins, time())
    last = datetime.combine(window.last, time.max) + timedelta(days=1)
    last = min([last, *(_wall(one, zone) for one in parts.pop("UNTIL", []))])
    since = window.first - max(_length(event, begins), timedelta(0)) - timedelta(days=2)
    times = rounds(read_rule(parts, wall), wall, since=since, last=last)
    taken = list(islice(times, MOST_TIMES + 1))
    if len(taken) > MOST_TIMES:
        problems.append(
            Problem(_where(event), f"it comes round more than {MOST_TIMES} times; the later ones were left")
        )
    for one in taken[:MOST_TIMES]:
        yield one.replace(tzinfo=zone) if isinstance(begins, datetime) else one.date()


def _wall(moment: date, zone: Any) -> datetime:
    """The last moment of a rule on the wall clock of its event: the whole day where only a date is given."""
    if not isinstance(moment, datetime):
        return datetime.combine(moment, time.max)
    if moment.tzinfo is not None and zone is not None:
        return moment.astimezone(zone).replace(tzinfo=None)
    return moment.replace(tzinfo=None)


def _pieces(event: Component, begins: date, length: timedelta, window: _Window) -> Iterator[BusyTime]:
    """One time of an event, day by day within the window."""
    name = " ".join(str(event.get("SUMMARY", "")).split())[:80] or NAMELESS
    if not isinstance(begins, datetime):
        after = min(begins + timedelta(days=max(length.days, 1)), window.last + timedelta(days=1))
        day = max(begins, window.first)
        while day < after:
            yield BusyTime(day, time(), 24 * 60, name, all_day=True, who=window.who)
            day += timedelta(days=1)
        return
    start = begins.replace(tzinfo=window.zone) if begins.tzinfo is None else begins
    end = (start.astimezone(UTC) + length).astimezone(window.zone).replace(tzinfo=None)
    here = start.astimezone(window.zone).replace(tzinfo=None)
    here = max(here, datetime.combine(window.first, time()))
    end = min(end, datetime.combine(window.last + timedelta(days=1), time()))
    while here < end:
        midnight = datetime.combine(here.date() + timedelta(days=1), time())
        until = min(end, midnight)
        minutes = -(-(until - here).total_seconds() // 60)
        yield BusyTime(here.date(), here.time().replace(second=0, microsecond=0), int(minutes), name, who=window.who)
        here = until


def _length(event: Component, begins: date) -> timedelta:
    end, lasts = event.get("DTEND"), event.get("DURATION")
    if end is not None:
        span = end.dt - begins
    elif lasts is not None:
        span = lasts.dt
    else:
        span = timedelta(0) if isinstance(begins, datetime) else timedelta(days=1)
    assert isinstance(span, timedelta)  # noqa: S101 -- the difference of two moments
    return span


def _listed(event: Component, key: str) -> list[Any]:
    raw = event.get(key, [])
    return [one.dt for lists in (raw if isinstance(raw, list) else [raw]) for one in lists.dts]


def _instant(moment: Any) -> datetime | date:
    """One moment in one way, so that the same moment in two zones is the same."""
    if isinstance(moment, tuple):
        return _instant(moment[0])
    if isinstance(moment, datetime) and moment.tzinfo is not None:
        return moment.astimezone(UTC)
    assert isinstance(moment, date)  # noqa: S101 -- icalendar gives nothing else
    return moment


def _as_day(moment: date) -> date:
    return moment.date() if isinstance(moment, datetime) else moment


def _uid(event: Component) -> str:
    return str(event.get("UID", ""))


def _where(event: Component) -> str:
    return f"event “{' '.join(str(event.get('SUMMARY', NAMELESS)).split())[:60]}”"
