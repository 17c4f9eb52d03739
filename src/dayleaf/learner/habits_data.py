"""What is kept of a child's answers for the odds of habits, as plain data for a cache; the log stays the truth."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from dayleaf.core.ids import ErrorWayId
from dayleaf.learner.codec import StaleBeliefs
from dayleaf.learner.habits import Followed, Habits, Strand

if TYPE_CHECKING:
    from collections.abc import Mapping

HABITS_VERSION: Final = "habits-2"
"""Changes whenever the same answers would give other odds; caches are keyed by it."""


def habits_to_data(habits: Habits) -> dict[str, object]:
    """The state as a dictionary that JSON can hold, exact to the last bit."""
    return {
        "model": HABITS_VERSION,
        "strands": {
            strand: [list(here.none), here.unknown, sorted(here.ways)] for strand, here in habits.strands.items()
        },
        "ways": {
            way: [list(one.on), list(one.mended), one.scale, one.says, one.own] for way, one in habits.ways.items()
        },
        "asked": list(habits.asked),
    }


def habits_from_data(data: Mapping[str, Any]) -> Habits:
    """The state that `habits_to_data` wrote.

    Raises:
        StaleBeliefs: it is of another version or cannot be read.
    """
    if data.get("model") != HABITS_VERSION:
        raise StaleBeliefs
    try:
        return Habits(
            strands={
                strand: Strand(tuple(none), unknown, frozenset(ErrorWayId(way) for way in ways))
                for strand, (none, unknown, ways) in data["strands"].items()
            },
            ways={
                ErrorWayId(way): Followed(tuple(on), tuple(mended), scale, says, own)
                for way, (on, mended, scale, says, own) in data["ways"].items()
            },
            asked=tuple(data["asked"]),
        )
    except (KeyError, TypeError, ValueError, AttributeError):
        raise StaleBeliefs from None
