"""Skills about numbers alone: counting, place value, facts, adding and taking away."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.items.numbers import (
    adding_hundreds,
    adding_tens,
    comparing,
    comparing_large,
    counting,
    counting_large,
    equal_groups,
    equations,
    facts,
    first_numbers,
    hundreds,
    mixed_hundreds,
    mixed_signs,
    pairs,
    place_value,
    sharing,
    taking_facts,
    taking_hundreds,
    taking_tens,
    times_facts,
)

if TYPE_CHECKING:
    from dayleaf.items.rule import SkillRule

RULES: tuple[SkillRule, ...] = (
    *counting.RULES,
    *pairs.RULES,
    *place_value.RULES,
    *comparing.RULES,
    *facts.RULES,
    *taking_facts.RULES,
    *equations.RULES,
    *adding_tens.RULES,
    *taking_tens.RULES,
    *mixed_signs.RULES,
    *adding_hundreds.RULES,
    *taking_hundreds.RULES,
    *mixed_hundreds.RULES,
    *first_numbers.RULES,
    *hundreds.RULES,
    *comparing_large.RULES,
    *counting_large.RULES,
    *equal_groups.RULES,
    *times_facts.RULES,
    *sharing.RULES,
)
