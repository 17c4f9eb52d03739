"""The courses of a household: ours, and those made of a family's own outlines."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import lru_cache
from typing import TYPE_CHECKING, Final

from django.db import transaction

from dayleaf.core.errors import BadInput, DayleafError, Problem
from dayleaf.core.ids import CourseId, LearnerId, LessonId
from dayleaf.course.load import grade2
from dayleaf.course.outline_codec import outline_from_json
from dayleaf.course.outline_course import course_id, course_of_outline
from dayleaf.items.built import is_built
from dayleaf.plan.calendar import LearningCalendar
from dayleaf.plan.codec import to_json
from dayleaf.plan.kept import KeptYear
from dayleaf.plan.lessons import lessons_of, taught_by
from dayleaf.plan.path import Stuck, cheapest_run
from dayleaf.plan.run import CourseRun
from dayleaf.plan.wishes import Rules, Wishes
from dayleaf.records import services
from dayleaf.records.models import CourseRow
from dayleaf.records.plans import kept_year_or_none

if TYPE_CHECKING:
    from datetime import date

    from dayleaf.core.ids import SkillId
    from dayleaf.course.model import Course
    from dayleaf.plan.run import RunPlan
    from dayleaf.records.models import Household, Learner

OURS: Final = CourseId("grade2")
MINUTES: Final = 45
WEEKDAYS: Final = (0, 1, 2, 3)
"""Monday to Thursday, where a child has no plan yet whose days could be taken."""
_LESSON: Final = re.compile(r"(.+)-\d{3}")


class NoSuchCourse(DayleafError):
    """The household has no course of that name."""

    def __init__(self, name: str) -> None:
        super().__init__(f"There is no course called {name} here; `dayleaf outline` lists those there are.")


class CourseDoesNotFit(DayleafError):
    """A course has more days than the child's calendar; nothing was planned."""

    def __init__(self, title: str, days: int) -> None:
        super().__init__(f"The {days} days of “{title}” do not fit into these learning days; name more weekdays.")


@transaction.atomic
def course_keep(*, household: Household, title: str, outline: str) -> Course:
    """Keep an outline, a document of docs/outline-format.md, as a course of this household's own.

    Raises:
        BadInput: with every skill that is none of ours, or where there is no lesson or no title.
    """
    title = title.strip()
    read = outline_from_json(outline)
    ours = grade2()
    problems = [
        Problem(f"line {line.line}: chosen", f"“{skill}” is no skill; `dayleaf items --list` names them all")
        for line in read.lines
        for skill in line.skills
        if skill not in ours.skills
    ]
    if not title:
        problems.append(Problem("title", "is empty; say what you call this course"))
    if not read.lines:
        problems.append(Problem("lines", "there is no lesson; write one line for each"))
    if problems:
        raise BadInput(problems)
    taken = list(household.courses.values_list("course", flat=True))
    row = CourseRow.objects.create(
        household=household, course=course_id(title, [*taken, OURS, "day"]), title=title[:80], outline=outline
    )
    return _course(row.course, row.title, row.outline)


def courses_of(household: Household) -> tuple[Course, ...]:
    """The household's own courses, in the order in which they came."""
    return tuple(_course(row.course, row.title, row.outline) for row in household.courses.all())


def course_called(household: Household, name: str) -> Course:
    """Our course, or the household's own of that name. Raises `NoSuchCourse`."""
    if name == OURS:
        return grade2()
    row = household.courses.filter(course=name).first()
    if row is None:
        raise NoSuchCourse(name)
    return _course(row.course, row.title, row.outline)


def course_of(learner: Learner) -> Course:
    """The course with pages that a child is on: that of the plan in force, or the one chosen for the child."""
    year = kept_year_or_none(learner)
    return course_called(learner.household, learner.course if year is None else year.main.run.course)


def course_with(household: Household, lesson: str) -> Course:
    """The course that a lesson's name belongs to; ours for a name that none of the household's courses has."""
    found = _LESSON.fullmatch(taught_by(LessonId(lesson)))
    if found is None or found[1] == "day":
        return grade2()
    row = household.courses.filter(course=found[1]).first()
    return grade2() if row is None else _course(row.course, row.title, row.outline)


def with_all_materials(household: Household) -> Course:
    """Our course with the materials of the household's own courses too, for lists over all children."""
    own = {name: one for course in courses_of(household) for name, one in course.materials.items()}
    return replace(grade2(), materials={**grade2().materials, **own}) if own else grade2()


@transaction.atomic
def course_plan(
    *, learner: Learner, course: Course, start: date, today: date, minutes: dict[int, int] | None
) -> RunPlan:
    """Lay a course over a child's days from `start` on, as the plan in force; the plan before it can be had back.

    `minutes` are the learning days by weekday (Monday 0); left out, those of the child's plan, or four days a week.
    Where it does not fit by the family's end, it goes on after that; the plan's last day says so.

    Raises:
        CourseDoesNotFit: there are more days than the calendar has.
    """
    before = kept_year_or_none(learner)
    known = before.main.run.calendar if before else None
    calendar = LearningCalendar(start=start, minutes=minutes or dict.fromkeys(WEEKDAYS, MINUTES))
    if known is not None:
        ends = known.end if known.end and known.end > start else None
        calendar = replace(known, start=start, end=ends, minutes=minutes or known.minutes)
    run = CourseRun(
        learner=LearnerId(learner.id),
        course=course.id,
        lessons=lessons_of(course),
        calendar=calendar,
    )
    rules, wishes = (before.rules, before.wishes) if before else (Rules(), Wishes())
    found = cheapest_run(run, rules=rules, wishes=wishes)
    if isinstance(found, Stuck) and calendar.end is not None:
        found = cheapest_run(replace(run, calendar=replace(calendar, end=None)), rules=rules, wishes=wishes)
    if isinstance(found, Stuck):
        raise CourseDoesNotFit(course.title, len(course.days))
    year = replace(before, plans=(found,)) if before else KeptYear((found,))
    learner.course = course.id
    learner.save(update_fields=["course"])
    services.plan_set(learner=learner, plan=to_json(year), reason=f"the course {course.title}"[:200], day=today)
    return found


@lru_cache(maxsize=8)
def _course(name: str, title: str, outline: str) -> Course:
    """A course made of its outline once; a skill without printed items stays off its days."""
    course = course_of_outline(grade2(), outline_from_json(outline), id=CourseId(name), title=title)
    return replace(
        course,
        days=tuple(
            replace(day, front_skills=_printed(day.front_skills), new_skills=_printed(day.new_skills))
            for day in course.days
        ),
    )


def _printed(skills: tuple[SkillId, ...]) -> tuple[SkillId, ...]:
    acted = {name for name, one in grade2().formats.items() if one.acted_out}
    return tuple(one for one in skills if is_built(one) and set(grade2().skills[one].formats) - acted)
