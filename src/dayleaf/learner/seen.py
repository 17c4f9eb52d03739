"""Why answers are wrong: a habit, a slip, or not to be told yet."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import comb, isclose
from typing import TYPE_CHECKING, Final, Literal

from dayleaf.learner.asking import item_to_ask
from dayleaf.learner.columns import one_name
from dayleaf.learner.habits import AT_LEAST, HABIT, Habits, heard, odds_in
from dayleaf.learner.replies import NOT_KEYED, reply_of_mark, reply_to
from dayleaf.marking.answer import asked_items

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from dayleaf.core.ids import ErrorWayId
    from dayleaf.course.model import Course, Skill
    from dayleaf.events.model import ItemMark
    from dayleaf.items.model import Item
    from dayleaf.learner.habits import Odds
    from dayleaf.learner.replies import Reply
    from dayleaf.sheets.model import PageMap

SLIP: Final = 0.08
"""The rate of slips (JOB 1.7)."""
RIVAL: Final = 0.1
"""Ways whose odds against the likeliest one are at least this are still rivals."""
CHANCE: Final = 0.05
"""Wrong answers are taken for slips while so many or more have at least this chance under the slip rate."""

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

    The odds are those of `habits`: over no habit, an unknown one, each way of the skill, and for a take-away in
    columns each published one. A habit is named at p ≥ .8, from two wrong answers on, and only with an item that
    tells it from its nearest rival; the evidence is the wrong answers that this rival does not write.
    """
    replies = [reply_to(item, answer, lang=lang) for item, answer in written]
    return _seen(course, replies, before=Habits(), asks=skill)


def seen_in_marks(
    course: Course, marks: Iterable[ItemMark], pages: Iterable[PageMap], *, before: Habits | None = None
) -> Seen:
    """What marked items show, pooled over skills by the ways they share.

    `pages` are the frozen sides on which the items stand, and the answers that each way would give are those
    frozen there. Items left blank, helped or not reached say nothing; a wrong one without a keyed answer is
    wrong in no known way. `before` is what earlier marks said (`habits_in_marks`): their evidence counts, and the
    wrong answers of earlier days with it. An item to ask is of one skill whose wrong answers show the likeliest way.
    """
    return _seen(course, _replies(course, marks, pages), before=before or Habits())


def habits_in_marks(
    course: Course, marks: Iterable[ItemMark], pages: Iterable[PageMap], *, before: Habits | None = None
) -> Habits:
    """What is to be kept of these marks, oldest first, for the odds of later ones."""
    return _heard(course, before or Habits(), _replies(course, marks, pages))


def _replies(course: Course, marks: Iterable[ItemMark], pages: Iterable[PageMap]) -> list[Reply]:
    frozen = {asked.item.key: asked for page in pages for asked in asked_items([page]).values()}
    return [
        reply_of_mark(mark, frozen[mark.key])
        for mark in marks
        if mark.key in frozen and mark.skill in course.skills and not mark.helped and mark.state in {"right", "wrong"}
    ]


def _heard(course: Course, habits: Habits, replies: Iterable[Reply]) -> Habits:
    for reply in replies:
        habits = heard(habits, reply, strand=course.skills[reply.skill].strand)
    return habits


def _seen(course: Course, replies: Sequence[Reply], *, before: Habits, asks: Skill | None = None) -> Seen:
    """The verdict: of the strand with the clearest habit, else of the one with most wrong answers."""
    habits = _heard(course, before, replies)
    strands = list(dict.fromkeys(course.skills[reply.skill].strand for reply in replies))
    looks = [_Look(course, habits, replies, strand) for strand in strands]
    wrong = sum(len(look.wrong) for look in looks)
    if not looks or not wrong:
        none = min((look.odds.none for look in looks), default=0.0)
        verdict: Verdict = "all right" if looks else "cannot tell"
        return Seen(verdict, None, none, (), (), None, wrong=0, of=len(replies))
    look = max(looks, key=lambda look: (look.is_habit, len(look.wrong), look.p))
    if look.is_habit:
        verdict, p = "habit", look.p
    elif look.own < AT_LEAST and look.slips >= HABIT and _may_slip(wrong, len(replies)):
        verdict, p = "slip", look.slips
    else:
        verdict, p = "cannot tell", look.p
    unsure = verdict == "cannot tell"
    return Seen(
        seen=verdict,
        error=look.name if verdict == "habit" else None,
        p=p,
        evidence=look.evidence if verdict == "habit" else (),
        rivals=look.rivals if unsure else (),
        ask=look.ask(habits.asked, asks) if unsure else None,
        wrong=wrong,
        of=len(replies),
        fitting=look.own,
        could_show=sum(look.leading in _ways(reply) for reply in replies) if look.leading else 0,
    )


class _Look:
    """One strand's answers of the day beside the odds; private to one verdict."""

    def __init__(self, course: Course, habits: Habits, replies: Sequence[Reply], strand: str) -> None:
        self.replies = [reply for reply in replies if course.skills[reply.skill].strand == strand]
        self.wrong = [reply for reply in self.replies if not reply.is_right]
        self.odds: Odds = _folded(odds_in(habits, strand), {way for one in self.replies for way in one.own})
        self.course = course
        skills = list(dict.fromkeys(reply.skill for reply in self.wrong))
        order = [note.id for skill in skills for note in course.skills[skill].error_ways]
        place = {one_name(way): -index for index, way in enumerate(order)}
        ranked = sorted(self.odds.ways, key=lambda way: (-self.odds.ways[way], -place.get(way, -len(order)), way))
        self.explaining = [way for way in ranked if any(_fits(reply, way) for reply in self.wrong)]
        self.leading = self.explaining[0] if self.explaining else None
        self.own = sum(_fits(reply, self.leading) for reply in self.wrong) if self.leading else 0
        self.nearest = self._nearest_rival(sorted(self.odds.ways, key=lambda way: (-place.get(way, -len(order)), way)))

    @property
    def p(self) -> float:
        return self.odds.ways[self.leading] if self.leading else 0.0

    @property
    def apart(self) -> list[Reply]:
        """The day's answers that are the leading way's and not its nearest rival's."""
        return [one for one in self.replies if _fits(one, self.leading) and not _fits(one, self.nearest)]

    @property
    def is_habit(self) -> bool:
        if self.leading is None or not self.own:
            return False
        return self.p >= HABIT and self.odds.own[self.leading] >= AT_LEAST and bool(self.apart)

    @property
    def slips(self) -> float:
        """No habit, against the ways that give one of the wrong answers."""
        against = sum(self.odds.ways[way] for way in self.explaining)
        return self.odds.none / (self.odds.none + against)

    @property
    def name(self) -> ErrorWayId | None:
        """The leading way under the name that the items themselves use."""
        named = (way for reply in self.wrong for way in reply.errors if one_name(way) == self.leading)
        return next(named, self.leading)

    @property
    def rivals(self) -> tuple[ErrorWayId, ...]:
        return tuple(way for way in self.explaining if self.odds.ways[way] >= RIVAL * self.p)

    @property
    def evidence(self) -> tuple[Telling, ...]:
        """The habit's own wrong answers that its nearest rival does not write; all of them where it writes each."""
        own = [reply for reply in self.wrong if _fits(reply, self.leading)]
        telling = [reply for reply in own if not _fits(reply, self.nearest)] or own
        return tuple(Telling(key=one.key, text=one.text, answer=one.written, right=one.right) for one in telling)

    def ask(self, asked: Sequence[str], skill: Skill | None) -> Item | None:
        """An item of the skill given, or of the first whose wrong answers are the leading way's, or that went wrong."""
        typed = [reply for reply in self.wrong if reply.written != NOT_KEYED]
        if not typed:
            return None
        told = [reply for reply in typed if self.leading and _fits(reply, self.leading)]
        skill = skill or self.course.skills[(told or typed)[0].skill]
        return item_to_ask(skill, self.odds, asked=asked, beside=False)

    def _nearest_rival(self, ways: Sequence[ErrorWayId]) -> ErrorWayId | None:
        """The other way that writes the most of the leading way's wrong answers; `ways` settles ties."""
        own = [reply for reply in self.wrong if _fits(reply, self.leading)]
        shared = {way: sum(_fits(reply, way) for reply in own) for way in ways if way != self.leading}
        return max(shared, key=lambda way: shared[way], default=None)


def _folded(odds: Odds, own: Iterable[ErrorWayId]) -> Odds:
    """The odds with each published way that the items do not name counted to its look-alike among those they name.

    Two ways with the same odds wrote the same to every item; the plainer one is said, the other is not a rival.
    """
    named = {one_name(way) for way in own}
    ways = {way: p for way, p in odds.ways.items() if way in named}
    for way, p in odds.ways.items():
        if way not in named:
            alike = next((one for one in ways if isclose(odds.ways[one], p, rel_tol=1e-9)), way)
            ways[alike] = ways.get(alike, 0.0) + p
    return replace(odds, ways=ways)


def _ways(reply: Reply) -> set[ErrorWayId]:
    return {one_name(way) for way in reply.errors}


def _fits(reply: Reply, way: ErrorWayId | None) -> bool:
    """Whether the reply is what this way writes, under any of its names."""
    if way is None or way in reply.errors:
        return reply.fits(way)
    return next((reply.fits(one) for one in reply.errors if one_name(one) == way), reply.is_right)


def _may_slip(wrong: int, of: int) -> bool:
    """Whether so many wrong answers may all be slips: fewer than half, and not too many for the slip rate."""
    return 2 * wrong < of and _by_slips(wrong, of) >= CHANCE


def _by_slips(wrong: int, of: int) -> float:
    """P(at least `wrong` of `of` answers slip), binomial with the slip rate."""
    return sum(comb(of, k) * SLIP**k * (1 - SLIP) ** (of - k) for k in range(wrong, of + 1))
