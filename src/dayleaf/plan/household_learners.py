"""The learners of a household's file: which course from which lesson, from when on, on which weekdays, what is done."""

from __future__ import annotations

import difflib
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from dayleaf.core.ids import CourseId, LearnerId, LessonId
from dayleaf.plan.household_calendar import read_weekdays
from dayleaf.plan.lessons import changed
from dayleaf.plan.run import CourseRun
from dayleaf.plan.year import Placed

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from dayleaf.course.shape import Fields
    from dayleaf.plan.calendar import LearningCalendar
    from dayleaf.plan.lessons import PlanLesson

OLDEST = 120
OURS = CourseId("grade2")


@dataclass(frozen=True, slots=True)
class Child:
    """One child of the household with its runs; `blocks` are the morning's tables, unread."""

    id: LearnerId
    name: str
    age: int
    runs: tuple[CourseRun, ...]
    blocks: Any = None


def read_learners(
    top: Fields, *, calendar: LearningCalendar, courses: Mapping[CourseId, tuple[PlanLesson, ...]]
) -> tuple[Child, ...]:
    """The children of `[[learners]]`, in the order of the file."""
    rows = top.tables("learners")
    if not rows:
        top.problem("learners", "is missing; begin each child with [[learners]]")
    found: list[Child] = []
    for row in rows:
        name = row.text("name", optional=row.has("id"))
        child = LearnerId(row.text("id", optional=True) or name)
        if child in {one.id for one in found}:
            row.problem("id" if row.has("id") else "name", f"“{child}” stands twice; give each child an id")
        age = row.whole("age", optional=True)
        if age > OLDEST:
            row.problem("age", f"is {age}; write the age in years")
        weekdays = read_weekdays(row.table("weekdays")) if row.has("weekdays") else dict(calendar.minutes)
        own = replace(calendar, minutes=weekdays, missed=(*calendar.missed, *row.days("missed")))
        parts = row.tables("runs")
        runs = [_run(part, child=child, calendar=own, courses=courses) for part in parts] if parts else []
        if not parts:
            runs = [_run(row, child=child, calendar=own, courses=courses)]
        for part in parts:
            part.done()
        blocks = row.raw("blocks") if row.has("blocks") else None
        row.done()
        found.append(Child(id=child, name=name or child, age=age, runs=tuple(runs), blocks=blocks))
    return tuple(found)


def _run(
    row: Fields,
    *,
    child: LearnerId,
    calendar: LearningCalendar,
    courses: Mapping[CourseId, tuple[PlanLesson, ...]],
) -> CourseRun:
    name = CourseId(row.text("course", optional=True)) or OURS
    lessons = courses.get(name, ())
    if name not in courses:
        close = difflib.get_close_matches(name, courses, n=1)
        meant = f"did you mean “{close[0]}”" if close else "the courses are " + ", ".join(sorted(courses))
        row.problem("course", f"there is no course “{name}”; {meant}")
    begin = row.day("from", optional=True)
    until = row.day("until", optional=True)
    end = min((day for day in (until, calendar.end) if day is not None), default=None)
    start = max(calendar.start, begin) if begin else calendar.start
    if end is not None and end < start and (until or begin):
        row.problem("until" if until else "from", f"leaves no time: it would run from {start} to {end}")
    lessons = _from_to(row, lessons)
    done = _done(row, lessons, courses.get(name, ()))
    firm = _firm(row, lessons)
    lessons = _changed(row, lessons, done)
    return CourseRun(
        learner=child,
        course=name,
        lessons=lessons,
        calendar=replace(calendar, start=start, end=end),
        done=done,
        firm=firm,
        wished_end=row.day("wished_end", optional=True),
        may_join=row.has("may_join") and row.flag("may_join"),
        may_leave_out=row.has("may_leave_out") and row.flag("may_leave_out"),
    )


def _from_to(row: Fields, lessons: tuple[PlanLesson, ...]) -> tuple[PlanLesson, ...]:
    ids = [one.id for one in lessons]
    first = _lesson_named(row, "first_lesson", ids)
    last = _lesson_named(row, "last_lesson", ids)
    low = 0 if first is None else first
    high = len(ids) if last is None else last + 1
    if lessons and low >= high:
        row.problem("last_lesson", "comes before the first lesson")
        return lessons
    return lessons[low:high]


def _lesson_named(row: Fields, field: str, ids: Sequence[LessonId]) -> int | None:
    name = LessonId(row.text(field, optional=True))
    if not name or not ids:
        return None
    if name not in ids:
        row.problem(field, f"“{name}” is no lesson of this course; {_close(name, ids)}")
        return None
    return ids.index(name)


def _done(row: Fields, lessons: Sequence[PlanLesson], whole: Sequence[PlanLesson]) -> tuple[Placed, ...]:
    """What was done, in the order of the course; the dates are kept as they are, in whatever order they came."""
    order = {one.id: n for n, one in enumerate(lessons)}
    found: dict[LessonId, Placed] = {}
    for part in row.tables("done"):
        name, day = LessonId(part.text("lesson")), part.day("date")
        if name and whole and name not in order:
            part.problem("lesson", f"“{name}” is no lesson of this run; {_close(name, list(order))}")
        elif name in found:
            part.problem("lesson", f"“{name}” stands twice; keep the day on which it was done")
        elif name and day is not None:
            found[name] = Placed(lesson=name, day=day)
        part.done()
    return tuple(sorted(found.values(), key=lambda one: order.get(one.lesson, 0)))


def _changed(row: Fields, lessons: tuple[PlanLesson, ...], done: tuple[Placed, ...]) -> tuple[PlanLesson, ...]:
    """The lessons with those skipped gone and those repeated standing twice."""
    ids = [one.id for one in lessons]
    skip = frozenset(LessonId(name) for name in row.texts("skip", optional=True))
    twice = frozenset(LessonId(name) for name in row.texts("repeat", optional=True))
    finished = {one.lesson for one in done}
    for field, names in (("skip", skip), ("repeat", twice)):
        for name in sorted(names - set(ids)) if ids else ():
            row.problem(field, f"“{name}” is no lesson of this run; {_close(name, ids)}")
    for name in sorted(skip & finished):
        row.problem("skip", f"“{name}” was done already")
    return changed(lessons, skip=skip, repeat=twice)


def _firm(row: Fields, lessons: Sequence[PlanLesson]) -> tuple[LessonId, ...]:
    ids = [one.id for one in lessons]
    named = row.texts("firm", optional=True)
    for name in (name for name in named if ids and name not in ids):
        row.problem("firm", f"“{name}” is no lesson of this run; {_close(name, ids)}")
    return tuple(one for one in ids if one in named)


def _close(name: str, ids: Sequence[str]) -> str:
    close = difflib.get_close_matches(name, ids, n=1)
    return f"did you mean “{close[0]}”" if close else f"they run from {ids[0]} to {ids[-1]}" if ids else "it has none"
