"""Numbers of three and four digits and their other faces to match: parts, tens, and what a digit is worth."""

from __future__ import annotations

from itertools import permutations
from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, SkillId
from dayleaf.items.model import Row, Word
from dayleaf.items.paired.partners import Sides, rules_for
from dayleaf.items.steps import step
from dayleaf.items.ways.large_numbers import digit_sum, one_place_off, parts

if TYPE_CHECKING:
    from collections.abc import Iterator

    from dayleaf.items.model import Step
    from dayleaf.items.rule import Numbers, SkillRule


def _n(numbers: Numbers) -> int:
    return numbers["n"]


def _numeral(numbers: Numbers) -> Row:
    return Row((numbers["n"],))


def _is(numbers: Numbers) -> Step:
    return step("numeral-is", numbers["n"])


def _hard(numbers: Numbers) -> float:
    """Zeros make a number harder to take apart (common practice, no source)."""
    n = str(numbers["n"])
    return min(1.0, 0.2 + 0.1 * (len(n) - 3) + 0.2 * ("0" in n) + 0.05 * (int(n[0])))


def _turned(numbers: Numbers) -> Iterator[int]:
    """The same digits in other orders, the first digit never 0."""
    text = str(numbers["n"])
    for order in permutations(text):
        if order[0] != "0" and "".join(order) != text:
            yield int("".join(order))


def _worths(numbers: Numbers) -> list[int]:
    """What the digits are worth, zeros left out; in every other number the smallest comes first."""
    worths = [part for part in parts(numbers["n"]) if part]
    return worths if numbers["n"] % 2 else worths[::-1]


def _added(numbers: Numbers) -> Row:
    first, *others = _worths(numbers)
    return Row((first, *(token for other in others for token in ("+", other))))


def _asked(n: int) -> tuple[int, int]:
    """A digit that is neither zero nor the ones, and what it is worth."""
    worths = [part for part in parts(n)[:-1] if part]
    worth = worths[n % len(worths)]
    return int(str(worth)[0]), worth


def _worth(numbers: Numbers) -> int:
    return _asked(numbers["n"])[1]


VALUES = Sides(
    "n=100..999 | len(set(str(n)))==3",
    value=_worth,
    left=lambda numbers: Row((_asked(numbers["n"])[0], Word("in"), numbers["n"])),
    right=lambda numbers: Row((_worth(numbers),)),
    step=lambda numbers: step("digit-is-worth", *_asked(numbers["n"])),
    hard=_hard,
    ways={ErrorWayId("place-off-by-one"): lambda numbers: one_place_off(_worth(numbers))},
)
"""4 in 462, and 400."""


def _expanded(rule: str) -> Sides:
    """300 + 60 + 4, and 364."""
    return Sides(
        rule,
        value=_n,
        left=_added,
        right=_numeral,
        step=_is,
        hard=_hard,
        ways={ErrorWayId("digits-added"): lambda numbers: digit_sum(numbers["n"])},
        near=_turned,
    )


def _tens_only(numbers: Numbers) -> Row:
    tens, ones = divmod(numbers["n"], 10)
    return Row((tens, Word("tens", tens), ones, Word("ones", ones)))


TENS = Sides(
    "n=110..999 |",
    value=_n,
    left=_tens_only,
    right=_numeral,
    step=lambda numbers: step("hundreds-as-tens", numbers["n"] // 100, numbers["n"] // 100 * 10),
    hard=_hard,
    ways={},
    near=_turned,
)
"""36 tens 5 ones, and 365."""

SIDES: dict[SkillId, Sides] = {
    SkillId("pv-3digit-digit-value"): VALUES,
    SkillId("pv-3digit-expanded"): _expanded("n=100..999 |"),
    SkillId("pv-3digit-regroup-names"): TENS,
    SkillId("pv-4digit-value-expanded"): _expanded("n=1000..9999 | len(set(str(n)))==4"),
}
"""The two sides of every skill here; a test holds their rules against the skills' files."""

RULES: tuple[SkillRule, ...] = rules_for(SIDES)
