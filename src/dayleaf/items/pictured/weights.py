"""Weighing and pouring: read a scale, choose a unit, guess, change cups and pints, compare.

Sizes of units: NIST Handbook 44, Appendix C (1 pint is 2 cups, 1 quart 2 pints, 1 gallon 4 quarts).
"""

from __future__ import annotations

from itertools import permutations
from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.core.seeds import seed_from
from dayleaf.items.choices import ring_fixed, ring_one
from dayleaf.items.model import Figure, Gap, Option, Part, Question, Row, Step, Word
from dayleaf.items.rule import Made, SkillRule

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from dayleaf.items.model import Token
    from dayleaf.items.rule import Maker, Numbers

CHOOSE, SCALE_READ, ESTIMATE, TABLE, ORDER = (
    FormatId(name) for name in ("choose", "scale-read", "estimate", "table", "order")
)
_EVERY = 5
"""Every fifth mark has a number."""

Thing = tuple[str, int, str]
"""What it is, about how much, and the unit that fits (common practice, no source)."""

OUNCES_POUNDS: tuple[Thing, ...] = (
    ("bread-slice", 1, "ounces"),
    ("one-egg", 2, "ounces"),
    ("an-apple", 6, "ounces"),
    ("letter-paper", 1, "ounces"),
    ("spoon", 2, "ounces"),
    ("a-mouse", 1, "ounces"),
    ("bread-loaf", 1, "pounds"),
    ("a-cat", 8, "pounds"),
    ("a-pumpkin", 10, "pounds"),
    ("water-bucket", 20, "pounds"),
    ("a-goose", 10, "pounds"),
    ("a-brick", 5, "pounds"),
)
GRAMS_KILOGRAMS: tuple[Thing, ...] = (
    ("paper-clip", 1, "grams"),
    ("one-egg", 60, "grams"),
    ("an-apple", 150, "grams"),
    ("letter-paper", 20, "grams"),
    ("spoon", 40, "grams"),
    ("a-mouse", 20, "grams"),
    ("a-cat", 4, "kilograms"),
    ("a-pumpkin", 5, "kilograms"),
    ("water-bucket", 10, "kilograms"),
    ("a-goose", 5, "kilograms"),
    ("a-brick", 2, "kilograms"),
    ("a-dog", 15, "kilograms"),
)
MILLILITERS_LITERS: tuple[Thing, ...] = (
    ("spoonful", 5, "milliliters"),
    ("drinking-glass", 200, "milliliters"),
    ("small-cup", 150, "milliliters"),
    ("egg-shell", 50, "milliliters"),
    ("jam-jar", 300, "milliliters"),
    ("bucket", 10, "liters"),
    ("bath-tub", 150, "liters"),
    ("soup-pot", 5, "liters"),
    ("watering-can", 8, "liters"),
    ("fish-tank", 40, "liters"),
)


def by_ones(marks: int, step: int) -> int:
    """Each mark above the last number counted as one: 500 and two marks of a hundred → 502."""
    above = marks % _EVERY
    return (marks - above) * step + above


def _read(marks: int, step: int, unit: str, figure: Figure, *, misread: bool = True) -> Made:
    value, above = marks * step, marks % _EVERY
    label = value - above * step
    return Made(
        Row((Gap("1"), Word(unit))),
        (Part("1", "digits", str(value), 4),),
        (
            Step("mark-is-worth", {"step": step}),
            Step("up-from-label", {"label": label, "marks": above, "value": value})
            if above
            else Step("level-with-label", {"value": value}),
        ),
        {ErrorWayId("scale-misread"): str(by_ones(marks, step))} if misread else {},
        figure,
        0.2 + 0.1 * above + (0.2 if step > 1 else 0),
    )


def _straight_scale(marks: int, step: int, top: int) -> Figure:
    return Figure(
        "number-line",
        {
            "lo": 0,
            "hi": top * step,
            "step": step,
            "big": _EVERY * step,
            "labels": tuple(range(0, top * step + 1, _EVERY * step)),
            "arrow": marks * step,
            "question": 1,
        },
    )


_GRAM_SCALES = ((1, "kg", 20), (2, "kg", 10), (5, "g", 20), (10, "g", 20), (100, "g", 10))


def _kitchen_scale(numbers: Numbers) -> Made:
    step, unit, top = _GRAM_SCALES[numbers["k"]]
    return _read(numbers["n"], step, unit, _straight_scale(numbers["n"], step, top))


def _pound_scale(numbers: Numbers) -> Made:
    return _read(numbers["n"], 1, "lb", _straight_scale(numbers["n"], 1, 20), misread=False)


def _pitcher(numbers: Numbers) -> Made:
    step, unit, top = ((100, "mL", 10), (1, "L", 20))[numbers["k"]]
    n = numbers["n"]
    figure = Figure(
        "jug",
        {"max": top * step, "step": step, "level": n * step, "every": _EVERY, "unit": unit, "question": 1},
    )
    return _read(n, step, unit, figure)


def _unit_for(things: Sequence[Thing], way: str) -> Maker:
    """Which of the two units of a list fits the thing at place n."""
    units = tuple(dict.fromkeys(unit for _, _, unit in things))

    def make(numbers: Numbers) -> Made:
        thing, _, unit = things[numbers["n"] - 1]
        errors = {ErrorWayId(way): next(other for other in units if other != unit)}
        return Made(
            Question("unit-for", {"thing": thing}),
            (ring_fixed(unit, units, errors),),
            (Step(f"fits-{units[0]}-{units[1]}"),),
            errors,
            None,
            0.3,
        )

    return make


def _about(things: Sequence[Thing], way: str) -> Maker:
    """So many of the one unit or of the other."""
    units = tuple(dict.fromkeys(unit for _, _, unit in things))
    choose = _unit_for(things, way)

    def make(numbers: Numbers) -> Made:
        made = choose(numbers)
        thing, n, _ = things[numbers["n"] - 1]
        question = Question(f"about-{units[0]}-{units[1]}", {"thing": thing, "n": n})
        return Made(question, made.parts, made.steps, made.errors, None, 0.4)

    return make


# heavier, holds more

PAIRS: tuple[tuple[str, str], ...] = (
    ("pillow", "brick"),
    ("balloon", "apple"),
    ("hat", "stone"),
    ("paper-bag", "hammer"),
)
"""A large light thing and a small heavy one."""


def _pounds_or_larger(numbers: Numbers) -> Made:
    if numbers["k"] == 1:
        return _unit_for(OUNCES_POUNDS, "weight-unit-unsure")(numbers)
    large, heavy = PAIRS[numbers["n"] - 1]
    errors = {ErrorWayId("bigger-is-heavier"): large}
    part = ring_one(heavy, errors, turn=numbers["n"])
    return Made(Question("which-heavier"), (part,), (Step("hold-or-weigh"),), errors, None, 0.5)


def _on_the_balance(numbers: Numbers) -> Made:
    large, heavy = PAIRS[numbers["n"] // 2]
    left, right = (large, heavy) if numbers["n"] % 2 else (heavy, large)
    way = ErrorWayId("bigger-is-heavier")
    return Made(
        Question("which-heavier"),
        (Part("1", "choice", heavy, options=tuple(Option(t, way if t == large else None) for t in (left, right))),),
        (Step("lower-pan"),),
        {way: large},
        Figure(
            "balance",
            {"left": 1 + (left == heavy), "right": 1 + (right == heavy), "names": (left, right), "question": 1},
        ),
        0.3,
    )


JARS = ("tall-jar", "wide-jar", "small-jar")


def _order_jars(numbers: Numbers) -> Made:
    """The cups that went into three jars, tallied: 1 for the jar that holds least."""
    n = numbers["n"]
    least = 2 + n // 6
    counts = tuple(permutations((least, least + 2, least + 5)))[n % 6]
    by_height = [counts[0] + 100, *counts[1:]]
    tokens: list[Token] = []
    for i, jar in enumerate(JARS):
        tokens += [Word(jar), Gap(str(i + 1))]
    return Made(
        Row(tuple(tokens)),
        tuple(Part(str(i + 1), "digits", rank, 1) for i, rank in enumerate(_ranks(counts))),
        (Step("count-the-cups"),),
        {ErrorWayId("taller-holds-more"): " ".join(_ranks(by_height))},
        Figure("tally", {"counts": counts, "labels": JARS, "question": 1}),
        0.4,
    )


def _ranks(sizes: Sequence[int]) -> tuple[str, ...]:
    return tuple(str(sorted(sizes).index(size) + 1) for size in sizes)


# cups, pints, quarts, gallons

CUPS_A_PINT, PINTS_A_QUART, QUARTS_A_GALLON = 2, 2, 4


def _fill_chart(numbers: Numbers) -> Made:
    k, n = numbers["k"], numbers["n"]
    mixed = ErrorWayId("unit-order-mixed")
    if k == 0:
        cups = n * CUPS_A_PINT
        tokens: tuple[Token, ...] = (n, Word("pints", n), "=", Gap("1"), Word("cups", cups))
        parts = (Part("1", "digits", str(cups), 2),)
        return Made(
            Row(tokens), parts, (Step("cups-a-pint"),), {mixed: str(cups * PINTS_A_QUART)}, None, 0.2 + 0.05 * n
        )
    if k == 1:
        first, second, names = n * PINTS_A_QUART, n * PINTS_A_QUART * CUPS_A_PINT, ("quarts", "pints", "cups")
        errors = {mixed: f"{n // 2} {n * CUPS_A_PINT}"} if n % 2 == 0 else {}
        steps = (Step("pints-a-quart"), Step("cups-a-pint"))
    else:
        first, second = n * QUARTS_A_GALLON, n * QUARTS_A_GALLON * PINTS_A_QUART
        names = ("gallons", "quarts", "pints")
        errors = {mixed: f"{first} {first // 2}"}
        steps = (Step("quarts-a-gallon"), Step("pints-a-quart"))
    big, middle, small = names
    return Made(
        Row((n, Word(big, n), "=", Gap("1"), Word(middle, first), "=", Gap("2"), Word(small, second))),
        (Part("1", "digits", str(first), 2), Part("2", "digits", str(second), 2)),
        steps,
        errors,
        None,
        0.4 + 0.05 * n,
    )


def _which_holds_more(numbers: Numbers) -> Made:
    n = numbers["n"]
    if numbers["k"] == 3:
        errors = {ErrorWayId("unit-order-mixed"): "pints"}
        part = ring_one("quarts", errors, turn=n)
        return Made(Question("pints-or-quarts", {"n": n}), (part,), (Step("pints-a-quart"),), errors, None, 0.4)
    errors = {ErrorWayId("taller-holds-more"): "tall-jar"}
    part = ring_one("wide-jar", errors, turn=seed_from("jar", n))
    return Made(Question("tall-or-wide", {"a": n, "b": n + 2}), (part,), (Step("count-the-cups"),), errors, None, 0.4)


def _kind(*kinds: int) -> Callable[[Numbers], bool]:
    return lambda numbers: numbers["k"] in kinds


RULES: tuple[SkillRule, ...] = (
    SkillRule(
        SkillId("weight-ounce-pound"),
        formats={
            CHOOSE: _pounds_or_larger,
            SCALE_READ: _pound_scale,
            ESTIMATE: _about(OUNCES_POUNDS, "weight-unit-unsure"),
        },
        fits={CHOOSE: _kind(1, 2), SCALE_READ: _kind(0), ESTIMATE: _kind(1)},
    ),
    SkillRule(
        SkillId("mass-gram-kilogram"),
        formats={
            CHOOSE: _unit_for(GRAMS_KILOGRAMS, "weight-unit-unsure"),
            SCALE_READ: _kitchen_scale,
            ESTIMATE: _about(GRAMS_KILOGRAMS, "weight-unit-unsure"),
        },
        fits={CHOOSE: _kind(5), SCALE_READ: _kind(0, 1, 2, 3, 4), ESTIMATE: _kind(5)},
    ),
    SkillRule(
        SkillId("capacity-liter-milliliter"),
        formats={
            CHOOSE: _unit_for(MILLILITERS_LITERS, "liquid-unit-unsure"),
            SCALE_READ: _pitcher,
            ESTIMATE: _about(MILLILITERS_LITERS, "liquid-unit-unsure"),
        },
        fits={CHOOSE: _kind(2), SCALE_READ: _kind(0, 1), ESTIMATE: _kind(2)},
    ),
    SkillRule(
        SkillId("weight-capacity-compare"),
        formats={CHOOSE: _on_the_balance, ORDER: _order_jars},
        fits={CHOOSE: _kind(0), ORDER: _kind(1)},
    ),
    SkillRule(
        SkillId("capacity-customary"),
        formats={CHOOSE: _which_holds_more, TABLE: _fill_chart},
        fits={CHOOSE: _kind(3, 4), TABLE: _kind(0, 1, 2)},
    ),
)
