"""Shapes and solids to match: with their names, with their faces, and with the same shape turned."""

from __future__ import annotations

from itertools import permutations
from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, SkillId
from dayleaf.core.seeds import seed_from
from dayleaf.items.model import Figure, Match, Row, Step, Word
from dayleaf.items.paired.partners import MATCH, Sides, rules_for
from dayleaf.items.pictured.polygons import NAMES, PATTERNS, TURNS, WITH_SIDES
from dayleaf.items.pictured.shapes import SHAPE_LOOKS, SHAPE_NAMES
from dayleaf.items.pictured.solids import COUNTS, SEEN, SOLIDS
from dayleaf.items.rule import Made, SkillRule
from dayleaf.items.two_numbers import number_part

if TYPE_CHECKING:
    from dayleaf.items.rule import Numbers


def _flat(look: str, size: int, angle: int) -> Figure:
    return Figure("shapes-2d", {"shapes": (look,), "sizes": (size,), "angles": (angle,), "question": 1})


def _solid(numbers: Numbers) -> Figure:
    return Figure("solids-3d", {"solids": (SOLIDS[numbers["k"]],), "question": 1})


POLYGONS = Sides(
    "n=3..6 v=0..2 a=0..5 |",
    value=lambda numbers: numbers["n"],
    left=lambda numbers: _flat(WITH_SIDES[numbers["n"]][numbers["v"]], 24, 20 * numbers["a"]),
    right=lambda numbers: Row((Word(NAMES[numbers["n"]]),)),
    step=lambda numbers: Step("sides-name", {"n": numbers["n"], "name": NAMES[numbers["n"]]}),
    hard=lambda numbers: 0.2 + 0.2 * (numbers["v"] > 0),
    ways={ErrorWayId("counts-start-corner-twice"): lambda numbers: numbers["n"] + 1},
)
"""An uneven shape with five corners, and pentagon."""


def _shape(numbers: Numbers) -> Figure:
    name, s = SHAPE_NAMES[numbers["k"]], numbers["s"]
    looks = SHAPE_LOOKS[name]
    angle = 0 if name == "circle" else (0, 45, 20, 100, 165, 30)[s % 6]
    return _flat(looks[s % len(looks)], 16 + s % 4 * 3, angle)


SHAPES = Sides(
    "k=0..4 s=0..11 | k!=3",
    value=lambda numbers: numbers["k"],
    left=_shape,
    right=lambda numbers: Row((Word(SHAPE_NAMES[numbers["k"]]),)),
    step=lambda numbers: Step("turned-keeps-name", {"kind": SHAPE_NAMES[numbers["k"]]}),
    hard=lambda numbers: 0.2 if numbers["s"] == 0 else 0.6,
    ways={},
    part=True,
)
"""A turned square, and square. Rectangles are left out: a square is one, too, and would have two partners."""

_KINDS = (0, 2, 3, 4, 5)
"""Solids that have one name among these: a cube is a box, too, so the box is left out."""

NAMED_SOLIDS = Sides(
    "k=0..5 s=0..3 | k!=1",
    value=lambda numbers: numbers["k"],
    left=_solid,
    right=lambda numbers: Row((Word(SOLIDS[numbers["k"]]),)),
    step=lambda numbers: Step("solid-is", {"solid": SOLIDS[numbers["k"]]}),
    hard=lambda _: 0.3,
    ways={ErrorWayId("cone-pyramid-mixed"): lambda numbers: {2: 4, 4: 2}.get(numbers["k"])},
    near=lambda numbers: _round_from(numbers["k"], numbers["s"]),
    part=True,
)
"""A cone, and its name; cone and pyramid stand together."""


def _round_from(k: int, s: int) -> list[int]:
    others = [one for one in _KINDS if one != k]
    return others[s:] + others[:s]


FACES = Sides(
    "k=0..5 q=0..0 |",
    value=lambda numbers: COUNTS[SOLIDS[numbers["k"]]][0],
    left=_solid,
    right=lambda numbers: Row(
        (COUNTS[SOLIDS[numbers["k"]]][0], Word("flat-faces-each", COUNTS[SOLIDS[numbers["k"]]][0]))
    ),
    step=lambda numbers: Step("count-all-round", {"n": COUNTS[SOLIDS[numbers["k"]]][0]}),
    hard=lambda numbers: 0.3 if numbers["k"] > 2 else 0.6,
    ways={ErrorWayId("hidden-faces-missed"): lambda numbers: SEEN[SOLIDS[numbers["k"]]][0]},
    part=True,
)
"""A cylinder, and 2 flat faces. Edges and corners are counted in the table: cube and box have as many."""


# the same shape turned

_LARGE, _SMALL = 24, 16


def _same_shape(numbers: Numbers) -> Made:
    """Four shapes, two of one kind in two sizes; across from them the same four, turned."""
    k, s = numbers["k"], numbers["s"]
    others = [kind for kind in PATTERNS if kind != PATTERNS[k]]
    first, second = others[(k + s) % len(others)], others[(k + s + 3) % len(others)]
    shown = ((PATTERNS[k], _LARGE), (PATTERNS[k], _SMALL), (first, _LARGE), (second, _SMALL))
    orders = [one for one in permutations(range(4)) if sum(at == place for at, place in enumerate(one)) <= 1]
    order = orders[seed_from("same-shape", k, s) % len(orders)]
    right = [order.index(at) + 1 for at in range(4)]
    same_kind = ErrorWayId("same-kind-is-congruent")
    return Made(
        Match(
            tuple(_flat(kind, size, 0) for kind, size in shown),
            tuple(_flat(*shown[at], TURNS[(s + at) % len(TURNS)]) for at in order),
        ),
        tuple(number_part(n, 1, str(part)) for part, n in enumerate(right, start=1)),
        (Step("turn-and-lay-on"),) * 4,
        {same_kind: " ".join(map(str, (right[1], right[0], *right[2:])))},
        None,
        0.6,
    )


SIDES: dict[SkillId, Sides] = {
    SkillId("polygon-sides-corners"): POLYGONS,
    SkillId("shapes-2d-name"): SHAPES,
    SkillId("solids-name"): NAMED_SOLIDS,
    SkillId("solids-faces-edges-corners"): FACES,
}
"""The two sides of every skill here; a test holds their rules against the skills' files."""

RULES: tuple[SkillRule, ...] = (
    *rules_for(SIDES),
    SkillRule(SkillId("congruent-shapes"), formats={MATCH: _same_shape}),
)
