"""Which earlier skills come back on a day, and why."""

from __future__ import annotations

import random
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from dayleaf.learner.known import as_date
from dayleaf.learner.mind import NEVER
from dayleaf.learner.outlook import look
from dayleaf.learner.words import Reason, why_back
from dayleaf.learner.worth import NEVER_SEEN, SOON_BELOW, SOON_FACTOR, worth

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Mapping, Sequence
    from datetime import date

    from dayleaf.core.ids import SkillId
    from dayleaf.course.model import Course, Day
    from dayleaf.learner.belief import Beliefs

RANDOM_SHARE: Final = 0.1
"""Random places keep later fits of the model unbiased (DESIGN 9, which took a fifth: that cost .002 of P(right))."""
OF_ONE_STRAND: Final = 2
AT_LEAST: Final = 5
"""So many different skills a back shows where it can; only for their sake may a strand have a third."""


@dataclass(frozen=True, slots=True)
class Back:
    """A skill that comes back, and why in a few words."""

    skill: SkillId
    why: str


def choose_back(
    beliefs: Beliefs,
    *,
    candidates: Iterable[SkillId],
    today_skills: Collection[SkillId],
    soon: Mapping[SkillId, date],
    day: date,
    n: int,
    seed: int,
    default: Sequence[SkillId] = (),
) -> tuple[Back, ...]:
    """Up to `n` skills for the back of `day`, one item each, none of them today's, the most useful first.

    The score of a skill is its `worth` (how long it has waited, what one more right answer would lift, whether it was
    wrong last time) × (1.65 if p < .85 and `soon` needs it). About a tenth of the
    places is drawn at random by `seed`. At most two skills are of one strand. `soon` gives the first day on
    which a lesson of the next days needs a skill (`needed_soon`).

    As long as nothing was ever marked there is nothing to choose by: the skills of `default` (the course's own
    list for the day) come first, then those not seen for longest; the first reason says so.
    """
    known = beliefs.course.skills
    pool = list(dict.fromkeys(skill for skill in candidates if skill in known and skill not in today_skills))
    pick = _Pick(beliefs, pool)
    if not beliefs.marked:
        listed = [skill for skill in default if skill in pool]
        rest = sorted((skill for skill in pool if skill not in listed), key=lambda one: -_days_since(beliefs, one, day))
        chosen = pick.first(n, [*listed, *rest])
        return tuple(
            Back(skill, why_back(Reason(kind="no marks yet" if place == 0 else "course list"), day=day))
            for place, skill in enumerate(chosen)
        )
    chance = random.Random(seed)
    places = _random_places(n, chance)
    drawn = pick.first(places, chance.sample(pool, min(len(pool), 4 * places)))
    scores = back_scores(beliefs, pool, soon=soon, day=day)
    ranked = sorted((skill for skill in pool if skill not in drawn), key=scores.__getitem__, reverse=True)
    chosen = pick.first(n - len(drawn), ranked)
    return (
        *(Back(skill, why_back(_reason(beliefs, skill, soon=soon, day=day), day=day)) for skill in chosen),
        *(Back(skill, why_back(Reason(kind="random"), day=day)) for skill in drawn),
    )


def back_scores(
    beliefs: Beliefs, skills: Iterable[SkillId], *, soon: Mapping[SkillId, date], day: date
) -> dict[SkillId, float]:
    """`worth` × (1.65 if p < .85 and needed soon), by skill."""
    on = float(day.toordinal())
    now = look(beliefs.mind, on)
    scores, p = worth(beliefs.mind, now, on).tolist(), now.p.tolist()
    number = beliefs.mind.graph.number
    return {
        skill: scores[number[skill]] * (SOON_FACTOR if skill in soon and p[number[skill]] < SOON_BELOW else 1.0)
        for skill in skills
    }


def needed_soon(course: Course, coming: Iterable[tuple[date, Day]]) -> dict[SkillId, date]:
    """The first day on which each skill is needed: asked on that day's front, refreshed, or right beneath."""
    needed: dict[SkillId, date] = {}
    for day, lesson in coming:
        for skill in (*lesson.front_skills, *lesson.new_skills, *lesson.refresh_skills):
            for one in (skill, *(course.skills[skill].prereqs if skill in course.skills else ())):
                needed[one] = min(day, needed.get(one, day))
    return needed


class _Pick:
    """Takes skills one by one, at most two of a strand unless too few would be left."""

    def __init__(self, beliefs: Beliefs, pool: Sequence[SkillId]) -> None:
        self._strand = {skill: beliefs.course.skills[skill].strand for skill in pool}
        self._taken: list[SkillId] = []

    def first(self, n: int, ranked: Sequence[SkillId]) -> list[SkillId]:
        before = len(self._taken)
        for most in (OF_ONE_STRAND, len(self._strand) + 1):
            wanted = n if most == OF_ONE_STRAND else min(n, AT_LEAST - before)
            for skill in ranked:
                if len(self._taken) - before >= wanted:
                    break
                if skill not in self._taken and self._count(skill) < most:
                    self._taken.append(skill)
        return self._taken[before:]

    def _count(self, skill: SkillId) -> int:
        return sum(self._strand[one] == self._strand[skill] for one in self._taken)


def _random_places(n: int, chance: random.Random) -> int:
    whole, part = divmod(n * RANDOM_SHARE, 1)
    return int(whole) + (chance.random() < part)


def _days_since(beliefs: Beliefs, skill: SkillId, day: date) -> float:
    number, mind = beliefs.mind.graph.number[skill], beliefs.mind
    last = max(mind.asked_on[number], mind.taught_on[number])
    return NEVER_SEEN if last == NEVER else max(day.toordinal() - last, 0)


def _reason(beliefs: Beliefs, skill: SkillId, *, soon: Mapping[SkillId, date], day: date) -> Reason:
    number, mind = beliefs.mind.graph.number[skill], beliefs.mind
    asked_on = as_date(mind.asked_on[number])
    return Reason(
        kind="due",
        asked_days_ago=None if asked_on is None else (day - asked_on).days,
        taught_on=as_date(mind.taught_on[number]),
        asked_then=int(mind.asked_then[number]),
        right_then=int(mind.right_then[number]),
        needed_on=soon.get(skill),
    )
