"""Moves on a map written down in numbers, and places found by moving from a thing."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.core.seeds import seed_from
from dayleaf.items.choices import ring_one
from dayleaf.items.model import Figure, Gap, Part, Question, Row, Step, Word
from dayleaf.items.pictured.letters import shuffled
from dayleaf.items.pictured.maps import across, letter_differs, program, square, swapped, upward
from dayleaf.items.rule import Made, SkillRule

if TYPE_CHECKING:
    from dayleaf.items.pictured.maps import Place
    from dayleaf.items.rule import Numbers

CODE_WRITE, PATH = FormatId("code-write"), FormatId("path")
START_COUNTED, SWAPPED = ErrorWayId("start-square-counted"), ErrorWayId("letter-number-swapped")
_FLOOR = 4
_THINGS = ("tree", "well", "hut", "bridge", "flower", "heron", "bell", "bench")


def _floor(start: Place, **more: tuple[str, ...]) -> Figure:
    params: dict[str, int | str | tuple[str, ...]] = {"columns": _FLOOR, "rows": _FLOOR, "start": square(start)}
    return Figure("grid-map", {**params, **more, "question": 1})


def _legs(figure: Figure, legs: tuple[tuple[str, int], ...], steps: tuple[Step, ...]) -> Made:
    """So many moves this way, then so many that way. The start counted as a move makes the first leg one longer."""
    (first, n), (second, m) = legs
    return Made(
        Row((Word(f"go-{first}"), Gap("1"), Word(f"go-{second}"), Gap("2"))),
        (Part("1", "digits", str(n), 1), Part("2", "digits", str(m), 1)),
        steps,
        {START_COUNTED: f"{n + 1} {m}"},
        figure,
        0.1 + 0.1 * (n + m),
    )


def _to_the_gate(numbers: Numbers) -> Made:
    """How many moves across and up or down lead to the gate."""
    (x, y), (u, v) = (numbers["x"], numbers["y"]), (numbers["u"], numbers["v"])
    dx, dy = u - x, v - y
    flat, steep = across(dx), upward(dy)
    return _legs(
        _floor((x, y), things=("gate",), places=(square((u, v)),)),
        ((flat, abs(dx)), (steep, abs(dy))),
        (
            Step("leg", {"way": flat, "n": abs(dx), "square": square((u, y))}),
            Step("leg", {"way": steep, "n": abs(dy), "square": square((u, v))}),
        ),
    )


_AHEAD = {"right": (1, 0), "left": (-1, 0), "up": (0, 1), "down": (0, -1)}


def _along_the_line(numbers: Numbers) -> Made:
    """The two legs of a line that is drawn."""
    start = (numbers["x"], numbers["y"])
    legs = program(numbers)
    corners = [start]
    places = [start]
    for way, n in legs:
        for _ in range(n):
            places.append((places[-1][0] + _AHEAD[way][0], places[-1][1] + _AHEAD[way][1]))
        corners.append(places[-1])
    steps = tuple(
        Step("leg", {"way": way, "n": n, "square": square(stop)})
        for (way, n), (_, stop) in zip(legs, pairwise(corners), strict=True)
    )
    return _legs(_floor(start, path=tuple(square(place) for place in places)), legs, steps)


def _from_thing(numbers: Numbers) -> Made:
    """Go from a thing to another square, and name that square."""
    goal = (numbers["a"], numbers["b"])
    size = min(8, max(5, *(n + 1 for n in goal)))
    starts = [
        (x, y)
        for x in range(1, size + 1)
        for y in range(1, size + 1)
        if 0 < abs(goal[0] - x) <= 3 and 0 < abs(goal[1] - y) <= 3
    ]
    start = starts[seed_from("from", *goal) % len(starts)]
    dx, dy = goal[0] - start[0], goal[1] - start[1]
    flat, steep = across(dx), upward(dy)
    thing = shuffled(_THINGS, "path-from", *goal)[0]
    errors = {SWAPPED: square(swapped(goal))}
    return Made(
        Question("path-from", {"thing": thing, "first": flat, "n": abs(dx), "second": steep, "m": abs(dy)}),
        (ring_one(square(goal), errors, turn=seed_from("stop", *goal)),),
        (
            Step("leg", {"way": flat, "n": abs(dx), "square": square((goal[0], start[1]))}),
            Step("leg", {"way": steep, "n": abs(dy), "square": square(goal)}),
        ),
        errors,
        Figure(
            "grid-map",
            {"columns": size, "rows": size, "things": (thing,), "places": (square(start),), "question": 1},
        ),
        0.5,
    )


RULES: tuple[SkillRule, ...] = (
    SkillRule(SkillId("code-grid-moves"), formats={CODE_WRITE: _to_the_gate}),
    SkillRule(SkillId("code-trace"), formats={CODE_WRITE: _along_the_line}),
    SkillRule(SkillId("grid-map-coordinates"), formats={PATH: _from_thing}, fits={PATH: letter_differs}),
)
