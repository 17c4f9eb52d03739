"""Placement on paper: two sides in two sittings, from what comes early to what comes late, one item a skill.

The parent's page says how to go on and when to stop; the answers are what `learner.placement` wants of them.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from dayleaf.core.ids import FormatId, LessonId
from dayleaf.core.seeds import seed_from
from dayleaf.items.built import formats_built
from dayleaf.items.choose import choose_items
from dayleaf.packets.loose import print_loose
from dayleaf.packets.pages import blocks_of
from dayleaf.sheets.cells import answer_words
from dayleaf.sheets.ids import sheet_id
from dayleaf.sheets.model import GuideLine, GuideSection, GuideSheet, PageSpec, SheetSpec
from dayleaf.wording.languages import languages_of

if TYPE_CHECKING:
    from collections.abc import Collection, Mapping, Sequence

    from dayleaf.core.ids import SkillId
    from dayleaf.course.model import Course, Skill
    from dayleaf.items.model import Item
    from dayleaf.packets.loose import Loose
    from dayleaf.packets.model import Child
    from dayleaf.sheets.model import PageKind, Placed

A_SITTING: Final = 10
"""Items of one side: about ten minutes (common practice, no source)."""
ON_PAPER: Final = 2 * A_SITTING
LOW: Final = tuple(FormatId(one) for one in ("horiz", "strip", "missing", "vert", "cmp", "pattern", "choose"))
"""Formats that take little room, so that a side holds twelve; the first that a skill has."""
LESSON: Final = LessonId("placement")
KINDS: Final[tuple[PageKind, ...]] = ("front", "back")
TITLES: Final = ("First sitting", "Second sitting")
IN_A_ROW: Final = "three"


@dataclass(frozen=True, slots=True)
class PlacementPaper:
    """The paper and the item behind each number, in order."""

    prints: Loose
    items: tuple[Item, ...]

    def answers(self, *, wrong: Collection[int], reached: int | None = None) -> tuple[tuple[SkillId, bool], ...]:
        """What `placement.place` is told when all items up to `reached` are right except these numbers (from 1)."""
        last = len(self.items) if reached is None else reached
        return tuple((item.skill, n not in wrong) for n, item in enumerate(self.items[:last], start=1))


def placement_skills(
    course: Course, place: Mapping[SkillId, float], *, skills: Collection[SkillId], lang: str, n: int
) -> tuple[Skill, ...]:
    """About `n` skills spread evenly over the course, early ones first, each with an item that takes little room.

    `place` is the day that brings each skill. Neighbours are of different strands where that is possible.
    """
    known = [course.skills[one] for one in skills if one in course.skills and one in place]
    asked = [one for one in known if _low(one) and lang in languages_of(one.id)]
    ordered = sorted(asked, key=lambda one: (place[one.id], one.id))
    if len(ordered) <= n:
        return tuple(ordered)
    chosen: list[Skill] = []
    for step in range(n):
        first, last = step * len(ordered) // n, (step + 1) * len(ordered) // n
        before = {one.strand for one in chosen[-2:]}
        span = ordered[first:last]
        chosen.append(next((one for one in span if one.strand not in before), span[len(span) // 2]))
    return tuple(chosen)


def print_placement(
    course: Course, skills: Sequence[Skill], child: Child, *, seed: int, id_parts: Sequence[str | int] = ()
) -> PlacementPaper:
    """One sheet with two sides, a page for the parent and a key; the same arguments give the same bytes.

    Raises:
        SideTooFull: an item does not fit on a side.
    """
    items = [_item(skill, seed) for skill in skills]
    half = min(A_SITTING, (len(items) + 1) // 2)
    sides = (items[:half], items[half:])
    pages = tuple(
        PageSpec(kind, title, blocks_of(side, child.look.lang, first=first))
        for kind, title, side, first in zip(KINDS, TITLES, sides, (1, half + 1), strict=True)
        if side
    )
    parts = tuple(id_parts) or (child.name, LESSON, seed)
    sheet = SheetSpec(sheet_id(*parts), LESSON, child.name, pages)
    prints = print_loose([sheet], child.look, guide=lambda printed: _guide(course, child, printed))
    return PlacementPaper(prints, tuple(one.item for one in _placed(prints.sheets)))


def _low(skill: Skill) -> FormatId | None:
    built = formats_built(skill.id)
    return next((one for one in LOW if one in built), None)


def _item(skill: Skill, seed: int) -> Item:
    """One item of middling difficulty: the middle one of three chosen."""
    low = _low(skill) or formats_built(skill.id)[0]
    three = choose_items(skill, n=3, seed=seed_from(seed, "placement", skill.id), formats=(low,))
    return sorted(three, key=lambda item: item.difficulty)[len(three) // 2]


def _placed(sheets: Sequence[SheetSpec]) -> list[Placed]:
    return [one for sheet in sheets for page in sheet.pages for block in page.blocks for one in block.items]


def _guide(course: Course, child: Child, sheets: Sequence[SheetSpec]) -> GuideSheet:
    how = (
        GuideLine("say", "Some of these you know, some come later. Do what you can, and say when one is new."),
        GuideLine("do", "Read aloud what is hard to read. Give no hints, and take “not yet” for an answer."),
        GuideLine(
            "do", f"Stop here when {IN_A_ROW} in a row are not yet there, or after ten minutes. Another day is as good."
        ),
    )
    after = (
        GuideLine("do", "Tell Dayleaf the last number that was reached and the numbers that are not right yet."),
        GuideLine("", "What comes back is a map and a first day, with reasons. Any other day may be chosen."),
    )
    asked = tuple(GuideLine("", f"{one.n}: {course.skills[one.item.skill].title}") for one in _placed(sheets))
    return GuideSheet(
        lesson=LESSON,
        title="Where to begin",
        under_title=f"{child.name} · two sittings of about ten minutes",
        facts=(("Fetch", "a pencil, the sheet, and something to draw on"),),
        sections=(
            GuideSection("How it goes", None, how, core=True),
            GuideSection("Afterwards", None, after),
            GuideSection("What each one asks", None, asked),
        ),
        short="",
        bare="",
        answers=tuple(
            (
                page.title,
                tuple(
                    f"{one.n}: {answer_words(one.item, child.look.lang)}"
                    for block in page.blocks
                    for one in block.items
                ),
            )
            for sheet in sheets
            for page in sheet.pages
        ),
    )
