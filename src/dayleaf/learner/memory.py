"""What one child keeps of one skill: counts that fade, an offset of its own, and what an answer tells.

The model is a logistic one with fading counts of right and wrong answers (performance factors analysis with
several time constants) and a Gaussian offset a skill, updated answer by answer.

References:
    [1] Pavlik, Cen, Koedinger 2009, performance factors analysis (CHECKS D.6).
    [2] The constants, the update and the simulations that chose them: DESIGN 9 of this project. They were
        chosen on virtual learners only; nothing here is validated on children.
    [3] The mean of a logistic under a Gaussian is taken as logistic(x / sqrt(1 + pi V / 8)): MacKay 1992.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import exp, log1p, pi, sqrt
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from datetime import date

Three = tuple[float, float, float]

TAU: Final[Three] = (2.0, 15.0, 120.0)
"""Days in which a count fades to 1/e: recent practice, this month, this term."""
RIGHT_WEIGHT: Final[Three] = (0.7, 0.1, 0.7)
WRONG_WEIGHT: Final[Three] = (0.0, 0.2, 0.0)
BASE: Final = -0.7
PREREQUISITE_WEIGHT: Final = 1.8
PREREQUISITE_LEVEL: Final = 0.8
"""A skill whose prerequisites are known at this level gains and loses nothing by them."""
ABILITY_VARIANCE: Final = 0.5**2
OFFSET_VARIANCE: Final = 0.6**2
VARIANCE_A_DAY: Final = 0.01**2
VARIANCE_CAP: Final = 4.0
GUESS: Final = 0.05
SLIP: Final = 0.04
REPEAT_EXPONENT: Final = -0.35
LESSON_CREDIT: Final = 0.5
PREREQUISITE_CREDIT: Final = 0.1
GAUSS: Final = pi / 8

NOTHING: Final[Three] = (0.0, 0.0, 0.0)


@dataclass(frozen=True, slots=True)
class SkillState:
    """What is kept of one skill. The counts and the variance stand for `day`; None: nothing happened yet.

    `asked_on` is the last day with an answer, with `asked_then` answers on that day of which `right_then`
    were right; `asked` and `right` count all answers ever. `taught_on` is the last lesson.
    """

    day: date | None = None
    rights: Three = NOTHING
    wrongs: Three = NOTHING
    offset: float = 0.0
    variance: float = OFFSET_VARIANCE
    taught_on: date | None = None
    asked_on: date | None = None
    asked_then: int = 0
    right_then: int = 0
    asked: int = 0
    right: int = 0


@dataclass(frozen=True, slots=True)
class Ability:
    """What is common to all of a child's skills: mean and variance of a Gaussian, in logits."""

    mean: float = 0.0
    variance: float = ABILITY_VARIANCE


def logistic(x: float) -> float:
    """1 / (1 + e^−x), safe for large x of either sign."""
    return 1 / (1 + exp(-x)) if x >= 0 else exp(x) / (1 + exp(x))


def on_day(state: SkillState, day: date) -> SkillState:
    """The state with its counts faded to `day` and its variance grown; earlier days change nothing."""
    if state.day is None:
        return replace(state, day=day)
    gap = (day - state.day).days
    if gap <= 0:
        return state
    fade = (exp(-gap / TAU[0]), exp(-gap / TAU[1]), exp(-gap / TAU[2]))
    return replace(
        state,
        day=day,
        rights=(state.rights[0] * fade[0], state.rights[1] * fade[1], state.rights[2] * fade[2]),
        wrongs=(state.wrongs[0] * fade[0], state.wrongs[1] * fade[1], state.wrongs[2] * fade[2]),
        variance=min(VARIANCE_CAP, state.variance + VARIANCE_A_DAY * gap),
    )


def practice_logit(state: SkillState) -> float:
    """b0 + m + Σ cᵢ ln(1 + Cᵢ) − Σ fᵢ ln(1 + Fᵢ), with counts as they stand."""
    c1, c2, c3 = state.rights
    f1, f2, f3 = state.wrongs
    return (
        BASE
        + state.offset
        + RIGHT_WEIGHT[0] * log1p(c1)
        + RIGHT_WEIGHT[1] * log1p(c2)
        + RIGHT_WEIGHT[2] * log1p(c3)
        - WRONG_WEIGHT[0] * log1p(f1)
        - WRONG_WEIGHT[1] * log1p(f2)
        - WRONG_WEIGHT[2] * log1p(f3)
    )


def chance_right(eta: float, variance: float, *, guess: float = GUESS) -> float:
    """P(right) = g + (1 − g − s) · logistic(η / √(1 + πV/8)), V being the variance of η."""
    return guess + (1 - guess - SLIP) * logistic(eta / sqrt(1 + GAUSS * variance))


def learn(
    state: SkillState, ability: Ability, *, eta: float, right: bool, weight: float = 1.0, guess: float = GUESS
) -> tuple[SkillState, Ability]:
    """The offset and the ability after one answer; the counts are not touched.

    One Gaussian step: r = (y − p) d / (p (1 − p)), w = d² / (p (1 − p)) with d the slope of p; the mean of
    each moves by variance × r, its variance falls by variance² × w / (1 + V w). `weight` below 1 takes the
    answer for a part of one (a helped item is half).
    """
    both = state.variance + ability.variance
    wide = sqrt(1 + GAUSS * both)
    q = logistic(eta / wide)
    p = guess + (1 - guess - SLIP) * q
    d = (1 - guess - SLIP) * q * (1 - q) / wide
    r = weight * ((1.0 if right else 0.0) - p) * d / (p * (1 - p))
    w = weight * d * d / (p * (1 - p))
    shrink = w / (1 + both * w)
    return (
        replace(
            state,
            offset=state.offset + state.variance * r,
            variance=state.variance - state.variance**2 * shrink,
        ),
        Ability(
            mean=ability.mean + ability.variance * r,
            variance=ability.variance - ability.variance**2 * shrink,
        ),
    )


def practised(state: SkillState, *, right: bool, amount: float) -> SkillState:
    """The state with `amount` more in each fading count of right (or wrong) answers."""
    if right:
        c1, c2, c3 = state.rights
        return replace(state, rights=(c1 + amount, c2 + amount, c3 + amount))
    f1, f2, f3 = state.wrongs
    return replace(state, wrongs=(f1 + amount, f2 + amount, f3 + amount))
