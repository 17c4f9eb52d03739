"""Stories about equal groups: the cells of the table of multiplication and division situations.

Source of the situations: CCSS-M (2010), glossary Table 2, as noted in CHECKS A.6: equal groups and arrays, each
with its product, its group size (sharing) and its number of groups (measuring) unknown. In 3 × 6 the first
factor is the number of groups. Stories with some left over and stories of a share of a set stand beside them.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.seeds import seed_from
from dayleaf.items.model import Story
from dayleaf.items.stories import UNKNOWN

if TYPE_CHECKING:
    from collections.abc import Mapping

GROUP_EQUATIONS: Mapping[str, tuple[str, str, str]] = {
    "groups-product": ("groups", "size", UNKNOWN),
    "groups-size": ("groups", UNKNOWN, "total"),
    "groups-number": (UNKNOWN, "size", "total"),
    "array-product": ("rows", "columns", UNKNOWN),
    "array-columns": ("rows", UNKNOWN, "total"),
    "array-rows": (UNKNOWN, "columns", "total"),
}
"""The equation that tells the same as the story, first factor × second factor = product."""

GROUP_CELLS: Mapping[str, tuple[str, ...]] = {
    "groups-product": ("groups", "size"),
    "groups-size": ("total", "groups"),  # sharing
    "groups-number": ("total", "size"),  # measuring
    "array-product": ("rows", "columns"),
    "array-columns": ("total", "rows"),
    "array-rows": ("total", "columns"),
    "left-each": ("total", "groups"),  # shared with some left over: how many for each?
    "left-over": ("total", "groups"),  # shared with some left over: how many are left?
    "share-half": ("total",),  # half of a set
    "share-third": ("total",),
    "share-fourth": ("total",),
}
"""The numbers that each situation tells, in order."""

_NOUNS = ("apple", "bean", "brick", "button", "carrot", "radish", "seed", "shell", "stick", "stone")
_IN_ROWS = ("bean", "brick", "button", "carrot", "radish", "seed", "shell", "stone")
_PEOPLE = ("child", "brother", "gran", "lock-keeper", "mother", "father")


def group_story(cell: str, values: Mapping[str, int]) -> Story:
    """A story of one situation that tells these numbers; who and what it is about follows from them."""
    pick = seed_from("group-story", cell, *values.values())
    nouns = _IN_ROWS if cell.startswith("array") else _NOUNS
    return Story(cell, (_PEOPLE[pick % len(_PEOPLE)],), nouns[pick // 64 % len(nouns)], dict(values))


def group_solution(cell: str, values: Mapping[str, int]) -> int:
    """The number that a story of `GROUP_EQUATIONS` asks for."""
    first, second, product = GROUP_EQUATIONS[cell]
    if product == UNKNOWN:
        return values[first] * values[second]
    return values[product] // values[second if first == UNKNOWN else first]
