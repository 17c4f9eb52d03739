"""Numbers chosen, not drawn from a hat: a page on which the error ways give different answers.

Each way of the skill, and the right procedure, is a hypothesis about the child. Two hypotheses are *parted* by an
item on which they give different answers. The page is filled greedily, place by place: most of all an item is
wanted that parts pairs parted fewer than twice so far; then answers, numbers and digits not used yet; then a
difficulty that suits the place. The weights are ours; what they reach is measured in the tests.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from itertools import combinations, islice
from random import Random
from typing import TYPE_CHECKING

from dayleaf.core.seeds import seed_from
from dayleaf.items.built import NotBuilt, rule_of
from dayleaf.items.domain import domain_of
from dayleaf.items.face import face, is_key, same_numbers, without_format
from dayleaf.items.ladder import ranks
from dayleaf.items.make import make

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator, Sequence
    from collections.abc import Set as AbstractSet

    from dayleaf.core.ids import ErrorWayId, FormatId
    from dayleaf.course.model import Skill
    from dayleaf.items.model import Item
    from dayleaf.items.rule import Fits, SkillRule

POOL = 48
"""How many candidates are looked at for a page of up to twelve items; four a place for a longer one."""

LONG = frozenset({"word1", "fix", "digit-puzzle", "draw", "order", "sort", "nl-jump", "path"})
"""Formats of which a mixed page takes one each, unless it has nothing else."""

PARTS_NEW, PARTS_AGAIN, OWN_WAYS = 1.0, 0.4, 6.0
SAME_ANSWER, SAME_NUMBER, UNSUITED, HALF_FULL = 4.0, 2.0, 5.0, 50.0


@dataclass(frozen=True, slots=True)
class _Candidate:
    """An item with what the choice wants to know of it."""

    item: Item
    parts: int
    face: str
    same: str
    in_half: bool


def choose_items(
    skill: Skill,
    *,
    n: int,
    seed: int,
    formats: Sequence[FormatId],
    avoid: AbstractSet[str] = frozenset(),
) -> tuple[Item, ...]:
    """Up to n items for one page, formats standing together in the order given.

    The same arguments give the same items. With exactly n formats each names the format of one place; otherwise
    the places are shared out evenly, one each for formats that take long. Inside a format the surest item comes
    first, the hardest at two thirds of the page, the next surest last. No two items have the same numbers or
    look the same; fewer than n come back only where the rule has no more. Items whose key is in `avoid`, in any
    format, and items whose face (`face.face`) is in it, of whatever skill, are taken only when nothing else is left.

    Raises:
        NotBuilt: the skill or one of the formats cannot be made yet.
    """
    rule = rule_of(skill.id)
    for one in formats:
        if one not in rule.formats:
            raise NotBuilt(skill=skill.id, format=one)
    if n <= 0 or not formats:
        return ()
    rng = Random(seed_from("choose", skill.id, n, seed, *formats))
    places = _shared_out(formats, n)
    wanted = Counter(places)
    avoided = {without_format(key) for key in avoid if is_key(key)}
    own = {way.id for way in skill.error_ways}
    pools, weights = _pools(skill, rule, wanted=wanted, rng=rng, avoided=avoided, own=own)
    faces = {one for one in avoid if not is_key(one)}
    if faces:
        pools = {one: _unseen(pool, faces, wanted[one]) for one, pool in pools.items()}
    chosen = _fill(places, pools, weights, half=rule.half is not None)
    return _arranged(chosen, places)


def _shared_out(formats: Sequence[FormatId], n: int) -> tuple[FormatId, ...]:
    """The format of each place, equal formats side by side."""
    if len(formats) == n:
        counts = Counter(formats)
    else:
        kinds = tuple(dict.fromkeys(formats))[:n]
        short = tuple(kind for kind in kinds if kind not in LONG) or kinds
        counts = Counter(dict.fromkeys(kinds, 1))
        for extra in range(n - len(kinds)):
            counts[short[extra % len(short)]] += 1
    return tuple(kind for kind in dict.fromkeys(formats) for _ in range(counts[kind]))


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
    domain = domain_of(skill)
    fits = rule.fits.get(format_id)
    used: set[int] = set()
    late: list[dict[str, int]] = []
    fresh = 0
    for chunk in (2 * size, len(domain)):
        for place in rng.sample(range(len(domain)), min(chunk, len(domain))):
            if place in used:
                continue
            used.add(place)
            numbers = domain.numbers(place)
            if fits is not None and not fits(numbers):
                continue
            if avoided and same_numbers(skill.id, numbers) in avoided:
                late.append(numbers)
            else:
                fresh += 1
                yield numbers
    yield from late[: max(0, wanted - fresh)]


def _pools(
    skill: Skill,
    rule: SkillRule,
    *,
    wanted: Counter[FormatId],
    rng: Random,
    avoided: Collection[str],
    own: Collection[ErrorWayId],
) -> tuple[dict[FormatId, list[_Candidate]], tuple[int, int]]:
    """Candidates for each format, and two masks of pairs: all of them, and those among the skill's own ways."""
    total = sum(wanted.values())
    size = max(POOL, 4 * total)
    made: dict[FormatId, list[Item]] = {}
    for format_id, count in wanted.items():
        limit = max(16, size * count // total)
        numbers = _numbers(skill, format_id, rule=rule, rng=rng, avoided=avoided, size=limit, wanted=count)
        made[format_id] = [make(skill, format_id, one) for one in _some(numbers, limit, rule.half)]
    ways = tuple(dict.fromkeys(way for items in made.values() for item in items for way in item.errors))
    pairs = tuple(combinations((None, *ways), 2))
    everything = (1 << len(pairs)) - 1
    ours = sum(1 << bit for bit, pair in enumerate(pairs) if all(way is None or way in own for way in pair))
    pools = {
        format_id: [
            _Candidate(
                item,
                _parted(item, pairs),
                face(item),
                same_numbers(skill.id, item.numbers),
                rule.half is not None and rule.half(item.numbers),
            )
            for item in items
        ]
        for format_id, items in made.items()
    }
    return pools, (everything, ours)


def _some(numbers: Iterator[dict[str, int]], limit: int, half: Fits | None) -> Iterator[dict[str, int]]:
    """The first `limit` numbers; with a half to keep, as many of either side as there are."""
    if half is None:
        yield from islice(numbers, limit)
        return
    room = Counter({True: limit // 2, False: limit // 2})
    for one in numbers:
        side = half(one)
        if room[side]:
            room[side] -= 1
            yield one
        if not room[True] and not room[False]:
            return


def _parted(item: Item, pairs: Sequence[tuple[ErrorWayId | None, ErrorWayId | None]]) -> int:
    """One bit for each pair of hypotheses that this item parts; None stands for the right procedure."""
    answers: dict[ErrorWayId | None, str] = {None: item.answer}
    answers.update(item.errors.items())
    mask = 0
    for bit, (one, other) in enumerate(pairs):
        first, second = answers.get(one), answers.get(other)
        if first is not None and second is not None and first != second:
            mask |= 1 << bit
    return mask


def _unseen(pool: list[_Candidate], faces: Collection[str], wanted: int) -> list[_Candidate]:
    """The candidates that look like nothing seen before, with as many of the others as are needed."""
    fresh = [one for one in pool if one.face not in faces]
    seen = [one for one in pool if one.face in faces]
    return fresh + seen[: max(0, wanted - len(fresh))]


def _fill(
    places: Sequence[FormatId],
    pools: dict[FormatId, list[_Candidate]],
    weights: tuple[int, int],
    *,
    half: bool,
) -> list[_Candidate]:
    """One candidate a place, hardest places first; places for which nothing is left stay out."""
    everything, ours = weights
    never, once = everything, 0
    chosen: list[_Candidate] = []
    seen: set[str] = set()
    answers: Counter[str] = Counter()
    values: Counter[tuple[str, int]] = Counter()
    halves = Counter[bool]()
    order = sorted(zip(ranks(len(places)), places, strict=True), key=lambda pair: -pair[0])
    for rank, format_id in order:
        aim = rank / max(1, len(places) - 1)
        best: _Candidate | None = None
        best_worth = float("-inf")
        for one in pools[format_id]:
            if one.face in seen or one.same in seen:
                continue
            new, again = one.parts & never, one.parts & once
            worth = (
                PARTS_NEW * new.bit_count()
                + PARTS_AGAIN * again.bit_count()
                + OWN_WAYS * ((new & ours).bit_count() + PARTS_AGAIN * (again & ours).bit_count())
                - SAME_ANSWER * answers[one.item.answer]
                - SAME_NUMBER * sum(values[pair] for pair in one.item.numbers.items())
                - UNSUITED * abs(one.item.difficulty - aim)
            )
            if half and halves[one.in_half] >= (len(places) + 1) // 2:
                worth -= HALF_FULL
            if worth > best_worth:
                best, best_worth = one, worth
        if best is None:
            continue
        chosen.append(best)
        once = (once & ~best.parts) | (never & best.parts)
        never &= ~best.parts
        seen.update((best.face, best.same))
        answers[best.item.answer] += 1
        values.update(best.item.numbers.items())
        halves[best.in_half] += 1
    return chosen


def _arranged(chosen: Sequence[_Candidate], places: Sequence[FormatId]) -> tuple[Item, ...]:
    """Formats side by side, and inside each format the difficulty that the place on the page wants."""
    items = sorted((one.item for one in chosen), key=lambda item: item.difficulty)
    left = Counter(item.format for item in items)
    page = [kind for kind in dict.fromkeys(places) for _ in range(left[kind])]
    wanted = ranks(len(page))
    arranged: dict[int, Item] = {}
    for kind in left:
        mine = sorted((place for place, one in enumerate(page) if one == kind), key=lambda place: wanted[place])
        arranged.update(zip(mine, (item for item in items if item.format == kind), strict=True))
    return tuple(arranged[place] for place in range(len(page)))
