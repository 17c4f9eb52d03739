"""Several children together. Referees: every pair of plans of two small years tried; the checker written apart."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from itertools import combinations, product
from random import Random

import pytest

from dayleaf.core.ids import CourseId, LearnerId, LessonId
from dayleaf.course.load import grade2
from dayleaf.plan.calendar import LearningCalendar, holidays_of, learning_days
from dayleaf.plan.check_year import YearChecker, check_year
from dayleaf.plan.family import NoDay, plan_family
from dayleaf.plan.lessons import PlanLesson, lessons_of, with_chapters
from dayleaf.plan.path import cheapest_run
from dayleaf.plan.price import price_run, price_year
from dayleaf.plan.run import CourseRun, FamilyPlan, FamilyYear, RunPlan
from dayleaf.plan.wishes import Rules, Wishes
from dayleaf.plan.year import Placed

MONDAY = date(2026, 8, 17)
GRADE2 = lessons_of(grade2())
YEAR = LearningCalendar(
    start=MONDAY, minutes=dict.fromkeys(range(5), 45), holidays=holidays_of("US", (2026, 2027)), end=date(2027, 6, 25)
)


def a_run(name: str, lessons: tuple[PlanLesson, ...] = GRADE2, calendar: LearningCalendar = YEAR) -> CourseRun:
    return CourseRun(learner=LearnerId(name), course=CourseId("grade2"), lessons=lessons, calendar=calendar)


def planned(year: FamilyYear) -> FamilyPlan:
    plan = plan_family(year)
    assert isinstance(plan, FamilyPlan)
    return plan


def small_pair(seed: int) -> FamilyYear:
    """Two children with four lessons each, two of them tests, on six or seven common days."""
    draw = Random(seed)
    calendar = replace(YEAR, holidays=(), end=date(2026, 8, 24 + draw.randint(0, 2)))
    runs = []
    for name in ("wren", "ivo"):
        kinds = draw.sample(["test", "test", "lesson", "lesson"], 4)
        lessons = with_chapters(
            PlanLesson(id=LessonId(f"l{n}"), kind=kind, materials=tuple(draw.sample(["scale"], draw.randint(0, 1))))  # type: ignore[arg-type]  # words of the case
            for n, kind in enumerate(kinds)
        )
        runs.append(a_run(name, lessons, calendar))
    return FamilyYear(runs=tuple(runs), one_of=frozenset({"scale"}))


def plans_of(year: FamilyYear, n: int) -> list[tuple[RunPlan, int]]:
    """Every plan of one run that keeps the rules, with its own price."""
    run = year.runs[n]
    checker = YearChecker(FamilyYear(runs=(run,), rules=year.rules))
    found = []
    for days in combinations([one.day for one in learning_days(run.calendar)], len(run.lessons)):
        placed = tuple(Placed(one.id, day) for one, day in zip(run.lessons, days, strict=True))
        plan = RunPlan(run=run, placed=placed)
        if not checker.breaks([plan]):
            found.append((plan, sum(price_run(plan, year.wishes).values())))
    return found


@pytest.mark.parametrize("seed", [1, 2, 4])
def test_two_small_years_together_are_as_cheap_as_the_cheapest_of_all_pairs(seed: int) -> None:
    year = small_pair(seed)

    # every pair of plans of the two children
    least = min(
        one + other + shared
        for (left, one), (right, other) in product(plans_of(year, 0), plans_of(year, 1))
        for shared in [sum(price_year(year, [left, right])[name] for name in ("tests_together", "materials_together"))]
    )
    plan = planned(year)

    assert check_year(year, plan.plans) == ()
    assert plan.total == least
    assert plan.bound <= least


def test_one_child_in_a_family_is_planned_as_by_itself_and_proven() -> None:
    year = FamilyYear(runs=(a_run("wren"),))

    plan = planned(year)

    assert plan.plans == (cheapest_run(year.runs[0], rules=Rules(), wishes=Wishes()),)
    assert plan.proof == "optimal"


def test_two_children_on_one_course_do_not_have_their_tests_on_one_day() -> None:
    year = FamilyYear(runs=(a_run("wren"), a_run("ivo")))

    plan = planned(year)

    tests = {one.id for one in GRADE2 if one.kind == "test"}
    days = [{one.day for one in each.placed if one.lesson in tests} for each in plan.plans]
    assert len(days[0] & days[1]) * Wishes().tests_together == plan.cost["tests_together"]
    alone = sum(planned(FamilyYear(runs=(run,))).total for run in year.runs)
    assert alone <= plan.bound <= plan.total
    assert plan.total <= alone + 18  # shifting each of 18 chapters' tests by one day costs one each
    assert check_year(year, plan.plans) == ()


def test_the_same_family_gets_the_same_plan() -> None:
    year = FamilyYear(runs=(a_run("wren"), a_run("ivo", GRADE2[20:])))

    assert planned(year) == planned(year)


def test_children_on_different_rhythms_and_courses_are_planned_side_by_side() -> None:
    knots = with_chapters(PlanLesson(id=LessonId(f"lesson-{n:03}"), chapter=n // 10) for n in range(36))
    once_a_week = replace(YEAR, minutes={2: 60})
    year = FamilyYear(runs=(a_run("wren"), a_run("ivo", knots, once_a_week)))

    plan = planned(year)

    assert check_year(year, plan.plans) == ()
    assert {one.day.weekday() for one in plan.plans[1].placed} == {2}


def test_the_child_that_does_not_fit_is_named_with_its_first_lesson_without_a_day() -> None:
    short = replace(YEAR, end=date(2026, 9, 4))
    year = FamilyYear(runs=(a_run("wren"), a_run("ivo", GRADE2, short)))

    no = plan_family(year)

    # 15 learning days from 17 August to 4 September 2026 (three weeks of five)
    assert no == NoDay(run=1, lesson=LessonId("day-016"))
