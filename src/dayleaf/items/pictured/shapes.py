"""Flat shapes: tick every one of a kind, name one, fold one on a line, fill one with smaller ones."""

from __future__ import annotations

from random import Random
from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.core.seeds import seed_from
from dayleaf.items.choices import ring_fixed, ring_one
from dayleaf.items.model import Figure, Option, Part, Question, Step
from dayleaf.items.pictured.letters import LETTERS
from dayleaf.items.rule import Made, SkillRule

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from dayleaf.items.rule import Numbers

CHOOSE, TICK_MANY = FormatId("choose"), FormatId("tick-many")
_SMALL, _BIG = 14, 24


# tick every one of a kind

_THREE_SIDES = ("triangle", "right-triangle", "long-triangle", "tall-triangle")
_FOUR_SIDES = ("rectangle", "rhombus", "parallelogram", "trapezoid", "kite", "quadrilateral", "right-trapezoid")
_KINDS: tuple[tuple[str, tuple[str, ...], tuple[str, ...], tuple[str, ...]], ...] = (
    ("triangle", _THREE_SIDES, ("open-triangle",), ("drop", "trapezoid", "kite", "half-circle")),
    ("square", ("square",), ("open-square",), ("rhombus", "rectangle", "parallelogram", "trapezoid")),
    ("four-sides", (*_FOUR_SIDES, "square"), ("open-square",), ("pentagon", "half-circle", "tall-triangle", "drop")),
    ("rectangle", ("rectangle", "long-rectangle"), ("open-square",), ("parallelogram", "trapezoid", "oval", "kite")),
    ("hexagon", ("hexagon", "long-hexagon"), (), ("pentagon", "octagon", "trapezoid", "circle")),
)
"""The kind asked for, shapes that are of it, open ones that seem to be, and others."""


def _tick(numbers: Numbers) -> Made:
    """Six shapes, big and small: two or three of the kind, an open one where there is one, and others.

    The way of going by size ticks each big shape; at least one of the kind is small and one of the others big.
    """
    kind, right, opened, others = _KINDS[numbers["k"]]
    rng = Random(seed_from("tick", numbers["k"], numbers["s"]))
    wanted = rng.choices(right, k=rng.choice((2, 3)))
    rest = [*opened, *rng.sample(others, 6 - len(wanted) - len(opened))]
    sized = [(name, _BIG if i % 2 else _SMALL) for i, name in enumerate(wanted)]
    sized += [(name, _SMALL if i % 2 else _BIG) for i, name in enumerate(rest)]
    rng.shuffle(sized)
    names = tuple(name for name, _ in sized)
    sizes = tuple(size for _, size in sized)
    fits = tuple(name in right for name in names)
    open_too, by_size = ErrorWayId("open-shape-ok"), ErrorWayId("color-or-size-counts")
    options = tuple(
        Option(letter, None if fit else open_too if name in opened else by_size if size == _BIG else None)
        for letter, name, size, fit in zip(LETTERS, names, sizes, fits, strict=False)
    )
    errors = {by_size: _letters(size == _BIG for size in sizes)}
    if opened:
        errors[open_too] = _letters(fit or name in opened for name, fit in zip(names, fits, strict=True))
    return Made(
        Question("tick-shapes", {"kind": kind}),
        (Part("1", "many", _letters(fits), options=options),),
        (Step("closed-and-straight", {"kind": kind}),),
        errors,
        Figure(
            "shapes-2d",
            {
                "shapes": names,
                "sizes": sizes,
                "angles": tuple(rng.randrange(0, 360, 15) for _ in names),
                "question": 1,
            },
        ),
        0.5,
    )


def _letters(ticked: Iterable[bool]) -> str:
    return " ".join(letter for letter, tick in zip(LETTERS, ticked, strict=False) if tick)


# name one

SHAPE_NAMES = ("circle", "triangle", "square", "rectangle", "hexagon")
SHAPE_LOOKS: Mapping[str, tuple[str, ...]] = {
    "circle": ("circle",),
    "triangle": _THREE_SIDES,
    "square": ("square",),
    "rectangle": ("rectangle", "long-rectangle"),
    "hexagon": ("hexagon", "long-hexagon"),
}
_LOOK_ALIKE: Mapping[str, tuple[str, ...]] = {
    "circle": ("oval", "sphere"),
    "triangle": ("pentagon",),
    "square": ("rectangle",),
    "rectangle": ("square", "oval"),
    "hexagon": ("pentagon", "circle"),
}


def _name(numbers: Numbers) -> Made:
    name, s = SHAPE_NAMES[numbers["k"]], numbers["s"]
    looks = SHAPE_LOOKS[name]
    look = looks[s % len(looks)]
    angle = 0 if name == "circle" else (45, 20, 0, 100, 165, 45)[s % 6] if s else 0
    alike = ErrorWayId("look-alike-name")
    errors: dict[ErrorWayId, str] = {}
    if name == "square" and angle % 90:
        errors[ErrorWayId("turned-is-different")] = "diamond"
    if name == "triangle" and (angle or look not in ("triangle", "tall-triangle")):
        errors[ErrorWayId("only-one-look")] = "not-a-triangle"
    errors[alike] = _LOOK_ALIKE[name][0]
    part = ring_one(name, errors, turn=seed_from("name", name, s))
    if len(part.options) < 3 and len(_LOOK_ALIKE[name]) > 1:
        part = Part(part.id, part.kind, part.answer, options=(*part.options, Option(_LOOK_ALIKE[name][1], alike)))
    return Made(
        Question("name-shape"),
        (part,),
        (Step("turned-keeps-name", {"kind": name}),),
        errors,
        Figure("shapes-2d", {"shapes": (look,), "sizes": (16 + 2 * s,), "angles": (angle,), "question": 1}),
        0.2 if angle == 0 else 0.6,
    )


# fold on a line

FOLDS: tuple[tuple[str, int, bool], ...] = (
    ("square", 90, True),
    ("square", 0, True),
    ("square", 45, True),
    ("square", 135, True),
    ("rectangle", 90, True),
    ("rectangle", 0, True),
    ("rectangle", 34, False),
    ("rectangle", 146, False),
    ("long-rectangle", 0, True),
    ("long-rectangle", 90, True),
    ("parallelogram", 0, False),
    ("parallelogram", 90, False),
    ("parallelogram", 23, False),
    ("triangle", 90, True),
    ("triangle", 0, False),
    ("tall-triangle", 90, True),
    ("tall-triangle", 0, False),
    ("right-triangle", 90, False),
    ("kite", 90, True),
    ("kite", 0, False),
    ("trapezoid", 90, True),
    ("trapezoid", 0, False),
    ("rhombus", 30, True),
    ("rhombus", 120, True),
    ("rhombus", 0, False),
    ("rhombus", 90, False),
    ("hexagon", 90, True),
    ("hexagon", 0, True),
    ("hexagon", 60, True),
    ("l-shape", 45, True),
    ("l-shape", 90, False),
    ("l-shape", 0, False),
    ("arrow", 0, True),
    ("arrow", 90, False),
    ("house", 90, True),
    ("house", 0, False),
    ("pentagon", 90, True),
    ("pentagon", 0, False),
    ("right-trapezoid", 90, False),
    ("right-trapezoid", 0, False),
)
"""A shape, the angle of a line through its middle in degrees, and whether folding there makes the halves meet."""

HALF_TURN = frozenset({"square", "rectangle", "long-rectangle", "parallelogram", "rhombus", "hexagon"})
"""Shapes that each line through the middle cuts in two equal parts, matching or not."""


def _fold(numbers: Numbers) -> Made:
    shape, angle, matches = FOLDS[numbers["c"]]
    right = "yes" if matches else "no"
    errors = {
        ErrorWayId("half-is-symmetric"): "yes" if matches or shape in HALF_TURN else "no",
        ErrorWayId("one-line-only"): right if angle == 90 else "no",
    }
    return Made(
        Question("fold-matches"),
        (ring_fixed(right, ("yes", "no"), errors),),
        (Step("fold-and-match"),),
        errors,
        Figure("shapes-2d", {"shapes": (shape,), "sizes": (32,), "lines": (angle,), "question": 1}),
        0.2 if angle == 90 else 0.4 if angle == 0 else 0.8,
    )


# fill one with smaller ones

FILLS: tuple[tuple[str, str, int, int, int], ...] = (
    ("hexagon", "triangle", 15, 6, 3),
    ("hexagon", "rhombus", 22, 3, 1),
    ("rhombus", "triangle", 20, 2, 1),
    ("triangle", "triangle", 15, 4, 3),
    ("square", "square", 15, 4, 4),
    ("rectangle", "square", 10, 6, 6),
)
"""The whole (30 mm across), the piece, its size in mm, how many fill the whole, how many fit without a turn."""


def _fill(numbers: Numbers) -> Made:
    whole, piece, size, count, unturned = FILLS[numbers["k"]]
    angle = (0, 30, 90, 180)[numbers["r"]]
    errors = {ErrorWayId("no-turning"): str(unturned), ErrorWayId("gaps-left"): str(count - 1)}
    return Made(
        Question("fill-with", {"whole": whole, "piece": piece}),
        (ring_one(str(count), errors, turn=seed_from("fill", whole, piece, angle)),),
        (Step("pieces-fill", {"n": count}),),
        errors,
        Figure(
            "shapes-2d",
            {"shapes": (whole, piece), "sizes": (30, size), "angles": (angle, angle), "letters": 0, "question": 1},
        ),
        0.4 + 0.05 * count,
    )


RULES: tuple[SkillRule, ...] = (
    SkillRule(SkillId("shapes-2d-attributes"), formats={TICK_MANY: _tick}),
    SkillRule(SkillId("shapes-2d-name"), formats={CHOOSE: _name}),
    SkillRule(SkillId("symmetry-line"), formats={CHOOSE: _fold}),
    SkillRule(SkillId("compose-decompose-shapes"), formats={CHOOSE: _fill}),
)
