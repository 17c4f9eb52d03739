"""Flat shapes to sort: by name, and by whether folding on a line makes both halves meet."""

from __future__ import annotations

from random import Random
from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, SkillId
from dayleaf.core.seeds import seed_from
from dayleaf.items.model import Figure, Step
from dayleaf.items.paired.sorting import SORT, sorted_made
from dayleaf.items.pictured.shapes import FOLDS, HALF_TURN
from dayleaf.items.rule import SkillRule

if TYPE_CHECKING:
    from collections.abc import Mapping

    from dayleaf.items.rule import Made, Numbers

NONE = "none-of-these"
TURNED, ONE_LOOK = ErrorWayId("turned-is-different"), ErrorWayId("only-one-look")
LOOK_ALIKE = ErrorWayId("look-alike-name")
HALVES, ONE_LINE = ErrorWayId("half-is-symmetric"), ErrorWayId("one-line-only")

_NAMES = ("circle", "triangle", "square", "rectangle", "hexagon")
_LOOKS: Mapping[str, tuple[str, ...]] = {
    "circle": ("circle",),
    "triangle": ("triangle", "right-triangle", "long-triangle", "tall-triangle"),
    "square": ("square",),
    "rectangle": ("rectangle", "long-rectangle"),
    "hexagon": ("hexagon", "long-hexagon"),
}
_ALIKE: Mapping[str, str] = {
    "circle": "oval",
    "triangle": "kite",
    "square": "rhombus",
    "rectangle": "parallelogram",
    "hexagon": "pentagon",
}
"""A shape that is often given the name and does not have it."""

_NOT_TOGETHER = {"square", "rectangle"}
"""Each square is a rectangle too: the two are no two groups of one table."""

_TURNS = (0, 45, 20, 100, 165, 45)
_EVEN_LOOKS = ("triangle", "tall-triangle")


def _by_name(numbers: Numbers) -> Made:
    """Two shapes of each of two names and what looks like them: a column for each name, one for neither."""
    k, s = numbers["k"], numbers["s"]
    first = _NAMES[k]
    others = [name for name in _NAMES if name != first and {name, first} != _NOT_TOGETHER]
    second = others[s % len(others)]
    groups = (first, second, NONE)
    rng = Random(seed_from("sort-shapes", k, s))
    own = (_LOOKS[first][s % len(_LOOKS[first])], first, _TURNS[s % len(_TURNS)])
    rest = [
        (rng.choice(_LOOKS[first]), first, rng.choice(_TURNS)),
        *((rng.choice(_LOOKS[second]), second, rng.choice(_TURNS)) for _ in range(2)),
        (_ALIKE[first], NONE, rng.choice(_TURNS)),
        (_ALIKE[second], NONE, rng.choice(_TURNS)),
    ]
    rng.shuffle(rest)
    things = [own, *rest]
    alike = {_ALIKE[name]: name for name in (first, second)}
    seen = {
        TURNED: [NONE if name == "square" and turn % 90 else name for _, name, turn in things],
        ONE_LOOK: [
            NONE if name == "triangle" and (turn or look not in _EVEN_LOOKS) else name for look, name, turn in things
        ],
        LOOK_ALIKE: [alike.get(look, name) for look, name, _ in things],
    }
    sizes = [13 + s % 5, *(rng.randrange(13, 18) for _ in rest)]
    return sorted_made(
        [_shape(look, size, turn) for (look, _, turn), size in zip(things, sizes, strict=True)],
        [name for _, name, _ in things],
        groups,
        seen=seen,
        steps=(Step("turned-keeps-name", {"kind": first}),),
        difficulty=0.3 if own[2] == 0 else 0.6,
    )


def _shape(look: str, size: int, turn: int) -> Figure:
    angle = 0 if look == "circle" else turn
    return Figure("shapes-2d", {"shapes": (look,), "sizes": (size,), "angles": (angle,), "question": 1})


def _by_folding(numbers: Numbers) -> Made:
    """Five shapes with a line each: do both halves meet when folded there?"""
    own = FOLDS[numbers["c"]]
    rng = Random(seed_from("sort-folds", numbers["c"]))
    others = [fold for fold in FOLDS if fold[0] != own[0]]
    rest = [
        *rng.sample([fold for fold in others if fold[2]], 2),
        *rng.sample([fold for fold in others if not fold[2]], 2),
    ]
    rng.shuffle(rest)
    folds = [own, *rest]
    seen = {
        HALVES: ["yes" if meets or shape in HALF_TURN else "no" for shape, _, meets in folds],
        ONE_LINE: ["yes" if meets and angle == 90 else "no" for _, angle, meets in folds],
    }
    groups = ("yes", "no")
    return sorted_made(
        [
            Figure("shapes-2d", {"shapes": (shape,), "sizes": (18,), "lines": (angle,), "question": 1})
            for shape, angle, _ in folds
        ],
        ["yes" if meets else "no" for _, _, meets in folds],
        groups,
        seen=seen,
        steps=(Step("fold-and-match"),),
        difficulty=0.2 if own[1] == 90 else 0.4 if own[1] == 0 else 0.8,
    )


RULES: tuple[SkillRule, ...] = (
    SkillRule(SkillId("shapes-2d-name"), formats={SORT: _by_name}),
    SkillRule(SkillId("symmetry-line"), formats={SORT: _by_folding}),
)
