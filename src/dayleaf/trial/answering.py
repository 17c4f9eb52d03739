"""Virtual children who write answers to take-aways: with a habit or without, with slips of several kinds.

They share no code with what looks for their habits (`subtracting` is a second writing of the published ways).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from dayleaf.trial.subtracting import answer_with

if TYPE_CHECKING:
    from collections.abc import Sequence
    from random import Random

SlipKind = Literal["digit", "fact", "neighbor"]
"""digit: one digit becomes another · fact: one column is one off · neighbor: another published way, once."""

WAYS = 33


@dataclass(frozen=True, slots=True)
class Answerer:
    """A child with the published way of this number or none, its slip rate, and how often it follows the way."""

    way: int | None
    slip_rate: float = 0.08
    follows: float = 1.0
    kinds: Sequence[SlipKind] = ("digit", "fact", "neighbor")

    def writes(self, top: int, bottom: int, chance: Random) -> int:
        """What the child writes; 0 <= bottom <= top."""
        way = self.way if chance.random() < self.follows else None
        meant = answer_with(way, top, bottom)
        if chance.random() >= self.slip_rate:
            return meant
        kind = chance.choice(self.kinds)
        if kind == "neighbor":
            return answer_with(chance.randint(1, WAYS), top, bottom)
        digits = [int(one) for one in str(meant)]
        place = chance.randrange(len(digits))
        if kind == "digit":
            digits[place] = chance.choice([one for one in range(10) if one != digits[place]])
        else:
            digits[place] = max(0, min(9, digits[place] + chance.choice((-1, 1))))
        return int("".join(str(one) for one in digits))
