"""Why answers are wrong: a habit, a slip, or not to be told yet."""

from __future__ import annotations

from dataclasses import dataclass
from math import comb, log
from typing import TYPE_CHECKING, Final, Literal

from dayleaf.items.built import NotBuilt
from dayleaf.items.domain import NoRule, domain_of
from dayleaf.items.make import make
from dayleaf.learner.replies import SLIP, posterior, reply_of_mark, reply_to
from dayleaf.marking.answer import asked_items, same_answer

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
    from dayleaf.course.model import Course, Skill
    from dayleaf.events.model import ItemMark
    from dayleaf.items.model import Item
    from dayleaf.learner.replies import Reply
    from dayleaf.sheets.model import PageMap

HABIT: Final = 0.8
"""A habit is named only from this probability on (DESIGN 9)."""
AT_LEAST: Final = 2
"""A habit is named only when so many wrong answers are its own: never from one (CHECKS D.1)."""
RIVAL: Final = 0.1
"""Ways whose odds against the likeliest one are at least this are still rivals."""
CHANCE: Final = 0.05
"""Wrong answers are taken for slips while so many or more have at least this chance under the slip rate."""
LOOKED_AT: Final = 2000
"""Places of a rule that are looked at, evenly spread, for the item to ask next."""

Verdict = Literal["habit", "slip", "cannot tell", "all right"]


@dataclass(frozen=True, slots=True)
class Telling:
    """An item that speaks for the habit: what was asked, what was written, what is right."""

    key: str
    text: str
    answer: str
    right: str


@dataclass(frozen=True, slots=True)
class Seen:
    """What a set of answers shows.

    `error` is the habit's way, only where `seen` is "habit". `p` is the posterior probability of that habit;
    of the likeliest way that gives a wrong answer where nothing can be told; of a slip, against the ways that
    give the wrong answer; of no way where all is right. `rivals` are the ways between which the answers cannot
    decide, the likeliest first, and `ask` an item that would. `wrong` of `of` answers were wrong; `fitting`
    wrong ones are the likeliest way's, which has a say in `could_show` of all.
    """

    seen: Verdict
    error: ErrorWayId | None
    p: float
    evidence: tuple[Telling, ...]
    rivals: tuple[ErrorWayId, ...]
    ask: Item | None
    wrong: int
    of: int
    fitting: int = 0
    could_show: int = 0


def explain(course: Course, skill: Skill, written: Sequence[tuple[Item, str]], *, lang: str = "en") -> Seen:
    """What the answers to items of one skill show, with the item to ask where they cannot tell.

    Posterior odds over no way and each error way (uniform prior) across all answers. A child with no way
    writes the right answer with probability 1 − .08, else one of 18 others; a child with a way writes that
    way's answer with probability 1 − .08, else the right one half of the time, or one of 18 others. A habit
    is named at p ≥ .8, from two wrong answers on, and only with an item that tells it from its nearest rival; the
    evidence is the wrong answers that this rival does not write. Rates from JOB 1.7 and DESIGN 9; the 18 and the
    half are assumptions without a source.
    """
    replies = [reply_to(item, answer, lang=lang) for item, answer in written]
    return _seen(replies, order=_ways_of(course, [skill.id]), skills=(skill,))


def seen_in_marks(course: Course, marks: Iterable[ItemMark], pages: Iterable[PageMap]) -> Seen:
    """What marked items show, pooled over skills by the ways they share.

    `pages` are the frozen sides on which the items stand, and the answers that each way would give are those
    frozen there. Items left blank, helped or not reached say nothing; a wrong one without a keyed answer is
    wrong in no known way. An item to ask is of one skill whose wrong answers show the likeliest way.
    """
    frozen = {asked.item.key: asked for page in pages for asked in asked_items([page]).values()}
    replies = [
        reply_of_mark(mark, frozen[mark.key])
        for mark in marks
        if mark.key in frozen and mark.skill in course.skills and not mark.helped and mark.state in {"right", "wrong"}
    ]
    skills = list(dict.fromkeys(reply.skill for reply in replies if not reply.is_right))
    return _seen(replies, order=_ways_of(course, skills), skills=[course.skills[one] for one in skills], pooled=True)


def _ways_of(course: Course, skills: Iterable[SkillId]) -> tuple[ErrorWayId, ...]:
    notes = [note for skill in skills if skill in course.skills for note in course.skills[skill].error_ways]
    return tuple(dict.fromkeys(note.id for note in notes))


def _seen(
    replies: Sequence[Reply], *, order: Sequence[ErrorWayId], skills: Sequence[Skill], pooled: bool = False
) -> Seen:
    """The verdict. `order` settles ties between ways: the skill's own list first, as its file names them.

    Two wrong answers of one way are never waved away as slips, and one answer alone is never a slip.
    """
    known = {way for reply in replies for way in reply.errors}
    ways = [way for way in order if way in known] + sorted(known - set(order))
    odds = posterior(replies, ways)
    ranked = sorted(ways, key=lambda way: -odds[way])
    wrong = [reply for reply in replies if not reply.is_right]
    explaining = [way for way in ranked if any(reply.fits(way) for reply in wrong)]
    leading = explaining[0] if explaining else None
    nearest = _nearest_rival(leading, ways, wrong)
    apart = [reply for reply in replies if reply.fits(leading) and not reply.fits(nearest)]
    evidence = _evidence([one for one in wrong if one.fits(leading)], apart)
    silent = [way for way in odds if all(same_answer(one.predicted(way), one.right) for one in replies)]
    no_way = sum(odds[way] for way in silent)
    slips = no_way / (no_way + sum(odds[way] for way in explaining))
    own = sum(reply.fits(leading) for reply in wrong)
    if not wrong:
        verdict: Verdict = "all right" if replies else "cannot tell"
    elif odds[leading] >= HABIT and own >= AT_LEAST and apart:
        verdict = "habit"
    elif own < AT_LEAST and slips >= HABIT and _may_slip(len(wrong), len(replies)):
        verdict = "slip"
    else:
        verdict = "cannot tell"
    unsure = verdict == "cannot tell"
    if pooled:
        told = {reply.skill for reply in wrong if leading is not None and reply.fits(leading)}
        skills = [skill for skill in skills if skill.id in told][:1]
    rivals = tuple(way for way in explaining if odds[way] >= RIVAL * odds[leading]) if unsure else ()
    return Seen(
        seen=verdict,
        error=leading if verdict == "habit" else None,
        p={"slip": slips, "all right": no_way}.get(verdict, odds[leading]),
        evidence=evidence if verdict == "habit" else (),
        rivals=rivals,
        ask=_ask(replies, odds, rivals, skills) if unsure else None,
        wrong=len(wrong),
        of=len(replies),
        fitting=own if leading else 0,
        could_show=sum(leading in reply.errors for reply in replies) if leading else 0,
    )


def _nearest_rival(leading: ErrorWayId | None, ways: Sequence[ErrorWayId], wrong: Sequence[Reply]) -> ErrorWayId | None:
    """The other way that writes the most of the wrong answers that are the leading way's; `ways` settles ties."""
    own = [reply for reply in wrong if reply.fits(leading)]
    shared = {way: sum(reply.fits(way) for reply in own) for way in ways if way != leading}
    return max(shared, key=lambda way: shared[way], default=None)


def _evidence(own: Sequence[Reply], apart: Sequence[Reply]) -> tuple[Telling, ...]:
    """The habit's own wrong answers that its nearest rival does not write; all of them where it writes each."""
    telling = [reply for reply in own if reply in apart] or own
    return tuple(Telling(key=one.key, text=one.text, answer=one.written, right=one.right) for one in telling)


def _may_slip(wrong: int, of: int) -> bool:
    """Whether so many wrong answers may all be slips: fewer than half, and not too many for the slip rate."""
    return 2 * wrong < of and _by_slips(wrong, of) >= CHANCE


def _by_slips(wrong: int, of: int) -> float:
    """P(at least `wrong` of `of` answers slip), binomial with the slip rate."""
    return sum(comb(of, k) * SLIP**k * (1 - SLIP) ** (of - k) for k in range(wrong, of + 1))


def _ask(
    replies: Sequence[Reply],
    odds: Mapping[ErrorWayId | None, float],
    rivals: Sequence[ErrorWayId],
    skills: Sequence[Skill],
) -> Item | None:
    """The new item with the largest expected information about which way it is.

    With slips alike under every way, the information of an item is the entropy of the odds grouped by the
    answer they predict. Items on which two rivals write the same are passed over while others remain.
    """
    asked = {reply.key for reply in replies}
    best: tuple[tuple[bool, float], Item] | None = None
    for skill in skills:
        formats = list(dict.fromkeys(reply.format for reply in replies if reply.skill == skill.id))
        for item in _candidates(skill, formats[:1]):
            if item.key in asked:
                continue
            answers = {item.errors.get(way, item.answer) for way in rivals} | {item.answer}
            worth = (len(answers) == len(rivals) + 1, round(_information(item, odds), 9))
            if best is None or worth > best[0]:
                best = (worth, item)
    return best[1] if best else None


def _candidates(skill: Skill, formats: Sequence[FormatId]) -> list[Item]:
    try:
        domain = domain_of(skill)
        step = max(1, len(domain) // LOOKED_AT)
        places = range(0, len(domain), step)
        return [make(skill, one, domain.numbers(place)) for one in formats for place in places]
    except (NoRule, NotBuilt):
        return []


def _information(item: Item, odds: Mapping[ErrorWayId | None, float]) -> float:
    groups: dict[str, float] = {}
    for way, p in odds.items():
        answer = item.answer if way is None else item.errors.get(way, item.answer)
        groups[answer] = groups.get(answer, 0.0) + p
    return -sum(p * log(p) for p in groups.values() if p > 0)
