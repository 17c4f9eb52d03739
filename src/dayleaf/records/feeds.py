"""The calendar that other programs read: what it says now, and what it has said before, so that nothing doubles.

Where another plan comes into force, what the calendar said until then is kept. So the calendar of a plan in force is
the same bytes each time, undo included, and a lesson whose event changes gets a higher SEQUENCE (RFC 5545, 3.8.7.4).
"""

from __future__ import annotations

import json
from datetime import date, datetime
from typing import TYPE_CHECKING

from django.utils import timezone

from dayleaf.core.ids import LearnerId
from dayleaf.plan.entries import entries_of_plan
from dayleaf.plan.feed import Announced, Feed, make_feed, written
from dayleaf.plan.feed_lines import plain
from dayleaf.records.models import FeedRow
from dayleaf.records.plans import kept_year_or_none
from dayleaf.records.services import canonical

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from dayleaf.plan.feed import Entry
    from dayleaf.plan.kept import KeptYear
    from dayleaf.records.models import Household, Learner


def calendar_of(household: Household, learners: Iterable[Learner]) -> bytes:
    """The lessons of these children as one calendar file, as it is now."""
    feeds = [_feed(learner, year) for learner in learners if (year := kept_year_or_none(learner)) is not None]
    events = [event for feed in feeds for event in feed.events]
    events.sort(key=lambda one: (one.announced.day, one.entry.learner if one.entry else "", one.uid))
    announced = {uid: one for feed in feeds for uid, one in feed.announced.items()}
    return written(Feed(plain(household.name), household.time_zone, tuple(events), announced))


def announced_of(learners: Iterable[Learner]) -> dict[str, Announced]:
    """What the calendar says of the lessons of these children, by the names of its events."""
    years = [(learner, year) for learner in learners if (year := kept_year_or_none(learner)) is not None]
    return {uid: one for learner, year in years for uid, one in _feed(learner, year).announced.items()}


def entries_of(learner: Learner, year: KeptYear) -> tuple[Entry, ...]:
    """The lessons of a child as calendar entries."""
    child = LearnerId(learner.id)
    return tuple(
        entry
        for plan in year.plans
        for entry in entries_of_plan(plan, learner=child, initial=learner.name[:1])
    )


def feed_turned(learner: Learner, *, day: date, at: datetime | None = None) -> None:
    """Keep what the calendar says until now: another plan is about to come into force on this day."""
    year = kept_year_or_none(learner)
    if year is not None:
        said = {uid: _plain(one) for uid, one in _feed(learner, year).announced.items()}
        kept = {"announced": canonical(said), "on": day, "at": at or timezone.now()}
        FeedRow.objects.update_or_create(learner=learner, defaults=kept)


def _feed(learner: Learner, year: KeptYear) -> Feed:
    home = learner.household
    row = FeedRow.objects.filter(learner=learner).first()
    return make_feed(
        entries_of(learner, year),
        household=home.id,
        name=home.name,
        zone=home.time_zone,
        today=row.on if row else year.main.first,
        stamp=row.at if row else None,
        before=_before(row.announced) if row else None,
    )


def _before(text: str) -> Mapping[str, Announced]:
    return {
        uid: Announced(sequence, content, date.fromisoformat(day), datetime.fromisoformat(stamp), live)
        for uid, (sequence, content, day, stamp, live) in json.loads(text).items()
    }


def _plain(one: Announced) -> list[object]:
    return [one.sequence, one.content, one.day.isoformat(), one.stamp.isoformat(), one.live]
