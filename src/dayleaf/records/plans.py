"""The plans in force, read once: each child's year as it is kept, and the family's year on a morning."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from dayleaf.core.ids import LearnerId
from dayleaf.plan.codec import from_json
from dayleaf.plan.kept import KeptYear, family_on
from dayleaf.records import selectors

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from datetime import date

    from dayleaf.plan.run import FamilyYear, RunPlan
    from dayleaf.records.models import Learner


@dataclass(frozen=True, slots=True)
class HomeYear:
    """The years of several children on a morning; `learners` stand beside `years`, `plans` beside `family.runs`."""

    learners: tuple[Learner, ...]
    years: tuple[KeptYear, ...]
    family: FamilyYear
    plans: tuple[RunPlan, ...]
    today: date

    def places(self, learners: Iterable[Learner] = ()) -> tuple[int, ...]:
        """The places among the runs that belong to these children; left out: all."""
        wanted = {learner.id for learner in learners} or {learner.id for learner in self.learners}
        return tuple(n for n, plan in enumerate(self.plans) if plan.run.learner in wanted)


def home_year(learners: Sequence[Learner], *, today: date) -> HomeYear:
    """The year of those of the children who have a plan."""
    found = [(learner, year) for learner in learners if (year := kept_year_or_none(learner)) is not None]
    years = tuple(year for _, year in found)
    family, plans = family_on(years, today)
    return HomeYear(tuple(learner for learner, _ in found), years, family, plans, today)


def kept_year(learner: Learner) -> KeptYear:
    """The year in force. Raises `NoPlan`."""
    return _read(selectors.plan_version(learner).plan, LearnerId(learner.id))


def kept_year_or_none(learner: Learner) -> KeptYear | None:
    """The same, None before the first plan."""
    version = selectors.plan_version_or_none(learner)
    return None if version is None else _read(version.plan, LearnerId(learner.id))


@lru_cache(maxsize=64)
def _read(plan: str, learner: LearnerId) -> KeptYear:
    """A year read once; the same text is the same year."""
    return from_json(plan, learner=learner)
