"""What it is worth to ask each skill on a day: the one score that the app, the line protocol and the trials use."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

import numpy as np

from dayleaf.learner.mind import NEVER, STEADYING
from dayleaf.learner.outlook import etas_on, field, last_seen, logistic, lumpiness

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from dayleaf.learner.cohort import Cohort
    from dayleaf.learner.mind import Mind
    from dayleaf.learner.outlook import Outlook

    Floats = NDArray[np.float64]

LATER: Final = 60.0
"""Days after which is looked whether asking now still helps (DESIGN 9)."""
UNSURE: Final = 0.4
"""A chance of a wrong answer from which on more adds nothing: what is hardly there takes places and gains little."""
LUMPS: Final = 2.0
"""Where skills are wholly there or gone the look ahead tells nothing: its power falls to 0 at half."""
STEADIES: Final = 2.5
MOST_STEADY: Final = 0.5
"""Where a child's memory steadies with practice, days of practice count by this power at most. These four were chosen
on virtual children (docs/learner.md)."""
NEVER_SEEN: Final = 30.0
"""Days since it was asked that a skill counts with when nobody knows (common practice, no source)."""
SOON_FACTOR: Final = 1.65
SOON_BELOW: Final = 0.85
"""A skill that a lesson of the next days needs counts so much more where its chance lies below (DESIGN 9)."""


def worth(mind: Mind | Cohort, now: Outlook, day: float) -> Floats:
    """(days since asked) × min(1 − P(right), .4) × (4 q (1 − q))^b ÷ (2 + days with an answer)^c, for every skill.

    q is the logistic of the logit sixty days on: one more answer moves most what is then neither sure nor gone.
    b = 1 − 2 · (how lumpy the child's memory is), at least 0. c = 2.5 · (how much the child's memory steadies with
    days of practice), within 0 and ½: where a pause takes less from what was practised often, places go to what was
    practised little; where it takes the same, turns stay even.
    """
    last = last_seen(mind)
    waited = np.maximum(day - np.maximum(last, -1e9), 0)
    waited[last == NEVER] = NEVER_SEEN
    steadies = mind.parameters.steady + np.asarray(mind.traits[STEADYING])
    power = np.clip(STEADIES * steadies, 0, MOST_STEADY)[..., None]
    scores: Floats = waited * np.minimum(1 - now.p, UNSURE) * (2 + field(mind.days)) ** -power
    smooth = np.maximum(1 - LUMPS * lumpiness(mind), 0)
    if smooth.any():
        q = logistic(etas_on(mind, day + LATER)[0])
        scores *= (4 * q * (1 - q)) ** smooth
    return scores
