"""One table, one adult, several children: who is led when, with pauses, appointments and shared things."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.plan.morning_cost import finish_bound, wish_costs, wishes_bound
from dayleaf.plan.morning_model import MorningPlan
from dayleaf.plan.morning_search import as_found, drawn_together, search
from dayleaf.plan.morning_solver import Limits, MorningModel
from dayleaf.plan.morning_words import left_out_of

if TYPE_CHECKING:
    from dayleaf.plan.morning_model import How, MorningNeeds
    from dayleaf.plan.morning_search import Found
    from dayleaf.plan.morning_solver import Answer


def plan_morning(needs: MorningNeeds, *, seed: int = 1) -> MorningPlan:
    """The morning that leaves out least, ends soonest and then meets the wishes best, in this order.

    First simple rules (the longest time alone first: with one led part each, then one alone, that ends soonest, being
    one machine with delivery times, Jackson 1955), then a search over orders; either is proven where it
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


def soon_morning(needs: MorningNeeds, *, seed: int = 1) -> MorningPlan:
    """The morning by rules and search alone, for where nobody can wait for a proof; what is open stays open."""
    found = search(needs, seed=seed)
    best = (0, finish_bound(needs, needs.blocks), wishes_bound(needs, needs.blocks))
    bounds = best if found.rank[0] == 0 else (0, 0, 0)
    return _planned(needs, found, bounds, how="rule" if found.by_rule else "search")


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
