"""What a child’s earlier marks say about habits: a cache of the log, equal to reading it afresh."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from dayleaf.course.load import grade2
from dayleaf.events.model import Marked
from dayleaf.learner.codec import StaleBeliefs
from dayleaf.learner.habits import Habits
from dayleaf.learner.habits_data import HABITS_VERSION, habits_from_data, habits_to_data
from dayleaf.learner.seen import habits_in_marks
from dayleaf.records import selectors, services

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable

    from dayleaf.core.ids import EventId
    from dayleaf.events.model import Event
    from dayleaf.records.models import Learner

KIND = "habits"


def habits_before(learner: Learner, day: date) -> Habits:
    """What the markings of printed sheets of all days before `day` say, oldest first, corrections applied.

    What was kept is read on from its day; a correction, or a sheet of an earlier day marked since, reads everything
    again.
    """
    kept, since = _kept(learner, day)
    marked = [event for event in selectors.events_of(learner, Marked) if isinstance(event, Marked) and event.sheet]
    new = [event for on, event in _on_their_days(marked) if since <= on < day]
    if not new:
        return kept
    course, habits = grade2(), kept
    for event in new:
        pages = selectors.pages_of(selectors.sheet_find(learner.household, event.sheet))
        habits = habits_in_marks(course, event.items, pages, before=habits)
    payload = {"day": day.isoformat(), "habits": habits_to_data(habits)}
    services.cache_keep(learner=learner, kind=KIND, model_version=HABITS_VERSION, payload=payload)
    return habits


def _kept(learner: Learner, day: date) -> tuple[Habits, date]:
    """The state kept, and the first day that it does not hold; a fresh one where it cannot be read on."""
    data, last = selectors.cached_once(learner, KIND, HABITS_VERSION)
    if last is None:
        return Habits(), date.min
    try:
        first, habits = date.fromisoformat(data["day"]), habits_from_data(data["habits"])
    except (StaleBeliefs, KeyError, TypeError, ValueError):
        return Habits(), date.min
    fits = first <= day and not _reaches_back(selectors.events_since(learner, last), first)
    return (habits, first) if fits else (Habits(), date.min)


def _reaches_back(events: Collection[Event], first: date) -> bool:
    own = {event.head.id for event in events}
    return any(
        isinstance(event, Marked)
        and (event.head.day < first or (event.replaces is not None and event.replaces not in own))
        for event in events
    )


def _on_their_days(marked: Iterable[Marked]) -> list[tuple[date, Marked]]:
    """The markings that hold, each with the day of the first one in its place, oldest first."""
    found: dict[EventId, tuple[date, Marked]] = {}
    for event in marked:
        day = event.head.day
        if event.replaces is not None and event.replaces in found:
            day = found.pop(event.replaces)[0]
        found[event.head.id] = (day, event)
    return sorted(found.values(), key=lambda one: one[0])
