"""Beliefs as plain data, for a cache. A cache is never in a backup and never the truth."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, Any, Final

from dayleaf.core.errors import DayleafError
from dayleaf.core.ids import EventId, LessonId, SkillId
from dayleaf.learner.belief import MODEL_VERSION
from dayleaf.learner.graph import graph_of
from dayleaf.learner.known import Beliefs
from dayleaf.learner.mind import NEVER, OF_A_CHILD, OF_A_SKILL, Mind

if TYPE_CHECKING:
    from collections.abc import Mapping

    from dayleaf.course.model import Course

_DAYS: Final = frozenset(OF_A_SKILL.index(name) for name in ("stand", "taught_on", "asked_on"))


class StaleBeliefs(DayleafError):
    """A cache of another model, or one that cannot be read; fold the log again."""

    def __init__(self) -> None:
        super().__init__("These beliefs were kept by another version; they must be read again from what happened.")


def beliefs_to_data(beliefs: Beliefs) -> dict[str, object]:
    """The beliefs as a dictionary that JSON can hold, exact to the last bit; the course is not in it."""
    mind = beliefs.mind
    return {
        "model": MODEL_VERSION,
        "upto": beliefs.upto.isoformat(),
        "child": {name: getattr(mind, name) for name in OF_A_CHILD},
        "marked": beliefs.marked,
        "last_event": beliefs.last_event,
        "last_day": None if beliefs.last_day is None else beliefs.last_day.isoformat(),
        "taught_then": sorted(beliefs.taught_then),
        "brought": sorted(beliefs.brought),
        "skills": {
            skill: [None if value == NEVER else value for value in values]
            for skill, values in zip(
                mind.graph.ids, zip(*(getattr(mind, name) for name in OF_A_SKILL), strict=True), strict=True
            )
            if values[0] != NEVER
        },
    }


def beliefs_from_data(data: Mapping[str, Any], course: Course) -> Beliefs:
    """The beliefs that `beliefs_to_data` wrote.

    Raises:
        StaleBeliefs: they are of another model version or cannot be read.
    """
    if data.get("model") != MODEL_VERSION:
        raise StaleBeliefs
    try:
        brought = frozenset(SkillId(skill) for skill in data["brought"])
        mind = Mind(graph_of(course, brought=brought))
        for name in OF_A_CHILD:
            value = data["child"][name]
            setattr(mind, name, tuple(map(float, value)) if isinstance(value, (list, tuple)) else float(value))
        for skill, values in data["skills"].items():
            _put(mind, SkillId(skill), values)
        return Beliefs(
            course=course,
            upto=date.fromisoformat(data["upto"]),
            mind=mind,
            marked=data["marked"],
            last_event=None if data["last_event"] is None else EventId(data["last_event"]),
            last_day=None if data["last_day"] is None else date.fromisoformat(data["last_day"]),
            taught_then=frozenset(LessonId(lesson) for lesson in data["taught_then"]),
            brought=brought,
        )
    except (KeyError, TypeError, ValueError, AttributeError):
        raise StaleBeliefs from None


def _put(mind: Mind, skill: SkillId, values: list[float | None]) -> None:
    number = mind.graph.number.get(skill)
    if number is None:  # the course has dropped it
        return
    for place, (name, value) in enumerate(zip(OF_A_SKILL, values, strict=True)):
        if value is None and place not in _DAYS:
            raise ValueError(name)
        getattr(mind, name)[number] = NEVER if value is None else value
