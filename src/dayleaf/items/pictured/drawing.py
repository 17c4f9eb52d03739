"""Shapes, fold lines, levels and stories to draw, and lengths to measure with a ruler of one's own."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.items.model import Figure, Gap, Part, Question, Row, Step, Word
from dayleaf.items.pictured import lengths, scales, shapes, tools, word_stories
from dayleaf.items.pictured.aloud import as_before, rule_with
from dayleaf.items.rule import Made, SkillRule

if TYPE_CHECKING:
    from dayleaf.items.model import Token
    from dayleaf.items.rule import Numbers

DRAW, MEASURE, ESTIMATE = FormatId("draw"), FormatId("measure"), FormatId("estimate")
_LOOK = (Part("1", "look", ""),)
_CM = Word("cm")
_LONGEST = 14
"""Centimetres of a strip that fits between the margins beside its name."""

_WAYS_TO_DRAW = ("large", "small", "turned")


# draw


def _shape(numbers: Numbers) -> Made:
    """A shape of one's own, large, small or turned (s = 0, 1, 2)."""
    plain = rule_with(shapes.RULES, "shapes-2d-attributes", "tick-many").formats[FormatId("tick-many")](numbers)
    kind = plain.prompt.values["kind"] if isinstance(plain.prompt, Question) else ""
    return Made(
        Question(f"draw-shape-{_WAYS_TO_DRAW[numbers['s']]}", {"kind": kind}), _LOOK, plain.steps, {}, None, 0.4
    )


def three_a_kind(numbers: Numbers) -> bool:
    """Large, small, turned."""
    return numbers["s"] < len(_WAYS_TO_DRAW)


def _fold_line(numbers: Numbers) -> Made:
    """A shape without its line of symmetry."""
    shape, _, _ = shapes.FOLDS[numbers["c"]]
    return Made(
        Question("draw-fold-line"),
        _LOOK,
        (Step("fold-and-match"),),
        {},
        Figure("shapes-2d", {"shapes": (shape,), "sizes": (36,), "question": 1}),
        0.5,
    )


def first_true_fold(numbers: Numbers) -> bool:
    """A shape with a line that matches, once for each shape."""
    shape = shapes.FOLDS[numbers["c"]][0]
    return numbers["c"] == next((i for i, (name, _, fits) in enumerate(shapes.FOLDS) if name == shape and fits), -1)


def _level(numbers: Numbers) -> Made:
    """An empty thermometer to color up to a number of degrees."""
    plain = rule_with(scales.RULES, "temp-thermometer", "scale-read").formats[FormatId("scale-read")](numbers)
    shown = dict(plain.figure.params) if plain.figure else {}
    level, unit = int(plain.parts[0].answer), str(shown["unit"])
    return Made(
        Question("draw-level", {"n": level, "unit": unit}),
        _LOOK,
        (*plain.steps[:1], Step("up-to-mark", {"value": level})),
        {},
        Figure("thermometer", {**shown, "level": shown["lo"]}),
        plain.difficulty,
    )


def above_the_lowest(numbers: Numbers) -> bool:
    """Something is to be colored."""
    plain = rule_with(scales.RULES, "temp-thermometer", "scale-read").formats[FormatId("scale-read")](numbers)
    return plain.figure is not None and plain.figure.params["level"] != plain.figure.params["lo"]


def _cut(numbers: Numbers) -> Made:
    """A shape without the pieces it is made of."""
    whole, piece, _, count, _ = shapes.FILLS[numbers["k"]]
    angle = (0, 30, 90, 180)[numbers["r"]]
    return Made(
        Question("draw-pieces", {"whole": whole, "n": count, "piece": piece}),
        _LOOK,
        (Step("pieces-no-gap", {"n": count}),),
        {},
        Figure("shapes-2d", {"shapes": (whole,), "sizes": (40,), "angles": (angle,), "question": 1}),
        0.5,
    )


# measure


def _two_sides(numbers: Numbers) -> Made:
    """The two sides of a rectangle as strips at true size, measured with a ruler, then all the way round."""
    a, b = numbers["a"], numbers["b"]
    tokens: tuple[Token, ...] = ("A", Gap("1"), _CM, "B", Gap("2"), _CM, Word("all-round"), Gap("3"), _CM)
    return Made(
        Row(tokens),
        tuple(Part(str(i), "digits", str(n), 3 if i == 3 else 2) for i, n in enumerate((a, b, 2 * (a + b)), start=1)),
        (Step("measure-both-sides", {"a": a, "b": b}), Step("two-sides", {"a": a, "b": b, "sum": a + b})),
        {
            ErrorWayId("side-left-out"): f"{a} {b} {a + b}",
            ErrorWayId("area-for-perimeter"): f"{a} {b} {a * b}",
        },
        Figure("objects-line", {"lengths": (10 * a, 10 * b), "question": 1}),
        min(1.0, 0.3 + (a + b) / 60),
    )


def sides_on_paper(numbers: Numbers) -> bool:
    """Both sides can be drawn at true size."""
    return 2 <= numbers["b"] <= numbers["a"] <= _LONGEST


def _strip(numbers: Numbers) -> Made:
    """A strip at true size without a ruler under it."""
    n = numbers["n"]
    return Made(
        Row((Gap("1"), _CM)),
        (Part("1", "digits", str(n), 2),),
        (Step("zero-at-end", {"n": n}),),
        {},
        Figure("objects-line", {"lengths": (10 * n,), "question": 1}),
        n / 20,
    )


def _guess(numbers: Numbers) -> Made:
    """A strip over a ruler: guess, then read."""
    made = rule_with(lengths.RULES, "measure-length-cm", "measure").formats[MEASURE](numbers)
    return Made(Question("guess-then-measure-cm"), made.parts, made.steps, made.errors, made.figure, made.difficulty)


def _at_home(numbers: Numbers) -> Made:
    plain = rule_with(tools.RULES, "measure-length-meter", "choose").formats[FormatId("choose")](numbers)
    thing = plain.prompt.values["thing"] if isinstance(plain.prompt, Question) else ""
    return Made(Question("measure-at-home", {"thing": thing}), _LOOK, (Step("ends-together"),), {}, None, 0.5)


def is_long(numbers: Numbers) -> bool:
    """Something that is measured in meters."""
    plain = rule_with(tools.RULES, "measure-length-meter", "choose").formats[FormatId("choose")](numbers)
    return plain.parts[0].answer == "m"


_STORY_SKILLS = ("word-bar-part-whole", "word-compare-difference", "word-put-together-20", "word-result-unknown-20")
_FITS_RULER = rule_with(lengths.RULES, "measure-length-cm", "measure").fits[MEASURE]

RULES: tuple[SkillRule, ...] = (
    SkillRule(SkillId("shapes-2d-attributes"), formats={DRAW: _shape}, fits={DRAW: three_a_kind}),
    SkillRule(SkillId("symmetry-line"), formats={DRAW: _fold_line}, fits={DRAW: first_true_fold}),
    SkillRule(SkillId("temp-thermometer"), formats={DRAW: _level}, fits={DRAW: above_the_lowest}),
    SkillRule(SkillId("compose-decompose-shapes"), formats={DRAW: _cut}),
    *(as_before(word_stories.RULES, skill, "word1", new=DRAW) for skill in _STORY_SKILLS),
    SkillRule(SkillId("perimeter-add-sides"), formats={MEASURE: _two_sides}, fits={MEASURE: sides_on_paper}),
    SkillRule(SkillId("estimate-length-metric"), formats={MEASURE: _strip}),
    SkillRule(SkillId("measure-length-cm"), formats={ESTIMATE: _guess}, fits={ESTIMATE: _FITS_RULER}),
    SkillRule(SkillId("measure-length-meter"), formats={MEASURE: _at_home}, fits={MEASURE: is_long}),
)
