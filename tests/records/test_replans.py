"""A home's year: begun, changed, bent by a bad week, given back. Acceptance story 8, and the plan's part of 2."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import TYPE_CHECKING, Any

import pytest
import vobject  # type: ignore[import-untyped]  # it has no types
from icalendar import Calendar

from dayleaf.core.ids import CourseId, LearnerId, LessonId
from dayleaf.course.load import grade2
from dayleaf.plan.calendar import DaysOff, LearningCalendar, learning_days
from dayleaf.plan.calendar_changes import with_half_day, with_off, with_weekday
from dayleaf.plan.check_year import check_year
from dayleaf.plan.lessons import PlanLesson, our_courses, with_chapters
from dayleaf.plan.replan import Happened
from dayleaf.plan.run import CourseRun
from dayleaf.plan.year import Placed
from dayleaf.records import feeds, people, replans, selectors
from dayleaf.records.errors import NothingToUndo
from dayleaf.records.plans import home_year, kept_year
from dayleaf.records.years import days_so_far, last_change, months_of

if TYPE_CHECKING:
    from collections.abc import Callable

    from dayleaf.plan.replan import Bent
    from dayleaf.records.models import Household, Learner, PrintRow
    from dayleaf.records.plans import HomeYear

START = date(2026, 8, 17)
END = date(2027, 6, 25)
NINTH = START + timedelta(weeks=8)
"""The Monday of week 9."""
WEEK = tuple(NINTH + timedelta(days=n) for n in range(5))
MONDAY_AFTER = NINTH + timedelta(weeks=1)
OURS = CourseId("grade2")
NEW_METHODS = frozenset(day.id for day in grade2().days if day.new_skills and day.kind == "lesson")


def run_of(learner: Learner, *, start: date = START, end: date | None = END, weekdays: int = 5) -> CourseRun:
    calendar = LearningCalendar(start=start, minutes=dict.fromkeys(range(weekdays), 60), end=end)
    return CourseRun(LearnerId(learner.id), OURS, our_courses()[OURS], calendar)


@pytest.fixture
def begun(wherrows: Household, wren: Learner) -> HomeYear:
    """Wren's year of five days a week, on the Monday after week 9."""
    assert replans.year_begin({wren: run_of(wren)}, today=START) is None
    return home_year(selectors.learners(wherrows), today=MONDAY_AFTER)


@pytest.fixture
def ivo(wherrows: Household, begun: HomeYear) -> Learner:
    """Ivo joins in mid-October, in the middle of the course."""
    assert begun.learners
    ivo = people.learner_add(household=wherrows, name="Ivo")
    run = run_of(ivo, start=MONDAY_AFTER)
    joined = replace(run, lessons=run.lessons[20:])
    assert replans.year_begin({ivo: joined}, today=MONDAY_AFTER) is None
    return ivo


def ways_of(home: HomeYear, *days: date) -> dict[str, Bent]:
    return {one.way: one for one in replans.life_ways(home, [Happened(missed=days)])}


class TestABadWeek:
    def test_three_plans_are_offered_with_their_ends_and_their_spare_days(self, begun: HomeYear) -> None:
        ways = ways_of(begun, *WEEK)

        assert set(ways) == {"slide", "spare", "trim"}
        before = begun.plans[0].last
        assert before is not None
        assert all(one.last is not None and one.last <= END for one in ways.values())
        # five free days take the week up; a slide leaves the free days between the lessons alone and ends later
        assert ways["spare"].last == before or len(ways["spare"].moved) < len(ways["slide"].moved)
        assert ways["slide"].last is not None
        assert ways["slide"].last > before
        assert len(ways["trim"].moved) <= len(ways["spare"].moved)

    @pytest.mark.parametrize("way", ["slide", "spare", "trim"])
    def test_whatever_is_chosen_breaks_no_rule_and_puts_no_two_new_things_on_a_day(
        self, begun: HomeYear, wren: Learner, way: str
    ) -> None:
        replans.bent_keep(begun, ways_of(begun, *WEEK)[way], reason="a bad week")

        now = home_year([wren], today=MONDAY_AFTER)
        assert check_year(now.family, now.plans) == ()
        placed = now.plans[0].placed
        days = [one.day for one in placed if one.lesson in NEW_METHODS]
        assert len(days) == len(set(days))
        assert not set(WEEK) & {one.day for one in placed}

    def test_undo_restores_the_old_plan_byte_for_byte_and_attendance_shows_five_days_until_then(
        self, begun: HomeYear, wren: Learner
    ) -> None:
        before = selectors.plan_version(wren).plan
        happened = [Happened(missed=WEEK)]
        replans.bent_keep(begun, replans.life_ways(begun, happened)[0], reason="a bad week", happened=happened)

        away = selectors.attendance_of(wren)
        replans.year_undo(wren, today=MONDAY_AFTER)

        assert away == dict.fromkeys(WEEK, False)
        assert selectors.attendance_of(wren) == {}
        assert selectors.plan_version(wren).plan == before
        with pytest.raises(NothingToUndo):
            replans.year_undo(wren, today=MONDAY_AFTER)

    def test_sheets_that_were_printed_before_stay_what_they_were(
        self, begun: HomeYear, wren: Learner, print_day: Callable[..., PrintRow]
    ) -> None:
        printed = print_day(wren, lesson="day-041", day=NINTH)
        sheet = selectors.sheet_find(begun.learners[0].household, "4C7Q2MX")
        before = (selectors.pages_of(sheet), selectors.spec_of(sheet))

        replans.bent_keep(begun, ways_of(begun, *WEEK)["spare"], reason="a bad week")

        again = selectors.sheet_find(begun.learners[0].household, "4C7Q2MX")
        assert (selectors.pages_of(again), selectors.spec_of(again)) == before
        assert selectors.sheets_unmarked(wren)[0].printed_id == printed.print_id

    def test_days_lost_count_in_the_familys_own_rate(self, begun: HomeYear, wren: Learner) -> None:
        replans.bent_keep(begun, ways_of(begun, *WEEK)["spare"], reason="a bad week")

        # nine weeks of five days have gone by, one of them was lost
        assert days_so_far(home_year([wren], today=MONDAY_AFTER)) == (5, 45)


class TestChanges:
    def test_a_weekday_switched_off_moves_its_lessons_and_undo_brings_all_children_back(
        self, wren: Learner, ivo: Learner
    ) -> None:
        home = home_year((wren, ivo), today=MONDAY_AFTER)
        later = replans.year_changed(home, lambda run: replace(run, calendar=replace(run.calendar, end=None)), (0, 1))
        assert later.bent is not None
        replans.bent_keep(home, later.bent, reason="no end")
        before = [selectors.plan_version(one).plan for one in (wren, ivo)]
        home = home_year((wren, ivo), today=MONDAY_AFTER)

        found = replans.year_changed(
            home, lambda run: replace(run, calendar=with_weekday(run.calendar, 4, 0)), home.places()
        )
        assert found.bent is not None
        changed = replans.bent_keep(home, found.bent, reason="no Fridays")

        assert {one.name for one in changed} == {"Wren", "Ivo"}
        for learner in (wren, ivo):
            days = [one.day for one in kept_year(learner).main.placed if one.day >= MONDAY_AFTER]
            assert {day.weekday() for day in days} <= {0, 1, 2, 3}
        told = last_change(ivo)
        assert told is not None
        assert (told.reason, told.children) == ("no Fridays", ("Ivo", "Wren"))
        assert {one.name for one in replans.year_undo(ivo, today=MONDAY_AFTER)} == {"Wren", "Ivo"}
        assert [selectors.plan_version(one).plan for one in (wren, ivo)] == before

    def test_days_off_and_a_half_day_change_few_dates_and_stand_in_the_months(
        self, begun: HomeYear, wren: Learner
    ) -> None:
        away = DaysOff(date(2026, 11, 23), date(2026, 11, 27), "Gran Sorrel")
        half = date(2026, 11, 6)

        def changed(run: CourseRun) -> CourseRun:
            return replace(run, calendar=with_half_day(with_off(run.calendar, away), half, 20))

        found = replans.year_changed(begun, changed, (0,))
        assert found.bent is not None
        replans.bent_keep(begun, found.bent, reason="Gran Sorrel")

        assert 0 < len(found.bent.moved) < 60
        november = next(month for month in months_of(kept_year(wren)) if month.first == date(2026, 11, 1))
        days = {day.day: day for week in november.weeks for day in week if day}
        assert [days[away.first + timedelta(days=n)].name for n in range(5)] == ["Gran Sorrel"] * 5
        assert days[half].half == 20

    def test_a_year_that_no_longer_fits_says_no_and_a_way_out_can_be_taken(self, begun: HomeYear) -> None:
        # 36 weeks of four days are 144 days (JOB 1.4)
        def four(run: CourseRun) -> CourseRun:
            end = START + timedelta(weeks=36, days=-1)
            return replace(run, calendar=replace(with_weekday(run.calendar, 4, 0), end=end))

        home = replace(begun, today=START)
        home = home_year(begun.learners, today=START)
        found = replans.year_changed(home, four, (0,))

        assert found.bent is None
        assert found.refusal is not None
        assert (found.refusal.needed, found.refusal.available) == (180, 144)
        taken = replans.way_taken(home, found.refusal, "shorten")
        assert taken is not None
        assert taken.bent is not None
        replans.bent_keep(home, taken.bent, reason="four days")
        placed = kept_year(begun.learners[0]).main.placed
        assert len({one.day for one in placed}) == 144
        assert replans.way_taken(home, found.refusal, "magic") is None

    def test_a_lesson_skipped_one_repeated_and_one_done_early_are_planned_on(
        self, begun: HomeYear, wren: Learner
    ) -> None:
        coming = [one for one in begun.plans[0].placed if one.day >= MONDAY_AFTER]
        early = Placed(coming[0].lesson, MONDAY_AFTER - timedelta(days=1))
        told = Happened(skip=(coming[3].lesson,), repeat=(coming[1].lesson,), done=(early,))

        replans.bent_keep(begun, replans.life_ways(begun, [told])[0], reason="as it went")

        plan = kept_year(wren).main
        assert coming[3].lesson not in plan.dates
        assert plan.dates[LessonId(coming[1].lesson + "~again")] > plan.dates[coming[1].lesson]
        assert plan.dates[early.lesson] == early.day

    def test_a_child_who_joins_moves_nobody_else_and_a_course_of_its_own_runs_beside(
        self, wren: Learner, ivo: Learner
    ) -> None:
        before = selectors.plan_version(wren).plan
        knots = with_chapters(PlanLesson(LessonId(f"k-{n}"), title=f"Knot {n}", minutes=20, led=5) for n in range(12))
        calendar = replace(kept_year(ivo).main.run.calendar, minutes={2: 20})

        run = CourseRun(LearnerId(ivo.id), CourseId("knots"), knots, calendar)
        assert replans.course_beside(ivo, run, today=MONDAY_AFTER, reason="knots") is None

        assert selectors.plan_version(wren).plan == before
        main, beside = kept_year(ivo).plans
        assert (main.run.course, len(beside.placed)) == (OURS, 12)
        assert {one.day.weekday() for one in beside.placed} == {2}
        replans.course_ended(ivo, "knots", today=MONDAY_AFTER, reason="no more knots")
        assert kept_year(ivo).plans == (main,)


class TestTheCalendar:
    def test_the_feed_is_the_same_bytes_until_a_plan_changes_and_then_updates_without_doubles(
        self, begun: HomeYear, wren: Learner
    ) -> None:
        home = begun.learners[0].household
        first = feeds.calendar_of(home, [wren])
        assert feeds.calendar_of(home, [wren]) == first

        replans.bent_keep(begun, ways_of(begun, *WEEK)["spare"], reason="a bad week")
        second = feeds.calendar_of(home, [wren])
        replans.year_undo(wren, today=MONDAY_AFTER)
        third = feeds.calendar_of(home, [wren])

        told = [events(one) for one in (first, second, third)]
        assert all(len(one) == 180 for one in told)
        assert set(told[0]) == set(told[1]) == set(told[2])
        for uid, (day, sequence) in told[1].items():
            # RFC 5545, 3.8.7.4: a changed event has a higher number, an unchanged one the same
            assert sequence == told[0][uid][1] + (day != told[0][uid][0])
            assert told[2][uid] == (told[0][uid][0], sequence + (day != told[0][uid][0]))
        assert len(list(vobject.readOne(second.decode()).vevent_list)) == 180

    def test_a_calendar_of_the_familys_own_gives_days_off_and_a_newer_one_takes_them_back(
        self, begun: HomeYear, wren: Learner
    ) -> None:
        outcome, times, problems = replans.busy_read(begun, busy_file("20261124", "20261126"))
        replans.busy_taken(outcome, times, name="boat.ics")
        assert problems == ()
        off = kept_year(wren).main.run.calendar.off
        assert off == (DaysOff(date(2026, 11, 24), date(2026, 11, 25), "Market"),)

        home = home_year([wren], today=MONDAY_AFTER)
        outcome, times, _ = replans.busy_read(home, busy_file("20261201", "20261202"))
        replans.busy_taken(outcome, times, name="boat.ics")

        plan = kept_year(wren).main
        assert plan.run.calendar.off == (DaysOff(date(2026, 12, 1), date(2026, 12, 1), "Market"),)
        assert {one.day for one in learning_days(plan.run.calendar)} >= {date(2026, 11, 24), date(2026, 11, 25)}


def events(content: bytes) -> dict[str, tuple[date, int]]:
    """Day and number of each event, as another library reads them."""
    calendar: Any = Calendar.from_ical(content)
    return {str(one["UID"]): (one["DTSTART"].dt, int(one["SEQUENCE"])) for one in calendar.walk("VEVENT")}


def busy_file(first: str, after: str) -> bytes:
    lines = (
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        "PRODID:-//Somebody//EN",
        "BEGIN:VEVENT",
        "UID:1",
        "DTSTAMP:20260101T000000Z",
        "SUMMARY:Market",
        f"DTSTART;VALUE=DATE:{first}",
        f"DTEND;VALUE=DATE:{after}",
        "END:VEVENT",
        "END:VCALENDAR",
        "",
    )
    return "\r\n".join(lines).encode()
