"""A stretch of a child's records: what happened from one day to another, and the sheets that belong to it."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from django.db.models import Min

from dayleaf.events.codec import KINDS, from_data
from dayleaf.events.model import Looked, Marked
from dayleaf.records.models import EventRow, SheetRow
from dayleaf.records.plans import kept_year_or_none

if TYPE_CHECKING:
    from collections.abc import Iterable
    from datetime import date

    from dayleaf.events.model import Event
    from dayleaf.records.models import Learner


def events_between(learner: Learner, *kinds: type[Event], first: date, last: date) -> tuple[Event, ...]:
    """What happened to this child from `first` to `last`, only these kinds, in the order written."""
    names = [name for name, shape in KINDS.items() if shape in kinds]
    rows = EventRow.objects.filter(learner=learner, kind__in=names, day__gte=first, day__lte=last).order_by("seq")
    return tuple(from_data(json.loads(payload)) for payload in rows.values_list("payload", flat=True))


def first_and_last(learner: Learner, *, today: date) -> tuple[date, date]:
    """From the first day that the records name, the plan's first lesson included, to `today`."""
    found = EventRow.objects.filter(learner=learner).aggregate(first=Min("day"))["first"]
    year = kept_year_or_none(learner)
    begins = [day for day in (found, year.main.first if year and year.main.placed else None) if day is not None]
    return min([*begins, today]), today


def markings_of(learner: Learner, *, first: date, last: date) -> tuple[Marked, ...]:
    """The markings that hold of what was marked from `first` to `last`: of each sheet the last one written."""
    holding: dict[str, Marked] = {}
    for event in events_between(learner, Marked, first=first, last=last):
        if isinstance(event, Marked):
            if event.replaces is not None:
                holding.pop(str(event.replaces), None)
            holding[event.sheet or str(event.head.id)] = event
    return tuple(holding.values())


def days_worked(learner: Learner, events: Iterable[Event]) -> set[date]:
    """The days of which marked or looked-over sheets tell.

    A sheet tells of the day for which it was printed, or of that of its marking where that came sooner: a Sunday
    evening with the answer key makes no school day.
    """
    seen = [event for event in events if isinstance(event, Marked | Looked)]
    rows = SheetRow.objects.filter(learner=learner, sheet_id__in={event.sheet for event in seen if event.sheet})
    printed = dict(rows.values_list("sheet_id", "printed__day"))
    return {min(event.head.day, printed.get(event.sheet, event.head.day)) for event in seen}
