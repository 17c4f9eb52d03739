"""Facts to 20 to match: a sum and what it comes to, a sum with a gap and the number for it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, SkillId
from dayleaf.items.model import Row
from dayleaf.items.numbers import facts, taking_facts
from dayleaf.items.paired.partners import Sides, rules_for
from dayleaf.items.steps import step
from dayleaf.items.two_numbers import ways_of

if TYPE_CHECKING:
    from dayleaf.items.model import Step, Token
    from dayleaf.items.rule import Numbers, SkillRule
    from dayleaf.items.two_numbers import TwoNumbers

GAP_SIGN = "□"
"""A place that is empty in a thing to match; the number for it stands at the other side."""


def _sum_and_result(rule: str, kind: TwoNumbers) -> Sides:
    """7 + 8 and 15."""

    def value(numbers: Numbers) -> int:
        return kind.result(*kind.read(numbers))

    def left(numbers: Numbers) -> Row:
        a, b = kind.read(numbers)
        return Row((a, kind.sign, b))

    def why(numbers: Numbers) -> Step:
        a, b = kind.read(numbers)
        return step("parts-and-whole", *((a, b, a + b) if kind.sign == "+" else (b, a - b, a)))

    return Sides(
        rule,
        value=value,
        left=left,
        right=lambda numbers: Row((value(numbers),)),
        step=why,
        hard=lambda numbers: kind.hard(*kind.read(numbers)),
        ways=ways_of(kind),
    )


PARTNERS = Sides(
    "a=1..9 |",
    value=lambda numbers: 10 - numbers["a"],
    left=lambda numbers: Row((numbers["a"], "+", GAP_SIGN, "=", 10)),
    right=lambda numbers: Row((10 - numbers["a"],)),
    step=lambda numbers: step("partner-of-ten", numbers["a"], 10 - numbers["a"]),
    hard=lambda numbers: 0.1 if numbers["a"] in {5, 9} else 0.1 * min(9, 11 - numbers["a"]),
    ways={ErrorWayId("off-by-one-partner"): lambda numbers: 11 - numbers["a"]},
)
"""7 + [ ] = 10 and 3."""


def _missing(numbers: Numbers) -> int:
    return (numbers["b"], numbers["a"], numbers["b"], numbers["a"] + numbers["b"])[numbers["k"]]


def _with_gap(numbers: Numbers) -> Row:
    a, b, c = numbers["a"], numbers["b"], numbers["a"] + numbers["b"]
    rows: tuple[tuple[Token, ...], ...] = (
        (a, "+", GAP_SIGN, "=", c),
        (GAP_SIGN, "+", b, "=", c),
        (c, "-", GAP_SIGN, "=", a),
        (GAP_SIGN, "-", b, "=", a),
    )
    return Row(rows[numbers["k"]])


def _sign_shown(numbers: Numbers) -> int | None:
    """The sign done on the two numbers seen: 6 + [ ] = 14 gives 20."""
    a, b, c, k = numbers["a"], numbers["b"], numbers["a"] + numbers["b"], numbers["k"]
    return (a + c, b + c, b, None)[k]


def _same_sign(numbers: Numbers) -> int | None:
    """Where the start is missing it is taken away again: [ ] - 5 = 9 gives 4."""
    return abs(numbers["a"] - numbers["b"]) if numbers["k"] == 3 else None


MISSING = Sides(
    "a=0..20 b=0..20 k=0..3 | a+b<=20",
    value=_missing,
    left=_with_gap,
    right=lambda numbers: Row((_missing(numbers),)),
    step=lambda numbers: step("parts-and-whole", numbers["a"], numbers["b"], numbers["a"] + numbers["b"]),
    hard=lambda numbers: min(1.0, (0.0, 0.1, 0.15, 0.3)[numbers["k"]] + (numbers["a"] + numbers["b"]) / 30),
    ways={ErrorWayId("does-the-sign-shown"): _sign_shown, ErrorWayId("start-missing-same-op"): _same_sign},
)

SIDES: dict[SkillId, Sides] = {
    SkillId("add-facts-within-10"): _sum_and_result("a=0..10 b=0..10 | a+b<=10", facts.WITHIN_10),
    SkillId("add-zero-turnaround"): _sum_and_result(
        "a=0..10 b=0..10 | a==0 or b==0 or (min(a,b)<=3 and abs(a-b)>=3)", facts.ZERO_TURN
    ),
    SkillId("add-doubles-to-20"): _sum_and_result("a=0..10 |", facts.DOUBLES),
    SkillId("add-near-doubles"): _sum_and_result(
        "a=2..9 b=2..9 | abs(a-b)==1 or (abs(a-b)==2 and a+b>10)", facts.NEAR_DOUBLES
    ),
    SkillId("add-facts-within-20-mixed"): _sum_and_result("a=0..9 b=0..9 | a<=b", facts.ALL_FACTS),
    SkillId("teen-ten-and-ones"): _sum_and_result("n=11..19 |", facts.TEN_AND_ONES),
    SkillId("partners-of-10"): PARTNERS,
    SkillId("sub-facts-within-10"): _sum_and_result("a=0..10 b=0..10 | b<=a", taking_facts.WITHIN_10),
    SkillId("sub-doubles-halves"): _sum_and_result("a=1..10 |", taking_facts.HALVES),
    SkillId("sub-facts-within-20-mixed"): _sum_and_result("a=0..18 b=0..9 | 0<=a-b<=9", taking_facts.ALL_FACTS),
    SkillId("missing-number-within-20"): MISSING,
}
"""The two sides of every skill here; a test holds their rules against the skills' files."""

RULES: tuple[SkillRule, ...] = rules_for(SIDES)
