"""Finished prints bound to one file in the order of use, each begun on the front of a piece of paper."""

from __future__ import annotations

from dataclasses import replace
from io import BytesIO
from typing import TYPE_CHECKING

import pikepdf

from dayleaf.sheets.press import packed

if TYPE_CHECKING:
    from collections.abc import Sequence

    from dayleaf.sheets.model import PageMap


def bound(parts: Sequence[bytes]) -> tuple[bytes, tuple[int, ...]]:
    """(one two-sided file, for each part how many pages stand before it).

    A part with an odd number of sides is followed by a blank side, so that no child's back is another's front. The
    tags of the single files are left out: the bound file is for the printer, the single ones for a screen.
    """
    before: list[int] = []
    with pikepdf.new() as whole:
        for number, part in enumerate(parts):
            before.append(len(whole.pages))
            with pikepdf.open(BytesIO(part)) as document:
                whole.pages.extend(document.pages)
                box = document.pages[-1].mediabox
                if len(document.pages) % 2 and number < len(parts) - 1:
                    size = (float(box[2]) - float(box[0]), float(box[3]) - float(box[1]))
                    whole.add_blank_page(page_size=size)
        for page in whole.pages:
            for tagged in ("/StructParents", "/Tabs"):
                if tagged in page:
                    del page[tagged]
        return packed(whole, two_sided=True), tuple(before)


def maps_bound(parts: Sequence[Sequence[PageMap]], before: Sequence[int]) -> tuple[PageMap, ...]:
    """The maps of the parts with their pages counted through the bound file."""
    return tuple(
        replace(page, pdf_page=page.pdf_page + shift)
        for pages, shift in zip(parts, before, strict=True)
        for page in pages
    )
