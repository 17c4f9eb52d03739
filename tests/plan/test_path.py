"""One child's year as a shortest path. Referees: every plan tried, CHECKS E.2, JOB 1.4, numpy's business days."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import TYPE_CHECKING, Any

import pytest
import years
from published_years import BREAKS, FEDERAL, FIVE, FOUR, MONDAY, YEARS

from dayleaf.core.ids import CourseId, LearnerId, LessonId
from dayleaf.course.load import grade2
from dayleaf.plan.calendar import DaysOff, LearningCalendar, LearningDay
from dayleaf.plan.check_year import check_year
from dayleaf.plan.lessons import PlanLesson, lessons_of, with_chapters
from dayleaf.plan.path import Stuck, cheapest_run
from dayleaf.plan.price import price_year
from dayleaf.plan.run import CourseRun, FamilyYear, RunPlan
from dayleaf.plan.wishes import Rules, Wishes
from dayleaf.plan.year import Placed

if TYPE_CHECKING:
    from published_years import PublishedYear

GRADE2 = lessons_of(grade2())



def a_run(calendar: LearningCalendar, lessons: tuple[PlanLesson, ...] = GRADE2, **more: Any) -> CourseRun:
    return CourseRun(learner=LearnerId("wren"), course=CourseId("grade2"), lessons=lessons, calendar=calendar, **more)


def planned(run: CourseRun, *, rules: Rules | None = None, wishes: Wishes | None = None) -> RunPlan:
    plan = cheapest_run(run, rules=rules or Rules(), wishes=wishes or Wishes())
    assert isinstance(plan, RunPlan)
    return plan


def some_lessons(*kinds: str, minutes: int = 30) -> tuple[PlanLesson, ...]:
    return with_chapters(
        PlanLesson(id=LessonId(f"l{n}"), kind=kind, minutes=minutes)  # type: ignore[arg-type]  # words of the cases
        for n, kind in enumerate(kinds)
    )


@pytest.mark.parametrize("published_year", YEARS.values(), ids=YEARS)
def test_a_year_without_an_end_is_as_short_as_the_published_table(published_year: PublishedYear) -> None:
    plan = planned(a_run(published_year.calendar))

    assert plan.dates[LessonId("day-090")] == published_year.lesson_90
    assert plan.dates[LessonId("day-180")] == published_year.lesson_180


QUICK = [seed for seed in range(34) if seed not in {10, 12, 16, 19, 20, 24, 25, 28, 30, 33}]
"""Small years of which all plans are soon tried; bench/prove_plan.py tries 240, the others among them."""


@pytest.mark.parametrize("seed", QUICK)
def test_the_path_is_as_cheap_as_the_cheapest_of_all_plans_there_are(seed: int) -> None:
    year = years.small_year(seed)
    run = year.runs[0]

    # every plan of the small year is tried, checked by the checker of its own and priced
    least = years.least_cost(year)
    plan = cheapest_run(run, rules=year.rules, wishes=year.wishes)

    if isinstance(plan, Stuck):
        assert least is None
    else:
        assert check_year(year, [plan]) == ()
        if least is None:  # without an end a year may need more days than were tried
            assert run.calendar.end is None
        else:
            assert sum(price_year(year, [plan]).values()) == least


def test_thirty_six_weeks_of_four_days_are_the_plan_of_144_days() -> None:
    # JOB 1.4: what is left out and what is joined, number by number
    calendar = LearningCalendar(start=MONDAY, minutes=FOUR, end=MONDAY + timedelta(weeks=36, days=-1))

    plan = planned(a_run(calendar, may_join=True, may_leave_out=True))

    assert len({one.day for one in plan.placed}) == 144
    assert [int(one[-3:]) for one in plan.left_out] == [
        10, 14, 20, 25, 40, 50, 70, 80, 100, 110, 130, 140, 160, 166, 170, 177,
    ]  # fmt: skip
    pairs = [(int(one[-3:]), int(other[-3:])) for one, other in plan.joined]
    assert pairs == sorted([(n, n + 1) for n in range(8, 180, 10)] + [(1, 2), (21, 22)])


def test_without_leave_to_shorten_144_days_are_too_few_and_the_lesson_is_named() -> None:
    calendar = LearningCalendar(start=MONDAY, minutes=FOUR, end=MONDAY + timedelta(weeks=36, days=-1))

    stuck = cheapest_run(a_run(calendar), rules=Rules(), wishes=Wishes())

    assert stuck == Stuck(at=144)
    assert GRADE2[144].id == "day-145"


def test_a_test_waits_for_the_next_day_that_is_long_enough() -> None:
    # Tuesday is half a day: the look back of Monday has its test on Wednesday
    calendar = LearningCalendar(
        start=MONDAY, minutes=FIVE, end=MONDAY + timedelta(days=4), half_days=(LearningDay(MONDAY + timedelta(1), 20),)
    )

    plan = planned(a_run(calendar, some_lessons("look-back", "test")), wishes=Wishes(pause_in_chapter=0))

    assert (plan.placed[1].day - plan.placed[0].day).days in {1, 2}
    assert check_year(FamilyYear(runs=(plan.run,)), [plan]) == ()
    only = planned(a_run(replace(calendar, end=MONDAY + timedelta(days=2)), some_lessons("look-back", "test")))
    assert [one.day.day for one in only.placed] in ([17, 19], [18, 19])


def test_no_test_stands_on_the_first_day_back_and_no_chapter_opens_before_two_weeks_off() -> None:
    off = (DaysOff(first=date(2026, 8, 19), last=date(2026, 9, 4), name="away"),)
    calendar = LearningCalendar(start=MONDAY, minutes=FIVE, end=date(2026, 9, 11), off=off)
    lessons = with_chapters(
        replace(one, chapter=chapter)
        for one, chapter in zip(some_lessons("lesson", "lesson", "look-back", "test"), (1, 2, 2, 2), strict=True)
    )

    plan = planned(a_run(calendar, lessons))

    # Tuesday the 18th lies before 17 days off, Monday the 7th after them
    assert plan.dates[LessonId("l1")] != date(2026, 8, 18)
    assert plan.dates[LessonId("l3")] != date(2026, 9, 7)


def test_a_project_waits_for_its_log_as_long_as_the_log_needs() -> None:
    lessons = some_lessons("lesson", "lesson", "project")
    lessons = (replace(lessons[0], log_for=LessonId("l2"), log_days=9), *lessons[1:])
    calendar = LearningCalendar(start=MONDAY, minutes=FIVE)

    plan = planned(a_run(calendar, lessons))

    assert (plan.dates[LessonId("l2")] - plan.dates[LessonId("l0")]).days == 9


def test_a_log_begun_before_today_still_counts() -> None:
    # a re-plan that starts inside a project: the log began on Monday and needs nine days
    lessons = some_lessons("lesson", "lesson", "project")
    lessons = (replace(lessons[0], log_for=LessonId("l2"), log_days=9), *lessons[1:])
    run = a_run(LearningCalendar(start=MONDAY, minutes=FIVE), lessons, done=(Placed(LessonId("l0"), MONDAY),))

    plan = planned(run)

    assert plan.dates[LessonId("l2")] == MONDAY + timedelta(days=9)
    assert plan.placed[0] == Placed(LessonId("l0"), MONDAY)


def test_seven_tenths_of_the_free_days_are_spread_and_the_rest_waits_at_the_end() -> None:
    calendar = LearningCalendar(start=MONDAY, minutes=FIVE, end=date(2027, 6, 18))

    plan = planned(a_run(calendar))

    # 220 weekdays from 17 August 2026 to 18 June 2027 (numpy.busday_count), so 40 are free and 28 are spread
    days = [MONDAY + timedelta(days=n) for n in range((date(2027, 6, 18) - MONDAY).days + 1)]
    weekdays = [day for day in days if day.weekday() < 5]
    assert len(weekdays) == 220
    before_the_end = [day for day in weekdays if plan.last is not None and day <= plan.last]
    assert abs(len(before_the_end) - 180 - 28) <= 3


@pytest.mark.parametrize(
    ("minutes", "weekend"),
    [({6: 45, 0: 45, 1: 45, 2: 45, 3: 45}, {4, 5}), (FIVE, {5, 6})],
    ids=["Sunday to Thursday", "Monday to Friday"],
)
def test_a_test_rather_not_falls_after_the_familys_own_weekend(minutes: dict[int, int], weekend: set[int]) -> None:
    plan = planned(a_run(LearningCalendar(start=MONDAY, minutes=minutes, end=date(2027, 6, 30))))

    assert not any(one.day.weekday() in weekend for one in plan.placed)
    first_day = 6 if 6 in minutes else 0
    tests = {one.id for one in GRADE2 if one.kind == "test"}
    assert not [one for one in plan.placed if one.lesson in tests and one.day.weekday() == first_day]


def test_the_leap_day_is_a_learning_day_and_clocks_that_change_move_nothing() -> None:
    # 29 February 2028 is a Tuesday; in the zones of Europe clocks change on 26 March 2028, a Sunday
    calendar = LearningCalendar(start=date(2028, 2, 28), minutes=dict.fromkeys(range(7), 45))

    plan = planned(a_run(calendar, some_lessons(*["lesson"] * 40)))

    assert plan.placed[1].day == date(2028, 2, 29)
    assert [one.day - plan.placed[0].day for one in plan.placed] == [timedelta(days=n) for n in range(40)]


def test_two_plans_of_one_year_are_the_same() -> None:
    run = a_run(LearningCalendar(start=MONDAY, minutes=FIVE, holidays=FEDERAL, off=BREAKS, end=date(2027, 7, 8)))

    assert planned(run) == planned(run)
