"""What it is worth to ask each skill on a day: the one score that the app, the line protocol and the trials use."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

import numpy as np

from dayleaf.learner.mind import NEVER
from dayleaf.learner.outlook import gains, last_seen

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from dayleaf.learner.cohort import Cohort
    from dayleaf.learner.mind import Mind
    from dayleaf.learner.outlook import Outlook

    Floats = NDArray[np.float64]

LATER: Final = 60.0
"""Days after which the gain of asking now is looked at (DESIGN 9)."""
SPREAD: Final = 0.75
"""The power of the days since a skill was asked: without it what was just asked is asked again. DESIGN 9 took ½; on
this project's own virtual children ¾ and 1 did as well or better."""
NEVER_SEEN: Final = 30.0
"""Days since it was asked that a skill counts with when nobody knows (common practice, no source)."""
SOON_FACTOR: Final = 1.65
SOON_BELOW: Final = 0.85
"""A skill that a lesson of the next days needs counts so much more where its chance lies below (DESIGN 9)."""


def worth(mind: Mind | Cohort, now: Outlook, day: float) -> Floats:
    """ΔP60 × (days since asked)^¾ for every skill: ΔP60 is the expected gain in P(right) 60 days on from asking now."""
    last = last_seen(mind)
    gap = np.maximum(day - np.maximum(last, -1e9), 0)
    gap[last == NEVER] = NEVER_SEEN
    scores: Floats = gains(mind, now, day, later=LATER) * gap**SPREAD
    return scores
