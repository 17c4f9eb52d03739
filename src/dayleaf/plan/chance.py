"""How likely a year is finished by a date, from how many planned days the family has lost so far."""

from __future__ import annotations

from dataclasses import dataclass
from math import comb, exp, lgamma
from typing import TYPE_CHECKING, Final

from dayleaf.core.errors import DayleafError

if TYPE_CHECKING:
    from collections.abc import Iterator

PRIOR: Final = (1, 9)
"""What is taken for granted before anything is known: as if 1 of 10 planned days had been lost (CHECKS E and JOB 1.4
speak of one in ten; common practice, no source)."""

TAIL: Final = 0.05
"""What lies on either side of the interval: 90 % in between."""

HALVINGS: Final = 50


class MoreLostThanPlanned(DayleafError):
    """More days lost than there were."""

    def __init__(self, *, lost: int, planned: int) -> None:
        self.lost, self.planned = lost, planned
        super().__init__(
            f"{lost} days lost of {planned} planned cannot be; the lost days are some of the planned ones."
        )


@dataclass(frozen=True, slots=True)
class Chance:
    """The chance of having enough days, 0 to 1, and its 90 % interval; `rate` is the expected share of lost days."""

    chance: float
    low: float
    high: float
    rate: float


def chance_of_finishing(*, needed: int, days: int, lost: int = 0, planned: int = 0) -> Chance:
    """The chance that of `days` planned days at least `needed` take place, `lost` of `planned` having been lost so far.

    The share of lost days follows a beta distribution that begins as `PRIOR` and takes in every planned day, lost or
    not; the days lost among those to come then follow a beta-binomial distribution, summed exactly. The interval comes
    from the 5 % and the 95 % point of the share: what the chance would be if one of these were the truth; it is
    widened where need be to hold the chance itself, which shares beyond them can pull out of it.

    Raises:
        MoreLostThanPlanned: `lost` lies outside 0 to `planned`.

    References:
        1. Skellam, J. G. (1948). A probability distribution derived from the binomial distribution by regarding the
           probability of success as variable between the sets of trials. J. R. Stat. Soc. B 10, 257-261.
    """
    if not 0 <= lost <= planned:
        raise MoreLostThanPlanned(lost=lost, planned=planned)
    a, b = PRIOR[0] + lost, PRIOR[1] + planned - lost
    spare = days - needed
    if needed <= 0 or spare < 0:
        certain = 1.0 if needed <= 0 else 0.0
        return Chance(chance=certain, low=certain, high=certain, rate=a / (a + b))
    exact = min(1.0, sum(_lost_exactly(k, days, a, b) for k in range(spare + 1)))
    return Chance(
        chance=exact,
        low=min(exact, chance_at_rate(needed=needed, days=days, rate=_rate_at(1 - TAIL, a, b))),
        high=max(exact, chance_at_rate(needed=needed, days=days, rate=_rate_at(TAIL, a, b))),
        rate=a / (a + b),
    )


def chance_at_rate(*, needed: int, days: int, rate: float) -> float:
    """The same where each day is lost with a known chance `rate`, 0 to 1: a binomial sum."""
    kept = 1 - rate
    return min(1.0, sum(comb(days, k) * rate**k * kept ** (days - k) for k in range(days - needed + 1)))


def days_to_plan(*, needed: int, rate: float, chance: float) -> int:
    """The fewest planned days with which `needed` take place with at least this chance, each lost with chance `rate`.

    `rate` lies in 0 to below 1, `chance` in 0 to below 1.
    """
    return next(days for days in _from(needed) if chance_at_rate(needed=needed, days=days, rate=rate) >= chance)


def _from(first: int) -> Iterator[int]:
    while True:
        yield first
        first += 1


def _lost_exactly(k: int, n: int, a: int, b: int) -> float:
    return comb(n, k) * exp(_log_beta(k + a, n - k + b) - _log_beta(a, b))


def _log_beta(a: int, b: int) -> float:
    return lgamma(a) + lgamma(b) - lgamma(a + b)


def _rate_at(share: float, a: int, b: int) -> float:
    """The point below which the beta distribution has this share, by halving."""
    low, high = 0.0, 1.0
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        if _below(middle, a, b) < share:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def _below(x: float, a: int, b: int) -> float:
    """The beta distribution function for whole a and b: a binomial tail of a + b - 1 draws."""
    n = a + b - 1
    return sum(comb(n, k) * x**k * (1 - x) ** (n - k) for k in range(a, n + 1))
