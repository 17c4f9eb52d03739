"""Numbers of three and four digits to match: parts and whole, blocks, tens in all, names, the worth of a digit."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, SkillId
from dayleaf.items.model import Figure, Row, Word
from dayleaf.items.paired.partners import Sides, rules_for
from dayleaf.items.paired.places import VALUES, asked_digit, numeral, same_digits, tens_and_ones, the_number
from dayleaf.items.steps import step
from dayleaf.items.ways.large_numbers import digits, one_place_off, parts

if TYPE_CHECKING:
    from dayleaf.items.model import Step, Token
    from dayleaf.items.rule import Numbers, SkillRule


def _written(numbers: Numbers) -> Step:
    return step("numeral-is", numbers["n"])


def _zeros_harder(numbers: Numbers) -> float:
    n = numbers["n"]
    return min(1.0, 0.2 + 0.2 * str(n).count("0") + n / 20_000 + 0.05 * (n // 100 % 10))


def _parts_mixed(numbers: Numbers) -> Row:
    """The parts in an order that follows from the number; parts of zero are left out."""
    n = numbers["n"]
    told = [part for part in parts(n) if part]
    turn = n % len(told)
    tokens: list[Token] = []
    for part in told[turn:] + told[:turn]:
        tokens += ["+", part]
    return Row(tuple(tokens[1:]))


def _tens_in_all(numbers: Numbers) -> Row:
    return tens_and_ones(*divmod(numbers["n"], 10))


def _blocks(numbers: Numbers) -> Figure:
    hundreds, tens, ones = digits(numbers["n"])
    return Figure("base-ten", {"h": hundreds, "t": tens, "o": ones, "question": 1})


EXPANDED = Sides(
    "n=100..999 | n%100!=0",
    value=the_number,
    left=_parts_mixed,
    right=numeral,
    step=lambda numbers: step("together-are", numbers["n"]),
    hard=_zeros_harder,
    ways={},
    near=same_digits,
    part=True,
)
"""40 + 700 + 2 and 742; 700 alone would stand on both sides."""

MODEL = Sides(
    "n=100..999 | n//100<=3 and n%100!=0",
    value=the_number,
    left=_blocks,
    right=numeral,
    step=_written,
    hard=_zeros_harder,
    ways={},
    pairs=3,
    near=same_digits,
    part=True,
)
"""Two hundreds, three tens and four ones in blocks, and 234; at most three hundreds, which one line holds."""

TENS_IN_ALL = Sides(
    "n=110..999 |",
    value=the_number,
    left=_tens_in_all,
    right=numeral,
    step=lambda numbers: step("ten-and-number", *divmod(numbers["n"], 10), numbers["n"]),
    hard=_zeros_harder,
    ways={},
    near=same_digits,
)
"""24 tens 3 ones and 243."""

NAMES = Sides(
    "n=1000..9999 | n//100%10==0 and n%100!=0 or n%100==0 and n%1000!=0",
    value=the_number,
    left=lambda numbers: Row((Word("number-name", numbers["n"]),)),
    right=numeral,
    step=_written,
    hard=_zeros_harder,
    ways={},
    near=same_digits,
    part=True,
)
"""Three thousand fifty-two and 3052: names with a place that is not said, which are the short ones as well."""

WORTHS = Sides(
    "n=1000..9999 | len(set(str(n)))==4",
    value=lambda numbers: asked_digit(numbers["n"])[1],
    left=lambda numbers: Row((asked_digit(numbers["n"])[0], Word("in"), numbers["n"])),
    right=VALUES.right,
    step=VALUES.step,
    hard=_zeros_harder,
    ways={ErrorWayId("place-off-by-one"): lambda numbers: one_place_off(asked_digit(numbers["n"])[1])},
)
"""6 in 6214, and 6000."""

SIDES: dict[SkillId, Sides] = {
    SkillId("pv-3digit-expanded"): EXPANDED,
    SkillId("pv-3digit-model"): MODEL,
    SkillId("pv-3digit-regroup-names"): TENS_IN_ALL,
    SkillId("pv-4digit-model"): NAMES,
    SkillId("pv-4digit-value-expanded"): WORTHS,
}
"""The two sides of every skill here; a test holds their rules against the skills' files."""

RULES: tuple[SkillRule, ...] = rules_for(SIDES)
