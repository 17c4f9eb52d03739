"""Which items stand on which page: the recipe of each kind of day."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from itertools import count
from random import Random
from typing import TYPE_CHECKING

from dayleaf.core.seeds import seed_from
from dayleaf.items.built import formats_built
from dayleaf.items.choose import choose_items
from dayleaf.items.face import face
from dayleaf.items.model import Column, Figure, Row
from dayleaf.packets.filling import fill
from dayleaf.packets.model import NotBuiltYet
from dayleaf.packets.room import SIDE, height_of, height_together, is_wide
from dayleaf.sheets.model import Block, PageSpec, Placed
from dayleaf.wording.instructions import instruction_for_many
from dayleaf.wording.languages import languages_of
from dayleaf.wording.page import page_word

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from dayleaf.core.ids import FormatId, SkillId
    from dayleaf.course.model import Course, Day, Skill
    from dayleaf.items.model import Item
    from dayleaf.sheets.model import PageKind

OWN_ITEMS = 6
BACK_PLACES = 6
BACK_CHOICES = 9
"""Skills to choose among for the places of a back: some pictures are too high to stand together."""
LOW = 48.0
"""Millimetres: items up to this height are as good as each other for a side of many kinds."""
FURTHER = 3
"""Formats of a skill on a front besides its first."""
FEW_AT_ONCE = frozenset(
    {
        "fix",
        "word1",
        "word2",
        "digit-puzzle",
        "table",
        "graph-read",
        "graph-make",
        "bar-fill",
        "family",
        "nl-jump",
        "explain",
    }
)
"""Formats of which one or two stand beside others, never a page full (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Maker:
    """Chooses items for one packet: never the same item twice on a sheet, nor twice in a day while the rule has more.

    The same numbers in another format count as the same item. `used` holds what the day (and `avoid`) has
    had, `sheet` what the sheet being filled has.
    """

    course: Course
    day: Day
    seed: int
    lang: str
    used: set[str]
    sheet: set[str] = field(default_factory=set)

    def formats(self, skill: SkillId) -> tuple[FormatId, ...]:
        """The formats of a skill that may stand on a page of this day, in the order of the course.

        What is acted out with a person or with things stays off pages that are worked alone.
        """
        known = self.course.skills[skill]
        numbers = {day.id: day.number for day in self.course.days} if known.format_from_day else {}
        built = set(formats_built(skill))
        held_back = {name for name, lesson in known.format_from_day.items() if numbers[lesson] > self.day.number}
        acted = {name for name, one in self.course.formats.items() if one.acted_out}
        return tuple(name for name in known.formats if name in built - acted and name not in held_back)

    def items(self, skill: SkillId, formats: Sequence[FormatId], *, n: int, place: str) -> tuple[Item, ...]:
        """Choose n items and keep them; fewer where a sheet would repeat one."""
        chosen = self.tried(skill, formats, n=n, place=place)
        self.keep(chosen)
        return chosen

    def tried(self, skill: SkillId, formats: Sequence[FormatId], *, n: int, place: str) -> tuple[Item, ...]:
        """The items that would be chosen; nothing is kept."""
        chosen = self._chosen(skill, formats, n=n, place=place, avoid=self.used)
        if any(item.key in self.used for item in chosen):
            again = self._chosen(skill, formats, n=n, place=place, avoid=self.sheet)
            chosen = tuple(item for item in again if item.key not in self.sheet)
        return chosen

    def keep(self, items: Iterable[Item]) -> None:
        """Remember items, in every format of their skill, as used."""
        for item in items:
            twins = {replace(item, format=name).key for name in self.course.skills[item.skill].formats} | {face(item)}
            self.used.update(twins)
            self.sheet.update(twins)

    def spoken(self, skill: SkillId, name: FormatId, *, n: int) -> tuple[Item, ...]:
        """Facts to ask aloud; they may stand on paper too."""
        return self._chosen(skill, (name,), n=n, place="warm-up", avoid=())

    def _chosen(
        self, skill: SkillId, formats: Sequence[FormatId], *, n: int, place: str, avoid: Iterable[str]
    ) -> tuple[Item, ...]:
        known: Skill = self.course.skills[skill]
        seed = seed_from(self.seed, self.day.id, place, skill, *formats)
        return choose_items(known, n=n, seed=seed, formats=tuple(formats), avoid=frozenset(avoid))

    def speaks(self, skill: SkillId) -> bool:
        """Whether this skill has words in the packet's language."""
        return self.lang in languages_of(skill)


def printed_skills(maker: Maker, skills: Iterable[SkillId]) -> tuple[SkillId, ...]:
    """The skills of a page; raises NotBuiltYet naming all that cannot be made."""
    wanted = tuple(skills)
    missing = tuple(skill for skill in wanted if not maker.formats(skill))
    if missing:
        raise NotBuiltYet(maker.day.id, missing)
    return wanted


def blocks_of(items: Sequence[Item], lang: str, *, first: int, example: Item | None = None) -> tuple[Block, ...]:
    """Items of one skill and format share one instruction; numbers run on from `first`."""
    blocks: list[Block] = []
    group: list[Placed] = []
    for number, item in enumerate(items, start=first):
        if group and (group[-1].item.skill, group[-1].item.format) != (item.skill, item.format):
            blocks.append(_block(group, lang))
            group = []
        group.append(Placed(number, item))
    if group:
        blocks.append(_block(group, lang))
    if example is not None and blocks:
        head = blocks[0]
        blocks[0] = Block(head.instruction, head.items, example=example)
    return tuple(blocks)


def _block(group: Sequence[Placed], lang: str) -> Block:
    return Block(instruction_for_many(tuple(placed.item for placed in group), lang), tuple(group))


def renumbered(pages: Iterable[PageSpec]) -> tuple[PageSpec, ...]:
    """The pages with their items numbered on from 1 through all of them."""
    numbers = count(1)
    return tuple(
        replace(
            page,
            blocks=tuple(
                replace(block, items=tuple(Placed(next(numbers), old.item) for old in block.items))
                for block in page.blocks
            ),
        )
        for page in pages
    )


def page(kind: PageKind, items: Sequence[Item], lang: str, *, first: int, example: Item | None = None) -> PageSpec:
    """One side with its title in the child's words."""
    return PageSpec(kind, page_word(f"title-{kind}", lang), blocks_of(items, lang, first=first, example=example))


def own_items(maker: Maker, *, fewer: bool) -> tuple[Item, ...]:
    """The own page: today's skills in turn, each in its first format that can fill a page."""
    skills = printed_skills(maker, maker.day.front_skills)
    kinds = [(skill, own_format(maker, skill)) for skill in skills] * OWN_ITEMS
    filled = fill(maker, kinds, most=_places(len(skills), fewer=fewer))
    return tuple(item for (skill, name), n in filled for item in maker.items(skill, (name,), n=n, place="own"))


def _places(skills: int, *, fewer: bool) -> int:
    """Items on a side of so many skills; about two thirds of them for a child with fewer items."""
    most = max(OWN_ITEMS, skills)
    return max(skills, (2 * most + 2) // 3) if fewer else most


def worked_example(maker: Maker) -> Item | None:
    """One item like those of the own page, shown with its steps; chosen first, so that the page never asks it."""
    skill = maker.day.front_skills[0]
    shown = maker.items(skill, (own_format(maker, skill),), n=1, place="example")
    return shown[0] if shown else None


def with_pictures(maker: Maker, items: Sequence[Item]) -> tuple[Item, ...]:
    """The items of a together page: the first two beside a picture of their first number, the others to be drawn."""
    return tuple(_pictured(maker, item) if place < 2 else item for place, item in enumerate(items))


def _pictured(maker: Maker, item: Item) -> Item:
    pictures = maker.course.skills[item.skill].pictures
    first = item.numbers.get("a")
    if item.figure is not None or first is None or not isinstance(item.prompt, Row | Column):
        return item
    if "base-ten" in pictures and 10 < first < 100:
        return replace(item, figure=Figure("base-ten", {"t": first // 10, "o": first % 10}))
    if "ten-frame" in pictures and first <= 20:
        return replace(item, figure=Figure("ten-frame", {"a": first}))
    return item


def own_format(maker: Maker, skill: SkillId) -> FormatId:
    """The first format of a skill that can fill a page."""
    formats = maker.formats(skill)
    return next((name for name in formats if name not in FEW_AT_ONCE), formats[0])


def front_items(maker: Maker, *, fewer: bool) -> tuple[Item, ...]:
    """The front: today's skills in mixed formats, one place for each further format, the first formats for the rest."""
    skills = printed_skills(maker, maker.day.front_skills)
    first = [(skill, maker.formats(skill)[0]) for skill in skills]
    further = [
        (skill, names[place])
        for place in range(1, FURTHER + 1)
        for skill in skills
        if place < len(names := maker.formats(skill))
    ]
    filled = fill(maker, first * 2 + further + first * OWN_ITEMS, most=_places(len(skills), fewer=fewer))
    in_order = sorted(filled, key=lambda one: skills.index(one[0][0]))
    return tuple(item for (skill, name), n in in_order for item in maker.items(skill, (name,), n=n, place="front"))


def one_each(maker: Maker, skills: Iterable[SkillId], *, place: str, most: int) -> tuple[Item, ...]:
    """One item a skill, each in a format that leaves room for the others; the lowest first.

    The skills are taken in their order, but only one high picture before the low items have their places. A
    skill whose lowest item does not fit beside those chosen before is left out.
    """
    printed = [skill for skill in skills if maker.formats(skill) and maker.speaks(skill)]
    left_over: dict[SkillId, list[Item]] = {}
    wanted: dict[SkillId, Item] = {}
    for high_ones in (1, most):
        for skill in printed:
            if len(wanted) == most:
                break
            if skill in wanted:
                continue
            high = sum(height_of(item, maker.lang) > LOW for item in wanted.values())
            passed: list[Item] = []
            for item in left_over.get(skill) or offered(maker, skill, place=place):
                passed.append(item)
                is_high = height_of(item, maker.lang) > LOW
                if face(item) in maker.sheet or (is_high and high >= high_ones):
                    continue
                if height_together((*wanted.values(), item), maker.lang) <= SIDE:
                    maker.keep((item,))
                    wanted[skill] = item
                    break
            left_over[skill] = passed
    return tuple(sorted(wanted.values(), key=lambda item: (is_wide(item, maker.lang), height_of(item, maker.lang))))


def offered(maker: Maker, skill: SkillId, *, place: str) -> Iterator[Item]:
    """An item of the skill in each format, in the order in which to try them: the low ones shuffled, then the rest.

    Each is chosen only when it is asked for: mostly the first one does. Of three chosen items the middle one is
    taken, which is neither the surest nor alike for every child.
    """
    formats = list(maker.formats(skill))
    Random(seed_from(maker.seed, place, skill)).shuffle(formats)
    high: list[Item] = []
    for name in formats:
        items = maker.tried(skill, (name,), n=3, place=place)
        if not items:
            continue
        item = items[len(items) // 2]
        if height_of(item, maker.lang) <= LOW:
            yield item
        else:
            high.append(item)
    yield from sorted(high, key=lambda one: height_of(one, maker.lang))
