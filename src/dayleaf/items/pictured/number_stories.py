"""Stories for skills about numbers: the row's own two or three numbers, told.

The steps, the boxes and the ways to go astray are those of the skill's row or column, so that a story asks
for the same work and tells the same habits apart.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import FormatId, SkillId
from dayleaf.core.seeds import seed_from
from dayleaf.items.model import Column, Row, Step, Story
from dayleaf.items.numbers import RULES as NUMBERS
from dayleaf.items.rule import Made, Maker, Numbers, SkillRule
from dayleaf.items.stories import story

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from dayleaf.items.model import Prompt

TOLD: tuple[str, ...] = (
    "sub-2digit-no-regroup",
    "sub-2digit-regroup",
    "sub-2digit-multiple-of-10",
    "sub-2digit-mixed",
    "add-2digit-no-regroup",
    "add-2digit-regroup-ones",
    "add-2digit-mixed",
    "add-2digit-sum-over-100",
    "add-three-addends-20",
    "add-3-4-addends-1digit",
    "sub-3digit-no-regroup",
    "sub-3digit-regroup-tens",
    "sub-3digit-regroup-hundreds",
    "sub-3digit-regroup-twice",
    "sub-3digit-zero-tens",
    "sub-from-hundreds",
    "sub-from-1000",
    "sub-4digit-regroup",
    "add-3digit-no-regroup",
    "add-3digit-regroup-ones",
    "add-3digit-regroup-tens",
    "add-3digit-regroup-both",
    "add-4digit-regroup",
    "add-2digit-three-four-addends",
    "add-sub-3digit-mixed",
    "add-sub-1000-fluent",
)
"""Skills about numbers whose files ask for one-step stories."""

_TAKING = ("take-from-result", "put-together-addend", "compare-difference-more")
_PLAINLY = (FormatId("horiz"), FormatId("vert"))


def taking_away(a: int, b: int) -> Story:
    """A story solved by a − b: something is taken, a part is missing, or two numbers are compared."""
    cell = _TAKING[seed_from("taking", a, b) % len(_TAKING)]
    if cell == "take-from-result":
        return story(cell, {"start": a, "change": b})
    if cell == "put-together-addend":
        return story(cell, {"total": a, "a": b})
    return story(cell, {"bigger": a, "smaller": b})


def adding(*addends: int) -> Story:
    """A story solved by adding two or three numbers: something comes along, or parts are put together."""
    if len(addends) == 3:
        return story("put-together-three", dict(zip("abc", addends, strict=True)))
    a, b = addends
    if seed_from("adding", a, b) % 2:
        return story("add-to-result", {"start": a, "change": b})
    return story("put-together-total", {"a": a, "b": b})


def told(plain: Maker) -> Maker:
    """The maker of a story from the maker of the row or column that asks the same numbers."""

    def make(numbers: Numbers) -> Made:
        made = plain(numbers)
        sign, *given = _sum_of(made.prompt)
        prompt = taking_away(*given) if sign < 0 else adding(*given)
        steps = (_sentence(prompt, made.parts[0].answer), *made.steps)
        return Made(prompt, made.parts, steps, made.errors, None, made.difficulty)

    return make


def _sum_of(prompt: Prompt) -> tuple[int, ...]:
    """−1 or 1 for the sign, then the numbers given."""
    if isinstance(prompt, Column):
        return (-1 if prompt.sign == "-" else 1, *prompt.rows)
    if not isinstance(prompt, Row):
        raise TypeError(prompt)
    return (-1 if "-" in prompt.tokens else 1, *(token for token in prompt.tokens if isinstance(token, int)))


def _sentence(prompt: Story, answer: str) -> Step:
    values = tuple(prompt.values.values())
    if prompt.cell in _TAKING:
        return Step("write-take-away", {"a": values[0], "b": values[1], "result": int(answer)})
    if len(values) == 3:
        return Step("write-add-three", {"a": values[0], "b": values[1], "c": values[2], "result": int(answer)})
    return Step("write-add", {"a": values[0], "b": values[1], "result": int(answer)})


def _plain_makers(rules: Iterable[SkillRule]) -> Mapping[str, Maker]:
    found: dict[str, Maker] = {}
    for rule in rules:
        for name in _PLAINLY:
            if name in rule.formats and rule.skill not in found:
                found[rule.skill] = rule.formats[name]
    return found


def three_addends(numbers: Numbers) -> bool:
    """Whether the row has no more numbers than a story can tell; its rule calls the fourth e, 0 where there is none."""
    return numbers["e"] == 0


_PLAIN = _plain_makers(NUMBERS)
_WORD1 = FormatId("word1")
_LONG_ROWS = frozenset({"add-3-4-addends-1digit", "add-2digit-three-four-addends"})

RULES: tuple[SkillRule, ...] = tuple(
    SkillRule(
        SkillId(skill),
        formats={_WORD1: told(_PLAIN[skill])},
        fits={_WORD1: three_addends} if skill in _LONG_ROWS else {},
    )
    for skill in TOLD
    if skill in _PLAIN
)
