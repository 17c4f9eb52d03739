"""Pictures and their numbers to match: parts of a whole, equal fractions, rows of an array, tallies."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, SkillId
from dayleaf.core.seeds import seed_from
from dayleaf.items.model import Figure, Row, Step, Word
from dayleaf.items.paired.partners import Sides, rules_for
from dayleaf.items.pictured.graphs import by_ones, tally_steps
from dayleaf.items.pictured.shares import SHAPES
from dayleaf.items.steps import step

if TYPE_CHECKING:
    from collections.abc import Iterator

    from dayleaf.items.rule import Numbers, SkillRule

_WHOLES = {2: "halves", 3: "thirds", 4: "fourths"}
_COMMON = 24
"""A number that 2, 3, 4, 6 and 8 divide: every share here is so many of its parts."""


def _picture(numbers: Numbers, k: int) -> Figure:
    """A shape in n equal parts, k of them hatched; without a shape of its own, one that follows from n."""
    n = numbers["n"]
    shape = SHAPES[numbers.get("s", n % len(SHAPES))]
    seed = seed_from("hatched", shape, n, k) % 1000 + 1
    return Figure("fraction-shapes", {"shape": shape, "n": n, "k": k, "seed": seed, "question": 1})


def _share(numbers: Numbers) -> int:
    return 10 * numbers["n"] + numbers["k"]


def _other_shares(numbers: Numbers) -> Iterator[int]:
    """As many parts of other wholes, then more or fewer parts of the same."""
    n, k = numbers["n"], numbers["k"]
    yield from (10 * other + k for other in (4, 3, 2) if other != n)
    yield from (10 * n + other for other in (1, 2, 3) if other != k)


NAMED = Sides(
    "n=2..4 k=1..4 s=0..2 | k<=n",
    value=_share,
    left=lambda numbers: _picture(numbers, numbers["k"]),
    right=lambda numbers: Row((numbers["k"], Word(_WHOLES[numbers["n"]], numbers["k"]))),
    step=lambda numbers: Step("equal-parts", {"n": numbers["n"]}),
    hard=lambda numbers: 0.1 * numbers["n"] + 0.1 * numbers["k"],
    ways={
        ErrorWayId("cut-count-for-parts"): lambda numbers: 10 * (numbers["n"] - 1) + numbers["k"],
    },
    near=_other_shares,
)
"""A circle in three parts, two of them hatched, and 2 thirds; who names parts by their cuts sees halves."""


def _fraction(numbers: Numbers) -> Row:
    return Row((numbers.get("k", 1), "/", numbers["n"]))


MORE_PARTS = Sides(
    "n=3..4 k=2..3 s=0..2 | k<n",
    value=_share,
    left=lambda numbers: _picture(numbers, numbers["k"]),
    right=_fraction,
    step=lambda numbers: Step("parts-hatched", {"k": numbers["k"], "n": numbers["n"]}),
    hard=lambda numbers: 0.1 * numbers["n"] + 0.1 * numbers["k"],
    ways={},
    pairs=3,
)
"""A strip with three of four parts hatched, and 3/4; the rule has three such fractions."""

ONE_PART = Sides(
    "n=2..4 s=0..2 |",
    value=lambda numbers: numbers["n"],
    left=lambda numbers: _picture(numbers, 1),
    right=_fraction,
    step=lambda numbers: Step("parts-hatched", {"k": 1, "n": numbers["n"]}),
    hard=lambda numbers: 0.1 * numbers["n"],
    ways={ErrorWayId("part-to-part"): lambda numbers: numbers["n"] - 1},
    pairs=3,
)
"""A circle with one of four parts hatched, and 1/4."""

WHOLE = Sides(
    "n=2..4 |",
    value=lambda numbers: numbers["n"],
    left=lambda numbers: _picture(numbers, numbers["n"]),
    right=lambda numbers: Row((numbers["n"], "/", numbers["n"])),
    step=lambda numbers: Step("whole-is", {"n": numbers["n"]}),
    hard=lambda numbers: 0.1 * numbers["n"],
    ways={},
    pairs=3,
)
"""A whole in three parts, all hatched, and 3/3."""


def _worth(numbers: Numbers) -> int:
    return _COMMON * numbers["k"] // numbers["b"]


def _same_added(numbers: Numbers) -> int | None:
    """As much added above as below: 1/2 taken for 3/4."""
    more = numbers["b"] * (numbers["m"] - 1)
    top, bottom = numbers["k"] + more, numbers["b"] + more
    return None if _COMMON * top % bottom else _COMMON * top // bottom


EQUAL = Sides(
    "k=1..3 b=2..4 m=2..4 | k<b and b*m<=8",
    value=_worth,
    left=lambda numbers: Row((numbers["k"], "/", numbers["b"])),
    right=lambda numbers: Row((numbers["k"] * numbers["m"], "/", numbers["b"] * numbers["m"])),
    step=lambda numbers: Step(
        "each-part-cut", {"m": numbers["m"], "k": numbers["k"], "result": numbers["k"] * numbers["m"]}
    ),
    hard=lambda numbers: 0.1 * numbers["b"] * numbers["m"],
    ways={ErrorWayId("adds-same"): _same_added},
)
"""1/2 and 3/6."""

ARRAYS = Sides(
    "a=1..5 b=1..5 | not (a==2 and b==2)",
    value=lambda numbers: 10 * numbers["a"] + numbers["b"],
    left=lambda numbers: Figure("array-dots", {"r": numbers["a"], "c": numbers["b"], "question": 1}),
    right=lambda numbers: Row((numbers["a"], Word("rows-of-each", numbers["a"]), numbers["b"])),
    step=lambda numbers: step("rows-make", numbers["a"], numbers["b"], numbers["a"] * numbers["b"]),
    hard=lambda numbers: min(1.0, numbers["a"] * numbers["b"] / 25),
    ways={ErrorWayId("row-column-mixed"): lambda numbers: 10 * numbers["b"] + numbers["a"]},
)
"""An array of three rows and four columns, and 3 rows of 4; the turned array stands there, too."""

TALLIES = Sides(
    "n=1..25 |",
    value=lambda numbers: numbers["n"],
    left=lambda numbers: Figure("tally", {"counts": (numbers["n"],), "question": 1}),
    right=lambda numbers: Row((numbers["n"],)),
    step=lambda numbers: tally_steps(numbers["n"])[-1],
    hard=lambda numbers: min(1.0, 0.2 + 0.03 * numbers["n"]),
    ways={ErrorWayId("tally-by-ones"): lambda numbers: by_ones(numbers["n"])},
)
"""Two bundles and three marks, and 13."""

SIDES: dict[SkillId, Sides] = {
    SkillId("frac-halves-thirds-fourths"): NAMED,
    SkillId("frac-nonunit"): MORE_PARTS,
    SkillId("frac-unit-notation"): ONE_PART,
    SkillId("frac-whole-as-parts"): WHOLE,
    SkillId("frac-equivalent"): EQUAL,
    SkillId("mul-arrays"): ARRAYS,
    SkillId("data-tally-table"): TALLIES,
}
"""The two sides of every skill here; a test holds their rules against the skills' files."""

RULES: tuple[SkillRule, ...] = rules_for(SIDES)
