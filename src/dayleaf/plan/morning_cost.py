"""What a morning's wishes cost, and bounds below which no morning can go."""

from __future__ import annotations

import heapq
from itertools import permutations
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from dayleaf.core.ids import LearnerId
    from dayleaf.plan.morning_model import Block, MorningNeeds, Session, Stamina

MOST_ORDERS = 5
"""Up to so many blocks of a child every order is looked at; beyond, the bound does without pauses."""


def wish_costs(needs: MorningNeeds, sessions: Iterable[Session]) -> dict[str, int]:
    """What each wish costs in this morning, by the weights in `needs.wishes`."""
    times: dict[str, list[Session]] = {}
    for session in sessions:
        times.setdefault(session.block, []).append(session)
    waiting = order = fresh = 0
    for block in needs.blocks:
        own = times.get(block.id)
        if own is None:
            continue
        begins = min(session.start for session in own)
        waiting += max(session.end for session in own) - begins - block.minutes
        order += sum(min(other.start for other in times[name]) > begins for name in block.after if name in times)
        fresh += begins if block.fresh else 0
    weights = needs.wishes
    return {"waiting": waiting * weights.waiting, "order": order * weights.order, "fresh": fresh * weights.fresh}


def finish_bound(needs: MorningNeeds, blocks: Sequence[Block]) -> int:
    """A minute before which these blocks cannot all be over.

    The greatest of: what one child needs with its pauses; what passes through the adult, and through each
    thing of which there is one, taken as one machine with heads and tails whose work may be interrupted
    (Jackson's preemptive schedule: Carlier 1982).
    """
    by_child: dict[LearnerId, list[Block]] = {}
    for block in blocks:
        by_child.setdefault(block.learner, []).append(block)
    bound = max((_child_bound(own, needs.stamina.get(child)) for child, own in by_child.items()), default=0)
    led: list[tuple[int, int, int]] = []
    using: dict[str, list[tuple[int, int, int]]] = {name: [] for name, count in needs.shared.items() if count == 1}
    for block in blocks:
        head, whole = 0, block.minutes
        for phase in block.phases:
            job = (head, phase.minutes, whole - head - phase.minutes)
            if phase.kind == "led":
                led.append(job)
            for name in phase.uses:
                if name in using:
                    using[name].append(job)
            head += phase.minutes
    return max(bound, *(preemptive_end(jobs) for jobs in (led, *using.values())))


def wishes_bound(needs: MorningNeeds, blocks: Sequence[Block]) -> int:
    """A cost below which the wishes cannot go: pauses that a long lesson needs inside it are waiting too."""
    forced = 0
    for block in blocks:
        stamina = needs.stamina.get(block.learner)
        if stamina is not None:
            forced += _pauses([phase.minutes for phase in block.phases], stamina.span) * stamina.pause
    return forced * needs.wishes.waiting


def preemptive_end(jobs: Sequence[tuple[int, int, int]]) -> int:
    """The end of (head, minutes, tail) jobs on one machine when they may be interrupted: longest tail first."""
    waiting: list[tuple[int, int]] = []
    coming = sorted(jobs)
    clock, end, place = 0, 0, 0
    while place < len(coming) or waiting:
        if not waiting:
            clock = max(clock, coming[place][0])
        while place < len(coming) and coming[place][0] <= clock:
            _, minutes, tail = coming[place]
            heapq.heappush(waiting, (-tail, minutes))
            place += 1
        tail, minutes = heapq.heappop(waiting)
        until = coming[place][0] if place < len(coming) else clock + minutes
        done = min(minutes, until - clock)
        clock += done
        if done < minutes:
            heapq.heappush(waiting, (tail, minutes - done))
        else:
            end = max(end, clock - tail)
    return end


def _child_bound(blocks: Sequence[Block], stamina: Stamina | None) -> int:
    whole = sum(block.minutes for block in blocks)
    if stamina is None or whole <= stamina.span or len(blocks) > MOST_ORDERS:
        return whole
    fewest = min(
        _pauses([phase.minutes for block in order for phase in block.phases], stamina.span)
        for order in permutations(blocks)
    )
    return whole + fewest * stamina.pause


def _pauses(minutes: Iterable[int], span: int) -> int:
    """The fewest pauses in a row of phases: each stretch as long as it may be."""
    pauses = stretch = 0
    for one in minutes:
        if stretch and stretch + one > span:
            pauses += 1
            stretch = 0
        stretch += one
    return pauses


def price_of(blocks: Iterable[Block], kept: Mapping[str, object] | frozenset[str]) -> int:
    """What the blocks that are not kept are worth."""
    return sum(block.worth for block in blocks if block.id not in kept)
