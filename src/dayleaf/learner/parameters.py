"""The numbers of the learner model, in one place, so that they can be fitted and compared.

References:
    [1] The starting values, and the simulations that chose them: DESIGN 9 of this project.
    [2] What was changed since, on this project's own virtual children: docs/learner.md. Nothing here is validated
        on children.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final


@dataclass(frozen=True, slots=True)
class Parameters:
    """What is assumed of every child. Times are in days, levels in logits, chances in 0 .. 1.

    `tau` are the times in which the three counts of right answers fade to 1/e (recent practice, this month, this
    term) and `right` what each adds to the logit; `wrong_tau` and `wrong` are the same for wrong answers.
    `pause` is the time scale of a pause, `pause_weight` what its logarithm takes away from the logit, and
    `pause_sd` how much children differ in it. `lesson` and `beneath` are what a lesson, and a right answer to a
    skill above, add to the counts; `repeat` is the exponent by which later items of a day add less. `lumpy` is the
    share of firmness that takes a skill to be wholly there or wholly gone.
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
    pause_weight: float = 0.3
    pause_sd: float = 0.25
    offset_sd: float = 0.67
    drift: float = 0.01
    variance_cap: float = 5.0
    guess: float = 0.05
    slip: float = 0.04
    repeat: float = -0.41
    lesson: float = 0.15
    beneath: float = 0.1
    lumpy: float = 0.33


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
)
"""The values that the work began with, kept to be measured against [1]."""
