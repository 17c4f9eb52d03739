"""What a page reads for all children of a home at once; each is read once in a look (`reading`)."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from django.db.models import Max

from dayleaf.events.codec import from_data
from dayleaf.events.model import PlanChanged, Taught
from dayleaf.records.models import EventRow, PlanVersionRow
from dayleaf.records.reading import once

if TYPE_CHECKING:
    from collections.abc import Iterable
    from datetime import date

    from dayleaf.core.ids import LessonId

QUIET = ("printed", "noted", "attended", "override", "mended")
"""Kinds of event that change neither what is believed of a child nor what comes back."""


def last_events(home: str) -> dict[str, int]:
    """The number of each child's last event from which anything is worked out, by the child's id."""
    return once(("last events", home), lambda: _last_events(home))


def plans_in_force(home: str) -> dict[str, PlanVersionRow]:
    """The plan in force of each child that has one, by the child's id."""
    return once(("plans", home), lambda: _plans_in_force(home))


def said_on(home: str, day: date) -> dict[str, dict[LessonId, Taught]]:
    """What was said on a day of how far each child's lessons went, by the child's id."""
    return once(("said", home, day), lambda: _said_on(home, day))


def said_in(rows: Iterable[EventRow]) -> dict[LessonId, Taught]:
    """The last thing said of each lesson in these rows, oldest first; what was taken back is left out."""
    said: dict[LessonId, Taught] = {}
    for row in rows:
        event = from_data(json.loads(row.payload))
        if isinstance(event, Taught):
            said[event.lesson] = event
    return {lesson: event for lesson, event in said.items() if event.how_far != "not said"}


def _last_events(home: str) -> dict[str, int]:
    rows = EventRow.objects.filter(household=home).exclude(kind__in=QUIET).exclude(learner=None)
    found = rows.order_by().values_list("learner").annotate(last=Max("seq"))
    return {str(learner): int(last) for learner, last in found}


def _plans_in_force(home: str) -> dict[str, PlanVersionRow]:
    rows = EventRow.objects.filter(household=home, kind="plan changed").exclude(learner=None).order_by()
    newest = rows.values("learner").annotate(last=Max("seq")).values("last")
    payloads = rows.filter(seq__in=newest).values_list("payload", flat=True)
    events = [from_data(json.loads(payload)) for payload in payloads]
    ids = [event.version for event in events if isinstance(event, PlanChanged)]
    versions = PlanVersionRow.objects.select_related("parent", "learner").filter(household=home, version_id__in=ids)
    return {version.learner_id: version for version in versions}


def _said_on(home: str, day: date) -> dict[str, dict[LessonId, Taught]]:
    rows = list(EventRow.objects.filter(household=home, kind="taught", day=day).order_by("seq"))
    children = {row.learner_id for row in rows if row.learner_id is not None}
    return {child: said_in(row for row in rows if row.learner_id == child) for child in children}
