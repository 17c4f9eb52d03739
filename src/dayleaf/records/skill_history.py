"""The history of one skill: when it was taught, every answer with its item, and what the answers show."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from dayleaf.course.load import grade2
from dayleaf.events.codec import from_data
from dayleaf.events.model import Marked, Mended, Override, Taught
from dayleaf.learner.advice import advise
from dayleaf.learner.seen import seen_in_marks
from dayleaf.records import services
from dayleaf.records.models import EventRow, SheetRow
from dayleaf.sheets.codec import map_from_data

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from datetime import date

    from dayleaf.core.ids import LessonId, SkillId
    from dayleaf.course.model import Course
    from dayleaf.events.model import Event, ItemMark
    from dayleaf.learner.advice import Advice
    from dayleaf.learner.seen import Seen
    from dayleaf.records.models import Learner
    from dayleaf.sheets.model import MapItem, PageMap

MARKINGS: Final = 8
"""The newest so many markings with the skill are shown: their sheets are read for the items."""
CHOICES: Final = ("go on", "fix up", "re-teach")


@dataclass(frozen=True, slots=True)
class Answered:
    """One answer. `item` is None where no sheet was kept; `mended` says how it was mended at the table, or ""."""

    day: date
    sheet: str
    mark: ItemMark
    item: MapItem | None
    mended: str
    corrected: bool


@dataclass(frozen=True, slots=True)
class SkillHistory:
    """What happened with a skill, the newest first, what that shows, and what is advised.

    `chosen` is what the adult decided last, with its day; `lesson` the lesson that brings the skill, under which such
    a decision is kept.
    """

    answers: tuple[Answered, ...]
    taught: tuple[tuple[date, LessonId], ...]
    seen: Seen | None
    advice: Advice
    chosen: tuple[str, date] | None
    lesson: LessonId | None


def skill_history(learner: Learner, skill: SkillId) -> SkillHistory:
    """The newest answers to a skill and what they show; reads the newest markings that hold it, writes nothing."""
    course = grade2()
    markings = _markings(learner, skill)
    pages = _pages(learner, [event.sheet for event in markings if event.sheet])
    mended = _mended(learner, pages)
    corrected = {event.head.id for event in markings if event.replaces is not None}
    answers = [
        Answered(
            event.head.day,
            event.sheet,
            mark,
            _item(pages.get(event.sheet, ()), mark.n),
            mended.get((event.sheet, mark.n), ""),
            event.head.id in corrected,
        )
        for event in markings
        for mark in event.items
        if mark.skill == skill and mark.state != "not reached"
    ]
    seen = _seen(course, markings, pages, skill)
    oldest_first = [one.mark for one in reversed(answers)]
    lesson = lesson_of(course, skill)
    return SkillHistory(
        answers=tuple(answers),
        taught=_taught(learner, skill),
        seen=seen,
        advice=advise(oldest_first, skills={skill}, seen=seen),
        chosen=None if lesson is None else _chosen(learner, lesson, skill),
        lesson=lesson,
    )


def lesson_of(course: Course, skill: SkillId) -> LessonId | None:
    """The lesson that brings a skill; None where none does."""
    return next((day.id for day in course.days if skill in day.new_skills), None)


def choice_made(learner: Learner, skill: SkillId, *, advised: str, chosen: str, day: date) -> None:
    """Keep what the adult decides of a skill, beside what was advised."""
    lesson = lesson_of(grade2(), skill)
    services.choice_keep(
        learner=learner, lesson=lesson, advised=f"{skill}: {advised}", chosen=f"{skill}: {chosen}", day=day
    )


def _markings(learner: Learner, skill: SkillId) -> tuple[Marked, ...]:
    """The newest markings that hold an item of the skill, those that were corrected left out, the newest first."""
    rows = EventRow.objects.filter(learner=learner, kind="marked", payload__contains=f'"{skill}"').order_by("-seq")
    events = [_event(payload) for payload in rows.values_list("payload", flat=True)[: 2 * MARKINGS]]
    marked = [event for event in events if isinstance(event, Marked)]
    replaced = {event.replaces for event in marked}
    kept = [event for event in marked if event.head.id not in replaced]
    return tuple(sorted(kept, key=lambda event: event.head.day, reverse=True)[:MARKINGS])


def _pages(learner: Learner, sheets: Sequence[str]) -> dict[str, tuple[PageMap, ...]]:
    rows = SheetRow.objects.filter(learner=learner, sheet_id__in=set(sheets)).values_list("sheet_id", "pages")
    return {sheet: tuple(map_from_data(json.loads(pages))) for sheet, pages in rows}


def _item(pages: Sequence[PageMap], n: int) -> MapItem | None:
    return next((item for page in pages for item in page.items if item.n == n), None)


def _mended(learner: Learner, pages: Mapping[str, object]) -> dict[tuple[str, int], str]:
    rows = EventRow.objects.filter(learner=learner, kind="mended", sheet__in=list(pages)).order_by("seq")
    said: dict[tuple[str, int], str] = {}
    for payload in rows.values_list("payload", flat=True):
        event = _event(payload)
        if isinstance(event, Mended):
            how = "with help" if event.with_help else "alone"
            said[event.sheet, event.n] = "" if event.taken_back else how
    return said


def _taught(learner: Learner, skill: SkillId) -> tuple[tuple[date, LessonId], ...]:
    """The days on which a lesson with the skill was taught, the newest first; what was taken back is left out."""
    rows = EventRow.objects.filter(learner=learner, kind="taught", payload__contains=f'"{skill}"').order_by("seq")
    said: dict[tuple[date, LessonId], str] = {}
    for payload in rows.values_list("payload", flat=True):
        event = _event(payload)
        if isinstance(event, Taught):
            said[event.head.day, event.lesson] = event.how_far
    return tuple(sorted((one for one, how in said.items() if how in {"done", "half"}), reverse=True))


def _seen(
    course: Course, markings: Sequence[Marked], pages: Mapping[str, tuple[PageMap, ...]], skill: SkillId
) -> Seen | None:
    """What the answers on kept sheets show; None where there are none."""
    on_sheets = [event for event in reversed(markings) if event.sheet in pages]
    marks = [mark for event in on_sheets for mark in event.items if mark.skill == skill]
    if not marks:
        return None
    return seen_in_marks(course, marks, [page for event in on_sheets for page in pages[event.sheet]])


def _chosen(learner: Learner, lesson: LessonId, skill: SkillId) -> tuple[str, date] | None:
    rows = EventRow.objects.filter(learner=learner, kind="override", lesson=lesson).order_by("-seq")
    for payload in rows.values_list("payload", flat=True):
        event = _event(payload)
        if isinstance(event, Override) and event.chosen.startswith(f"{skill}: "):
            return event.chosen.removeprefix(f"{skill}: "), event.head.day
    return None


def _event(payload: str) -> Event:
    return from_data(json.loads(payload))
