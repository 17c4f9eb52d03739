"""How likely an answer is: with no habit, with a habit, with one that nobody knows yet.

For one answer y to one item, with a slip rate s and a rate r at which a habit is followed where it has a say:

    P(y | no habit)  = 1 - s                                  for the right answer
                       s q(right, y)                          for a wrong one
    P(y | habit h)   = r ((1 - s) [y is h's answer] + s q(h's answer, y)) + (1 - r) P(y | no habit)
    P(y | unknown h) = .4 for the right answer, else .6 (q(right, y) + 1/200) / 2

Where a habit has no say (it writes the right answer) it is as if there were none. q says where a slip lands: one
digit changed (.4), one off in one column (.25), the answer of some other procedure (.25), anything (.1); of a few
things to choose from, each alike. The rates are not known; s is .03, .1 or .3, r is .98, .8 or .55, and what
is said of a habit is averaged over them. Shares, rates and their weights are assumptions without a source.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from dayleaf.marking.answer import same_answer

if TYPE_CHECKING:
    from dayleaf.core.ids import ErrorWayId
    from dayleaf.learner.replies import Reply

SLIPS: Final = (0.03, 0.1, 0.3)
SLIP_WEIGHTS: Final = (0.4, 0.45, 0.15)
FOLLOWED: Final = (0.98, 0.8, 0.55)
FOLLOWED_WEIGHTS: Final = (0.65, 0.25, 0.1)
DIGIT, ONE_OFF, NEIGHBOR, ANYTHING = 0.4, 0.25, 0.25, 0.1
SECOND_READING: Final = 0.9
"""A further reading of a way counts nearly as the first: a child has one of them and keeps to it."""
UNKNOWN_RIGHT, UNKNOWN_BROAD = 0.4, 1 / 200

Rates = tuple[float, ...]
"""One number for each slip rate, or for each pair of slip rate and following rate, slip rates outermost."""


def neighbors(reply: Reply) -> float:
    """The share of all procedures, the right one among them, that write what was written."""
    written = _bare(reply.written)
    same = sum(_bare(answer) == written for answer in reply.errors.values()) + (_bare(reply.right) == written)
    return same / (len(reply.errors) + 1)


def lands(reply: Reply, base: str, *, by_others: float) -> float:
    """q: the chance that a slip from `base` lands on what was written, another answer than `base`.

    `by_others` is what `neighbors` says of this reply.
    """
    if reply.others:
        return 1 / reply.others
    written = _bare(reply.written)
    size = max(1, len(base))
    chance = float(ANYTHING * 10.0 ** -max(size, len(written)))
    if len(base) == len(written):
        changed = sum(one != other for one, other in zip(base, written, strict=True))
        if changed == 1:
            chance += DIGIT / (9 * size)
    if base.isdigit() and written.isdigit() and abs(int(base) - int(written)) in {1, 10, 100, 1000}:
        chance += ONE_OFF / (2 * size)
    return chance + NEIGHBOR * by_others


def without_habit(reply: Reply, *, by_others: float) -> Rates:
    """P(answer | no habit) for each slip rate."""
    if reply.is_right:
        return tuple(1 - slip for slip in SLIPS)
    chance = lands(reply, reply.right, by_others=by_others)
    return tuple(slip * chance for slip in SLIPS)


def unknown_habit(reply: Reply, *, by_others: float) -> float:
    """P(answer | a habit that is not in any list)."""
    if reply.is_right:
        return UNKNOWN_RIGHT
    return (1 - UNKNOWN_RIGHT) * (lands(reply, reply.right, by_others=by_others) + UNKNOWN_BROAD) / 2


def with_habit(reply: Reply, way: ErrorWayId, none: Rates, *, by_others: float) -> Rates:
    """P(answer | habit) / P(answer | no habit) for each pair of rates, where the way has a say.

    `none` is what `without_habit` says of this reply.
    """
    readings = (reply.errors[way], *reply.readings.get(way, ()))
    fitting = [same_answer(reply.written, one) for one in readings]
    meant = 1.0 if fitting[0] else SECOND_READING if any(fitting) else 0.0
    off = 0.0 if meant else lands(reply, readings[0], by_others=by_others)
    return tuple(
        followed * ((1 - slip) * meant + slip * off) / here + 1 - followed
        for slip, here in zip(SLIPS, none, strict=True)
        for followed in FOLLOWED
    )


def _bare(answer: str) -> str:
    return answer.lstrip("0") or "0" if answer.isdigit() else answer
