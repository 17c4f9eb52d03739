"""Layouts in which several problems of one skill stand together: things to match, things to sort."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.items.paired import (
    facts,
    families,
    groups,
    large_places,
    measures,
    money,
    named,
    places,
    shapes,
    shares,
    sorting,
    times,
)

if TYPE_CHECKING:
    from dayleaf.items.rule import SkillRule

RULES: tuple[SkillRule, ...] = tuple(
    rule
    for module in (
        facts,
        groups,
        places,
        large_places,
        times,
        money,
        measures,
        shares,
        named,
        sorting,
        shapes,
        families,
    )
    for rule in module.RULES
)
