"""The item to ask next: the one whose answer is expected to tell most about which habit it is."""

from __future__ import annotations

import random
from dataclasses import dataclass
from functools import lru_cache
from itertools import combinations, islice
from math import log, sqrt
from typing import TYPE_CHECKING, Final

from dayleaf.core.ids import FormatId
from dayleaf.core.seeds import seed_from
from dayleaf.items.built import formats_built, rule_of
from dayleaf.items.choose import choose_items
from dayleaf.items.domain import domain_of_rule
from dayleaf.items.model import Item
from dayleaf.learner.columns import doubtful, one_name, top_and_bottom
from dayleaf.learner.habits import FEWEST, NO_HABIT, SOME_HABIT
from dayleaf.learner.replies import reply_to
from dayleaf.marking.answer import same_answer

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator, Mapping, Sequence

    from dayleaf.core.ids import ErrorWayId, SkillId
    from dayleaf.course.model import Skill
    from dayleaf.learner.habits import Odds

LOOKED_AT: Final = 160
"""Items of the rule that are looked at once, and as many beside it where columns can go further than the rule."""
KEPT: Final = 48
"""So many of them, those that part the ways best, stay to choose from at each answer."""
POSSIBLE: Final = 0.001
"""Ways less likely than this share of the likeliest are left out when an item is chosen."""
NEAR: Final = 0.02
"""Information that a later candidate must bring beyond an earlier one; those of the rule come first."""
_PLAIN: Final = tuple(FormatId(one) for one in ("vert", "horiz", "missing", "strip", "nl-jump"))
_ALOUD: Final = frozenset(FormatId(one) for one in ("horiz", "strip", "missing", "cmp", "vert", "choose"))


@dataclass(frozen=True, slots=True)
class Candidate:
    """An item, and the ways that have a say on it, each with the number of its group.

    Ways of one group write the same wrong answer. `doubtful` are ways about whose answer somebody could argue.
    `in_rule` says whether the skill's rule allows the item.
    """

    item: Item
    key: str
    groups: Mapping[ErrorWayId, int]
    doubtful: frozenset[ErrorWayId]
    in_rule: bool


def item_to_ask(skill: Skill, odds: Odds, *, asked: Collection[str] = (), beside: bool = True) -> Item | None:
    """The new item with the largest expected information about no habit and each way; None where none is built.

    With slips alike under every way, the information of an item is the entropy of the odds grouped by the answer
    they predict, less the share of those ways about whose answer somebody could argue. Where nothing is suspected
    yet the same rule finds the item that parts most ways. With `beside`, columns may leave the skill's rule (a top
    with a zero, a shorter bottom) where that tells more: many ways never show inside it.
    """
    known = candidates(skill)
    weights = _weights(odds, known)
    best: tuple[float, Item] | None = None
    for one in known:
        if (one.in_rule or beside) and one.key not in asked:
            worth = information(one, weights)
            if best is None or worth > best[0] + NEAR:
                best = (worth, one.item)
    return best[1] if best else None


def information(candidate: Candidate, weights: Mapping[ErrorWayId, float]) -> float:
    """What the answer is expected to tell, in natural units: the entropy of the groups, less the doubtful share.

    The weights and that of no habit sum to 1.
    """
    groups, arguable = candidate.groups, candidate.doubtful
    told: dict[int, float] = {}
    rest, lost = 1.0, 0.0
    for way, weight in weights.items():
        group = groups.get(way)
        if group is not None:
            told[group] = told.get(group, 0.0) + weight
            rest -= weight
            if way in arguable:
                lost += weight
    worth = -lost - (rest * log(rest) if rest > 0 else 0.0)
    for weight in told.values():
        worth -= weight * log(weight)
    return worth


def _weights(odds: Odds, known: Sequence[Candidate]) -> dict[ErrorWayId, float]:
    """The ways still possible, as shares of the roots of their odds; what is left to 1 is no habit.

    The root keeps asking against the runners-up, so that one slip does not settle the matter. A way on which nothing
    was asked yet is as likely, beside no habit, as before the first answer.
    """
    possible = dict.fromkeys(way for one in known for way in one.groups)
    unheard = odds.none * SOME_HABIT / NO_HABIT / max(FEWEST, len(possible))
    ways = {**dict.fromkeys(possible, unheard), **odds.ways}
    most = max(ways.values(), default=1.0)
    kept = {way: sqrt(p) for way, p in ways.items() if p >= POSSIBLE * most}
    total = sum(kept.values()) + sqrt(odds.none)
    return {way: weight / total for way, weight in kept.items()}


def candidates(skill: Skill) -> tuple[Candidate, ...]:
    """The items that are looked at: spread over the rule, and for columns over all numbers of that length."""
    if skill.item_rule is None or not formats_to_ask(skill.id):
        return ()
    return _candidates(skill.id, skill.item_rule)


def formats_to_ask(skill: SkillId) -> tuple[FormatId, ...]:
    """The formats in which a number is asked plainly, the plainest first; any format where there is none."""
    built = formats_built(skill)
    return tuple(one for one in _PLAIN if one in built) or built


def can_be_read_aloud(skill: SkillId) -> bool:
    """Whether the skill has items without a picture, to be read to a child."""
    return any(one in _ALOUD for one in formats_built(skill))


def item_to_read(skill: Skill, *, seed: int) -> Item:
    """An item of middling difficulty to be read to a child; the same arguments give the same one.

    Raises:
        NotBuilt: the skill cannot be made yet.
    """
    formats = [one for one in formats_built(skill.id) if one in _ALOUD] or list(rule_of(skill.id).formats)
    three = choose_items(skill, n=3, seed=seed, formats=formats[:1])
    return sorted(three, key=lambda item: item.difficulty)[len(three) // 2]


def item_of(skill: SkillId, format_id: FormatId, numbers: Mapping[str, int]) -> Item:
    """The item that asks these numbers in this format, also where the rule would not allow them.

    Raises:
        NotBuilt: the skill cannot be made yet.
    """
    made = rule_of(skill).formats[format_id](numbers)
    return Item(
        skill, format_id, numbers, made.prompt, made.parts, made.steps, made.errors, made.figure, made.difficulty
    )


@lru_cache(maxsize=128)
def _candidates(skill: SkillId, rule: str) -> tuple[Candidate, ...]:
    chance = random.Random(seed_from("asking", skill))
    found = list(_in_rule(skill, rule, chance))
    beside = _beside(skill, {(one.numbers["a"], one.numbers["b"]) for one in found}, chance) if _columns(found) else ()
    return (
        *_telling([_candidate(one, in_rule=True) for one in found]),
        *_telling([_candidate(one, in_rule=False) for one in beside]),
    )


def _telling(all_of_them: Sequence[Candidate]) -> list[Candidate]:
    """The candidates that together part the ways best: each pair of them, and each from no habit, many times."""
    ways = sorted({way for one in all_of_them for way in one.groups})
    pairs = list(combinations((None, *ways), 2))
    left = [(one, _parted(one, pairs)) for one in all_of_them]
    kept: list[Candidate] = []
    wanted = 0
    while left and len(kept) < KEPT:
        if not wanted:
            wanted = (1 << len(pairs)) - 1
        place = max(range(len(left)), key=lambda place: (left[place][1] & wanted).bit_count())
        one, parts = left.pop(place)
        kept.append(one)
        wanted = wanted & ~parts if wanted & parts else 0
    return kept


def _parted(candidate: Candidate, pairs: Sequence[tuple[ErrorWayId | None, ErrorWayId | None]]) -> int:
    """One bit for each pair of ways that write different answers, neither of them arguable."""
    groups, arguable = candidate.groups, candidate.doubtful
    bits = 0
    for bit, (one, other) in enumerate(pairs):
        if one not in arguable and other not in arguable and _group(groups, one) != _group(groups, other):
            bits |= 1 << bit
    return bits


def _group(groups: Mapping[ErrorWayId, int], way: ErrorWayId | None) -> int | None:
    return None if way is None else groups.get(way)


def _in_rule(skill: SkillId, rule: str, chance: random.Random) -> Iterator[Item]:
    some = islice(domain_of_rule(rule).shuffled(chance, about=LOOKED_AT), LOOKED_AT)
    formats = formats_to_ask(skill)
    narrow = rule_of(skill).fits
    for numbers in sorted(some, key=lambda one: tuple(one.values())):
        fitting = next((one for one in formats if one not in narrow or narrow[one](numbers)), None)
        item = None if fitting is None else item_of(skill, fitting, numbers)
        if item is not None and item.answer:
            yield item


def _columns(items: Sequence[Item]) -> bool:
    """Whether the skill takes one number from another in columns and calls them a and b."""
    return bool(items) and all(
        set(one.numbers) == {"a", "b"}
        and top_and_bottom(one.skill, one.numbers, right=one.answer) == (one.numbers["a"], one.numbers["b"])
        for one in items
    )


def _beside(skill: SkillId, inside: Collection[tuple[int, int]], chance: random.Random) -> Iterator[Item]:
    """Take-aways with tops of the rule's length, with and without zeros, ones and gaps, rich in trouble."""
    size = max(len(str(top)) for top, _ in inside)
    seen = set(inside)
    while len(seen) < len(inside) + LOOKED_AT:
        digits = [str(chance.choice((0, 0, 1, 1, chance.randrange(10)))) for _ in range(size - 2)]
        top = int("".join((str(chance.choice((1, chance.randrange(1, 10)))), *digits, str(chance.randrange(10)))))
        bottom = chance.randrange(1, 10 ** chance.randint(1, size))
        if bottom < top and (top, bottom) not in seen:
            seen.add((top, bottom))
            yield item_of(skill, formats_to_ask(skill)[0], {"a": top, "b": bottom})


def _candidate(item: Item, *, in_rule: bool) -> Candidate:
    wrong = {way: one for way, one in reply_to(item, "", lang=None).errors.items() if not same_answer(one, item.answer)}
    numbered = {answer: number for number, answer in enumerate(dict.fromkeys(wrong.values()))}
    pair = top_and_bottom(item.skill, item.numbers, right=item.answer)
    return Candidate(
        item=item,
        key=item.key,
        groups={one_name(way): numbered[answer] for way, answer in wrong.items()},
        doubtful=doubtful(*pair) if pair else frozenset(),
        in_rule=in_rule,
    )
