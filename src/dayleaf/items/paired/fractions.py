"""Shares to match: the hatched part of a shape and how it is written, and two names for the same share."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import SkillId
from dayleaf.items.model import Figure, Row, Step, Word
from dayleaf.items.paired.partners import Sides, rules_for
from dayleaf.items.pictured.shares import hatched_shape

if TYPE_CHECKING:
    from collections.abc import Callable

    from dayleaf.items.rule import Numbers, SkillRule

    Share = Callable[[Numbers], tuple[int, int]]

MANY = 24
"""A number that 2, 3, 4, 6 and 8 divide: shares told in such parts are whole numbers."""


def _hatched(rule: str, share: Share, *, pairs: int) -> Sides:
    """Three of four equal parts hatched, and 3/4."""

    def written(numbers: Numbers) -> Row:
        k, n = share(numbers)
        return Row((k, "/", n))

    def drawn(numbers: Numbers) -> Figure:
        k, n = share(numbers)
        return hatched_shape(numbers, n=n, k=k)

    def value(numbers: Numbers) -> int:
        k, n = share(numbers)
        return 10 * n + k

    def why(numbers: Numbers) -> Step:
        k, n = share(numbers)
        return Step("top-and-bottom", {"k": k, "n": n})

    return Sides(
        rule,
        value=value,
        left=drawn,
        right=written,
        step=why,
        hard=lambda numbers: 0.1 * sum(share(numbers)),
        ways={},
        pairs=pairs,
    )


_SHARES = {2: "halves", 3: "thirds", 4: "fourths"}

PARTS = Sides(
    "n=2..4 k=1..4 s=0..2 | k<=n",
    value=lambda numbers: numbers["n"],
    left=lambda numbers: hatched_shape(numbers, n=numbers["n"], k=numbers["k"]),
    right=lambda numbers: Row((Word(_SHARES[numbers["n"]]),)),
    step=lambda numbers: Step("equal-parts", {"n": numbers["n"]}),
    hard=lambda numbers: 0.1 * numbers["n"] + 0.1 * numbers["s"],
    ways={},
    pairs=3,
)
"""A circle in three equal parts, and thirds."""


def _same(numbers: Numbers) -> Row:
    return Row((numbers["k"] * numbers["m"], "/", numbers["b"] * numbers["m"]))


EQUAL = Sides(
    "k=1..3 b=2..4 m=2..4 | k<b and b*m<=8",
    value=lambda numbers: MANY * numbers["k"] // numbers["b"],
    left=lambda numbers: Row((numbers["k"], "/", numbers["b"])),
    right=_same,
    step=lambda numbers: Step(
        "each-part-cut", {"m": numbers["m"], "k": numbers["k"], "result": numbers["k"] * numbers["m"]}
    ),
    hard=lambda numbers: 0.1 * numbers["m"] + 0.1 * numbers["b"],
    ways={},
)
"""1/2, and 3/6."""

SIDES: dict[SkillId, Sides] = {
    SkillId("frac-halves-thirds-fourths"): PARTS,
    SkillId("frac-unit-notation"): _hatched("n=2..4 s=0..2 |", lambda numbers: (1, numbers["n"]), pairs=3),
    SkillId("frac-nonunit"): _hatched(
        "n=3..4 k=2..3 s=0..2 | k<n", lambda numbers: (numbers["k"], numbers["n"]), pairs=3
    ),
    SkillId("frac-whole-as-parts"): _hatched("n=2..4 |", lambda numbers: (numbers["n"], numbers["n"]), pairs=3),
    SkillId("frac-equivalent"): EQUAL,
}
"""The two sides of every skill here; a test holds their rules against the skills' files."""

RULES: tuple[SkillRule, ...] = rules_for(SIDES)
