"""From what the network says to a digit that counts, or a question."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal

import numpy as np

from dayleaf.reading.digits.classes import BLANK, CLASSES, TURNABLE

if TYPE_CHECKING:
    from dayleaf.reading.arrays import Array

SURE: Final = 0.95
SURE_TURNED: Final = 0.99
"""Certainty from which a digit counts without a question; a digit turned round needs more.

Chosen on MNIST test digits 0 to 4999, worn as photos wear them: there at most 0.13 % of all digits are sure and wrong
(upper end of the exact 95 % interval of Clopper and Pearson 1934) and 5.3 % are asked about. Dividing the logarithms by
a temperature (Guo and others 2017) was tried from 0.8 to 1.5; 1 fits best, so there is none.
"""

TURNED_ODDS: Final = 0.1
"""How much rarer digits turned round are on paper than in training, where a quarter of them were."""

TURNED_RANGE: Final = (0.05, 0.25)
"""The least and the greatest that these odds become for one page."""

LIKELY: Final = 3
LEAST_LIKELY: Final = 0.002
"""How many digits are named for a doubtful crop, and the least share of a digit that is named."""

_PAGES_BEFORE: Final = 30
"""How many digits of the usual sort the first guess counts for."""

_TRAINED: Final = 0.24
"""Share of the digits in training that were turned round."""


@dataclass(frozen=True, slots=True)
class Reading:
    """What one crop says. `reading` is a digit, or empty for an empty crop; `certainty` from 0 to 1.

    In the state `ask` the reading is the likeliest digit and must not be counted without a person's word; `likely` are
    it and the next ones, as far as any is likely at all.
    """

    reading: str
    certainty: float
    state: Literal["sure", "ask", "blank"]
    reversed: bool
    likely: tuple[str, ...] = ()


def decide(probabilities: Array) -> tuple[Reading, ...]:
    """One reading a row of (N × 19) probabilities from `network.read_crops`; rows of one page belong together.

    Who turns one digit round turns others too: how common that is, is taken from the rows themselves (`turned_odds`).
    """
    shares = _weighed(probabilities, turned_odds(probabilities))
    upright = shares[:, :10]
    turned = np.zeros_like(upright)
    turned[:, TURNABLE] = shares[:, 10:BLANK]
    either = upright + turned
    digits = either.argmax(axis=1)
    return tuple(
        _decided(int(digit), row, float(blank), turned=bool(back[digit] > front[digit]))
        for digit, row, front, back, blank in zip(digits, either, upright, turned, shares[:, BLANK], strict=True)
    )


def _decided(digit: int, shares: Array, blank: float, *, turned: bool) -> Reading:
    certainty = float(shares[digit])
    if blank > certainty and blank >= 0.5:
        return Reading("", round(blank, 4), "blank", reversed=False)
    enough = certainty >= (SURE_TURNED if turned else SURE)
    if enough:
        return Reading(str(digit), round(certainty, 4), "sure", reversed=turned)
    next_ones = [int(one) for one in shares.argsort()[::-1][1:LIKELY] if shares[one] >= LEAST_LIKELY]
    likely = tuple(str(one) for one in (digit, *next_ones))
    return Reading(str(digit), round(certainty, 4), "ask", reversed=turned, likely=likely)


def _weighed(probabilities: Array, odds: float) -> Array:
    """Probabilities where digits turned round are `odds` times as common as in training (Bayes' rule)."""
    weight = np.ones(CLASSES)
    weight[10:BLANK] = odds
    weighed = probabilities * weight
    return np.asarray(weighed / weighed.sum(axis=1, keepdims=True))


def turned_odds(probabilities: Array) -> float:
    """How common digits turned round are on this page, in odds against training's, within `TURNED_RANGE`.

    Expectation and maximisation over the rows (Saerens, Latinne and Decaestecker 2002, "Adjusting the outputs of a
    classifier to new a priori probabilities"), begun from `TURNED_ODDS`, which counts for thirty digits.
    """
    odds = TURNED_ODDS
    trained = _TRAINED / (1 - _TRAINED)
    usual = _share(TURNED_ODDS * trained)
    for _ in range(12):
        shares = _weighed(probabilities, odds)
        turned, all_digits = float(shares[:, 10:BLANK].sum()), float(shares[:, :BLANK].sum())
        share = (turned + usual * _PAGES_BEFORE) / (all_digits + _PAGES_BEFORE)
        odds = float(np.clip(share / max(1 - share, 1e-9) / trained, *TURNED_RANGE))
    return odds


def _share(odds: float) -> float:
    return odds / (1 + odds)
