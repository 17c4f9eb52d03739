"""The year on the family's days. Referees: CHECKS E.2 and numpy's business days."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from published_years import BREAKS, FEDERAL, FIVE, FOUR, MONDAY, YEARS, PublishedYear

from dayleaf.core.ids import CourseId, LearnerId, LessonId
from dayleaf.plan.calendar import (
    DaysOff,
    LearningCalendar,
    LearningDay,
    UnknownHolidays,
    holidays_of,
    learning_days,
)
from dayleaf.plan.codec import PlanNotReadable, from_json, to_json
from dayleaf.plan.kept import KeptYear
from dayleaf.plan.lessons import PlanLesson, changed, our_courses
from dayleaf.plan.path import cheapest_run
from dayleaf.plan.run import CourseRun, RunPlan
from dayleaf.plan.wishes import Rules, Wishes
from dayleaf.plan.year import DateOutsideYear, LessonNotPlanned, Placed

WREN = LearnerId("wren")
GRADE2 = CourseId("grade2")
LESSONS = our_courses()[GRADE2]



def planned(calendar: LearningCalendar, *, short: bool = False) -> RunPlan:
    run = CourseRun(WREN, GRADE2, LESSONS, calendar, may_join=short, may_leave_out=short)
    plan = cheapest_run(run, rules=Rules(), wishes=Wishes())
    assert isinstance(plan, RunPlan)
    return plan


def dates(off: tuple[DaysOff, ...]) -> list[date]:
    return [one.first + timedelta(days=n) for one in off for n in range((one.last - one.first).days + 1)]


@pytest.mark.parametrize("published_year", YEARS.values(), ids=YEARS)
def test_learning_days_fall_where_the_published_table_says(published_year: PublishedYear) -> None:
    calendar = published_year.calendar
    days = [one.day for one in learning_days(calendar)]

    # CHECKS E.2, and numpy.busday_offset as the independent counter
    assert (days[89], days[179]) == (published_year.lesson_90, published_year.lesson_180)
    off = dates((*calendar.holidays, *calendar.off))
    mask = [weekday in calendar.minutes for weekday in range(7)]
    for number in (1, 2, 90, 180):
        expected = np.busday_offset(MONDAY, number - 1, "forward", weekmask=mask, holidays=off)
        assert days[number - 1] == expected.item()


calendars = st.builds(
    LearningCalendar,
    start=st.dates(date(2026, 1, 1), date(2029, 1, 1)),
    minutes=st.dictionaries(st.integers(0, 6), st.integers(0, 90)),
    off=st.lists(
        st.builds(
            lambda first, days: DaysOff(first=first, last=first + timedelta(days=days), name="away"),
            st.dates(date(2026, 1, 1), date(2029, 12, 31)),
            st.integers(0, 45),
        ),
        max_size=5,
    ).map(tuple),
    end=st.dates(date(2026, 6, 1), date(2030, 1, 1)),
)


@settings(max_examples=60, deadline=None)
@given(calendars)
def test_learning_days_are_the_business_days_of_an_independent_counter(calendar: LearningCalendar) -> None:
    start, end = calendar.start, calendar.end
    assert end is not None
    mask = [calendar.minutes.get(weekday, 0) > 0 for weekday in range(7)]
    all_days = [start + timedelta(days=n) for n in range(max((end - start).days + 1, 0))]

    # numpy.is_busday with the family's week; it refuses a week without any day
    off = dates(calendar.off)
    open_days: list[bool] = np.is_busday(all_days, weekmask=mask, holidays=off).tolist() if any(mask) else []

    expected = [day for day, is_open in zip(all_days, open_days, strict=False) if is_open]
    assert [one.day for one in learning_days(calendar)] == expected


def test_a_start_on_a_holiday_begins_on_the_next_learning_day() -> None:
    labor_day = LearningCalendar(start=date(2026, 9, 7), minutes=FIVE, holidays=FEDERAL)

    assert planned(labor_day).first == date(2026, 9, 8)


def test_a_leap_day_is_a_day_like_any_other() -> None:
    calendar = LearningCalendar(start=date(2028, 2, 28), minutes=FIVE, end=date(2028, 3, 1))

    assert [one.day.isoformat() for one in learning_days(calendar)] == ["2028-02-28", "2028-02-29", "2028-03-01"]


def test_a_plan_answers_what_is_on_a_day_and_what_comes_next() -> None:
    plan = planned(LearningCalendar(start=MONDAY, minutes=FIVE, holidays=FEDERAL))
    assert plan.last is not None

    assert plan.lesson_on(date(2026, 8, 18)) == "day-002"
    assert plan.lesson_on(date(2026, 8, 22)) is None
    assert [placed.lesson for placed in plan.next_days(date(2026, 8, 20), 3)] == ["day-005", "day-006", "day-007"]
    assert plan.next_days(plan.last, 5) == ()


@pytest.mark.parametrize("day", [date(2026, 8, 16), date(2030, 1, 1)])
def test_a_date_outside_the_year_is_named_with_the_years_bounds(day: date) -> None:
    plan = planned(LearningCalendar(start=MONDAY, minutes=FIVE))

    with pytest.raises(DateOutsideYear, match="from 2026-08-17 to 2027-04-23"):
        plan.lesson_on(day)


def test_a_lesson_that_is_left_out_has_no_date() -> None:
    plan = planned(LearningCalendar(start=MONDAY, minutes=FOUR), short=True)

    with pytest.raises(LessonNotPlanned, match="day-010"):
        plan.date_of(LessonId("day-010"))


def test_a_year_kept_is_the_same_bytes_every_time_and_comes_back_whole() -> None:
    calendar = LearningCalendar(
        start=MONDAY,
        minutes=FIVE,
        off=BREAKS,
        holidays=FEDERAL,
        end=date(2027, 6, 30),
        half_days=(LearningDay(date(2026, 10, 30), 20),),
        terms=(DaysOff(MONDAY, date(2027, 6, 30), "the year"),),
        free=(date(2026, 10, 9),),
        missed=(date(2026, 9, 1),),
    )
    ours = planned(calendar)
    reef = PlanLesson(LessonId("k-1"), title="Reef knot", minutes=20, led=5, opens=True)
    hitch = PlanLesson(LessonId("k-2"))
    knots = CourseRun(WREN, CourseId("knots"), (reef, hitch), calendar)
    beside = RunPlan(knots, (Placed(reef.id, MONDAY),), (hitch.id,))
    year = KeptYear((ours, beside), Rules(log_on_time=False), Wishes(join=7), frozenset({"scale"}), "US", "VT")
    turned = replace(ours, run=replace(ours.run, calendar=replace(calendar, minutes=dict(reversed(FIVE.items())))))

    text = to_json(year)

    assert from_json(text, learner=WREN) == year
    assert to_json(replace(year, plans=(turned, beside))) == text
    assert text == json.dumps(json.loads(text), sort_keys=True, separators=(",", ":"), ensure_ascii=False)


def test_a_lesson_skipped_and_one_given_again_come_back_from_a_kept_year() -> None:
    lessons = changed(LESSONS, skip=[LessonId("day-003")], repeat=[LessonId("day-005")])
    run = CourseRun(WREN, GRADE2, lessons, LearningCalendar(start=MONDAY, minutes=FIVE), may_leave_out=True)
    plan = cheapest_run(run, rules=Rules(), wishes=Wishes())
    assert isinstance(plan, RunPlan)

    read = from_json(to_json(KeptYear((plan,))), learner=WREN).main

    assert read == plan
    assert [one.id for one in read.run.lessons[2:6]] == ["day-004", "day-005", "day-005~again", "day-006"]


def test_a_plan_of_the_first_form_is_still_read() -> None:
    # as homes kept it before a child could have several courses
    text = (
        '{"calendar":{"end":null,"holidays":[],"minutes":{"0":60},"off":[],"start":"2026-08-17"},"course":"grade2",'
        '"left_out":["day-010"],"placed":[["day-008","2026-08-17"],["day-009","2026-08-17"],["day-011","2026-08-24"]],'
        '"version":1}'
    )

    plan = from_json(text, learner=WREN).main

    assert plan.lessons_on(MONDAY) == ("day-008", "day-009")
    assert (plan.left_out, plan.run.may_join, plan.run.may_leave_out) == (("day-010",), True, True)
    assert [one.id for one in plan.run.lessons] == ["day-008", "day-009", "day-010", "day-011"]


@pytest.mark.parametrize(
    "text",
    ["", "{}", "[]", '{"version":3}', '{"version":1,"course":"grade2","calendar":7}', '{"version":2,"runs":[{}]}'],
)
def test_a_text_that_is_no_plan_is_refused_in_one_sentence(text: str) -> None:
    with pytest.raises(PlanNotReadable, match="cannot be read"):
        from_json(text, learner=WREN)


def test_an_unknown_country_is_named() -> None:
    with pytest.raises(UnknownHolidays, match="“XQ”"):
        holidays_of("XQ", [2026])
