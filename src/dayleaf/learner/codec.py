"""Beliefs as plain data, for a cache. A cache is never in a backup and never the truth."""

from __future__ import annotations

from dataclasses import fields
from datetime import date
from typing import TYPE_CHECKING, Any

from dayleaf.core.errors import DayleafError
from dayleaf.core.ids import EventId, LessonId, SkillId
from dayleaf.learner.belief import MODEL_VERSION
from dayleaf.learner.known import Beliefs
from dayleaf.learner.memory import Ability, SkillState

if TYPE_CHECKING:
    from collections.abc import Mapping

    from dayleaf.course.model import Course

_DAYS = ("day", "taught_on", "asked_on")


class StaleBeliefs(DayleafError):
    """A cache of another model, or one that cannot be read; fold the log again."""

    def __init__(self) -> None:
        super().__init__("These beliefs were kept by another version; they must be read again from what happened.")


def beliefs_to_data(beliefs: Beliefs) -> dict[str, object]:
    """The beliefs as a dictionary that JSON can hold, exact to the last bit; the course is not in it."""
    return {
        "model": MODEL_VERSION,
        "upto": beliefs.upto.isoformat(),
        "ability": [beliefs.ability.mean, beliefs.ability.variance],
        "marked": beliefs.marked,
        "last_event": beliefs.last_event,
        "last_day": None if beliefs.last_day is None else beliefs.last_day.isoformat(),
        "taught_then": sorted(beliefs.taught_then),
        "brought": sorted(beliefs.brought),
        "skills": {skill: [_plain(getattr(state, name)) for name in _NAMES] for skill, state in beliefs.skills.items()},
    }


def beliefs_from_data(data: Mapping[str, Any], course: Course) -> Beliefs:
    """The beliefs that `beliefs_to_data` wrote.

    Raises:
        StaleBeliefs: they are of another model version or cannot be read.
    """
    if data.get("model") != MODEL_VERSION:
        raise StaleBeliefs
    try:
        mean, variance = data["ability"]
        return Beliefs(
            course=course,
            upto=date.fromisoformat(data["upto"]),
            skills={SkillId(skill): _state(values) for skill, values in data["skills"].items()},
            ability=Ability(mean=mean, variance=variance),
            marked=data["marked"],
            last_event=None if data["last_event"] is None else EventId(data["last_event"]),
            last_day=None if data["last_day"] is None else date.fromisoformat(data["last_day"]),
            taught_then=frozenset(LessonId(lesson) for lesson in data["taught_then"]),
            brought=frozenset(SkillId(skill) for skill in data["brought"]),
        )
    except (KeyError, TypeError, ValueError, AttributeError):
        raise StaleBeliefs from None


_NAMES = tuple(one.name for one in fields(SkillState))


def _plain(value: object) -> object:
    if isinstance(value, date):
        return value.isoformat()
    return list(value) if isinstance(value, tuple) else value


def _state(values: list[Any]) -> SkillState:
    read = dict(zip(_NAMES, values, strict=True))
    for name in _DAYS:
        if read[name] is not None:
            read[name] = date.fromisoformat(read[name])
    for name in ("rights", "wrongs"):
        read[name] = tuple(read[name])
    return SkillState(**read)
