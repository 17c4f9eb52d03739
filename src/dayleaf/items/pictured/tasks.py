"""Everyday tasks whose steps have one order that works."""

from __future__ import annotations

from itertools import permutations
from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.items.model import Gap, Part, Row, Step, Word
from dayleaf.items.pictured.codes import TASKS
from dayleaf.items.rule import Made, SkillRule

if TYPE_CHECKING:
    from dayleaf.items.model import Token
    from dayleaf.items.rule import Numbers


def _order_steps(numbers: Numbers) -> Made:
    task = tuple(TASKS)[numbers["t"]]
    steps = TASKS[task]
    order = tuple(permutations(range(len(steps))))[numbers["p"]]
    tokens: list[Token] = []
    for i, place in enumerate(order):
        tokens += [Gap(str(i + 1)), Word(f"{task}.{steps[place]}")]
    return Made(
        Row(tuple(tokens)),
        tuple(Part(str(i + 1), "digits", str(place + 1), 1) for i, place in enumerate(order)),
        (Step("what-must-come-first"),),
        {ErrorWayId("order-not-important"): " ".join(str(i + 1) for i in range(len(steps)))},
        None,
        0.3 + 0.1 * sum(order[i] > order[i + 1] for i in range(len(order) - 1)),
    )


RULES: tuple[SkillRule, ...] = (SkillRule(SkillId("code-sequence-steps"), formats={FormatId("order"): _order_steps}),)
