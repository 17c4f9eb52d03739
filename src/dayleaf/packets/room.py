"""About how much room items take on a side, so that a back side is chosen to fit before it is set.

An estimate in millimetres; `sheets` measures exactly and says so when a side is too full after all.
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from dayleaf.figures.draw import draw
from dayleaf.items.model import Column, Figure, Gap, Match, Row, Sort, Story, Word
from dayleaf.sheets.cells import WITHOUT_ROOM, figure_data
from dayleaf.sheets.geometry import MARGIN, PAPER
from dayleaf.wording.pictures import figure_texts

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from dayleaf.items.model import Item

SIDE = 212.0
"""Height of a side between its head and its foot on the lower of our papers (Letter)."""
NARROWEST = min(width for width, _ in PAPER.values()) - 2 * MARGIN
"""Width between the margins of the narrower of our papers (A4)."""
HALF = 80.0
"""Width of half a side: what is wider stands alone in its row."""
INSTRUCTION, ROW, COLUMN, STORY, OPTION = 9.0, 20.0, 62.0, 80.0, 13.0
LINE = 17.0
"""A box with words behind it."""
BOX, TICK, BETWEEN = 14.0, 8.0, 3.0
"""Lines of things to match or to sort, and the white between them."""
DRAWING = 45.0
"""A frame to draw in, with what a grown-up ticks below it."""
NARROW = 42.0
"""Options stand beside a picture up to this width, below a wider one."""


def height_of(item: Item, lang: str) -> float:
    """About how high an item stands, its instruction included."""
    height = INSTRUCTION
    if isinstance(item.prompt, Story):
        return height + STORY
    if isinstance(item.prompt, Column):
        height += COLUMN
    elif isinstance(item.prompt, Match):
        return height + _lines(item.prompt.left, lang, least=BOX)
    elif isinstance(item.prompt, Sort):
        return height + TICK + _lines(item.prompt.things, lang, least=TICK)
    elif _is_list(item):
        return height + LINE * len(item.parts)
    else:
        height += ROW
    options = 0.0
    for part in item.parts:
        pictured = [_size(option.figure, lang)[1] for option in part.options if option.figure]
        options += sum(pictured) if pictured else OPTION * ((len(part.options) + 1) // 2)
    if item.figure is None or item.figure.kind == "none":
        return height + options
    wide, high = _size(item.figure, lang)
    return height + (
        max(high, OPTION * sum(len(part.options) for part in item.parts)) if wide <= NARROW else high + options
    )


def _is_list(item: Item) -> bool:
    """Whether words stand under each other, each behind its box: steps to put in order."""
    tokens = item.prompt.tokens if isinstance(item.prompt, Row) else ()
    boxes = sum(isinstance(one, Gap) and isinstance(word, Word) for one, word in pairwise(tokens))
    return boxes > 1 and boxes == len(item.parts)


def _lines(things: Sequence[Row | Figure], lang: str, *, least: float) -> float:
    """Things under each other, each at least as high as its box."""
    heights = (_size(thing, lang)[1] if isinstance(thing, Figure) else 0.0 for thing in things)
    return sum(max(least, height) + BETWEEN for height in heights)


def is_wide(item: Item, lang: str) -> bool:
    """Whether an item needs the whole width."""
    if isinstance(item.prompt, Story) or _is_list(item):
        return True
    return item.figure is not None and item.figure.kind != "none" and _size(item.figure, lang)[0] > HALF


def height_beside(item: Item, lang: str) -> float:
    """About how much of a side's height an item takes where its like stand beside it: columns three, others two."""
    height = height_of(item, lang)
    if item.figure is None and item.format not in WITHOUT_ROOM and any(part.kind == "look" for part in item.parts):
        return height + DRAWING
    if is_wide(item, lang):
        return height
    return height / (3 if isinstance(item.prompt, Column) else 2)


def fits_on_paper(item: Item, lang: str) -> bool:
    """Whether the item's picture, drawn as small as it may be, fits between the margins of our narrowest paper."""
    if item.figure is None or item.figure.kind == "none":
        return True
    data = figure_data(item.figure, lang)
    return bool(data["w"] * data["least"] <= NARROWEST)


def height_together(items: Iterable[Item], lang: str) -> float:
    """About how high these items stand on a side, two of about the same height side by side."""
    heights = sorted((height_of(item, lang), is_wide(item, lang)) for item in items)
    total, left = 0.0, 0.0
    for height, wide in heights:
        if wide:
            total += height
        elif left:
            total, left = total + max(left, height), 0.0
        else:
            left = height
    return total + left


def _size(figure: Figure, lang: str) -> tuple[float, float]:
    drawing = draw(figure, title="", desc="", words=figure_texts(figure, lang))
    return drawing.width, min(drawing.height, 75.0)
