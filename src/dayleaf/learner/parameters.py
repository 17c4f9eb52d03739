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
    skill above, add to the counts; `repeat` is the exponent by which later items of a day add less.
    """

    base: float = -0.7
    tau: tuple[float, float, float] = (2.0, 15.0, 120.0)
    right: tuple[float, float, float] = (0.7, 0.1, 0.7)
    wrong_tau: float = 15.0
    wrong: float = 0.2
    beneath_weight: float = 1.8
    beneath_level: float = 0.8
    ability_sd: float = 0.5
    pause: float = 5.0
    pause_weight: float = 0.0
    pause_sd: float = 0.0
    offset_sd: float = 0.6
    drift: float = 1e-4
    variance_cap: float = 4.0
    guess: float = 0.05
    slip: float = 0.04
    repeat: float = -0.35
    lesson: float = 0.5
    beneath: float = 0.1


DEFAULT: Final = Parameters()
