"""Items spread over as many sides as they need, so that nothing is left out of a test or a look back."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from dayleaf.items.model import Column
from dayleaf.packets.pages import blocks_of
from dayleaf.packets.room import SIDE, height_of, is_wide
from dayleaf.sheets.cells import WITHOUT_ROOM
from dayleaf.sheets.ids import sheet_id
from dayleaf.sheets.model import PageSpec

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from dayleaf.items.model import Item
    from dayleaf.sheets.model import PageKind, SheetSpec

KINDS: Final[tuple[PageKind, ...]] = ("front", "back")
DRAWING: Final = 45.0
"""Millimetres of a frame to draw in, with what a grown-up ticks below it."""
FULL_ENOUGH: Final = 0.7
"""From this share of a side on, the next group begins a new one rather than be parted."""


def height_beside(item: Item, lang: str) -> float:
    """About how much of a side's height an item takes where its like stand beside it: columns three, others two."""
    height = height_of(item, lang)
    if item.figure is None and item.format not in WITHOUT_ROOM and any(part.kind == "look" for part in item.parts):
        height += DRAWING
    if is_wide(item, lang):
        return height
    return height / (3 if isinstance(item.prompt, Column) else 2)


def packed(groups: Iterable[Sequence[Item]], lang: str, *, taken: float = 0.0) -> list[list[Item]]:
    """The groups on sides in their order; a group is parted only where much of a side would stay empty.

    `taken` are the millimetres that something else takes on the first side. Sides may come out too full by a little:
    `spread_on` moves on what the typesetter has no room for.
    """
    sides: list[list[Item]] = [[]]
    used = taken
    for group in groups:
        whole = sum(height_beside(item, lang) for item in group)
        if used + whole > SIDE and used > FULL_ENOUGH * SIDE:
            sides.append([])
            used = 0.0
        for item in group:
            height = height_beside(item, lang)
            if used + height > SIDE and sides[-1]:
                sides.append([])
                used = 0.0
            sides[-1].append(item)
            used += height
    return sides


def on_sheets(
    sides: Sequence[Sequence[Item]], titles: Sequence[str], lang: str, *, topics: Sequence[str] = ()
) -> tuple[tuple[PageSpec, ...], ...]:
    """The sides as sheets of two, numbers running on through all of them. `titles` go on to further sides.

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

    A side whose room is not known gives one item away. A new side is begun where the last one is too full.
    """
    pages = [page for sheet in sheets for page in sheet.pages]
    sides: list[list[Item]] = []
    waiting: list[Item] = []
    for number, page in enumerate(pages, start=1):
        items = [placed.item for block in page.blocks for placed in block.items]
        keep = len(items)
        if number in room:
            keep = max(1, min(room[number] or len(items) - 1, len(items) - 1))
        sides.append([*waiting, *items[:keep]])
        waiting = items[keep:]
    if waiting:
        sides.append(waiting)
    titles = [page.title for page in pages]
    spread = on_sheets(sides, titles, lang, topics=pages[0].topics)
    last = sheets[-1]
    ids = [*(sheet.id for sheet in sheets), *(sheet_id(last.id, "more", n) for n in range(len(spread)))]
    return tuple(replace(last, id=name, pages=pages_) for name, pages_ in zip(ids, spread, strict=False))
