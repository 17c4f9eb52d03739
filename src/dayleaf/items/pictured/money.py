"""Amounts of money: signs, comparing, trading for a dollar, change and stories."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.core.seeds import seed_from
from dayleaf.items.choices import ring_one
from dayleaf.items.model import Figure, Gap, Option, Part, Question, Row, Step, Word
from dayleaf.items.pictured.coins import AS_ONE, BIGGER, BY_SIZE, NAMES, VALUES, counting_steps, fewest
from dayleaf.items.rule import Made, SkillRule

if TYPE_CHECKING:
    from dayleaf.items.rule import Numbers

MORE_COINS = ErrorWayId("more-coins-more-money")
BOTH_SIGNS, DOLLAR_FOR_CENT = ErrorWayId("both-signs"), ErrorWayId("cents-after-dollar-lost")

# signs


def _in_words(numbers: Numbers) -> Made:
    n = numbers["n"]
    return Made(
        Row((Word("number-name", n), Word("cent", n), "=", Gap("1"), "¢")),
        (Part("1", "digits", str(n), 2),),
        (Step("cents-sign", {"n": n}),),
        {},
        None,
        0.2 if n < 20 else 0.4,
    )


def _sign_errors(n: int) -> dict[ErrorWayId, str]:
    return {BOTH_SIGNS: f"${n}¢", DOLLAR_FOR_CENT: f"${n}"}


def _ring_sign(numbers: Numbers) -> Made:
    n = numbers["n"]
    errors = _sign_errors(n)
    return Made(
        Question("which-is-cents", {"n": n}),
        (ring_one(f"{n}¢", errors, turn=seed_from("sign", n)),),
        (Step("cents-sign", {"n": n}),),
        errors,
        None,
        0.5,
    )


def _fix_sign(numbers: Numbers) -> Made:
    """One wrong way of writing is shown; the right one and the other wrong one can be rung."""
    n = numbers["n"]
    errors = _sign_errors(n)
    shown = errors.pop((BOTH_SIGNS, DOLLAR_FOR_CENT)[seed_from("shown", n) % 2])
    return Made(
        Question("fix-cents", {"n": n, "shown": shown}),
        (ring_one(f"{n}¢", errors, turn=seed_from("fix-sign", n)),),
        (Step("cents-sign", {"n": n}),),
        errors,
        None,
        0.6,
    )


# comparing


def _sign(left: int, right: int) -> str:
    return "<" if left < right else ">" if left > right else "="


def _two(numbers: Numbers) -> tuple[int, int, int, int]:
    """Count and value of the coins on the left, then on the right."""
    return numbers["a"], VALUES[numbers["i"]], numbers["b"], VALUES[numbers["j"]]


def _compare(numbers: Numbers) -> Made:
    a, left, b, right = _two(numbers)
    return Made(
        Row((a, Word(NAMES[left], a), Gap("1"), b, Word(NAMES[right], b))),
        (Part("1", "compare", _sign(a * left, b * right)),),
        (*counting_steps((left,) * a), *counting_steps((right,) * b)),
        {
            MORE_COINS: _sign(a, b),
            BIGGER: _sign(BY_SIZE.index(left), BY_SIZE.index(right)),
        },
        None,
        _hardness(numbers),
    )


def _hardness(numbers: Numbers) -> float:
    """Harder where more coins are less money."""
    a, left, b, right = _two(numbers)
    return 0.3 if _sign(a, b) == _sign(a * left, b * right) else 0.7


def _choose_more(numbers: Numbers) -> Made:
    """Two sets side by side; the one that is more money is rung."""
    a, left, b, right = _two(numbers)
    letters = ("a", "b")
    errors = {BIGGER: letters[BY_SIZE.index(right) > BY_SIZE.index(left)]}
    if a != b:
        errors[MORE_COINS] = letters[b > a]
    answer = letters[b * right > a * left]
    wrong = next((way for way, letter in errors.items() if letter != answer), None)
    options = tuple(
        Option(letter, None if letter == answer else wrong, Figure("coins", {"coins": coins, "question": 1}))
        for letter, coins in zip(letters, ((left,) * a, (right,) * b), strict=True)
    )
    return Made(
        Question("which-set-more", {"a": a, "first": NAMES[left], "b": b, "second": NAMES[right]}),
        (Part("1", "choice", answer, options=options),),
        (*counting_steps((left,) * a), *counting_steps((right,) * b)),
        errors,
        None,
        _hardness(numbers),
    )


def few_and_unequal(numbers: Numbers) -> bool:
    """Two sets that fit beside one another, one of them worth more."""
    a, left, b, right = _two(numbers)
    return max(a, b) <= 5 and a * left != b * right


# a dollar


def _per_dollar(numbers: Numbers) -> tuple[int, int]:
    return VALUES[numbers["k"]], numbers["n"]


def _dollar_errors(n: int) -> dict[ErrorWayId, str]:
    return {ErrorWayId("ten-of-any-coin"): str(10 * n), AS_ONE: str(100 * n)}


def _dollar_steps(value: int, n: int) -> tuple[Step, ...]:
    first = Step("coins-per-dollar", {"count": 100 // value, "coin": NAMES[value]})
    if n == 1:
        return (first,)
    return first, Step("coins-for-dollars", {"n": n, "count": n * 100 // value, "coin": NAMES[value]})


def _dollar_missing(numbers: Numbers) -> Made:
    value, n = _per_dollar(numbers)
    return Made(
        Row((n, Word("dollar", n), "=", Gap("1"), Word(NAMES[value], 2))),
        (Part("1", "digits", str(n * 100 // value), 3),),
        _dollar_steps(value, n),
        _dollar_errors(n),
        None,
        min(1.0, 0.2 + 0.15 * n),
    )


def _dollar_ring(numbers: Numbers) -> Made:
    value, n = _per_dollar(numbers)
    errors = _dollar_errors(n)
    return Made(
        Question("how-many-for-dollars", {"n": n, "coin": NAMES[value]}),
        (ring_one(str(n * 100 // value), errors, turn=seed_from("dollar", value, n)),),
        _dollar_steps(value, n),
        errors,
        None,
        min(1.0, 0.2 + 0.15 * n),
    )


def _dollar_draw(numbers: Numbers) -> Made:
    value, n = _per_dollar(numbers)
    return Made(
        Question("draw-dollars", {"n": n, "coin": NAMES[value]}),
        (Part("1", "look", ""),),
        _dollar_steps(value, n),
        difficulty=0.4,
    )


def at_most_twenty(numbers: Numbers) -> bool:
    """Nobody draws a hundred coins."""
    value, n = _per_dollar(numbers)
    return n * 100 // value <= 20


# change


def _price_and_paid(numbers: Numbers) -> tuple[int, int]:
    return numbers["p"], (25, 50, 100)[numbers["k"]]


def stops_up(price: int, paid: int) -> tuple[int, ...]:
    """Where counting up halts: the price, the next five, the next quarter, what was paid."""
    halts = (price, -(-price // 5) * 5, -(-price // 25) * 25, paid)
    return tuple(dict.fromkeys(halts))


def _change_made(numbers: Numbers, prompt: Row | Question, figure: Figure | None) -> Made:
    price, paid = _price_and_paid(numbers)
    stops = stops_up(price, paid)
    jumps = tuple(Step("jump-up", {"from": start, "by": stop - start, "to": stop}) for start, stop in pairwise(stops))
    return Made(
        prompt,
        (Part("1", "digits", str(paid - price), 3),),
        (*jumps, Step("change-is", {"n": paid - price})),
        {ErrorWayId("change-is-price"): str(price), ErrorWayId("counts-from-zero"): str(paid)},
        figure,
        0.3 * (len(stops) - 1) + 0.1 * (price % 5 != 0),
    )


def _change_line(numbers: Numbers) -> Made:
    price, paid = _price_and_paid(numbers)
    stops = stops_up(price, paid)
    picture = Figure(
        "number-line",
        {
            "lo": price // 10 * 10,
            "hi": paid,
            "step": 5,
            "labels": stops,
            "jumps": stops,
            "jump_labels": ("?",) * (len(stops) - 1),
            "question": 1,
        },
    )
    return _change_made(numbers, Row((paid, "¢", "-", price, "¢", "=", Gap("1"), "¢")), picture)


def _change_told(numbers: Numbers) -> Made:
    price, paid = _price_and_paid(numbers)
    people = ("child", "brother", "gran")
    things = ("pear", "plum", "carrot", "bean", "egg", "apple")
    pick = seed_from("buys", price, paid)
    values: dict[str, int | str] = {"p": people[pick % 3], "thing": things[pick // 3 % 6]}
    values |= {"price": price, "paid": paid}
    return _change_made(numbers, Question("change-story", values), None)


def _change_draw(numbers: Numbers) -> Made:
    price, paid = _price_and_paid(numbers)
    return Made(
        Question("draw-change", {"price": price, "paid": paid}),
        (Part("1", "look", ""),),
        (Step("change-is", {"n": paid - price}), *counting_steps(fewest(paid - price))),
        difficulty=0.6,
    )


# stories

_ADDS = 1
_STORIES = ("money-left", "money-both", "money-more")


def _story(numbers: Numbers) -> Made:
    """k: three situations in cents, then the same three in dollars."""
    a, b = numbers["a"], numbers["b"]
    kind, dollars = numbers["k"] % 3, numbers["k"] >= 3
    pick = seed_from("money", a, b, numbers["k"])
    people = ("child", "brother", "gran", "mother", "father")
    first = pick % 5
    second = (first + 1 + pick // 5 % 4) % 5
    things = ("rope", "hose", "plank", "bench") if dollars else ("apple", "pear", "carrot", "egg")
    values: dict[str, int | str] = {"p": people[first], "a": a, "b": b}
    if kind == 2:
        values["q"] = people[second]
    else:
        values["thing"] = things[pick // 20 % 4]
        if kind == _ADDS:
            values["other"] = things[(pick // 20 + 1) % 4]
    result = a + b if kind == _ADDS else a - b
    code = "write-add" if kind == _ADDS else "write-take-away"
    return Made(
        Question(f"{_STORIES[kind]}-{'dollars' if dollars else 'cents'}", values),
        (Part("1", "digits", str(result), 3),),
        (
            Step(code, {"a": a, "b": b, "result": result}),
            Step("with-dollar" if dollars else "with-cent", {"n": result}),
        ),
        {ErrorWayId("keyword-grab"): str(a + b)},
        None,
        (0.3, 0.2, 0.5)[kind] + 0.2 * (a % 10 < b % 10),
    )


_CHOOSE, _DRAW, _WORD1 = FormatId("choose"), FormatId("coin-draw"), FormatId("word1")

RULES: tuple[SkillRule, ...] = (
    SkillRule(
        SkillId("money-symbols"),
        formats={FormatId("words"): _in_words, _CHOOSE: _ring_sign, FormatId("fix"): _fix_sign},
    ),
    SkillRule(
        SkillId("money-compare"),
        formats={FormatId("cmp"): _compare, _CHOOSE: _choose_more},
        fits={_CHOOSE: few_and_unequal},
    ),
    SkillRule(
        SkillId("money-dollar-trade"),
        formats={_CHOOSE: _dollar_ring, FormatId("missing"): _dollar_missing, _DRAW: _dollar_draw},
        fits={_DRAW: at_most_twenty},
    ),
    SkillRule(
        SkillId("money-change-to-1-dollar"),
        formats={FormatId("nl-jump"): _change_line, _DRAW: _change_draw, _WORD1: _change_told},
    ),
    SkillRule(SkillId("money-word-problems"), formats={_WORD1: _story}),
)
