"""What a child is believed to know: the values, and how sure we are on a given day."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from typing import TYPE_CHECKING, Final, Literal

import numpy as np

from dayleaf.learner.mind import NEVER
from dayleaf.learner.outlook import look

if TYPE_CHECKING:
    from collections.abc import Iterable

    from dayleaf.core.ids import EventId, LessonId, SkillId
    from dayleaf.course.model import Course
    from dayleaf.learner.mind import Mind

Word = Literal["not yet", "new", "shaky", "firm", "rusty"]

FIRM: Final = 0.5
LITTLE_PRACTICE: Final = 4
"""Fewer answers than this and a skill is *new* (common practice, no source)."""
NOT_SEEN_FOR_LONG: Final = 7
"""Days after which a firm skill may turn *rusty*; before, it keeps its word (common practice, no source)."""


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
class SkillState:
    """What is kept of one skill, to be looked at. Counts and variance stand for `day` (see `mind.Mind`)."""

    day: date
    rights: tuple[float, float, float]
    wrongs: float
    offset: float
    variance: float
    taught_on: date | None
    asked_on: date | None
    asked_then: int
    right_then: int
    asked: int
    right: int


@dataclass(frozen=True, slots=True)
class Beliefs:
    """Everything believed of one child after the events up to `upto`: a cache of the log, never the truth.

    `mind` holds it by the day's ordinal and is never changed once it is here. `last_day` is the day of the last
    event that counted and `taught_then` the lessons taught on it: what `belief.resume` needs to know whether it may
    go on from here. `marked` counts markings. `brought` are skills that the child is taken to bring along, beside
    those whose role says so.
    """

    course: Course = field(repr=False, compare=False)
    upto: date
    mind: Mind = field(repr=False)
    marked: int = 0
    last_event: EventId | None = None
    last_day: date | None = None
    taught_then: frozenset[LessonId] = frozenset()
    brought: frozenset[SkillId] = frozenset()

    def known(self, skill: SkillId, day: date) -> Known:
        """What is believed of `skill` on `day`; a later day is a longer gap."""
        return self._known((skill,), day)[skill]

    def known_all(self, day: date) -> dict[SkillId, Known]:
        """`known` for every skill of the course, in the course's order."""
        return self._known(self.mind.graph.ids, day)

    @property
    def skills(self) -> dict[SkillId, SkillState]:
        """What is kept of every skill to which something happened."""
        stand = self.mind.stand
        return {
            skill: _state(self.mind, number)
            for number, skill in enumerate(self.mind.graph.ids)
            if stand[number] != NEVER and self._happened(number)
        }

    def _happened(self, number: int) -> bool:
        """Whether there is practice of a skill; one only looked beneath stands for a day but holds nothing."""
        mind = self.mind
        return mind.term[number] > 0 or mind.wrong[number] > 0 or mind.taught_on[number] != NEVER

    def _known(self, skills: Iterable[SkillId], day: date) -> dict[SkillId, Known]:
        mind = self.mind
        now = look(mind, float(day.toordinal()))
        p, sd, firm = now.p.tolist(), now.sd().tolist(), now.firm().tolist()
        asked_on = np.array(mind.asked_on)
        then = look(mind, np.where(asked_on == NEVER, day.toordinal(), asked_on + 1)).firm().tolist()
        found = {}
        for skill in skills:
            one = mind.graph.number[skill]
            last = as_date(mind.asked_on[one])
            days_since = None if last is None else (day - last).days
            found[skill] = Known(
                p=p[one],
                sd=sd[one],
                firm=firm[one],
                word=_word(mind, one, firm=firm[one], was_firm=then[one] >= FIRM, days_since=days_since),
                last_asked=last,
                asked=int(mind.asked[one]),
                right=int(mind.right[one]),
                days_since=days_since,
            )
        return found


def as_date(day: float) -> date | None:
    """The date of an ordinal kept in a mind; None for never."""
    return None if day == NEVER else date.fromordinal(int(day))


def _state(mind: Mind, one: int) -> SkillState:
    return SkillState(
        day=date.fromordinal(int(mind.stand[one])),
        rights=(mind.recent[one], mind.month[one], mind.term[one]),
        wrongs=mind.wrong[one],
        offset=mind.offset[one],
        variance=mind.variance[one],
        taught_on=as_date(mind.taught_on[one]),
        asked_on=as_date(mind.asked_on[one]),
        asked_then=int(mind.asked_then[one]),
        right_then=int(mind.right_then[one]),
        asked=int(mind.asked[one]),
        right=int(mind.right[one]),
    )


def _word(mind: Mind, one: int, *, firm: float, was_firm: bool, days_since: int | None) -> Word:
    if days_since is None:
        return "not yet" if mind.taught_on[one] == NEVER else "new"
    if mind.asked[one] < LITTLE_PRACTICE:
        return "new"
    if firm >= FIRM:
        return "firm"
    if not was_firm:
        return "shaky"
    return "rusty" if days_since >= NOT_SEEN_FOR_LONG else "firm"
