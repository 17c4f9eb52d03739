"""The plan as a calendar file (RFC 5545, RFC 7986) that other programs read, and read again without doubles.

A lesson keeps its UID whatever its date. Its SEQUENCE rises only when what the event says changes. A lesson that a
new plan leaves out is announced once as cancelled, if its day is still to come. The same plan gives the same bytes.
"""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, time, timedelta
from typing import TYPE_CHECKING, Final
from uuid import UUID, uuid5

from dayleaf.core.errors import DayleafError
from dayleaf.plan.feed_lines import folded, line, plain, text_value, zone_lines

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from dayleaf.core.ids import LearnerId, LessonId

NAMESPACE: Final = UUID("6f1c3c56-3b0e-5f0c-9a51-7d0f0b5a8d11")
"""Ours alone, so that our UIDs meet nobody else's."""
PRODUCT: Final = "-//Dayleaf//Plan//EN"
KEPT: Final = "X-DAYLEAF-KEPT"
HASH: Final = "X-DAYLEAF-CONTENT"
REFRESH: Final = "PT12H"


class NotOurCalendar(DayleafError):
    """The file that stands where the calendar is to go was not written by Dayleaf, or was changed by hand."""

    def __init__(self) -> None:
        super().__init__(
            "There is a calendar file already that is not one of Dayleaf’s; name another file for the plan."
        )


@dataclass(frozen=True, slots=True)
class Entry:
    """One lesson of one child on its day. Only the learner's initial is ever written, never the name.

    With `start` and `minutes` the event has a time in the household's zone, otherwise it lasts the whole day.
    `run` names the course run, so that a course taught a second time has events of its own.
    """

    learner: LearnerId
    initial: str
    run: str
    lesson: LessonId
    title: str
    day: date
    note: str = ""
    start: time | None = None
    minutes: int = 0


@dataclass(frozen=True, slots=True)
class Announced:
    """What was last said of one event. `live` is false once it has been cancelled."""

    sequence: int
    content: str
    day: date
    stamp: datetime
    live: bool = True


@dataclass(frozen=True, slots=True)
class Event:
    """An event of the file as it is written."""

    uid: str
    announced: Announced
    entry: Entry | None
    """None for a lesson that is no longer planned."""


@dataclass(frozen=True, slots=True)
class Feed:
    """A calendar as one plan version publishes it; `announced` is all that later versions need to know."""

    name: str
    zone: str
    events: tuple[Event, ...]
    announced: Mapping[str, Announced] = field(default_factory=dict)


def uid_of(household: str, entry: Entry) -> str:
    """The event's name for ever: a UUID (version 5) of household, learner, course run and lesson, never of a date."""
    return str(uuid5(NAMESPACE, f"{household}\x1f{entry.learner}\x1f{entry.run}\x1f{entry.lesson}"))


def make_feed(
    entries: Iterable[Entry],
    *,
    household: str,
    name: str,
    zone: str,
    today: date,
    stamp: datetime | None = None,
    before: Mapping[str, Announced] | None = None,
) -> Feed:
    """The feed of a plan version, given what earlier versions announced.

    `stamp` is the moment in UTC at which the version was made; left out, stamps count from the new year before the
    first lesson, a second for each change, so that the same plan gives the same file on every machine. `today`
    decides which lessons that are no longer planned are still to come.
    """
    known = dict(before or {})
    planned = {uid_of(household, entry): entry for entry in entries}
    base = datetime(min((one.day for one in planned.values()), default=today).year, 1, 1, tzinfo=UTC)
    events: list[Event] = []
    for uid, entry in planned.items():
        content, old = _content(entry, zone), known.get(uid)
        if old is not None and old.live and old.content == content:
            now = old
        else:
            sequence = 0 if old is None else old.sequence + 1
            now = Announced(sequence, content, entry.day, stamp or base + timedelta(seconds=sequence))
        events.append(Event(uid, now, entry))
    for uid, old in known.items():
        if uid not in planned and old.live:
            sequence = old.sequence + 1
            gone = Announced(sequence, old.content, old.day, stamp or base + timedelta(seconds=sequence), live=False)
            known[uid] = gone
            if old.day >= today:
                events.append(Event(uid, gone, None))
    known |= {one.uid: one.announced for one in events}
    events.sort(key=lambda one: (one.announced.day, one.entry.learner if one.entry else "", one.uid))
    return Feed(plain(name), zone, tuple(events), known)


def calendar_file(
    entries: Iterable[Entry],
    *,
    household: str,
    name: str,
    zone: str,
    today: date,
    stamp: datetime | None = None,
    before: bytes | None = None,
    also: Mapping[str, Announced] | None = None,
) -> bytes:
    """The calendar file of a plan, given the file written before (None for the first).

    Where nothing changed, it is the file before, byte for byte. `also` is what was announced elsewhere, as by a feed:
    of each event the later word counts.

    Raises:
        NotOurCalendar: `before` is no calendar file of ours.
    """
    planned = tuple(entries)
    earlier = announced_in(before) if before is not None else {}
    live = {uid: one.content for uid, one in earlier.items() if one.live}
    same = live == {uid_of(household, one): _content(one, zone) for one in planned}
    called = "\r\n".join(["", *folded(line("NAME", text_value(plain(name)))), ""])
    if before is not None and same and called.encode() in before:
        return before
    known = dict(also or {})
    known |= {uid: one for uid, one in earlier.items() if uid not in known or one.sequence >= known[uid].sequence}
    feed = make_feed(planned, household=household, name=name, zone=zone, today=today, stamp=stamp, before=known)
    return written(feed)


def written(feed: Feed) -> bytes:
    """The feed as a file: CRLF, lines of at most 75 octets, nothing that depends on clock or machine."""
    days = [one.announced.day for one in feed.events]
    timed = any(one.entry and one.entry.start is not None for one in feed.events)
    lines = [
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        line("PRODID", PRODUCT),
        "CALSCALE:GREGORIAN",
        "METHOD:PUBLISH",
        line("NAME", text_value(feed.name)),
        line("X-WR-CALNAME", text_value(feed.name)),
        f"REFRESH-INTERVAL;VALUE=DURATION:{REFRESH}",
        f"X-PUBLISHED-TTL:{REFRESH}",
    ]
    shown = {one.uid for one in feed.events}
    lines += [
        line(KEPT, f"{uid} {one.sequence} {one.day:%Y%m%d} {_moment(one.stamp)}")
        for uid, one in sorted(feed.announced.items())
        if uid not in shown and not one.live
    ]
    if timed and days:
        lines += zone_lines(feed.zone, first=min(days), last=max(days))
    for event in feed.events:
        lines += _event_lines(event, feed.zone)
    lines.append("END:VCALENDAR")
    return "".join(f"{part}\r\n" for one in lines for part in folded(one)).encode()


def announced_in(content: bytes) -> dict[str, Announced]:
    """What one of our own files says of its events; events that other programs put into it are left aside.

    Raises:
        NotOurCalendar: it is not ours, or cannot be read.
    """
    text = content.decode("utf-8", "replace").replace("\r\n", "\n").replace("\n ", "")
    if PRODUCT not in text:
        raise NotOurCalendar
    found: dict[str, Announced] = {}
    event: dict[str, str] = {}
    try:
        for one in text.split("\n"):
            name, _, value = one.partition(":")
            if one == "BEGIN:VEVENT":
                event = {}
            elif one == "END:VEVENT" and HASH in event:
                found[event["UID"]] = _announced(event)
            elif name == KEPT:
                uid, sequence, day, stamp = value.split()
                found[uid] = Announced(int(sequence), "", _read_day(day), _read_moment(stamp), live=False)
            else:
                event[name.partition(";")[0]] = value
    except (KeyError, ValueError) as wrong:
        raise NotOurCalendar from wrong
    return found


def _announced(event: Mapping[str, str]) -> Announced:
    return Announced(
        sequence=int(event["SEQUENCE"]),
        content=event[HASH],
        day=_read_day(event["DTSTART"]),
        stamp=_read_moment(event["DTSTAMP"]),
        live=event.get("STATUS") != "CANCELLED",
    )


def _event_lines(event: Event, zone: str) -> list[str]:
    now, entry = event.announced, event.entry
    lines = [
        "BEGIN:VEVENT",
        f"UID:{event.uid}",
        f"DTSTAMP:{_moment(now.stamp)}",
        f"SEQUENCE:{now.sequence}",
    ]
    if entry is None or entry.start is None:
        # The end of an all-day event is the first day after it (RFC 5545, 3.6.1).
        lines += [
            f"DTSTART;VALUE=DATE:{now.day:%Y%m%d}",
            f"DTEND;VALUE=DATE:{now.day + timedelta(days=1):%Y%m%d}",
        ]
    else:
        begins = datetime.combine(entry.day, entry.start)
        ends = begins + timedelta(minutes=entry.minutes)
        lines += [f"DTSTART;TZID={zone}:{begins:%Y%m%dT%H%M%S}", f"DTEND;TZID={zone}:{ends:%Y%m%dT%H%M%S}"]
    if entry is None:
        lines += ["SUMMARY:No longer planned", "STATUS:CANCELLED"]
    else:
        lines.append(line("SUMMARY", text_value(_summary(entry))))
        lines += [line("DESCRIPTION", text_value(plain(entry.note)))] if entry.note else []
        lines.append("STATUS:CONFIRMED")
    lines += ["CLASS:PRIVATE", "TRANSP:TRANSPARENT", line(HASH, now.content), "END:VEVENT"]
    return lines


def _summary(entry: Entry) -> str:
    return f"{plain(entry.initial)[:1]}: {plain(entry.title)}"


def _content(entry: Entry, zone: str) -> str:
    """A hash of all that the event says; it changes exactly when the event does."""
    start = "" if entry.start is None else f"{entry.start:%H%M%S} {entry.minutes} {zone}"
    said = "\x1f".join((entry.day.isoformat(), start, _summary(entry), plain(entry.note)))
    return hashlib.blake2b(said.encode(), digest_size=10).hexdigest()


def _moment(moment: datetime) -> str:
    return f"{moment.astimezone(UTC):%Y%m%dT%H%M%SZ}"


def _read_moment(text: str) -> datetime:
    return datetime.strptime(text, "%Y%m%dT%H%M%SZ").replace(tzinfo=UTC)


def _read_day(text: str) -> date:
    return date.fromisoformat(text[:8])
