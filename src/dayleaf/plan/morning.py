"""One table, one adult, several children: who is led when.

`order_morning` is the rule for one lesson each, led and then alone. `plan_morning` takes everything else too: several
lessons each, pauses, appointments, shared things, a day that is too short.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from dayleaf.core.errors import DayleafError
from dayleaf.plan.morning_cost import finish_bound, wish_costs, wishes_bound
from dayleaf.plan.morning_model import MorningPlan
from dayleaf.plan.morning_search import as_found, drawn_together, search
from dayleaf.plan.morning_solver import Limits, MorningModel
from dayleaf.plan.morning_words import left_out_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from dayleaf.core.ids import LearnerId
    from dayleaf.plan.morning_model import How, MorningNeeds
    from dayleaf.plan.morning_search import Found
    from dayleaf.plan.morning_solver import Answer


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


def plan_morning(needs: MorningNeeds, *, seed: int = 1) -> MorningPlan:
    """The morning that leaves out least, ends soonest and then meets the wishes best, in this order.

    First simple rules (the longest time alone first), then a search over orders; either is proven where it
    meets the bounds of `morning_cost`, which for one lesson each, led and then alone, the rule always does.
    What they leave open goes to the constraint solver, within a limit of deterministic time. Same needs and
    library versions, same morning, however many cores there are.
    """
    best = (0, finish_bound(needs, needs.blocks), wishes_bound(needs, needs.blocks))
    found = search(needs, seed=seed)
    if found.rank[:3] == best:
        return _planned(needs, found, best, how="rule" if found.by_rule else "search")
    price, end = best[0], best[1]
    if found.rank[0] > price:
        answer = MorningModel(needs, found.sessions, limits=Limits()).least_price()
        price = max(price, answer.bound)
        found = _better(needs, found, answer)
    if found.rank[0]:
        end = 0
    if found.rank[1] > end:
        answer = MorningModel(needs, found.sessions, limits=Limits(price=found.rank[0])).least_end()
        end = max(end, answer.bound)
        found = _better(needs, found, answer)
    limits = Limits(price=found.rank[0], end=found.rank[1])
    answer = MorningModel(needs, found.sessions, limits=limits).least_cost()
    found = _better(needs, found, answer)
    return _planned(needs, found, (price, end, max(best[2] if price == 0 else 0, answer.bound)), how="solver")


def _better(needs: MorningNeeds, found: Found, answer: Answer) -> Found:
    """The solver's morning drawn together, where it is better than what was found before."""
    if answer.sessions is None:
        return found
    return min(
        found, drawn_together(needs, answer.sessions), as_found(needs, answer.sessions), key=lambda one: one.rank
    )


def _planned(needs: MorningNeeds, found: Found, bounds: tuple[int, int, int], *, how: How) -> MorningPlan:
    price, end, _, _ = found.rank
    cost = wish_costs(needs, found.sessions)
    return MorningPlan(
        sessions=found.sessions,
        left_out=left_out_of(needs, found.sessions),
        price=price,
        price_bound=min(bounds[0], price),
        minutes=end,
        finish_bound=min(bounds[1], end),
        cost=cost,
        wishes_bound=min(bounds[2], sum(cost.values())),
        how=how,
        start=needs.start,
    )
