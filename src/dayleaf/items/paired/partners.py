"""Things to match: the maker that all skills with a left and a right side share.

The item's numbers are those of the first pair. The other pairs follow from them: first the ones whose partner an
error way would choose for a pair already there, so that the wrong partner stands among the right things; then ones
that look much the same; then ones that an error way would take for the first, or two of which it would take one for
the other; then the nearest ones.
"""

from __future__ import annotations

from bisect import bisect_left
from dataclasses import dataclass
from functools import lru_cache
from itertools import permutations
from typing import TYPE_CHECKING

from dayleaf.core.ids import FormatId
from dayleaf.core.seeds import seed_from
from dayleaf.items.domain import domain_of_rule
from dayleaf.items.model import Figure, Match, Row
from dayleaf.items.rule import Made, Maker, Numbers, SkillRule, Way
from dayleaf.items.two_numbers import number_part

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

    from dayleaf.core.ids import ErrorWayId, SkillId
    from dayleaf.items.model import Step

MATCH = FormatId("match")


@dataclass(frozen=True, slots=True, eq=False)
class Sides:
    """What stands at the left and at the right of a pair, by the variables of the skill's rule.

    `value` is the number that both sides stand for; pairs of one item have different ones, so that each thing
    has one partner. `ways` give the value that an error way takes the left side for, None where it gives none.
    `rule` is the skill's own; every pair obeys it. A narrower one (`part`) leaves out what has no plain partner or
    no room. `step` says why two things are partners. `near` gives values that look much the same.
    """

    rule: str
    value: Callable[[Numbers], int]
    left: Callable[[Numbers], Row | Figure]
    right: Callable[[Numbers], Row | Figure]
    step: Callable[[Numbers], Step]
    hard: Callable[[Numbers], float]
    ways: Mapping[ErrorWayId, Way]
    pairs: int = 4
    near: Callable[[Numbers], Iterable[int]] | None = None
    part: bool = False


def matching(sides: Sides) -> Maker:
    """Lettered things at the left; beside each the number of its partner at the right is written."""

    def make(numbers: Numbers) -> Made:
        turn = seed_from("match", *numbers.values())
        pairs = _pairs(sides, numbers, turn)
        orders = _orders(len(pairs))
        order = orders[turn % len(orders)]
        number_of = {sides.value(pairs[place]): n for n, place in enumerate(order, start=1)}
        right = [number_of[sides.value(pair)] for pair in pairs]
        return Made(
            Match(tuple(sides.left(pair) for pair in pairs), tuple(sides.right(pairs[place]) for place in order)),
            tuple(number_part(n, 1, str(part)) for part, n in enumerate(right, start=1)),
            tuple(sides.step(pair) for pair in pairs),
            _errors(sides, pairs, number_of, right),
            None,
            sides.hard(numbers),
        )

    return make


def rules_for(sides: Mapping[SkillId, Sides]) -> tuple[SkillRule, ...]:
    """The rules of skills by what stands at their two sides."""
    return tuple(
        SkillRule(
            skill,
            formats={MATCH: matching(one)},
            fits={MATCH: domain_of_rule(one.rule).holds} if one.part else {},
        )
        for skill, one in sides.items()
    )


def _pairs(sides: Sides, numbers: Numbers, turn: int) -> list[Numbers]:
    """The numbers of every pair, the item's own first."""
    known = _known(sides)
    first = sides.value(numbers)
    chosen, taken = [numbers], {first}

    def take(value: int, pair: Numbers | None = None) -> None:
        if value not in taken and len(chosen) < sides.pairs:
            taken.add(value)
            chosen.append(pair or known[value][turn % len(known[value])])

    for pair in chosen:  # grows while it is read: a wrong partner has wrong partners of its own
        for way in sides.ways.values():
            wrong = way(pair)
            if wrong is not None and wrong in known:
                take(wrong)
    for value in filter(known.__contains__, sides.near(numbers) if sides.near else ()):
        take(value)
    for pair in _further(sides, first, alone=len(chosen) == 1):
        take(sides.value(pair), pair)
    for value in _outward(_values(sides), first):
        if len(chosen) == sides.pairs:
            break
        take(value)
    return chosen


@lru_cache(maxsize=128)
def _known(sides: Sides) -> Mapping[int, tuple[Numbers, ...]]:
    """The numbers that the rule allows, by the value of the pair."""
    domain = domain_of_rule(sides.rule)
    found: dict[int, list[Numbers]] = {}
    for place in range(len(domain)):
        numbers = domain.numbers(place)
        found.setdefault(sides.value(numbers), []).append(numbers)
    return {value: tuple(rows) for value, rows in found.items()}


@lru_cache(maxsize=128)
def _values(sides: Sides) -> tuple[int, ...]:
    """The values that a pair can have, from the least on."""
    return tuple(sorted(_known(sides)))


def _outward(values: Sequence[int], middle: int) -> Iterator[int]:
    """The values by their distance from the middle, the lower of two at the same distance first."""
    right = bisect_left(values, middle)
    left = right - 1
    while left >= 0 or right < len(values):
        if right == len(values) or (left >= 0 and middle - values[left] <= values[right] - middle):
            yield values[left]
            left -= 1
        else:
            yield values[right]
            right += 1


def _further(sides: Sides, first: int, *, alone: bool) -> tuple[Numbers, ...]:
    """Pairs that a way takes for the first, or else two that it mixes up, the nearest ones.

    `alone` says that no way leads from the first pair to another one; the second kind is sought only then.
    """
    of, into = _mistakes(sides)
    taken_for_it = sorted(into.get(first, ()), key=lambda pair: abs(sides.value(pair) - first))
    if taken_for_it or not alone:
        return tuple(taken_for_it[:2])
    nearest = next((value for value in _outward(tuple(of), first) if value != first), None)
    if nearest is None:
        return ()
    pair, wrong = of[nearest]
    return pair, _known(sides)[wrong][0]


@lru_cache(maxsize=128)
def _mistakes(sides: Sides) -> tuple[Mapping[int, tuple[Numbers, int]], Mapping[int, tuple[Numbers, ...]]]:
    """What the ways take pairs for, read both ways.

    First, of each value from the least on, one pair that is taken for another, with what it is taken for; then,
    of each value that pairs are taken for, these pairs.
    """
    known = _known(sides)
    of: dict[int, tuple[Numbers, int]] = {}
    into: dict[int, list[Numbers]] = {}
    for value in _values(sides):
        for pair in known[value]:
            for way in sides.ways.values():
                wrong = way(pair)
                if wrong is not None and wrong != value and wrong in known:
                    of.setdefault(value, (pair, wrong))
                    into.setdefault(wrong, []).append(pair)
    return of, {value: tuple(pairs) for value, pairs in into.items()}


@lru_cache(maxsize=8)
def _orders(n: int) -> tuple[tuple[int, ...], ...]:
    """Every order of n things in which at most one keeps its place: partners rarely stand side by side."""
    return tuple(one for one in permutations(range(n)) if sum(at == place for at, place in enumerate(one)) <= 1)


def _errors(
    sides: Sides, pairs: list[Numbers], number_of: Mapping[int, int], right: list[int]
) -> dict[ErrorWayId, str]:
    """What each way writes: the partner it sees, and the true one where what it looks for is not there.

    A way that finds nothing of what it looks for leaves no trace and gives no answer.
    """
    errors: dict[ErrorWayId, str] = {}
    for way, go in sides.ways.items():
        seen = [number_of.get(value) if (value := go(pair)) is not None else None for pair in pairs]
        if any(number is not None for number in seen):
            errors[way] = " ".join(str(right[at] if number is None else number) for at, number in enumerate(seen))
    return errors
