"""Shapes and solids to match with their names, and shapes that fit on each other."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, SkillId
from dayleaf.items.model import Figure, Row, Step, Word
from dayleaf.items.paired.partners import Sides, rules_for
from dayleaf.items.pictured.polygons import PATTERNS, TURNS
from dayleaf.items.pictured.solids import SOLIDS

if TYPE_CHECKING:
    from dayleaf.items.rule import Numbers, SkillRule

_POLYGONS = {3: "triangle", 4: "quadrilateral", 5: "pentagon", 6: "hexagon"}
_LOOKS = {
    3: ("triangle", "tall-triangle", "right-triangle"),
    4: ("quadrilateral", "kite", "trapezoid"),
    5: ("pentagon", "long-pentagon", "house"),
    6: ("hexagon", "long-hexagon", "l-shape"),
}
"""Shapes with so many sides, the even one first."""


def _shape(name: str, *, size: int, angle: int) -> Figure:
    return Figure("shapes-2d", {"shapes": (name,), "sizes": (size,), "angles": (angle,), "question": 1})


POLYGONS = Sides(
    "n=3..6 v=0..2 a=0..5 |",
    value=lambda numbers: numbers["n"],
    left=lambda numbers: _shape(_LOOKS[numbers["n"]][numbers["v"]], size=20, angle=20 * numbers["a"]),
    right=lambda numbers: Row((Word(_POLYGONS[numbers["n"]], 1),)),
    step=lambda numbers: Step("sides-name", {"n": numbers["n"], "name": _POLYGONS[numbers["n"]]}),
    hard=lambda numbers: 0.1 * numbers["n"] + 0.15 * numbers["v"],
    ways={ErrorWayId("counts-start-corner-twice"): lambda numbers: numbers["n"] + 1},
    pairs=3,
)
"""A shape with five sides, and pentagon."""

SOLID_NAMES = Sides(
    "k=0..5 s=0..3 |",
    value=lambda numbers: numbers["k"],
    left=lambda numbers: Figure("solids-3d", {"solids": (SOLIDS[numbers["k"]],), "question": 1}),
    right=lambda numbers: Row((Word(SOLIDS[numbers["k"]], 1),)),
    step=lambda numbers: Step("solid-is", {"solid": SOLIDS[numbers["k"]]}),
    hard=lambda _numbers: 0.3,
    ways={
        ErrorWayId("cone-pyramid-mixed"): lambda numbers: {2: 4, 4: 2}.get(numbers["k"]),
        ErrorWayId("look-alike-name"): lambda numbers: {0: 1, 1: 0}.get(numbers["k"]),
    },
    pairs=3,
    near=lambda numbers: ((numbers["k"] + 1 + numbers["s"]) % len(SOLIDS),),
)
"""A drawn cone, and cone."""

_NAMES = ("circle", "triangle", "square", "rectangle", "hexagon")
_TURNED = (0, 45, 20, 100)


def _is_clear(numbers: Numbers) -> bool:
    """Each square is a rectangle too, so only one of the two may stand among the names: squares are left out."""
    return _NAMES[numbers["k"]] != "square"


SHAPE_NAMES = Sides(
    "k=0..4 s=0..11 |",
    value=lambda numbers: numbers["k"],
    left=lambda numbers: _shape(
        _NAMES[numbers["k"]],
        size=16 + numbers["s"] % 4,
        angle=0 if _NAMES[numbers["k"]] == "circle" else _TURNED[numbers["s"] // 3],
    ),
    right=lambda numbers: Row((Word(_NAMES[numbers["k"]], 1),)),
    step=lambda numbers: Step("turned-keeps-name", {"kind": _NAMES[numbers["k"]]}),
    hard=lambda numbers: 0.2 + 0.3 * (_TURNED[numbers["s"] // 3] > 0),
    ways={},
    pairs=3,
    usable=_is_clear,
    near=lambda numbers: ((numbers["k"] + 1 + numbers["s"]) % len(_NAMES),),
)
"""A turned triangle, and triangle."""

FITTING = Sides(
    "k=0..7 s=0..5 |",
    value=lambda numbers: numbers["k"],
    left=lambda numbers: _shape(PATTERNS[numbers["k"]], size=22, angle=0),
    right=lambda numbers: _shape(PATTERNS[numbers["k"]], size=22, angle=TURNS[numbers["s"]]),
    step=lambda _numbers: Step("turn-and-lay-on"),
    hard=lambda _numbers: 0.5,
    ways={},
    pairs=3,
    near=lambda numbers: ((numbers["k"] + 1 + numbers["s"]) % len(PATTERNS),),
)
"""A shape, and the same turned."""

SIDES: dict[SkillId, Sides] = {
    SkillId("polygon-sides-corners"): POLYGONS,
    SkillId("solids-name"): SOLID_NAMES,
    SkillId("shapes-2d-name"): SHAPE_NAMES,
    SkillId("congruent-shapes"): FITTING,
}
"""The two sides of every skill here; a test holds their rules against the skills' files."""

RULES: tuple[SkillRule, ...] = rules_for(SIDES)
