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

from dayleaf.core.ids import CourseId, LessonId
from dayleaf.course.load import grade2
from dayleaf.plan.calendar import DaysOff, LearningCalendar, UnknownHolidays, holidays_of, learning_days
from dayleaf.plan.codec import PlanNotReadable, from_json, to_json
from dayleaf.plan.year import DateOutsideYear, LessonNotPlanned, NoPlan, YearPlan, plan_year, slide

GRADE2 = CourseId("grade2")
LESSONS = grade2().days



def planned(calendar: LearningCalendar, *, short: bool = False) -> YearPlan:
    plan = plan_year(LESSONS, calendar, course=GRADE2, short=short)
    assert isinstance(plan, YearPlan)
    return plan


def dates(off: tuple[DaysOff, ...]) -> list[date]:
    return [one.first + timedelta(days=n) for one in off for n in range((one.last - one.first).days + 1)]


@pytest.mark.parametrize("published_year", YEARS.values(), ids=YEARS)
def test_the_ninetieth_and_the_last_lesson_fall_where_the_published_table_says(published_year: PublishedYear) -> None:
    calendar = published_year.calendar
    plan = planned(calendar)

    # CHECKS E.2, and numpy.busday_offset as the independent counter
    assert plan.date_of(LessonId("day-090")) == published_year.lesson_90
    assert plan.date_of(LessonId("day-180")) == published_year.lesson_180
    off = dates((*calendar.holidays, *calendar.off))
    mask = [weekday in calendar.minutes for weekday in range(7)]
    for number in (1, 2, 90, 180):
        expected = np.busday_offset(MONDAY, number - 1, "forward", weekmask=mask, holidays=off)
        assert plan.placed[number - 1].day == expected.item()


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


def test_each_test_follows_its_look_back_on_the_next_learning_day() -> None:
    calendar = LearningCalendar(start=MONDAY, minutes=FOUR, holidays=FEDERAL, off=BREAKS)
    plan = planned(calendar)
    days = [one.day for one in learning_days(calendar)]

    tests = [day for day in LESSONS if day.kind == "test"]
    for test in tests:
        look_back = LESSONS[test.number - 2]
        assert look_back.kind == "look-back"
        assert days.index(plan.date_of(test.id)) == days.index(plan.date_of(look_back.id)) + 1
    assert len(tests) == 18


def test_a_year_of_144_days_says_no_and_offers_the_shortened_year() -> None:
    # 36 weeks of four days: JOB 1.4 lists what is left out and what is joined
    calendar = LearningCalendar(start=MONDAY, minutes=FOUR, end=MONDAY + timedelta(weeks=36, days=-1))

    no = plan_year(LESSONS, calendar, course=GRADE2)

    assert isinstance(no, NoPlan)
    assert (no.needed, no.available, no.first_left_over) == (180, 144, "day-145")
    assert str(no.error()) == "180 lessons do not fit in 144 learning days."
    shorter, *weekdays, more = no.ways
    assert (shorter.kind, shorter.days) == ("shorten", 144)
    assert _numbers(shorter.left_out) == [10, 14, 20, 25, 40, 50, 70, 80, 100, 110, 130, 140, 160, 166, 170, 177]
    assert [(int(a[-3:]), int(b[-3:])) for a, b in shorter.joined] == sorted(
        [(n, n + 1) for n in range(8, 180, 10)] + [(1, 2), (21, 22)]
    )
    assert [(way.kind, way.weekday) for way in weekdays] == [("one more weekday", day) for day in (4, 5, 6)]
    assert (more.kind, more.missing) == ("more days", 36)


def test_the_shortened_year_fills_144_days_and_keeps_every_new_skill_and_test() -> None:
    calendar = LearningCalendar(start=MONDAY, minutes=FOUR, end=MONDAY + timedelta(weeks=36, days=-1))

    plan = planned(calendar, short=True)

    assert len({placed.day for placed in plan.placed}) == 144
    kept = {placed.lesson for placed in plan.placed}
    assert all(day.id in kept for day in LESSONS if day.new_skills or day.kind in {"test", "look-back-all"})
    assert len(plan.left_out) == 16
    assert plan.lessons_on(plan.date_of(LessonId("day-008"))) == ("day-008", "day-009")


def test_a_year_without_any_weekday_says_no() -> None:
    no = plan_year(LESSONS, LearningCalendar(start=MONDAY, minutes={}), course=GRADE2)

    assert isinstance(no, NoPlan)
    assert (no.available, no.first_left_over, [way.kind for way in no.ways]) == (0, "day-001", ["more days"])


def test_a_plan_answers_what_is_on_a_day_and_what_comes_next() -> None:
    plan = planned(LearningCalendar(start=MONDAY, minutes=FIVE, holidays=FEDERAL))

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


def test_a_missed_day_moves_the_rest_one_learning_day_on_and_nothing_before() -> None:
    plan = planned(LearningCalendar(start=MONDAY, minutes=FIVE))

    slid = slide(plan, [date(2026, 8, 19)])

    assert isinstance(slid, YearPlan)
    assert slid.placed[:2] == plan.placed[:2]
    assert slid.lesson_on(date(2026, 8, 19)) is None
    assert [placed.day for placed in slid.placed[2:-1]] == [placed.day for placed in plan.placed[3:]]
    assert slid.last == date(2027, 4, 26)  # the Monday after Friday 2027-04-23 of CHECKS E.2
    assert plan.lesson_on(date(2026, 8, 19)) == "day-003"


def test_a_missed_day_that_was_free_changes_nothing() -> None:
    plan = planned(LearningCalendar(start=MONDAY, minutes=FIVE))

    assert slide(plan, [date(2026, 8, 22)]).placed[0] == plan.placed[0]  # type: ignore[union-attr]  # a plan it is
    assert slide(plan, [date(2020, 1, 1)]) == plan


def test_sliding_past_the_familys_end_says_no() -> None:
    plan = planned(LearningCalendar(start=MONDAY, minutes=FIVE, end=date(2027, 4, 23)))

    no = slide(plan, [date(2026, 8, 19)])

    assert isinstance(no, NoPlan)
    assert (no.needed, no.available, no.first_left_over) == (180, 179, "day-180")


@settings(max_examples=40, deadline=None)
@given(missed=st.lists(st.integers(0, 250), max_size=8), short=st.booleans())
def test_sliding_keeps_every_lesson_in_order_on_learning_days_that_were_not_missed(
    missed: list[int], *, short: bool
) -> None:
    plan = planned(LearningCalendar(start=MONDAY, minutes=FOUR, holidays=FEDERAL), short=short)
    lost = [MONDAY + timedelta(days=offset) for offset in missed]

    slid = slide(plan, lost)

    assert isinstance(slid, YearPlan)
    assert [placed.lesson for placed in slid.placed] == [placed.lesson for placed in plan.placed]
    days = [placed.day for placed in slid.placed]
    assert days == sorted(days)
    assert not {day for day in days if day in lost}
    assert set(days) <= {one.day for one in learning_days(plan.calendar)}


def test_a_plan_is_the_same_bytes_every_time_and_comes_back_whole() -> None:
    plan = planned(LearningCalendar(start=MONDAY, minutes=FIVE, off=BREAKS, holidays=FEDERAL, end=date(2027, 6, 30)))
    turned = replace(plan, calendar=replace(plan.calendar, minutes=dict(reversed(FIVE.items()))))

    text = to_json(plan)

    assert from_json(text) == plan
    assert to_json(turned) == text
    assert to_json(from_json(text)) == text
    assert text == json.dumps(json.loads(text), sort_keys=True, separators=(",", ":"), ensure_ascii=False)


@pytest.mark.parametrize("text", ["", "{}", "[]", '{"version":2}', '{"version":1,"course":"grade2","calendar":7}'])
def test_a_text_that_is_no_plan_is_refused_in_one_sentence(text: str) -> None:
    with pytest.raises(PlanNotReadable, match="cannot be read"):
        from_json(text)


def test_an_unknown_country_is_named() -> None:
    with pytest.raises(UnknownHolidays, match="“XQ”"):
        holidays_of("XQ", [2026])


def _numbers(lessons: tuple[LessonId, ...]) -> list[int]:
    return [int(lesson[-3:]) for lesson in lessons]
