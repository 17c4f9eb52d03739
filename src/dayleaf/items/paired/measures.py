"""Measures, data and places to match: the same amount in two units, tallies and numbers, names of places."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, SkillId
from dayleaf.items.model import Figure, Row, Step, Word
from dayleaf.items.paired.partners import Sides, rules_for
from dayleaf.items.pictured.graphs import by_ones, tally_steps
from dayleaf.items.pictured.hours import RELATIONS
from dayleaf.items.pictured.inches import FEET_A_YARD, INCHES_A_FOOT
from dayleaf.items.pictured.places_in_line import ending
from dayleaf.items.pictured.weights import CUPS_A_PINT, PINTS_A_QUART, QUARTS_A_GALLON

if TYPE_CHECKING:
    from dayleaf.items.rule import Numbers, SkillRule


def _amount(n: int, unit: str) -> Row:
    return Row((n, Word(unit, n)))


def _time(numbers: Numbers) -> tuple[str, str, int]:
    """Larger unit, smaller unit, how many of it."""
    return RELATIONS[numbers["i"]]


TIME = Sides(
    "i=0..4 n=1..3",
    value=lambda numbers: 10 * numbers["i"] + numbers["n"],
    left=lambda numbers: _amount(numbers["n"], _time(numbers)[0]),
    right=lambda numbers: _amount(numbers["n"] * _time(numbers)[2], _time(numbers)[1]),
    step=lambda numbers: Step(
        "one-unit-is", {"larger": _time(numbers)[0], "n": _time(numbers)[2], "smaller": _time(numbers)[1]}
    ),
    hard=lambda numbers: 0.2 + 0.2 * numbers["n"],
    ways={},
)
"""2 hours, and 120 minutes."""

_CUPS = {"cups": 1, "pints": CUPS_A_PINT, "quarts": CUPS_A_PINT * PINTS_A_QUART}
_CUPS["gallons"] = QUARTS_A_GALLON * _CUPS["quarts"]
_SMALLER = (
    ("pints", "cups", "cups-a-pint"),
    ("quarts", "pints", "pints-a-quart"),
    ("gallons", "quarts", "quarts-a-gallon"),
)


def _in_cups(numbers: Numbers) -> int:
    return numbers["n"] * _CUPS[_SMALLER[numbers["k"]][0]]


def _in_smaller(numbers: Numbers) -> Row:
    _, smaller, _ = _SMALLER[numbers["k"]]
    return _amount(_in_cups(numbers) // _CUPS[smaller], smaller)


CAPACITY = Sides(
    "k=0..4 n=1..6 |",
    value=_in_cups,
    left=lambda numbers: _amount(numbers["n"], _SMALLER[numbers["k"]][0]),
    right=_in_smaller,
    step=lambda numbers: Step(_SMALLER[numbers["k"]][2]),
    hard=lambda numbers: 0.2 + 0.05 * numbers["n"] + 0.1 * numbers["k"],
    ways={},
    usable=lambda numbers: numbers["k"] <= 2,
)
"""3 quarts, and 6 pints."""


def _lengths(numbers: Numbers) -> tuple[int, str, int, str]:
    """An amount in one unit and the same in another."""
    k, n = numbers["k"], numbers["n"]
    if k == 0:
        return n, "feet", n * INCHES_A_FOOT, "inches"
    longer = (n, "yards", n * FEET_A_YARD, "feet")
    return longer if k == 1 else (longer[2], longer[3], longer[0], longer[1])


def _in_inches(numbers: Numbers) -> int:
    k, n = numbers["k"], numbers["n"]
    return n * INCHES_A_FOOT * (1 if k == 0 else FEET_A_YARD)


def _why_as_long(numbers: Numbers) -> Step:
    a, told, b, asked = _lengths(numbers)
    return Step("so-many-units", {"a": a, "b": b, "from": told, "to": asked})


FEET = Sides(
    "k=0..3 n=1..8 | k==3 or n<=6 and (k!=0 or n<=4)",
    value=_in_inches,
    left=lambda numbers: _amount(*_lengths(numbers)[:2]),
    right=lambda numbers: _amount(*_lengths(numbers)[2:]),
    step=_why_as_long,
    hard=lambda numbers: 0.3 + 0.05 * numbers["n"],
    ways={},
    usable=lambda numbers: numbers["k"] <= 2,
)
"""15 feet, and 5 yards."""

TALLIES = Sides(
    "n=1..25 |",
    value=lambda numbers: numbers["n"],
    left=lambda numbers: Figure("tally", {"counts": (numbers["n"],), "question": 1}),
    right=lambda numbers: Row((numbers["n"],)),
    step=lambda numbers: tally_steps(numbers["n"])[-1],
    hard=lambda numbers: numbers["n"] / 25,
    ways={ErrorWayId("tally-by-ones"): lambda numbers: by_ones(numbers["n"])},
)
"""Bundles of five and single marks, and 17."""

ORDINALS = Sides(
    "n=1..31 |",
    value=lambda numbers: numbers["n"],
    left=lambda numbers: Row((Word("order-name", numbers["n"]),)),
    right=lambda numbers: Row((f"{numbers['n']}{ending(numbers['n'])}",)),
    step=lambda numbers: Step("ending-of", {"n": numbers["n"], "ending": ending(numbers["n"])}),
    hard=lambda numbers: 0.8 if numbers["n"] in {1, 2, 3, 11, 12, 13, 21, 22, 23, 31} else 0.3,
    ways={},
    near=lambda numbers: (numbers["n"] + 10, numbers["n"] - 10, numbers["n"] + 20),
)
"""Twenty-third, and 23rd."""


SIDES: dict[SkillId, Sides] = {
    SkillId("time-units-relations"): TIME,
    SkillId("capacity-customary"): CAPACITY,
    SkillId("measure-foot-yard"): FEET,
    SkillId("data-tally-table"): TALLIES,
    SkillId("ordinals-dates-31"): ORDINALS,
}
"""The two sides of every skill here; a test holds their rules against the skills' files."""

RULES: tuple[SkillRule, ...] = rules_for(SIDES)
