"""A stretch of a child's records: what happened from one day to another, and the sheets that belong to it."""

from __future__ import annotations

import json
from datetime import date, timedelta
from typing import TYPE_CHECKING, Final

import msgspec
from django.db.models import Min

from dayleaf.events.codec import KINDS, from_data
from dayleaf.events.model import Marked
from dayleaf.records.models import EventRow, SheetRow
from dayleaf.records.plans import kept_year_or_none

if TYPE_CHECKING:
    from collections.abc import Iterable

    from dayleaf.events.model import Event
    from dayleaf.records.models import Learner

MARKED_LATER: Final = timedelta(days=30)
"""So long after a day its sheets are looked for among what was marked."""


class ItemTold(msgspec.Struct, frozen=True):
    """One item's mark."""

    skill: str
    state: str
    helped: bool


class SheetTold(msgspec.Struct, frozen=True):
    """What was marked, and which marking it corrects."""

    sheet: str
    lesson: str
    items: tuple[ItemTold, ...]
    replaces: str | None = None


class MarksTold(msgspec.Struct, frozen=True):
    """A marking with only what pages count by."""

    id: str
    day: date
    what: SheetTold


class PresenceTold(msgspec.Struct, frozen=True):
    """What a person said of being there (`events.model.Attended`)."""

    present: bool
    taken_back: bool = False
    minutes: int | None = None


class LessonTold(msgspec.Struct, frozen=True):
    """How far a lesson went."""

    lesson: str
    how_far: str


class AttendedTold(msgspec.Struct, frozen=True):
    """What was said of a day."""

    day: date
    what: PresenceTold


class TaughtTold(msgspec.Struct, frozen=True):
    """What was said of a lesson on a day."""

    day: date
    what: LessonTold


_TOLD: Final = msgspec.json.Decoder(MarksTold)
_ATTENDED: Final = msgspec.json.Decoder(AttendedTold)
_TAUGHT: Final = msgspec.json.Decoder(TaughtTold)


def score_told(items: Iterable[ItemTold]) -> tuple[int, int]:
    """(right, of) as `marking.mark.score`, of what was done alone: neither together nor with help."""
    alone = [one for one in items if one.state != "not reached" and not one.helped]
    return sum(one.state == "right" for one in alone), len(alone)


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


def year_so_far(learner: Learner, *, today: date) -> tuple[date, date]:
    """From the first lesson of the plan in force to `today`; without one, from the first day that the records name."""
    year = kept_year_or_none(learner)
    if year is not None and year.main.placed and year.main.first <= today:
        return year.main.first, today
    return first_and_last(learner, today=today)


def markings_of(learner: Learner, *, first: date, last: date) -> tuple[Marked, ...]:
    """The markings that hold of what was marked from `first` to `last`: of each sheet the last one written."""
    holding: dict[str, Marked] = {}
    for event in events_between(learner, Marked, first=first, last=last):
        if isinstance(event, Marked):
            if event.replaces is not None:
                holding.pop(str(event.replaces), None)
            holding[event.sheet or str(event.head.id)] = event
    return tuple(holding.values())


def marks_told(learner: Learner, *, first: date, last: date) -> tuple[MarksTold, ...]:
    """As `markings_of`, only with what pages count by: a tenth of the time."""
    holding: dict[str, MarksTold] = {}
    for payload in _payloads(learner, "marked", first=first, last=last):
        event = _TOLD.decode(payload)
        if event.what.replaces is not None:
            holding.pop(event.what.replaces, None)
        holding[event.what.sheet or event.id] = event
    return tuple(holding.values())


def days_said(learner: Learner, *, first: date, last: date) -> dict[date, PresenceTold]:
    """What holds of what a person said of each day: the last thing said, unless it was taken back."""
    said = {one.day: one.what for one in map(_ATTENDED.decode, _payloads(learner, "attended", first=first, last=last))}
    return {day: one for day, one in said.items() if not one.taken_back}


def days_taught(learner: Learner, *, first: date, last: date) -> set[date]:
    """The days on which a lesson was said to be done or half done; the last thing said of it that day holds."""
    rows = map(_TAUGHT.decode, _payloads(learner, "taught", first=first, last=last))
    said = {(one.what.lesson, one.day): one.what.how_far for one in rows}
    return {day for (_, day), how_far in said.items() if how_far in {"done", "half"}}


def days_worked(learner: Learner, *, first: date, last: date) -> set[date]:
    """The days from `first` to `last` of which marked or looked-over sheets tell.

    A sheet tells of the day for which it was printed, or of that of its marking where that came sooner: a Sunday
    evening with the answer key makes no school day.
    """
    rows = EventRow.objects.filter(learner=learner, kind__in=("marked", "looked"), day__gte=first)
    seen = list(rows.filter(day__lte=last + MARKED_LATER).values_list("sheet", "day"))
    sheets = SheetRow.objects.filter(learner=learner, printed__day__lte=last)
    printed = dict(sheets.filter(printed__day__gte=first - MARKED_LATER).values_list("sheet_id", "printed__day"))
    return {day for sheet, on in seen if first <= (day := min(on, printed.get(sheet, on))) <= last}


def _payloads(learner: Learner, kind: str, *, first: date, last: date) -> Iterable[str]:
    rows = EventRow.objects.filter(learner=learner, kind=kind, day__gte=first, day__lte=last).order_by("seq")
    return rows.values_list("payload", flat=True)
