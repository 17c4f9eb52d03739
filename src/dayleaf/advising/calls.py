"""Who to call: reasons in words with their evidence and a first question. Silence is no news, never a verdict.

The reasons are those of a consultant's trade (common practice, no source): ten planned days without a record, a skill
given again for more than five days, a habit that stays, less than 70 % of the plan for three weeks, more help than
before, a question without an answer. Each family is measured by its own plan and its own rhythm.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal

from dayleaf.advising.pace import credit_of, pace_window, slow_throughout
from dayleaf.advising.rhythm import planned_since, usual_gap
from dayleaf.advising.sticking import habit_that_stays, help_rising, taught_again
from dayleaf.advising.titles import habit_words, skill_words

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from datetime import date

    from dayleaf.advising.shared import SharedRecords

ReasonKind = Literal["question", "taught again", "habit", "pace", "no news", "help"]
QUIET: Final = 10
"""Planned days without a record."""
OLD_FILE: Final = 42
"""Days after which another file would have come: families send a note every four to six weeks (common practice)."""
MORE_THAN_USUAL: Final = 3
LEAST_PACE: Final = 0.7
WAITED: Final = 3
"""Days after which a question is taken to wait for an answer."""
FORGOTTEN: Final = 28
FIRST: Final[dict[ReasonKind, float]] = {
    "question": 2.0,
    "taught again": 1.6,
    "habit": 1.4,
    "pace": 1.2,
    "no news": 1.0,
    "help": 0.8,
}
"""What comes first where nothing else tells two calls apart (docs/exchange.md says why)."""


@dataclass(frozen=True, slots=True)
class Reason:
    """Why a call may help: one sentence, what it rests on, and what might be asked first.

    `times` says how many times over the line it is, 1 or more; it only orders the list.
    """

    kind: ReasonKind
    words: str
    evidence: tuple[str, ...]
    question: str
    since: date
    times: float

    @property
    def weight(self) -> float:
        """What the reason adds to the place in the list."""
        return FIRST[self.kind] * min(self.times, 3.0)


@dataclass(frozen=True, slots=True)
class Call:
    """A family with its reasons, the weightiest first."""

    family: str
    learner: str
    child: str
    as_of: date
    reasons: tuple[Reason, ...]

    @property
    def weight(self) -> float:
        """Orders the list; never shown."""
        return sum(reason.weight for reason in self.reasons)


def who_to_call(families: Iterable[SharedRecords], *, today: date) -> tuple[Call, ...]:
    """Those with a reason, the weightiest first; families without one are not listed."""
    calls = []
    for shared in families:
        reasons = reasons_in(shared, today=today)
        if reasons:
            terms = shared.terms
            calls.append(Call(terms.family, terms.learner, terms.child, min(today, terms.made_on), reasons))
    return tuple(sorted(calls, key=lambda call: (-call.weight, call.family, call.learner)))


def reasons_in(shared: SharedRecords, *, today: date) -> tuple[Reason, ...]:
    """The reasons for one child as of the day the file was made, or today if that is earlier."""
    as_of = min(today, shared.terms.made_on)
    found = (
        *_no_news(shared, as_of, today),
        *_again(shared, as_of),
        *_habit(shared, as_of),
        *_pace(shared, as_of),
        *_help(shared, as_of),
        *_question(shared, as_of),
    )
    return tuple(sorted(found, key=lambda reason: (-reason.weight, reason.kind)))


def _no_news(shared: SharedRecords, as_of: date, today: date) -> Iterator[Reason]:
    name = shared.terms.learner
    silent = planned_since(shared, as_of)
    if silent is not None:
        usual = usual_gap(shared, as_of)
        least = max(QUIET, usual + MORE_THAN_USUAL if usual >= QUIET else 0)
        if len(silent.days) >= least:
            said = f"the last record is of {silent.last:%-d %B %Y}" if silent.last else "there is no record yet"
            yield Reason(
                "no news",
                f"No news for {len(silent.days)} planned days.",
                (said, _usual(usual)),
                f"How have the last weeks been for you and {name}? If paper is enough just now, that is fine.",
                silent.days[0],
                len(silent.days) / least,
            )
            return
    waited = (today - shared.terms.made_on).days
    if waited >= OLD_FILE:
        yield Reason(
            "no news",
            f"No file has come for {waited} days.",
            (f"the last one was made on {shared.terms.made_on:%-d %B %Y}",),
            f"Would you like to send a fresh file of {name}, or is all well without one?",
            shared.terms.made_on,
            waited / OLD_FILE,
        )


def _again(shared: SharedRecords, as_of: date) -> Iterator[Reason]:
    found = taught_again(shared, as_of)
    if found is not None:
        what = skill_words(found.skill) if found.skill else found.lesson
        yield Reason(
            "taught again",
            f"{what} has been given again for {found.extra} days.",
            (
                f"taught on {', '.join(f'{day:%-d %b}' for day in found.days[-8:])}",
                *([f"on its sheets {found.right} of {found.of} right"] if found.of else []),
            ),
            f"What does {shared.terms.learner} do with things in hand at “{what}”, before any writing?",
            found.days[0],
            found.times,
        )


def _habit(shared: SharedRecords, as_of: date) -> Iterator[Reason]:
    found = habit_that_stays(shared, as_of)
    if found is not None:
        after = " It stayed after the skill was given again." if found.taught_since else ""
        yield Reason(
            "habit",
            f"A habit stays: {habit_words(found.way)}.{after}",
            (
                f"{found.own} of {found.of} answers since {found.first:%-d %B}",
                f"on {found.days} days, last on {found.last:%-d %B %Y}",
                f"in {', '.join(skill_words(skill) for skill in found.skills[:3])}",
            ),
            f"Could {shared.terms.learner} say aloud what happens while doing one of these?",
            found.first,
            found.times,
        )


def _pace(shared: SharedRecords, as_of: date) -> Iterator[Reason]:
    window = pace_window(shared, as_of)
    if window is None:
        return
    credit, planned = credit_of(shared, window), len(window.planned)
    if credit < LEAST_PACE * planned and slow_throughout(shared, window):
        yield Reason(
            "pace",
            f"{_number(credit)} of {planned} planned lessons were given since {window.first:%-d %B}.",
            (
                f"{100 * credit / planned:.0f} % of the plan over {(as_of - window.first).days} days",
                *([f"{window.away} planned days away in a row are left out"] if window.away else []),
            ),
            "Which part of the morning takes longest? Would fewer days or shorter lessons fit your weeks better?",
            window.first,
            min(2.0, LEAST_PACE * planned / max(credit, 0.5)),
        )


def _help(shared: SharedRecords, as_of: date) -> Iterator[Reason]:
    found = help_rising(shared, as_of)
    if found is not None:
        yield Reason(
            "help",
            f"More answers are helped: {found.now:.0%} lately, {found.before:.0%} before.",
            (f"{found.helped} of {found.of} answers since {found.since:%-d %B}",),
            f"Is it the reading or the mathematics that {shared.terms.learner} asks about?",
            found.since,
            found.times,
        )


def _question(shared: SharedRecords, as_of: date) -> Iterator[Reason]:
    asked = [
        one
        for one in shared.messages or ()
        if one.text.rstrip().endswith("?") and WAITED <= (as_of - one.day).days <= FORGOTTEN
    ]
    if asked:
        last = asked[-1]
        yield Reason(
            "question",
            f"A question of {last.day:%-d %B} waits for an answer.",
            tuple(one.text for one in asked[-3:]),
            f"You asked on {last.day:%-d %B}: “{last.text}”",
            asked[0].day,
            1.0 + len(asked) / 10,
        )


def _usual(gap: int) -> str:
    if gap == 0:
        return "this family usually writes on every planned day"
    days = "1 planned day passes" if gap == 1 else f"{gap} planned days pass"
    return f"at this family up to {days} between records"


def _number(credit: float) -> str:
    return f"{credit:.0f}" if credit == int(credit) else f"{credit:.1f}"
