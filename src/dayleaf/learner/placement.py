"""Where a child stands: the next question, what is known so far, and the day to begin with.

The states of `states` are weighed by the answers (Bayes' rule). A skill is unknown, rusty or secure: P(right) is .10,
.60 or .92 (DESIGN 9 found .13, .60, .90; two levels fail where half of a skill is forgotten). Rust is no part of a
state; it is summed out skill by skill, a fifth of what is known being rusty. The next question is the one after which
the expected doubt is least: Σ p (1 - p) over the skills and the standard deviation of the start in lessons; at most two
questions a skill and, after two answers in a row that are not yet there, one that is likely to be right. The start of a
state is

    argmin over days i of  3 (skills before i that are unknown)  +  (skills from i on that are known)

so that a little too early is preferred to too late; the start said is the median over the weighed states, which has
the least expected distance from the right one. References: Doignon & Falmagne 1999 (states that obey
prerequisites); weights and levels are the project's own.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final

import numpy as np

from dayleaf.learner.states import start_costs

if TYPE_CHECKING:
    from collections.abc import Collection, Mapping, Sequence

    from numpy.typing import NDArray

    from dayleaf.core.ids import SkillId
    from dayleaf.learner.states import Ground

MOST: Final = 25
"""Questions of one placement at the most."""
A_SKILL: Final = 2
GUESS, RUSTY, SECURE = 0.10, 0.60, 0.92
RUST: Final = 0.2
LOOKED_AT: Final = 32
"""Questions nearest to even odds that are worked through."""
DRAWN: Final = 1000
"""States that the questions are worked through with."""
ENOUGH: Final = 60.0
"""Fewer states than this (effective number) are not trusted alone: the answers are then taken less at their word."""
A_LESSON: Final = 0.3
"""A lesson of doubt about the start counts as so many skills in doubt."""
IN_A_ROW: Final = 2
KIND: Final = 0.55
SETTLED: Final = 0.0003
"""Doubt a skill that the best question must be expected to take away, or placement ends."""


@dataclass(frozen=True, slots=True)
class Placed:
    """What the answers say. `ask` is None where enough was asked; `start` is a day of the plan, None without one.

    `known` is P(known) of each skill, `rusty` P(known but rusty); what is left is P(unknown).
    """

    ask: SkillId | None
    start: float | None
    known: Mapping[SkillId, float] = field(repr=False)
    rusty: Mapping[SkillId, float] = field(repr=False)


def place(
    ground: Ground,
    answers: Sequence[tuple[SkillId, bool]],
    *,
    asks: Collection[SkillId] | None = None,
    judged: Collection[SkillId] | None = None,
    most: int = MOST,
) -> Placed:
    """What the answers so far, oldest first, say, and what to ask next.

    `asks` are the skills that may be asked, `judged` those whose doubt counts beside that about the start; all of them
    if None. Answers to skills that are not in the graph are
    passed over, but count as questions asked.
    """
    number = ground.graph.number
    heard = [(number[skill], right) for skill, right in answers if skill in number]
    weights = _weights(ground, heard)
    known = weights @ ground.states
    may = [number[one] for one in number if asks is None or one in asks]
    counted = [number[one] for one in number if judged is None or one in judged]
    ask = _next(ground, weights, known, heard, may=may, counted=counted) if len(answers) < most else None
    ids = ground.graph.ids
    counts = _counts(heard)
    return Placed(
        ask=None if ask is None else ids[ask],
        start=_start(ground, weights),
        known={skill: float(p) for skill, p in zip(ids, known, strict=True)},
        rusty={skill: float(p) * _rust(counts.get(number[skill], (0, 0))) for skill, p in zip(ids, known, strict=True)},
    )


def costs_of_starts(ground: Ground, known: Mapping[SkillId, float]) -> dict[float, float]:
    """What each day of the plan that brings something new would be expected to cost as a start (`start_costs`)."""
    days, costs = start_costs(ground.days, np.array([[known[skill] for skill in ground.graph.ids]]))
    return dict(zip(days.tolist(), costs[0].tolist(), strict=True)) if len(days) else {}


def expected_at(
    ground: Ground, known: Mapping[SkillId, float], start: float, *, of: Collection[SkillId]
) -> tuple[float, float]:
    """Of these skills: how many the plan brings from this day on that are known, and before it that are not."""
    ids = ground.graph.ids
    seen: set[SkillId] = set()
    again = left_out = 0.0
    for day, skills in ground.days:
        for skill in (ids[one] for one in skills):
            if skill in of and skill not in seen:
                seen.add(skill)
                again += known[skill] if day >= start else 0.0
                left_out += 1 - known[skill] if day < start else 0.0
    return again, left_out


def _start(ground: Ground, weights: NDArray[np.float32]) -> float | None:
    if not len(ground.starts):
        return None
    order = np.argsort(ground.starts, kind="stable")
    middle = int(np.searchsorted(np.cumsum(weights[order]), 0.5))
    return float(ground.starts[order[min(middle, len(order) - 1)]])


def _weights(ground: Ground, heard: Sequence[tuple[int, bool]]) -> NDArray[np.float32]:
    """The weight of each state, summing to 1; the answers are softened until enough states still count."""
    logs = np.zeros(len(ground.states))
    for skill, (right, wrong) in _counts(heard).items():
        have = (1 - RUST) * SECURE**right * (1 - SECURE) ** wrong + RUST * RUSTY**right * (1 - RUSTY) ** wrong
        lack = GUESS**right * (1 - GUESS) ** wrong
        logs += np.where(ground.states[:, skill] > 0, np.log(have), np.log(lack))
    soft = 1.0
    while True:
        weights = np.exp(soft * (logs - logs.max()))
        weights /= weights.sum()
        if 1 / float((weights**2).sum()) >= min(ENOUGH, len(logs) / 4) or soft < 0.2:
            return np.asarray(weights, dtype=np.float32)
        soft *= 0.9


def _counts(heard: Sequence[tuple[int, bool]]) -> dict[int, tuple[int, int]]:
    counts: dict[int, tuple[int, int]] = {}
    for skill, right in heard:
        rights, wrongs = counts.get(skill, (0, 0))
        counts[skill] = (rights + right, wrongs + (not right))
    return counts


def _rust(counts: tuple[int, int]) -> float:
    """P(rusty | known and what was answered to the skill itself)."""
    right, wrong = counts
    rusty = RUST * RUSTY**right * (1 - RUSTY) ** wrong
    return rusty / (rusty + (1 - RUST) * SECURE**right * (1 - SECURE) ** wrong)


def _next(
    ground: Ground,
    weights: NDArray[np.float32],
    known: NDArray[np.float32],
    heard: Sequence[tuple[int, bool]],
    *,
    may: Sequence[int],
    counted: Sequence[int],
) -> int | None:
    """The question after which the least doubt is expected; None where none would take away enough."""
    counts = _counts(heard)
    open_to = np.array([skill for skill in may if sum(counts.get(skill, (0, 0))) < A_SKILL], dtype=np.intp)
    if not len(open_to):
        return None
    likely = np.array([_likely(counts.get(int(skill), (0, 0))) for skill in open_to])
    right = known[open_to] * likely + (1 - known[open_to]) * GUESS
    if len(heard) >= IN_A_ROW and not any(one for _, one in heard[-IN_A_ROW:]) and (right >= KIND).any():
        kind = right >= KIND
        open_to, likely, right = open_to[kind], likely[kind], right[kind]
    nearest = np.argsort(-known[open_to] * (1 - known[open_to]), kind="stable")[:LOOKED_AT]
    open_to, likely, right = open_to[nearest], likely[nearest], right[nearest]
    drawn = np.minimum(np.searchsorted(np.cumsum(weights), (np.arange(DRAWN) + 0.5) / DRAWN), len(weights) - 1)
    rows = ground.states[drawn]
    states, asked = rows[:, list(counted)], rows[:, open_to]
    says_right = GUESS + asked * (likely - GUESS).astype(np.float32)
    share = says_right.mean(axis=0)
    both = says_right.T @ states / DRAWN
    all_in_all = states.mean(axis=0)
    after_right = both / share[:, None]
    after_wrong = (all_in_all - both) / (1 - share)[:, None]
    doubt = share * (after_right * (1 - after_right)).sum(axis=1)
    doubt += (1 - share) * (after_wrong * (1 - after_wrong)).sum(axis=1)
    now = float((all_in_all * (1 - all_in_all)).sum())
    if len(ground.starts):
        spread_now, spread = _spread(ground.starts[drawn], says_right, share)
        doubt += A_LESSON * spread
        now += A_LESSON * spread_now
    best = int(np.argmin(doubt))
    return int(open_to[best]) if now - float(doubt[best]) > SETTLED * len(counted) else None


def _spread(
    starts: NDArray[np.float64], says_right: NDArray[np.float32], share: NDArray[np.float32]
) -> tuple[float, NDArray[np.float64]]:
    """The standard deviation of the start in lessons, now and as expected after each question."""
    both = starts - starts.mean()
    mean_right = both @ says_right / len(starts)
    square_right = both**2 @ says_right / len(starts)
    square = float((both**2).mean())
    right = np.sqrt(np.maximum(square_right / share - (mean_right / share) ** 2, 0))
    wrong = np.sqrt(np.maximum((square - square_right) / (1 - share) - (mean_right / (1 - share)) ** 2, 0))
    return square**0.5, share * right + (1 - share) * wrong


def _likely(counts: tuple[int, int]) -> float:
    """P(right | known) after the answers to the same skill."""
    rusty = _rust(counts)
    return rusty * RUSTY + (1 - rusty) * SECURE
