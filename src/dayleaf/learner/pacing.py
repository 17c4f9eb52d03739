"""Go on, repeat, re-teach or skip: what a lesson's answers say about the next day, and what a spare day is good for.

References:
    [1] The rules and their thresholds: DESIGN 9 of this project, tried on virtual children only (docs/learner.md).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal

from dayleaf.learner.mind import NEVER
from dayleaf.learner.outlook import look

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from dayleaf.learner.mind import Mind

Step = Literal["go on", "repeat", "re-teach", "skip"]

LEVEL: Final = 0.7
FIRM: Final = 0.5
"""Go on if P(p ≥ .7 tomorrow) ≥ .5 (DESIGN 9)."""
MOST_REPEATS: Final = 2
MOST_BEHIND: Final = 3
"""So many lessons a child may wait for; from there on the course goes on and spare days mend."""
RETEACH_BELOW: Final = 0.55
RETEACH_AFTER: Final = 9
"""Days since the last lesson after which a skill may be taught again on a spare day."""
SKIP_LEVEL: Final = 0.75
PRECHECK: Final = 6
"""Questions before a lesson; all right and P(p ≥ .75) ≥ .5, and the lesson may be skipped."""
ENOUGH: Final = 4
STUCK: Final = 0.2
"""Answers from which on, and P(p ≥ .7) below which, a skill holds back what stands on it (no source)."""
WORTHWHILE: Final = 0.3
"""A pre-check is offered from this P(p ≥ .7) on: below it, six right answers are too unlikely to be worth the time."""


@dataclass(frozen=True, slots=True)
class Pace:
    """What to do after a lesson, the chance of a right answer tomorrow, and how sure it is that it is .7 or more."""

    step: Step
    p: float
    firm: float


def pace(mind: Mind, skill: int, day: float, *, lessons: int, waiting: int = 0) -> Pace:
    """The step after `lessons` lessons on a skill, the last of them on `day`; `waiting` lessons are overdue.

    - skip: never taught, the six newest answers all right, and P(p ≥ .75 tomorrow) ≥ .5;
    - go on: P(p ≥ .7 tomorrow) ≥ .5, or taught three times, or three lessons are waiting;
    - re-teach: far from it after two lessons;
    - repeat: everything else.
    """
    tomorrow = look(mind, day + 1)
    p, firm = float(tomorrow.p[skill]), float(tomorrow.firm(LEVEL)[skill])
    all_right = mind.asked[skill] >= PRECHECK and mind.right_then[skill] == mind.asked_then[skill]
    if not lessons and all_right and float(tomorrow.firm(SKIP_LEVEL)[skill]) >= FIRM:
        return Pace("skip", p, firm)
    if firm >= FIRM or lessons > MOST_REPEATS or waiting >= MOST_BEHIND:
        return Pace("go on", p, firm)
    return Pace("re-teach" if lessons > 1 and p < RETEACH_BELOW else "repeat", p, firm)


def stuck_beneath(mind: Mind, skill: int, day: float, lessons: Mapping[int, int]) -> int | None:
    """The skill that holds a lesson on `skill` back: right beneath it, taught but stuck. The lowest chance first.

    Stuck is a chance below .55 tomorrow where P(p ≥ .7) is below a fifth, after four answers and no more than three
    lessons; one taught three times holds nothing back any more, spare days mend it.
    """
    tomorrow = look(mind, day + 1)
    p, firm = tomorrow.p, tomorrow.firm(LEVEL)
    stuck = [
        one
        for one in mind.graph.beneath[skill]
        if mind.asked[one] >= ENOUGH
        and p[one] < RETEACH_BELOW
        and firm[one] < STUCK
        and lessons.get(one, 0) <= MOST_REPEATS
    ]
    return min(stuck, key=lambda one: (float(p[one]), one), default=None)


def spare_day(mind: Mind, day: float, met: Iterable[int]) -> int | None:
    """The skill to teach again on a spare day: the lowest chance below .55, not taught for nine days."""
    p = look(mind, day).p
    waiting = [
        skill
        for skill in met
        if p[skill] < RETEACH_BELOW and mind.taught_on[skill] != NEVER and day - mind.taught_on[skill] >= RETEACH_AFTER
    ]
    return min(waiting, key=lambda skill: (float(p[skill]), skill), default=None)


def precheck(mind: Mind, skill: int, day: float) -> int:
    """How many questions to ask before a first lesson: six where skipping is likely enough, else none."""
    if mind.taught_on[skill] != NEVER:
        return 0
    return PRECHECK if float(look(mind, day).firm(LEVEL)[skill]) >= WORTHWHILE else 0
