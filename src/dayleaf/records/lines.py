"""What a family adds to a course and keeps for the next child: notes on days, and own lines for Open and Close."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final, Literal

from django.db import transaction

from dayleaf.core.errors import BadInput, Problem
from dayleaf.core.ids import LessonId
from dayleaf.events.codec import from_data
from dayleaf.events.model import Noted
from dayleaf.records import services
from dayleaf.records.coming import lesson_named
from dayleaf.records.courses import course_called, course_with
from dayleaf.records.models import FamilyLineRow
from dayleaf.sheets.fonts import unprintable

if TYPE_CHECKING:
    from datetime import date

    from dayleaf.course.model import Course
    from dayleaf.records.models import Household

Part = Literal["open", "close"]
PARTS: Final[tuple[Part, ...]] = ("open", "close")
LONGEST: Final = 400
SET: Final = "dayleaf notes"
"""What a file of notes says it is."""


@dataclass(frozen=True, slots=True)
class Note:
    """A person's own words on a lesson, and the day on which they were written."""

    lesson: LessonId
    text: str
    day: date


@dataclass(frozen=True, slots=True)
class FamilyLine:
    """A line of the family's for Open or Close of one lesson, or of every lesson of a chapter (`lesson` is "")."""

    course: str
    lesson: str
    chapter: int
    part: Part
    text: str


def notes_of(household: Household, lesson: str | None = None) -> tuple[Note, ...]:
    """The notes on a lesson, whichever child it was then, or all that name a lesson; the oldest first."""
    rows = household.events.filter(kind="noted").exclude(lesson="")
    if lesson is not None:
        rows = rows.filter(lesson=lesson)
    found = (from_data(json.loads(row.payload)) for row in rows.order_by("seq"))
    return tuple(
        Note(event.lesson, event.text, event.head.day) for event in found if isinstance(event, Noted) and event.lesson
    )


def lines_of(household: Household) -> tuple[FamilyLine, ...]:
    """All lines of the family, by course, chapter and lesson."""
    return tuple(_line(row) for row in household.lines.all())


@transaction.atomic
def line_set(
    *, household: Household, text: str, part: str, lesson: str = "", chapter: int = 0, course: str = "grade2"
) -> FamilyLine | None:
    """Keep a line for a lesson or for a chapter of a course; it replaces the one there, and no words take it away.

    Raises:
        BadInput: the place is none, or the words are too long or have signs that our typefaces lack.
        NoSuchLesson, NoSuchCourse: there is no such lesson or course.
    """
    text = " ".join(text.split())
    problems = [*_place_problems(lesson, chapter, part), *_text_problems("line", text)]
    if problems:
        raise BadInput(problems)
    whole = course_with(household, lesson_named(lesson).id) if lesson else course_called(household, course)
    if chapter and not any(one.number == chapter for one in whole.chapters):
        message = f"{whole.title} has no chapter {chapter}; they run from 1 to {len(whole.chapters)}"
        raise BadInput([Problem("chapter", message)])
    named = lesson_named(lesson).id if lesson else ""
    place: dict[str, Any] = {"course": whole.id, "lesson": named, "chapter": chapter, "part": part}
    if not text:
        FamilyLineRow.objects.filter(household=household, **place).delete()
        return None
    row, _new = FamilyLineRow.objects.update_or_create(household=household, **place, defaults={"text": text})
    return _line(row)


@transaction.atomic
def note_keep(*, household: Household, lesson: str, text: str, day: date) -> Note:
    """Keep a note on a lesson. Raises `NoSuchLesson`, and `BadInput` where there are no words."""
    named = lesson_named(lesson).id
    services.note_add(household=household, text=text, day=day, lesson=named)
    return Note(named, text.strip(), day)


def set_of(household: Household, course: Course) -> str:
    """The notes and lines of a course as one file, to hand on: no names of children, no dates."""
    lessons = {day.id: day.number for day in course.days}
    notes = [{"day": lessons[note.lesson], "text": note.text} for note in notes_of(household) if note.lesson in lessons]
    lines = [
        {"chapter": line.chapter, "part": line.part, "text": line.text}
        if line.chapter
        else {"day": lessons[LessonId(line.lesson)], "part": line.part, "text": line.text}
        for line in lines_of(household)
        if line.course == course.id and (line.chapter or line.lesson in lessons)
    ]
    data = {"what": SET, "version": 1, "course": course.title, "days": len(course.days), "notes": notes, "lines": lines}
    return json.dumps(data, ensure_ascii=False, indent=1) + "\n"


@transaction.atomic
def set_add(*, household: Household, course: Course, text: str, day: date) -> tuple[int, int]:
    """Take in a file that `set_of` wrote: (notes, lines) that are new here. Nothing that is here is changed.

    Raises:
        BadInput: with every problem of the file; nothing was kept.
    """
    notes, lines = _set_read(text, course)
    known = {(note.lesson, note.text) for note in notes_of(household)}
    fresh = [one for one in dict.fromkeys(notes) if one not in known]
    for lesson, words in fresh:
        services.note_add(household=household, text=words, day=day, lesson=lesson)
    added = 0
    for line in lines:
        place = {"course": line.course, "lesson": line.lesson, "chapter": line.chapter, "part": line.part}
        _row, new = FamilyLineRow.objects.get_or_create(household=household, **place, defaults={"text": line.text})
        added += new
    return len(fresh), added


def _set_read(text: str, course: Course) -> tuple[list[tuple[LessonId, str]], list[FamilyLine]]:
    try:
        data: Any = json.loads(text)
        if data["what"] != SET or data["version"] != 1:
            raise BadInput(
                [Problem("file", "is no set of notes of this form; export one with `dayleaf note --export`")]
            )
        notes = [(int(one["day"]), str(one["text"]).strip()) for one in data["notes"]]
        rows = [
            (int(one.get("day", 0)), int(one.get("chapter", 0)), str(one["part"]), str(one["text"]))
            for one in data["lines"]
        ]
    except (KeyError, TypeError, ValueError, AttributeError) as wrong:
        raise BadInput([Problem("file", f"is no set of notes ({type(wrong).__name__}: {wrong})")]) from wrong
    ids = {day.number: day.id for day in course.days}
    problems = [
        Problem(f"notes[{n}]", _where(number, ids)) for n, (number, _) in enumerate(notes, 1) if number not in ids
    ]
    problems += [
        problem for n, (_, words) in enumerate(notes, 1) for problem in _text_problems(f"notes[{n}]", words or "\0")
    ]
    chapters = {one.number for one in course.chapters}
    lines: list[FamilyLine] = []
    for n, (number, chapter, part, words) in enumerate(rows, 1):
        lesson = ids.get(number, LessonId(""))
        found = [*_place_problems(lesson, chapter, part), *_text_problems("text", words)]
        if number and not lesson:
            found = [Problem("day", _where(number, ids))]
        if chapter and chapter not in chapters:
            found = [Problem("chapter", f"{chapter} is no chapter of {course.title}")]
        problems += [Problem(f"lines[{n}].{one.where}", one.message) for one in found]
        kept: Part = "open" if part == "open" else "close"
        lines.append(FamilyLine(course.id, lesson, chapter, kept, " ".join(words.split())))
    if problems:
        raise BadInput(problems)
    return [(ids[number], words) for number, words in notes], lines


def _where(number: int, ids: dict[int, LessonId]) -> str:
    return f"{number} is no day of this course; they run from 1 to {len(ids)}"


def _place_problems(lesson: str, chapter: int, part: str) -> list[Problem]:
    problems = []
    if bool(lesson) == bool(chapter):
        problems.append(Problem("place", "name a lesson or a chapter, one of the two"))
    if part not in PARTS:
        problems.append(Problem("part", f"“{part}” is neither open nor close"))
    return problems


def _text_problems(where: str, text: str) -> list[Problem]:
    if text == "\0":
        return [Problem(where, "there are no words in it; write at least one")]
    problems = []
    if len(text) > LONGEST:
        problems.append(Problem(where, f"is {len(text)} signs long; {LONGEST} is the most"))
    lacking = unprintable(text)
    if lacking:
        problems.append(
            Problem(where, f"has signs that cannot be printed ({' '.join(lacking)}); write it without them")
        )
    return problems


def _line(row: FamilyLineRow) -> FamilyLine:
    part: Part = "open" if row.part == "open" else "close"
    return FamilyLine(row.course, row.lesson, row.chapter, part, row.text)
