"""Numbers chosen, not drawn from a hat: a page on which the error ways give different answers.

Each way of the skill, and the right procedure, is a hypothesis about the child. Two hypotheses are *parted* by an
item on which they give different answers. The page is filled greedily, place by place: most of all an item is
wanted that parts pairs parted fewer than twice so far; then answers, numbers and digits not used yet; then a
difficulty that suits the place. The weights are ours; what they reach is measured in the tests.
"""

from __future__ import annotations

from collections import Counter
from random import Random
from typing import TYPE_CHECKING

from dayleaf.core.seeds import seed_from
from dayleaf.items.built import NotBuilt, rule_of
from dayleaf.items.candidates import candidates
from dayleaf.items.face import is_key, numbers_of_key
from dayleaf.items.ladder import ranks

if TYPE_CHECKING:
    from collections.abc import Collection, Sequence
    from collections.abc import Set as AbstractSet

    from dayleaf.core.ids import FormatId
    from dayleaf.course.model import Skill
    from dayleaf.items.candidates import Candidate, Pools
    from dayleaf.items.model import Item

LONG = frozenset({"word1", "fix", "digit-puzzle", "draw", "order", "match", "sort", "nl-jump", "path"})
"""Formats of which a mixed page takes one each, unless it has nothing else."""

PARTS_NEW, PARTS_AGAIN, OWN_WAYS = 1.0, 0.4, 6.0
SAME_ANSWER, SAME_NUMBER, UNSUITED, HALF_FULL = 4.0, 2.0, 5.0, 50.0


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
    avoided = {numbers for key in avoid if (numbers := numbers_of_key(key)) is not None}
    pools = candidates(skill, rule, wanted=wanted, rng=rng, avoided=avoided)
    faces = {one for one in avoid if not is_key(one)}
    chosen = _fill(places, pools, faces, half=rule.half is not None)
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


def _unseen(pool: Sequence[Candidate], faces: Collection[str], wanted: int) -> list[Candidate]:
    """The candidates that look like nothing seen before, with as many of the others as are needed."""
    fresh = [one for one in pool if one.face not in faces]
    seen = [one for one in pool if one.face in faces]
    return fresh + seen[: max(0, wanted - len(fresh))]


def _fill(places: Sequence[FormatId], pools: Pools, faces: Collection[str], *, half: bool) -> list[Candidate]:
    """One candidate a place, hardest places first; places for which nothing is left stay out."""
    open_to = {name: _unseen(pool, faces, places.count(name)) for name, pool in pools.by_format.items()}
    ours = pools.own_pairs
    never, once = pools.every_pair, 0
    chosen: list[Candidate] = []
    seen: set[str] = set()
    answers: Counter[str] = Counter()
    values: Counter[tuple[str, int]] = Counter()
    halves = Counter[bool]()
    order = sorted(zip(ranks(len(places)), places, strict=True), key=lambda pair: -pair[0])
    for rank, format_id in order:
        aim = rank / max(1, len(places) - 1)
        best: Candidate | None = None
        best_worth = float("-inf")
        for one in open_to[format_id]:
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


def _arranged(chosen: Sequence[Candidate], places: Sequence[FormatId]) -> tuple[Item, ...]:
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
