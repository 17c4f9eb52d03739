"""Why a way works, told or drawn: the skill's own numbers, a question that asks for a reason, a key to look at."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING

from dayleaf.core.ids import FormatId, SkillId
from dayleaf.items.model import Figure, Part, Question, Row, Step
from dayleaf.items.numbers import RULES as NUMBERS
from dayleaf.items.pictured import coins, inches, lengths, long_stories, polygons, shapes, shares, turns, word_stories
from dayleaf.items.pictured.aloud import rule_with
from dayleaf.items.pictured.codes import TASKS
from dayleaf.items.rule import Fits, Made, Maker, Numbers, SkillRule

if TYPE_CHECKING:
    from collections.abc import Iterable

EXPLAIN = FormatId("explain")
_LOOK = (Part("1", "look", ""),)
_KNOWN = (
    *NUMBERS, *coins.RULES, *inches.RULES, *lengths.RULES, *long_stories.RULES, *polygons.RULES, *shapes.RULES,
    *shares.RULES, *turns.RULES, *word_stories.RULES,
)  # fmt: skip

Values = Callable[[Numbers], Mapping[str, int | str]]


def _told(skill: str, name: str, code: str, values: Values | None = None, *, picture: bool = False) -> SkillRule:
    """A reason asked about the numbers of another format, whose steps are the key."""
    rule = rule_with(_KNOWN, skill, name)
    plain = rule.formats[FormatId(name)]

    def make(numbers: Numbers) -> Made:
        made = plain(numbers)
        said = values(numbers) if values else made.prompt.values if isinstance(made.prompt, Question) else {}
        return Made(Question(code, said), _LOOK, made.steps, {}, made.figure if picture else None, made.difficulty)

    return _rule(skill, make, rule.fits.get(FormatId(name)))


def _rule(skill: str, maker: Maker, fits: Fits | None = None) -> SkillRule:
    return SkillRule(SkillId(skill), formats={EXPLAIN: maker}, fits={EXPLAIN: fits} if fits else {})


def _sum(skill: str, code: str) -> SkillRule:
    """A reason asked about the two numbers of a row."""
    plain = rule_with(_KNOWN, skill, "horiz").formats[FormatId("horiz")]

    def values(numbers: Numbers) -> Mapping[str, int]:
        prompt = plain(numbers).prompt
        a, b = (token for token in (prompt.tokens if isinstance(prompt, Row) else ()) if isinstance(token, int))
        return {"a": a, "b": b}

    return _told(skill, "horiz", code, values)


def _checked(numbers: Numbers) -> Mapping[str, int]:
    return {"a": numbers["a"], "b": numbers["b"], "left": numbers["a"] - numbers["b"]}


def _named(*names: str) -> Values:
    return lambda numbers: {name: numbers[name] for name in names}


def _one_step(numbers: Numbers) -> Made:
    """The story as it is told; the instruction asks which sign and why."""
    made = rule_with(_KNOWN, "word-one-step-100", "word1").formats[FormatId("word1")](numbers)
    return Made(made.prompt, _LOOK, made.steps, {}, None, made.difficulty)


def _not_needed(numbers: Numbers) -> Made:
    made = rule_with(_KNOWN, "word-extra-missing-info", "word1").formats[FormatId("word1")](numbers)
    values = made.prompt.values if isinstance(made.prompt, Question) else {}
    code = "why-not-needed-gives" if numbers["k"] else "why-not-needed-gets"
    return Made(Question(code, values), _LOOK, made.steps, {}, None, made.difficulty)


def _before(numbers: Numbers) -> Made:
    """Two steps that follow one another, p says which."""
    task = tuple(TASKS)[numbers["t"]]
    at = numbers["p"] - 1
    first, then = (f"{task}.{step}" for step in TASKS[task][at : at + 2])
    return Made(
        Question("why-before", {"first": first, "then": then}), _LOOK, (Step("what-must-come-first"),), {}, None, 0.5
    )


def _wrong_card(numbers: Numbers) -> Made:
    """The cards of a program with one wrong one; where it begins and where it has to end."""
    rule = rule_with(_KNOWN, "code-debug", "code-fix")
    made = rule.formats[FormatId("code-fix")](numbers)
    told = made.prompt.values if isinstance(made.prompt, Question) else {}
    floor = made.figure.params if made.figure else {}
    goal = floor["places"]
    return Made(
        Question(
            "why-wrong-card", {"start": str(floor["start"]), "goal": str(goal[0]) if isinstance(goal, tuple) else ""}
        ),
        _LOOK,
        made.steps,
        {},
        Figure("step-cards", {"steps": tuple(str(told["cards"]).split()), "question": 1}),
        made.difficulty,
    )


def _three_pairs(numbers: Numbers) -> bool:
    return numbers["p"] <= 3


def _n_from_parts(numbers: Numbers) -> Mapping[str, int | str]:
    made = rule_with(_KNOWN, "compose-decompose-shapes", "choose").formats[FormatId("choose")](numbers)
    values = made.prompt.values if isinstance(made.prompt, Question) else {}
    return {**values, "n": int(made.parts[0].answer)}


def _rules() -> Iterable[SkillRule]:
    for skill, code in (
        ("add-2digit-compensate", "why-compensate"),
        ("add-2digit-mental-split", "why-split"),
        ("add-3digit-mental", "why-split-hundreds"),
        ("add-near-doubles", "why-near-double"),
        ("sub-2digit-mental-split", "why-take-tens-first"),
        ("sub-2digit-numberline-count-up", "why-up-from"),
    ):
        yield _sum(skill, code)
    yield _told("sub-check-by-adding", "missing", "why-check-adds", _checked)
    yield _told("number-patterns-rule", "missing", "why-rule")
    yield _told("div-leftovers", "draw", "why-left-over", _named("n", "k"))
    yield _told("mul-split-distributive", "missing", "why-split-times", _named("a", "b"))
    yield _told("frac-same-share-different-shape", "choose", "why-share", picture=True)
    yield _told("compose-decompose-shapes", "choose", "why-pieces", _n_from_parts, picture=True)
    yield _told("quadrilateral-family", "tf", "why-every", picture=True)
    yield _told("quadrilaterals-sort", "tick-many", "why-kind", picture=True)
    yield _told("measure-two-units", "choose", "why-more-small-units", picture=True)
    yield _told("ruler-not-from-zero", "measure", "why-not-from-zero", lambda n: {"start": n["s"]}, picture=True)
    yield _told("coins-equivalent-sets", "coin-draw", "why-same-cents")
    yield _told("word-both-addends-unknown", "word1", "why-all-ways", _named("n"))
    yield _rule("word-extra-missing-info", _not_needed)
    yield _rule("word-one-step-100", _one_step)
    yield _rule("code-sequence-steps", _before, _three_pairs)
    yield _rule("code-debug", _wrong_card)


RULES: tuple[SkillRule, ...] = tuple(_rules())
