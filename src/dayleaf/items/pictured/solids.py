"""Solids: their names, and how many faces, edges and corners they have."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.core.seeds import seed_from
from dayleaf.items.choices import ring_one
from dayleaf.items.model import Figure, Gap, Option, Part, Question, Row, Step, Word
from dayleaf.items.pictured.letters import LETTERS, shuffled
from dayleaf.items.rule import Made, SkillRule

if TYPE_CHECKING:
    from collections.abc import Mapping

    from dayleaf.items.rule import Numbers

SOLIDS = ("cube", "box", "pyramid", "cylinder", "cone", "sphere")
_FLAT: Mapping[str, str] = {
    "cube": "square",
    "box": "rectangle",
    "pyramid": "triangle",
    "cylinder": "rectangle",
    "cone": "triangle",
    "sphere": "circle",
}
_LOOK_ALIKE: Mapping[str, str] = {
    "cube": "box",
    "box": "cube",
    "pyramid": "cone",
    "cylinder": "cone",
    "cone": "pyramid",
    "sphere": "cylinder",
}
_MIXED = frozenset({"cone", "pyramid"})


def _way(solid: str) -> ErrorWayId:
    return ErrorWayId("cone-pyramid-mixed" if solid in _MIXED else "look-alike-name")


def _name(numbers: Numbers) -> Made:
    """The name of a drawn solid (s = 0), or the drawing that has a name (s = 1 … 3, three arrangements)."""
    solid, s = SOLIDS[numbers["k"]], numbers["s"]
    alike, way = _LOOK_ALIKE[solid], _way(solid)
    steps = (Step("solid-is", {"solid": solid}),)
    if s == 0:
        errors = {ErrorWayId("solid-as-flat"): _FLAT[solid], way: alike}
        part = ring_one(solid, errors, turn=seed_from("solid", solid))
        figure = Figure("solids-3d", {"solids": (solid,), "question": 1})
        return Made(Question("name-solid"), (part,), steps, errors, figure, 0.3)
    rest = [other for other in SOLIDS if other not in (solid, alike)]
    shown = shuffled((solid, alike, rest[s % len(rest)]), "solids", s, solid)
    options = tuple(
        Option(letter, way if other == alike else None) for letter, other in zip(LETTERS, shown, strict=False)
    )
    return Made(
        Question("find-solid", {"solid": solid}),
        (Part("1", "choice", LETTERS[shown.index(solid)], options=options),),
        steps,
        {way: LETTERS[shown.index(alike)]},
        Figure("solids-3d", {"solids": shown, "question": 1}),
        0.4,
    )


COUNTS: Mapping[str, tuple[int, int, int]] = {
    "cube": (6, 12, 8),
    "box": (6, 12, 8),
    "pyramid": (5, 8, 5),
    "cylinder": (2, 0, 0),
    "cone": (1, 0, 0),
    "sphere": (0, 0, 0),
}
"""Flat faces, edges and corners; of round solids only the flat faces are asked."""

SEEN: Mapping[str, tuple[int, int, int]] = {
    "cube": (3, 9, 7),
    "box": (3, 9, 7),
    "pyramid": (2, 5, 4),
    "cylinder": (1, 0, 0),
    "cone": (0, 0, 0),
    "sphere": (0, 0, 0),
}
"""The same without what the drawing shows in dashes."""

_ASKED = ("faces", "edges", "corners")


def _count(numbers: Numbers) -> Made:
    solid, q = SOLIDS[numbers["k"]], numbers["q"]
    faces, edges, corners = COUNTS[solid]
    answer = (faces, edges, corners)[q]
    errors = {ErrorWayId("hidden-faces-missed"): str(SEEN[solid][q])}
    if q:
        errors[ErrorWayId("edge-corner-mixed")] = str(corners if q == 1 else edges)
    word = "flat-faces" if q == 0 and not edges else _ASKED[q]
    return Made(
        Row((Word(word), Gap("1"))),
        (Part("1", "digits", str(answer), 2),),
        (Step("count-all-round", {"n": answer}),),
        errors,
        Figure("solids-3d", {"solids": (solid,), "question": 1}),
        (0.3, 0.8, 0.6)[q],
    )


RULES: tuple[SkillRule, ...] = (
    SkillRule(SkillId("solids-name"), formats={FormatId("choose"): _name}),
    SkillRule(SkillId("solids-faces-edges-corners"), formats={FormatId("table"): _count}),
)
