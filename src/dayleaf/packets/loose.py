"""Sheets that belong to no day: set, thinned where a side is too full, and written out with guide and key."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from dayleaf.core.errors import DayleafError
from dayleaf.packets.pages import renumbered
from dayleaf.sheets.typeset import PageTooFull, typeset_guide, typeset_key, typeset_pages

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from dayleaf.sheets.model import GuideSheet, Look, PageSpec, SheetSpec, Typeset

TRIES = 12


class SideTooFull(DayleafError):
    """A side stays too full even with one item on it."""

    def __init__(self, title: str) -> None:
        super().__init__(f"“{title}” is too full even with one item on it.")


@dataclass(frozen=True, slots=True)
class Loose:
    """The guide for the parent, the child's sides with their map, the key, and the sheets as they came to fit."""

    guide: bytes
    pages: Typeset
    key: bytes
    sheets: tuple[SheetSpec, ...]


def print_loose(
    sheets: Sequence[SheetSpec], look: Look, *, guide: Callable[[Sequence[SheetSpec]], GuideSheet]
) -> Loose:
    """Set sheets, key and guide. A side that is too full loses its last item and is set again.

    `guide` composes the parent's page from the sheets as they came to fit.

    Raises:
        SideTooFull: one item alone does not fit on its side.
    """
    sheets = tuple(sheets)
    for _ in range(TRIES):
        try:
            pages = typeset_pages(sheets, look)
        except PageTooFull as full:
            sheets = _one_fewer(sheets, full.page)
        else:
            key = typeset_key(sheets, look)
            return Loose(typeset_guide(guide(sheets), look), pages, key, sheets)
    raise SideTooFull(sheets[0].pages[0].title)


def _one_fewer(sheets: Sequence[SheetSpec], side: int) -> tuple[SheetSpec, ...]:
    """The sheets without the last item of this side (counted from 1 over all sheets); numbers run on again."""
    seen = 0
    thinned = []
    for sheet in sheets:
        pages = []
        for page in sheet.pages:
            seen += 1
            pages.append(_without_last(page) if seen == side else page)
        thinned.append(replace(sheet, pages=renumbered(pages)))
    return tuple(thinned)


def _without_last(page: PageSpec) -> PageSpec:
    if sum(len(block.items) for block in page.blocks) < 2:
        raise SideTooFull(page.title)
    last = page.blocks[-1]
    kept = (replace(last, items=last.items[:-1]),) if len(last.items) > 1 else ()
    return replace(page, blocks=(*page.blocks[:-1], *kept))
