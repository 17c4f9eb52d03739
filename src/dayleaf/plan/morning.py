"""One table, one adult, several children: who is led when."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from dayleaf.core.errors import DayleafError

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from dayleaf.core.ids import LearnerId


class MinutesBelowZero(DayleafError):
    """A part of a lesson cannot last less than no time."""

    def __init__(self, learner: LearnerId) -> None:
        self.learner = learner
        super().__init__(f"The minutes planned for {learner} must be 0 or more.")


@dataclass(frozen=True, slots=True)
class Sitting:
    """What one child needs in a morning: minutes with the adult, then minutes alone."""

    learner: LearnerId
    led: int
    alone: int


@dataclass(frozen=True, slots=True)
class Segment:
    """A piece of one child's strip, in minutes from the start of the morning."""

    learner: LearnerId
    kind: Literal["led", "alone"]
    start: int
    minutes: int

    @property
    def end(self) -> int:
        """The minute in which it is over."""
        return self.start + self.minutes


@dataclass(frozen=True, slots=True)
class Morning:
    """The strip of a morning: segments in order of their start, child by child in order of being led.

    `with_adult` counts the adult's minutes, `minutes` the whole until the last child is done.
    """

    order: tuple[LearnerId, ...]
    segments: tuple[Segment, ...]
    with_adult: int
    minutes: int


def order_morning(sittings: Iterable[Sitting]) -> Morning:
    """The order that ends the morning soonest when each child has one led block, then one alone.

    The adult leads one child at a time without a break; the child with the longest part alone is led first.
    That is optimal: the adult's part does not depend on the order, and exchanging two neighbours of which
    the second has the longer part alone never ends later (one machine with delivery times, solved by the
    rule of longest delivery time first: Jackson 1955). Of equal parts alone the one given first stays first.

    Raises:
        MinutesBelowZero: a part lasts less than 0 minutes.
    """
    ordered = sorted(sittings, key=lambda one: -one.alone)
    for one in ordered:
        if one.led < 0 or one.alone < 0:
            raise MinutesBelowZero(one.learner)
    return morning_in_order(ordered)


def morning_in_order(sittings: Sequence[Sitting]) -> Morning:
    """The strip when the children are led in exactly this order."""
    segments: list[Segment] = []
    clock = 0
    for one in sittings:
        segments.append(Segment(learner=one.learner, kind="led", start=clock, minutes=one.led))
        clock += one.led
        segments.append(Segment(learner=one.learner, kind="alone", start=clock, minutes=one.alone))
    return Morning(
        order=tuple(one.learner for one in sittings),
        segments=tuple(segments),
        with_adult=clock,
        minutes=max((segment.end for segment in segments), default=0),
    )
