"""The look back before a test, and the look over all so far: every topic once, then what comes back."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from dayleaf.items.face import face
from dayleaf.packets.pages import BACK_PLACES, offered
from dayleaf.packets.room import SIDE, height_of, height_together, is_wide
from dayleaf.packets.spread import on_sheets, packed
from dayleaf.packets.tenth_day import fix_up_items, stretch_items
from dayleaf.wording.page import page_word
from dayleaf.wording.tables import has, phrase

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from dayleaf.core.ids import SkillId
    from dayleaf.items.model import Item
    from dayleaf.packets.pages import Maker
    from dayleaf.sheets.model import PageSpec

TOPIC: Final = 8.0
"""Millimetres that one topic takes in the table to sort, and the line above it."""
ALL_PLACES: Final = 7
"""Skills on either half of a look over all so far (JOB: seven and seven)."""


def look_back_sides(maker: Maker, back: Sequence[SkillId]) -> tuple[tuple[PageSpec, ...], ...]:
    """The child sorts the chapter's topics, then meets each once; what comes back fills the last side.

    The page to stretch comes last; it is printed where a sheet would else have an empty back.
    """
    skills = maker.day.front_skills
    topics = topic_words(skills, maker.lang)
    items = [item for skill in skills if (item := one_item(maker, skill)) is not None]
    sides = packed(_lowest_first(items, maker.lang), maker.lang, taken=TOPIC * (len(topics) + 1) if topics else 0)
    if len(sides) == 1:
        sides.append([])
    others = [skill for skill in back or maker.day.back_skills if skill not in skills]
    sides[-1].extend(_that_fit(maker, others, beside=sides[-1], most=BACK_PLACES))
    sides = [side for side in sides if side]
    titles = [page_word("title-look-back", maker.lang)] * len(sides)
    if further := stretch_items(maker):
        sides.append(list(further))
        titles.append(page_word("title-stretch", maker.lang))
    return on_sheets(sides, titles, maker.lang, topics=topics)


def all_so_far_sides(
    maker: Maker, back: Sequence[SkillId], *, fix_up: Sequence[SkillId]
) -> tuple[tuple[PageSpec, ...], ...]:
    """Seven skills of the chapters so far and seven that come back, each once; before them what the test named."""
    named = fix_up_items(maker, fix_up)
    front = maker.day.front_skills
    others = [skill for skill in (*back, *maker.day.back_skills) if skill not in front]
    skills = (*front, *tuple(dict.fromkeys(others))[:ALL_PLACES])
    items = [item for skill in skills if (item := one_item(maker, skill)) is not None]
    sides = packed(_lowest_first(items, maker.lang), maker.lang)
    titles = [page_word("title-look-back-all", maker.lang)] * len(sides)
    if named:
        sides, titles = [list(named), *sides], [page_word("title-fix-up", maker.lang), *titles]
    if further := stretch_items(maker):
        sides.append(list(further))
        titles.append(page_word("title-stretch", maker.lang))
    return on_sheets(sides, titles, maker.lang)


def topic_words(skills: Iterable[SkillId], lang: str) -> tuple[str, ...]:
    """Each skill in words for the child; none at all where the language lacks some."""
    wanted = tuple(skills)
    if not all(has("topic", skill, lang) for skill in wanted):
        return ()
    return tuple(phrase("topic", skill, lang) for skill in wanted)


def one_item(maker: Maker, skill: SkillId, *, place: str = "look back") -> Item | None:
    """One item of a skill that this sheet does not have yet, kept; None where none can be printed.

    One with an answer to write comes before one that a grown-up must look at: those take much room.
    """
    if not maker.formats(skill) or not maker.speaks(skill):
        return None
    fresh: list[Item] = []
    for item in offered(maker, skill, place=place):
        if face(item) not in maker.sheet:
            fresh.append(item)
            if not any(part.kind == "look" for part in item.parts):
                break
    if not fresh:
        return None
    chosen = fresh[0] if any(part.kind == "look" for part in fresh[-1].parts) else fresh[-1]
    maker.keep((chosen,))
    return chosen


def _that_fit(maker: Maker, skills: Iterable[SkillId], *, beside: Sequence[Item], most: int) -> list[Item]:
    found: list[Item] = []
    for skill in skills:
        if len(found) == most or not maker.formats(skill) or not maker.speaks(skill):
            continue
        for item in offered(maker, skill, place="back"):
            fits = height_together((*beside, *found, item), maker.lang) <= SIDE
            if fits and face(item) not in maker.sheet:
                maker.keep((item,))
                found.append(item)
                break
    return found


def _lowest_first(items: Iterable[Item], lang: str) -> list[list[Item]]:
    ordered = sorted(items, key=lambda item: (is_wide(item, lang), height_of(item, lang)))
    return [[item] for item in ordered]
