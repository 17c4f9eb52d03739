"""Reads. Every one starts from a household or a child of one, so that nothing of another household is ever found."""

from __future__ import annotations

import json
from datetime import UTC
from functools import lru_cache
from itertools import chain
from typing import TYPE_CHECKING, Any
from zoneinfo import ZoneInfo

from django.db import connection
from django.db.models import Exists, Max, OuterRef

from dayleaf.core.ids import LearnerId, LessonId
from dayleaf.events.codec import KINDS, from_data
from dayleaf.events.model import Attended, Looked, Marked, Mended, PlanChanged, Printed, Taught
from dayleaf.records import everyone
from dayleaf.records.errors import NoHousehold, NoPlan, NoSuchChild, NoSuchSheet
from dayleaf.records.frozen import sheet_from
from dayleaf.records.models import CacheRow, EventRow, Household, Learner, PlanVersionRow, PrintRow, SheetRow
from dayleaf.records.reading import is_only_looking, once
from dayleaf.sheets.codec import map_from_data
from dayleaf.sheets.model import Look

if TYPE_CHECKING:
    from collections.abc import Iterable
    from datetime import date, datetime

    from django.db.models import QuerySet

    from dayleaf.events.model import Event
    from dayleaf.sheets.model import PageMap, SheetSpec


def household(id: str | None = None) -> Household:  # noqa: A002 -- it is the row's own name for it
    """The household of this home, or the one of several with that id. Raises `NoHousehold`."""
    found = Household.objects.filter(id=id) if id else Household.objects.order_by("pk")
    first = once(("household", id), found.first)
    if first is None:
        raise NoHousehold
    return first


def learners(home: Household) -> tuple[Learner, ...]:
    """The children, in the order in which they were added."""
    return once(("learners", home.pk), lambda: tuple(home.learners.select_related("household")))


def learner_by_name(home: Household, name: str) -> Learner:
    """The child called so, in capitals or not. Raises `NoSuchChild`, which lists the names."""
    children = learners(home)
    for child in children:
        if child.name.casefold() == name.strip().casefold():
            return child
    raise NoSuchChild(name, (child.name for child in children))


def learner_by_id(home: Household, id: str) -> Learner:  # noqa: A002 -- it is the row's own name for it
    """The child with that id. Raises `NoSuchChild`."""
    children = learners(home)
    for child in children:
        if child.id == id:
            return child
    raise NoSuchChild(id, (child.name for child in children))


def today_of(home: Household, moment: datetime) -> date:
    """The household's own date at a moment that knows its time zone."""
    return moment.astimezone(UTC).astimezone(ZoneInfo(home.time_zone)).date()


def look_of(learner: Learner, *, paper: str | None = None, lang: str | None = None) -> Look:
    """How this child's pages are laid out; `paper` and `lang` for once instead of the household's."""
    home = learner.household
    return Look(
        paper="a4" if (paper or home.paper) == "a4" else "letter",
        lang=lang or home.language,
        left_handed=learner.hand == "left",
        large_boxes=learner.boxes == "large",
        compact=learner.boxes == "compact",
    )


def events_of(learner: Learner, *kinds: type[Event]) -> tuple[Event, ...]:
    """What happened to this child, in the order written: everything, or only some kinds."""
    rows = EventRow.objects.filter(learner=learner)
    if kinds:
        rows = rows.filter(kind__in=[_kind(kind) for kind in kinds])
    return tuple(_event(payload) for payload in rows.order_by("seq").values_list("payload", flat=True))


def events_of_household(home: Household) -> tuple[Event, ...]:
    """Everything that happened, in the order written."""
    rows = EventRow.objects.filter(household=home).order_by("seq")
    return tuple(_event(payload) for payload in rows.values_list("payload", flat=True))


def events_of_lesson(learner: Learner, lesson: LessonId, kind: type[Event]) -> tuple[Event, ...]:
    """What happened to this child with a lesson, of one kind, in the order written."""
    rows = EventRow.objects.filter(learner=learner, kind=_kind(kind), lesson=lesson).order_by("seq")
    return tuple(_event(payload) for payload in rows.values_list("payload", flat=True))


def last_event(learner: Learner) -> int:
    """The number of this child's last event from which anything is worked out; 0 before the first."""
    if is_only_looking():
        return everyone.last_events(learner.household_id).get(learner.pk, 0)
    rows = EventRow.objects.filter(learner=learner).exclude(kind__in=everyone.QUIET)
    found = rows.aggregate(last=Max("seq"))["last"]
    return int(found or 0)


def cached(learner: Learner, kind: str, model_version: str) -> Any:
    """What was worked out from all events so far, or None where it was not or is out of date."""
    payload, last = cached_once(learner, kind, model_version)
    return payload if last is not None and last == last_event(learner) else None


def cached_once(learner: Learner, kind: str, model_version: str) -> tuple[Any, int | None]:
    """What was worked out last, up to date or not, and the number of the event it goes up to; (None, None) if never."""
    row = CacheRow.objects.filter(learner=learner, kind=kind, model_version=model_version).first()
    return (json.loads(row.payload), row.last_event) if row else (None, None)


def events_since(learner: Learner, event: int) -> tuple[Event, ...]:
    """This child's events written after that number, in the order written."""
    rows = EventRow.objects.filter(learner=learner, seq__gt=event).order_by("seq")
    return tuple(_event(payload) for payload in rows.values_list("payload", flat=True))


def was_dated_ahead(learner: Learner, event: int, *, of: date) -> bool:
    """Whether an event up to that number carries a day after `of`."""
    return EventRow.objects.filter(learner=learner, seq__lte=event, day__gt=of).exists()


def newest_marked(learner: Learner) -> tuple[Marked, ...]:
    """The markings of printed sheets on the newest day that has any, as they were written."""
    rows = EventRow.objects.filter(learner=learner, kind=_kind(Marked)).exclude(sheet="")
    newest = rows.aggregate(day=Max("day"))["day"]
    events = (_event(payload) for payload in rows.filter(day=newest).order_by("seq").values_list("payload", flat=True))
    return tuple(event for event in events if isinstance(event, Marked))


# Sheets and their marks


def sheet_find(home: Household, sheet: str) -> SheetRow:
    """The sheet with that id, typed in capitals or not. Raises `NoSuchSheet`, the same for a stranger's sheet."""
    found = _sheets().filter(household=home, sheet_id=sheet.strip().upper()).first()
    if found is None:
        raise NoSuchSheet(sheet.strip())
    return found


def sheets_of(learner: Learner, lesson: LessonId | None = None) -> tuple[SheetRow, ...]:
    """The sheets printed for a child, oldest first."""
    rows = _sheets().filter(learner=learner)
    return tuple(rows if lesson is None else rows.filter(lesson=lesson))


def sheets_of_lessons(learner: Learner, lessons: Iterable[LessonId]) -> tuple[SheetRow, ...]:
    """The sheets printed for a child of several lessons, oldest first, without what stands on them."""
    return tuple(_sheets().filter(learner=learner, lesson__in=list(lessons)).defer("spec", "pages"))


def sheets_marked(learner: Learner, sheets: Iterable[str]) -> dict[str, Marked]:
    """The marking that holds for each of these sheets; a sheet without marks is left out."""
    rows = EventRow.objects.filter(learner=learner, kind=_kind(Marked), sheet__in=list(sheets)).order_by("seq")
    marked = (_event(payload) for payload in rows.values_list("payload", flat=True))
    return {str(event.sheet): event for event in marked if isinstance(event, Marked)}


def sheets_marked_lately(home: Household, most: int) -> tuple[tuple[SheetRow, Marked], ...]:
    """The sheets that were marked last, each with the marking that holds, the newest first."""
    rows = EventRow.objects.filter(household=home, kind=_kind(Marked)).exclude(sheet="").order_by("-seq")
    holding: dict[str, Marked] = {}
    for payload in rows.values_list("payload", flat=True)[: 4 * most]:
        event = _event(payload)
        if isinstance(event, Marked):
            holding.setdefault(event.sheet, event)
    found = {row.sheet_id: row for row in _sheets().filter(household=home, sheet_id__in=list(holding)[:most])}
    return tuple((found[sheet], event) for sheet, event in holding.items() if sheet in found)


def _sheets() -> QuerySet[SheetRow]:
    """Sheets with what belongs to them, without the finished files: those are large and seldom looked at."""
    rows = SheetRow.objects.select_related("learner", "household", "printed")
    return rows.defer("printed__guide", "printed__pages", "printed__key")


def spec_of(sheet: SheetRow) -> SheetSpec:
    """Every item of a sheet as it was made."""
    return sheet_from(json.loads(sheet.spec))


def pages_of(sheet: SheetRow) -> tuple[PageMap, ...]:
    """Every box of a sheet as it was printed."""
    return tuple(map_from_data(json.loads(sheet.pages)))


def items_lately(learner: Learner, *, last: int, but: LessonId) -> frozenset[str]:
    """Keys of the items on the child's `last` sheets, those of the lesson `but` left out."""
    rows = SheetRow.objects.filter(learner=learner).order_by("-printed__seq", "-place")
    sheets = rows.values_list("pk", "lesson")[:last]
    records = str(connection.settings_dict["NAME"])
    keys = (_keys_on(records, learner.household_id, sheet) for sheet, lesson in sheets if lesson != but)
    return frozenset(chain.from_iterable(keys))


@lru_cache(maxsize=2048)
def _keys_on(records: str, household: str, sheet: int) -> tuple[str, ...]:  # noqa: ARG001 (two homes in one process)
    """Keys of the items on a sheet of these records: frozen at print, so they are read once."""
    pages = SheetRow.objects.values_list("pages", flat=True).get(household_id=household, pk=sheet)
    return tuple(item.key for page in map_from_data(json.loads(pages)) for item in page.items)


def prints_of(learner: Learner, lesson: LessonId) -> tuple[PrintRow, ...]:
    """The prints of a lesson for a child without their files, the newest first."""
    rows = PrintRow.objects.filter(learner=learner, lesson=lesson).defer("guide", "pages", "key")
    return tuple(rows.order_by("-seq"))


def sheets_taken(home: Household, sheets: Iterable[str]) -> bool:
    """Whether one of these sheet ids was given at home before."""
    return SheetRow.objects.filter(household=home, sheet_id__in=list(sheets)).exists()


def print_of(learner: Learner, lesson: LessonId) -> PrintRow | None:
    """The last print of a lesson for a child, or None where it was never printed."""
    return PrintRow.objects.filter(learner=learner, lesson=lesson).order_by("seq").last()


def is_printed(learner: Learner, lesson: LessonId) -> bool:
    """Whether a lesson was printed for a child."""
    return PrintRow.objects.filter(learner=learner, lesson=lesson).exists()


def lessons_printed(learners: Iterable[Learner]) -> frozenset[tuple[LearnerId, LessonId]]:
    """Which lessons were printed for which of these children."""
    rows = PrintRow.objects.filter(learner__in=[learner.id for learner in learners])
    pairs = rows.values_list("learner_id", "lesson").distinct()
    return frozenset((LearnerId(learner), LessonId(lesson)) for learner, lesson in pairs)


def marking_of(sheet: SheetRow) -> Marked | None:
    """The marking that holds for a sheet: the last one written."""
    rows = EventRow.objects.filter(household=sheet.household_id, kind=_kind(Marked), sheet=sheet.sheet_id)
    last = rows.order_by("seq").last()
    if last is None:
        return None
    event = _event(last.payload)
    return event if isinstance(event, Marked) else None


def mended_of(sheet: SheetRow) -> dict[int, Mended]:
    """Which items the child mended at the table, and how: the last thing said of each holds."""
    rows = EventRow.objects.filter(household=sheet.household_id, kind=_kind(Mended), sheet=sheet.sheet_id)
    said = {}
    for payload in rows.order_by("seq").values_list("payload", flat=True):
        event = _event(payload)
        if isinstance(event, Mended):
            said[event.n] = event
    return {n: event for n, event in said.items() if not event.taken_back}


def sheets_unmarked(*learners: Learner) -> tuple[SheetRow, ...]:
    """Printed sheets of these children that nobody has marked or looked over, child after child, oldest first.

    Where a lesson was printed again with fresh numbers, only the last print counts.
    """
    seen = EventRow.objects.filter(
        household=OuterRef("household"), sheet=OuterRef("sheet_id"), kind__in=[_kind(Marked), _kind(Looked)]
    )
    again = PrintRow.objects.filter(
        learner=OuterRef("learner"), lesson=OuterRef("lesson"), seq__gt=OuterRef("printed__seq")
    )
    rows = _sheets().filter(~Exists(seen), ~Exists(again), learner__in=[learner.pk for learner in learners])
    rows = rows.defer("printed__guide", "printed__pages", "printed__key", "spec", "pages")
    places = {learner.pk: place for place, learner in enumerate(learners)}
    return tuple(sorted(rows, key=lambda row: places[row.learner_id]))


# The plan and how far it went


def plan_version_or_none(learner: Learner) -> PlanVersionRow | None:
    """The plan in force, or None before the first."""
    if is_only_looking():
        return everyone.plans_in_force(learner.household_id).get(learner.pk)
    rows = EventRow.objects.filter(learner=learner, kind=_kind(PlanChanged))
    last = rows.order_by("seq").last()
    if last is None:
        return None
    event = _event(last.payload)
    if not isinstance(event, PlanChanged):
        return None
    return PlanVersionRow.objects.select_related("parent").get(learner=learner, version_id=event.version)


def plan_version(learner: Learner) -> PlanVersionRow:
    """The plan in force. Raises `NoPlan`."""
    version = plan_version_or_none(learner)
    if version is None:
        raise NoPlan(learner.name)
    return version


def plan_event(version: PlanVersionRow) -> PlanChanged | None:
    """The event by which a plan came into force for the first time."""
    row = EventRow.objects.filter(household_id=version.household_id, event_id=version.version_id).first()
    event = None if row is None else _event(row.payload)
    return event if isinstance(event, PlanChanged) else None


def plan_together(version: PlanVersionRow) -> str:
    """What the plans changed in one act with this one share; "" where it was changed by itself."""
    event = plan_event(version)
    return event.together if event else ""


def taught_of(learner: Learner) -> dict[tuple[LessonId, date], Taught]:
    """How far each lesson went on each day: the last thing said holds."""
    said: dict[tuple[LessonId, date], Taught] = {}
    for event in events_of(learner, Taught):
        if isinstance(event, Taught):
            said[event.lesson, event.head.day] = event
    return said


def said_on(learner: Learner, day: date) -> dict[LessonId, Taught]:
    """What was said on one day of how far its lessons went; what was taken back is left out."""
    if is_only_looking():
        return everyone.said_on(learner.household_id, day).get(learner.pk, {})
    rows = EventRow.objects.filter(learner=learner, kind=_kind(Taught), day=day).order_by("seq")
    return everyone.said_in(rows)


def prints_said(learner: Learner) -> tuple[Printed, ...]:
    """When each lesson was printed."""
    return tuple(event for event in events_of(learner, Printed) if isinstance(event, Printed))


def attendance_of(learner: Learner) -> dict[date, bool]:
    """The days of which somebody said whether the child was there."""
    said = {e.head.day: e for e in events_of(learner, Attended) if isinstance(e, Attended)}
    return {day: event.present for day, event in said.items() if not event.taken_back}


def _kind(event: type[Event]) -> str:
    return next(name for name, shape in KINDS.items() if shape is event)


def _event(payload: str) -> Event:
    return from_data(json.loads(payload))
