"""Today's morning as it is kept between writes: laid out once after each, and only read by the day's page."""

from __future__ import annotations

import hashlib
from dataclasses import asdict, dataclass
from typing import TYPE_CHECKING, Any

from dayleaf.core.ids import LearnerId
from dayleaf.plan.morning import plan_morning, soon_morning
from dayleaf.plan.week import WeekLesson
from dayleaf.records import selectors, services
from dayleaf.records.weeks import morning_needs

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from datetime import date

    from dayleaf.course.model import Day
    from dayleaf.plan.morning_model import MorningNeeds, MorningPlan, PhaseKind
    from dayleaf.records.models import Household, Learner

KIND = "morning"


@dataclass(frozen=True, slots=True)
class Stretch:
    """Some minutes of one child: with the adult (`led`) or alone; `start` counts from the morning's first minute."""

    learner: str
    kind: PhaseKind
    start: int
    minutes: int


@dataclass(frozen=True, slots=True)
class Strip:
    """The morning in stretches, by start; how long it lasts, and what had to be left out, in sentences."""

    stretches: tuple[Stretch, ...]
    minutes: int
    left_out: tuple[str, ...]

    @property
    def with_adult(self) -> int:
        """The adult's minutes."""
        return sum(one.minutes for one in self.stretches if one.kind == "led")


def morning_of(household: Household, lessons: Iterable[tuple[Learner, Day]], *, today: date) -> Strip:
    """The morning of these lessons: as it was laid out, or where nobody has yet, by simple rules alone."""
    learners, needs = _needs(household, lessons, today)
    if not learners:
        return Strip((), 0, ())
    kept: Any = selectors.cached_once(learners[0], KIND, _version(needs))[0]
    return _strip(soon_morning(needs)) if kept is None else _read(kept)


def morning_keep(household: Household, lessons: Iterable[tuple[Learner, Day]], *, today: date) -> None:
    """Lay the morning of these lessons out and keep it, unless it is kept already."""
    learners, needs = _needs(household, lessons, today)
    if learners and selectors.cached_once(learners[0], KIND, _version(needs))[0] is None:
        strip = asdict(_strip(plan_morning(needs)))
        services.cache_keep(learner=learners[0], kind=KIND, model_version=_version(needs), payload=strip)


def _needs(
    household: Household, lessons: Iterable[tuple[Learner, Day]], today: date
) -> tuple[Sequence[Learner], MorningNeeds]:
    found = tuple(lessons)
    learners = tuple({learner.id: learner for learner, _ in found}.values())
    wanted = [WeekLesson(LearnerId(learner.id), today, lesson) for learner, lesson in found]
    return learners, morning_needs(household, learners, wanted, today)


def _version(needs: MorningNeeds) -> str:
    """The name of what was asked: the same needs have the same morning."""
    return hashlib.blake2b(repr(needs).encode(), digest_size=16).hexdigest()


def _strip(plan: MorningPlan) -> Strip:
    stretches = tuple(Stretch(one.learner, one.kind, one.start, one.minutes) for one in plan.sessions)
    return Strip(stretches, plan.minutes, tuple(one.says for one in plan.left_out))


def _read(kept: Any) -> Strip:
    return Strip(tuple(Stretch(**one) for one in kept["stretches"]), kept["minutes"], tuple(kept["left_out"]))
