"""One written answer at a time: what a child wrote to some numbers, read against every known way."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING, Final

from dayleaf.core.errors import DayleafError
from dayleaf.core.ids import FormatId
from dayleaf.course.rules import parse_rule
from dayleaf.items.built import NotBuilt, is_built, rule_of
from dayleaf.items.written import NotAnItem, read_written
from dayleaf.learner.asking import formats_to_ask, item_of, item_to_ask
from dayleaf.learner.columns import published_answers
from dayleaf.learner.habits import Habits, heard, named, odds_in
from dayleaf.learner.replies import Reply, reply_to

if TYPE_CHECKING:
    from collections.abc import Sequence

    from dayleaf.core.ids import ErrorWayId, SkillId
    from dayleaf.course.model import Skill
    from dayleaf.items.model import Item

_SIGNS: Final = ("-", "+", "x", "/")


class NotReadable(DayleafError):
    """Numbers or an answer that no item of the skill could have."""


@dataclass(frozen=True, slots=True)
class HabitReading:
    """What all answers so far say: a habit, or a class of look-alikes, or nothing yet, and the item to ask next.

    `p` is the probability of the habit, of the whole class, or of the likeliest way; `state` goes into the next call.
    """

    habit: ErrorWayId | None
    p: float
    klass: tuple[ErrorWayId, ...]
    ask: Item | None
    state: Habits


def read(
    state: Habits, skill: Skill, numbers: Mapping[str, int] | Sequence[int] | str, answer: int | str
) -> HabitReading:
    """The reading after one more answer.

    `numbers` are the variables of the skill's rule by name (they need not obey the rule), or the numbers in the order
    in which they are written (62 and 38 of 62 - 38), or the sum itself ("62-38"). `answer` is what was written, a
    place left empty closes up. The item to ask is new, of this skill, and tells most.

    Raises:
        NotReadable: no item of the skill has such numbers, or nothing is written.
    """
    base = _base(skill, numbers)
    after = heard(state, replace(base, written=_canonical(base.right, answer)), strand=skill.strand)
    return reading(after, skill)


def reading(state: Habits, skill: Skill) -> HabitReading:
    """What is known so far, seen from one skill, with the item of that skill to ask next."""
    odds = odds_in(state, skill.strand)
    found = named(odds)
    return HabitReading(
        habit=found.habit,
        p=found.p,
        klass=found.klass,
        ask=item_to_ask(skill, odds, asked=state.asked),
        state=state,
    )


def _base(skill: Skill, numbers: Mapping[str, int] | Sequence[int] | str) -> Reply:
    return _unanswered(skill.id, skill.item_rule or "", tuple(sorted(_named(skill, numbers).items())))


@lru_cache(maxsize=4096)
def _unanswered(skill: SkillId, rule: str, numbers: tuple[tuple[str, int], ...]) -> Reply:
    try:
        return reply_to(_item(skill, rule, numbers), "", lang=None)
    except NotReadable:
        a, b = dict(numbers).get("a", 0), dict(numbers).get("b", 0)
        if len(numbers) != 2 or not skill.startswith("sub-") or not 0 < b < a:
            raise
        errors, readings = published_answers(a, b)  # longer numbers than the skill's makers know
        key = f"{skill}/vert/a={a},b={b}"
        return Reply(key, skill, FormatId("vert"), "", str(a - b), "", errors, readings=readings)


@lru_cache(maxsize=4096)
def _item(skill: SkillId, rule: str, numbers: tuple[tuple[str, int], ...]) -> Item:
    given = dict(numbers)
    known = [variable.name for variable in parse_rule(rule).variables] if rule else []
    if not is_built(skill) or set(known) != set(given):
        raise NotReadable(f"{skill} asks for {', '.join(known) or 'no numbers'}, not for {', '.join(given)}.")
    formats = formats_to_ask(skill)
    narrow = rule_of(skill).fits
    for one in sorted(formats, key=lambda one: one in narrow):
        try:
            if one in narrow and not narrow[one](given):
                continue
            item = item_of(skill, one, given)
        except (ArithmeticError, LookupError, ValueError):
            continue  # the numbers lie far outside the rule
        if item.answer and not item.answer.startswith("-"):
            return item
    told = ", ".join(f"{name}={value}" for name, value in numbers)
    raise NotReadable(f"{skill} has no item with {told}.")


def _named(skill: Skill, numbers: Mapping[str, int] | Sequence[int] | str) -> dict[str, int]:
    """The numbers by the names of the rule's variables."""
    if isinstance(numbers, Mapping):
        return dict(numbers)
    values = [int(one) for one in re.findall(r"\d+", numbers)] if isinstance(numbers, str) else list(numbers)
    rule = parse_rule(skill.item_rule) if skill.item_rule else None
    by_order = dict(zip((one.name for one in rule.variables), values, strict=False)) if rule else {}
    fits = rule is not None and len(by_order) == len(values) == len(rule.variables)
    if fits and rule is not None and rule.holds(by_order):
        return by_order
    for sign in _SIGNS:
        try:
            return dict(read_written(skill, f"{sign.join(str(one) for one in values)}=0")[0].numbers)
        except (NotAnItem, NotBuilt):
            continue
    if fits:
        return by_order
    raise NotReadable(f"{skill.id} has no item with the numbers {', '.join(str(one) for one in values)}.")


def _canonical(right: str, answer: int | str) -> str:
    """The answer as the item writes it: places left empty close up, a zero in front is dropped."""
    text = str(answer).strip()
    if right.isdigit():
        text = "".join(re.findall(r"\d", text))
        text = text.lstrip("0") or text[:1]
    else:
        text = " ".join(text.split())
    if not text:
        raise NotReadable("Nothing is written there; a place left empty says nothing of a habit.")
    return text
