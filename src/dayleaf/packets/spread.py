"""Items spread over as many sides as they need, so that nothing is left out of a test or a look back."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from dayleaf.packets.pages import blocks_of
from dayleaf.packets.room import SIDE, height_beside
from dayleaf.sheets.ids import sheet_id
from dayleaf.sheets.model import PageSpec

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from dayleaf.items.model import Item
    from dayleaf.sheets.model import PageKind, SheetSpec

KINDS: Final[tuple[PageKind, ...]] = ("front", "back")
OPTIMISTIC: Final = 1.15
"""Estimates run high; what does not fit after all moves on."""
FULL_ENOUGH: Final = 0.7
"""From this share of a side on, the next group begins a new one rather than be parted."""


def packed(groups: Iterable[Sequence[Item]], lang: str, *, taken: float = 0.0) -> list[list[Item]]:
    """The groups on sides in their order; a group is parted only where much of a side would stay empty.

    `taken` are the millimetres that something else takes on the first side. Sides may come out too full by a little:
    `spread_on` moves on what the typesetter has no room for.
    """
    sides: list[list[Item]] = [[]]
    used = taken
    room = OPTIMISTIC * SIDE
    for group in groups:
        whole = sum(height_beside(item, lang) for item in group)
        if used + whole > room and used > FULL_ENOUGH * room:
            sides.append([])
            used = 0.0
        for item in group:
            height = height_beside(item, lang)
            if used + height > room and sides[-1]:
                sides.append([])
                used = 0.0
            sides[-1].append(item)
            used += height
    return sides


def on_sheets(
    sides: Sequence[Sequence[Item]], titles: Sequence[str], lang: str, *, topics: Sequence[str] = ()
) -> tuple[tuple[PageSpec, ...], ...]:
    """The sides as sheets of two, numbers running on through all of them; the last title holds for further sides.

    The first side shows the `topics`, if there are any.
    """
    pages: list[PageSpec] = []
    first = 1
    for index, items in enumerate(sides):
        title = titles[min(index, len(titles) - 1)]
        here = tuple(topics) if index == 0 else ()
        pages.append(PageSpec(KINDS[index % 2], title, blocks_of(items, lang, first=first), here))
        first += len(items)
    return tuple(tuple(pages[at : at + 2]) for at in range(0, len(pages), 2))


def spread_on(sheets: Sequence[SheetSpec], room: Mapping[int, int], lang: str) -> tuple[SheetSpec, ...]:
    """The same items where some sides (counted from 1) have room for fewer: the others move on to the next side.

    A side whose room is not known gives one item away. A new side of the same title is begun where the next one has
    another; a last side with a title of its own gives away for good what it has no room for.
    """
    pages = [page for sheet in sheets for page in sheet.pages]
    sides: list[list[Item]] = []
    titles: list[str] = []
    waiting: list[Item] = []
    for number, page in enumerate(pages, start=1):
        if waiting and page.title != titles[-1]:
            sides.append(waiting)
            titles.append(titles[-1])
            waiting = []
        items = [placed.item for block in page.blocks for placed in block.items]
        keep = len(items)
        if number in room:
            keep = max(1, min(room[number] or len(items) - 1, len(items) - 1))
        sides.append([*waiting, *items[:keep]])
        titles.append(page.title)
        waiting = items[keep:]
    if waiting and not _is_filler(titles):
        sides.append(waiting)
        titles.append(titles[-1])
    return _again(sheets, sides, titles, lang)


def without_lonely_filler(sheets: Sequence[SheetSpec]) -> tuple[SheetSpec, ...]:
    """The sheets without a last side that only fills an empty back, where it would need a sheet for itself."""
    titles = [page.title for sheet in sheets for page in sheet.pages]
    return tuple(sheets[:-1]) if _is_filler(titles) and len(titles) % 2 else tuple(sheets)


def _is_filler(titles: Sequence[str]) -> bool:
    """Whether the last side has a title of its own: the page to stretch behind a look back."""
    return len(titles) > 1 and titles.count(titles[-1]) == 1


def _again(
    sheets: Sequence[SheetSpec], sides: Sequence[Sequence[Item]], titles: Sequence[str], lang: str
) -> tuple[SheetSpec, ...]:
    spread = on_sheets(sides, titles, lang, topics=sheets[0].pages[0].topics)
    last = sheets[-1]
    ids = [*(sheet.id for sheet in sheets), *(sheet_id(last.id, "more", n) for n in range(len(spread)))]
    return tuple(replace(last, id=name, pages=new) for name, new in zip(ids, spread, strict=False))
