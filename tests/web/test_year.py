"""The year's page: every change is a form that works without scripts, says what moves, and can be undone."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import connection
from django.test.utils import CaptureQueriesContext

from dayleaf.plan.wishes import WISH_NAMES
from dayleaf.records import selectors
from dayleaf.records.plans import kept_year

if TYPE_CHECKING:
    from collections.abc import Mapping

    from django.test import Client

    from dayleaf.records.models import Household, Learner

BAD_WEEK = {"act": "lost", "first": "2027-01-11", "last": "2027-01-15"}


def words(browser: Client, address: str) -> str:
    answer = browser.get(address)
    assert answer.status_code == 200
    return str(answer.content.decode())


def change(browser: Client, wren: Learner, form: Mapping[str, object], *, status: int = 302) -> str:
    answer = browser.post(f"/year/{wren.id}/change", form)
    assert answer.status_code == status
    return str(answer.content.decode())


def test_the_year_says_when_it_ends_and_each_day_what_it_is_in_words_with_few_queries(
    browser: Client, wren: Learner
) -> None:
    browser.get("/year")
    with CaptureQueriesContext(connection) as asked:
        page = words(browser, "/year")

    assert "Wren’s course ends on" in page
    assert "spare days</h1>" in page
    assert 'aria-current="date"' in page
    for word in ("day 84", "look back", "test", "spare"):
        assert f">{word}" in page or f", {word}" in page
    assert len(asked) <= 20
    assert browser.get("/plan").headers["Location"] == "/year"
    assert browser.get(f"/plan/{wren.id}").headers["Location"] == f"/year/{wren.id}"


def test_a_bad_week_shows_its_ways_first_and_the_chosen_one_is_kept_and_undone(browser: Client, wren: Learner) -> None:
    before = selectors.plan_version(wren).plan

    shown = change(browser, wren, BAD_WEEK, status=200)
    assert selectors.plan_version(wren).plan == before
    for way in ("Use spare days", "Trim", "Slide"):
        assert f">{way}</button>" in shown
    assert "spare days are left" in shown
    change(browser, wren, {**BAD_WEEK, "way": "spare"})

    assert date(2027, 1, 14) not in {one.day for one in kept_year(wren).main.placed}
    page = words(browser, f"/year/{wren.id}")
    assert "days lost from 11 January to 15 January" in page
    assert ">lost<" in page
    browser.post(f"/year/{wren.id}/undo")
    assert selectors.plan_version(wren).plan == before


def test_weekdays_days_off_half_days_terms_and_the_end_are_changed_one_by_one(browser: Client, wren: Learner) -> None:
    minutes = {f"minutes-{n}": "60" if n < 5 else "0" for n in range(7)}
    change(browser, wren, {"act": "weekdays", **minutes})
    change(browser, wren, {"act": "off", "first": "2027-02-01", "last": "2027-02-03", "name": "Copperbeck"})
    change(browser, wren, {"act": "half", "first": "2027-02-09", "minutes": "25"})
    change(browser, wren, {"act": "end", "end": "2027-07-09"})

    calendar = kept_year(wren).main.run.calendar
    assert calendar.minutes == dict.fromkeys(range(5), 60)
    assert [one.name for one in calendar.off][-1] == "Copperbeck"
    assert [(one.day, one.minutes) for one in calendar.half_days] == [(date(2027, 2, 9), 25)]
    assert calendar.end == date(2027, 7, 9)
    assert "25 minutes" in words(browser, "/year")
    gone = {"act": "off-away", "first": "2027-02-01", "last": "2027-02-03", "name": "Copperbeck"}
    change(browser, wren, gone)
    assert "Copperbeck" not in [one.name for one in kept_year(wren).main.run.calendar.off]


def test_what_does_not_fit_is_a_no_with_ways_and_the_way_taken_is_kept(browser: Client, wren: Learner) -> None:
    before = selectors.plan_version(wren).plan

    shown = change(browser, wren, {"act": "end", "end": "2027-03-31"}, status=200)

    assert "do not fit" in shown
    assert "Nothing has changed yet" in shown
    assert selectors.plan_version(wren).plan == before
    change(browser, wren, {"act": "end", "end": "2027-03-31", "way": "more_days"})
    plan = kept_year(wren).main
    assert (plan.run.calendar.end, plan.last) == (None, date(2027, 5, 28))


def test_holidays_are_listed_for_a_country_and_kept_one_by_one(browser: Client, wren: Learner) -> None:
    page = words(browser, f"/year/{wren.id}?country=US")
    assert "Memorial Day" in page
    assert "no holiday list" in words(browser, f"/year/{wren.id}?country=XQ")

    change(browser, wren, {"act": "holidays", "country": "US", "holiday": ["2027-02-15 Washington's Birthday"]})

    # 5 U.S.C. 6103: the third Monday in February
    assert [one.first for one in kept_year(wren).main.run.calendar.holidays] == [date(2027, 2, 15)]
    assert kept_year(wren).country == "US"


def test_rules_and_wishes_are_kept_for_the_household_and_plan_what_comes_after(browser: Client, wren: Learner) -> None:
    weights = {f"wish-{name}": "0" for name in WISH_NAMES} | {"wish-join": "9"}

    change(browser, wren, {"act": "wishes", "rule-log_on_time": "on", **weights})

    year = kept_year(wren)
    assert (year.rules.log_on_time, year.rules.no_test_after_break) == (True, False)
    assert (year.wishes.join, year.wishes.test_after_weekend) == (9, 0)
    change(browser, wren, {"act": "anew"})
    assert kept_year(wren).wishes.join == 9
    change(browser, wren, {"act": "wishes", "wish-join": "10001"}, status=422)


def test_a_course_beside_ours_is_planned_and_ended(browser: Client, wren: Learner) -> None:
    form = {"title": "Knots", "count": "6", "minutes": "20", "weekday": ["2"]}
    browser.post(f"/year/{wren.id}/beside", form)

    assert [one.day.weekday() for one in kept_year(wren).plans[1].placed] == [2] * 6
    assert "Knots 1" in words(browser, "/year")
    browser.post(f"/year/{wren.id}/beside", {"ends": "Knots"})
    assert len(kept_year(wren).plans) == 1


def test_the_calendar_file_is_ours_and_a_familys_own_is_read_and_put_away(browser: Client, wren: Learner) -> None:
    answer = browser.get("/year/calendar.ics")
    assert answer.headers["Content-Type"].startswith("text/calendar")
    assert answer.content.count(b"BEGIN:VEVENT") == len({one.day for one in kept_year(wren).main.placed})
    own = answer.content.replace(b"TRANSP:TRANSPARENT", b"TRANSP:OPAQUE").split(b"BEGIN:VEVENT")
    file = b"BEGIN:VEVENT".join((own[0], own[-1]))

    browser.post(f"/year/{wren.id}/busy", {"calendar": SimpleUploadedFile("boat.ics", file)})
    assert len(kept_year(wren).main.run.calendar.off) == 2
    assert "boat.ics" in words(browser, "/year")
    browser.post(f"/year/{wren.id}/busy", {})
    assert len(kept_year(wren).main.run.calendar.off) == 1


@pytest.mark.parametrize(
    "form",
    [
        {"act": "lost", "first": "soon"},
        {"act": "off", "first": "2027-02-03", "last": "2027-02-01"},
        {"act": "off", "first": "2027-02-03", "last": "2037-02-01"},
        {"act": "weekdays", "minutes-0": "many"},
        {"act": "lesson", "lesson": "day-090", "what": "eat"},
        {"act": "nothing"},
        {"act": "holidays", "country": "XQ"},
    ],
)
def test_what_cannot_be_read_is_said_in_words_and_changes_nothing(
    browser: Client, wren: Learner, form: dict[str, object]
) -> None:
    before = selectors.plan_version(wren).plan

    change(browser, wren, form, status=422)

    assert selectors.plan_version(wren).plan == before


def test_nobody_changes_a_neighbours_year(browser: Client, neighbours: Household) -> None:
    pip = neighbours.learners.get()

    assert browser.get(f"/year/{pip.id}").status_code == 404
    assert browser.post(f"/year/{pip.id}/change", BAD_WEEK).status_code == 404
    assert browser.post(f"/year/{pip.id}/undo").status_code == 404
