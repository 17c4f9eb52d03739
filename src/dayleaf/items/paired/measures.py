"""Measures to match: feet and yards, cups to gallons; and groups: repeats of a program, division by multiplication."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, SkillId
from dayleaf.items.model import Row, Step, Word
from dayleaf.items.paired.facts import GAP_SIGN
from dayleaf.items.paired.partners import Sides, rules_for
from dayleaf.items.steps import step

if TYPE_CHECKING:
    from collections.abc import Mapping

    from dayleaf.items.rule import Numbers, SkillRule

_LENGTHS = (("feet", 1, "inches", 12), ("yards", 1, "feet", 3), ("feet", 3, "yards", 1))
_LIQUIDS = (("pints", 1, "cups", 2), ("quarts", 1, "pints", 2), ("gallons", 1, "quarts", 4))
"""So many of one unit are so many of another. Source: NIST Handbook 44, Appendix C."""

_INCHES: Mapping[str, int] = {"inches": 1, "feet": 12, "yards": 36}
_CUPS: Mapping[str, int] = {"cups": 1, "pints": 2, "quarts": 4, "gallons": 16}


def _told(numbers: Numbers, units: tuple[tuple[str, int, str, int], ...]) -> Row:
    unit, many, _, _ = units[numbers["k"]]
    return Row((many * numbers["n"], Word(unit, many * numbers["n"])))


def _changed(numbers: Numbers, units: tuple[tuple[str, int, str, int], ...]) -> Row:
    _, _, unit, many = units[numbers["k"]]
    return Row((many * numbers["n"], Word(unit, many * numbers["n"])))


def _in_inches(numbers: Numbers) -> int:
    unit, many, _, _ = _LENGTHS[numbers["k"]]
    return many * numbers["n"] * _INCHES[unit]


def _units_are(numbers: Numbers) -> Step:
    unit, many, other, others = _LENGTHS[numbers["k"]]
    n = numbers["n"]
    return Step("so-many-units", {"a": many * n, "b": others * n, "from": unit, "to": other})


LENGTHS = Sides(
    "k=0..2 n=1..6 | k!=0 or n<=4",
    value=_in_inches,
    left=lambda numbers: _told(numbers, _LENGTHS),
    right=lambda numbers: _changed(numbers, _LENGTHS),
    step=_units_are,
    hard=lambda numbers: 0.3 + 0.05 * numbers["n"],
    ways={},
    part=True,
)
"""2 feet and 24 inches; things of which only about how many feet is asked have no partner."""


def _pint_for_quart(numbers: Numbers) -> int | None:
    """The cups of what is told where pint and quart change their places."""
    unit, _, _, _ = _LIQUIDS[numbers["k"]]
    taken_for = {"pints": "quarts", "quarts": "pints"}.get(unit)
    return None if taken_for is None else numbers["n"] * _CUPS[taken_for]


LIQUIDS = Sides(
    "k=0..2 n=1..6 |",
    value=lambda numbers: numbers["n"] * _CUPS[_LIQUIDS[numbers["k"]][0]],
    left=lambda numbers: _told(numbers, _LIQUIDS),
    right=lambda numbers: _changed(numbers, _LIQUIDS),
    step=lambda numbers: Step(("cups-a-pint", "pints-a-quart", "quarts-a-gallon")[numbers["k"]]),
    hard=lambda numbers: 0.3 + 0.1 * numbers["k"] + 0.05 * numbers["n"],
    ways={ErrorWayId("unit-order-mixed"): _pint_for_quart},
    part=True,
)
"""3 quarts and 6 pints; which of two jars holds more is asked in other ways."""


LOOPS = Sides(
    "a=2..6 b=1..3 |",
    value=lambda numbers: numbers["a"] * numbers["b"],
    left=lambda numbers: Row((numbers["a"], Word("times-forward"), numbers["b"])),
    right=lambda numbers: Row((numbers["a"] * numbers["b"], Word("squares-far"))),
    step=lambda numbers: Step("loop-is", {"a": numbers["a"], "b": numbers["b"], "n": numbers["a"] * numbers["b"]}),
    hard=lambda numbers: 0.2 + 0.04 * numbers["a"] * numbers["b"],
    ways={
        ErrorWayId("repeat-extra"): lambda numbers: (numbers["a"] + 1) * numbers["b"],
        ErrorWayId("repeat-last-only"): lambda numbers: numbers["a"] + numbers["b"] - 1,
        ErrorWayId("repeat-once"): lambda numbers: numbers["b"],
    },
)
"""4 times: forward 2, and 8 squares."""


def _divided(numbers: Numbers) -> Row:
    return Row((numbers["a"] * numbers["b"], "÷", numbers["a"]))


def _asked_by_times(numbers: Numbers) -> Row:
    return Row((numbers["a"], "×", GAP_SIGN, "=", numbers["a"] * numbers["b"]))


RELATED = Sides(
    "a=2..10 b=1..10 | a in (2,5,10)",
    value=lambda numbers: numbers["b"],
    left=_divided,
    right=_asked_by_times,
    step=lambda numbers: step("divide-is", numbers["a"] * numbers["b"], numbers["a"], numbers["b"]),
    hard=lambda numbers: min(1.0, 0.1 * numbers["b"]),
    ways={},
)
"""30 ÷ 5 and 5 × □ = 30."""

SIDES: dict[SkillId, Sides] = {
    SkillId("measure-foot-yard"): LENGTHS,
    SkillId("capacity-customary"): LIQUIDS,
    SkillId("code-loop-repeat"): LOOPS,
    SkillId("div-related-mul"): RELATED,
}
"""The two sides of every skill here; a test holds their rules against the skills' files."""

RULES: tuple[SkillRule, ...] = rules_for(SIDES)
