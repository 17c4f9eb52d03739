"""How many items of each kind a side gets: one after another, as long as there may be room."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING, Final

from dayleaf.core.seeds import seed_from
from dayleaf.items.draw import draw_items
from dayleaf.packets.room import SIDE, height_beside

if TYPE_CHECKING:
    from collections.abc import Iterable

    from dayleaf.core.ids import FormatId, SkillId
    from dayleaf.packets.pages import Maker

Kind = tuple["SkillId", "FormatId"]

FULL: Final = 1.25 * SIDE
"""Millimetres of items by estimate. Estimates run high; what does not fit after all is measured and taken off."""


def fill(maker: Maker, kinds: Iterable[Kind], *, most: int) -> tuple[tuple[Kind, int], ...]:
    """So many items of each kind, in the order in which kinds first come.

    Each naming of a kind asks for one item more of it. A kind that has no room left, or has as many as its format
    puts on a side, is passed over; a skill's first item has its place before any room is counted. `most` are the
    items of the whole side.
    """
    heights: dict[Kind, float] = {}
    counts: Counter[Kind] = Counter()
    used = 0.0
    for kind in kinds:
        skill, name = kind
        if kind not in heights:
            heights[kind] = _height(maker, kind)
        first = all(other != skill for other, _ in counts)
        if not first and (
            counts.total() >= most
            or used + heights[kind] > FULL
            or counts[kind] >= maker.course.formats[name].per_side[1]
        ):
            continue
        counts[kind] += 1
        used += heights[kind]
    return tuple(counts.items())


def _height(maker: Maker, kind: Kind) -> float:
    """The height of one such item; others of its kind are about as high."""
    skill, name = kind
    some = draw_items(maker.course.skills[skill], n=1, seed=seed_from(maker.seed, skill, name), format=name)
    return height_beside(some[0], maker.lang)
