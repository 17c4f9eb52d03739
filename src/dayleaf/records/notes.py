"""An adult's own words on a lesson: kept at the lesson, so that they are there again for the next child."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from dayleaf.events.codec import from_data
from dayleaf.events.model import Noted
from dayleaf.records.models import EventRow

if TYPE_CHECKING:
    from collections.abc import Iterable

    from dayleaf.core.ids import LessonId
    from dayleaf.records.models import Household


def notes_on(household: Household, lessons: Iterable[LessonId]) -> dict[LessonId, tuple[Noted, ...]]:
    """The notes on these lessons by any adult for any child of the household, the newest first."""
    wanted = tuple(lessons)
    rows = EventRow.objects.filter(household=household, kind="noted", lesson__in=wanted).order_by("-seq")
    found: dict[LessonId, list[Noted]] = {lesson: [] for lesson in wanted}
    for payload in rows.values_list("payload", flat=True):
        event = from_data(json.loads(payload))
        if isinstance(event, Noted) and event.lesson in found:
            found[event.lesson].append(event)
    return {lesson: tuple(notes) for lesson, notes in found.items()}
