"""Extra practice: any skills, any amount, any format, on as many sides as it needs, with a key."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from dayleaf.core.ids import LessonId
from dayleaf.core.seeds import seed_from
from dayleaf.items.built import formats_built
from dayleaf.items.choose import choose_items
from dayleaf.packets.loose import SideTooFull
from dayleaf.packets.room import fits_on_paper
from dayleaf.packets.spread import on_sheets, packed, spread_on
from dayleaf.sheets.ids import sheet_id
from dayleaf.sheets.model import SheetSpec
from dayleaf.sheets.typeset import PageTooFull, check_room, typeset_key, typeset_pages
from dayleaf.wording.page import page_word

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from dayleaf.core.ids import FormatId, SkillId
    from dayleaf.course.model import Course, Skill
    from dayleaf.items.model import Item
    from dayleaf.packets.model import Child
    from dayleaf.sheets.model import Typeset

LESSON: Final = LessonId("practice")
MOST: Final = 60
"""Items of one skill at the most."""
TRIES: Final = 60


@dataclass(frozen=True, slots=True)
class Asked:
    """So many items of a skill, shared out over these formats."""

    skill: Skill
    formats: tuple[FormatId, ...]
    n: int


@dataclass(frozen=True, slots=True)
class Practice:
    """The child's sides with their map, the key, and the sheets."""

    pages: Typeset
    key: bytes
    sheets: tuple[SheetSpec, ...]


def print_practice(asked: Iterable[Asked], child: Child, *, seed: int, id_parts: Sequence[str | int]) -> Practice:
    """The items asked for, skill after skill; the same arguments give the same bytes.

    Fewer than asked for come only where a rule has no more. What a side has no room for goes on to the next one.

    Raises:
        NotBuilt: no item of a skill can be made in that format.
        SideTooFull: one item alone does not fit on a side.
    """
    lang = child.look.lang
    groups = [_items(one, seed, lang) for one in asked]
    sides = [side for side in packed(groups, lang) if side]
    title = page_word("title-own", lang)
    sheets = tuple(
        SheetSpec(sheet_id(*id_parts, place), LESSON, child.name, pages)
        for place, pages in enumerate(on_sheets(sides, (title,), lang))
    )
    for _ in range(TRIES):
        try:
            check_room(sheets, child.look)
        except PageTooFull as full:
            room = full.room or {full.page: full.fits or full.items - 1}
            if 0 in room.values():
                raise SideTooFull(title) from full
            sheets = _with_ids(spread_on(sheets, room, lang), id_parts)
        else:
            return Practice(typeset_pages(sheets, child.look), typeset_key(sheets, child.look), sheets)
    raise SideTooFull(title)


def formats_to_practise(course: Course, skill: SkillId) -> tuple[FormatId, ...]:
    """The formats of a skill that can be worked alone on paper, in the order of the course."""
    built = formats_built(skill)
    return tuple(one for one in course.skills[skill].formats if one in built and not course.formats[one].acted_out)


def _items(asked: Asked, seed: int, lang: str) -> tuple[Item, ...]:
    numbers = seed_from(seed, "practice", asked.skill.id)
    chosen = choose_items(asked.skill, n=asked.n, seed=numbers, formats=asked.formats[: asked.n])
    return tuple(item for item in chosen if fits_on_paper(item, lang))


def _with_ids(sheets: Sequence[SheetSpec], id_parts: Sequence[str | int]) -> tuple[SheetSpec, ...]:
    return tuple(replace(sheet, id=sheet_id(*id_parts, place)) for place, sheet in enumerate(sheets))
