"""Money to match: words and the sign."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import SkillId
from dayleaf.items.model import Row, Step, Word
from dayleaf.items.paired.partners import Sides, rules_for

if TYPE_CHECKING:
    from dayleaf.items.rule import SkillRule

SIGNS = Sides(
    "n=1..99 |",
    value=lambda numbers: numbers["n"],
    left=lambda numbers: Row((Word("number-name", numbers["n"]), Word("cent", numbers["n"]))),
    right=lambda numbers: Row((f"{numbers['n']}¢",)),
    step=lambda numbers: Step("cents-sign", {"n": numbers["n"]}),
    hard=lambda numbers: 0.1 + 0.2 * (numbers["n"] > 20),
    ways={},
)
"""Thirty-seven cents, and 37¢."""

SIDES: dict[SkillId, Sides] = {SkillId("money-symbols"): SIGNS}
"""The two sides of every skill here; a test holds their rules against the skills' files."""

RULES: tuple[SkillRule, ...] = rules_for(SIDES)
