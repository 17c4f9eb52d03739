"""A family's own courses in a household's file: lessons in order, each with its kind, its minutes, its chapter."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING, cast, get_args

from dayleaf.core.ids import CourseId, LessonId
from dayleaf.course.model import DayKind, IfShort
from dayleaf.plan.lessons import AGAIN, PlanLesson, with_chapters

if TYPE_CHECKING:
    from collections.abc import Sequence

    from dayleaf.course.shape import Fields

MOST_LESSONS = 600
CHAPTER = 10
"""How many lessons of an outline without chapters make one (common practice, no source)."""


def read_courses(top: Fields) -> dict[CourseId, tuple[PlanLesson, ...]]:
    """The courses of `[[courses]]`, by id."""
    found: dict[CourseId, tuple[PlanLesson, ...]] = {}
    for row in top.tables("courses"):
        name = CourseId(row.text("id"))
        row.text("title", optional=True)
        minutes = row.whole("minutes", least=1) if row.has("minutes") else 40
        lessons = _counted(row, minutes=minutes) if row.has("count") else _listed(row, minutes=minutes)
        if name in found:
            row.problem("id", f"“{name}” stands twice; give each course a name of its own")
        if not lessons:
            row.problem("lessons", "is empty; list the lessons, or write count = 36")
        if len(lessons) > MOST_LESSONS:
            row.problem("lessons", f"are {len(lessons)}; a run has {MOST_LESSONS} at most")
        row.done()
        found[name] = with_chapters(lessons)
    return found


def _counted(row: Fields, *, minutes: int) -> list[PlanLesson]:
    count = row.whole("count", least=1)
    if row.has("lessons"):
        row.raw("lessons")
        row.problem("count", "stands beside lessons; keep one of the two")
    return [
        PlanLesson(
            id=LessonId(f"lesson-{n:03}"),
            minutes=minutes,
            chapter=(n - 1) // CHAPTER + 1,
            title=f"Lesson {n}",
            led=(minutes + 1) // 2,
        )
        for n in range(1, min(count, MOST_LESSONS + 1) + 1)
    ]


def _listed(row: Fields, *, minutes: int) -> list[PlanLesson]:
    rows = row.tables("lessons")
    chapters = any(each.has("chapter") for each in rows)
    found: list[PlanLesson] = []
    for n, each in enumerate(rows):
        usual = (found[-1].chapter if found else 1) if chapters else n // CHAPTER + 1
        found.append(_lesson(each, minutes=minutes, chapter=usual))
        each.done()
    _check(found, rows)
    return found


def _lesson(row: Fields, *, minutes: int, chapter: int) -> PlanLesson:
    return PlanLesson(
        id=LessonId(row.text("id")),
        title=row.text("title", optional=True),
        kind=cast("DayKind", row.choice("kind", get_args(DayKind), optional="lesson")),
        minutes=row.whole("minutes", least=1) if row.has("minutes") else minutes,
        chapter=row.whole("chapter") if row.has("chapter") else chapter,
        opens=row.has("opens") and row.flag("opens"),
        if_short=cast("IfShort", row.choice("if_short", get_args(IfShort), optional="keep")),
        log_for=LessonId(row.text("log_for", optional=True)) or None,
        log_days=row.whole("log_days", optional=True),
        materials=row.texts("materials", optional=True),
        led=_led(row, row.whole("minutes", optional=True) or minutes),
    )


def _led(row: Fields, minutes: int) -> int:
    """Minutes with an adult: as written, or half of the lesson."""
    if not row.has("led"):
        return (minutes + 1) // 2
    led = row.whole("led")
    if led > minutes:
        row.problem("led", f"is {led}, more than the {minutes} minutes of the lesson")
    return led


def _check(lessons: Sequence[PlanLesson], rows: Sequence[Fields]) -> None:
    """What is wrong with the lessons of one course among themselves."""
    place = {one.id: n for n, one in reversed(list(enumerate(lessons)))}
    for n, (one, row) in enumerate(zip(lessons, rows, strict=True)):
        if one.id and place[one.id] != n:
            row.problem("id", f"“{one.id}” stands twice; each lesson needs an id of its own")
        if one.id.endswith(AGAIN):
            row.problem("id", f"“{one.id}” ends with {AGAIN}, which marks a lesson given twice; choose another id")
        if n and lessons[n - 1].chapter > one.chapter:
            row.problem("chapter", f"is {one.chapter} after {lessons[n - 1].chapter}; chapters come in order")
        if one.if_short == "join-next" and one.kind == "test":
            row.problem(
                "if_short", "is join-next, but nothing comes after a test on its day; mark its look back instead"
            )
        elif one.may_join and n == len(lessons) - 1:
            row.problem("if_short", "is join-next, but no lesson comes after it")
    _check_logs(lessons, rows, place)


def _check_logs(lessons: Sequence[PlanLesson], rows: Sequence[Fields], place: dict[LessonId, int]) -> None:
    ends: list[tuple[int, int]] = []
    for n, (one, row) in enumerate(zip(lessons, rows, strict=True)):
        if one.log_for is None:
            if one.log_days:
                row.problem("log_days", "stands without log_for; name the project that the log is for")
            continue
        ends.append((n, place.get(one.log_for, n)))
        if ends[-1][1] <= n:
            row.problem("log_for", f"“{one.log_for}” is no later lesson of this course")
        if one.may_go:
            row.problem("if_short", "is drop, but a project's log begins here; write keep")
    for (_, end), (begin, _) in pairwise(ends):
        if begin < end:
            rows[begin].problem("log_for", "begins before the log before it has reached its project; one at a time")
