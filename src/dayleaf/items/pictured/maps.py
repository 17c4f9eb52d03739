"""Lettered grids: where a thing is, which steps lead home, and where a program stops."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.core.seeds import seed_from
from dayleaf.items.choices import ring_one
from dayleaf.items.model import Figure, Option, Part, Question, Step
from dayleaf.items.pictured.letters import LETTERS, shuffled
from dayleaf.items.rule import Made, SkillRule

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from dayleaf.items.rule import Numbers

Place = tuple[int, int]
"""Column and row, both from 1."""

CHOOSE, PATH = FormatId("choose"), FormatId("path")
_THINGS = ("tree", "well", "hut", "bridge", "flower", "heron", "bell", "bench")
_FLOOR = 4


def square(place: Place) -> str:
    """The address of a square, letter first: (3, 4) → C4."""
    return f"{chr(64 + place[0])}{place[1]}"


# addresses


def swapped(place: Place) -> Place:
    """Up by the letter and across by the number."""
    return place[1], place[0]


def lines_counted(place: Place) -> Place | None:
    """The lines counted in place of the squares, from the edge on: one too many each way, where the map has it."""
    a, b = place[0] + 1, place[1] + 1
    return (a, b) if max(a, b) <= _size(place) else None


def _size(place: Place) -> int:
    """Squares along each edge: a map no larger than its question needs, 5 to 8."""
    return min(8, max(5, *(n + 1 for n in place)))


def _address_ways(place: Place) -> dict[ErrorWayId, Place]:
    found = {ErrorWayId("letter-number-swapped"): swapped(place)}
    lines = lines_counted(place)
    if lines is not None:
        found[ErrorWayId("lines-for-squares")] = lines
    return found


def _map_with(place: Place) -> tuple[tuple[str, ...], tuple[Place, ...]]:
    """Things and their places: one on the square itself, one wherever an error way would look, and one more."""
    places = list(dict.fromkeys((place, *_address_ways(place).values())))
    size = _size(place)
    far = ((place[0] + 2) % size + 1, (place[1] + 3) % size + 1)
    while far in places:
        far = (far[0] % size + 1, far[1])
    places.append(far)
    things = shuffled(_THINGS, "map", *place)[: len(places)]
    return things, tuple(places)


def _map_figure(size: int, things: Sequence[str], places: Sequence[Place]) -> Figure:
    # drawn from the left, so that the order of the list says nothing
    found = sorted(zip(places, things, strict=True))
    return Figure(
        "grid-map",
        {
            "columns": size,
            "rows": size,
            "things": tuple(thing for _, thing in found),
            "places": tuple(square(place) for place, _ in found),
            "question": 1,
        },
    )


def _address_step(place: Place) -> Step:
    return Step("across-then-up", {"letter": square(place)[0], "number": place[1]})


def _find_square(numbers: Numbers) -> Made:
    place = (numbers["a"], numbers["b"])
    things, places = _map_with(place)
    errors = {way: square(wrong) for way, wrong in _address_ways(place).items()}
    return Made(
        Question("square-of", {"thing": things[0]}),
        (ring_one(square(place), errors, turn=seed_from("address", *place)),),
        (_address_step(place),),
        errors,
        _map_figure(_size(place), things, places),
        0.5,
    )


def _find_thing(numbers: Numbers) -> Made:
    place = (numbers["a"], numbers["b"])
    things, places = _map_with(place)
    at = dict(zip(places, things, strict=True))
    errors = {way: at[wrong] for way, wrong in _address_ways(place).items()}
    return Made(
        Question("what-is-in", {"square": square(place)}),
        (ring_one(things[0], errors, turn=seed_from("thing", *place)),),
        (_address_step(place),),
        errors,
        _map_figure(_size(place), things, places),
        0.5,
    )


def letter_differs(numbers: Numbers) -> bool:
    """The square is another one when letter and number change places."""
    return numbers["a"] != numbers["b"]


# moves

_MOVES: Mapping[str, Place] = {"right": (1, 0), "left": (-1, 0), "up": (0, 1), "down": (0, -1)}


def across(steps: int) -> str:
    """The card for moves to the right (more than 0) or the left."""
    return "right" if steps > 0 else "left"


def upward(steps: int) -> str:
    """The card for moves up (more than 0) or down."""
    return "up" if steps > 0 else "down"


def _cards(dx: int, dy: int) -> tuple[str, ...]:
    return (across(dx),) * abs(dx) + (upward(dy),) * abs(dy)


def _ends(numbers: Numbers) -> tuple[Place, Place]:
    return (numbers["x"], numbers["y"]), (numbers["u"], numbers["v"])


def _floor(start: Place, goal: Place, path: Sequence[Place] = ()) -> Figure:
    return Figure(
        "grid-map",
        {
            "columns": _FLOOR,
            "rows": _FLOOR,
            "things": ("gate",),
            "places": (square(goal),),
            "start": square(start),
            "path": tuple(square(place) for place in path),
            "question": 1,
        },
    )


def _ring_cards(numbers: Numbers) -> Made:
    """Three rows of arrow cards, one of which leads home."""
    (x, y), (u, v) = start, goal = _ends(numbers)
    dx, dy = u - x, v - y
    short = dx - 1 if dx > 0 else dx + 1
    programs: dict[tuple[str, ...], ErrorWayId | None] = {
        _cards(dx, dy): None,
        _cards(-dx, dy): ErrorWayId("left-right-swapped"),
        _cards(short, dy): ErrorWayId("start-square-counted"),
    }
    order = sorted(programs, key=lambda cards: seed_from("cards", x, y, *cards))
    options = tuple(
        Option(letter, programs[cards], Figure("step-cards", {"steps": cards, "numbered": 0}))
        for letter, cards in zip(LETTERS, order, strict=False)
    )
    right = next(option.code for option in options if option.error is None)
    return Made(
        Question("arrows-home", {"thing": "gate"}),
        (Part("1", "choice", right, options=options),),
        _leg_steps(start, ((across(dx), abs(dx)), (upward(dy), abs(dy)))),
        {option.error: option.code for option in options if option.error is not None},
        _floor(start, goal),
        0.2 + 0.05 * (abs(dx) + abs(dy)),
    )


def _leg_steps(start: Place, legs: Sequence[tuple[str, int]]) -> tuple[Step, ...]:
    steps = []
    x, y = start
    for way, n in legs:
        x, y = x + n * _MOVES[way][0], y + n * _MOVES[way][1]
        steps.append(Step("leg", {"way": way, "n": n, "square": square((x, y))}))
    return tuple(steps)


def _count_moves(numbers: Numbers) -> Made:
    """The path is drawn; how many moves is it?"""
    (x, y), (u, v) = start, goal = _ends(numbers)
    dx, dy = u - x, v - y
    path = [(x + (i if dx > 0 else -i), y) for i in range(abs(dx) + 1)]
    path += [(u, y + (i if dy > 0 else -i)) for i in range(1, abs(dy) + 1)]
    moves = abs(dx) + abs(dy)
    return Made(
        Question("moves-to", {"thing": "gate"}),
        (Part("1", "digits", str(moves), 2),),
        (Step("do-each-step", {"count": moves}),),
        {ErrorWayId("start-square-counted"): str(moves + 1)},
        _floor(start, goal, path),
        0.1 + 0.05 * moves,
    )


# programs


def program(numbers: Numbers) -> tuple[tuple[str, int], tuple[str, int]]:
    """The two legs of a program. Bit 1 of `d`: to the left; bit 2: down; bit 4: up or down comes first."""
    i, j, d = numbers["i"], numbers["j"], numbers["d"]
    flat = ("left" if d % 2 else "right", i)
    steep = ("down" if d // 2 % 2 else "up", j)
    return (steep, flat) if d // 4 else (flat, steep)


def _walk(start: Place, legs: Sequence[tuple[str, int]]) -> Place:
    x, y = start
    for way, n in legs:
        x, y = x + n * _MOVES[way][0], y + n * _MOVES[way][1]
    return x, y


def _inside(place: Place) -> bool:
    return all(1 <= n <= _FLOOR for n in place)


def _trace(numbers: Numbers) -> tuple[Figure, Question, Place, dict[ErrorWayId, Place], tuple[Step, ...]]:
    start = (numbers["x"], numbers["y"])
    (first, n), (second, m) = legs = program(numbers)
    stop = _walk(start, legs)
    further = _walk(stop, ((second, 1),))
    goal = further if _inside(further) else _walk(stop, ((second, -1),))
    wrong = {
        ErrorWayId("start-square-counted"): _walk(start, ((first, n - 1), (second, m))),
        ErrorWayId("jumps-to-end"): goal,
    }
    question = Question("where-stop", {"start": square(start), "first": first, "n": n, "second": second, "m": m})
    return _floor(start, goal), question, stop, wrong, _leg_steps(start, legs)


def _ring_stop(numbers: Numbers) -> Made:
    figure, question, stop, wrong, steps = _trace(numbers)
    errors = {way: square(place) for way, place in wrong.items()}
    part = ring_one(square(stop), errors, turn=seed_from("stop", *numbers.values()))
    return Made(question, (part,), steps, errors, figure, _how_far(numbers))


def _mark_stop(numbers: Numbers) -> Made:
    """As `_ring_stop`, the squares to choose from lettered on the map itself; the goal's square keeps its thing."""
    figure, question, stop, wrong, steps = _trace(numbers)
    places = sorted({stop, *wrong.values()}, key=lambda place: seed_from("mark", *stop, *place))
    letter = {place: LETTERS[i] for i, place in enumerate(places)}
    way_of = {place: way for way, place in wrong.items() if place != stop}
    marks = tuple(f"{letter[place].upper()}={square(place)}" for place in places)
    return Made(
        question,
        (Part("1", "choice", letter[stop], options=tuple(Option(letter[p], way_of.get(p)) for p in places)),),
        steps,
        {way: letter[place] for way, place in wrong.items()},
        Figure("grid-map", {**figure.params, "things": (), "places": (), "marks": marks}),
        _how_far(numbers),
    )


def _how_far(numbers: Numbers) -> float:
    return 0.1 + 0.1 * (numbers["i"] + numbers["j"])


RULES: tuple[SkillRule, ...] = (
    SkillRule(
        SkillId("grid-map-coordinates"),
        formats={FormatId("label"): _find_thing, CHOOSE: _find_square},
        fits={FormatId("label"): letter_differs, CHOOSE: letter_differs},
    ),
    SkillRule(SkillId("code-grid-moves"), formats={PATH: _count_moves, CHOOSE: _ring_cards}),
    SkillRule(SkillId("code-trace"), formats={PATH: _mark_stop, CHOOSE: _ring_stop}),
)
