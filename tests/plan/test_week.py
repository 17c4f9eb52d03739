"""The week made ready. Referee: the material lists of the course counted by hand, and JOB 1.5."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from dayleaf.core.ids import LearnerId, LessonId
from dayleaf.course.load import grade2
from dayleaf.plan.week import Need, Week, WeekLesson, at_hand_before, prepare_week, week_around

COURSE = grade2()
WREN, IVO = LearnerId("wren"), LearnerId("ivo")
MONDAY = date(2027, 1, 11)
DAYS = [MONDAY + timedelta(days=n) for n in range(5)]


def week(
    *children: tuple[LearnerId, int], today: date = MONDAY, at_hand: frozenset[str] = frozenset(), days: int = 5
) -> Week:
    """Five days from the day of a number on, for each child."""
    lessons = [
        WeekLesson(child, day, COURSE.days[first - 1 + n])
        for n, day in enumerate(DAYS[:days])
        for child, first in children
    ]
    return prepare_week(COURSE, lessons, first=MONDAY, last=MONDAY + timedelta(days=6), today=today, at_hand=at_hand)


def need(of: Week, material: str) -> Need:
    (one,) = [one for one in of.prep if one.material.id == material]
    return one


def test_week_17_needs_blocks_and_sticks_and_prints_nine_sheets() -> None:
    # JOB 1.5: days 81 to 85; fetch blocks and bundles of sticks, five practice sheets and four second sheets
    of = week((WREN, 81), at_hand=at_hand_before(COURSE.days[:80], COURSE.materials))

    assert {one.material.id for one in of.prep if one.kind == "fetch"} >= {"base-ten-blocks", "craft-sticks", "pv-mat"}
    assert [one for one in of.prep if one.kind in ("cut", "buy")] == []  # "cut (nothing new)"
    assert sum(one.sheets for one in of.run) == 9
    assert 0 < of.minutes_ready < 15  # JOB 1.5: under 15 minutes for one child


def test_no_material_stands_twice_however_many_children_need_it() -> None:
    of = week((WREN, 81), (IVO, 15))

    keys = [(one.material.id, one.what) for one in of.prep]
    assert len(keys) == len(set(keys))
    blocks = need(of, "base-ten-blocks")
    assert set(blocks.learners) == {WREN, IVO}
    assert blocks.first == MONDAY


def test_two_children_who_need_the_one_set_on_the_same_day_are_named() -> None:
    both = week((WREN, 81), (IVO, 81))
    one = week((WREN, 81))

    assert need(both, "base-ten-blocks").together
    assert not need(one, "base-ten-blocks").together


@pytest.mark.parametrize("first", range(1, 176, 5))
def test_every_material_of_the_week_is_on_the_list_from_its_first_day(first: int) -> None:
    of = week((WREN, first))

    wanted: dict[str, date] = {}
    for day, lesson in zip(DAYS, COURSE.days[first - 1 : first + 4], strict=True):
        for name in (*lesson.materials, *lesson.print_outs):
            wanted.setdefault(name.replace("picture-card:", "picture-cards:"), day)
    listed = {one.material.id + (f":{one.what}" if one.what else ""): one.first for one in of.prep}
    assert listed == {name: day for name, day in wanted.items() if name.split(":")[0] in COURSE.materials}


def test_what_is_cut_once_is_only_fetched_later_and_what_is_used_up_is_printed_again() -> None:
    before = at_hand_before(COURSE.days[:80], COURSE.materials)

    assert need(week((WREN, 1)), "base-ten-blocks").kind == "cut"
    assert need(week((WREN, 1)), "digit-cards").kind == "cut"
    assert need(week((WREN, 81), at_hand=before), "base-ten-blocks").kind == "fetch"
    assert need(week((WREN, 81), at_hand=before), "chapter-page").kind == "print"


def test_three_learning_days_are_firm_and_the_rest_waits() -> None:
    of = week((WREN, 81), (IVO, 15))

    assert {one.day for one in of.run if one.firm} == set(DAYS[:3])
    assert [(one.day, one.learner) for one in of.run] == [(day, child) for day in DAYS for child in (WREN, IVO)]


def test_in_the_middle_of_the_week_the_next_three_days_are_firm_and_past_ones_are_not_printed() -> None:
    of = week((WREN, 81), today=DAYS[2])

    assert [(one.day, one.firm) for one in of.run] == [(day, True) for day in DAYS[2:]]


def test_a_lesson_that_stands_on_one_of_the_same_week_is_a_decision() -> None:
    # JOB 1.5: columns only if the lesson before was firm; day 84 stands on day 83's skill
    (decision,) = week((WREN, 81)).decisions

    assert decision.lesson.id == LessonId("day-084")
    assert decision.if_firm == "sub-2digit-1digit-regroup"
    assert decision.taught_on == DAYS[2]


def test_the_longest_new_guide_is_read_ahead() -> None:
    (read,) = week((WREN, 81)).read_ahead

    assert read.lesson.guide is not None
    assert read.lesson.new_skills
    assert 1 <= read.minutes <= 6


@pytest.mark.parametrize(
    ("day", "lesson_days", "monday"),
    [
        (date(2027, 1, 12), DAYS, MONDAY),
        (date(2027, 1, 16), [*DAYS, date(2027, 1, 18)], date(2027, 1, 18)),
        (date(2027, 1, 17), [*DAYS, date(2027, 1, 18)], date(2027, 1, 18)),
        (date(2027, 1, 17), DAYS, MONDAY),
        (date(2027, 1, 16), [date(2027, 1, 16)], MONDAY),
    ],
    ids=["a Tuesday", "a Saturday", "a Sunday evening", "nothing comes after", "a family of Saturdays"],
)
def test_a_sunday_evening_looks_at_the_week_to_come(day: date, lesson_days: list[date], monday: date) -> None:
    assert week_around(day, lesson_days=lesson_days) == (monday, monday + timedelta(days=6))


def test_a_week_may_begin_on_sunday() -> None:
    assert week_around(date(2027, 1, 12), first_weekday=6) == (date(2027, 1, 10), date(2027, 1, 16))
    assert week_around(date(2027, 1, 10), first_weekday=6)[0] == date(2027, 1, 10)


def test_a_week_without_lessons_is_empty_and_no_error() -> None:
    of = prepare_week(COURSE, [], first=MONDAY, last=MONDAY + timedelta(days=6), today=MONDAY)

    assert (of.lessons, of.prep, of.run, of.minutes_ready, of.cannot_wait) == ((), (), (), 0, ())
