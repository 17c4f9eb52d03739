"""`dayleaf plan` with calendars: a morning, a calendar file, a family's own calendar."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING, Any

import pytest
from icalendar import Calendar

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

TODAY = "2027-01-12"
FILE = """
[household]
name = "Slow Lettuce"
timezone = "Europe/Dublin"
[calendar]
start = 2026-08-17
end = 2027-07-30
weekdays = { monday = 60, tuesday = 60, wednesday = 60, thursday = 60, friday = 60 }
[[learners]]
id = "wren"
name = "Wren"
age = 7
[[learners.blocks]]
id = "reading"
title = "Reading"
phases = [{led = 10}, {alone = 15}]
[[learners]]
id = "ivo"
name = "Ivo"
age = 9
[morning]
start = "9:00"
"""
BUSY = """BEGIN:VCALENDAR
VERSION:2.0
PRODID:-//Somebody//EN
BEGIN:VEVENT
UID:1
DTSTAMP:20260101T000000Z
SUMMARY:Market
DTSTART;TZID=Europe/Dublin:20260901T090000
DURATION:PT1H
RRULE:FREQ=WEEKLY
END:VEVENT
BEGIN:VEVENT
UID:2
DTSTAMP:20260101T000000Z
SUMMARY:Gran Sorrel
DTSTART;VALUE=DATE:20260914
END:VEVENT
END:VCALENDAR
"""


@pytest.fixture
def family(tmp_path: Path) -> Path:
    path = tmp_path / "family.toml"
    path.write_text(FILE, "utf-8")
    return path


@pytest.fixture
def busy(tmp_path: Path) -> Path:
    path = tmp_path / "busy.ics"
    path.write_bytes(BUSY.replace("\n", "\r\n").encode())
    return path


def test_a_morning_of_a_households_file_is_laid_out_and_proven(say: Callable[..., Any], family: Path) -> None:
    said = say("plan", family, "--morning", "2026-08-18", "--json")

    assert said.status == 0, said.err
    data = said.json
    assert (data["date"], data["start"], data["proof"], data["left_out"]) == ("2026-08-18", "9:00", "optimal", [])
    led = sorted((one["start"], one["start"] + one["minutes"]) for one in data["sessions"] if one["kind"] == "led")
    assert all(end <= start for (_, end), (start, _) in pairwise(led))
    assert {one["block"] for one in data["sessions"]} == {"wren/lesson", "wren/reading", "ivo/lesson"}


def test_a_busy_hour_is_kept_free_and_a_busy_day_is_a_day_off(
    say: Callable[..., Any], family: Path, busy: Path
) -> None:
    morning = say("plan", family, "--busy", busy, "--morning", "2026-09-15", "--json").json
    year = say("plan", family, "--busy", busy, "--json").json
    without = say("plan", family, "--json").json

    # a Tuesday: market from 9 to 10 takes the adult
    assert all(one["at"] >= "10:00" for one in morning["sessions"] if one["kind"] == "led")
    assert "2026-09-14" in {one["date"] for one in without["lessons"]}
    assert "2026-09-14" not in {one["date"] for one in year["lessons"]}


def test_a_calendar_file_is_brought_up_to_date_and_never_doubles(
    say: Callable[..., Any], home: Path, tmp_path: Path
) -> None:
    file = tmp_path / "boat.ics"
    words = ("plan", "--home", home, "--today", TODAY, "--ics", file)

    assert say(*words).status == 0
    first = file.read_bytes()
    assert say(*words).status == 0
    assert file.read_bytes() == first
    assert say(*words, "--learner", "Wren").status == 0

    before: Any = Calendar.from_ical(first)
    after: Any = Calendar.from_ical(file.read_bytes())
    uids = [str(one["UID"]) for one in before.walk("VEVENT")]
    assert len(uids) == len(set(uids))
    lines = [line["lessons"] for line in say("plan", "--home", home, "--today", TODAY, "--json").json["learners"]]
    # lessons that share a day share an event
    assert len(uids) == sum(len({one["date"] for one in line}) for line in lines)
    # Ivo's lessons to come are announced as cancelled, those he has had are not
    gone = [one for one in after.walk("VEVENT") if str(one["STATUS"]) == "CANCELLED"]
    assert gone
    assert all(one["DTSTART"].dt.isoformat() >= TODAY for one in gone)
    assert b"Wren" not in first
    assert b"Ivo" not in first


def test_nothing_of_somebody_elses_is_written_over(say: Callable[..., Any], home: Path, busy: Path) -> None:
    before = busy.read_bytes()

    said = say("plan", "--home", home, "--today", TODAY, "--ics", busy)

    assert (said.status, busy.read_bytes()) == (2, before)
    assert "not one of Dayleaf’s" in said.err


def test_the_morning_at_home_keeps_a_busy_time_free(say: Callable[..., Any], home: Path, tmp_path: Path) -> None:
    call = BUSY.replace("20260901T090000", "20270112T091000").replace("Europe/Dublin", "UTC").replace("PT1H", "PT20M")
    file = tmp_path / "call.ics"
    file.write_text(call, "utf-8")
    words = ("plan", "--home", home, "--today", TODAY, "--morning", TODAY)

    usual = say(*words, "--json").json
    kept = say(*words, "--busy", file, "--json").json

    assert usual["start"] == "9:00"
    assert kept["minutes"] > usual["minutes"]
    led = [(one["start"], one["start"] + one["minutes"]) for one in kept["sessions"] if one["kind"] == "led"]
    assert all(end <= 10 or start >= 30 for start, end in led)
    assert say(*words).out.startswith("About ")


def test_a_file_that_is_no_calendar_is_one_line_and_status_2(say: Callable[..., Any], family: Path) -> None:
    said = say("plan", family, "--busy", family)

    assert said.status == 2
    assert "no calendar file that can be read" in said.err
    assert say("plan", family, "--busy", family.with_name("nowhere.ics")).status == 2
