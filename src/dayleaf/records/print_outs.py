"""A day's print-outs after its pages: the mats, picture cards and pages to read that the lesson asks for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.course.load import grade2
from dayleaf.packets.binding import bound
from dayleaf.packets.printables import print_outs_of
from dayleaf.plan.year import LessonNotPlanned
from dayleaf.records.beliefs import year_plan
from dayleaf.records.coming import lesson_named

if TYPE_CHECKING:
    from collections.abc import Iterable
    from datetime import date

    from dayleaf.core.ids import LessonId
    from dayleaf.items.model import Figure
    from dayleaf.records.models import Learner
    from dayleaf.sheets.model import Paper, SheetSpec


def with_print_outs(
    pages: bytes,
    *,
    learner: Learner,
    lesson: LessonId,
    sheets: Iterable[SheetSpec],
    paper: Paper,
    scale: float,
    today: date,
) -> bytes:
    """The pages of a lesson with its print-outs bound after them; the pages themselves stay where they were.

    Picture cards show pictures of these sheets where there are some of the kind; a calendar shows the month that the
    lesson is planned for, or that of `today`.
    """
    day = lesson_named(lesson)
    try:
        on = year_plan(learner).date_of(lesson)
    except LessonNotPlanned:
        on = today
    figures = tuple(_figures(sheets))
    more = print_outs_of(grade2(), day, paper=paper, scale=scale, pictures=figures, month=on)
    return bound((pages, *more))[0] if more else pages


def _figures(sheets: Iterable[SheetSpec]) -> Iterable[Figure]:
    for sheet in sheets:
        for page in sheet.pages:
            for block in page.blocks:
                items = [placed.item for placed in block.items]
                yield from (item.figure for item in items if item.figure is not None)
