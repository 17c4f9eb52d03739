"""No, the ways out, the ways on and the chance. Referees: JOB 1.4 and 1.8, the checker written apart, scipy."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest
from scipy.stats import beta, betabinom, binom  # type: ignore[import-untyped]  # it brings no types

from dayleaf.core.ids import CourseId, LearnerId, LessonId
from dayleaf.course.load import grade2
from dayleaf.plan.calendar import DaysOff, LearningCalendar, LearningDay, holidays_of, learning_days
from dayleaf.plan.chance import MoreLostThanPlanned, chance_at_rate, chance_of_finishing, days_to_plan
from dayleaf.plan.check_year import check_year
from dayleaf.plan.family import plan_family
from dayleaf.plan.lessons import PlanLesson, lessons_of, with_chapters
from dayleaf.plan.priced_ways import Refusal, priced_ways, refuse
from dayleaf.plan.replan import Bent, Happened, ways_on
from dayleaf.plan.run import CourseRun, FamilyPlan, FamilyYear
from dayleaf.plan.year import Placed

MONDAY = date(2026, 8, 17)
GRADE2 = lessons_of(grade2())
YEAR = LearningCalendar(
    start=MONDAY, minutes=dict.fromkeys(range(5), 45), holidays=holidays_of("US", (2026, 2027)), end=date(2027, 6, 25)
)
FOUR_DAYS = LearningCalendar(
    start=MONDAY, minutes=dict.fromkeys(range(4), 45), end=MONDAY + timedelta(weeks=36, days=-1)
)


def a_year(calendar: LearningCalendar = YEAR, lessons: tuple[PlanLesson, ...] = GRADE2, **more: Any) -> FamilyYear:
    run = CourseRun(learner=LearnerId("wren"), course=CourseId("grade2"), lessons=lessons, calendar=calendar, **more)
    return FamilyYear(runs=(run,))


def planned(year: FamilyYear) -> FamilyPlan:
    plan = plan_family(year)
    assert isinstance(plan, FamilyPlan)
    return plan


def refused(year: FamilyYear) -> Refusal:
    no = plan_family(year)
    assert not isinstance(no, FamilyPlan)
    return refuse(year, no.run, no.lesson)


def ways(year: FamilyYear, *happened: Happened, today: date) -> dict[str, Bent]:
    return {one.way: one for one in ways_on(year, planned(year).plans, happened, today=today)}


def test_180_lessons_in_144_days_are_refused_with_ways_that_work() -> None:
    no = refused(a_year(FOUR_DAYS))

    assert (no.needed, no.available, no.lesson) == (180, 144, "day-145")
    assert no.says == (
        "180 lessons do not fit in 144 learning days up to 2027-04-25; day-145 is the first without one."
    )
    assert no.rules == ("end",)
    by_name = {way.name: way for way in no.ways}
    # JOB 1.4: joining and leaving out together is enough, either alone is not; no rule alone is to blame
    assert set(by_name) == {"shorten", "more_days", "weekday:friday", "weekday:saturday", "weekday:sunday"}
    assert by_name["shorten"].spare == 0
    assert len(by_name["shorten"].plan.left_out) == 16
    assert len(by_name["shorten"].plan.joined) == 20
    # 36 days more, four a week from Monday 26 April 2027: the last is Thursday of the ninth week
    assert by_name["more_days"].given_up == 36
    assert by_name["more_days"].plan.last == date(2027, 4, 26) + timedelta(weeks=8, days=3)
    assert [way.price for way in no.ways] == sorted(way.price for way in no.ways)


def test_every_way_out_keeps_the_rules_of_the_year_it_makes() -> None:
    for year in (a_year(FOUR_DAYS), a_year(replace(YEAR, end=date(2027, 4, 20))), a_year()):
        for way in priced_ways(year, 0):
            assert check_year(way.year, [way.plan]) == (), way.name
            assert way.lost or way.name in {"join", "join_look_backs", "leave_out", "shorten"}


def test_the_one_rule_that_stands_in_the_way_is_named() -> None:
    # Monday to Wednesday after a week off hold a look back, its test and a lesson only if the test may stand on Monday
    lessons = with_chapters(
        PlanLesson(id=LessonId(name), kind=kind, minutes=30)  # type: ignore[arg-type]  # words of the case
        for name, kind in (("back", "look-back"), ("test", "test"))
    )
    off = (DaysOff(MONDAY + timedelta(1), MONDAY + timedelta(6), "the fair"),)
    calendar = replace(YEAR, holidays=(), off=off, end=MONDAY + timedelta(7))

    no = refused(a_year(calendar, lessons))

    assert no.rules == ("no_test_after_break", "end")
    assert "no test on the first day after five days off or more" in no.says


def test_a_test_longer_than_every_day_is_said_in_a_sentence_a_parent_understands() -> None:
    short = replace(YEAR, minutes=dict.fromkeys(range(5), 20))

    no = refused(a_year(short))

    assert no.rules == ("test_needs_its_minutes",)
    assert (
        no.says
        == "day-008 has no day up to 2027-06-25 on which this rule holds: a test needs a day with at least its minutes."
    )


def test_a_year_without_learning_days_says_so() -> None:
    no = refused(a_year(replace(YEAR, minutes={})))

    assert no.says == "There is no learning day for 180 lessons; name at least one weekday with minutes."
    assert no.ways == ()


def test_a_year_that_never_reaches_180_says_so_even_without_an_end() -> None:
    # one day a week for two years are 105 days at most
    no = refused(a_year(replace(YEAR, minutes={2: 60}, end=None)))

    assert no.needed == 180
    assert no.available < 106
    assert "180 lessons do not fit" in no.says


def test_days_off_and_firm_lessons_are_ways_out_with_what_they_cost() -> None:
    off = (DaysOff(date(2026, 10, 5), date(2026, 10, 9), "the long lock"),)
    firm = tuple(LessonId(f"day-{n:03}") for n in range(2, 8))
    year = a_year(replace(YEAR, off=off, end=date(2027, 5, 7)), firm=firm)

    by_name = {way.name: way for way in refused(year).ways}

    # E.2: with these holidays alone the last lesson falls on 5 May 2027, so two days are free; the week off takes five
    assert by_name["days_off"].lost == ("5 days that had no lessons.",)
    assert set(by_name["skip_firm"].plan.left_out) <= set(firm)
    assert len(by_name["skip_firm"].plan.left_out) == 3


def test_a_missed_day_moves_few_dates_and_not_the_end() -> None:
    year = a_year()
    before = planned(year)
    missed = before.plans[0].placed[32].day

    found = ways(year, Happened(missed=(missed,)), today=missed)

    assert set(found) == {"slide", "spare", "trim"}
    assert found["spare"].last == before.plans[0].last
    remaining = sum(1 for one in before.plans[0].placed if one.day >= missed)
    assert len(found["spare"].moved) <= 20 < remaining
    assert len(found["trim"].moved) <= len(found["spare"].moved)
    # slide: every later lesson moves, the end by one learning day
    days = [one.day for one in learning_days(YEAR)]
    last = before.plans[0].last
    assert last is not None
    assert len(found["slide"].moved) == remaining
    assert found["slide"].last == days[days.index(last) + 1]
    assert next(iter(found.values())).way in {"spare", "trim"}


def test_fewest_changed_dates_are_as_few_as_the_next_free_day_allows() -> None:
    # five lessons, a free day, five lessons: missing the second day moves four lessons and no more
    lessons = with_chapters(PlanLesson(id=LessonId(f"l{n}"), chapter=n // 5) for n in range(10))
    calendar = replace(YEAR, holidays=(), free=(), end=date(2026, 9, 1))
    year = a_year(calendar, lessons, spread_percent=100)
    before = planned(year).plans[0]
    assert [one.day.day for one in before.placed] == [17, 18, 19, 20, 21, 25, 26, 27, 28, 31]

    found = ways(year, Happened(missed=(date(2026, 8, 18),)), today=date(2026, 8, 18))

    assert [lesson for _, lesson, _, _ in found["spare"].moved] == ["l1", "l2", "l3", "l4"]


def test_a_week_lost_gives_three_plans_and_what_was_done_keeps_its_dates() -> None:
    # JOB, acceptance story 8: Monday to Friday lost in week 9
    year = a_year()
    before = planned(year).plans[0]
    week = tuple(date(2026, 10, 12) + timedelta(days=n) for n in range(5))

    found = ways(year, Happened(missed=week), today=week[0])

    for one in found.values():
        (plan,) = one.plan.plans
        assert check_year(replace(year, runs=(plan.run,)), [plan]) == ()
        assert [each for each in plan.placed if each.day < week[0]] == [
            each for each in before.placed if each.day < week[0]
        ]
        assert not {each.day for each in plan.placed} & set(week)
    assert found["spare"].spare == found["slide"].spare
    assert not found["spare"].past_end


def test_going_back_to_the_plan_before_is_the_same_value() -> None:
    # undo points at the older version: bending a plan never changes it
    year = a_year()
    before = planned(year)
    copy = planned(year)

    ways_on(year, before.plans, [Happened(missed=(date(2026, 10, 6),))], today=date(2026, 10, 6))

    assert before == copy


def test_a_lesson_half_done_is_finished_next_time_and_an_early_one_frees_its_day() -> None:
    year = a_year()
    before = planned(year).plans[0]
    day = before.placed[20].day

    half = ways(year, Happened(half=(day,)), today=day + timedelta(days=1))["spare"]
    early = ways(year, Happened(done=(Placed(before.placed[21].lesson, day),)), today=day + timedelta(days=1))["spare"]

    assert half.plan.plans[0].dates[before.placed[20].lesson] > day
    assert early.moved == ()
    assert early.plan.plans[0].dates[before.placed[21].lesson] == day


def test_a_lesson_skipped_or_given_again_changes_what_is_planned() -> None:
    year = a_year()
    before = planned(year).plans[0]
    today = before.placed[30].day
    skipped, repeated = before.placed[34].lesson, before.placed[32].lesson

    found = ways(year, Happened(skip=(skipped,), repeat=(repeated,)), today=today)["spare"]

    (plan,) = found.plan.plans
    assert skipped not in plan.dates
    again = plan.dates[LessonId(f"{repeated}~again")]
    assert plan.dates[repeated] < again
    assert check_year(replace(year, runs=(plan.run,)), [plan]) == ()


def test_only_the_child_that_was_ill_moves() -> None:
    ivo = replace(a_year().runs[0], learner=LearnerId("ivo"), lessons=GRADE2[30:])
    year = FamilyYear(runs=(a_year().runs[0], ivo))
    before = planned(year)
    day = date(2026, 10, 6)

    found = ways_on(year, before.plans, [Happened(learner=LearnerId("ivo"), missed=(day,))], today=day)

    spare = next(one for one in found if one.way == "spare")
    assert {run for run, *_ in spare.moved} == {1}


@pytest.mark.parametrize(("rate", "days"), [(0.10, 206), (0.15, 220), (0.05, 194)])
def test_how_many_days_to_plan_for_180_lessons(rate: float, days: int) -> None:
    # JOB 1.4 gives 206, 220 and 194; scipy's binomial distribution agrees
    assert days_to_plan(needed=180, rate=rate, chance=0.9) == days
    assert binom.sf(179, days, 1 - rate) >= 0.9 > binom.sf(179, days - 1, 1 - rate)


@pytest.mark.parametrize(
    ("needed", "days", "lost", "planned_days"), [(180, 206, 0, 0), (100, 120, 7, 70), (20, 21, 30, 200), (5, 9, 0, 40)]
)
def test_the_chance_is_the_beta_binomial_one(needed: int, days: int, lost: int, planned_days: int) -> None:
    found = chance_of_finishing(needed=needed, days=days, lost=lost, planned=planned_days)

    a, b = 1 + lost, 9 + planned_days - lost
    assert found.chance == pytest.approx(float(betabinom.cdf(days - needed, days, a, b)), abs=1e-9)
    high, low = float(beta.ppf(0.05, a, b)), float(beta.ppf(0.95, a, b))
    at_low, at_high = (float(binom.cdf(days - needed, days, rate)) for rate in (low, high))
    assert found.high == pytest.approx(max(at_high, found.chance), abs=1e-6)
    assert found.low == pytest.approx(min(at_low, found.chance), abs=1e-6)
    assert chance_at_rate(needed=needed, days=days, rate=0.1) == pytest.approx(
        float(binom.cdf(days - needed, days, 0.1)), abs=1e-9
    )


def test_a_record_of_few_lost_days_makes_the_chance_better_and_surer() -> None:
    new = chance_of_finishing(needed=100, days=115)
    steady = chance_of_finishing(needed=100, days=115, lost=2, planned=80)

    assert steady.chance > new.chance
    assert steady.high - steady.low < new.high - new.low


def test_a_year_that_is_done_is_certain_and_one_with_too_few_days_cannot_be() -> None:
    assert chance_of_finishing(needed=0, days=0).chance == 1
    assert chance_of_finishing(needed=10, days=9).chance == 0
    with pytest.raises(MoreLostThanPlanned, match="5 days lost of 4"):
        chance_of_finishing(needed=1, days=2, lost=5, planned=4)


def test_a_half_day_can_carry_a_look_back_but_not_its_test() -> None:
    lessons = with_chapters(
        PlanLesson(id=LessonId(name), kind=kind, minutes=30)  # type: ignore[arg-type]  # words of the case
        for name, kind in (("back", "look-back"), ("test", "test"))
    )
    halves = (LearningDay(MONDAY, 20),)
    calendar = replace(YEAR, holidays=(), half_days=halves, end=MONDAY + timedelta(1))

    plan = planned(a_year(calendar, lessons))

    assert [one.day for one in plan.plans[0].placed] == [MONDAY, MONDAY + timedelta(1)]
    assert plan.cost["short_day"] == 2
