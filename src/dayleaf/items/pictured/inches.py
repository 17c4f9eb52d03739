"""Inches, feet and yards: measure with a printed ruler, in one unit or two, change units, and guess.

Sizes of units: NIST Handbook 44, Appendix C; 1 inch is 2.54 cm exactly (16 CFR 500.19 lists the same values).
"""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.core.seeds import seed_from
from dayleaf.items.choices import ring_fixed, ring_one
from dayleaf.items.model import Figure, Gap, Part, Question, Row, Step, Word
from dayleaf.items.rule import Made, SkillRule

if TYPE_CHECKING:
    from dayleaf.items.rule import Numbers

CM_AN_INCH = Fraction(254, 100)
INCHES_A_FOOT, FEET_A_YARD = 12, 3
_RULER = 6  # a ruler of seven inches would not go between the margins
CHOOSE, MEASURE, FIX = FormatId("choose"), FormatId("measure"), FormatId("fix")
_INCHES = Word("inches")


def nearest(length: Fraction) -> int:
    """The whole number nearest to a length that does not lie half way."""
    return int(length + Fraction(1, 2))


def on_the_other_side(inches: int, quarters: int) -> int:
    """What the centimetre side says, to the nearest centimetre."""
    return nearest((inches + Fraction(quarters, 4)) * CM_AN_INCH)


def _ruler(inches: int, quarters: int, *, parts: int = 2, both: int = 0) -> Figure:
    params = {"length": _RULER, "end": inches, "quarters": quarters, "parts": parts, "both": both, "question": 1}
    return Figure("ruler-in", params)


# to the nearest inch


def _measure(numbers: Numbers) -> Made:
    n, q = numbers["n"], numbers["q"]
    answer = n + (q == 3)
    return Made(
        Row((Gap("1"), _INCHES)),
        (Part("1", "digits", str(answer), 2),),
        (Step("zero-at-end", {"n": answer}),) if q == 0 else (Step("nearer-inch", {"low": n, "n": answer}),),
        {
            ErrorWayId("wrong-scale"): str(on_the_other_side(n, q)),
            ErrorWayId("half-ignored"): str(n),
        },
        _ruler(n, q),
        0.2 + 0.04 * n + (0.3 if q else 0),
    )


def _mend(numbers: Numbers) -> Made:
    """Shown is the centimetre side, or the inch below where the end is past the half mark."""
    made = _measure(numbers)
    n, q = numbers["n"], numbers["q"]
    shown = n if q == 3 else on_the_other_side(n, q)
    return Made(
        Question("fix-inches", {"shown": shown}), made.parts, made.steps, made.errors, made.figure, made.difficulty
    )


def _some_way_is_wrong(numbers: Numbers) -> bool:
    return numbers["q"] != 1


def _draw(numbers: Numbers) -> Made:
    n = numbers["n"]
    return Made(Question("draw-line-inches", {"n": n}), (Part("1", "look", ""),), (Step("zero-at-end", {"n": n}),))


def _whole_inches(numbers: Numbers) -> bool:
    return numbers["q"] == 0


# one strip in two units


def in_both(quarters: int) -> tuple[int, int]:
    """A length of so many quarter inches to the nearest inch and to the nearest centimetre."""
    inches = Fraction(quarters, 4)
    return nearest(inches), nearest(inches * CM_AN_INCH)


def _two_units(numbers: Numbers) -> Made:
    t = numbers["t"]
    inches, cm = in_both(t)
    return Made(
        Row((Gap("1"), _INCHES, Gap("2"), Word("cm"))),
        (Part("1", "digits", str(inches), 2), Part("2", "digits", str(cm), 2)),
        (Step("both-sides", {"inches": inches, "cm": cm}), Step("smaller-unit-more")),
        {ErrorWayId("same-number-expected"): f"{inches} {inches}"},
        _ruler(t // 4, t % 4, both=1),
        0.3 + 0.02 * t,
    )


def _why_more(numbers: Numbers) -> Made:
    t = numbers["t"]
    inches, cm = in_both(t)
    errors = {
        ErrorWayId("more-means-longer"): "it-is-longer-in-cm",
        ErrorWayId("same-number-expected"): "one-number-is-wrong",
    }
    return Made(
        Question("why-more-cm", {"inches": inches, "cm": cm}),
        (ring_one("cm-are-smaller", errors, turn=seed_from("why-more", t)),),
        (Step("smaller-unit-more"),),
        errors,
        _ruler(t // 4, t % 4, both=1),
        0.5,
    )


# feet and yards

IN_FEET: tuple[tuple[str, int], ...] = (
    ("door", 7),
    ("bench", 4),
    ("table", 5),
    ("bed", 6),
    ("room", 12),
    ("wall", 15),
    ("boat-deck", 20),
    ("window", 3),
)
"""Things and about how many feet they are long or tall (common practice, no source)."""

_TENS = 10
_CHILDS_FOOT = Fraction(8, 12)
"""A child's foot beside the unit of that name (common practice, no source)."""


def in_own_feet(feet: int) -> int:
    """How often a child's own foot goes into so many feet."""
    return nearest(feet / _CHILDS_FOOT)


def _changed(numbers: Numbers) -> tuple[int, str, str, int, int | None]:
    """The number told, its unit, the unit asked for, the answer, and the answer of ten inches a foot."""
    k, n = numbers["k"], numbers["n"]
    if k == 0:
        return n, "feet", "inches", n * INCHES_A_FOOT, n * _TENS
    if k == 1:
        return n, "yards", "feet", n * FEET_A_YARD, None
    return n * FEET_A_YARD, "feet", "yards", n, None


def _change_units(numbers: Numbers) -> Made:
    told, unit, asked, answer, by_tens = _changed(numbers)
    big, small = (unit, asked) if answer > told else (asked, unit)
    return Made(
        Row((told, Word(unit, told), "=", Gap("1"), Word(asked, 2))),
        (Part("1", "digits", str(answer), 2),),
        (Step(f"unit-{big}-{small}"), Step("so-many-units", {"a": told, "b": answer, "from": unit, "to": asked})),
        {} if by_tens is None else {ErrorWayId("ten-inches-a-foot"): str(by_tens)},
        None,
        0.3 + 0.05 * numbers["n"],
    )


def _choose_feet(numbers: Numbers) -> Made:
    if numbers["k"] == 0:
        made = _change_units(numbers)
        n = numbers["n"]
        part = ring_one(made.parts[0].answer, made.errors, turn=seed_from("feet", n))
        return Made(Question("inches-in-feet", {"n": n}), (part,), made.steps, made.errors, None, made.difficulty)
    thing, feet = IN_FEET[numbers["n"] - 1]
    errors = {ErrorWayId("foot-is-my-foot"): str(in_own_feet(feet))}
    return Made(
        Question("about-how-many-feet", {"thing": thing}),
        (ring_one(str(feet), errors, turn=seed_from("thing-feet", thing)),),
        (Step("ruler-is-a-foot", {"n": feet}),),
        errors,
        None,
        0.5,
    )


def _is_changed(numbers: Numbers) -> bool:
    return numbers["k"] < 3


def _has_a_way(numbers: Numbers) -> bool:
    return numbers["k"] in (0, 3)


# guess

ABOUT: tuple[tuple[str, int, str], ...] = (
    ("pencil", 7, "inches"),
    ("spoon", 6, "inches"),
    ("leaf", 3, "inches"),
    ("finger", 2, "inches"),
    ("book", 9, "inches"),
    ("shoe", 8, "inches"),
    ("door", 7, "feet"),
    ("table", 5, "feet"),
    ("room", 12, "feet"),
    ("wall", 15, "feet"),
    ("boat-deck", 20, "feet"),
)
"""Things and about how long they are, in the unit that fits (common practice, no source)."""


def _guess(numbers: Numbers) -> Made:
    n = numbers["n"]
    if numbers["k"] == 1:
        thing, size, unit = ABOUT[n - 2]
        wrong = {ErrorWayId("unit-size-unsure"): "feet" if unit == "inches" else "inches"}
        return Made(
            Question("inches-or-feet", {"thing": thing, "n": size}),
            (ring_fixed(unit, ("inches", "feet"), wrong),),
            (Step("fingers-or-ruler"),),
            wrong,
            None,
            0.4,
        )
    errors = {ErrorWayId("no-benchmark"): str(2 * n if seed_from("far", n) % 2 else -(-n // 2))}
    return Made(
        Question("about-how-many-inches"),
        (ring_one(str(n), errors, turn=seed_from("guess-inches", n)),),
        (Step("known-length", {"n": n}),),
        errors,
        Figure(
            "objects-line",
            {"lengths": (25, round(n * 10 * CM_AN_INCH)), "names": ("1 in", "?"), "question": 1},
        ),
        0.3 + 0.05 * n,
    )


def _then_measure(numbers: Numbers) -> Made:
    """Guessed first, aloud; then read from the ruler."""
    n = numbers["n"]
    return Made(
        Question("guess-then-measure"),
        (Part("1", "digits", str(n), 2),),
        (Step("zero-at-end", {"n": n}),),
        {},
        _ruler(n, 0),
        0.2 + 0.04 * n,
    )


def _on_paper(numbers: Numbers) -> bool:
    return numbers["k"] == 0


# halves and quarters of an inch


def _parts_of_an_inch(numbers: Numbers) -> Made:
    inches, quarters = divmod(numbers["t"], 4)
    top, bottom = (1, 2) if quarters == 2 else (quarters, 4)
    rounded = nearest(Fraction(numbers["t"], 4))
    return Made(
        Row((Gap("1"), Word("inches-and"), Gap("2"), "/", Gap("3"), Word("equal-parts"))),
        (Part("1", "digits", str(inches), 1), Part("2", "digits", str(top), 1), Part("3", "digits", str(bottom), 2)),
        (Step("parts-an-inch", {"n": bottom}), Step("past-the-inch", {"inches": inches, "top": top, "parts": bottom})),
        {
            ErrorWayId("marks-as-tenths"): f"{inches} {top} 10",
            ErrorWayId("rounds-to-whole-inch"): f"{rounded} 0 {bottom}",
        },
        _ruler(inches, quarters, parts=bottom),
        0.3 + 0.02 * numbers["t"] + (0.1 if bottom == 4 else 0),
    )


RULES: tuple[SkillRule, ...] = (
    SkillRule(
        SkillId("measure-length-inch"),
        formats={MEASURE: _measure, FormatId("draw-len"): _draw, FIX: _mend},
        fits={FormatId("draw-len"): _whole_inches, FIX: _some_way_is_wrong},
    ),
    SkillRule(SkillId("measure-two-units"), formats={MEASURE: _two_units, CHOOSE: _why_more}),
    SkillRule(
        SkillId("measure-foot-yard"),
        formats={MEASURE: _change_units, CHOOSE: _choose_feet},
        fits={MEASURE: _is_changed, CHOOSE: _has_a_way},
    ),
    SkillRule(
        SkillId("estimate-length-customary"),
        formats={FormatId("estimate"): _guess, MEASURE: _then_measure},
        fits={MEASURE: _on_paper},
    ),
    SkillRule(SkillId("ruler-half-quarter-inch"), formats={MEASURE: _parts_of_an_inch}),
)
