"""What a home would share of a child: only the kinds asked for, read from the log and the plans."""

from __future__ import annotations

import hashlib
from bisect import bisect_left
from collections import defaultdict
from datetime import UTC
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

from dayleaf.advising.answers import as_shared
from dayleaf.advising.shared import (
    KINDS,
    Counts,
    MarkedSheet,
    Message,
    PlannedDay,
    Sample,
    SampleItem,
    SharedPlan,
    SharedProgress,
    SharedRecords,
    TaughtDay,
    Terms,
)
from dayleaf.advising.titles import lesson_words
from dayleaf.core.ids import LearnerId
from dayleaf.course.load import grade2
from dayleaf.events.model import Attended, Looked, Marked, Noted, PlanChanged, Taught
from dayleaf.plan.codec import from_json
from dayleaf.records import selectors
from dayleaf.records.beliefs import beliefs_now
from dayleaf.records.models import PlanVersionRow
from dayleaf.records.plans import kept_year_or_none

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from datetime import date

    from dayleaf.advising.shared import Kind
    from dayleaf.events.model import Event
    from dayleaf.plan.run import RunPlan
    from dayleaf.records.models import Household, Learner

CHILD_SIGNS = 20


def shared_of(
    learner: Learner,
    *,
    kinds: Iterable[Kind],
    today: date,
    until: date,
    share: str = "home",
    answer_key: str = "",
    family: str = "",
    with_beliefs: bool = True,
) -> SharedRecords:
    """Everything of these kinds up to `today`; `with_beliefs` false leaves out what is worked out of skills.

    `family` is the name by which the family wants to be listed, the household's own where it is left out.
    Notes about the whole household and notes about other children belong to no child's messages and never leave.
    """
    wanted = set(kinds)
    events = tuple(event for event in selectors.events_of(learner) if event.head.day <= today)
    terms = Terms(
        share=share,
        child=child_id(learner),
        family=family or learner.household.name,
        learner=learner.name,
        course=learner.course,
        kinds=tuple(kind for kind in KINDS if kind in wanted),
        made_on=today,
        until=until,
        answer_key=answer_key,
    )
    messages = tuple(Message(event.head.day, event.text) for event in events if isinstance(event, Noted))
    return SharedRecords(
        terms,
        plan=_plan(learner, today) if "plan" in wanted else None,
        progress=_progress(learner, events, today, with_beliefs=with_beliefs) if "progress" in wanted else None,
        samples=_samples(learner, events) if "samples" in wanted else None,
        messages=messages if "messages" in wanted else None,
    )


def child_id(learner: Learner) -> str:
    """What a child is called in files: always the same, and nobody can tell the child from it."""
    return hashlib.sha256(f"{learner.household_id} {learner.id}".encode()).hexdigest()[:CHILD_SIGNS]


def _plan(learner: Learner, today: date) -> SharedPlan:
    year, version = kept_year_or_none(learner), selectors.plan_version_or_none(learner)
    if year is None or version is None:
        return SharedPlan(version="", days=(), then=())
    days = sorted(
        (PlannedDay(one.day, one.lesson, _title(plan, one.lesson)) for plan in year.plans for one in plan.placed),
        key=lambda one: (one.day, one.lesson),
    )
    return SharedPlan(version.version_id, tuple(days), _planned_then(learner, today), as_shared(year))


def _title(plan: RunPlan, lesson: str) -> str:
    own = next((one.title for one in plan.run.lessons if one.id == lesson), "")
    return own or lesson_words(lesson)


def _planned_then(learner: Learner, today: date) -> tuple[PlannedDay, ...]:
    """The lessons of each past day by the plan that was in force on its morning.

    A plan that came on a day holds from the day after: what changed that morning was often that day's own trouble.
    """
    changes = [event for event in selectors.events_of(learner, PlanChanged) if isinstance(event, PlanChanged)]
    if not changes:
        return ()
    plans = dict(PlanVersionRow.objects.filter(learner=learner).values_list("version_id", "plan"))
    found: list[PlannedDay] = []
    for n, change in enumerate(changes):
        first = None if n == 0 else change.head.day
        last = changes[n + 1].head.day if n + 1 < len(changes) else today
        if last == first:
            continue
        main = from_json(plans[change.version], learner=LearnerId(learner.id)).main
        start = 0 if first is None else bisect_left(main.placed, first, key=lambda one: one.day)
        found += [
            PlannedDay(one.day, one.lesson)
            for one in main.placed[start:]
            if (first is None or one.day > first) and one.day <= last and one.day < today
        ]
    return tuple(sorted(set(found), key=lambda one: (one.day, one.lesson)))


def _progress(learner: Learner, events: Sequence[Event], today: date, *, with_beliefs: bool) -> SharedProgress:
    said = {(e.lesson, e.head.day): e for e in events if isinstance(e, Taught)}
    taught = tuple(
        TaughtDay(day, lesson, e.how_far, tuple(e.skills))
        for (lesson, day), e in sorted(said.items(), key=lambda one: (one[0][1], one[0][0]))
        if e.how_far != "not said"
    )
    gave = {one.day for one in taught if one.how_far != "not today"}
    marked = _marked(events)
    looked = {e.head.day for e in events if isinstance(e, Looked)}
    present = {e.head.day: e.present for e in events if isinstance(e, Attended) and not e.taken_back}
    there = gave | looked | {day for day, _ in marked} | {day for day, here in present.items() if here}
    away = {one.day for one in taught} | {day for day, here in present.items() if not here}
    known: dict[str, str] = {}
    if with_beliefs:
        beliefs = beliefs_now(learner, grade2(), upto=today)
        known = {skill: one.word for skill, one in beliefs.known_all(today).items() if one.word != "not yet"}
    return SharedProgress(
        taught=taught,
        marked=tuple(_counted(day, event) for day, event in marked),
        there=tuple(sorted(there)),
        away=tuple(sorted(away - there)),
        written=tuple(sorted(_written(learner.household, events, today))),
        known=known,
    )


def _marked(events: Sequence[Event]) -> list[tuple[date, Marked]]:
    """The markings that hold, each on the day of the first one in its place."""
    found: dict[str, tuple[date, Marked]] = {}
    for event in events:
        if isinstance(event, Marked):
            before = found.pop(event.replaces, None) if event.replaces else None
            found[event.head.id] = (before[0] if before else event.head.day, event)
    return sorted(found.values(), key=lambda one: one[0])


def _counted(day: date, event: Marked) -> MarkedSheet:
    counts: dict[str, list[int]] = defaultdict(lambda: [0, 0, 0])
    ways: dict[str, dict[str, int]] = defaultdict(dict)
    for mark in event.items:
        if mark.state == "not reached":
            continue
        own = counts[mark.skill]
        own[0] += mark.state == "right"
        own[1] += 1
        own[2] += mark.helped
        for way in mark.errors if mark.state == "wrong" else ():
            ways[mark.skill][way] = ways[mark.skill].get(way, 0) + 1
    skills = {skill: Counts(own[0], own[1], own[2], ways.get(skill, {})) for skill, own in counts.items()}
    return MarkedSheet(day, event.lesson, skills)


def _written(household: Household, events: Sequence[Event], today: date) -> set[date]:
    """The dates on which a person wrote something down; the day told of where the moment cannot be right."""
    zone = ZoneInfo(household.time_zone)
    found = set()
    for event in events:
        if isinstance(event, Taught | Marked | Looked | Attended | Noted):
            on = event.head.at.astimezone(UTC).astimezone(zone).date()
            found.add(on if event.head.day <= on <= today else event.head.day)
    return found


def _samples(learner: Learner, events: Sequence[Event]) -> tuple[Sample, ...]:
    """The marked sheets that were printed here, item by item."""
    marked = {event.sheet: (day, event) for day, event in _marked(events) if event.sheet}
    sheets = {row.sheet_id: row for row in selectors.sheets_of(learner) if row.sheet_id in marked}
    found = []
    for sheet, (day, event) in marked.items():
        if sheet in sheets:
            items = {item.n: item for page in selectors.pages_of(sheets[sheet]) for item in page.items}
            told = tuple(
                SampleItem(items[mark.n].text, items[mark.n].answer, mark.answer or "", mark.state)
                for mark in event.items
                if mark.n in items
            )
            found.append(Sample(day, event.lesson, told))
    return tuple(found)
