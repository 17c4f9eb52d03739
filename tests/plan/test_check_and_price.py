"""What a plan breaks and what it costs, on a fortnight worked out by hand from docs/plan-format.md."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import TYPE_CHECKING, Any

import pytest

from dayleaf.core.ids import CourseId, LearnerId, LessonId
from dayleaf.plan.calendar import DaysOff, LearningCalendar, LearningDay
from dayleaf.plan.check_year import check_year
from dayleaf.plan.lessons import PlanLesson, with_chapters
from dayleaf.plan.price import price_year
from dayleaf.plan.run import CourseRun, FamilyYear, RunPlan
from dayleaf.plan.wishes import RULE_SAYS, WISH_NAMES, WISH_SAYS, Rules, Wishes
from dayleaf.plan.year import Placed

if TYPE_CHECKING:
    from collections.abc import Mapping

MONDAY = date(2026, 8, 17)


def lesson(name: str, kind: Any = "lesson", **more: Any) -> PlanLesson:
    return PlanLesson(id=LessonId(name), kind=kind, minutes=more.pop("minutes", 30), **more)


LESSONS = with_chapters(
    [
        lesson("warm", if_short="join-next", log_for=LessonId("build"), log_days=3),
        lesson("add"),
        lesson("back", "look-back", if_short="join-next"),
        lesson("test", "test"),
        lesson("build", "project", if_short="drop"),
        lesson("next", chapter=2, materials=("scale",)),
    ]
)
# Mon 17 to Fri 21 August; Mon 24 is a day off, Thu 27 a half day of 20 minutes; Mon 31 August to Mon 14 September are
# off (a cut gap of 17 days from Saturday the 29th on); Tue 15 to Fri 18 September
CALENDAR = LearningCalendar(
    start=MONDAY,
    minutes=dict.fromkeys(range(5), 40),
    off=(
        DaysOff(date(2026, 8, 24), date(2026, 8, 24), "fair"),
        DaysOff(date(2026, 8, 31), date(2026, 9, 14), "the long lock"),
    ),
    half_days=(LearningDay(date(2026, 8, 27), 20),),
    end=date(2026, 9, 18),
)
RUN = CourseRun(
    learner=LearnerId("wren"), course=CourseId("small"), lessons=LESSONS, calendar=CALENDAR, spread_percent=0
)


def plan(dates: Mapping[str, tuple[int, int]], run: CourseRun = RUN) -> RunPlan:
    placed = tuple(Placed(LessonId(name), date(2026, month, day)) for name, (month, day) in dates.items())
    kept = {one.lesson for one in placed}
    return RunPlan(run=run, placed=placed, left_out=tuple(one.id for one in run.lessons if one.id not in kept))


GOOD: dict[str, tuple[int, int]] = {
    "warm": (8, 17), "add": (8, 18), "back": (8, 19), "test": (8, 20), "build": (8, 21), "next": (8, 25),
}  # fmt: skip


def broken(
    dates: Mapping[str, tuple[int, int]], run: CourseRun = RUN, *, rules: Rules | None = None
) -> list[tuple[str, str]]:
    year = FamilyYear(runs=(run,), rules=rules or Rules())
    return [(one.rule, one.lesson) for one in check_year(year, [plan(dates, run)])]


def costs(dates: Mapping[str, tuple[int, int]], run: CourseRun = RUN) -> dict[str, int]:
    year = FamilyYear(runs=(run,))
    return {name: price for name, price in price_year(year, [plan(dates, run)]).items() if price}


def test_a_plan_that_keeps_every_rule_breaks_none_and_costs_nothing() -> None:
    assert broken(GOOD) == []
    assert costs(GOOD) == {}


@pytest.mark.parametrize(
    ("changed", "rule", "name"),
    [
        ({"add": (8, 16)}, "learning_day", "add"),
        ({"add": (8, 22)}, "learning_day", "add"),
        ({"next": (8, 24)}, "learning_day", "next"),
        ({"add": (8, 17)}, "one_a_day", "add"),
        ({"add": (8, 28)}, "order", "back"),
        ({"test": (8, 21), "build": (8, 25), "next": (8, 26)}, "test_after_look_back", "test"),
        ({"back": (8, 26), "test": (8, 27), "build": (8, 28), "next": (9, 15)}, "test_needs_its_minutes", "test"),
        ({"back": (8, 28), "test": (9, 15), "build": (9, 16), "next": (9, 17)}, "no_test_after_break", "test"),
        ({"next": (8, 28)}, "no_opening_before_two_weeks_off", "next"),
        ({"warm": (8, 19), "add": (8, 20), "back": (8, 20), "test": (8, 21), "build": (8, 21)}, "log_on_time", "build"),
    ],
)
def test_each_rule_that_is_broken_is_named_with_its_lesson(
    changed: dict[str, tuple[int, int]], rule: str, name: str
) -> None:
    assert (rule, name) in broken(GOOD | changed)


def test_a_half_day_between_look_back_and_test_is_passed_over() -> None:
    # Thursday the 27th has 20 minutes, the test needs 30: Wednesday's look back has its test on Friday
    late = GOOD | {"back": (8, 26), "test": (8, 28), "build": (9, 15), "next": (9, 16)}

    assert broken(late) == []


def test_a_lesson_that_is_missing_is_named_unless_it_may_be_left_out() -> None:
    without = {name: day for name, day in GOOD.items() if name not in {"add", "build"}}

    assert broken(without) == [("all_lessons", "add"), ("all_lessons", "build")]
    assert broken(without, replace(RUN, may_leave_out=True)) == [("all_lessons", "add")]


def test_a_lesson_given_twice_is_named() -> None:
    twice = plan(GOOD)
    twice = replace(twice, placed=(*twice.placed, Placed(LessonId("add"), date(2026, 8, 26))))

    assert ("once", "add") in [(one.rule, one.lesson) for one in check_year(FamilyYear(runs=(RUN,)), [twice])]


def test_what_may_share_a_day_shares_it_only_with_leave() -> None:
    joined = GOOD | {"add": (8, 17), "back": (8, 18), "test": (8, 18), "build": (8, 20)}

    assert broken(joined) == [("one_a_day", "add"), ("one_a_day", "test")]
    assert broken(joined, replace(RUN, may_join=True)) == []
    assert costs(joined, replace(RUN, may_join=True)) == {"join": 6, "pause_in_chapter": 1}


def test_what_was_done_keeps_its_date_and_breaks_no_rule() -> None:
    # the look back was done on Friday the 28th, before the long break; Tuesday is the first day back, so the test
    # stands on Wednesday the 16th
    done = tuple(Placed(LessonId(name), date(2026, 8, day)) for name, day in (("warm", 22), ("add", 27), ("back", 28)))
    run = replace(RUN, done=done)
    dates = {"warm": (8, 22), "add": (8, 27), "back": (8, 28), "test": (9, 16), "build": (9, 17), "next": (9, 18)}

    assert broken(dates, run) == []
    assert broken(dates | {"add": (8, 26)}, run) == [("done_stays", "add")]
    assert ("past", "test") in broken(dates | {"test": (8, 21)}, run)


def test_a_rule_that_is_off_is_not_asked_for() -> None:
    early = GOOD | {"next": (8, 28)}

    assert broken(early, rules=Rules(no_opening_before_two_weeks_off=False)) == []


@pytest.mark.parametrize(
    ("changed", "wanted"),
    [
        # without spreading the second chapter belongs on day 5, Tuesday the 25th, and each day off that costs one;
        # the 21st is a Friday before the fair on Monday: a test before a day off (5)
        ({"back": (8, 20), "test": (8, 21), "build": (8, 25), "next": (8, 26)},
         {"test_before_holiday": 5, "pause_in_chapter": 1, "spread": 1}),
        # the 25th comes after a gap of three days, Saturday to Monday: a test after a weekend (5)
        ({"back": (8, 21), "test": (8, 25), "build": (8, 26), "next": (8, 28)},
         {"test_after_weekend": 5, "pause_in_chapter": 2, "spread": 3}),
        # a lesson of 30 minutes on the half day of 20 (2); two learning days are free before it, but it opens a chapter
        ({"next": (8, 27)}, {"short_day": 2, "spread": 2}),
    ],
)  # fmt: skip
def test_each_wish_costs_what_its_weight_says(changed: dict[str, tuple[int, int]], wanted: dict[str, int]) -> None:
    assert costs(GOOD | changed) == wanted


def test_lessons_after_the_wished_end_cost_three_each() -> None:
    assert costs(GOOD, replace(RUN, wished_end=date(2026, 8, 20))) == {"past_wished_end": 6}


def test_a_project_left_out_costs_eight() -> None:
    without = {name: day for name, day in GOOD.items() if name != "build"}

    assert costs(without, replace(RUN, may_leave_out=True)) == {"leave_out_project": 8}


def test_the_beginning_of_a_chapter_is_wanted_where_evenly_spread_free_days_put_it() -> None:
    # 13 learning days (five, four, four) and 6 lessons leave 7 free; all are spread: the last lesson, number 5 from 0,
    # opens chapter 2 and belongs on day 5 + 7 * 5 // 6 = 10, Wednesday 16 September; Tuesday 25 August is day 5
    assert costs(GOOD, replace(RUN, spread_percent=100)) == {"spread": 5}


def test_two_tests_and_two_children_who_want_the_only_scale_cost_their_pairs() -> None:
    other = replace(RUN, learner=LearnerId("ivo"))
    year = FamilyYear(runs=(RUN, other, replace(RUN, learner=LearnerId("bean"))), one_of=frozenset({"scale"}))

    cost = price_year(year, [plan(GOOD), plan(GOOD, other), plan(GOOD | {"next": (8, 26)}, year.runs[2])])

    # three tests on one date are three pairs (4 each); two of three want the scale on the 25th (1)
    assert {name: price for name, price in cost.items() if price} == {
        "tests_together": 12,
        "materials_together": 1,
        "spread": 1,
    }


def test_every_wish_and_rule_has_its_sentence_and_its_place_in_the_table() -> None:
    assert tuple(WISH_SAYS) == WISH_NAMES
    assert set(RULE_SAYS) == {one for one in dir(Rules()) if not one.startswith("_")}
    assert set(price_year(FamilyYear(runs=(RUN,)), [plan(GOOD)])) == set(WISH_NAMES)
    assert Wishes().test_after_weekend == 5  # DESIGN 7
    assert Wishes().test_after_break == 8  # DESIGN 7
    assert Wishes().tests_together == 4  # DESIGN 7
    assert MONDAY + timedelta(days=7) == date(2026, 8, 24)
