"""What the newest marks show, in two sentences, kept for the pages."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Any

from dayleaf.course.load import grade2
from dayleaf.learner.belief import MODEL_VERSION
from dayleaf.learner.seen import Seen, seen_in_marks
from dayleaf.learner.words import WEEKDAYS, two_sentences
from dayleaf.records import selectors, services
from dayleaf.records.habits import habits_before

if TYPE_CHECKING:
    from collections.abc import Sequence

    from dayleaf.core.ids import SkillId
    from dayleaf.events.model import Marked
    from dayleaf.records.models import Learner

KIND = "seen 3"


@dataclass(frozen=True, slots=True)
class LastSeen:
    """What the marks of one day showed: the verdict, how many were right, and the sentences."""

    day: date
    right: int
    of: int
    sentences: str
    verdict: str

    @property
    def first_sentence(self) -> str:
        """What was seen, without what comes back."""
        first, dot, _rest = self.sentences.partition(". ")
        return first + "." if dot else first


def newest_marks(learner: Learner) -> tuple[Marked, ...]:
    """The markings of printed sheets on the newest day that has any, corrections in place of what they correct."""
    marked = selectors.newest_marked(learner)
    replaced = {event.replaces for event in marked}
    return tuple(event for event in marked if event.head.id not in replaced)


def seen_in(learner: Learner, marked: Sequence[Marked]) -> Seen:
    """What these markings show together, with what the marks of earlier days say about habits."""
    sheets = (selectors.sheet_find(learner.household, one.sheet) for one in marked)
    pages = tuple(page for sheet in sheets for page in selectors.pages_of(sheet))
    before = habits_before(learner, min(one.head.day for one in marked)) if marked else None
    return seen_in_marks(grade2(), tuple(mark for one in marked for mark in one.items), pages, before=before)


def say_seen(learner: Learner, seen: Seen, marked: Sequence[Marked], *, named: Sequence[SkillId], when: str) -> str:
    """The two sentences about the newest marks, kept for the pages; `named` are skills that come back `when`."""
    titles = [grade2().skills[skill].title for skill in named]
    sentences = two_sentences(seen, titles, when=when)
    if marked:
        reached = [mark for one in marked for mark in one.items if mark.state != "not reached"]
        payload = {
            "day": marked[-1].head.day.isoformat(),
            "right": sum(mark.state == "right" for mark in reached),
            "of": len(reached),
            "sentences": sentences,
            "verdict": seen.seen,
        }
        services.cache_keep(learner=learner, kind=KIND, model_version=MODEL_VERSION, payload=payload)
    return sentences


def last_seen(learner: Learner) -> LastSeen | None:
    """What was seen last, for a page that only reads; None where that was not worked out since the last event."""
    data: Any = selectors.cached(learner, KIND, MODEL_VERSION)
    if data is None:
        return None
    return LastSeen(date.fromisoformat(data["day"]), data["right"], data["of"], data["sentences"], data["verdict"])


def when_said(on: date, today: date) -> str:
    """A coming day as a sentence begins: Tomorrow, On Thursday, On 12 January."""
    days = (on - today).days
    if days == 1:
        return "Tomorrow"
    return f"On {WEEKDAYS[on.weekday()]}" if days < 7 else f"On {on:%-d %B}"
