"""When news comes: planned days without a record, and how long this family usually lets pass."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from datetime import date

    from dayleaf.advising.shared import SharedRecords

TIMES: Final = 3
"""A gap is usual when one as long came at least this often."""


@dataclass(frozen=True, slots=True)
class Silence:
    """The planned days since the last news; `last` is None where none ever came."""

    days: tuple[date, ...]
    last: date | None


def planned_since(shared: SharedRecords, as_of: date) -> Silence | None:
    """The planned days after the last record and before `as_of`; None where the family shares no plan or no progress.

    A day on which something was written down for earlier days is news too.
    """
    if shared.plan is None or shared.progress is None:
        return None
    news = _news(shared, as_of)
    planned = _planned(shared, as_of)
    last = news[-1] if news else None
    return Silence(tuple(planned[bisect_right(planned, last) :] if last else planned), last)


def usual_gap(shared: SharedRecords, as_of: date) -> int:
    """How many planned days pass between news at this family: the longest gap that came three times, 0 before that."""
    planned, news = _planned(shared, as_of), _news(shared, as_of)
    gaps = sorted(
        (max(0, bisect_left(planned, later) - bisect_right(planned, earlier)) for earlier, later in pairwise(news)),
        reverse=True,
    )
    return gaps[TIMES - 1] if len(gaps) >= TIMES else 0


def _planned(shared: SharedRecords, as_of: date) -> list[date]:
    return sorted({one.day for one in shared.plan.then if one.day < as_of}) if shared.plan else []


def _news(shared: SharedRecords, as_of: date) -> list[date]:
    """Dates on which something came in. Written dates count where they are plausible, else the days told of."""
    if shared.progress is None:
        return []
    there = [day for day in (*shared.progress.there, *shared.progress.away) if day <= as_of]
    written = [day for day in shared.progress.written if day <= as_of]
    if written and there and max(written) >= max(there):
        return sorted(set(written))
    return sorted(set(there))
