"""Skills about numbers alone: counting, place value, facts, adding and taking away."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.items.numbers import taking_tens

if TYPE_CHECKING:
    from dayleaf.items.rule import SkillRule

RULES: tuple[SkillRule, ...] = (*taking_tens.RULES,)
