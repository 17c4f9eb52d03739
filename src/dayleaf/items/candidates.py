"""The items a page is chosen from: a sample of the rule, with what each tells about the error ways."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from itertools import combinations, islice
from typing import TYPE_CHECKING

from dayleaf.items.domain import domain_of
from dayleaf.items.face import face, same_numbers
from dayleaf.items.make import make

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator, Mapping, Sequence
    from random import Random

    from dayleaf.core.ids import ErrorWayId, FormatId
    from dayleaf.course.model import Skill
    from dayleaf.items.model import Item
    from dayleaf.items.rule import Fits, SkillRule

    Pair = tuple[ErrorWayId | None, ErrorWayId | None]

POOL = 48
"""How many candidates are looked at for a page of up to twelve items; four a place for a longer one."""

A_FEW = 5
"""So few items part few pairs however they are chosen: for them eight candidates a place do."""

LEAST = 16
"""Candidates of each format, however few places it has."""

SEARCHED = 160
"""How many more are looked at for ways that hardly ever show, such as a slip at the end of a chart's row."""

SEARCHED_FOR_FEW = 24
"""The same for each place, where there are few."""


@dataclass(frozen=True, slots=True)
class Candidate:
    """An item with what the choice wants to know of it; `parts` has one bit for each pair that it parts."""

    item: Item
    parts: int
    face: str
    same: str
    in_half: bool


@dataclass(frozen=True, slots=True)
class Pools:
    """Candidates by format, and two masks of pairs: all of them, and those among the skill's own ways."""

    by_format: Mapping[FormatId, list[Candidate]]
    every_pair: int
    own_pairs: int


def candidates(
    skill: Skill, rule: SkillRule, *, wanted: Mapping[FormatId, int], rng: Random, avoided: Collection[str]
) -> Pools:
    """A sample of items for each format of which a page wants some.

    `avoided` holds numbers as `face.same_numbers` names them; they come only where the rule has no others.
    """
    total = sum(wanted.values())
    few = total <= A_FEW
    size = 8 * total if few else max(POOL, 4 * total)
    found: dict[FormatId, list[Item]] = {}
    streams: dict[FormatId, Iterator[dict[str, int]]] = {}
    for format_id, count in wanted.items():
        limit = max(LEAST, size * count // total)
        streams[format_id] = _numbers(skill, format_id, rule=rule, rng=rng, avoided=avoided, size=limit, wanted=count)
        found[format_id] = [make(skill, format_id, one) for one in _some(streams[format_id], limit, rule.half)]
    own = tuple(way.id for way in skill.error_ways if way.shows_as == "wrong answer")
    own_pairs: tuple[Pair, ...] = tuple(combinations((None, *own), 2))
    most = max(wanted, key=lambda format_id: wanted[format_id])
    more = (make(skill, most, one) for one in islice(streams[most], SEARCHED_FOR_FEW * total if few else SEARCHED))
    found[most] += _search(more, [item for items in found.values() for item in items], own_pairs)

    others = dict.fromkeys(way for items in found.values() for item in items for way in item.errors if way not in own)
    known = set(own_pairs)
    pairs = (*own_pairs, *(pair for pair in combinations((None, *own, *others), 2) if pair not in known))
    bits = _bits_of(pairs)
    return Pools(
        {format_id: [_candidate(item, rule, bits) for item in items] for format_id, items in found.items()},
        every_pair=(1 << len(pairs)) - 1,
        own_pairs=(1 << len(own_pairs)) - 1,
    )


def _numbers(
    skill: Skill,
    format_id: FormatId,
    *,
    rule: SkillRule,
    rng: Random,
    avoided: Collection[str],
    size: int,
    wanted: int,
) -> Iterator[dict[str, int]]:
    """Numbers that fit the format; avoided ones only where the rule has fewer than `wanted` others."""
    fits = rule.fits.get(format_id)
    late: list[dict[str, int]] = []
    fresh = 0
    for numbers in domain_of(skill).shuffled(rng, about=2 * size):
        if fits is not None and not fits(numbers):
            continue
        if avoided and same_numbers(skill.id, numbers) in avoided:
            late.append(numbers)
        else:
            fresh += 1
            yield numbers
    yield from late[: max(0, wanted - fresh)]


def _some(numbers: Iterator[dict[str, int]], limit: int, half: Fits | None) -> Iterator[dict[str, int]]:
    """The first `limit` numbers; with a half to keep, as many of either side as a short look finds."""
    if half is None:
        yield from islice(numbers, limit)
        return
    room = Counter({True: limit // 2, False: limit // 2})
    for one in islice(numbers, 4 * limit):
        side = half(one)
        if room[side]:
            room[side] -= 1
            yield one
        if not room[True] and not room[False]:
            return


def _search(more: Iterator[Item], sampled: Sequence[Item], pairs: Sequence[Pair]) -> list[Item]:
    """Further items that part those pairs which fewer than two of the sampled ones part."""
    counts = Counter(pair for item in sampled for pair in _parted(item, pairs))
    found: list[Item] = []
    rare = [pair for pair in pairs if counts[pair] < 2]
    while rare and (item := next(more, None)) is not None:
        parted = _parted(item, rare)
        if parted:
            found.append(item)
            counts.update(parted)
            rare = [pair for pair in rare if counts[pair] < 2]
    return found


def _parted(item: Item, pairs: Sequence[Pair]) -> list[Pair]:
    """The pairs of hypotheses to which this item gets different answers."""
    answers = _answers(item)
    return [
        pair
        for pair in pairs
        if (first := answers.get(pair[0])) is not None
        and (second := answers.get(pair[1])) is not None
        and first != second
    ]


def _answers(item: Item) -> dict[ErrorWayId | None, str]:
    answers: dict[ErrorWayId | None, str] = {None: item.answer}
    answers.update(item.errors.items())
    return answers


@dataclass(frozen=True, slots=True)
class _Bits:
    """One bit for each pair; for each hypothesis the bits of all its pairs, and for each pair its own."""

    every: int
    of: Mapping[ErrorWayId | None, int]
    between: Mapping[Pair, int]


def _bits_of(pairs: Sequence[Pair]) -> _Bits:
    of: dict[ErrorWayId | None, int] = {}
    between: dict[Pair, int] = {}
    for place, (one, other) in enumerate(pairs):
        bit = 1 << place
        between[one, other] = between[other, one] = bit
        of[one] = of.get(one, 0) | bit
        of[other] = of.get(other, 0) | bit
    return _Bits((1 << len(pairs)) - 1, of, between)


def _candidate(item: Item, rule: SkillRule, bits: _Bits) -> Candidate:
    """An item parts all pairs but those of which it lacks an answer and those with the same answer."""
    answers = _answers(item)
    mask = bits.every
    for hypothesis, its_pairs in bits.of.items():
        if hypothesis not in answers:
            mask &= ~its_pairs
    alike: dict[str, list[ErrorWayId | None]] = {}
    for hypothesis, answer in answers.items():
        alike.setdefault(answer, []).append(hypothesis)
    for same in alike.values():
        for pair in combinations(same, 2):
            mask &= ~bits.between.get(pair, 0)
    in_half = rule.half is not None and rule.half(item.numbers)
    return Candidate(item, mask, face(item), same_numbers(item.skill, item.numbers), in_half)
