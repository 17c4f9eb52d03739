"""Mornings found by laying phases one after the other, each as early as it can be, in many orders.

Every order gives a morning that breaks no rule; the best one seen is kept. Where it meets the bounds of
`morning_cost`, it is proven, and no solver is needed.
"""

from __future__ import annotations

import random
from dataclasses import dataclass, field, replace
from itertools import zip_longest
from typing import TYPE_CHECKING, Final

from dayleaf.plan.morning_closing import closed_up
from dayleaf.plan.morning_cost import finish_bound, price_of, wish_costs, wishes_bound
from dayleaf.plan.morning_model import ADULT, Session

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from dayleaf.core.ids import LearnerId
    from dayleaf.plan.morning_model import Block, MorningNeeds, Stamina

TRIES: Final = 160
"""Orders looked at where the bounds are not met (some hundredths of a second for five children)."""
STALE: Final = 60
"""After so many orders without a better one, the search begins again at the next rule."""


@dataclass(frozen=True, slots=True)
class Found:
    """A morning and how good it is: worth left out, end, cost of the wishes, sum of the children's ends."""

    sessions: tuple[Session, ...]
    rank: tuple[int, int, int, int]
    by_rule: bool = False


@dataclass(frozen=True, slots=True)
class Order:
    """Whose phase is laid next, again and again, and in which order each child takes its blocks."""

    turns: tuple[LearnerId, ...]
    blocks: tuple[tuple[LearnerId, tuple[Block, ...]], ...]


def search(needs: MorningNeeds, *, seed: int, tries: int = TRIES) -> Found:
    """The best morning among `tries` orders; fewer where the bounds are met. Same arguments, same morning."""
    chance = random.Random(seed)
    goal = (0, finish_bound(needs, needs.blocks), wishes_bound(needs, needs.blocks))
    best: Found | None = None
    starts = _first_orders(needs)
    here, found, stale = starts[0], closed(needs, lay(needs, starts[0]), best=None), 0
    for n in range(1, tries + 1):
        if best is None or found.rank < best.rank:
            best = replace(found, by_rule=n <= len(starts))
        if best.rank[:3] == goal:
            break
        if n < len(starts):
            here, found, stale = starts[n], closed(needs, lay(needs, starts[n]), best=best), 0
            continue
        order = _changed(here, chance) if stale < STALE else _changed(starts[n % len(starts)], chance)
        tried = closed(needs, lay(needs, order), best=best)
        if stale >= STALE or tried.rank <= found.rank:
            stale = 0 if tried.rank != found.rank else stale + 1
            here, found = order, tried
        else:
            stale += 1
    assert best is not None  # noqa: S101 -- the first order always gives a morning
    return best


def lay(needs: MorningNeeds, order: Order) -> Found:
    """The morning of an order; a block that would end too late is left out and the rest is laid anew."""
    out: set[str] = set()
    while True:
        laid = _Laying(needs)
        late = laid.follow(order, out)
        if late is None:
            break
        out.add(late)
    return as_found(needs, laid.sessions)


def closed(needs: MorningNeeds, found: Found, *, best: Found | None) -> Found:
    """The morning with its lessons drawn together, where that could make it the best."""
    if found.rank[2] == 0 or (best is not None and found.rank[:2] > best.rank[:2]):
        return found
    return min(found, as_found(needs, closed_up(needs, found.sessions)), key=lambda one: one.rank)


def as_found(needs: MorningNeeds, sessions: Iterable[Session]) -> Found:
    """Sessions in the order of the day, with their rank."""
    row = tuple(sorted(sessions, key=lambda one: (one.start, one.learner, one.block, one.phase)))
    ends = {one.learner: one.end for one in row}
    rank = (
        price_of(needs.blocks, frozenset(one.block for one in row)),
        max(ends.values(), default=0),
        sum(wish_costs(needs, row).values()),
        sum(ends.values()),
    )
    return Found(row, rank)


def drawn_together(needs: MorningNeeds, sessions: Sequence[Session]) -> Found:
    """The same order of phases with each as early as it can be."""
    row = sorted(sessions, key=lambda one: (one.start, one.learner, one.block, one.phase))
    known = {block.id: block for block in needs.blocks}
    blocks = tuple(
        (child, tuple(known[name] for name in dict.fromkeys(one.block for one in row if one.learner == child)))
        for child in needs.learners
    )
    return lay(needs, Order(tuple(one.learner for one in row), blocks))


@dataclass(slots=True)
class _Laying:
    """A morning while phases are being put into it."""

    needs: MorningNeeds
    sessions: list[Session] = field(default_factory=list)
    ready: dict[LearnerId, int] = field(default_factory=dict)
    stretch: dict[LearnerId, int] = field(default_factory=dict)
    taken: dict[str, list[tuple[int, int]]] = field(default_factory=dict)
    quiet: list[tuple[int, int]] = field(default_factory=list)

    def follow(self, order: Order, out: set[str]) -> str | None:
        """Lay every phase in turn; the first block that does not end in time is returned at once."""
        for appointment in self.needs.appointments:
            span = (appointment.start, appointment.end)
            for who in appointment.who:
                self.taken.setdefault(who, []).append(span)
            if appointment.quiet:
                self.quiet.append(span)
        coming = {
            child: iter([(block, n) for block in blocks if block.id not in out for n in range(len(block.phases))])
            for child, blocks in order.blocks
        }
        for child in order.turns:
            following = next(coming[child], None)
            if following is None:
                continue
            block, n = following
            end = self._put(child, block, n)
            if self.needs.latest is not None and end > self.needs.latest:
                return block.id
        return None

    def _put(self, child: LearnerId, block: Block, n: int) -> int:
        phase = block.phases[n]
        stamina = self.needs.stamina.get(child)
        last = self.ready.get(child, 0)
        start = self._earliest(child, block, n, last, stamina)
        gap = start - last
        worked = self.stretch.get(child, 0)
        paused = stamina is None or gap >= stamina.pause
        self.stretch[child] = phase.minutes + (0 if paused else worked)
        self.ready[child] = start + phase.minutes
        session = Session(child, block.id, n, phase.kind, start, phase.minutes, phase.uses)
        self.sessions.append(session)
        if phase.kind == "led":
            self.taken.setdefault(ADULT, []).append((start, session.end))
        for name in phase.uses:
            self.taken.setdefault(_thing(name), []).append((start, session.end))
        return session.end

    def _earliest(self, child: LearnerId, block: Block, n: int, last: int, stamina: Stamina | None) -> int:
        phase = block.phases[n]
        start = last
        worked = self.stretch.get(child, 0)
        if stamina is not None and worked and worked + phase.minutes > stamina.span:
            start += stamina.pause
        busy = list(self.taken.get(child, ()))
        if phase.kind == "led":
            busy += self.taken.get(ADULT, ())
        if block.loud:
            busy += self.quiet
        single = [name for name in phase.uses if self.needs.shared.get(name, 1) == 1]
        for name in single:
            busy += self.taken.get(_thing(name), ())
        several = [name for name in phase.uses if name not in single]
        while True:
            start = _first_gap(busy, start, phase.minutes)
            clash = [self._full(name, start, phase.minutes) for name in several]
            later = max((one for one in clash if one is not None), default=None)
            if later is None:
                return start
            start = later

    def _full(self, name: str, start: int, minutes: int) -> int | None:
        """Where all of a thing are in use during the phase: the next minute at which one comes free."""
        using = [span for span in self.taken.get(_thing(name), ()) if span[0] < start + minutes and start < span[1]]
        moments = {start, *(begins for begins, _ in using if begins > start)}
        most = max((sum(begins <= moment < ends for begins, ends in using) for moment in moments), default=0)
        return min(ends for _, ends in using) if most >= self.needs.shared[name] else None


def _thing(name: str) -> str:
    """A shared thing's own key, so that no child and no adult is ever taken for it."""
    return f"thing {name}"


def _first_gap(busy: list[tuple[int, int]], start: int, minutes: int) -> int:
    for begins, ends in sorted(busy):
        if begins >= start + minutes:
            break
        start = max(start, ends)
    return start


def _first_orders(needs: MorningNeeds) -> list[Order]:
    """Orders by simple rules: longest time alone first, most work left, given order, and the turns mixed."""
    children = needs.learners
    own = {child: [block for block in needs.blocks if block.learner == child] for child in children}
    given = tuple((child, _wanted(own[child])) for child in children)
    long_last = tuple((child, tuple(sorted(own[child], key=_last_alone))) for child in children)
    return [
        Order(turns, blocks)
        for blocks in (given, long_last)
        for turns in (_by_tail(blocks), _by_work(blocks), _round(blocks))
    ]


def _wanted(blocks: Sequence[Block]) -> tuple[Block, ...]:
    """The blocks with their wishes of order kept, fresh ones first, otherwise as given."""
    left = sorted(blocks, key=lambda block: not block.fresh)
    done: list[Block] = []
    while left:
        names = {block.id for block in left}
        following = next((block for block in left if not names & set(block.after)), left[0])
        left.remove(following)
        done.append(following)
    return tuple(done)


def _last_alone(block: Block) -> int:
    return _tail(block, len(block.phases) - 1) if block.phases[-1].kind == "alone" else 0


def _tail(block: Block, n: int) -> int:
    return sum(phase.minutes for phase in block.phases[n:])


def _by_tail(blocks: Iterable[tuple[LearnerId, tuple[Block, ...]]]) -> tuple[LearnerId, ...]:
    """The turns when the adult always takes the child with the longest stretch alone after being led."""
    left = {child: [(block, n) for block in own for n in range(len(block.phases))] for child, own in blocks}
    turns: list[LearnerId] = []
    while any(left.values()):
        child = max((one for one, coming in left.items() if coming), key=lambda one: _alone_after(left[one]))
        left[child].pop(0)
        turns.append(child)
    return tuple(turns)


def _alone_after(coming: Sequence[tuple[Block, int]]) -> int:
    alone = 0
    for block, n in coming[1:]:
        if block.phases[n].kind == "led":
            break
        alone += block.phases[n].minutes
    return 1000 if coming[0][0].phases[coming[0][1]].kind == "alone" else alone


def _by_work(blocks: Iterable[tuple[LearnerId, tuple[Block, ...]]]) -> tuple[LearnerId, ...]:
    """The turns when the child with most minutes left always comes next."""
    left = {child: [phase.minutes for block in own for phase in block.phases] for child, own in blocks}
    turns: list[LearnerId] = []
    while any(left.values()):
        child = max((one for one, minutes in left.items() if minutes), key=lambda one: sum(left[one]))
        left[child].pop(0)
        turns.append(child)
    return tuple(turns)


def _round(blocks: Iterable[tuple[LearnerId, tuple[Block, ...]]]) -> tuple[LearnerId, ...]:
    """The turns when every child has one phase after the other, round and round."""
    rows = [[child] * sum(len(block.phases) for block in own) for child, own in blocks]
    return tuple(child for turn in zip_longest(*rows) for child in turn if child is not None)


def _changed(order: Order, chance: random.Random) -> Order:
    """A neighbour: one turn put elsewhere, two turns exchanged, or two blocks of a child exchanged."""
    turns = list(order.turns)
    several = [place for place, (_, blocks) in enumerate(order.blocks) if len(blocks) > 1]
    kind = chance.random()
    if several and kind < 0.2:
        place = chance.choice(several)
        child, own = order.blocks[place]
        a, b = chance.sample(range(len(own)), 2)
        swapped = list(own)
        swapped[a], swapped[b] = swapped[b], swapped[a]
        blocks = (*order.blocks[:place], (child, tuple(swapped)), *order.blocks[place + 1 :])
        return Order(order.turns, blocks)
    a, b = chance.randrange(len(turns)), chance.randrange(len(turns))
    if kind < 0.6:
        turns.insert(b, turns.pop(a))
    else:
        turns[a], turns[b] = turns[b], turns[a]
    return Order(tuple(turns), order.blocks)
