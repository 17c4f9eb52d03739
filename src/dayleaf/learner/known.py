"""What a child is believed to know: the values, and how sure we are on a given day."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from datetime import timedelta
from math import log, sqrt
from statistics import NormalDist
from typing import TYPE_CHECKING, Final, Literal

from dayleaf.learner.memory import (
    GUESS,
    OFFSET_VARIANCE,
    PREREQUISITE_LEVEL,
    PREREQUISITE_WEIGHT,
    SLIP,
    Ability,
    SkillState,
    chance_right,
    logistic,
    on_day,
    practice_logit,
)

if TYPE_CHECKING:
    from collections.abc import Container, Iterable, Mapping
    from datetime import date

    from dayleaf.core.ids import EventId, LessonId, SkillId
    from dayleaf.course.model import Course, Role

Word = Literal["not yet", "new", "shaky", "firm", "rusty"]

LEVEL: Final = 0.7
"""Firmness asks for at least this chance of a right answer (DESIGN 9: go on if P(p ≥ .7) ≥ .5)."""
FIRM: Final = 0.5
LITTLE_PRACTICE: Final = 4
"""Fewer answers than this and a skill is *new* (common practice, no source)."""
NOT_SEEN_FOR_LONG: Final = 7
"""Days after which a firm skill may turn *rusty*; before, it keeps its word (common practice, no source)."""

BROUGHT_ROLES: Final[frozenset[Role]] = frozenset({"below", "refresh"})
BROUGHT: Final = log(PREREQUISITE_LEVEL / (1 - PREREQUISITE_LEVEL)) + 0.7
"""The u of a skill that a child brings along: it starts at the level where prerequisites neither help nor hold
back. An assumption until the child is placed; every other skill has u = 0."""


@dataclass(frozen=True, slots=True)
class Known:
    """What is believed of one skill on one day.

    `p` is the chance of a right answer to a written item, `sd` its standard deviation, `firm` the chance
    that p is at least .7. `word` says it to a parent:

    - not yet: neither taught nor asked in this household;
    - new: taught or asked, but fewer than 4 answers;
    - firm: P(p ≥ .7) ≥ .5 today, or on the day after it was last asked if that is less than 7 days ago;
    - rusty: it was firm on the day after it was last asked, is not firm today, and 7 days or more went by;
    - shaky: everything else.

    `asked` and `right` count answers; `last_asked` is None and `days_since` is None where there are none.
    """

    p: float
    sd: float
    firm: float
    word: Word
    last_asked: date | None
    asked: int
    right: int
    days_since: int | None


@dataclass(frozen=True, slots=True)
class Beliefs:
    """Everything believed of one child after the events up to `upto`: a cache of the log, never the truth.

    `last_day` is the day of the last event that counted and `taught_then` the lessons taught on it: what
    `belief.resume` needs to know whether it may go on from here. `marked` counts markings. `brought` are skills
    that the child is taken to bring along, beside those whose role says so.
    """

    course: Course = field(repr=False, compare=False)
    upto: date
    skills: Mapping[SkillId, SkillState]
    ability: Ability = field(default_factory=Ability)
    marked: int = 0
    last_event: EventId | None = None
    last_day: date | None = None
    taught_then: frozenset[LessonId] = frozenset()
    brought: frozenset[SkillId] = frozenset()

    def known(self, skill: SkillId, day: date) -> Known:
        """What is believed of `skill` on `day`; a later day is a longer gap."""
        return known_from(self, skill, day, etas_on(self, day, (skill,)))

    def known_all(self, day: date) -> dict[SkillId, Known]:
        """`known` for every skill of the course, in the course's order."""
        etas = etas_on(self, day, self.course.skills)
        return {skill: known_from(self, skill, day, etas) for skill in self.course.skills}

    def state(self, skill: SkillId) -> SkillState:
        """What is kept of a skill; an empty state where nothing happened."""
        return self.skills.get(skill, _EMPTY)


_EMPTY: Final = SkillState()
_NORMAL: Final = NormalDist()


def skill_logit(course: Course, skill: SkillId, brought: Container[SkillId] = ()) -> float:
    """The u of a skill: what is assumed before anything is seen (0, or more for what a child brings along)."""
    return BROUGHT if course.skills[skill].role in BROUGHT_ROLES or skill in brought else 0.0


def etas_on(beliefs: Beliefs, day: date, skills: Iterable[SkillId]) -> dict[SkillId, float]:
    """η of these skills and of all beneath them on `day`.

    η = b0 + u + a + m + Σ cᵢ ln(1+Cᵢ) − Σ fᵢ ln(1+Fᵢ) + 1.8 (mean over prerequisites of logistic(η) − 0.8);
    a skill without prerequisites has no last term.
    """
    etas: dict[SkillId, float] = {}
    for skill in skills:
        _add_eta(beliefs, day, skill, etas)
    return etas


def _add_eta(beliefs: Beliefs, day: date, skill: SkillId, etas: dict[SkillId, float]) -> float:
    found = etas.get(skill)
    if found is not None:
        return found
    state = beliefs.skills.get(skill)
    own = practice_logit(_EMPTY if state is None else on_day(state, day))
    below = [
        logistic(_add_eta(beliefs, day, prerequisite, etas))
        for prerequisite in beliefs.course.skills[skill].prereqs
        if prerequisite in beliefs.course.skills
    ]
    eta = own + beliefs.ability.mean + skill_logit(beliefs.course, skill, beliefs.brought) + prerequisite_logit(below)
    etas[skill] = eta
    return eta


def prerequisite_logit(below: list[float]) -> float:
    """What prerequisites known at these levels add to η."""
    return PREREQUISITE_WEIGHT * (sum(below) / len(below) - PREREQUISITE_LEVEL) if below else 0.0


def firmness(eta: float, variance: float, *, level: float = LEVEL, guess: float = GUESS) -> float:
    """P(p ≥ level) = Φ((η − logit((level − g) / (1 − g − s))) / √V)."""
    share = (level - guess) / (1 - guess - SLIP)
    return _NORMAL.cdf((eta - log(share / (1 - share))) / sqrt(variance))


def known_from(beliefs: Beliefs, skill: SkillId, day: date, etas: Mapping[SkillId, float]) -> Known:
    """`Known` of a skill whose η on `day` is in `etas`."""
    state = beliefs.state(skill)
    today = on_day(state, day) if state.day is not None else replace(state, variance=OFFSET_VARIANCE)
    variance = today.variance + beliefs.ability.variance
    eta = etas[skill]
    q = logistic(eta)
    firm = firmness(eta, variance)
    days_since = None if state.asked_on is None else (day - state.asked_on).days
    return Known(
        p=chance_right(eta, variance),
        sd=(1 - GUESS - SLIP) * q * (1 - q) * sqrt(variance),
        firm=firm,
        word=_word(beliefs, skill, state, firm=firm, days_since=days_since),
        last_asked=state.asked_on,
        asked=state.asked,
        right=state.right,
        days_since=days_since,
    )


def _word(beliefs: Beliefs, skill: SkillId, state: SkillState, *, firm: float, days_since: int | None) -> Word:
    if state.asked_on is None or days_since is None:
        return "not yet" if state.taught_on is None else "new"
    if state.asked < LITTLE_PRACTICE:
        return "new"
    if firm >= FIRM:
        return "firm"
    return _word_when_not_firm(was_firm=_was_firm(beliefs, skill, state.asked_on), days_since=days_since)


def _word_when_not_firm(*, was_firm: bool, days_since: int) -> Word:
    if not was_firm:
        return "shaky"
    return "rusty" if days_since >= NOT_SEEN_FOR_LONG else "firm"


def _was_firm(beliefs: Beliefs, skill: SkillId, asked_on: date) -> bool:
    next_day = asked_on + timedelta(days=1)
    state = on_day(beliefs.state(skill), next_day)
    eta = etas_on(beliefs, next_day, (skill,))[skill]
    return firmness(eta, state.variance + beliefs.ability.variance) >= FIRM
