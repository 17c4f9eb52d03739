"""A family's own calendar as busy time. Referees: the worked examples printed in RFC 5545, and dateutil's own rules."""

from __future__ import annotations

from datetime import date, datetime, time
from itertools import takewhile
from typing import TYPE_CHECKING

import pytest
from dateutil.rrule import rrulestr  # type: ignore[import-untyped]  # it has no types
from hypothesis import given, settings
from hypothesis import strategies as st

from dayleaf.core.ids import LearnerId, LessonId
from dayleaf.plan.busy import MOST_BYTES, BusyTime, days_off, read_busy
from dayleaf.plan.feed import Entry, calendar_file

if TYPE_CHECKING:
    from collections.abc import Iterator

    from dayleaf.core.errors import Problem

NEW_YORK = "America/New_York"


def file(*events: str, head: str = "") -> bytes:
    parts = [f"BEGIN:VEVENT\nDTSTAMP:20270101T000000Z\nUID:{n}\n{event}\nEND:VEVENT" for n, event in enumerate(events)]
    lines = "\n".join(["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Somebody//EN", head, *parts, "END:VCALENDAR", ""])
    return "\r\n".join(line for line in lines.split("\n") if line).encode() + b"\r\n"


def read(
    *events: str, first: date = date(2027, 1, 1), last: date = date(2027, 12, 31), zone: str = NEW_YORK, head: str = ""
) -> tuple[tuple[BusyTime, ...], tuple[Problem, ...]]:
    return read_busy(file(*events, head=head), first=first, last=last, zone=zone)


def days_of(busy: tuple[BusyTime, ...]) -> list[date]:
    return [one.day for one in busy]


def in_1997(*months: tuple[int, int, list[int]]) -> list[date]:
    return [date(year, month, day) for year, month, days in months for day in days]


# RFC 5545, 3.8.5.3: rules with the days that the standard itself prints, all beginning at 9:00 in New York
PRINTED = [
    ("19970902", "FREQ=DAILY;COUNT=10", in_1997((1997, 9, list(range(2, 12))))),
    ("19970902", "FREQ=DAILY;INTERVAL=10;COUNT=5", in_1997((1997, 9, [2, 12, 22]), (1997, 10, [2, 12]))),
    (
        "19970902",
        "FREQ=WEEKLY;UNTIL=19971224T000000Z",
        in_1997(
            (1997, 9, [2, 9, 16, 23, 30]),
            (1997, 10, [7, 14, 21, 28]),
            (1997, 11, [4, 11, 18, 25]),
            (1997, 12, [2, 9, 16, 23]),
        ),
    ),
    (
        "19970902",
        "FREQ=WEEKLY;INTERVAL=2;WKST=SU",
        in_1997(
            (1997, 9, [2, 16, 30]), (1997, 10, [14, 28]), (1997, 11, [11, 25]), (1997, 12, [9, 23]), (1998, 1, [6, 20])
        ),
    ),
    (
        "19970901",
        "FREQ=WEEKLY;INTERVAL=2;UNTIL=19971224T000000Z;WKST=SU;BYDAY=MO,WE,FR",
        in_1997(
            (1997, 9, [1, 3, 5, 15, 17, 19, 29]),
            (1997, 10, [1, 3, 13, 15, 17, 27, 29, 31]),
            (1997, 11, [10, 12, 14, 24, 26, 28]),
            (1997, 12, [8, 10, 12, 22]),
        ),
    ),
    (
        "19970905",
        "FREQ=MONTHLY;UNTIL=19971224T000000Z;BYDAY=1FR",
        in_1997((1997, 9, [5]), (1997, 10, [3]), (1997, 11, [7]), (1997, 12, [5])),
    ),
    (
        "19970907",
        "FREQ=MONTHLY;INTERVAL=2;COUNT=10;BYDAY=1SU,-1SU",
        in_1997((1997, 9, [7, 28]), (1997, 11, [2, 30]), (1998, 1, [4, 25])),
    ),
    (
        "19970922",
        "FREQ=MONTHLY;COUNT=6;BYDAY=-2MO",
        in_1997((1997, 9, [22]), (1997, 10, [20]), (1997, 11, [17]), (1997, 12, [22]), (1998, 1, [19])),
    ),
    (
        "19970928",
        "FREQ=MONTHLY;BYMONTHDAY=-3",
        in_1997((1997, 9, [28]), (1997, 10, [29]), (1997, 11, [28]), (1997, 12, [29]), (1998, 1, [29])),
    ),
]


@pytest.mark.parametrize(("begin", "rule", "printed"), PRINTED, ids=[rule for _, rule, _ in PRINTED])
def test_the_rules_printed_in_the_standard_fall_on_the_days_printed_there(
    begin: str, rule: str, printed: list[date]
) -> None:
    busy, problems = read(
        f"DTSTART;TZID={NEW_YORK}:{begin}T090000\nDURATION:PT1H\nRRULE:{rule}",
        first=date(1997, 9, 1),
        last=date(1998, 1, 31),
    )

    assert problems == ()
    assert days_of(busy) == printed
    assert {(one.start, one.minutes) for one in busy} == {(time(9), 60)}


def test_ten_times_less_one_exception_are_nine() -> None:
    # CHECKS B: COUNT is applied before EXDATE
    busy, _ = read(
        "DTSTART:20270104T090000\nDURATION:PT1H\nRRULE:FREQ=WEEKLY;BYDAY=MO,TU,WE,TH,FR;COUNT=10\nEXDATE:20270106T090000"
    )

    assert len(busy) == 9
    assert date(2027, 1, 6) not in days_of(busy)


HOURS = ",".join(map(str, range(24))) + ";BYMINUTE=" + ",".join(map(str, range(60)))
"""Every minute of the day."""
DAYS = ["MO", "TU", "WE", "TH", "FR", "SA", "SU"]


@st.composite
def rules(draw: st.DrawFn) -> str:
    """A rule of any kind that the standard knows, daily or rarer."""
    freq = draw(st.sampled_from(["DAILY", "WEEKLY", "MONTHLY", "YEARLY"]))
    parts = [f"FREQ={freq}", f"INTERVAL={draw(st.integers(1, 4))}"]
    days = draw(st.lists(st.sampled_from(DAYS), unique=True, max_size=4))
    if days and freq in ("MONTHLY", "YEARLY") and draw(st.booleans()):
        days = [f"{draw(st.sampled_from([-2, -1, 1, 2, 5]))}{day}" for day in days]
    if days:
        parts.append(f"BYDAY={','.join(days)}")
    # One filter more at most: dateutil looks for a rule that never comes true until the year 9999.
    filters = {
        "BYMONTH": f"{draw(st.integers(1, 12))},{draw(st.integers(1, 12))}",
        "BYMONTHDAY": f"{draw(st.integers(1, 28))},{draw(st.integers(-31, -1))}",
        "BYYEARDAY": f"{draw(st.integers(1, 366))},{draw(st.integers(-366, -1))},100",
        "BYWEEKNO": f"{draw(st.integers(1, 53))},{draw(st.integers(-53, -1))};WKST={draw(st.sampled_from(DAYS))}",
    }
    allowed = ["", "BYMONTH", *(["BYMONTHDAY"] if freq != "WEEKLY" else [])]
    name = draw(st.sampled_from(list(filters) if freq == "YEARLY" else allowed))
    if name:
        parts.append(f"{name}={filters[name]}")
    if freq in ("MONTHLY", "YEARLY") and draw(st.booleans()):
        parts.append(f"BYSETPOS={draw(st.sampled_from([-2, -1, 1, 2]))}")
    if draw(st.booleans()):
        parts.append(f"COUNT={draw(st.sampled_from([1, 3, 20]))}")
    return ";".join(parts)


@settings(max_examples=80, deadline=None)
@given(rule=rules(), hour=st.integers(0, 22), begin=st.dates(date(2019, 11, 1), date(2027, 6, 1)))
def test_drawn_rules_give_the_days_that_dateutil_gives(rule: str, hour: int, begin: date) -> None:
    first, last = date(2027, 1, 1), date(2027, 6, 30)

    busy, _ = read(f"DTSTART:{begin:%Y%m%d}T{hour:02d}3000\nDURATION:PT20M\nRRULE:{rule}", first=first, last=last)

    # dateutil, asked directly; the event's own beginning counts too where the rule does not name it
    start = datetime.combine(begin, time(hour, 30))
    until = datetime(2027, 7, 1)  # noqa: DTZ001 -- a wall clock
    named = takewhile(lambda one: one < until, _asked(rule, start))
    expected = {one.date() for one in named if one.date() >= first} | ({begin} if first <= begin <= last else set())
    assert days_of(busy) == sorted(expected)


def _asked(rule: str, start: datetime) -> Iterator[datetime]:
    """The times that dateutil gives, asked directly."""
    return iter(rrulestr(rule, dtstart=start))


def test_one_time_moved_stands_for_the_time_it_replaces() -> None:
    busy, problems = read_busy(
        file(
            f"SUMMARY:Co-op\nDTSTART;TZID={NEW_YORK}:20270301T130000\nDURATION:PT3H\nRRULE:FREQ=WEEKLY;COUNT=4",
        ).replace(
            b"END:VCALENDAR",
            f"BEGIN:VEVENT\r\nUID:0\r\nDTSTAMP:20270101T000000Z\r\nSUMMARY:Co-op\r\nRECURRENCE-ID;TZID={NEW_YORK}:20270315T130000\r\n"
            f"DTSTART;TZID={NEW_YORK}:20270316T140000\r\nDURATION:PT1H\r\nEND:VEVENT\r\nEND:VCALENDAR".encode(),
        ),
        first=date(2027, 3, 1),
        last=date(2027, 3, 31),
        zone=NEW_YORK,
    )

    assert problems == ()
    assert [(one.day.day, one.start.hour, one.minutes) for one in busy] == [
        (1, 13, 180),
        (8, 13, 180),
        (16, 14, 60),
        (22, 13, 180),
    ]


def test_a_weekly_time_keeps_its_wall_clock_over_the_change_of_the_clocks() -> None:
    # New York goes forward on 14 March 2027, Berlin on 28 March: between, the class comes an hour later in New York
    busy, _ = read(
        "DTSTART;TZID=Europe/Berlin:20270308T160000\nDURATION:PT1H\nRRULE:FREQ=WEEKLY;COUNT=4",
        f"DTSTART;TZID={NEW_YORK}:20270308T090000\nDURATION:PT1H\nRRULE:FREQ=WEEKLY;COUNT=2",
    )

    assert [(one.day.day, one.start.hour) for one in busy if one.start.hour > 9] == [
        (8, 10),
        (15, 11),
        (22, 11),
        (29, 10),
    ]
    assert [(one.day.day, one.start.hour) for one in busy if one.start.hour == 9] == [(8, 9), (15, 9)]


def test_a_rule_that_ends_at_a_moment_of_the_world_clock_keeps_its_last_evening() -> None:
    # 23:30 on 10 March in New York is 04:30 on 11 March in the world's time: the last of three
    busy, _ = read(f"DTSTART;TZID={NEW_YORK}:20270308T233000\nDURATION:PT15M\nRRULE:FREQ=DAILY;UNTIL=20270311T043000Z")

    assert [day.day for day in days_of(busy)] == [8, 9, 10]


def test_a_time_of_the_world_clock_over_midnight_is_cut_into_two_days() -> None:
    busy, _ = read("DTSTART:20270315T233000Z\nDTEND:20270316T053000Z")

    # In New York it is four hours earlier by then: 19:30 to 1:30
    assert [(one.day.day, one.start, one.minutes) for one in busy] == [(15, time(19, 30), 270), (16, time(0), 90)]


def test_whole_days_are_days_off_and_their_end_is_exclusive() -> None:
    busy, _ = read("SUMMARY:Gran Sorrel\nDTSTART;VALUE=DATE:20270310\nDTEND;VALUE=DATE:20270313")

    assert [(one.day.day, one.all_day, one.minutes) for one in busy] == [
        (10, True, 1440),
        (11, True, 1440),
        (12, True, 1440),
    ]
    assert [(one.first.day, one.last.day, one.name) for one in days_off(busy)] == [(10, 12, "Gran Sorrel")]


def test_extra_dates_and_periods_count_and_a_date_named_twice_counts_once() -> None:
    busy, _ = read(
        "DTSTART:20270315T100000\nDURATION:PT30M\nRRULE:FREQ=DAILY;COUNT=2\nRDATE:20270316T100000,20270320T100000\n"
        "RDATE;VALUE=PERIOD:20270322T100000/PT2H"
    )

    assert [(one.day.day, one.minutes) for one in busy] == [(15, 30), (16, 30), (20, 30), (22, 120)]


def test_what_is_cancelled_or_takes_no_time_is_not_busy() -> None:
    busy, problems = read(
        "DTSTART:20270315T100000\nDURATION:PT30M\nSTATUS:CANCELLED",
        "DTSTART;VALUE=DATE:20270316\nTRANSP:TRANSPARENT",
        "DTSTART:20270317T100000",
    )

    assert (busy, problems) == ((), ())


def test_a_zone_told_in_the_file_itself_is_understood() -> None:
    zone = (
        "BEGIN:VTIMEZONE\nTZID:Canal time\nBEGIN:STANDARD\nDTSTART:20200101T000000\nTZOFFSETFROM:-0700\n"
        "TZOFFSETTO:-0700\nTZNAME:CT\nEND:STANDARD\nEND:VTIMEZONE"
    )

    busy, _ = read("DTSTART;TZID=Canal time:20270115T090000\nDURATION:PT1H", head=zone)

    assert [(one.day.day, one.start.hour) for one in busy] == [(15, 11)]  # two hours later in New York's winter


@pytest.mark.parametrize(
    ("event", "words"),
    [
        ("SUMMARY:Bells\nDTSTART:20270101T000000\nRRULE:FREQ=HOURLY", "more often than daily"),
        (
            "SUMMARY:Bells\nDTSTART:20270101T000000\nDURATION:PT1M\nRRULE:FREQ=DAILY;BYHOUR=" + HOURS,
            "more than 20000 times",
        ),
        ("SUMMARY:Bells\nDTSTART:17000101T000000\nRRULE:FREQ=DAILY;BYMONTHDAY=31;BYMONTH=2;COUNT=9", "too long ago"),
        ("SUMMARY:Bells\nDTSTART:20270101T000000\nRRULE:FREQ=DAILY;INTERVAL=0", "interval"),
        ("SUMMARY:Bells\nDTSTART:20270102T000000\nDTEND:20270101T000000", "ends before it begins"),
        ("SUMMARY:Bells\nDURATION:PT5M", "has no beginning"),
    ],
)
def test_an_event_that_cannot_be_taken_is_named_and_the_others_are_read(event: str, words: str) -> None:
    busy, problems = read(event, "SUMMARY:Market\nDTSTART:20270105T100000\nDURATION:PT1H")

    assert [one.where for one in problems] == ["event “Bells”"]
    assert words in problems[0].message
    assert "Market" in {one.name for one in busy}


def test_a_rule_that_never_comes_true_ends_and_an_endless_one_is_followed_to_the_last_day_only() -> None:
    never, _ = read("DTSTART:20270315T130000\nDURATION:PT1H\nRRULE:FREQ=DAILY;BYMONTH=2;BYMONTHDAY=30")
    endless, _ = read("DTSTART:20270101T090000\nDURATION:PT1H\nRRULE:FREQ=DAILY", last=date(2027, 1, 31))

    assert [one.day for one in never] == [date(2027, 3, 15)]
    assert len(endless) == 31


@pytest.mark.parametrize(
    "content",
    [b"", b"hello", b"\xff\xfe\x00", b"BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\nEND:VCALENDAR\r\n", b"a" * (MOST_BYTES + 1)],
    ids=["nothing", "no calendar", "no text", "cut off", "too large"],
)
def test_a_file_that_is_no_calendar_is_one_problem_and_no_crash(content: bytes) -> None:
    busy, problems = read_busy(content, first=date(2027, 1, 1), last=date(2027, 1, 31), zone="UTC")

    assert busy == ()
    assert [one.where for one in problems] == ["calendar"]


@settings(max_examples=60, deadline=None)
@given(st.binary(max_size=400))
def test_no_bytes_at_all_bring_the_reader_down(content: bytes) -> None:
    whole = (
        b"BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\nDTSTART:20270101T000000\r\n"
        + content
        + b"\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n"
    )

    busy, _ = read_busy(whole, first=date(2027, 1, 1), last=date(2027, 1, 31), zone="UTC")

    assert all(date(2027, 1, 1) <= one.day <= date(2027, 1, 31) for one in busy)


def test_our_own_calendar_read_as_busy_time_blocks_nothing() -> None:
    entry = Entry(LearnerId("wren"), "W", "grade2", LessonId("day-084"), "Not enough ones", date(2027, 1, 12))
    content = calendar_file([entry], household="h", name="Dayleaf", zone="UTC", today=date(2027, 1, 1))

    assert read_busy(content, first=date(2027, 1, 1), last=date(2027, 12, 31), zone="UTC") == ((), ())
