"""Dates after so many days or weeks, against the examples of the skill's file and the calendar."""

from __future__ import annotations

from datetime import date, timedelta

from dayleaf.items.pictured.months import date_after, week_is_ten


def test_one_week_after_the_ninth_is_the_sixteenth() -> None:
    assert date_after(9, 7, month_days=31) == 16


def test_dates_go_on_into_the_next_month_as_in_the_calendar() -> None:
    for month, days in ((2, 28), (4, 30), (8, 31)):
        for first in range(1, 28):
            for later in (*range(1, 8), 14, 21, 28):
                right = date(2027, month, first) + timedelta(days=later)
                assert date_after(first, later, month_days=days) == right.day


def test_a_week_taken_for_ten_days() -> None:
    assert week_is_ten(14) == 20
    assert week_is_ten(5) is None
