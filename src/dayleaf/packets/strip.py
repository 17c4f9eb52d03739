"""A three-day strip on paper: one side of guide, three sides for the child, a key."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from dayleaf.core.ids import LessonId
from dayleaf.items.model import Figure, Row
from dayleaf.packets.loose import print_loose
from dayleaf.packets.pages import blocks_of
from dayleaf.sheets.cells import answer_words
from dayleaf.sheets.ids import sheet_id
from dayleaf.sheets.model import GuideLine, GuideSection, GuideSheet, PageSpec, SheetSpec

if TYPE_CHECKING:
    from collections.abc import Sequence

    from dayleaf.items.model import Item
    from dayleaf.learner.strip import Strip
    from dayleaf.packets.loose import Loose
    from dayleaf.packets.model import Child
    from dayleaf.sheets.model import PageKind, Placed

SIDES: Final[tuple[tuple[PageKind, ...], ...]] = (("together", "own"), ("front",))
MINUTES: Final = (10, 10, 12)
"""Planning values (common practice, no source)."""
TITLES: Final = ("Day one", "Day two", "Day three")


def print_strip(strip: Strip, child: Child, *, id_parts: Sequence[str | int] = ()) -> Loose:
    """The strip as a guide on one side, two sheets of paper for the child, and a key.

    Raises:
        SideTooFull: an item of the skill does not fit on a side.
    """
    lang = child.look.lang
    pages: list[PageSpec] = []
    first = 1
    for place, (kind, title) in enumerate(zip((kind for side in SIDES for kind in side), TITLES, strict=True)):
        items = [_laid(one) if place == 0 else one for one in strip.days[place].items]
        if place == 2:
            first = 1  # a sheet of its own
        pages.append(PageSpec(kind, title, blocks_of(items, lang, first=first)))
        first += len(items)
    lesson = LessonId(f"strip-{strip.skill.id}")
    parts = tuple(id_parts) or (child.name, lesson)
    sheets = (
        SheetSpec(sheet_id(*parts, 0), lesson, child.name, tuple(pages[:2])),
        SheetSpec(sheet_id(*parts, 1), lesson, child.name, tuple(pages[2:])),
    )
    return print_loose(sheets, child.look, guide=lambda printed: _guide(strip, child, printed))


def _laid(item: Item) -> Item:
    """The item of the first day beside the number to lay, where blocks can show it."""
    top = item.numbers.get("a")
    if item.figure is not None or top is None or not 10 < top < 100 or not isinstance(item.prompt, Row):
        return item
    return replace(item, figure=Figure("base-ten", {"t": top // 10, "o": top % 10}))


def _guide(strip: Strip, child: Child, sheets: Sequence[SheetSpec]) -> GuideSheet:
    days = [
        GuideSection(day.title, minutes, (GuideLine("do", day.does),), core=place == 0)
        for place, (day, minutes) in enumerate(zip(strip.days, MINUTES, strict=True))
    ]
    show = GuideSection(
        "Show",
        None,
        (GuideLine("say", strip.say), GuideLine("ask", strip.ask), GuideLine("answer", strip.answer)),
    )
    end = GuideSection("What ends it", None, (GuideLine("", strip.ends), GuideLine("if-instead", strip.otherwise)))
    under = f" It rests on “{strip.goes_to.title}”." if strip.goes_to else ""
    return GuideSheet(
        lesson=sheets[0].lesson,
        title=strip.skill.title,
        under_title=f"{child.name} · three short days",
        facts=(("Minutes", "about ten a day"), ("Watch", strip.watch + under)),
        sections=(show, *days, end),
        short="",
        bare="",
        answers=tuple(
            (page.title, tuple(_answer(one, child.look.lang) for block in page.blocks for one in block.items))
            for sheet in sheets
            for page in sheet.pages
        ),
    )


def _answer(placed: Placed, lang: str) -> str:
    return f"{placed.n}: {answer_words(placed.item, lang)}"
