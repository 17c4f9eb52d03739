"""The blueprint of a chapter test: which skills, how many items each, in which formats, how hard, and of what make.

It is worked out from the course alone and holds for every form: a form fills each place with an item that has exactly
the features the blueprint asks for there.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field, replace
from functools import lru_cache
from itertools import islice
from random import Random
from typing import TYPE_CHECKING, Final

from dayleaf.core.errors import DayleafError
from dayleaf.core.ids import FormatId
from dayleaf.core.seeds import seed_from
from dayleaf.items.built import rule_of
from dayleaf.items.domain import domain_of
from dayleaf.items.face import face, same_numbers
from dayleaf.items.make import make
from dayleaf.packets.features import BANDS, LANG, features_of
from dayleaf.packets.pages import FEW_AT_ONCE, LOW, Maker, printed_skills
from dayleaf.packets.pairing import Matching, one_name_each
from dayleaf.packets.room import SIDE, fits_on_paper, height_beside

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from dayleaf.core.ids import ErrorWayId, SkillId
    from dayleaf.course.model import Course, Day, Format, Skill
    from dayleaf.items.model import Item
    from dayleaf.packets.features import Band, Features

SAMPLE: Final = 72
"""Items looked at of each format; a rule that has fewer is looked at whole."""
WIDER: Final = 6
"""So many times as many for third and later forms."""
MOST_MINUTES: Final = 30.0
"""A test never asks for more of a child (JOB 1.11)."""
A_SKILL: Final = (2, 4)
"""Fewest and most items of a skill; three or more where the minutes allow (CHECKS E.1)."""
MANY: Final = 25
"""A rule with so many items never gives two forms the same one (JOB 1.11)."""
FORMS: Final = 2
"""Forms that must not share an item: A and B."""
SIDE_MINUTES: Final = 6.0
"""Minutes for as many items of one format as a side holds at its airiest (common practice, no source)."""
SIDES: Final = 4
"""Two sheets of paper at the most."""
SMALL: Final = 20.0
"""Millimetres: items as low as this are asked however much paper the others take."""
LOWER: Final = 0.6
"""A way of asking that takes at most so much of another's height spares paper."""
USED: Final = 0.75
"""The share of them that is reckoned with; the rest stays white."""
LONG_ONES: Final = frozenset(map(FormatId, ("nl-jump", "graph-make", "explain")))
"""Formats that a test asks only where a skill has no other."""
LONGEST: Final = 1.6
"""Minutes that one item is reckoned at the most (common practice, no source)."""
AIMS: Final[Mapping[int, tuple[Band, ...]]] = {
    1: ("middle",),
    2: ("sure", "hard"),
    3: ("sure", "middle", "hard"),
    4: ("sure", "middle", "hard", "middle"),
}
TOLD, UNSUITED, COMMON, AGAIN = 2.0, 1.0, 0.5, 0.8
"""What a class of items is worth for a place: how much it tells apart, its band, its share of the rule, and novelty."""


class NotATest(DayleafError):
    """A day of the course that is no chapter test was asked for one."""

    def __init__(self, day: str) -> None:
        super().__init__(f"{day} is not a chapter test.")


@dataclass(frozen=True, slots=True)
class Candidate:
    """An item that may stand on a test, with its features and with what makes another item the same as it."""

    item: Item
    features: Features
    same: tuple[str, str]


@dataclass(frozen=True, slots=True)
class SkillPlan:
    """What the test asks of one skill: the features wanted at each place, in the order of the paper."""

    skill: Skill
    places: tuple[Features, ...]
    minutes: float

    @property
    def few(self) -> bool:
        """Whether the rule has too few items for two forms to be wholly different."""
        return (self.skill.distinct_items or 0) < MANY

    @property
    def formats(self) -> Mapping[str, int]:
        """How many items each format has."""
        return Counter(place.format for place in self.places)


@dataclass(frozen=True, slots=True)
class Blueprint:
    """What every form of one chapter's test shares.

    `pools` are the items that may fill a place, by its features; `things` gives one name to all names (numbers, faces)
    that are the same thing to a child.
    """

    day: Day
    skills: tuple[SkillPlan, ...]
    pools: Mapping[Features, tuple[Candidate, ...]] = field(repr=False)
    things: Mapping[str, str] = field(repr=False)

    def thing(self, one: Candidate) -> str:
        """The name that items share which no two forms may both have."""
        return self.things[one.same[0]]

    @property
    def items(self) -> int:
        """How many items a form has."""
        return sum(len(plan.places) for plan in self.skills)

    @property
    def minutes(self) -> float:
        """How long a child is reckoned to need."""
        return sum(plan.minutes for plan in self.skills)


def day_of_test(course: Course, chapter: int) -> Day:
    """The chapter's test day. Raises `NotATest` where there is none."""
    for day in course.days:
        if day.chapter == chapter and day.kind == "test":
            return day
    raise NotATest(f"Chapter {chapter}")


def blueprint_of(course: Course, day: Day) -> Blueprint:
    """The blueprint of a test day: the skills of the day's file, two to five items each, within the day's minutes.

    Raises:
        NotATest: the day is of another kind.
        NotBuiltYet: a skill has no printed items.
    """
    if day.kind != "test":
        raise NotATest(day.id)
    maker = Maker(course, day, 0, "en", set())
    skills = printed_skills(maker, day.front_skills)
    laid_out = _laid_out(maker, skills)
    pools, things = _pools([(one.skill, name) for one in laid_out for name in dict.fromkeys(one.taken)], SAMPLE)
    room = _Room(pools, things)
    return Blueprint(day, tuple(_plan(maker, grown, room) for grown in laid_out), pools, things)


def widened(blueprint: Blueprint) -> Blueprint:
    """The same blueprint with more items to fill its places, for forms after the first two."""
    asked = dict.fromkeys((plan.skill.id, place.format) for plan in blueprint.skills for place in plan.places)
    skills = {plan.skill.id: plan.skill for plan in blueprint.skills}
    pools, things = _pools([(skills[skill], FormatId(name)) for skill, name in asked], WIDER * SAMPLE)
    return replace(blueprint, pools=pools, things=things)


def _pools(
    asked: Iterable[tuple[Skill, FormatId]], most: int
) -> tuple[dict[Features, tuple[Candidate, ...]], dict[str, str]]:
    """The items of these formats by their features, and one name for all that are the same thing."""
    pools: dict[Features, list[Candidate]] = {}
    for skill, name in asked:
        for one in candidates_of(skill, name, most=most):
            pools.setdefault(one.features, []).append(one)
    things = one_name_each(one.same for pool in pools.values() for one in pool)
    return {features: tuple(pool) for features, pool in pools.items()}, things


def minutes_of(known: Format) -> float:
    """How long one item of a format is reckoned to take."""
    return min(LONGEST, SIDE_MINUTES / known.per_side[0])


def candidates_of(skill: Skill, format_id: FormatId, *, most: int = SAMPLE) -> tuple[Candidate, ...]:
    """The items of one format that tests choose among; always the same ones, and the same first ones of more."""
    ways = tuple(way.id for way in skill.error_ways if way.shows_as == "wrong answer")
    return _looked_at(_Wanted(skill.id, skill.item_rule or "", format_id, ways, most, skill))


@dataclass(frozen=True, slots=True)
class _Wanted:
    skill_id: SkillId
    rule: str
    format: FormatId
    ways: tuple[ErrorWayId, ...]
    most: int
    skill: Skill = field(compare=False)


@lru_cache(maxsize=96)
def _looked_at(wanted: _Wanted) -> tuple[Candidate, ...]:
    found: dict[str, Candidate] = {}
    for item in islice(_sampled(wanted.skill, wanted.format, wanted.most), 8 * wanted.most):
        seen = face(item)
        same = (same_numbers(item.skill, item.numbers), f"face {seen}")
        found.setdefault(seen, Candidate(item, features_of(wanted.skill, item), same))
        if len(found) == wanted.most:
            break
    return tuple(found.values())


def _sampled(skill: Skill, format_id: FormatId, most: int) -> Iterator[Item]:
    """Items of one format in an order that is always the same."""
    fits = rule_of(skill.id).fits.get(format_id)
    rng = Random(seed_from("test", skill.id, format_id))
    for numbers in islice(domain_of(skill).shuffled(rng, about=SAMPLE), 16 * most):
        if fits is None or fits(numbers):
            item = make(skill, format_id, numbers)
            if fits_on_paper(item, LANG):
                yield item


@dataclass(slots=True)
class _Growing:
    """A skill while the test is being laid out: the formats of its items so far, and those that may still come."""

    skill: Skill
    taken: list[FormatId]
    waiting: list[FormatId]


def _laid_out(maker: Maker, skills: Sequence[SkillId]) -> list[_Growing]:
    """Two items for every skill, then a third for each, a fourth, a fifth, while minutes and paper last."""
    known = maker.course.formats
    growing = [_begun(maker, maker.course.skills[skill]) for skill in skills]
    minutes = min(float(maker.day.child_minutes), MOST_MINUTES)
    minutes -= sum(minutes_of(known[name]) for one in growing for name in one.taken)
    paper = USED * SIDES * SIDE - sum(_room(one.skill, name) for one in growing for name in one.taken)
    for count in range(A_SKILL[0], A_SKILL[1]):
        for one in growing:
            if len(one.taken) != count or not one.waiting:
                continue
            name = one.waiting[0]
            if minutes_of(known[name]) <= minutes and _room(one.skill, name) <= max(paper, SMALL):
                minutes -= minutes_of(known[name])
                paper -= _room(one.skill, name)
                one.taken.append(one.waiting.pop(0))
    return growing


def _begun(maker: Maker, skill: Skill) -> _Growing:
    """The first two formats of a skill's items and those after them: the plainest first, one place for another way.

    Where the plainest way takes much paper, as a story does, one item is asked so and the others in the next low way.
    """
    names = maker.formats(skill.id)
    first = next((name for name in names if name not in LONG_ONES), names[0])
    others = [name for name in names if name != first]
    others.sort(key=lambda name: (name in LONG_ONES, name in FEW_AT_ONCE))
    tall = _room(skill, first)
    low = [name for name in others if _room(skill, name) <= max(LOW / 2, LOWER * tall)]
    order: list[FormatId]
    if tall > LOW and low:
        order = [first, low[0], low[0], first, low[0]]
    else:
        order = [first, first, low[0] if low else first, first, first]
    most = min(A_SKILL[1], max(A_SKILL[0], (skill.distinct_items or SAMPLE) // FORMS))
    return _Growing(skill, order[: A_SKILL[0]], order[A_SKILL[0] : most])


def _room(skill: Skill, name: FormatId) -> float:
    """About how many millimetres of a side one item takes; more than there are where none can be made."""
    return max((height_beside(item, LANG) for item in islice(_sampled(skill, name, SAMPLE), 1)), default=SIDE * SIDES)


@dataclass(slots=True)
class _Room:
    """How many items are left for further places, so that two forms can be filled."""

    pools: Mapping[Features, tuple[Candidate, ...]]
    things: Mapping[str, str]
    matching: Matching = field(default_factory=Matching)

    def has(self, features: Features) -> bool:
        """Keep items for one more place with these features on every form; False where there are too few."""
        things = [self.things[one.same[0]] for one in self.pools[features]]
        return self.matching.add_all([things] * FORMS)


def _plan(maker: Maker, grown: _Growing, room: _Room) -> SkillPlan:
    used: Counter[Features] = Counter()
    counts = Counter(grown.taken)
    places = tuple(
        place
        for name, count in counts.items()
        for place in _places(candidates_of(grown.skill, name), count, used, room)
    )
    minutes = sum(minutes_of(maker.course.formats[name]) * count for name, count in counts.items())
    return SkillPlan(grown.skill, places, minutes)


def _places(candidates: Sequence[Candidate], count: int, used: Counter[Features], room: _Room) -> Iterator[Features]:
    """The features of each place: what tells most apart, as hard as the place wants, and enough for two forms."""
    sizes = Counter(one.features for one in candidates)
    most_told = max((features.parts for features in sizes), default=0) or 1
    for aim in AIMS[count]:

        def worth(one: Features, aim: Band = aim) -> tuple[float, int, str]:
            common = min(1.0, 4 * sizes[one] / len(candidates))
            off = abs(BANDS.index(one.band) - BANDS.index(aim))
            value = TOLD * one.parts / most_told - UNSUITED * off + COMMON * common - AGAIN * used[one]
            return value, sizes[one], repr(one)

        ranked = sorted(sizes, key=worth, reverse=True)
        best = next((one for one in ranked if room.has(one)), ranked[0])
        used[best] += 1
        yield best
