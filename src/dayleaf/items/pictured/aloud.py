"""Items asked aloud: the parent asks what the row, the picture or the list asks, and writes what is said."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import FormatId, SkillId
from dayleaf.items.numbers import RULES as NUMBERS
from dayleaf.items.pictured import coins, money, tasks, turns
from dayleaf.items.rule import SkillRule

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

ASKED_AS: Mapping[str, str] = {
    # what is asked aloud, by the format that asks it on paper
    "add-2digit-compensate": "horiz",
    "add-2digit-mental-split": "horiz",
    "add-2digit-tens": "horiz",
    "add-3digit-mental": "horiz",
    "add-count-on-1-2-3": "horiz",
    "add-facts-within-20-mixed": "horiz",
    "add-sub-within-5": "horiz",
    "sub-2digit-mental-split": "horiz",
    "sub-2digit-tens": "horiz",
    "sub-tens-from-tens": "horiz",
    "sub-facts-within-20-mixed": "horiz",
    "add-sub-10-100-mental": "missing",
    "add-sub-10-100-1000-mental": "missing",
    "ten-more-ten-less": "missing",
    "money-dollar-trade": "missing",
    "count-objects-20": "count-pic",
    "coins-quarters-count": "coin-count",
    "count-to-120": "pattern",
    "count-within-1000": "pattern",
    "skip-count-2s-to-40": "pattern",
    "skip-count-5s-to-100": "pattern",
    "skip-count-10s-to-120": "pattern",
    "skip-count-5s-10s-to-1000": "pattern",
    "skip-count-100s-to-1000": "pattern",
    "position-words": "path",
    "code-if-then": "choose",
    "code-sequence-steps": "order",
}
"""Names of formats; common practice, no source."""

ORAL = FormatId("oral")


def rule_with(rules: Iterable[SkillRule], skill: str, name: str) -> SkillRule:
    """The rule that builds this format of the skill."""
    return next(rule for rule in rules if rule.skill == skill and FormatId(name) in rule.formats)


def as_before(rules: Iterable[SkillRule], skill: str, name: str, *, new: FormatId) -> SkillRule:
    """A format that asks just what another one asks, with the same numbers."""
    rule, old = rule_with(rules, skill, name), FormatId(name)
    fits = {new: rule.fits[old]} if old in rule.fits else {}
    return SkillRule(SkillId(skill), formats={new: rule.formats[old]}, fits=fits)


_KNOWN = (*NUMBERS, *coins.RULES, *money.RULES, *tasks.RULES, *turns.RULES)

RULES: tuple[SkillRule, ...] = tuple(as_before(_KNOWN, skill, name, new=ORAL) for skill, name in ASKED_AS.items())
