"""A household's week: its lessons, its mornings, and what to get ready."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING, Final

from dayleaf.core.ids import LearnerId
from dayleaf.course.load import grade2
from dayleaf.plan.morning import plan_morning
from dayleaf.plan.morning_file import LESSON_WORTH, busy_appointments, stamina_at
from dayleaf.plan.morning_model import Block, MorningNeeds, Phase
from dayleaf.plan.week import WeekLesson, at_hand_before, prepare_week, week_around
from dayleaf.records import selectors
from dayleaf.records.beliefs import year_plan
from dayleaf.records.busy_times import busy_times
from dayleaf.records.coming import lesson_named
from dayleaf.records.courses import with_all_materials
from dayleaf.records.paper import child_of
from dayleaf.records.plans import kept_year_or_none

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from dayleaf.course.model import Day
    from dayleaf.plan.morning_model import MorningPlan
    from dayleaf.plan.week import Week
    from dayleaf.records.models import Household, Learner

FAR: Final = timedelta(days=800)
"""Farther from today than any plan reaches."""


def week_of(learners: Sequence[Learner], *, today: date, on: date | None = None) -> Week:
    """The week that holds the day `on` (left out: today, or the week to come where this one is over)."""
    course = with_all_materials(learners[0].household) if learners else grade2()
    lessons = lessons_between(learners, today - FAR, today + FAR)
    begins = learners[0].household.week_start if learners else 0
    days = {one.day for one in lessons} if on is None else set()
    first, last = week_around(on or today, lesson_days=days, first_weekday=begins)
    inside = [one for one in lessons if first <= one.day <= last]
    there = selectors.lessons_printed(learners)
    printed = {(one.learner, one.lesson.id) for one in inside if (one.learner, one.lesson.id) in there}
    return prepare_week(
        course,
        inside,
        first=first,
        last=last,
        today=today,
        at_hand=at_hand_before((one.lesson for one in lessons if one.day < first), course.materials),
        printed=printed,
        sheets={(one.learner, one.lesson.id): _sheets(learner_of(learners, one), one.lesson) for one in inside},
    )


def mornings_of(household: Household, learners: Sequence[Learner], week: Week) -> dict[date, MorningPlan]:
    """Every day of the week laid out, with pauses by the children's ages and the household's start of the morning."""
    return {day: plan_morning(morning_needs(household, learners, week.lessons, day)) for day in week.days}


def morning_needs(
    household: Household, learners: Sequence[Learner], lessons: Iterable[WeekLesson], day: date
) -> MorningNeeds:
    """What a date asks of its morning: these lessons, those of courses beside ours, busy times, pauses by age."""
    blocks = []
    for one in lessons:
        parts = (Phase("led", one.lesson.parent_minutes), Phase("alone", one.lesson.child_minutes))
        phases = tuple(part for part in parts if part.minutes)
        if one.day == day and phases:
            name = f"{one.learner}/{one.lesson.id}"
            blocks.append(Block(name, one.learner, one.lesson.title, phases, worth=LESSON_WORTH))
    blocks += [block for learner in learners for block in _beside(learner, day)]
    ages = {LearnerId(learner.id): _age(learner, day) for learner in learners}
    stamina = {child: stamina_at(age) for child, age in ages.items()}
    start = household.morning_start
    taken = () if start is None else busy_appointments(busy_times(household, day), day, start)
    return MorningNeeds(tuple(blocks), stamina, appointments=taken, start=start)


def _beside(learner: Learner, day: date) -> Iterator[Block]:
    """The lessons of a date of a child's courses beside that with pages."""
    year = kept_year_or_none(learner)
    for plan in year.plans[1:] if year else ():
        lessons = {one.id: one for one in plan.run.lessons}
        for lesson in (lessons[one.lesson] for one in plan.placed if one.day == day):
            parts = (Phase("led", lesson.led), Phase("alone", lesson.minutes - lesson.led))
            name = f"{learner.id}/{plan.run.course}/{lesson.id}"
            phases = tuple(part for part in parts if part.minutes)
            yield Block(name, LearnerId(learner.id), lesson.title or lesson.id, phases, worth=LESSON_WORTH)


def lessons_between(learners: Iterable[Learner], first: date, last: date) -> tuple[WeekLesson, ...]:
    """The children's planned lessons from `first` to `last`, by day and then in the children's order."""
    planned = [
        WeekLesson(LearnerId(learner.id), placed.day, lesson_named(placed.lesson))
        for learner in learners
        if selectors.plan_version_or_none(learner) is not None
        for placed in year_plan(learner).placed
        if first <= placed.day <= last
    ]
    return tuple(sorted(planned, key=lambda one: one.day))


def learner_of(learners: Iterable[Learner], one: WeekLesson) -> Learner:
    """The child whose lesson it is."""
    return next(learner for learner in learners if learner.id == one.learner)


def _sheets(learner: Learner, lesson: Day) -> int:
    """How many sheets a lesson has for this child."""
    two = child_of(learner).two_sheets
    return 2 if lesson.kind == "lesson" and (lesson.second_sheet if two is None else two) else 1


def _age(learner: Learner, day: date) -> int | None:
    """Full years, reckoned from the month of birth."""
    born = learner.born
    return None if born is None else day.year - born.year - ((day.month, day.day) < (born.month, born.day))
