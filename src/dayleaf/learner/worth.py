"""What it is worth to ask each skill on a day: the one score that the app, the line protocol and the trials use."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

import numpy as np

from dayleaf.learner.mind import NEVER
from dayleaf.learner.outlook import counts_on, etas_on, field, last_seen, logistic

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from dayleaf.learner.cohort import Cohort
    from dayleaf.learner.mind import Mind
    from dayleaf.learner.outlook import Outlook

    Floats = NDArray[np.float64]

LATER: Final = 60.0
"""Days after which the gain of asking now is looked at (DESIGN 9)."""
LASTING: Final = (0.7, 0.1, 0.7)
"""What the three counts of right answers are taken to be worth later on (DESIGN 9)."""
CALM: Final = 0.25
"""The power of the gain. Powers of ½ and 1 gained no more on virtual children and did harm where the model was off."""
MISSED: Final = 3.0
"""A skill whose answers were all wrong the last time counts so many times more on top. On virtual children 1 to 6 all
helped, most where a skill is wholly there or wholly gone (docs/learner.md)."""
NEVER_SEEN: Final = 30.0
"""Days since it was asked that a skill counts with when nobody knows (common practice, no source)."""
SOON_FACTOR: Final = 1.65
SOON_BELOW: Final = 0.85
"""A skill that a lesson of the next days needs counts so much more where its chance lies below (DESIGN 9)."""
LEAST: Final = 1e-6


def worth(mind: Mind | Cohort, now: Outlook, day: float) -> Floats:
    """(days since asked) × gain^¼ × (1 + 3 · share wrong last time), for every skill.

    gain = P(right today) × q (1 − q) × Σ wᵢ [ln(1 + (Cᵢ + 1) e^(−60/τᵢ)) − ln(1 + Cᵢ e^(−60/τᵢ))], where q is the
    logistic of the logit sixty days on: by how much one more right answer today lifts the chance of a right one then.
    """
    last = last_seen(mind)
    waited = np.maximum(day - np.maximum(last, -1e9), 0)
    waited[last == NEVER] = NEVER_SEEN
    asked = field(mind.asked_then)
    missed = np.where(asked > 0, 1 - field(mind.right_then) / np.maximum(asked, 1), 0.0)
    scores: Floats = waited * np.maximum(gain(mind, now, day), LEAST) ** CALM * (1 + MISSED * missed)
    return scores


def gain(mind: Mind | Cohort, now: Outlook, day: float) -> Floats:
    """By how much one more right answer today lifts the chance of a right one sixty days on, by skill."""
    counts = counts_on(mind, day)
    lift = np.zeros(counts.shape[1:])
    for place, (tau, weight) in enumerate(zip(mind.parameters.tau, LASTING, strict=True)):
        fade = np.exp(-LATER / tau)
        kept = counts[place] * fade
        lift += weight * np.log1p(fade / (1 + kept))
    q = logistic(etas_on(mind, day + LATER)[0])
    lifted: Floats = now.p * q * (1 - q) * lift
    return lifted
