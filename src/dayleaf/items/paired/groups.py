"""Equal groups to match: facts of × and ÷, the same number added again."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import SkillId
from dayleaf.items.groups import GroupFact, ways_of_fact
from dayleaf.items.model import Row
from dayleaf.items.numbers import equal_groups, sharing, times_facts
from dayleaf.items.paired.partners import Sides, rules_for
from dayleaf.items.steps import step

if TYPE_CHECKING:
    from dayleaf.items.model import Step
    from dayleaf.items.rule import Numbers, SkillRule


def _fact_and_result(rule: str, kind: GroupFact) -> Sides:
    """3 × 6 and 18, or 30 ÷ 5 and 6."""

    def value(numbers: Numbers) -> int:
        return kind.result(*kind.read(numbers))

    def left(numbers: Numbers) -> Row:
        a, b = kind.read(numbers)
        return Row((a, kind.sign, b))

    def why(numbers: Numbers) -> Step:
        a, b = kind.read(numbers)
        return step("times-is" if kind.sign == "×" else "divide-is", a, b, kind.result(a, b))

    return Sides(
        rule,
        value=value,
        left=left,
        right=lambda numbers: Row((value(numbers),)),
        step=why,
        hard=lambda numbers: kind.hard(*kind.read(numbers)),
        ways=ways_of_fact(kind),
    )


def _product(numbers: Numbers) -> int:
    return numbers["a"] * numbers["b"]


ADDED = Sides(
    "a=2..5 b=1..10 |",
    value=_product,
    left=lambda numbers: Row((numbers["b"], *("+", numbers["b"]) * (numbers["a"] - 1))),
    right=lambda numbers: Row((_product(numbers),)),
    step=lambda numbers: step("count-by", numbers["b"], numbers["a"], _product(numbers)),
    hard=lambda numbers: min(1.0, _product(numbers) / 50),
    ways={
        equal_groups.ADDEND_SHORT: lambda numbers: (numbers["a"] - 1) * numbers["b"],
        equal_groups.GROUP_COUNT: lambda numbers: numbers["a"] + numbers["b"],
    },
)
"""8 + 8 + 8 + 8, and 32."""

SIDES: dict[SkillId, Sides] = {
    SkillId("mul-repeated-addition"): ADDED,
    SkillId("mul-sentence"): _fact_and_result("a=1..5 b=1..10 | not (a==2 and b==2)", equal_groups.SENTENCE),
    SkillId("div-sentence"): _fact_and_result(
        "a=2..10 b=1..10 | (a<=5 and not (a==2 and b==2)) or (a==10 and b<=5)", sharing.SENTENCE
    ),
    SkillId("mul-by-2"): _fact_and_result("a=0..10 | a!=2", times_facts.BY_TWO),
    SkillId("mul-by-3"): _fact_and_result("a=0..10 |", times_facts.BY_THREE),
    SkillId("mul-by-4"): _fact_and_result("a=0..10 |", times_facts.BY_FOUR),
    SkillId("mul-by-5"): _fact_and_result("a=0..10 |", times_facts.BY_FIVE),
    SkillId("mul-by-10"): _fact_and_result("a=0..10 |", times_facts.BY_TEN),
    SkillId("div-by-2"): _fact_and_result("a=1..10 | a!=2", sharing.BY_TWO),
    SkillId("div-by-5"): _fact_and_result("a=1..10 |", sharing.BY_FIVE),
    SkillId("div-by-10"): _fact_and_result("a=1..10 |", sharing.BY_TEN),
}
"""The two sides of every skill here; a test holds their rules against the skills' files."""

RULES: tuple[SkillRule, ...] = rules_for(SIDES)
