"""Layouts in which several problems of one skill stand together: things to match, things to sort."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.items.paired import facts, groups, places, shapes, sorting

if TYPE_CHECKING:
    from dayleaf.items.rule import SkillRule

RULES: tuple[SkillRule, ...] = tuple(
    rule
    for module in (facts, groups, places, sorting, shapes)
    for rule in module.RULES
)
