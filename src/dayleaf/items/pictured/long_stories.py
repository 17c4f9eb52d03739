"""Stories within 1000, of two steps, with two unknown parts, and with too much or too little told."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.core.seeds import seed_from
from dayleaf.items.choices import ring_fixed
from dayleaf.items.model import Figure, Gap, Part, Question, Row, Step
from dayleaf.items.pictured.codes import CELLS
from dayleaf.items.pictured.word_stories import Stories, in_words, takes_the_cue, with_a_bar
from dayleaf.items.rule import Made, SkillRule
from dayleaf.items.stories import EQUATIONS, story

if TYPE_CHECKING:
    from dayleaf.items.model import Token
    from dayleaf.items.pictured.word_stories import Told
    from dayleaf.items.rule import Numbers

_PEOPLE = ("child", "brother", "gran", "lock-keeper", "mother", "father")
_NOUNS = ("apple", "bean", "brick", "button", "carrot", "seed", "shell", "stick", "stone")


def _who_and_what(*told: int) -> dict[str, int | str]:
    """A person and a thing that follow from the numbers."""
    pick = seed_from("long-story", *told)
    return {"p": _PEOPLE[pick % len(_PEOPLE)], "noun": _NOUNS[pick // 8 % len(_NOUNS)]}


# one step within 1000


def within_1000(numbers: Numbers) -> Told:
    """Two parts of a whole up to 999 in one of the fourteen situations of one step, which the numbers choose."""
    a, b = numbers["a"], numbers["b"]
    cell = tuple(EQUATIONS)[seed_from("within-1000", a, b) % len(EQUATIONS)]
    named = {"total": a + b, "a": a, "b": b}
    if cell.startswith("add-to"):
        named = {"start": a, "change": b, "result": a + b}
    elif cell.startswith("take-from"):
        named = {"start": a + b, "change": b, "result": a}
    elif cell.startswith("compare"):
        named = {"bigger": a + b, "smaller": a, "difference": b}
    return cell, {name: named[name] for name in CELLS[cell]}


_WITHIN_1000 = Stories(within_1000, {ErrorWayId("keyword-grab"): takes_the_cue}, width=4)


# two parts, both unknown


def _both_told(numbers: Numbers) -> Made:
    """All pairs of parts are the answer; they are listed or drawn, and counted."""
    n = numbers["n"]
    return Made(
        story("put-together-both", {"total": n}),
        (Part("1", "digits", str(n + 1), 2),),
        (Step("ways-to-part", {"n": n, "ways": n + 1}),),
        {ErrorWayId("one-way-only"): "1"},
        None,
        n / 20,
    )


def _both_listed(numbers: Numbers) -> Made:
    """Different first parts told, the other part asked: three of a small number, two of a larger one."""
    n = numbers["n"]
    firsts: tuple[int, ...] = (1, n // 2, n - 1) if n % 2 else (0, n // 2 - 1, n - 2)
    firsts = firsts if n < 10 else firsts[1:]
    width = len(str(n))
    tokens: list[Token] = []
    for place, first in enumerate(firsts, start=1):
        tokens += [*((",",) if place > 1 else ()), n, "=", first, "+", Gap(str(place))]
    return Made(
        Row(tuple(tokens)),
        tuple(Part(str(place), "digits", str(n - first), width) for place, first in enumerate(firsts, start=1)),
        tuple(Step("parts-and-whole", {"a": first, "b": n - first, "whole": n}) for first in firsts),
        {ErrorWayId("whole-in-part-box"): " ".join([str(n)] * len(firsts))},
        None,
        n / 20,
    )


# two steps

_SIGNS = ((1, -1), (-1, 1), (-1, -1))
_TWO_STEPS = ("gets-then-gives", "gives-then-gets", "gives-twice")


def _two_steps(numbers: Numbers) -> Made:
    a, b, c, k = (numbers[name] for name in "abck")
    first_sign, then_sign = _SIGNS[k]
    between = a + first_sign * b
    result = between + then_sign * c
    steps = tuple(
        Step(
            "write-add" if sign > 0 else "write-take-away",
            {"a": start, "b": by, "result": start + sign * by},
        )
        for start, sign, by in ((a, first_sign, b), (between, then_sign, c))
    )
    return Made(
        Question(_TWO_STEPS[k], {**_who_and_what(a, b, c, k), "a": a, "b": b, "c": c}),
        (Part("1", "digits", str(result), 3),),
        steps,
        {ErrorWayId("stops-after-one"): str(between), ErrorWayId("one-big-sum"): str(a + b + c)},
        None,
        0.2 + 0.3 * trades(a, first_sign, b) + 0.3 * trades(between, then_sign, c) + 0.1 * (k == 1),
    )


def trades(start: int, sign: int, by: int) -> bool:
    """Whether a step fills or opens a ten."""
    return start % 10 + by % 10 > 9 if sign > 0 else start % 10 < by % 10


def at_most_one_trade(numbers: Numbers) -> bool:
    """Two-step stories begin with one trade at most."""
    a, b, c, k = (numbers[name] for name in "abck")
    first, then = _SIGNS[k]
    return not (trades(a, first, b) and trades(a + first * b, then, c))


def _two_steps_bar(numbers: Numbers) -> Made:
    """What was there at first is the whole; both gifts and what is left are its parts."""
    made = _two_steps(numbers)
    left = int(made.parts[0].answer)
    parts = {"a": numbers["b"], "b": numbers["c"], "c": left}
    picture = Figure("bar-model", {"kind": "parts", "whole": numbers["a"], **parts, "hidden": ("c",)})
    return Made(made.prompt, made.parts, made.steps, made.errors, picture, made.difficulty)


def is_one_whole(numbers: Numbers) -> bool:
    """Only where something goes twice are all numbers parts of the first one."""
    return numbers["k"] == 2 and at_most_one_trade(numbers)


# too much or too little told


def _extra(numbers: Numbers) -> Made:
    """An age is told, too, which nobody needs."""
    x, a, b, k = (numbers[name] for name in "xabk")
    sign = -1 if k else 1
    code = "write-take-away" if k else "write-add"
    every = a + b + x if sign > 0 else a - b - x
    return Made(
        Question("extra-gives" if k else "extra-gets", {**_child(x, a, b, k), "x": x, "a": a, "b": b}),
        (Part("1", "digits", str(a + sign * b), 3),),
        (Step("not-needed", {"x": x}), Step(code, {"a": a, "b": b, "result": a + sign * b})),
        {ErrorWayId("uses-all-numbers"): str(every)},
        None,
        0.3 + 0.3 * trades(a, sign, b),
    )


def _child(*told: int) -> dict[str, int | str]:
    """One of the two children and a thing."""
    return {**_who_and_what(*told), "p": ("child", "brother")[seed_from("child", *told) % 2]}


def _enough(numbers: Numbers) -> Made:
    """k: everything needed is told, or a number is missing."""
    x, a, b, k = (numbers[name] for name in "xabk")
    values = _child(x, a, b, k)
    errors = {ErrorWayId("invents-number"): "yes"} if k else {}
    if k:
        prompt, steps = Question("told-too-little", {**values, "a": a}), (Step("number-missing"),)
    else:
        prompt, steps = Question("told-enough", {**values, "x": x, "a": a, "b": b}), (Step("not-needed", {"x": x}),)
    return Made(prompt, (ring_fixed("no" if k else "yes", ("yes", "no"), errors),), steps, errors, None, 0.5 + 0.2 * k)


def once_a_number(numbers: Numbers) -> bool:
    """One story for each first number and kind, since not every number is told in it."""
    return numbers["x"] == 7 and numbers["b"] == 4 + numbers["a"] % 6


_WORD1, _WORD2, _BAR = FormatId("word1"), FormatId("word2"), FormatId("bar-fill")

RULES: tuple[SkillRule, ...] = (
    SkillRule(SkillId("word-one-step-1000"), formats={_WORD1: in_words(_WITHIN_1000), _BAR: with_a_bar(_WITHIN_1000)}),
    SkillRule(SkillId("word-both-addends-unknown"), formats={FormatId("table"): _both_listed, _WORD1: _both_told}),
    SkillRule(
        SkillId("word-two-step-100"),
        formats={_WORD2: _two_steps, _BAR: _two_steps_bar},
        fits={_WORD2: at_most_one_trade, _BAR: is_one_whole},
    ),
    SkillRule(
        SkillId("word-extra-missing-info"),
        formats={_WORD1: _extra, FormatId("choose"): _enough},
        fits={FormatId("choose"): once_a_number},
    ),
)
