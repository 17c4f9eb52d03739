"""Shapes with straight sides: sides and corners, square corners, families of four sides, same size, drawing."""

from __future__ import annotations

from random import Random
from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.core.seeds import seed_from
from dayleaf.items.choices import ring_fixed
from dayleaf.items.model import Figure, Gap, Option, Part, Question, Row, Step, Word
from dayleaf.items.pictured.letters import LETTERS, shuffled
from dayleaf.items.rule import Made, SkillRule

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from dayleaf.items.rule import Numbers

CHOOSE, DRAW, LABEL, TICK_MANY, TF = (FormatId(name) for name in ("choose", "draw", "label", "tick-many", "tf"))
_NONE = "none-of-these"


def _shown(shapes: Sequence[str], sizes: Sequence[int], angles: Sequence[int]) -> Figure:
    return Figure("shapes-2d", {"shapes": tuple(shapes), "sizes": tuple(sizes), "angles": tuple(angles), "question": 1})


# same size and same shape

PATTERNS = ("triangle", "right-triangle", "rectangle", "trapezoid", "kite", "parallelogram", "rhombus", "l-shape")
TURNS = (40, 90, 130, 200, 250, 310)


def _fits_on(numbers: Numbers) -> Made:
    """A is the pattern; one of the others is A turned, one is smaller and not turned, one is of another kind."""
    k, s = numbers["k"], numbers["s"]
    kind, other = PATTERNS[k], PATTERNS[(k + 3) % len(PATTERNS)]
    looks = {"same": (kind, 26, TURNS[s]), "small": (kind, 17, 0), "other": (other, 26, 0)}
    order = shuffled(looks, "fits", k, s)
    letter = {name: LETTERS[i + 1] for i, name in enumerate(order)}
    errors = {
        ErrorWayId("turned-is-different"): _NONE,
        ErrorWayId("same-kind-is-congruent"): letter["small"],
    }
    ways = {code: way for way, code in errors.items()}
    options = tuple(Option(code, ways.get(code)) for code in (*LETTERS[1:4], _NONE))
    drawn = [(kind, 26, 0), *(looks[name] for name in order)]
    return Made(
        Question("fits-on-a"),
        (Part("1", "choice", letter["same"], options=options),),
        (Step("turn-and-lay-on"),),
        errors,
        _shown(*zip(*drawn, strict=True)),
        0.5,
    )


# draw from a description

_CLUES = ("draw-corners", "draw-square-corner", "draw-equal-sides", "draw-uneven-sides")


def _draw_polygon(numbers: Numbers) -> Made:
    n = numbers["n"]
    return Made(
        Question(_CLUES[numbers["c"]], {"n": n}),
        (Part("1", "look", ""),),
        (Step("closed-with-sides", {"n": n}),),
        {},
        None,
        0.1 * n,
    )


_OPEN: Mapping[int, str] = {3: "open-triangle", 4: "open-square"}
_CLOSED: Mapping[int, tuple[str, ...]] = {
    3: ("triangle", "tall-triangle", "right-triangle"),
    4: ("quadrilateral", "kite", "trapezoid"),
}
_MORE: Mapping[int, str] = {3: "kite", 4: "house"}


def _ring_polygon(numbers: Numbers) -> Made:
    n, c = numbers["n"], numbers["c"]
    opened = _OPEN[n]
    order = shuffled((_CLOSED[n][c % 3], opened, _MORE[n]), "ring", n, c)
    way = ErrorWayId("not-closed")
    right = next(LETTERS[i] for i, name in enumerate(order) if name in _CLOSED[n])
    options = tuple(Option(LETTERS[i], way if name == opened else None) for i, name in enumerate(order))
    return Made(
        Question("closed-corners", {"n": n}),
        (Part("1", "choice", right, options=options),),
        (Step("closed-with-sides", {"n": n}),),
        {way: LETTERS[order.index(opened)]},
        _shown(order, (22, 22, 22), tuple(15 * ((c + i) % 4) for i in range(3))),
        0.3,
    )


def _has_an_open_one(numbers: Numbers) -> bool:
    return numbers["n"] in _OPEN


# sides and corners

NAMES: Mapping[int, str] = {3: "triangle", 4: "quadrilateral", 5: "pentagon", 6: "hexagon"}
WITH_SIDES: Mapping[int, tuple[str, ...]] = {
    3: ("triangle", "long-triangle", "right-triangle"),
    4: ("rectangle", "kite", "quadrilateral"),
    5: ("pentagon", "long-pentagon", "house"),
    6: ("hexagon", "long-hexagon", "l-shape"),
}
"""Shapes by their number of sides, the even one first."""


def _one_shape(numbers: Numbers) -> tuple[int, Figure]:
    n = numbers["n"]
    return n, _shown((WITH_SIDES[n][numbers["v"]],), (32,), (20 * numbers["a"],))


def _sides_and_corners(numbers: Numbers) -> Made:
    n, figure = _one_shape(numbers)
    return Made(
        Row((Gap("1"), Word("sides"), Gap("2"), Word("corners"))),
        (Part("1", "digits", str(n), 1), Part("2", "digits", str(n), 1)),
        (Step("mark-and-count", {"n": n}),),
        {ErrorWayId("counts-start-corner-twice"): f"{n} {n + 1}"},
        figure,
        0.1 * n,
    )


def _name_polygon(numbers: Numbers) -> Made:
    n, figure = _one_shape(numbers)
    errors = {ErrorWayId("counts-start-corner-twice"): NAMES.get(n + 1, _NONE)}
    if numbers["v"]:
        errors[ErrorWayId("only-regular-counts")] = _NONE
    return Made(
        Question("name-shape"),
        (ring_fixed(NAMES[n], (*NAMES.values(), _NONE), errors),),
        (Step("mark-and-count", {"n": n}), Step("sides-name", {"n": n, "name": NAMES[n]})),
        errors,
        figure,
        0.2 + 0.2 * (numbers["v"] > 0),
    )


# families of four sides

_KINDS = ("square", "rectangle", "rhombus", "parallelogram", "trapezoid")
_FAMILIES = ("square", "rectangle", "rhombus", "quadrilateral")
_BELONGS = frozenset({("square", "rectangle"), ("square", "rhombus")})
"""Kinds that belong to another family by their sides and corners; every kind here has four sides."""


def _belongs(numbers: Numbers) -> Made:
    kind, family = _KINDS[numbers["k"]], _FAMILIES[numbers["f"]]
    is_true = family == "quadrilateral" or (kind, family) in _BELONGS
    right = "true" if is_true else "not-true"
    errors = {
        ErrorWayId("square-not-rectangle"): "not-true" if (kind, family) in _BELONGS else right,
        ErrorWayId("looks-only"): "not-true",
    }
    return Made(
        Question("every-is", {"kind": kind, "family": family}),
        (ring_fixed(right, ("true", "not-true"), errors),),
        (Step(f"family-{family}"),),
        errors,
        _shown((kind,), (28,), (25 * numbers["a"],)),
        0.8 if (kind, family) in _BELONGS else 0.4,
    )


_SORTED: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("rectangle", ("rectangle", "long-rectangle")),
    ("square", ()),
    ("rhombus", ("rhombus",)),
    ("quadrilateral", ("kite", "trapezoid", "quadrilateral")),
)
_OTHERS: Mapping[str, tuple[str, ...]] = {
    "rectangle": ("parallelogram", "trapezoid", "rhombus", "kite"),
    "square": ("rectangle", "rhombus", "parallelogram", "trapezoid"),
    "rhombus": ("parallelogram", "rectangle", "trapezoid", "kite"),
    "quadrilateral": ("triangle", "pentagon", "half-circle", "hexagon"),
}


def _tick_family(numbers: Numbers) -> Made:
    """Six shapes, among them an upright square and a turned one."""
    family, more = _SORTED[numbers["k"]]
    rng = Random(seed_from("families", numbers["k"], numbers["s"]))
    shown = [("square", 0), ("square", rng.choice((30, 45, 60)))]
    shown += [(name, rng.randrange(0, 180, 15)) for name in more[:2]]
    shown += [(name, rng.randrange(0, 180, 15)) for name in rng.sample(_OTHERS[family], 6 - len(shown))]
    rng.shuffle(shown)
    fits = [name == "square" or name in more for name, _ in shown]
    named = [fit and name != "square" for fit, (name, _) in zip(fits, shown, strict=True)]
    upright = [fit and (name, angle > 0) != ("square", True) for fit, (name, angle) in zip(fits, shown, strict=True)]
    errors = {ErrorWayId("turned-is-different"): _letters(upright)}
    if family != "square" and any(named):
        errors[ErrorWayId("square-not-rectangle")] = _letters(named)
    return Made(
        Question("tick-shapes", {"kind": family}),
        (Part("1", "many", _letters(fits), options=tuple(Option(LETTERS[i]) for i in range(6))),),
        (Step(f"family-{family}"),),
        errors,
        _shown([name for name, _ in shown], [22] * 6, [angle for _, angle in shown]),
        0.6,
    )


def _letters(ticked: Sequence[bool]) -> str:
    return " ".join(letter for letter, tick in zip(LETTERS, ticked, strict=False) if tick)


# square corners

SQUARE_CORNERS: tuple[tuple[str, int, int], ...] = (
    ("square", 4, 4),
    ("rectangle", 4, 0),
    ("right-triangle", 1, 0),
    ("right-trapezoid", 2, 0),
    ("house", 2, 2),
    ("long-rectangle", 4, 0),
    ("parallelogram", 0, 0),
    ("kite", 0, 0),
    ("triangle", 0, 0),
    ("pentagon", 0, 0),
)
"""A shape, its square corners, and those of them whose two sides are equally long."""


def _square_corners(numbers: Numbers) -> Made:
    shape, count, equal = SQUARE_CORNERS[numbers["k"]]
    angle = 20 * numbers["a"]
    return Made(
        Row((Gap("1"), Word("square-corners"))),
        (Part("1", "digits", str(count), 1),),
        (Step("lay-the-checker", {"n": count}),),
        {
            ErrorWayId("longer-arms-bigger"): str(equal),
            ErrorWayId("turned-is-different"): str(0 if angle else count),
        },
        _shown((shape,), (34,), (angle,)),
        0.2 + 0.1 * numbers["a"],
    )


# put together

PIECES: tuple[tuple[str, int, str], ...] = (
    ("square", 2, "triangle"),
    ("square", 4, "triangle"),
    ("square", 2, "rectangle"),
    ("square", 4, "square"),
    ("rectangle", 2, "triangle"),
    ("rectangle", 6, "square"),
    ("rhombus", 2, "triangle"),
    ("triangle", 4, "triangle"),
    ("hexagon", 2, "trapezoid"),
    ("hexagon", 6, "triangle"),
)
"""A shape, and pieces of one kind that make it."""


def _draw_pieces(numbers: Numbers) -> Made:
    whole, n, piece = PIECES[numbers["k"]]
    return Made(
        Question("draw-pieces", {"whole": whole, "n": n, "piece": piece}),
        (Part("1", "look", ""),),
        (Step("pieces-no-gap", {"n": n}),),
        {},
        _shown((whole,), (40,), (30 * numbers["a"],)),
        0.1 * n,
    )


RULES: tuple[SkillRule, ...] = (
    SkillRule(SkillId("congruent-shapes"), formats={CHOOSE: _fits_on}),
    SkillRule(
        SkillId("polygon-draw"),
        formats={DRAW: _draw_polygon, CHOOSE: _ring_polygon},
        fits={CHOOSE: _has_an_open_one},
    ),
    SkillRule(SkillId("polygon-sides-corners"), formats={CHOOSE: _name_polygon, LABEL: _sides_and_corners}),
    SkillRule(SkillId("quadrilateral-family"), formats={TF: _belongs}),
    SkillRule(SkillId("quadrilaterals-sort"), formats={TICK_MANY: _tick_family}),
    SkillRule(SkillId("shape-square-corner"), formats={LABEL: _square_corners}),
    SkillRule(SkillId("shapes-compose-2d"), formats={DRAW: _draw_pieces}),
)
