"""Writes: one function, one transaction. Each returns what was written.

`at` is the moment it happened, in UTC, now when left out; `day` is the household's own date and is never
read from a clock here.
"""

from __future__ import annotations

import hashlib
import json
import uuid
from typing import TYPE_CHECKING

from django.db import transaction
from django.db.models import Max
from django.utils import timezone

from dayleaf.core.errors import BadInput, Problem
from dayleaf.core.ids import EventId, LearnerId, LessonId, PlanVersionId, SheetId, SkillId
from dayleaf.events.codec import kind_of, to_data
from dayleaf.events.model import (
    Attended,
    Head,
    Looked,
    Marked,
    Mended,
    Noted,
    Override,
    PlanChanged,
    Printed,
    Taught,
)
from dayleaf.records import selectors
from dayleaf.records.errors import NothingToUndo, NotThisHousehold
from dayleaf.records.frozen import to_plain
from dayleaf.records.models import (
    CacheRow,
    EventRow,
    Household,
    Learner,
    PlanVersionRow,
    PrintRow,
    SheetRow,
)
from dayleaf.sheets.codec import map_to_data

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from datetime import date, datetime

    from dayleaf.events.model import BoxEvidence, Event, HowFar, Impression, ItemMark
    from dayleaf.sheets.model import SheetSpec, Typeset


def new_id() -> str:
    """An id made on this device: 32 hexadecimal signs (RFC 9562, version 4)."""
    return uuid.uuid4().hex


@transaction.atomic
def event_append(*, household: Household, event: Event) -> EventRow:
    """Write one event down. Raises `NotThisHousehold` for a child of another household."""
    return events_append(household=household, events=(event,))[0]


@transaction.atomic
def events_append(*, household: Household, events: Iterable[Event]) -> tuple[EventRow, ...]:
    """Write several events down, all or none, in the order given."""
    events = tuple(events)
    ours = set(household.learners.values_list("id", flat=True))
    if any(event.head.learner is not None and event.head.learner not in ours for event in events):
        raise NotThisHousehold
    rows = [
        EventRow(
            household=household,
            learner_id=event.head.learner,
            event_id=event.head.id,
            kind=kind_of(event),
            day=event.head.day,
            at=event.head.at,
            sheet=getattr(event, "sheet", ""),
            lesson=getattr(event, "lesson", None) or "",
            payload=canonical(to_data(event)),
        )
        for event in events
    ]
    return tuple(EventRow.objects.bulk_create(rows))


@transaction.atomic
def day_print(
    *,
    learner: Learner,
    day: date,
    lesson: LessonId,
    skills: Iterable[SkillId],
    seed: int,
    engine: str,
    lang: str,
    paper: str,
    sheets: Sequence[SheetSpec],
    pages: Typeset,
    guide: bytes,
    key: bytes,
    at: datetime | None = None,
    id: str | None = None,  # noqa: A002 -- it is the row's own name for it
) -> PrintRow:
    """Freeze a day's sheets with their finished files, and write down that they were printed."""
    last = PrintRow.objects.filter(learner=learner).aggregate(last=Max("seq"))["last"] or 0
    printed = PrintRow.objects.create(
        print_id=id or new_id(),
        household_id=learner.household_id,
        learner=learner,
        seq=last + 1,
        lesson=lesson,
        day=day,
        seed=seed,
        engine=engine,
        lang=lang,
        paper=paper,
        guide=guide,
        pages=pages.pdf,
        key=key,
    )
    for place, sheet in enumerate(sheets):
        SheetRow.objects.create(
            household_id=learner.household_id,
            learner=learner,
            printed=printed,
            sheet_id=sheet.id,
            lesson=lesson,
            place=place,
            spec=canonical(to_plain(sheet)),
            pages=canonical(map_to_data(tuple(page for page in pages.pages if page.sheet == sheet.id))),
        )
    ids = tuple(sheet.id for sheet in sheets)
    event_append(
        household=learner.household,
        event=Printed(head(learner, day=day, at=at, id=printed.print_id), lesson, ids, tuple(skills)),
    )
    return printed


@transaction.atomic
def sheet_mark(
    *,
    sheet: SheetRow,
    items: Iterable[ItemMark],
    day: date,
    at: datetime | None = None,
    evidence: Iterable[BoxEvidence] = (),
) -> Marked:
    """Write a marking down. A second marking of the same sheet corrects the first and names it in `replaces`."""
    earlier = selectors.marking_of(sheet)
    marked = Marked(
        head(sheet.learner, day=day, at=at),
        SheetId(sheet.sheet_id),
        LessonId(sheet.lesson),
        tuple(items),
        replaces=earlier.head.id if earlier else None,
        evidence=tuple(evidence),
    )
    event_append(household=sheet.household, event=marked)
    return marked


@transaction.atomic
def sheet_look(
    *,
    sheet: SheetRow,
    skills: Iterable[SkillId],
    impression: Impression,
    day: date,
    at: datetime | None = None,
) -> Looked:
    """Write down that a sheet was looked over without marks."""
    looked = Looked(
        head(sheet.learner, day=day, at=at),
        SheetId(sheet.sheet_id),
        LessonId(sheet.lesson),
        tuple(skills),
        impression,
    )
    event_append(household=sheet.household, event=looked)
    return looked


@transaction.atomic
def item_mend(
    *, sheet: SheetRow, n: int, with_help: bool, day: date, taken_back: bool = False, at: datetime | None = None
) -> Mended:
    """Write down that the child mended a wrong item at the table, or that it was not so; the last one said holds."""
    mended = Mended(head(sheet.learner, day=day, at=at), SheetId(sheet.sheet_id), n, with_help, taken_back)
    event_append(household=sheet.household, event=mended)
    return mended


@transaction.atomic
def day_taught(
    *,
    learner: Learner,
    lesson: LessonId,
    how_far: HowFar,
    skills: Iterable[SkillId],
    day: date,
    at: datetime | None = None,
) -> Taught:
    """Write down how far a lesson went. The last one said for a lesson and day holds."""
    taught = Taught(head(learner, day=day, at=at), lesson, how_far, tuple(skills))
    event_append(household=learner.household, event=taught)
    return taught


@transaction.atomic
def plan_set(
    *,
    learner: Learner,
    plan: str,
    reason: str,
    day: date,
    at: datetime | None = None,
    together: str = "",
    id: str | None = None,  # noqa: A002 -- it is the row's own name for it
) -> PlanVersionRow:
    """Keep a new plan (canonical JSON) on top of the one in force, and put it in force.

    Plans set in one act for several children carry the same `together`.
    """
    version = PlanVersionRow.objects.create(
        household_id=learner.household_id,
        learner=learner,
        version_id=id or new_id(),
        parent=selectors.plan_version_or_none(learner),
        reason=reason,
        plan=plan,
        sha256=hashlib.sha256(plan.encode()).hexdigest(),
    )
    _plan_in_force(learner, version, reason=reason, day=day, at=at, together=together, id=version.version_id)
    return version


@transaction.atomic
def plan_undo(*, learner: Learner, day: date, at: datetime | None = None) -> PlanVersionRow:
    """Put the plan before this one in force again, byte for byte. Raises `NothingToUndo`."""
    version = selectors.plan_version(learner)
    if version.parent is None:
        raise NothingToUndo(learner.name)
    _plan_in_force(learner, version.parent, reason=f"undo: {version.reason}", day=day, at=at)
    return version.parent


def _plan_in_force(
    learner: Learner,
    version: PlanVersionRow,
    *,
    reason: str,
    day: date,
    at: datetime | None,
    together: str = "",
    id: str | None = None,  # noqa: A002 -- the event's own name for it
) -> None:
    event = PlanChanged(head(learner, day=day, at=at, id=id), PlanVersionId(version.version_id), reason, together)
    event_append(household=learner.household, event=event)


@transaction.atomic
def note_add(
    *,
    household: Household,
    text: str,
    day: date,
    learner: Learner | None = None,
    lesson: LessonId | None = None,
    at: datetime | None = None,
) -> Noted:
    """Keep an adult's own words. Raises `BadInput` where there are none."""
    if not text.strip():
        raise BadInput([Problem("note", "there are no words in it; write at least one")])
    noted = Noted(head(learner, day=day, at=at), lesson, text.strip())
    event_append(household=household, event=noted)
    return noted


@transaction.atomic
def choice_keep(
    *,
    learner: Learner,
    lesson: LessonId | None,
    advised: str,
    chosen: str,
    day: date,
    at: datetime | None = None,
) -> Override:
    """Write down that the adult decided otherwise than advised."""
    override = Override(head(learner, day=day, at=at), lesson, advised, chosen)
    event_append(household=learner.household, event=override)
    return override


@transaction.atomic
def attendance_set(
    *,
    learner: Learner,
    present: bool,
    day: date,
    taken_back: bool = False,
    minutes: int | None = None,
    at: datetime | None = None,
) -> Attended:
    """Write down what a person said about being there, or that it is taken back; the last one said for a day holds."""
    attended = Attended(head(learner, day=day, at=at), present, taken_back, minutes)
    event_append(household=learner.household, event=attended)
    return attended


@transaction.atomic
def cache_keep(*, learner: Learner, kind: str, model_version: str, payload: object) -> None:
    """Keep something worked out from all events so far. It replaces the one of that kind."""
    CacheRow.objects.update_or_create(
        learner=learner,
        kind=kind,
        defaults={
            "last_event": selectors.last_event(learner),
            "model_version": model_version,
            "payload": canonical(payload),
        },
    )


def head(learner: Learner | None, *, day: date, at: datetime | None = None, id: str | None = None) -> Head:  # noqa: A002 -- the event's own name for it
    """The head of a new event of this child, or of the household."""
    return Head(
        EventId(id or new_id()),
        at or timezone.now(),
        day,
        LearnerId(learner.id) if learner else None,
    )


def canonical(data: object) -> str:
    """JSON with sorted names and no spare spaces: the same data is the same text."""
    return json.dumps(data, sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False)
