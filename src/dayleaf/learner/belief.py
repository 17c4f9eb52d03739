"""From events to beliefs. The log is the truth; a belief is what one reads out of it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from dayleaf.core.errors import DayleafError
from dayleaf.events.model import Looked, Marked, Taught
from dayleaf.learner.graph import graph_of
from dayleaf.learner.known import Beliefs, Known
from dayleaf.learner.mind import Mind
from dayleaf.learner.parameters import DEFAULT, Parameters

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence
    from datetime import date

    from dayleaf.core.ids import EventId, LessonId, SkillId
    from dayleaf.course.model import Course
    from dayleaf.events.model import Event, HowFar

__all__ = ["MODEL_VERSION", "Beliefs", "EventsReachBack", "Known", "fold", "resume"]

MODEL_VERSION: Final = "belief-5"
"""Changes whenever the same events would give other beliefs; caches are keyed by it."""

Counted = Taught | Marked | Looked

HELPED: Final = 0.5
"""A helped answer tells half as much as one alone (common practice, no source)."""
LOOKED: Final = 0.25
"""A sheet only looked over tells of each of its skills a quarter of an answer (common practice, no source)."""
TAUGHT: Final[Mapping[HowFar, float]] = {"done": 1.0, "half": 0.5, "not today": 0.0, "not said": 0.0}

GUESSES: Final[Mapping[str, float]] = {"cmp": 1 / 3, "sign": 1 / 2, "tf": 1 / 2, "choose": 1 / 3}
"""One in k for a format with k things to choose from; every other format has the usual one."""


class EventsReachBack(DayleafError):
    """The new events change something before the beliefs' last day; the log must be folded from the start."""

    def __init__(self) -> None:
        super().__init__("The new events change an earlier day, so everything must be read again from the start.")


def fold(
    events: Iterable[Event],
    course: Course,
    *,
    upto: date,
    brought: frozenset[SkillId] = frozenset(),
    parameters: Parameters = DEFAULT,
) -> Beliefs:
    """What the events of one child up to the day `upto` (included) say about every skill.

    Events are taken by their day, and within a day in the order given. A marking that replaces another
    stands in its place, on its day; only the last of a chain counts. Of the same lesson taught twice on one
    day the last holds. An item left blank counts as wrong, one not reached as nothing, a helped one as half.
    Events of kinds that say nothing about skills, and skills that are not the course's, are passed over.
    `brought` names skills that the child is taken to know from before (lessons before the first day planned).
    """
    start = Beliefs(course=course, upto=upto, mind=Mind(graph_of(course, brought=brought), parameters), brought=brought)
    return _run(start, counted(events), upto=upto)


def resume(beliefs: Beliefs, later: Iterable[Event], *, upto: date) -> Beliefs:
    """The beliefs after some more events: the same as a fresh `fold` over all of them, at less cost.

    Events after the beliefs' `upto` were not folded; give them again when their day has come.

    Raises:
        EventsReachBack: one of them lies before the last day that was folded, corrects a marking that was
            folded, or says again how far a lesson of that day went.
    """
    later = list(later)
    own = {event.head.id for event in later}
    for event in later:
        reaches_back = isinstance(event, Marked) and event.replaces is not None and event.replaces not in own
        if reaches_back or _before(event, beliefs):
            raise EventsReachBack
    return _run(beliefs, counted(later), upto=upto)


def counted(events: Iterable[Event]) -> tuple[Counted, ...]:
    """The events that say something about skills, in the order in which they count, corrections applied."""
    ordered: list[Counted] = []
    place: dict[EventId, int] = {}
    taught: dict[tuple[LessonId, date], int] = {}
    dropped: set[int] = set()
    for event in events:
        if isinstance(event, Marked) and event.replaces in place:
            first = place[event.replaces]
            day = ordered[first].head.day
            ordered[first] = replace(event, head=replace(event.head, day=day))
            place[event.head.id] = first
            continue
        if isinstance(event, Taught):
            earlier = taught.get((event.lesson, event.head.day))
            if earlier is not None:
                dropped.add(earlier)
            taught[event.lesson, event.head.day] = len(ordered)
        if isinstance(event, Counted):
            place[event.head.id] = len(ordered)
            ordered.append(event)
    kept = [event for index, event in enumerate(ordered) if index not in dropped]
    return tuple(sorted(kept, key=lambda event: event.head.day))


def _before(event: Event, beliefs: Beliefs) -> bool:
    last = beliefs.last_day
    if last is None or not isinstance(event, Counted):
        return False
    if isinstance(event, Taught) and event.head.day == last and event.lesson in beliefs.taught_then:
        return True
    return event.head.day < last


def _run(beliefs: Beliefs, events: Sequence[Counted], *, upto: date) -> Beliefs:
    mind = beliefs.mind.copy()
    number = mind.graph.number
    last_day, taught_then = beliefs.last_day, set(beliefs.taught_then)
    marked, last_event = beliefs.marked, beliefs.last_event
    for event in events:
        day = event.head.day
        if day > upto:
            break
        if day != last_day:
            last_day, taught_then = day, set()
        on = float(day.toordinal())
        last_event = event.head.id
        if isinstance(event, Marked):
            marked += 1
            for mark in event.items:
                one = number.get(mark.skill)
                if one is not None and mark.state != "not reached":
                    mind.answer(
                        one,
                        on,
                        right=mark.state == "right",
                        weight=HELPED if mark.helped else 1.0,
                        guess=GUESSES.get(mark.format),
                    )
        else:
            skills = [number[skill] for skill in event.skills if skill in number]
            if isinstance(event, Taught):
                taught_then.add(event.lesson)
                _teach(mind, skills, on, share=TAUGHT[event.how_far])
            elif event.impression != "look later":
                for one in skills:
                    mind.look(one, on, right=event.impression == "all fine", weight=LOOKED)
    return replace(
        beliefs,
        upto=upto,
        mind=mind,
        marked=marked,
        last_event=last_event,
        last_day=last_day,
        taught_then=frozenset(taught_then),
    )


def _teach(mind: Mind, skills: Iterable[int], on: float, *, share: float) -> None:
    if share:
        for one in skills:
            mind.teach(one, on, credit=share)
