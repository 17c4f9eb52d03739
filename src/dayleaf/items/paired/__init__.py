"""Layouts in which several problems of one skill stand together: things to match, things to sort."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.items.paired import (
    clocks,
    facts,
    fractions,
    groups,
    large_places,
    measures,
    money,
    names,
    places,
    shapes,
    sorting,
)

if TYPE_CHECKING:
    from dayleaf.items.rule import SkillRule

RULES: tuple[SkillRule, ...] = tuple(
    rule
    for module in (facts, groups, places, large_places, clocks, money, fractions, measures, names, sorting, shapes)
    for rule in module.RULES
)
