"""The tenth day of a chapter on paper: what the test showed once more, in ten to fifteen minutes; a page to stretch."""

from __future__ import annotations

from itertools import zip_longest
from typing import TYPE_CHECKING, Final

from dayleaf.items.face import face
from dayleaf.packets.blueprint import minutes_of
from dayleaf.packets.pages import BACK_PLACES, one_each, own_format
from dayleaf.packets.room import SIDE, height_together
from dayleaf.packets.spread import on_sheets
from dayleaf.wording.page import page_word

if TYPE_CHECKING:
    from collections.abc import Sequence

    from dayleaf.core.ids import SkillId
    from dayleaf.items.model import Item
    from dayleaf.packets.pages import Maker
    from dayleaf.sheets.model import PageSpec

FIX_UP_MINUTES: Final = 15.0
"""Ten to fifteen minutes (JOB 1.11)."""
FIX_UP_SKILLS: Final = 3
"""So many skills at the most; the others come back on back sides."""
A_SKILL: Final = {1: 8, 2: 6, 3: 4}
"""Items of each of so many skills: four small ones a topic, as the guides say; more where there is time for more."""
STRETCHES: Final = 3


def tenth_day_sides(
    maker: Maker, back: Sequence[SkillId], *, fix_up: Sequence[SkillId]
) -> tuple[tuple[PageSpec, ...], ...]:
    """One sheet: what is named once more, or a little of what comes back; behind it the page to stretch."""
    named = fix_up_items(maker, fix_up)
    front = named or one_each(maker, maker.day.front_skills or back, place="front", most=BACK_PLACES)
    titles = [page_word("title-fix-up" if named else "title-front", maker.lang)]
    maker.sheet.clear()
    further = stretch_items(maker)
    sides = [side for side in (front, further) if side]
    if further:
        titles = [*titles[: len(sides) - 1], page_word("title-stretch", maker.lang)]
    return on_sheets(sides, titles, maker.lang) if sides else ()


def fix_up_items(maker: Maker, skills: Sequence[SkillId]) -> tuple[Item, ...]:
    """Four to eight items a skill, of three skills at the most, as many as fifteen minutes and a side hold."""
    named = [one for one in skills if maker.formats(one) and maker.speaks(one)][:FIX_UP_SKILLS]
    known = maker.course.formats
    offered = [
        maker.tried(skill, (own_format(maker, skill),), n=A_SKILL[len(named)], place="fix up") for skill in named
    ]
    found: list[Item] = []
    minutes = FIX_UP_MINUTES
    for item in (item for turn in zip_longest(*offered) for item in turn if item is not None):
        needed = minutes_of(known[item.format])
        if needed <= minutes and height_together((*found, item), maker.lang) <= SIDE:
            found.append(item)
            minutes -= needed
    maker.keep(found)
    return tuple(sorted(found, key=lambda item: named.index(item.skill)))


def stretch_items(maker: Maker) -> tuple[Item, ...]:
    """A side of the day's stretch skills, each in up to three ways, harder ones rather than sure ones."""
    found: list[Item] = []
    skills = [skill for skill in maker.day.stretch_skills if maker.formats(skill) and maker.speaks(skill)]
    ways = [(skill, maker.formats(skill)[turn:][:1]) for turn in range(STRETCHES) for skill in skills]
    for skill, names in ways:
        if not names:
            continue
        tried = sorted(maker.tried(skill, names, n=3, place="stretch"), key=lambda item: -item.difficulty)
        item = next((one for one in tried if face(one) not in maker.sheet), None)
        if item is not None and height_together((*found, item), maker.lang) <= SIDE:
            maker.keep((item,))
            found.append(item)
    return tuple(sorted(found, key=lambda item: skills.index(item.skill)))
