"""Programs with turns, repeats and choices, and the wrong step of a program."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.core.seeds import seed_from
from dayleaf.items.model import Figure, Option, Part, Question, Step
from dayleaf.items.pictured.letters import LETTERS, shuffled
from dayleaf.items.pictured.maps import across, square, upward
from dayleaf.items.rule import Made, SkillRule

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from dayleaf.items.pictured.maps import Place
    from dayleaf.items.rule import Numbers

PATH, CODE_WRITE, CODE_FIX, CHOOSE = (FormatId(name) for name in ("path", "code-write", "code-fix", "choose"))
FACING = ("up", "right", "down", "left")
_AHEAD: tuple[Place, ...] = ((0, 1), (1, 0), (0, -1), (-1, 0))
_TURNS = ("turn-right", "turn-left")
_FLOOR = 5

Cards = tuple[str, ...]


def _on(place: Place, facing: int, steps: int) -> Place:
    return place[0] + steps * _AHEAD[facing][0], place[1] + steps * _AHEAD[facing][1]


def _place(number: int, columns: int) -> Place:
    """The squares of a map counted from 0, along the rows from the bottom."""
    return number % columns + 1, number // columns + 1


def _inside(place: Place) -> bool:
    return all(1 <= n <= _FLOOR for n in place)


def _map(start: Place, facing: int, **more: tuple[str, ...]) -> Figure:
    return Figure(
        "grid-map",
        {
            "columns": _FLOOR,
            "rows": _FLOOR,
            "start": square(start),
            "facing": FACING[facing],
            **more,
            "question": 1,
        },
    )


def ring_marked(
    right: Place, wrong: Mapping[ErrorWayId, Place], *key: int
) -> tuple[Part, dict[ErrorWayId, str], Cards]:
    """Squares to choose from, lettered on the map: the part, the letter of each way, and the marks."""
    places = sorted({right, *wrong.values()}, key=lambda place: seed_from("turns", *key, *place))
    letter = {place: LETTERS[i] for i, place in enumerate(places)}
    way_of = {place: way for way, place in wrong.items() if place != right}
    part = Part("1", "choice", letter[right], options=tuple(Option(letter[p], way_of.get(p)) for p in places))
    marks = tuple(f"{letter[place].upper()}={square(place)}" for place in places)
    return part, {way: letter[place] for way, place in wrong.items()}, marks


def ring_cards(right: Cards, wrong: Mapping[ErrorWayId, Cards], *key: int) -> tuple[Part, dict[ErrorWayId, str]]:
    """Rows of cards to choose from, and the letter of the row that each way leads to."""
    way_of: dict[Cards, ErrorWayId | None] = {right: None}
    for way, cards in wrong.items():
        way_of.setdefault(cards, way)
    order = sorted(way_of, key=lambda cards: seed_from("rows", *key, *cards))
    letter = dict(zip(order, LETTERS, strict=False))
    options = tuple(
        Option(letter[cards], way_of[cards], Figure("step-cards", {"steps": cards, "numbered": 0})) for cards in order
    )
    return Part("1", "choice", letter[right], options=options), {way: letter[cards] for way, cards in wrong.items()}


# facing and turning


def _turned(numbers: Numbers) -> tuple[Place, int, int, Place]:
    """Start, facing, facing after the turn, stop."""
    start, f = _place(numbers["p"], _FLOOR), numbers["f"]
    g = (f + (3 if numbers["t"] else 1)) % 4
    return start, f, g, _on(_on(start, f, numbers["i"]), g, numbers["j"])


def _turn_steps(numbers: Numbers) -> tuple[Step, ...]:
    start, f, g, stop = _turned(numbers)
    return (
        Step("go-ahead", {"n": numbers["i"], "square": square(_on(start, f, numbers["i"]))}),
        Step("nose-points", {"way": FACING[g]}),
        Step("go-ahead", {"n": numbers["j"], "square": square(stop)}),
    )


def _where(numbers: Numbers) -> Made:
    start, f, g, stop = _turned(numbers)
    i, j, t = numbers["i"], numbers["j"], numbers["t"]
    corner = _on(start, f, i)
    own = _on(corner, 3 if t else 1, j)
    wrong = {ErrorWayId("turn-and-move"): _on(stop, g, 1)}
    if _inside(own):
        wrong[ErrorWayId("own-view-only")] = own
    part, errors, marks = ring_marked(stop, wrong, *numbers.values())
    return Made(
        Question("where-after-turn", {"n": i, "turn": _TURNS[t], "m": j}),
        (part,),
        _turn_steps(numbers),
        errors,
        _map(start, f, marks=marks),
        0.2 + 0.05 * (i + j) + (0.3 if f == 2 else 0.15 if f else 0),
    )


def _program(forward: int, turn: str, then: int) -> Cards:
    return ("forward",) * forward + (turn,) + ("forward",) * then


def _which_cards(numbers: Numbers) -> Made:
    start, f, _, stop = _turned(numbers)
    i, j, t = numbers["i"], numbers["j"], numbers["t"]
    wrong = {ErrorWayId("turn-and-move"): _program(i, _TURNS[t], j - 1)}
    if f == 2:
        wrong[ErrorWayId("own-view-only")] = _program(i, _TURNS[1 - t], j)
    part, errors = ring_cards(_program(i, _TURNS[t], j), wrong, *numbers.values())
    return Made(
        Question("cards-to-gate"),
        (part,),
        _turn_steps(numbers),
        errors,
        _map(start, f, things=("gate",), places=(square(stop),)),
        0.2 + 0.05 * (i + j) + (0.3 if f == 2 else 0.15 if f else 0),
    )


def _few_cards(numbers: Numbers) -> bool:
    return numbers["j"] >= 2 and numbers["i"] + numbers["j"] <= 4


# repeats


def _loop(times: int, inside: Cards) -> Cards:
    return (f"repeat-{times}", *inside, "end")


def _how_far(numbers: Numbers) -> Made:
    a, b = numbers["a"], numbers["b"]
    return Made(
        Question("squares-in-all"),
        (Part("1", "digits", str(a * b), 2),),
        (Step("loop-is", {"a": a, "b": b, "n": a * b}),),
        {
            ErrorWayId("repeat-last-only"): str(b - 1 + a),
            ErrorWayId("repeat-extra"): str((a + 1) * b),
            ErrorWayId("repeat-once"): str(b),
        },
        Figure("step-cards", {"steps": _loop(a, ("forward",) * b), "numbered": 0, "question": 1}),
        0.1 + 0.04 * a * b,
    )


def _which_loop(numbers: Numbers) -> Made:
    """The way of one round too many takes one time less; the way of the last card repeats it for all that is left."""
    a, b = numbers["a"], numbers["b"]
    inside = ("forward",) * b
    wrong = {ErrorWayId("repeat-extra"): _loop(a - 1, inside)}
    if b > 1 and a * b - b + 1 <= 9:
        wrong[ErrorWayId("repeat-last-only")] = _loop(a * b - b + 1, inside)
    part, errors = ring_cards(_loop(a, inside), wrong, a, b)
    return Made(
        Question("loop-for", {"n": a * b, "b": b}),
        (part,),
        (Step("loop-is", {"a": a, "b": b, "n": a * b}),),
        errors,
        None,
        0.2 + 0.04 * a * b,
    )


def _three_times(numbers: Numbers) -> bool:
    return numbers["a"] >= 3


# the wrong step


def _wanted(numbers: Numbers) -> tuple[Place, Place, list[str], list[Place]]:
    """Start, goal, the cards that follow the path, and the squares of the path."""
    (x, y), (u, v) = start, goal = _place(numbers["s"], 4), _place(numbers["g"], 4)
    cards = [across(u - x)] * abs(u - x) + [upward(v - y)] * abs(v - y)
    path = [start]
    for card in cards:
        path.append(_on(path[-1], FACING.index(card), 1))
    return start, goal, cards, path


def _wrong_card(numbers: Numbers) -> Made:
    start, goal, cards, path = _wanted(numbers)
    at = numbers["p"] - 1
    right = cards[at]
    wrong = [card for card in FACING if card != right][numbers["w"]]
    shown = [*cards[:at], wrong, *cards[at + 1 :]]
    last = len(cards) - 1
    late = ErrorWayId("fix-at-the-end")
    where = tuple(
        Option(LETTERS[n], late if n == last != at else None, Figure("step-cards", {"steps": (card,), "numbered": 0}))
        for n, card in enumerate(shown)
    )
    arrows = shuffled(FACING, "new-card", *numbers.values())
    new = tuple(
        Option(LETTERS[n], None, Figure("step-cards", {"steps": (card,), "numbered": 0}))
        for n, card in enumerate(arrows)
    )
    letter = LETTERS[arrows.index(right)]
    return Made(
        Question("wrong-card", {"cards": " ".join(shown)}),
        (Part("1", "choice", LETTERS[at], options=where), Part("2", "choice", letter, options=new)),
        (Step("follow-to-wrong", {"n": at + 1}), Step("card-needed", {"way": right})),
        {late: f"{LETTERS[last]} {letter}"},
        Figure(
            "grid-map",
            {
                "columns": 4,
                "rows": 4,
                "things": ("gate",),
                "places": (square(goal),),
                "start": square(start),
                "path": tuple(square(place) for place in path),
                "question": 1,
            },
        ),
        0.2 + 0.1 * at,
    )


# if … then


def _meets(number: int, kind: int) -> bool:
    return number % 2 == 0 if kind == 0 else number > 6


def _if_then(numbers: Numbers) -> Made:
    told = (numbers["a"], numbers["b"], numbers["c"])
    true = [_meets(number, numbers["k"]) for number in told]
    right = tuple("right" if yes else "up" for yes in true)
    both = tuple(card for yes in true for card in (("right",) if yes else ("right", "up")))
    wrong = {ErrorWayId("does-both"): both, ErrorWayId("condition-forgotten"): (right[0],) * 3}
    part, errors = ring_cards(right, wrong, *numbers.values())
    values = dict(zip("abc", told, strict=True))
    return Made(
        Question(("if-even", "if-more-than-six")[numbers["k"]], values),
        (part,),
        (Step("check-each-number"),),
        errors,
        None,
        0.4,
    )


# left and right, above and below

_AROUND = ("tree", "well", "hut", "flower", "heron", "bell", "bench")
_SIDES = ("left", "right", "up", "down")


def _beside(numbers: Numbers) -> tuple[tuple[str, ...], tuple[Place, ...], Sequence[str]]:
    things = shuffled(_AROUND, "around", *numbers.values())[:4]
    center = (2 + numbers["s"] % 2, 2 + numbers["s"] // 2 % 2)
    places = tuple(_on(center, FACING.index(side), 1) for side in _SIDES)
    return things, (*places, center), _SIDES


def _small_map(places: Sequence[Place], things: Sequence[str], facing: int) -> Figure:
    middle = places[4]
    boat = [("boat", middle)] if facing == 0 else []
    # by name: told from the left, the first of a cross is always what lies left of its middle
    found = sorted([*zip(things, places, strict=False), *boat])
    return Figure(
        "grid-map",
        {
            "columns": 4,
            "rows": 4,
            "things": tuple(thing for thing, _ in found),
            "places": tuple(square(place) for _, place in found),
            "start": square(middle) if facing else "",
            "facing": FACING[facing],
            "question": 1,
        },
    )


def _what_is_beside(numbers: Numbers) -> Made:
    """Beside the boat as the page lies (f = 0), or at a hand of the mover, whose nose points another way."""
    things, places, sides = _beside(numbers)
    f, w = numbers["f"], numbers["w"]
    at = dict(zip(places, things, strict=False))
    if f == 0:
        code, right = f"what-is-{sides[w]}", things[w]
        errors = {ErrorWayId("left-right-swapped"): things[1 - w]} if w < 2 else {}
    else:
        code = f"at-its-{sides[w]}"
        turn = (f + (3 if w == 0 else 1)) % 4
        right = at[_on(places[4], turn, 1)]
        errors = {
            ErrorWayId("left-right-swapped"): at[_on(places[4], (turn + 2) % 4, 1)],
            ErrorWayId("own-view-only"): things[w],
        }
    ways = {thing: way for way, thing in errors.items()}
    order = shuffled(things, "order", *numbers.values())
    options = tuple(Option(thing, ways.get(thing) if thing != right else None) for thing in order)
    return Made(
        Question(code),
        (Part("1", "choice", right, options=options),),
        (Step("find-the-side" if f == 0 else "stand-like-mover"),),
        errors,
        _small_map(places, things, f),
        0.2 if f == 0 else 0.6,
    )


def _draw_beside(numbers: Numbers) -> Made:
    things, places, sides = _beside(numbers)
    return Made(
        Question(f"draw-{sides[numbers['w']]}", {"thing": things[0]}),
        (Part("1", "look", ""),),
        (Step("find-the-side"),),
        {},
        Figure(
            "grid-map",
            {"columns": 4, "rows": 4, "things": things[:1], "places": (square(places[4]),), "question": 1},
        ),
        0.2,
    )


def _one_each(numbers: Numbers) -> bool:
    """Beside one thing on the page, each of its four places once."""
    return numbers["f"] == 0 and numbers["s"] < 4


RULES: tuple[SkillRule, ...] = (
    SkillRule(SkillId("code-turns"), formats={PATH: _where, CODE_WRITE: _which_cards}, fits={CODE_WRITE: _few_cards}),
    SkillRule(
        SkillId("code-loop-repeat"), formats={CODE_WRITE: _which_loop, PATH: _how_far}, fits={CODE_WRITE: _three_times}
    ),
    SkillRule(SkillId("code-debug"), formats={CODE_FIX: _wrong_card}),
    SkillRule(SkillId("code-if-then"), formats={CHOOSE: _if_then}),
    SkillRule(
        SkillId("position-words"),
        formats={FormatId("draw"): _draw_beside, PATH: _what_is_beside},
        fits={FormatId("draw"): _one_each},
    ),
)
