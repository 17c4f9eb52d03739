"""After a lesson's pages: go on, fix up, or re-teach, each with its evidence."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal

from dayleaf.learner.words import count_word

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable

    from dayleaf.core.ids import SkillId
    from dayleaf.events.model import ItemMark
    from dayleaf.learner.seen import Seen

Step = Literal["go on", "fix up", "re-teach", "look again"]

ENOUGH_RIGHT: Final = 8
OF: Final = 12
"""Go on at 8 of 12 right: the paper form of P(p ≥ .7 tomorrow) ≥ .5 (DESIGN 9)."""
TOO_FEW: Final = 4
"""With fewer answers than this nothing is advised yet (common practice, no source)."""
HALF: Final = 0.5
"""Below half right a skill is taught again, above it is fixed up (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Advice:
    """What to do next with a lesson's skills. `right` of `of` are the answers it rests on."""

    step: Step
    right: int
    of: int
    evidence: str
    """One sentence for the parent."""


def advise(marks: Iterable[ItemMark], *, skills: Collection[SkillId], seen: Seen | None = None) -> Advice:
    """The advice after a lesson on `skills`, from its last answers (the newest last in `marks`).

    The last 12 answers without help to these skills count; blank ones as wrong, those not reached not at all.

    - go on: at least 8 of 12 right, or the same share of fewer, and no habit seen;
    - fix up: a habit was seen while at least half are right, or at least half but fewer than 8 of 12 are;
    - re-teach: fewer than half are right;
    - look again: fewer than 4 answers.

    The parent decides; an override is an event of its own.
    """
    answers = [
        mark.state == "right"
        for mark in marks
        if mark.skill in skills and mark.state != "not reached" and not mark.helped
    ][-OF:]
    right, of = sum(answers), len(answers)
    habit = seen is not None and seen.seen == "habit"
    if of < TOO_FEW:
        step: Step = "look again"
    elif right < HALF * of:
        step = "re-teach"
    elif habit or right * OF < ENOUGH_RIGHT * of:
        step = "fix up"
    else:
        step = "go on"
    return Advice(step=step, right=right, of=of, evidence=_evidence(step, right=right, of=of, habit=habit))


def _evidence(step: Step, *, right: int, of: int, habit: bool) -> str:
    share = f"{count_word(right)} of the last {count_word(of)} answers".capitalize()
    were = "was" if right == 1 else "were"
    if step == "look again":
        return (
            f"Only {count_word(of)} answered alone so far: too little to tell." if of else "Nothing answered alone yet."
        )
    if step == "fix up" and habit:
        return f"{share} {were} right, and the others show one habit: fix that first."
    if step == "fix up":
        return f"{share} {were} right; eight of twelve is enough to go on."
    if step == "re-teach":
        return f"{share} {were} right: take the lesson once more, with things to hold."
    return f"{share} {were} right: enough to go on."
