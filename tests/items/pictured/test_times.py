"""Times: hands where they stand, habits as they are reported, spans against the calendar's own arithmetic."""

from __future__ import annotations

from datetime import datetime, timedelta

import pytest

from dayleaf.figures.clocks import hand_angles
from dayleaf.items.pictured.clocks import hands_swapped
from dayleaf.items.pictured.daily_codes import DAILY, LASTING
from dayleaf.items.pictured.hours import (
    RELATIONS,
    counts_start_hour,
    hundred_minutes,
    minute_stops,
    on_the_face,
    subtracts_numerals,
)
from dayleaf.items.pictured.times import (
    hour_ahead,
    nearest_five,
    numeral_as_minutes,
    quarter_is_25,
    quarter_to_as_past,
    quarter_to_next,
    quarter_to_same_hour,
)


# CHECKS C.4: hour hand 30·(h mod 12) + m/2 degrees, minute hand 6·m.
@pytest.mark.parametrize(
    ("time", "angles"),
    [
        ((3, 0), (90, 0)),
        ((3, 15), (97.5, 90)),
        ((6, 30), (195, 180)),
        ((9, 45), (292.5, 270)),
        ((12, 5), (2.5, 30)),
        ((1, 50), (55, 300)),
    ],
)
def test_the_hands_stand_where_a_clock_has_them(time: tuple[int, int], angles: tuple[float, float]) -> None:
    assert hand_angles(*time) == angles


def test_there_are_as_many_different_faces_as_counted_elsewhere() -> None:
    # CHECKS C.4: 144 faces to five minutes, 720 to the minute.
    assert len({hand_angles(h, m) for h in range(1, 13) for m in range(0, 60, 5)}) == 144
    assert len({hand_angles(h, m) for h in range(1, 13) for m in range(60)}) == 720


def test_times_are_misread_as_teachers_report() -> None:
    # CHECKS D.4, and the examples of the skills' own files.
    assert hands_swapped(3, 0) == (12, 15)
    assert hands_swapped(6, 15) == (3, 30)
    assert numeral_as_minutes(4, 15) == (4, 3)
    assert numeral_as_minutes(4, 35) == (4, 7)
    assert hour_ahead(1, 50) == (2, 50)
    assert hour_ahead(4, 20) == (4, 20)
    assert quarter_to_as_past(6, 45) == (7, 15)
    assert quarter_is_25(7, 15) == (7, 25)
    assert quarter_to_next(2, 45) == (3, 45)
    assert quarter_to_same_hour(5, 45) == (6, 45)
    assert nearest_five(12, 58) == (1, 0)


def test_spans_go_astray_as_reported() -> None:
    # The examples of the skills' files: 2:00 to 5:00 → 4 hours; 11:00 to 2:00 → 9 hours; 9:50 to 10:10 → 60.
    assert counts_start_hour(6) == (4, 0)
    assert subtracts_numerals(11, 6) == (9, 0)
    assert subtracts_numerals(2, 6) == (3, 0)
    assert hundred_minutes(9 * 60 + 50, 20) == 60


def test_the_face_shows_what_the_calendar_says() -> None:
    noon = datetime(2026, 8, 17, 12)  # noqa: DTZ001 -- a clock on the wall has no time zone
    for minutes in range(0, 1440, 7):
        at = noon + timedelta(minutes=minutes)
        assert on_the_face(minutes) == (int(at.strftime("%I")), at.minute)


def test_jumps_halt_at_every_full_hour() -> None:
    assert minute_stops(590, 20) == (590, 600, 610)
    assert minute_stops(600, 60) == (600, 660)
    assert minute_stops(595, 130) == (595, 600, 660, 720, 725)


def test_units_of_time_are_the_published_ones() -> None:
    # NIST Handbook 44, Appendix C, as in CHECKS C.1; the calendar for weeks and years.
    seconds = {"second": 1, "minute": 60, "hour": 3600, "day": 24 * 3600, "week": 7 * 24 * 3600}
    for larger, smaller, many in RELATIONS:
        if larger != "year":
            assert seconds[larger] == many * seconds[smaller]
    assert RELATIONS[-1] == ("year", "month", 12)
    assert timedelta(weeks=1) == timedelta(days=7)


def test_both_halves_of_the_day_and_noon_and_midnight_are_asked() -> None:
    hours = [hour for hour, _ in DAILY.values()]

    assert sum(hour < 12 for hour in hours) == len(hours) / 2
    assert {0, 12} <= set(hours)
    assert sum(12 < hour < 18 for hour in hours) >= 3  # p.m. in daylight
    assert {len(things) for things in LASTING.values()} == {3}
