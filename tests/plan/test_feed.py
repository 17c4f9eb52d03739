"""The plan as a calendar file. Referees: two parsers that are not ours, RFC 5545's own limits, the zone database."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from io import StringIO
from typing import Any
from zoneinfo import ZoneInfo

import pytest
import vobject  # type: ignore[import-untyped]  # it has no types
from dateutil.tz import tzical  # type: ignore[import-untyped]  # it has no types
from hypothesis import given, settings
from hypothesis import strategies as st
from icalendar import Calendar

from dayleaf.core.ids import LearnerId, LessonId
from dayleaf.plan.feed import Entry, NotOurCalendar, announced_in, calendar_file, make_feed, uid_of, written
from dayleaf.plan.feed_lines import folded

TODAY = date(2027, 3, 10)
ZONE = "America/New_York"
HOUSE: dict[str, Any] = {"household": "slow-lettuce", "name": "Dayleaf on the boat", "zone": ZONE, "today": TODAY}


def entry(n: int, **more: Any) -> Entry:
    usual: dict[str, Any] = {
        "learner": LearnerId("wren"),
        "initial": "W",
        "run": "grade2",
        "lesson": LessonId(f"day-{n:03d}"),
        "title": "Not enough ones",
        "day": TODAY + timedelta(days=n - 84),
        "note": "21 minutes with you, 22 alone",
    }
    return Entry(**{**usual, **more})


def week() -> list[Entry]:
    """Five days from today on: all day, except two with a time."""
    return [entry(84 + n, start=time(9, 5) if n in (1, 4) else None, minutes=43) for n in range(5)]


def events(content: bytes) -> list[Any]:
    return list(Calendar.from_ical(content).walk("VEVENT"))


def said(content: bytes) -> dict[str, tuple[int, str]]:
    return {str(one["UID"]): (int(one["SEQUENCE"]), str(one["STATUS"])) for one in events(content)}


def test_two_parsers_read_the_same_events_and_find_no_fault() -> None:
    content = calendar_file(week(), **HOUSE)

    calendar: Any = Calendar.from_ical(content)
    other = vobject.readOne(content.decode())

    assert [component.errors for component in calendar.walk() if component.errors] == []
    first = [(str(one["UID"]), str(one["SUMMARY"]), one["DTSTART"].dt) for one in calendar.walk("VEVENT")]
    second = [(one.uid.value, one.summary.value, one.dtstart.value) for one in other.vevent_list]
    assert [(uid, said_as) for uid, said_as, _ in first] == [(uid, said_as) for uid, said_as, _ in second]
    for (_, _, one), (_, _, two) in zip(first, second, strict=True):
        assert one == two
    other.validate(raiseException=True)
    assert (str(calendar["NAME"]), str(calendar["VERSION"])) == ("Dayleaf on the boat", "2.0")
    assert calendar["REFRESH-INTERVAL"].dt == timedelta(hours=12)  # RFC 7986, 5.7


def test_an_all_day_lesson_ends_on_the_day_after_it() -> None:
    # RFC 5545, 3.6.1: the end of an event is exclusive; CHECKS B gives 17 August and 18 August
    (one,) = events(calendar_file([entry(1, day=date(2026, 8, 17))], **HOUSE))

    assert (one["DTSTART"].dt, one["DTEND"].dt) == (date(2026, 8, 17), date(2026, 8, 18))
    assert one["DTSTART"].params["VALUE"] == "DATE"


def test_every_line_is_at_most_75_octets_and_ends_with_cr_lf() -> None:
    long = [replace(one, title="Zwölf Körbe, über den Kanal; “so many” 12 ÷ 3 = 4 \\ " * 4) for one in week()]

    content = calendar_file(long, **HOUSE)

    lines = content.split(b"\r\n")
    assert b"\n" not in content.replace(b"\r\n", b"")
    assert max(map(len, lines)) <= 75  # RFC 5545, 3.1
    assert all(line.decode() for line in lines[:-1])  # no character is cut in two
    assert str(events(content)[0]["SUMMARY"]) == f"W: {' '.join(long[0].title.split())}"


@given(st.text(max_size=300))
def test_folding_loses_nothing(text: str) -> None:
    text = text.encode("utf-8", "ignore").decode()
    pieces = list(folded(text))

    assert pieces[0] + "".join(piece[1:] for piece in pieces[1:]) == text
    assert all(len(piece.encode()) <= 75 for piece in pieces)


@settings(max_examples=60, deadline=None)
@given(title=st.text(max_size=60), note=st.text(max_size=120))
def test_whatever_a_family_types_comes_back_without_its_control_signs(title: str, note: str) -> None:
    content = calendar_file([entry(84, title=title, note=note)], **HOUSE)

    assert not re.search(rb"[\x00-\x09\x0b\x0c\x0e-\x1f\x7f]", content)
    (one,) = events(content)
    (two,) = vobject.readOne(content.decode()).vevent_list
    assert str(one["SUMMARY"]) == two.summary.value
    assert str(one["SUMMARY"]).startswith("W: ")


def test_no_name_of_a_child_is_written_and_every_event_is_private() -> None:
    content = calendar_file([replace(one, initial="Wren") for one in week()], **HOUSE)

    assert b"Wren" not in content
    assert b"wren" not in content
    assert {str(one["CLASS"]) for one in events(content)} == {"PRIVATE"}


def test_the_same_plan_gives_the_same_bytes_again() -> None:
    first = calendar_file(week(), **HOUSE)

    assert calendar_file(reversed(week()), **HOUSE) == first
    assert calendar_file(week(), before=first, **HOUSE) == first
    assert calendar_file(week(), before=first, **{**HOUSE, "today": TODAY + timedelta(days=3)}) == first


def test_a_moved_lesson_keeps_its_name_and_only_its_sequence_rises() -> None:
    first = calendar_file(week(), **HOUSE)
    moved = [*week()[:4], replace(week()[4], day=TODAY + timedelta(days=9))]

    second = calendar_file(moved, before=first, **HOUSE)

    uid = uid_of("slow-lettuce", week()[4])
    assert said(first).keys() == said(second).keys()
    assert said(second)[uid] == (1, "CONFIRMED")
    assert all(sequence == 0 for one, (sequence, _) in said(second).items() if one != uid)
    stamps = {str(one["UID"]): one["DTSTAMP"].dt for one in events(second)}
    assert stamps[uid] > min(stamps.values())


def test_a_lesson_left_out_is_announced_as_cancelled_once_and_a_past_one_never() -> None:
    past = entry(70, day=TODAY - timedelta(days=5))
    first = calendar_file([past, *week()], **HOUSE)

    second = calendar_file(week()[:4], before=first, **HOUSE)
    again = calendar_file(week()[:4], before=second, **HOUSE)
    third = calendar_file(week()[:3], before=second, **HOUSE)
    back = calendar_file(week(), before=third, **HOUSE)

    gone, next_gone = uid_of("slow-lettuce", week()[4]), uid_of("slow-lettuce", week()[3])
    assert said(second)[gone] == (1, "CANCELLED")
    assert uid_of("slow-lettuce", past) not in said(second)
    assert again == second
    assert gone not in said(third)
    assert said(third)[next_gone] == (1, "CANCELLED")
    # the sequence goes on where it was, so that a program which has seen the cancellation takes the lesson back
    assert said(back)[gone] == (2, "CONFIRMED")
    assert said(back)[next_gone] == (2, "CONFIRMED")


def test_a_calendar_that_is_called_otherwise_is_written_anew() -> None:
    first = calendar_file(week(), **HOUSE)

    second = calendar_file(week(), before=first, **{**HOUSE, "name": "Dayleaf on"})

    assert b"NAME:Dayleaf on\r\n" in second
    assert said(second) == said(first)


def test_two_children_two_runs_and_two_households_never_share_an_event() -> None:
    names = {
        uid_of(house, entry(84, learner=LearnerId(child), run=run))
        for house in ("slow-lettuce", "raft")
        for child in ("wren", "ivo")
        for run in ("grade2", "grade2 again")
    }

    assert len(names) == 8


@pytest.mark.parametrize(
    "zone", ["America/New_York", "Europe/Dublin", "Australia/Lord_Howe", "Africa/Casablanca", "UTC"]
)
def test_the_zone_in_the_file_is_the_zone_of_the_database(zone: str) -> None:
    days = [date(2026, 8, 17) + timedelta(days=n) for n in range(300)]
    lessons = [entry(n, day=day, start=time(9), minutes=40) for n, day in enumerate(days)]

    content = calendar_file(lessons, **{**HOUSE, "zone": zone})

    # dateutil's own reader of VTIMEZONE, against the IANA database, every three hours of the year
    read, known = tzical(StringIO(content.decode())).get(zone), ZoneInfo(zone)
    for hour in range(0, 300 * 24, 3):
        moment = datetime(2026, 8, 17, 1, 30) + timedelta(hours=hour)  # noqa: DTZ001 -- a wall clock, given its zone below
        there = moment.replace(tzinfo=known).astimezone(UTC).astimezone(known).replace(tzinfo=None) == moment
        if not there:
            continue  # the hour that is left out when the clocks go forward
        assert moment.replace(tzinfo=read).utcoffset() == moment.replace(tzinfo=known).utcoffset(), moment


def test_nine_in_the_morning_stays_nine_when_the_clocks_change_and_all_day_lessons_stay_on_their_day() -> None:
    # New York: clocks go forward on 14 March 2027
    days = [date(2027, 3, 12), date(2027, 3, 15)]
    timed = [entry(84 + n, day=day, start=time(9), minutes=40) for n, day in enumerate(days)]
    whole = [entry(90 + n, day=day) for n, day in enumerate(days)]

    found = events(calendar_file([*timed, *whole], **HOUSE))

    starts = [one["DTSTART"].dt for one in found]
    clocks = [one for one in starts if isinstance(one, datetime)]
    assert [one.astimezone(UTC).hour for one in clocks] == [14, 13]
    assert [one for one in starts if not isinstance(one, datetime)] == days


def test_a_file_of_somebody_else_is_never_written_over() -> None:
    other = b"BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Somebody//EN\r\nEND:VCALENDAR\r\n"

    with pytest.raises(NotOurCalendar, match="name another file"):
        calendar_file(week(), before=other, **HOUSE)


def test_a_plan_version_states_its_own_moment_and_an_empty_plan_is_a_calendar_too() -> None:
    made = datetime(2027, 3, 9, 20, 10, tzinfo=UTC)

    feed = make_feed(week(), stamp=made, **HOUSE)

    assert {one["DTSTAMP"].dt for one in events(written(feed))} == {made}
    assert announced_in(written(feed)) == dict(feed.announced)
    assert events(calendar_file([], **HOUSE)) == []
