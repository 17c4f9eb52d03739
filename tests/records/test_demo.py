"""The demo household stands on the scenario of JOB (d): Wren (7) and Ivo (9) at lessons, Bean (2) no learner."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from dayleaf.core.ids import SkillId
from dayleaf.course.load import grade2
from dayleaf.events.model import Marked
from dayleaf.plan.calendar import learning_days
from dayleaf.records import selectors
from dayleaf.records.beliefs import year_plan
from dayleaf.records.demo import HouseholdIsThere, demo_household
from dayleaf.records.home import open_home

pytestmark = pytest.mark.usefixtures("home")

MONDAY = date(2027, 1, 11)
WEEK = [MONDAY + timedelta(days=n) for n in range(7)]


@pytest.mark.parametrize("today", [*WEEK, date(2028, 2, 29), date(2026, 12, 31)])
def test_any_day_is_a_day_of_regrouping_for_wren_and_of_a_lesson_for_ivo(today: date) -> None:
    household = demo_household(today=today)

    wren, ivo = selectors.learners(household)
    lessons = {day.id: day for day in grade2().days}
    (wrens,) = year_plan(wren).lessons_on(today)
    (ivos,) = year_plan(ivo).lessons_on(today)
    assert (wren.name, ivo.name) == ("Wren", "Ivo")
    assert SkillId("sub-2digit-regroup") in lessons[wrens].new_skills
    assert lessons[wrens].second_sheet
    assert wren.sheets_per_day != "one"
    assert ivo.sheets_per_day == "one"
    assert lessons[ivos].kind == "lesson"
    assert household.younger_child


def test_wren_is_seven_and_ivo_nine() -> None:
    for learner, age in zip(selectors.learners(demo_household(today=MONDAY)), (7, 9), strict=True):
        assert learner.born is not None
        had_birthday = (MONDAY.month, MONDAY.day) >= (learner.born.month, learner.born.day)
        assert MONDAY.year - learner.born.year - (not had_birthday) == age


def test_nothing_happened_on_days_off_or_from_today_on() -> None:
    for learner in selectors.learners(demo_household(today=MONDAY)):
        learning = {one.day for one in learning_days(year_plan(learner).calendar)}
        events = selectors.events_of(learner)

        assert events
        assert {event.head.day for event in events} <= learning
        assert max(event.head.day for event in events) < MONDAY


def test_some_answers_of_the_past_weeks_were_wrong() -> None:
    wren = selectors.learners(demo_household(today=MONDAY))[0]

    marks = [mark for event in selectors.events_of(wren, Marked) if isinstance(event, Marked) for mark in event.items]

    right = sum(mark.state == "right" for mark in marks)
    assert len(marks) > 300
    assert 0.8 < right / len(marks) < 0.98


def test_the_same_day_gives_the_same_household(tmp_path_factory: pytest.TempPathFactory) -> None:
    first = selectors.events_of_household(demo_household(today=MONDAY))
    open_home(tmp_path_factory.mktemp("other") / "home")

    assert selectors.events_of_household(demo_household(today=MONDAY)) == first


def test_a_demo_never_mixes_with_a_household() -> None:
    household = demo_household(today=MONDAY)

    with pytest.raises(HouseholdIsThere, match="Wherrow"):
        demo_household(today=MONDAY)

    assert [learner.name for learner in selectors.learners(household)] == ["Wren", "Ivo"]
