"""A chapter test on paper: its form on as many sides as it needs, marks by skill and what to look for on its key."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from dayleaf.packets.blueprint import blueprint_of
from dayleaf.packets.forms import form_of
from dayleaf.packets.rubrics import rubric_table
from dayleaf.packets.spread import on_sheets, packed
from dayleaf.sheets.model import KeyTable
from dayleaf.wording.page import page_word

if TYPE_CHECKING:
    from collections.abc import Sequence

    from dayleaf.core.ids import SkillId
    from dayleaf.course.model import Course, Day
    from dayleaf.items.model import Item
    from dayleaf.packets.blueprint import Blueprint
    from dayleaf.packets.forms import Form
    from dayleaf.sheets.model import PageSpec, SheetSpec

MARKS_NOTE: Final = (
    "A skill holds when at most one of its items is missed, or four of five are right. "
    "Whatever does not hold is fixed up on the tenth day; form B waits for another day."
)


_latest: list[tuple[Course, Day, Blueprint]] = []
"""The last blueprint worked out: form B and the key ask for the same again."""


def form_for(course: Course, day: Day, *, form: str, seed: int) -> Form:
    """One form of the day's test.

    Raises:
        NotATest, NotBuiltYet: as `blueprint_of`.
        NoSuchForm: the letter is none of A to H.
    """
    if not _latest or _latest[0][0] is not course or _latest[0][1] is not day:
        _latest[:] = [(course, day, blueprint_of(course, day))]
    return form_of(_latest[0][2], form, seed=seed)


def form_sides(form: Form, lang: str) -> tuple[tuple[PageSpec, ...], ...]:
    """The sides of each sheet: skill after skill, numbers running on through all sides."""
    groups: list[list[Item]] = []
    for item in form.items:
        if groups and groups[-1][-1].skill == item.skill and groups[-1][-1].format == item.format:
            groups[-1].append(item)
        else:
            groups.append([item])
    title = f"{page_word('title-test', lang)} · {page_word('form', lang)} {form.letter}"
    return on_sheets(packed(groups, lang), [title], lang)


def form_tables(course: Course, sheets: Sequence[SheetSpec]) -> tuple[KeyTable, ...]:
    """The tables of a test's key: marks by skill, and what to look for in what is drawn or told."""
    placed = [one for sheet in sheets for page in sheet.pages for block in page.blocks for one in block.items]
    rows: list[tuple[str, ...]] = []
    skills: dict[SkillId, None] = dict.fromkeys(one.item.skill for one in placed)
    for skill in skills:
        mine = [one for one in placed if one.item.skill == skill]
        formats = dict.fromkeys(course.formats[one.item.format].name.lower() for one in mine)
        numbers = ", ".join(str(one.n) for one in mine)
        rows.append((course.skills[skill].title, ", ".join(formats), numbers, f"____ of {len(mine)}"))
    rows.append(("All together", "", "", f"____ of {len(placed)}"))
    marks = KeyTable("Marks by skill", ("Skill", "How it is asked", "Items", "Right"), tuple(rows), MARKS_NOTE)
    rubric = rubric_table(course, placed)
    return (marks, rubric) if rubric else (marks,)
