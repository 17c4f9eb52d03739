"""Dots to ring in groups of a size, in fair shares, in tens."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.items.model import Figure, Part, Question, Step
from dayleaf.items.numbers import RULES as NUMBERS
from dayleaf.items.pictured import shares
from dayleaf.items.pictured.aloud import as_before, rule_with
from dayleaf.items.rule import Made, SkillRule

if TYPE_CHECKING:
    from dayleaf.items.rule import Numbers

GROUP_RING = FormatId("group-ring")
UNEQUAL_DEAL, UNEQUAL_GROUPS = ErrorWayId("unequal-deal"), ErrorWayId("unequal-groups")


def one_too_many(each: int) -> int:
    """Shares that are not fair: one ring has one dot more than its share, and that ring is counted."""
    return each + 1


def _groups_of(numbers: Numbers) -> Made:
    a, b = numbers["a"], numbers["b"]
    return Made(
        Question("ring-groups-of", {"n": a * b, "size": b}),
        (Part("1", "digits", str(a), 2),),
        (Step("make-groups", {"total": a * b, "size": b, "groups": a}),),
        {},
        Figure("set-objects", {"groups": a, "size": b, "rings": 0, "question": 1}),
        min(1.0, a * b / 50),
    )


def _shares(numbers: Numbers) -> Made:
    a, b = numbers["a"], numbers["b"]
    plain = rule_with(NUMBERS, "div-fair-share", "draw").formats[FormatId("draw")](numbers)
    return Made(
        Question("ring-shares", {"n": a * b, "groups": a}),
        plain.parts,
        plain.steps,
        {**plain.errors, UNEQUAL_DEAL: str(one_too_many(b))},
        plain.figure,
        plain.difficulty,
    )


def _share_of_set(numbers: Numbers) -> Made:
    plain = rule_with(shares.RULES, "frac-of-set", "draw").formats[FormatId("draw")](numbers)
    errors = {**plain.errors, UNEQUAL_GROUPS: str(one_too_many(int(plain.parts[0].answer)))}
    return Made(plain.prompt, plain.parts, plain.steps, errors, plain.figure, plain.difficulty)


def _tens(numbers: Numbers) -> Made:
    plain = rule_with(NUMBERS, "estimate-count-by-tens", "estimate").formats[FormatId("estimate")](numbers)
    tens, left = divmod(numbers["n"], 10)
    return Made(
        Question("ring-tens"),
        (Part("1", "digits", str(tens), 2), Part("2", "digits", str(left), 1)),
        (Step("so-many-rings", {"groups": tens, "left": left}),),
        {},
        plain.figure,
        plain.difficulty,
    )


def more_than_one(numbers: Numbers) -> bool:
    """Groups of one need no ring."""
    return numbers["b"] > 1


RULES: tuple[SkillRule, ...] = (
    SkillRule(SkillId("mul-equal-groups"), formats={GROUP_RING: _groups_of}, fits={GROUP_RING: more_than_one}),
    as_before(NUMBERS, "div-grouping", "draw", new=GROUP_RING),
    SkillRule(SkillId("div-fair-share"), formats={GROUP_RING: _shares}),
    SkillRule(SkillId("frac-of-set"), formats={GROUP_RING: _share_of_set}),
    SkillRule(SkillId("estimate-count-by-tens"), formats={GROUP_RING: _tens}),
)
