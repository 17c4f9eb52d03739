"""Mornings drawn by seed, and the best of a small one found by trying every minute: for tests and long runs."""

from __future__ import annotations

import random
from itertools import combinations_with_replacement, permutations, product
from typing import TYPE_CHECKING

from dayleaf.core.ids import LearnerId
from dayleaf.plan.morning_model import ADULT, Appointment, Block, MorningNeeds, Phase, Stamina

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

LENGTHS = (5, 8, 10, 12, 15, 20)


def drawn_morning(children: int, seed: int, *, short: bool = False) -> MorningNeeds:
    """A morning of some children with one to three lessons each; `short` gives it an end that may be too early."""
    chance = random.Random(f"{children} {seed} {short}")
    blocks: list[Block] = []
    stamina: dict[LearnerId, Stamina] = {}
    for number in range(children):
        child = LearnerId(f"child-{number}")
        if chance.random() < 0.7:
            stamina[child] = Stamina(chance.choice([25, 35, 45, 60]), chance.choice([5, 10, 15]))
        blocks += [_block(child, n, chance) for n in range(chance.choice([1, 2, 2, 3]))]
    appointments = []
    if chance.random() < 0.4:
        appointments.append(Appointment("a call", (ADULT,), chance.randrange(10, 90), chance.choice([10, 20])))
    if chance.random() < 0.3:
        appointments.append(Appointment("the dentist", ("child-0",), chance.randrange(10, 90), 30))
    if chance.random() < 0.2:
        appointments.append(Appointment("a nap", (), chance.randrange(0, 60), 40, quiet=True))
    led = sum(phase.minutes for block in blocks for phase in block.phases if phase.kind == "led")
    latest = int(led * chance.uniform(0.7, 1.3)) + 20 if short else None
    return MorningNeeds(tuple(blocks), stamina, tuple(appointments), {"tablet": 1, "blocks": 2}, latest)


def _block(child: LearnerId, n: int, chance: random.Random) -> Block:
    phases = []
    for k in range(chance.choice([1, 2, 2, 3, 3])):
        thing = chance.choice(["tablet", "blocks"]) if chance.random() < 0.25 else ""
        phases.append(Phase("alone" if k % 2 else "led", chance.choice(LENGTHS), (thing,) if thing else ()))
    return Block(
        id=f"{child}/{n}",
        learner=child,
        title=f"lesson {n}",
        phases=tuple(phases),
        worth=chance.choice([30, 50, 100]),
        fresh=n == 0 and chance.random() < 0.2,
        loud=chance.random() < 0.1,
        after=(f"{child}/{n - 1}",) if n and chance.random() < 0.3 else (),
    )


def tiny_morning(seed: int) -> MorningNeeds:
    """Two or three children with lessons of a few minutes, small enough to try everything."""
    chance = random.Random(f"tiny {seed}")
    children = chance.choice([2, 2, 3])
    blocks: list[Block] = []
    stamina: dict[LearnerId, Stamina] = {}
    for number in range(children):
        child = LearnerId(f"child-{number}")
        if chance.random() < 0.5:
            stamina[child] = Stamina(chance.choice([3, 4]), chance.choice([1, 2]))
        parts = chance.choice([[1], [2], [1, 1]] if children == 3 else [[2], [3], [1, 1], [1, 2]])
        for n, size in enumerate(parts):
            phases = tuple(
                Phase(
                    "alone" if k % 2 else "led", chance.choice([1, 2, 3]), ("tablet",) if chance.random() < 0.2 else ()
                )
                for k in range(size)
            )
            fresh, wanted = chance.random() < 0.2, n > 0 and chance.random() < 0.5
            after = (f"{child}/{n - 1}",) if wanted else ()
            blocks.append(Block(f"{child}/{n}", child, "a lesson", phases, fresh=fresh, after=after))
    taken = (Appointment("a call", (ADULT,), chance.randrange(0, 4), 2),) if chance.random() < 0.4 else ()
    return MorningNeeds(tuple(blocks), stamina, taken, {"tablet": 1})


def best_by_trying(needs: MorningNeeds, *, within: int) -> tuple[int, int] | None:
    """(end, cost of the wishes) of the best morning over by `within`, found by trying every start of every phase.

    It shares no code with what lays mornings out. None where there is no such morning.
    """
    rows = [list(_rows_of(child, needs, within)) for child in needs.learners]
    best: tuple[int, int] | None = None
    for chosen in product(*rows):
        if _clash([led for _, _, led, _ in chosen]) or _clash([tablet for _, _, _, tablet in chosen]):
            continue
        found = (max(end for end, _, _, _ in chosen), sum(cost for _, cost, _, _ in chosen))
        if best is None or found < best:
            best = found
    return best


def _clash(masks: Sequence[int]) -> bool:
    seen = 0
    for mask in masks:
        if seen & mask:
            return True
        seen |= mask
    return False


def _rows_of(child: LearnerId, needs: MorningNeeds, within: int) -> Iterator[tuple[int, int, int, int]]:
    """(end, cost, minutes with the adult, minutes with the tablet) of every way to lay one child's morning."""
    own = [block for block in needs.blocks if block.learner == child]
    away = _minutes_of(needs, child)
    adult_away = _minutes_of(needs, ADULT)
    for order in permutations(own):
        phases = [(block, phase) for block in order for phase in block.phases]
        spare = within - sum(phase.minutes for _, phase in phases)
        # The waits before each phase: every way to share out at most the spare minutes.
        for ends in combinations_with_replacement(range(spare + 1), len(phases)):
            starts, clock = [], 0
            for (_, phase), waited in zip(phases, ends, strict=True):
                starts.append(clock + waited)
                clock += phase.minutes
            led = tablet = everything = 0
            for (_, phase), start in zip(phases, starts, strict=True):
                mask = ((1 << phase.minutes) - 1) << start
                everything |= mask
                led |= mask if phase.kind == "led" else 0
                tablet |= mask if phase.uses else 0
            if everything & away or led & adult_away or _sits_too_long(phases, starts, needs.stamina.get(child)):
                continue
            last = starts[-1] + phases[-1][1].minutes if phases else 0
            yield last, _cost(order, phases, starts, needs), led, tablet


def _minutes_of(needs: MorningNeeds, who: str) -> int:
    mask = 0
    for one in needs.appointments:
        if who in one.who:
            mask |= ((1 << one.minutes) - 1) << one.start
    return mask


def _sits_too_long(phases: Sequence[tuple[Block, Phase]], starts: Sequence[int], stamina: Stamina | None) -> bool:
    if stamina is None:
        return False
    sat, last, parts = 0, None, 0
    for (_, phase), start in zip(phases, starts, strict=True):
        if last is None or start - last >= stamina.pause:
            sat, parts = 0, 0
        sat, parts, last = sat + phase.minutes, parts + 1, start + phase.minutes
        if parts > 1 and sat > stamina.span:
            return True
    return False


def _cost(
    order: Sequence[Block], phases: Sequence[tuple[Block, Phase]], starts: Sequence[int], needs: MorningNeeds
) -> int:
    cost = 0
    for place, block in enumerate(order):
        own = [(start, phase) for (one, phase), start in zip(phases, starts, strict=True) if one.id == block.id]
        inside = own[-1][0] + own[-1][1].minutes - own[0][0]
        cost += needs.wishes.waiting * (inside - sum(phase.minutes for _, phase in own))
        cost += needs.wishes.fresh * own[0][0] if block.fresh else 0
        later = {other.id for other in order[place + 1 :]}
        cost += needs.wishes.order * sum(name in later for name in block.after)
    return cost
