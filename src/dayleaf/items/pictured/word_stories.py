"""Story skills: a story told in words, with a room for the answer, or beside a bar picture with one empty box."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.items.model import Gap, Part, Row, Step
from dayleaf.items.pictured.codes import CELLS
from dayleaf.items.rule import Made, Maker, Numbers, SkillRule
from dayleaf.items.stories import EQUATIONS, UNKNOWN, bar, by_the_cue, solution, story, whole_and_parts

if TYPE_CHECKING:
    from dayleaf.items.model import Story, Token

Told = tuple[str, Mapping[str, int]]
"""A situation and the numbers it tells."""

StoryWay = Callable[[str, Mapping[str, int]], int | None]
"""The number an error way gives for a situation and the numbers told; None where it gives none."""

WORD1, BAR_FILL, MISSING = FormatId("word1"), FormatId("bar-fill"), FormatId("missing")


@dataclass(frozen=True, slots=True)
class Stories:
    """What a story skill tells: the situation for a rule's numbers, its ways to go astray, the boxes of the answer."""

    tell: Callable[[Numbers], Told]
    ways: Mapping[ErrorWayId, StoryWay]
    width: int = 2
    unit: Callable[[Numbers], str | None] = lambda _: None


def adds_the_told(cell: str, values: Mapping[str, int]) -> int:  # noqa: ARG001 -- a way looks at both or at one
    """The sum of the numbers told, whatever the story says."""
    return sum(values.values())


def takes_the_cue(cell: str, values: Mapping[str, int]) -> int:
    """What the one word that catches the eye says."""
    return by_the_cue(cell, values)


def _part_as_whole(cell: str, values: Mapping[str, int]) -> int:
    a, b = values.values()
    return abs(a - b) if EQUATIONS[cell][3] == UNKNOWN else a + b


def _end_number(cell: str, values: Mapping[str, int]) -> int:  # noqa: ARG001 -- a way looks at both or at one
    return values["result"]


def _bigger_number(cell: str, values: Mapping[str, int]) -> int:  # noqa: ARG001 -- a way looks at both or at one
    return values["bigger"]


def _difference_again(cell: str, values: Mapping[str, int]) -> int:  # noqa: ARG001 -- a way looks at both or at one
    return values["difference"]


def _adds_at_more(cell: str, values: Mapping[str, int]) -> int | None:
    return sum(values.values()) if cell.endswith("more") else None


def solving_steps(cell: str, values: Mapping[str, int], unit: str | None = None) -> tuple[Step, ...]:
    """Draw the bar, write the sentence that solves it, answer with the unit."""
    whole, a, b, asked = whole_and_parts(cell, values)
    answer = solution(cell, values)
    steps = []
    if cell.endswith("start"):
        steps.append(Step("tell-backward"))
    if asked == "whole":
        steps.append(Step("write-add", {"a": a, "b": b, "result": answer}))
    else:
        steps.append(Step("write-take-away", {"a": whole, "b": b if asked == "a" else a, "result": answer}))
    if unit is not None:
        steps.append(Step("answer-with-unit", {"value": answer, "unit": unit}))
    return (Step("draw-bar", {"whole": whole, "a": a, "b": b, "asked": asked}), *steps)


def how_hard(cell: str, values: Mapping[str, int]) -> float:
    """How difficult a story is, 0 to 1: by the place of the unknown, then by a word that misleads.

    The order of the situations follows the grades in which the published table expects them.
    """
    base = 0.2 if cell.endswith(("result", "total")) else 0.6 if cell.endswith("start") else 0.4
    if by_the_cue(cell, values) != solution(cell, values):
        base += 0.2
    return min(1.0, base + 0.1 * (max(values.values()) > 10))


def _made(kind: Stories, numbers: Numbers) -> tuple[Story, Made]:
    cell, values = kind.tell(numbers)
    unit = kind.unit(numbers)
    told = story(cell, values, unit=unit)
    answer = solution(cell, values)
    errors = {way: str(wrong) for way, go in kind.ways.items() if (wrong := go(cell, values)) is not None}
    return told, Made(
        told,
        (Part("1", "digits", str(answer), kind.width),),
        solving_steps(cell, values, unit),
        errors,
        None,
        how_hard(cell, values),
    )


def in_words(kind: Stories) -> Maker:
    """The story with a place for its answer."""
    return lambda numbers: _made(kind, numbers)[1]


def with_a_bar(kind: Stories) -> Maker:
    """The story beside its bar picture, one box of which is empty."""

    def make(numbers: Numbers) -> Made:
        told, made = _made(kind, numbers)
        return Made(made.prompt, made.parts, made.steps, made.errors, bar(told), made.difficulty)

    return make


def as_an_equation(kind: Stories) -> Maker:
    """The equation that tells the same as the story, with a gap where the question is."""

    def make(numbers: Numbers) -> Made:
        told, made = _made(kind, numbers)
        left, sign, right, result = EQUATIONS[told.cell]

        def token(name: str) -> Token:
            return Gap("1") if name == UNKNOWN else told.values[name]

        row = Row((token(left), sign, token(right), "=", token(result)))
        return Made(row, made.parts, made.steps, made.errors, None, made.difficulty)

    return make


def _rule(skill: str, kind: Stories, *, equation: bool = False, bar_first: bool = False) -> SkillRule:
    formats = {WORD1: in_words(kind), BAR_FILL: with_a_bar(kind)}
    if bar_first:
        formats = {BAR_FILL: formats[BAR_FILL], WORD1: formats[WORD1]}
    if equation:
        formats[MISSING] = as_an_equation(kind)

    def over(go: StoryWay) -> Callable[[Numbers], int | None]:
        return lambda numbers: go(*kind.tell(numbers))

    return SkillRule(SkillId(skill), formats=formats, ways={way: over(go) for way, go in kind.ways.items()})


def _result(numbers: Numbers) -> Told:
    a, b, k = numbers["a"], numbers["b"], numbers["k"]
    if k == 0:
        return "add-to-result", {"start": a, "change": b}
    return "take-from-result", {"start": a, "change": b}


def _parts(numbers: Numbers) -> Told:
    a, b, k = numbers["a"], numbers["b"], numbers["k"]
    if k == 0:
        return "put-together-total", {"a": a, "b": b}
    return "put-together-addend", {"total": a + b, "a": a}


def _change(numbers: Numbers) -> Told:
    a, b, k = numbers["a"], numbers["b"], numbers["k"]
    if k == 0:
        return "add-to-change", {"start": a, "result": a + b}
    return "take-from-change", {"start": a + b, "result": a}


def _start(numbers: Numbers) -> Told:
    a, b, k = numbers["a"], numbers["b"], numbers["k"]
    if k == 0:
        return "add-to-start", {"change": b, "result": a + b}
    return "take-from-start", {"change": b, "result": a}


def _difference(numbers: Numbers) -> Told:
    cell = "compare-difference-more" if numbers["k"] == 0 else "compare-difference-fewer"
    return cell, {"bigger": numbers["a"], "smaller": numbers["b"]}


_BIGGER_SMALLER = ("compare-bigger-more", "compare-bigger-fewer", "compare-smaller-fewer", "compare-smaller-more")


def _bigger_smaller(numbers: Numbers) -> Told:
    a, b = numbers["a"], numbers["b"]
    cell = _BIGGER_SMALLER[numbers["k"]]
    if cell.startswith("compare-bigger"):
        return cell, {"smaller": a, "difference": b}
    return cell, {"bigger": a + b, "difference": b}


_ONE_STEP = tuple(EQUATIONS)


def _any_situation(numbers: Numbers) -> Told:
    """Parts a and b of a whole, or a smaller number a and a difference b, told in situation number k."""
    cell = _ONE_STEP[numbers["k"]]
    a, b = numbers["a"], numbers["b"]
    named = {"total": a + b, "a": a, "b": b}
    if cell.startswith("add-to"):
        named = {"start": a, "change": b, "result": a + b}
    elif cell.startswith("take-from"):
        named = {"start": a + b, "change": b, "result": a}
    elif cell.startswith("compare"):
        named = {"bigger": a + b, "smaller": a, "difference": b}
    return cell, {name: named[name] for name in CELLS[cell]}


def _lengths(numbers: Numbers) -> Told:
    a, b = numbers["a"], numbers["b"]
    return (
        ("take-from-result", {"start": a, "change": b}),
        ("put-together-total", {"a": a, "b": b}),
        ("compare-difference-more", {"bigger": a, "smaller": b}),
        ("take-from-change", {"start": a, "result": b}),
    )[numbers["k"]]


def _length_unit(numbers: Numbers) -> str:
    return "cm" if (numbers["a"] + numbers["b"]) % 2 else "m"


def _cm(_: Numbers) -> str:
    return "cm"


def _longer(numbers: Numbers) -> Told:
    return "compare-difference-more", {"bigger": numbers["a"], "smaller": numbers["b"]}


LONGER = Stories(
    _longer,
    {ErrorWayId("gives-longer"): _bigger_number, ErrorWayId("more-means-add"): _adds_at_more},
    unit=_cm,
)
"""How much longer one thing is than another, up to 20 cm; also asked beside drawn strips."""

RULES: tuple[SkillRule, ...] = (
    _rule("word-result-unknown-20", Stories(_result, {ErrorWayId("keyword-grab"): adds_the_told})),
    _rule(
        "word-put-together-20",
        Stories(_parts, {ErrorWayId("adds-always"): adds_the_told, ErrorWayId("part-for-whole"): _part_as_whole}),
    ),
    _rule(
        "word-bar-part-whole",
        Stories(
            _parts,
            {ErrorWayId("bar-but-wrong-sum"): adds_the_told, ErrorWayId("whole-in-part-box"): _part_as_whole},
        ),
        bar_first=True,
    ),
    _rule(
        "word-change-unknown",
        Stories(_change, {ErrorWayId("keyword-grab"): takes_the_cue, ErrorWayId("end-for-change"): _end_number}),
        equation=True,
    ),
    _rule("word-start-unknown", Stories(_start, {ErrorWayId("does-the-sign-shown"): takes_the_cue}), equation=True),
    _rule(
        "word-compare-difference",
        Stories(
            _difference,
            {ErrorWayId("more-means-add"): _adds_at_more, ErrorWayId("bigger-as-answer"): _bigger_number},
        ),
    ),
    _rule(
        "word-compare-bigger-smaller",
        Stories(
            _bigger_smaller,
            {ErrorWayId("wording-trap"): takes_the_cue, ErrorWayId("difference-as-answer"): _difference_again},
        ),
    ),
    _rule("word-one-step-100", Stories(_any_situation, {ErrorWayId("keyword-grab"): takes_the_cue}, width=3)),
    _rule(
        "length-word-problems-100",
        Stories(_lengths, {ErrorWayId("keyword-grab"): adds_the_told}, width=3, unit=_length_unit),
    ),
)
