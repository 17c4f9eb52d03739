"""The numbers of the learner model, in one place, so that they can be fitted and compared.

References:
    [1] The starting values, and the simulations that chose them: DESIGN 9 of this project.
    [2] What was changed since, on this project's own virtual children: docs/learner.md. Nothing here is validated
        on children.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

USUAL_PRACTICE: Final = 2.0
"""ln(1 + answers) from which more practice adds and less takes away."""


@dataclass(frozen=True, slots=True)
class Parameters:
    """What is assumed of every child. Times are in days, levels in logits, chances in 0 .. 1.

    `tau` are the times in which the three counts of right answers fade to 1/e (recent practice, this month, this
    term) and `right` what each adds to the logit; `wrong_tau` and `wrong` are the same for wrong answers.

    Five numbers are a child's own, learned from its answers. Each has a usual value and a standard deviation among
    children: ability (usual value 0); what a pause takes away, as `pause_weight` times the logarithm of its length in
    units of `pause`; `steady`, by how much less that is after many days of practice; `warm`, what having just done
    such an item adds; and `practice`, what the logarithm of the number of answers adds. `fading` a day is taken by a
    pause from every child alike: a school year without long pauses cannot show it.

    `lesson` and `beneath` are what a lesson, and a right answer to a skill above, add to the counts; `repeat` is the
    exponent by which later items of a day add less. `lumpy` says how far a child whose surprises repeat is taken to
    have skills wholly or not at all, and `lumpy_fading` what a long pause then takes a day on top.
    """

    base: float = -1.4
    tau: tuple[float, float, float] = (2.0, 15.0, 90.0)
    right: tuple[float, float, float] = (0.68, 0.22, 0.82)
    wrong_tau: float = 15.0
    wrong: float = 0.35
    beneath_weight: float = 0.8
    beneath_level: float = 0.8
    ability_sd: float = 0.7
    pause: float = 2.4
    pause_weight: float = 0.5
    pause_sd: float = 0.3
    offset_sd: float = 0.55
    drift: float = 0.006
    variance_cap: float = 5.0
    guess: float = 0.05
    slip: float = 0.04
    repeat: float = -0.41
    lesson: float = 0.15
    beneath: float = 0.1
    lumpy: float = 7.0
    steady: float = 0.1
    steady_sd: float = 0.15
    warm: float = 0.4
    warm_sd: float = 0.5
    practice: float = 0.1
    practice_sd: float = 0.3
    fading: float = 0.0045
    lumpy_fading: float = 0.016

    @property
    def usual(self) -> tuple[float, float, float, float]:
        """The usual values of a child's own numbers after ability."""
        return self.pause_weight, self.steady, self.warm, self.practice

    @property
    def spreads(self) -> tuple[float, float, float, float, float]:
        """How much children differ in each of their five numbers, as standard deviations."""
        return self.ability_sd, self.pause_sd, self.steady_sd, self.warm_sd, self.practice_sd


DEFAULT: Final = Parameters()
DESIGN_9: Final = Parameters(
    base=-0.7,
    tau=(2.0, 15.0, 120.0),
    right=(0.7, 0.1, 0.7),
    wrong=0.2,
    beneath_weight=1.8,
    ability_sd=0.5,
    pause_weight=0.0,
    pause_sd=0.0,
    offset_sd=0.6,
    drift=1e-4,
    variance_cap=4.0,
    repeat=-0.35,
    lesson=0.5,
    lumpy=0.0,
    steady=0.0,
    steady_sd=0.0,
    warm=0.0,
    warm_sd=0.0,
    practice=0.0,
    practice_sd=0.0,
    fading=0.0,
    lumpy_fading=0.0,
)
"""The values that the work began with, kept to be measured against [1]."""
