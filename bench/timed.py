"""One figure: how long something takes, beside an alternative measured in the same run."""

from __future__ import annotations

from dataclasses import dataclass
from statistics import median
from time import perf_counter
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable

REPEATS = 5


@dataclass(frozen=True, slots=True)
class Figure:
    """Medians in milliseconds. `other_ms` is None where the alternative is not there to be measured.

    `lacks` says what the alternative does not do; `limit_ms` is a limit that the project promised.
    """

    what: str
    ms: float
    other: str
    other_ms: float | None
    lacks: str = ""
    limit_ms: float | None = None

    @property
    def ratio(self) -> float | None:
        """Ours over the alternative: below 1 ours is quicker. The same on every machine, more or less."""
        return self.ms / self.other_ms if self.other_ms else None


def median_ms(do: Callable[[], object], *, repeats: int = REPEATS, times: int = 1) -> float:
    """Median over repeats of one call in milliseconds; with `times`, so many calls are timed together."""
    taken = []
    for _ in range(repeats):
        start = perf_counter()
        for _ in range(times):
            do()
        taken.append((perf_counter() - start) * 1000 / times)
    return median(taken)
