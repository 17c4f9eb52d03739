"""A child's grade book: its scale as kept, and its entries from the marks that hold."""

from __future__ import annotations

import json
from collections import defaultdict
from dataclasses import asdict
from typing import TYPE_CHECKING

from django.db import transaction

from dayleaf.core.errors import BadInput, Problem
from dayleaf.core.ids import LessonId
from dayleaf.plan.lessons import taught_by
from dayleaf.records.gradebook import NO_GRADES, Entry, Scale, scale_problems
from dayleaf.records.ledgers import GradeBookRow
from dayleaf.records.models import SheetRow
from dayleaf.records.services import canonical
from dayleaf.records.span import marks_told, score_told
from dayleaf.sheets.fonts import ADULT_FACES, unprintable

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import date

    from dayleaf.course.model import Course, Day
    from dayleaf.records.gradebook import EntryKind
    from dayleaf.records.models import Learner
    from dayleaf.records.span import MarksTold


def scale_of(learner: Learner) -> Scale:
    """How this child's grade book counts; without one, no grades."""
    row = GradeBookRow.objects.filter(learner=learner).first()
    if row is None:
        return NO_GRADES
    data = json.loads(row.scale)
    steps = tuple((int(least), str(word)) for least, word in data.pop("steps"))
    return Scale(**{**data, "steps": steps, "left_out": frozenset(data["left_out"])})


@transaction.atomic
def scale_keep(*, learner: Learner, scale: Scale) -> Scale:
    """Keep how this child's grade book counts. Raises `BadInput` with all problems."""
    problems = scale_problems(scale)
    for _, word in scale.steps:
        if signs := unprintable(word, faces=ADULT_FACES):
            problems.append(Problem("steps", f"“{word}” cannot be printed with {' '.join(signs)}"))
    if problems:
        raise BadInput(problems)
    data = {**asdict(scale), "left_out": sorted(scale.left_out)}
    GradeBookRow.objects.update_or_create(learner=learner, defaults={"scale": canonical(data)})
    return scale


def entries_of(learner: Learner, course: Course, *, first: date, last: date) -> tuple[Entry, ...]:
    """Every marked test and day of sheets, in order; what was done together or with help is not counted.

    The sheets of one print are one entry. Marks of a lesson without a sheet are one, too.
    """
    marked = marks_told(learner, first=first, last=last)
    rows = SheetRow.objects.filter(learner=learner, printed__day__lte=last)
    prints = dict(rows.values_list("sheet_id", "printed_id"))
    together: dict[str, list[MarksTold]] = defaultdict(list)
    for one in marked:
        together[prints.get(one.what.sheet) or one.id].append(one)
    days = {day.id: day for day in course.days}
    found = (_entry(name, each, days) for name, each in together.items())
    return tuple(sorted((one for one in found if one is not None), key=lambda one: (one.day, one.id)))


def _entry(name: str, markings: list[MarksTold], days: Mapping[LessonId, Day]) -> Entry | None:
    right, of = score_told(item for one in markings for item in one.what.items)
    if not of:
        return None
    lesson = taught_by(LessonId(markings[0].what.lesson))
    day = days.get(lesson)
    title = f"Day {day.number} · {day.title}" if day else str(lesson)
    kind: EntryKind = "test" if day is not None and day.kind == "test" else "sheet"
    return Entry(name, min(one.day for one in markings), title, kind, right, of)
