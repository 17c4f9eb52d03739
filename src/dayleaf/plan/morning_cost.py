"""What a morning's wishes cost, and bounds below which no morning can go."""

from __future__ import annotations

import heapq
from itertools import permutations
from typing import TYPE_CHECKING

from dayleaf.plan.morning_model import ADULT

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

    The greatest of: what one child needs with its pauses; what passes through the adult, through a child and through
    each thing of which there is one, taken as one machine with heads and tails whose work may be interrupted
    (Jackson's preemptive schedule: Carlier 1982), and as one machine whose time before each appointment can only be
    filled with whole phases.
    """
    by_child: dict[LearnerId, list[Block]] = {}
    for block in blocks:
        by_child.setdefault(block.learner, []).append(block)
    bound = max((_child_bound(own, needs.stamina.get(child)) for child, own in by_child.items()), default=0)
    machines: dict[str, list[tuple[int, int, int]]] = {}
    for block in blocks:
        head, whole = 0, block.minutes
        for phase in block.phases:
            job = (head, phase.minutes, whole - head - phase.minutes)
            things = [f"thing {name}" for name in phase.uses if needs.shared.get(name, 1) == 1]
            for name in (block.learner, *([ADULT] if phase.kind == "led" else []), *things):
                machines.setdefault(name, []).append(job)
            head += phase.minutes
    for name, jobs in machines.items():
        away = joined((one.start, one.end) for one in needs.appointments if name in one.who)
        if name not in by_child:
            bound = max(bound, preemptive_end(jobs, away))
        bound = max(bound, _whole_phases_end([minutes for _, minutes, _ in jobs], away) + min(job[2] for job in jobs))
    return bound


def wishes_bound(needs: MorningNeeds, blocks: Sequence[Block]) -> int:
    """A cost below which the wishes cannot go: pauses that a long lesson needs inside it are waiting too."""
    forced = 0
    for block in blocks:
        stamina = needs.stamina.get(block.learner)
        if stamina is not None:
            forced += _pauses([phase.minutes for phase in block.phases], stamina.span) * stamina.pause
    return forced * needs.wishes.waiting


def preemptive_end(jobs: Sequence[tuple[int, int, int]], away: Sequence[tuple[int, int]] = ()) -> int:
    """The end of (head, minutes, tail) jobs on one machine when they may be interrupted: longest tail first.

    `away` are spans, in order and apart, in which the machine stands still.
    """
    waiting: list[tuple[int, int]] = []
    coming, closed = sorted(jobs), list(away)
    clock, end, place = 0, 0, 0
    while place < len(coming) or waiting:
        if not waiting:
            clock = max(clock, coming[place][0])
        while closed and closed[0][0] <= clock:
            clock = max(clock, closed.pop(0)[1])
        while place < len(coming) and coming[place][0] <= clock:
            _, minutes, tail = coming[place]
            heapq.heappush(waiting, (-tail, minutes))
            place += 1
        tail, minutes = heapq.heappop(waiting)
        until = min([clock + minutes, *(job[0] for job in coming[place : place + 1]), *(one[0] for one in closed[:1])])
        if until - clock < minutes:
            heapq.heappush(waiting, (tail, minutes - (until - clock)))
        else:
            end = max(end, until - tail)
        clock = until
    return end


def joined(spans: Iterable[tuple[int, int]]) -> list[tuple[int, int]]:
    """The spans in order, those that overlap or touch made one: somebody who is asked for twice is away once."""
    found: list[tuple[int, int]] = []
    for start, end in sorted(spans):
        if found and start <= found[-1][1]:
            found[-1] = (found[-1][0], max(end, found[-1][1]))
        else:
            found.append((start, end))
    return found


def _whole_phases_end(minutes: Sequence[int], away: Sequence[tuple[int, int]]) -> int:
    """A bound for one machine: before each time away, no more than some sum of whole phases can be done."""
    sums = {0}
    for one in minutes:
        sums |= {one + other for other in sums}
    left, clock = sum(minutes), 0
    for start, end in away:
        room = max(start - clock, 0)
        done = max(one for one in sums if one <= room)
        if left <= done:
            break
        left -= done
        clock = max(clock, end)
    return clock + left


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
