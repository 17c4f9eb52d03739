"""Numbers and their other faces to match: names, blocks, digits and their worth, tens and ones traded."""

from __future__ import annotations

from itertools import permutations
from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, SkillId
from dayleaf.items.model import Figure, Row, Word
from dayleaf.items.paired.partners import Sides, rules_for
from dayleaf.items.steps import step
from dayleaf.items.ways.large_numbers import one_place_off, parts
from dayleaf.items.ways.place_value import digits_swapped, teen_ty_mixed, ten_as_one, written_as_heard

if TYPE_CHECKING:
    from collections.abc import Iterator

    from dayleaf.items.model import Step
    from dayleaf.items.rule import Numbers, SkillRule


def the_number(numbers: Numbers) -> int:
    """The number that both sides show."""
    return numbers["n"]


def numeral(numbers: Numbers) -> Row:
    """It in digits."""
    return Row((numbers["n"],))


def _name(numbers: Numbers) -> Row:
    return Row((Word("number-name", numbers["n"]),))


def tens_and_ones(tens: int, ones: int) -> Row:
    """So many tens and so many ones, in words."""
    return Row((tens, Word("tens", tens), ones, Word("ones", ones)))


def _are(tens: int, ones: int) -> Step:
    return step("ten-and-number", tens, ones, 10 * tens + ones)


def _plain(numbers: Numbers) -> Step:
    return _are(*divmod(numbers["n"], 10))


def _size(numbers: Numbers) -> float:
    return min(1.0, numbers["n"] / 120)


def same_digits(numbers: Numbers) -> Iterator[int]:
    """Numbers of the same digits in another order, those with the same first digit first: 305 has 350, 503, 530."""
    told = str(numbers["n"])
    found = dict.fromkeys("".join(order) for order in permutations(told))
    for first_kept in (True, False):
        yield from (int(one) for one in found if one != told and (one[0] == told[0]) is first_kept)


NAMES = Sides(
    "n=0..120 |",
    value=the_number,
    left=_name,
    right=numeral,
    step=lambda numbers: step("numeral-is", numbers["n"]),
    hard=_size,
    ways={
        ErrorWayId("write-as-heard"): lambda numbers: written_as_heard(numbers["n"]),
        ErrorWayId("digits-swapped"): lambda numbers: digits_swapped(numbers["n"]),
    },
)
"""Thirty-four and 34."""

WORDS = Sides(
    "n=0..100 |",
    value=the_number,
    left=numeral,
    right=_name,
    step=lambda numbers: step("numeral-is", numbers["n"]),
    hard=_size,
    ways={ErrorWayId("teen-ty-mixed"): lambda numbers: teen_ty_mixed(numbers["n"])},
)
"""34 and thirty-four."""

BLOCKS = Sides(
    "n=10..99 |",
    value=the_number,
    left=lambda numbers: Figure("base-ten", {"t": numbers["n"] // 10, "o": numbers["n"] % 10, "question": 1}),
    right=numeral,
    step=_plain,
    hard=_size,
    ways={
        ErrorWayId("ten-rod-as-one"): lambda numbers: ten_as_one(numbers["n"]),
        ErrorWayId("digits-swapped"): lambda numbers: digits_swapped(numbers["n"]),
    },
    pairs=3,
)
"""Three tens and four ones in blocks, and 34."""


FIRST_NAMES = Sides(
    "n=0..20 |",
    value=the_number,
    left=_name,
    right=numeral,
    step=lambda numbers: step("numeral-is", numbers["n"]),
    hard=lambda numbers: numbers["n"] / 20,
    ways={ErrorWayId("teen-digits-swapped"): lambda numbers: digits_swapped(numbers["n"])},
)
"""Sixteen and 16; the 61 of the turned digits is no partner here."""

LARGE_WORDS = Sides(
    "n=100..1000 |",
    value=the_number,
    left=numeral,
    right=_name,
    step=lambda numbers: step("numeral-is", numbers["n"]),
    hard=lambda numbers: min(1.0, 0.3 + numbers["n"] / 2000 + 0.2 * ("0" in str(numbers["n"]))),
    ways={},
    near=same_digits,
)
"""320 and three hundred twenty."""


def _asks_tens(n: int) -> bool:
    """Whether the tens digit is asked: where the digits together are even; else the ones digit."""
    return (n // 10 + n % 10) % 2 == 0


def _digit(n: int) -> int:
    return n // 10 if _asks_tens(n) else n % 10


def _worth(numbers: Numbers) -> int:
    n = numbers["n"]
    return n // 10 * 10 if _asks_tens(n) else n % 10


def _other_worth(numbers: Numbers) -> int:
    n = numbers["n"]
    return n - _worth(numbers)


DIGITS = Sides(
    "n=10..99 | n//10!=n%10",
    value=_worth,
    left=lambda numbers: Row((_digit(numbers["n"]), Word("in"), numbers["n"])),
    right=lambda numbers: Row((_worth(numbers),)),
    step=_plain,
    hard=_size,
    ways={
        ErrorWayId("face-value"): lambda numbers: _digit(numbers["n"]),
        ErrorWayId("value-of-other-digit"): _other_worth,
    },
)
"""3 in 37, and 30."""

EXPANDED = Sides(
    "n=11..99 | n%10>0",
    value=the_number,
    left=lambda numbers: Row((numbers["n"] // 10 * 10, "+", numbers["n"] % 10)),
    right=numeral,
    step=_plain,
    hard=_size,
    ways={ErrorWayId("digits-added"): lambda numbers: ten_as_one(numbers["n"])},
)
"""50 + 8 and 58."""

OTHER_NAMES = Sides(
    "n=21..99 k=1..3 | n//10>k-1",
    value=the_number,
    left=lambda numbers: tens_and_ones(numbers["n"] // 10 - numbers["k"], numbers["n"] % 10 + 10 * numbers["k"]),
    right=numeral,
    step=lambda numbers: _are(numbers["n"] // 10 - numbers["k"], numbers["n"] % 10 + 10 * numbers["k"]),
    hard=lambda numbers: min(1.0, 0.2 + 0.2 * numbers["k"] + numbers["n"] / 400),
    ways={},
)
"""2 tens 14 ones and 34."""

OPENED = Sides(
    "n=20..98 | n%10<9",
    value=the_number,
    left=lambda numbers: tens_and_ones(*divmod(numbers["n"], 10)),
    right=lambda numbers: tens_and_ones(numbers["n"] // 10 - 1, numbers["n"] % 10 + 10),
    step=lambda numbers: _are(numbers["n"] // 10 - 1, numbers["n"] % 10 + 10),
    hard=lambda numbers: min(1.0, 0.1 * (numbers["n"] % 10) + 0.2 * (numbers["n"] % 10 == 0)),
    ways={ErrorWayId("ten-not-reduced"): lambda numbers: numbers["n"] + 10},
)
"""3 tens 4 ones and 2 tens 14 ones; who leaves the tens as they were looks for 3 tens 14 ones."""

TRADED = Sides(
    "t=0..8 n=10..19 |",
    value=lambda numbers: 10 * numbers["t"] + numbers["n"],
    left=lambda numbers: tens_and_ones(numbers["t"], numbers["n"]),
    right=lambda numbers: Row((10 * numbers["t"] + numbers["n"],)),
    step=lambda numbers: _are(numbers["t"], numbers["n"]),
    hard=lambda numbers: min(1.0, 0.1 + numbers["t"] / 20 + (numbers["n"] - 10) / 20),
    ways={ErrorWayId("trade-adds-amount"): lambda numbers: 10 * numbers["t"] + numbers["n"] + 10},
)
"""3 tens 13 ones and 43."""


def asked_digit(n: int) -> tuple[int, int]:
    """A digit that is neither zero nor the ones, and what it is worth."""
    worths = [part for part in parts(n)[:-1] if part]
    worth = worths[n % len(worths)]
    return int(str(worth)[0]), worth


def _worth_asked(numbers: Numbers) -> int:
    return asked_digit(numbers["n"])[1]


VALUES = Sides(
    "n=100..999 | len(set(str(n)))==3",
    value=_worth_asked,
    left=lambda numbers: Row((asked_digit(numbers["n"])[0], Word("in"), numbers["n"])),
    right=lambda numbers: Row((_worth_asked(numbers),)),
    step=lambda numbers: step("digit-is-worth", *asked_digit(numbers["n"])),
    hard=lambda numbers: min(1.0, 0.2 + 0.2 * ("0" in str(numbers["n"])) + 0.05 * (numbers["n"] // 100)),
    ways={ErrorWayId("place-off-by-one"): lambda numbers: one_place_off(_worth_asked(numbers))},
)
"""4 in 462, and 400."""

SIDES: dict[SkillId, Sides] = {
    SkillId("numerals-0-20"): FIRST_NAMES,
    SkillId("numerals-to-120"): NAMES,
    SkillId("number-words-to-100"): WORDS,
    SkillId("number-words-to-1000"): LARGE_WORDS,
    SkillId("tens-ones-model-99"): BLOCKS,
    SkillId("pv-2digit-digit-value"): DIGITS,
    SkillId("pv-2digit-expanded"): EXPANDED,
    SkillId("pv-2digit-regroup-names"): OTHER_NAMES,
    SkillId("regroup-ten-for-ones"): OPENED,
    SkillId("regroup-ten-ones"): TRADED,
    SkillId("pv-3digit-digit-value"): VALUES,
}
"""The two sides of every skill here; a test holds their rules against the skills' files."""

RULES: tuple[SkillRule, ...] = rules_for(SIDES)
