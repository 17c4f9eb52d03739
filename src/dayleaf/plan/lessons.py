"""A course as the planner sees it: lessons in order, each with its kind, its minutes and what may be done with it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache
from typing import TYPE_CHECKING

from dayleaf.core.ids import LessonId
from dayleaf.course.load import grade2

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Mapping, Sequence

    from dayleaf.core.ids import CourseId
    from dayleaf.course.model import Course, Day, DayKind, IfShort

AGAIN = "~again"
"""What the id of a lesson ends with when it is given a second time."""


@dataclass(frozen=True, slots=True)
class PlanLesson:
    """One lesson. `opens` marks the first of a chapter.

    `if_short` says what may be done with it when days are short. `log_for` names a later project whose log
    begins here; the project comes `log_days` calendar days later or more. `materials` are what it needs,
    `led` its minutes with an adult.
    """

    id: LessonId
    kind: DayKind = "lesson"
    minutes: int = 40
    chapter: int = 1
    opens: bool = False
    if_short: IfShort = "keep"
    log_for: LessonId | None = None
    log_days: int = 0
    materials: tuple[str, ...] = ()
    title: str = ""
    led: int = 0

    @property
    def may_join(self) -> bool:
        """Whether it may share a day with the lesson after it."""
        return self.if_short == "join-next"

    @property
    def may_go(self) -> bool:
        """Whether it may be left out."""
        return self.if_short == "drop"


@cache
def our_courses() -> Mapping[CourseId, tuple[PlanLesson, ...]]:
    """The courses that Dayleaf brings, as the planner sees them."""
    course = grade2()
    return {course.id: lessons_of(course)}


def taught_by(lesson: LessonId) -> LessonId:
    """The lesson of the course that is given: itself, or the one that it gives again."""
    return LessonId(lesson.removesuffix(AGAIN))


def lessons_of(course: Course) -> tuple[PlanLesson, ...]:
    """The lessons of a course. A small task that begins *For TITLE:* belongs to the log of the next project."""
    logs = dict(_logs(course.days))
    return with_chapters(
        PlanLesson(
            id=day.id,
            kind=day.kind,
            minutes=day.parent_minutes + day.child_minutes,
            chapter=day.chapter,
            if_short=day.if_short,
            log_for=logs.get(day.id, (None, 0))[0],
            log_days=logs.get(day.id, (None, 0))[1],
            materials=day.materials,
            title=day.title,
            led=day.parent_minutes,
        )
        for day in course.days
    )


def with_chapters(lessons: Iterable[PlanLesson]) -> tuple[PlanLesson, ...]:
    """The same lessons with the first of each chapter marked; one that is marked already stays so."""
    found = tuple(lessons)
    before = (None, *(one.chapter for one in found))
    return tuple(replace(one, opens=one.opens or one.chapter != left) for one, left in zip(found, before, strict=False))


def changed(
    lessons: Iterable[PlanLesson], *, skip: Collection[LessonId] = (), repeat: Collection[LessonId] = ()
) -> tuple[PlanLesson, ...]:
    """The lessons with some skipped and some given twice, the second time right after the first."""
    found = tuple(lessons)
    if not skip and not repeat:
        return found
    out: list[PlanLesson] = []
    for one in found:
        if one.id not in skip:
            out.append(one)
        if one.id in repeat:
            out.append(again(one))
    begins = out[:1] and out[0].opens
    marked = with_chapters(out)
    return (replace(marked[0], opens=bool(begins)), *marked[1:]) if marked else ()


def again(lesson: PlanLesson) -> PlanLesson:
    """The lesson a second time, under an id of its own; it opens no chapter and may be left out."""
    return replace(lesson, id=LessonId(lesson.id + AGAIN), opens=False, if_short="drop", log_for=None, log_days=0)


def _logs(days: Sequence[Day]) -> Iterable[tuple[LessonId, tuple[LessonId, int]]]:
    """Where each project's log begins, and on how many days something is noted."""
    for place, project in enumerate(days):
        if project.kind != "project":
            continue
        name = project.title.removeprefix("Project: ")
        noted = [day.id for day in days[:place] if day.small_task.startswith(f"For {name}:")]
        if noted:
            yield noted[0], (project.id, len(noted))
