"""A few items that tell as many ways apart as can be told apart, and the pairs that no item tells apart."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import islice
from random import Random
from typing import TYPE_CHECKING

from dayleaf.core.seeds import seed_from
from dayleaf.items.built import rule_of
from dayleaf.items.domain import domain_of
from dayleaf.items.face import same_numbers
from dayleaf.items.make import make

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence

    from dayleaf.core.ids import ErrorWayId, FormatId
    from dayleaf.course.model import Skill
    from dayleaf.items.model import Item

    Hypothesis = ErrorWayId | None
    Pair = tuple[Hypothesis, Hypothesis]
    """Two hypotheses about the child; None is the one who does it right."""

LOOKED_AT = 3_000
"""So many sets of numbers of a wide rule are looked at."""

SEARCHED = 12_000
"""So many more are searched for pairs that none of these parts."""

STARTS = 40
"""From so many items the choice is begun, as long as pairs are left."""

TRIED_AGAIN = 4
"""How often each chosen item is given up for a better one."""


@dataclass(frozen=True, slots=True)
class Parting:
    """The items chosen, and the pairs of hypotheses to which they all get the same answers."""

    items: tuple[Item, ...]
    unparted: tuple[Pair, ...]


@dataclass(frozen=True, slots=True)
class Apart:
    """Items chosen to tell ways apart, and what they tell.

    `pairs` counts the pairs of hypotheses that answer some item both; ways that never meet are no rivals. `never` are
    the pairs that no item parts, `not_here` those that others of the skill would part. `looked_at` sets of numbers
    were looked at; where `whole` is true these are all that the rule has, else `never` holds as far as was seen.
    """

    items: tuple[Item, ...]
    pairs: int
    never: tuple[Pair, ...]
    not_here: tuple[Pair, ...]
    looked_at: int
    whole: bool

    @property
    def told(self) -> int:
        """How many pairs the items tell apart."""
        return self.pairs - len(self.never) - len(self.not_here)


def parting_items(pool: Iterable[Item], *, most: int) -> Parting:
    """Up to `most` items of the pool that part as many pairs as a greedy choice with second thoughts finds.

    Where fewer part all that can be parted, the others part pairs a second time, so that one slip spoils nothing.
    No two have the same numbers. A way that gives no answer to an item is not parted by it.
    """
    items = tuple(pool)
    table = _Table(items)
    parted = [table.parted(item) for item in items]
    chosen = _chosen(items, parted, most)
    seen = _all(parted[place] for place in chosen)
    return Parting(tuple(items[place] for place in chosen), table.pairs_of(table.every & ~seen))


def set_apart(skill: Skill, *, n: int, seed: int, formats: Sequence[FormatId] | None = None) -> Apart:
    """Up to n items of a skill that tell its error ways apart, and the pairs that none or others tell apart.

    Wide rules are sampled, and searched further for pairs that hardly any item parts. The same arguments give the
    same items; by far the slowest rules take a few seconds.

    Raises:
        NotBuilt: the skill or a format cannot be made yet.
    """
    kinds = tuple(formats if formats is not None else rule_of(skill.id).formats)
    numbers = domain_of(skill).shuffled(Random(seed_from("apart", skill.id, seed)), about=LOOKED_AT)
    looked_at = [*islice(numbers, LOOKED_AT)]
    pool = [item for one in looked_at for item in _asked(skill, kinds, one)]
    table = _Table(pool)
    met, parted = table.met(pool), [table.parted(item) for item in pool]
    left = met & ~_all(parted)
    count = len(looked_at)
    while left and count < LOOKED_AT + SEARCHED and (further := next(numbers, None)) is not None:
        count += 1
        turn = count % len(kinds)
        for item in _asked(skill, kinds[turn : turn + 1], further):
            new = table.parted(item)
            if new & left:
                pool.append(item)
                parted.append(new)
                left &= ~new
    chosen = _chosen(pool, parted, n)
    here = _all(parted[place] for place in chosen)
    return Apart(
        tuple(pool[place] for place in chosen),
        pairs=met.bit_count(),
        never=table.pairs_of(left),
        not_here=table.pairs_of(met & ~left & ~here),
        looked_at=count,
        whole=next(numbers, None) is None,
    )


def _asked(skill: Skill, kinds: Sequence[FormatId], numbers: Mapping[str, int]) -> Iterator[Item]:
    """One item for each different set of answers that the formats give."""
    narrow = rule_of(skill.id).fits
    seen: list[tuple[str, Mapping[ErrorWayId, str]]] = []
    for kind in kinds:
        if kind in narrow and not narrow[kind](numbers):
            continue
        item = make(skill, kind, numbers)
        if item.errors and (item.answer, item.errors) not in seen:
            seen.append((item.answer, item.errors))
            yield item


class _Table:
    """Hypotheses numbered; a pair of them is one bit, set where it holds."""

    def __init__(self, items: Iterable[Item]) -> None:
        self._ways: tuple[Hypothesis, ...] = (None, *dict.fromkeys(way for item in items for way in item.errors))
        self._number = {way: number for number, way in enumerate(self._ways)}
        size = len(self._ways)
        self._later = [((1 << size) - 1) >> (number + 1) << (number + 1) for number in range(size)]
        self.every = _all(later << size * number for number, later in enumerate(self._later))

    def parted(self, item: Item) -> int:
        """The pairs that give two different answers to the item."""
        alike: dict[str, int] = {item.answer: 1}
        for way, answer in item.errors.items():
            if (number := self._number.get(way)) is not None:
                alike[answer] = alike.get(answer, 0) | 1 << number
        present = _all(alike.values())
        rows = ((number, present & ~group) for group in alike.values() for number in _bits(group))
        return _all((row & self._later[number]) << len(self._ways) * number for number, row in rows)

    def met(self, items: Iterable[Item]) -> int:
        """The pairs that both answer one of the items."""
        sets = {_all((1, *(1 << self._number[way] for way in item.errors))) for item in items}
        return _all(
            (present & self._later[number]) << len(self._ways) * number
            for present in sets
            for number in _bits(present)
        )

    def pairs_of(self, bits: int) -> tuple[Pair, ...]:
        """The pairs by name, in the order in which the ways were met."""
        places = (divmod(bit, len(self._ways)) for bit in _bits(bits))
        return tuple((self._ways[one], self._ways[other]) for one, other in places)


def _all(masks: Iterable[int]) -> int:
    found = 0
    for mask in masks:
        found |= mask
    return found


def _bits(mask: int) -> Iterator[int]:
    while mask:
        low = mask & -mask
        yield low.bit_length() - 1
        mask ^= low


def _chosen(items: Sequence[Item], parted: Sequence[int], most: int) -> list[int]:
    """Places of up to `most` items, the best choice of several starts; one that parts all there is ends the search."""
    same = [same_numbers(item.skill, item.numbers) for item in items]
    goal = _all(parted)
    starts = sorted(range(len(items)), key=lambda place: -parted[place].bit_count())[:STARTS]
    best: list[int] = []
    for start in starts if most > 0 and goal else ():
        found = _greedy(same, parted, most, start)
        if not best or _worth(parted, found) > _worth(parted, best):
            best = found
        if _all(parted[place] for place in best) == goal:
            break
    return best


def _worth(parted: Sequence[int], chosen: Sequence[int]) -> int:
    return _all(parted[place] for place in chosen).bit_count()


def _greedy(same: Sequence[str], parted: Sequence[int], most: int, start: int) -> list[int]:
    """From one item on, next the one that parts most pairs left; then each is tried against all others."""
    chosen = [start]
    seen = parted[start]
    free = {place: None for place in range(len(same)) if same[place] != same[start]}
    while len(chosen) < most and free:
        place = _best(parted, free, seen)
        if place is None:
            if not seen:
                break
            seen = 0  # all is parted that can be: again from the start, with other items
            continue
        chosen.append(place)
        seen |= parted[place]
        free = {other: None for other in free if same[other] != same[place]}
    return _second_thoughts(parted, chosen, free)


def _second_thoughts(parted: Sequence[int], chosen: list[int], free: Collection[int]) -> list[int]:
    """Each item given up for another wherever more pairs are parted by it."""
    for _ in range(TRIED_AGAIN):
        before = tuple(chosen)
        for turn, own in enumerate(before):
            others = _all(parted[place] for place in chosen if place != own)
            better = _best(parted, free, others)
            if better is not None and (parted[better] & ~others).bit_count() > (parted[own] & ~others).bit_count():
                chosen[turn] = better
        if tuple(chosen) == before:
            break
    return chosen


def _best(parted: Sequence[int], free: Collection[int], seen: int) -> int | None:
    """The place of the item that parts most pairs not seen parted; None where no item parts any."""
    unseen = ~seen
    best = max(free, key=lambda place: (parted[place] & unseen).bit_count(), default=None)
    return best if best is not None and parted[best] & unseen else None
