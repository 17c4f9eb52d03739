"""Programs with a part that is done again and again: squares that close, and stairs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.core.seeds import seed_from
from dayleaf.items.model import Figure, Option, Part, Question, Step
from dayleaf.items.pictured.letters import LETTERS, shuffled
from dayleaf.items.pictured.maps import square
from dayleaf.items.pictured.turns import FACING, ring_cards, ring_marked
from dayleaf.items.rule import Made, SkillRule

if TYPE_CHECKING:
    from dayleaf.items.pictured.maps import Place
    from dayleaf.items.rule import Numbers

LAST_ONLY, TURN_OUT = ErrorWayId("repeat-last-only"), ErrorWayId("turn-left-out-of-loop")
_FLOOR = 6
_TURNS = ("turn-left", "turn-right")
_AHEAD: tuple[Place, ...] = ((0, 1), (1, 0), (0, -1), (-1, 0))

Cards = tuple[str, ...]


def _body(numbers: Numbers) -> Cards:
    """What is done again: ahead and a turn (k = 0, a square), or ahead, turn, ahead, turn back (a stair)."""
    turn, back = _TURNS[numbers["d"] % 2], _TURNS[1 - numbers["d"] % 2]
    first = _ahead(numbers["b"])
    return (*first, turn) if numbers["k"] == 0 else (*first, turn, *_ahead(numbers["c"]), back)


def _ahead(steps: int) -> Cards:
    """Three squares or more ahead are a part of its own, done again inside the other."""
    return ("forward",) * steps if steps < 3 else (f"repeat-{steps}", "forward", "end")


def _loop(times: int, inside: Cards) -> Cards:
    return (f"repeat-{times}", *inside, "end")


def last_only(times: int, body: Cards) -> Cards:
    """Only the last card inside the part that is done again."""
    return (*body[:-1], *_loop(times, body[-1:]))


def turn_left_out(times: int, body: Cards) -> Cards:
    """The last turn after the part, done once."""
    return (*_loop(times, body[:-1]), body[-1])


def unrolled(cards: Cards) -> Cards:
    """Card after card as they are done."""
    done: list[str] = []
    at = 0
    while at < len(cards):
        if cards[at].startswith("repeat-"):
            depth, end = 1, at + 1
            while depth:
                depth += cards[end].startswith("repeat-") - (cards[end] == "end")
                end += 1
            done += unrolled(cards[at + 1 : end - 1]) * int(cards[at].removeprefix("repeat-"))
            at = end
        else:
            done.append(cards[at])
            at += 1
    return tuple(done)


def walk(start: Place, facing: int, cards: Cards) -> tuple[Place, ...]:
    """Every square the mover stands on, the start first."""
    places = [start]
    for card in unrolled(cards):
        if card == "forward":
            x, y = places[-1]
            places.append((x + _AHEAD[facing][0], y + _AHEAD[facing][1]))
        else:
            facing = (facing + (1 if card == "turn-right" else 3)) % 4
    return tuple(places)


def _start(numbers: Numbers) -> tuple[Place, int]:
    """A corner of the floor from which the walk stays inside, and where the nose points: d is 2 · facing + turn."""
    facing, turn = divmod(numbers["d"], 2)
    return (_FLOOR if (facing, turn) == (0, 0) else 1, _FLOOR if (facing, turn) == (1, 1) else 1), facing


def _inside(places: tuple[Place, ...]) -> bool:
    return all(1 <= n <= _FLOOR for place in places for n in place)


def _map(numbers: Numbers, **more: tuple[str, ...]) -> Figure:
    start, facing = _start(numbers)
    return Figure(
        "grid-map",
        {
            "columns": _FLOOR, "rows": _FLOOR, "start": square(start), "facing": FACING[facing], **more,
            "question": 1,
        },
    )  # fmt: skip


def _steps(numbers: Numbers) -> tuple[Step, ...]:
    if numbers["k"] == 0:
        return Step("square-is", {"n": numbers["b"]}), Step("four-times")
    return Step("stair-is", {"a": numbers["b"], "b": numbers["c"]}), Step("so-many-stairs", {"n": numbers["a"]})


def _hard(numbers: Numbers) -> float:
    return 0.2 + 0.1 * numbers["a"] + 0.2 * (numbers["d"] > 1)


def _which_program(numbers: Numbers) -> Made:
    """The path is drawn; three programs, one of which walks it."""
    body, times = _body(numbers), numbers["a"]
    right = _loop(times, body)
    wrong = {LAST_ONLY: last_only(times, body), TURN_OUT: turn_left_out(times, body)}
    part, errors = ring_cards(right, wrong, *numbers.values())
    path = tuple(square(place) for place in walk(*_start(numbers), right))
    return Made(Question("cards-for-path"), (part,), _steps(numbers), errors, _map(numbers, path=path), _hard(numbers))


def _where(numbers: Numbers) -> Made:
    """The stairs are walked; which square do they end on?"""
    start, facing = _start(numbers)
    body, times = _body(numbers), numbers["a"]
    program = _loop(times, body)
    wrong = {}
    for way, cards in ((LAST_ONLY, last_only(times, body)), (TURN_OUT, turn_left_out(times, body))):
        places = walk(start, facing, cards)
        if _inside(places):
            wrong[way] = places[-1]
    part, errors, marks = ring_marked(walk(start, facing, program)[-1], wrong, *numbers.values())
    return Made(
        Question(
            "stairs-end", {"times": times, "a": numbers["b"], "turn": _TURNS[numbers["d"] % 2], "b": numbers["c"]}
        ),
        (part,),
        _steps(numbers),
        errors,
        _map(numbers, marks=marks),
        _hard(numbers),
    )


def _wrong_turn(numbers: Numbers) -> Made:
    """One card inside the part is wrong: which one, and which card belongs there?"""
    body, times = _body(numbers), numbers["a"]
    pick = seed_from("wrong-card", *numbers.values())
    at = pick % len(body)
    right = body[at]
    shown = [card for card in ("forward", *_TURNS) if card != right][pick // 8 % 2]
    cards = (*body[:at], shown, *body[at + 1 :])
    path = tuple(square(place) for place in walk(*_start(numbers), _loop(times, body)))
    where = tuple(
        Option(LETTERS[i], None, Figure("step-cards", {"steps": (card,), "numbered": 0}))
        for i, card in enumerate(cards)
    )
    new = shuffled(("forward", *_TURNS), "new", *numbers.values())
    options = tuple(
        Option(LETTERS[i], None, Figure("step-cards", {"steps": (card,), "numbered": 0})) for i, card in enumerate(new)
    )
    return Made(
        Question("wrong-card-again", {"times": times, "cards": " ".join(cards)}),
        (
            Part("1", "choice", LETTERS[at], options=where),
            Part("2", "choice", LETTERS[new.index(right)], options=options),
        ),
        (Step("follow-to-wrong", {"n": at + 1}), Step("card-there", {"card": right})),
        {},
        _map(numbers, path=path),
        _hard(numbers),
    )


def is_stair(numbers: Numbers) -> bool:
    """A square ends where it began: only stairs are asked for their end."""
    return numbers["k"] == 1


def no_part_inside(numbers: Numbers) -> bool:
    """Cards to look through one by one."""
    return numbers["b"] < 3


RULES: tuple[SkillRule, ...] = (
    SkillRule(
        SkillId("code-loops-nested"),
        formats={
            FormatId("code-write"): _which_program,
            FormatId("code-fix"): _wrong_turn,
            FormatId("path"): _where,
        },
        fits={FormatId("path"): is_stair, FormatId("code-fix"): no_part_inside},
    ),
)
