"""The demo household stands on the scenario of JOB (d): Wren (7) and Ivo (9) at lessons, Bean (2) no learner."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import TYPE_CHECKING

import pytest

from dayleaf.core.ids import EventId, SkillId
from dayleaf.course.load import grade2
from dayleaf.events.model import Marked
from dayleaf.plan.calendar import learning_days
from dayleaf.records import selectors
from dayleaf.records.beliefs import year_plan
from dayleaf.records.demo import CHILDREN, HouseholdIsThere, demo_household, plan_for
from dayleaf.records.home import open_home
from dayleaf.records.models import PrintRow

if TYPE_CHECKING:
    from dayleaf.events.model import Event

pytestmark = pytest.mark.usefixtures("home")

MONDAY = date(2027, 1, 11)
WEEK = [MONDAY + timedelta(days=n) for n in range(7)]


@pytest.mark.parametrize("today", [*WEEK, date(2028, 2, 29), date(2026, 12, 31)])
def test_any_day_is_a_day_of_regrouping_for_wren_and_of_a_lesson_for_ivo(today: date) -> None:
    course = grade2()
    lessons = {day.id: day for day in course.days}

    wrens, ivos = (lessons[plan_for(course, child, today=today).lessons_on(today)[0]] for child in CHILDREN)

    assert [child.name for child in CHILDREN] == ["Wren", "Ivo"]
    assert SkillId("sub-2digit-regroup") in wrens.new_skills
    assert wrens.second_sheet
    assert ivos.kind == "lesson"


def test_wren_has_two_sheets_a_day_and_ivo_one() -> None:
    household = demo_household(today=MONDAY)

    wren, ivo = selectors.learners(household)
    yesterday = [sheet.lesson for sheet in selectors.sheets_of(wren)]
    assert wren.sheets_per_day == "as the course says"
    assert ivo.sheets_per_day == "one"
    assert len(yesterday) == 2
    assert len(selectors.sheets_of(ivo)) == 1
    assert selectors.sheets_unmarked(wren) == ()
    assert len(selectors.sheets_unmarked(ivo)) == 1
    assert household.younger_child


def test_wren_is_seven_and_ivo_nine() -> None:
    for learner, age in zip(selectors.learners(demo_household(today=MONDAY)), (7, 9), strict=True):
        assert learner.born is not None
        had_birthday = (MONDAY.month, MONDAY.day) >= (learner.born.month, learner.born.day)
        assert MONDAY.year - learner.born.year - (not had_birthday) == age


def test_nothing_happened_on_days_off_or_from_today_on() -> None:
    for learner in selectors.learners(demo_household(today=MONDAY)):
        learning = {one.day for one in learning_days(year_plan(learner).run.calendar)}
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
    papers = [bytes(row.pages) for row in PrintRow.objects.order_by("lesson")]
    open_home(tmp_path_factory.mktemp("other") / "home")
    second = selectors.events_of_household(demo_household(today=MONDAY))

    assert [without_id(event) for event in second] == [without_id(event) for event in first]
    assert [bytes(row.pages) for row in PrintRow.objects.order_by("lesson")] == papers


def without_id(event: Event) -> Event:
    """Ids are made anew on every device; everything else is the demo's."""
    return replace(event, head=replace(event.head, id=EventId("")))


def test_a_demo_never_mixes_with_a_household() -> None:
    household = demo_household(today=MONDAY)

    with pytest.raises(HouseholdIsThere, match="Wherrow"):
        demo_household(today=MONDAY)

    assert [learner.name for learner in selectors.learners(household)] == ["Wren", "Ivo"]
