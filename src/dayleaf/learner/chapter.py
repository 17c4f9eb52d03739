"""After a chapter test: go on, fix up for some minutes, take form B next week, or teach again from a day on."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal

from dayleaf.learner.words import count_word, listed

if TYPE_CHECKING:
    from collections.abc import Iterable

    from dayleaf.core.ids import LessonId, SkillId
    from dayleaf.course.model import Course
    from dayleaf.events.model import ItemMark

TestStep = Literal["go on", "fix up", "form B", "re-teach"]

HOLDS: Final = 0.8
"""A skill holds with four of five right; one miss alone is a slip (JOB 1.11: 4 of 5, go on)."""
HALF: Final = 0.5
MINUTES_A_SKILL: Final = 5
MOST_MINUTES: Final = 15
"""The tenth day of a chapter has 10 to 15 minutes for fixing up (JOB 1.11)."""


@dataclass(frozen=True, slots=True)
class SkillResult:
    """How many of a skill's items on the test were right; blank ones count as wrong, those not reached not at all."""

    skill: SkillId
    right: int
    of: int

    @property
    def holds(self) -> bool:
        """Whether at most one was missed, or four of five were right."""
        return self.of - self.right <= 1 < self.of or self.right >= HOLDS * self.of


@dataclass(frozen=True, slots=True)
class TestAdvice:
    """What to do after a test, by skill. `minutes` only with *fix up*, `from_lesson` only with *re-teach*.

    `evidence` says what it rests on and `change` what would change it, one sentence each. The parent decides; another
    choice is an event of its own.
    """

    step: TestStep
    results: tuple[SkillResult, ...]
    minutes: int | None
    from_lesson: LessonId | None
    evidence: str
    change: str


def after_test(course: Course, chapter: int, marks: Iterable[ItemMark]) -> TestAdvice:
    """The advice after the test of a chapter.

    - go on: every skill holds;
    - fix up: at most a third of the skills do not hold, each at least half right; five minutes a skill, at most 15;
    - re-teach: half of the skills or more are less than half right; from the first day that taught one of them;
    - form B: everything between: teach what did not hold, then the second form next week.
    """
    right: Counter[SkillId] = Counter()
    of: Counter[SkillId] = Counter()
    for mark in marks:
        if mark.state != "not reached":
            of[mark.skill] += 1
            right[mark.skill] += mark.state == "right"
    results = tuple(SkillResult(skill, right[skill], of[skill]) for skill in of)
    open_ = [one for one in results if not one.holds]
    low = [one for one in open_ if one.right < HALF * one.of]
    if not open_:
        step: TestStep = "go on"
    elif len(low) * 2 >= len(results):
        step = "re-teach"
    elif not low and len(open_) * 3 <= len(results):
        step = "fix up"
    else:
        step = "form B"
    share = f"{count_word(right.total())} of {count_word(of.total())} right".capitalize()
    names = listed(
        [course.skills[one.skill].title if one.skill in course.skills else one.skill for one in open_ or results]
    )
    return TestAdvice(
        step=step,
        results=results,
        minutes=min(MOST_MINUTES, MINUTES_A_SKILL * len(open_)) if step == "fix up" else None,
        from_lesson=_first_day(course, chapter, {one.skill for one in low}) if step == "re-teach" else None,
        evidence=_evidence(share, "" if right == of else ": what was missed looks like slips") if not open_
        else f"{share}; {names} {'does' if len(open_) == 1 else 'do'} not hold yet.",
        change=_CHANGE[step],
    )  # fmt: skip


def _evidence(share: str, missed: str) -> str:
    return f"{share}, and every skill holds{missed}."


_CHANGE: Final[dict[TestStep, str]] = {
    "go on": "Two misses in one skill would change that; all of them stay among what comes back.",
    "fix up": "A skill with fewer than half right would call for form B instead.",
    "form B": "Form B with every skill holding is enough to go on.",
    "re-teach": "If the child was tired or in a hurry that day, take form B first.",
}


def _first_day(course: Course, chapter: int, skills: set[SkillId]) -> LessonId | None:
    days = [day for day in course.days if day.chapter == chapter]
    taught = (day.id for day in days if skills & {*day.new_skills, *day.front_skills})
    return next(taught, days[0].id if days else None)
