"""Items built with blocks, cubes, counters, sticks and cups. A wrong count says nothing about a written habit."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING

from dayleaf.core.ids import FormatId, SkillId
from dayleaf.items.model import Column, Part, Question, Row, Step
from dayleaf.items.numbers import RULES as NUMBERS
from dayleaf.items.pictured import lengths, shapes, solids, weights
from dayleaf.items.pictured.aloud import rule_with
from dayleaf.items.pictured.polygons import RULES as POLYGONS
from dayleaf.items.pictured.weights import PAIRS
from dayleaf.items.rule import Fits, Made, Maker, Numbers, SkillRule
from dayleaf.items.steps import step

if TYPE_CHECKING:
    from dayleaf.items.model import Figure

BUILD = FormatId("build")
_KNOWN = (*NUMBERS, *lengths.RULES, *shapes.RULES, *solids.RULES, *weights.RULES, *POLYGONS)

Values = Callable[[Numbers], Mapping[str, int | str]]

_LOOK = (Part("1", "look", ""),)


def _plain(skill: str, name: str) -> Maker:
    return rule_with(_KNOWN, skill, name).formats[FormatId(name)]


def _fits(skill: str, name: str) -> Fits | None:
    return rule_with(_KNOWN, skill, name).fits.get(FormatId(name))


def _rule(skill: str, maker: Maker, fits: Fits | None = None) -> SkillRule:
    return SkillRule(SkillId(skill), formats={BUILD: maker}, fits={BUILD: fits} if fits else {})


def _sum(skill: str, name: str) -> SkillRule:
    """The two numbers of the column or row, built; the number of blocks is written down."""
    plain = _plain(skill, name)

    def make(numbers: Numbers) -> Made:
        made = plain(numbers)
        if isinstance(made.prompt, Column):
            (a, b), sign = made.prompt.rows, made.prompt.sign
        elif isinstance(made.prompt, Row):
            a, b = (token for token in made.prompt.tokens if isinstance(token, int))
            sign = "-" if "-" in made.prompt.tokens else "+"
        else:
            raise TypeError(made.prompt)
        code = "build-take" if sign == "-" else "build-add"
        return Made(Question(code, {"a": a, "b": b}), made.parts, made.steps, {}, None, made.difficulty)

    return _rule(skill, make, _fits(skill, name))


def _as(skill: str, name: str, code: str, values: Values | None = None, fits: Fits | None = None) -> SkillRule:
    """What another format asks, with things: its parts and its key, other words, no picture, no habit of paper."""
    plain, fits = _plain(skill, name), fits or _fits(skill, name)

    def make(numbers: Numbers) -> Made:
        made = plain(numbers)
        told = values(numbers) if values else made.prompt.values if isinstance(made.prompt, Question) else {}
        ways = made.errors if any(part.options for part in made.parts) else {}
        return Made(Question(code, told), made.parts, made.steps, ways, None, made.difficulty)

    return _rule(skill, make, fits)


def _looked_at(
    code: str, values: Values, steps: Callable[[Numbers], tuple[Step, ...]], figure: Callable[[Numbers], Figure | None]
) -> Maker:
    def make(numbers: Numbers) -> Made:
        return Made(Question(code, values(numbers)), _LOOK, steps(numbers), {}, figure(numbers), 0.4)

    return make


def _no_figure(_: Numbers) -> None:
    return None


def _just_n(numbers: Numbers) -> Mapping[str, int]:
    return {"n": numbers["n"]}


def _number(skill: str, name: str, code: str = "build-number") -> SkillRule:
    """A number to lay out."""
    plain = _plain(skill, name)
    return _rule(skill, _looked_at(code, _just_n, lambda numbers: plain(numbers).steps, _no_figure))


# things of the kitchen table


def _rows(numbers: Numbers) -> Made:
    a, b = numbers["a"], numbers["b"]
    return Made(Question("build-rows", {"a": a, "b": b}), _LOOK, (Step("rows-hold", {"a": a, "b": b}),), {}, None, 0.3)


def _trains(numbers: Numbers) -> Made:
    cubes = [numbers[name] for name in "abc"]
    order = sorted(cubes, reverse=numbers["k"] == 0)
    values = dict(zip(("first", "second", "third"), order, strict=True))
    return Made(
        Question(
            "build-trains-long" if numbers["k"] == 0 else "build-trains-short", dict(zip("abc", cubes, strict=True))
        ),
        _LOOK,
        (Step("trains-in-order", values),),
        {},
        None,
        0.4,
    )


def _cups(numbers: Numbers) -> Made:
    n = numbers["n"]
    part = Part("1", "digits", str(2 * n), 2)
    return Made(Question("build-cups", {"n": n}), (part,), (Step("cups-a-pint"),), {}, None, 0.1 * n)


def _hold(numbers: Numbers) -> Made:
    large, heavy = PAIRS[numbers["n"] // 2]
    first, second = (large, heavy) if numbers["n"] % 2 else (heavy, large)
    return Made(Question("build-hold", {"first": first, "second": second}), _LOOK, (Step("hold-both"),), {}, None, 0.4)


def _solid(numbers: Numbers) -> Made:
    solid = solids.SOLIDS[numbers["k"]]
    _, edges, corners = solids.COUNTS[solid]
    return Made(
        Question("build-solid", {"solid": solid}),
        (Part("1", "digits", str(edges), 2), Part("2", "digits", str(corners), 2)),
        (Step("sticks-and-balls", {"edges": edges, "corners": corners}),),
        {},
        None,
        0.6,
    )


def _fill(numbers: Numbers) -> Made:
    made = _plain("compose-decompose-shapes", "choose")(numbers)
    values = made.prompt.values if isinstance(made.prompt, Question) else {}
    return Made(Question("build-fill", values), _LOOK, made.steps, {}, made.figure, made.difficulty)


def _pieces(numbers: Numbers) -> Made:
    made = _plain("shapes-compose-2d", "draw")(numbers)
    values = made.prompt.values if isinstance(made.prompt, Question) else {}
    return Made(Question("build-pieces", values), _LOOK, made.steps, {}, made.figure, made.difficulty)


def _tens_only(numbers: Numbers) -> Made:
    n = numbers["n"]
    hundreds, rest = divmod(n, 100)
    return Made(
        Question("build-tens-only", {"n": n}),
        (Part("1", "digits", str(n // 10), 2),),
        (step("hundreds-as-tens", hundreds, 10 * hundreds), step("tens-with", rest // 10, n // 10)),
        {},
        None,
        0.5,
    )


def _some_tens(numbers: Numbers) -> bool:
    return numbers["t"] > 0


def _pints(numbers: Numbers) -> bool:
    return numbers["k"] == 0


def _in_line(numbers: Numbers) -> bool:
    return numbers["s"] == 0


def _with_edges(numbers: Numbers) -> bool:
    return numbers["k"] <= 2 and numbers["q"] == 0


def _with_tens(numbers: Numbers) -> Mapping[str, int]:
    return {"n": numbers["n"], "tens": numbers["n"] // 10 - numbers["k"]}


def _shared(numbers: Numbers) -> Mapping[str, int]:
    return {"n": numbers["a"] * numbers["b"], "groups": numbers["a"]}


RULES: tuple[SkillRule, ...] = (
    _sum("add-2digit-no-regroup", "vert"),
    _sum("add-2digit-regroup-ones", "vert"),
    _sum("add-3digit-no-regroup", "vert"),
    _sum("add-3digit-regroup-ones", "vert"),
    _sum("add-3digit-regroup-tens", "vert"),
    _sum("sub-2digit-1digit-regroup", "vert"),
    _sum("sub-2digit-no-regroup", "vert"),
    _sum("sub-2digit-regroup", "vert"),
    _sum("sub-3digit-no-regroup", "vert"),
    _sum("sub-3digit-regroup-tens", "vert"),
    _sum("sub-3digit-regroup-hundreds", "vert"),
    _sum("sub-3digit-zero-tens", "vert"),
    _sum("sub-from-hundreds", "vert"),
    _as("regroup-ten-ones", "pvchart", "build-trade", fits=_some_tens),
    _as("regroup-ten-for-ones", "pvchart", "build-open"),
    _as("pv-2digit-regroup-names", "missing", "build-with-tens", _with_tens),
    _rule("pv-3digit-regroup-names", _tens_only),
    _as("pv-10-tens-is-100", "missing", "build-tens", _just_n),
    _as("pv-10-hundreds-is-1000", "missing", "build-hundreds", _just_n),
    _as("compare-2digit", "choose", "build-compare"),
    _as("even-odd-pairs", "choose", "build-pairs"),
    _as("div-fair-share", "draw", "build-share", _shared),
    _number("pv-3digit-model", "count-pic"),
    _number("tens-ones-model-99", "count-pic"),
    _number("teen-ten-and-ones", "horiz"),
    _number("count-objects-20", "count-pic", "build-count"),
    _rule("compare-sets-10", _rows),
    _rule("length-compare-order", _trains, _in_line),
    _rule("capacity-customary", _cups, _pints),
    _rule("weight-capacity-compare", _hold, _pints),
    _rule("solids-faces-edges-corners", _solid, _with_edges),
    _rule("compose-decompose-shapes", _fill),
    _rule("shapes-compose-2d", _pieces),
)
