"""A problem typed in with what the child wrote: `62-38=36`, `8+□=13: 4`, `39 < 42`."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING

from dayleaf.core.errors import DayleafError
from dayleaf.course.rules import parse_rule
from dayleaf.items.built import rule_of
from dayleaf.items.domain import domain_of_rule
from dayleaf.items.face import sum_face
from dayleaf.items.make import make
from dayleaf.items.model import Column, Row

if TYPE_CHECKING:
    from collections.abc import Mapping

    from dayleaf.core.ids import FormatId, SkillId
    from dayleaf.course.model import Skill
    from dayleaf.items.model import Item

MOST_LISTED = 30_000
"""Rules with more items than this are not searched for a line whose numbers are not the rule's own."""

MOST_TRIED = 100_000
"""Nor are rules whose ranges alone give more than this."""

_SIGNS = str.maketrans({"−": "-", "–": "-", "×": "x", "÷": "/", "□": "_", "?": "_", "☐": "_"})
_COMPARISON = re.compile(r"(\d+)([<>=])(\d+)")
_PAIR = re.compile(r"(\d+)[+-](\d+)=_")
_PLAIN = re.compile(r"([\d+\-x/]+)=(\d+)")


class NotAnItem(DayleafError):
    """A typed line that is no problem of the skill."""

    def __init__(self, *, skill: SkillId, text: str, why: str) -> None:
        self.skill = skill
        self.text = text
        self.why = why
        super().__init__(f"“{text}” {why}.")


def read_written(skill: Skill, text: str) -> tuple[Item, str]:
    """The item that was asked and the child's answer, in canonical form.

    Three shapes are read: a sum with the child's result (`62-38=36`), a sum with a gap and the child's number
    after a colon (`8+□=13: 4`; ? and _ stand for □ too), and two numbers with the child's sign (`39 > 42`).
    Spaces and the printed signs − × ÷ are accepted. Several gaps are filled by numbers with spaces between.

    Raises:
        NotBuilt: the skill cannot be made yet.
        NotAnItem: the line has no such shape, or its numbers do not belong to the skill.
    """
    asked, answer = _parted(skill, text)
    found = _by_its_numbers(skill, asked) or _listed(skill, asked) or _beside_the_rule(skill, asked)
    if found is None:
        why = f"is not a problem of {skill.id}: its numbers are outside the rule"
        raise NotAnItem(skill=skill.id, text=text, why=why)
    format_id, numbers = found
    item = make(skill, format_id, numbers)
    if len(answer.split()) != len(item.parts):
        raise NotAnItem(skill=skill.id, text=text, why=f"needs {len(item.parts)} answers after the colon")
    return item, answer


def _by_its_numbers(skill: Skill, asked: str) -> tuple[FormatId, dict[str, int]] | None:
    """The item whose rule's variables are the numbers of the line in their order, then one choice such as k."""
    told = [int(number) for number in re.findall(r"\d+", asked)]
    rule_text = skill.item_rule or ""
    variables = parse_rule(rule_text).variables
    if not told or not 0 <= len(variables) - len(told) <= 1:
        return None
    last = variables[-1] if len(variables) > len(told) else None
    for choice in range(last.lo, last.hi + 1) if last else (None,):
        values = told if choice is None else [*told, choice]
        numbers = dict(zip((variable.name for variable in variables), values, strict=True))
        if parse_rule(rule_text).holds(numbers) and (found := _format_that_asks(skill.id, numbers, asked)):
            return found, numbers
    return None


def _format_that_asks(skill_id: SkillId, numbers: Mapping[str, int], asked: str) -> FormatId | None:
    """The first row or plain column of the skill that asks these numbers in this way."""
    rule = rule_of(skill_id)
    for format_id, maker in rule.formats.items():
        if format_id in rule.fits and not rule.fits[format_id](numbers):
            continue
        prompt = maker(numbers).prompt
        if not isinstance(prompt, (Row, Column)) or (isinstance(prompt, Column) and prompt.shown is not None):
            continue
        if sum_face(prompt) == asked:
            return format_id
    return None


def _listed(skill: Skill, asked: str) -> tuple[FormatId, dict[str, int]] | None:
    """The item found among all of the rule, where these are few enough to be gone through."""
    rule_text = skill.item_rule or ""
    domain = domain_of_rule(rule_text)
    if domain.rule.combinations > MOST_TRIED or len(domain) > MOST_LISTED:
        return None
    return _faces(skill.id, rule_text).get(asked)


def _beside_the_rule(skill: Skill, asked: str) -> tuple[FormatId, dict[str, int]] | None:
    """A sum within the rule's ranges that its condition leaves out, such as 65-21 where a ten is to be opened.

    Such an item still tells: a habit that opens no ten gives the right answer there (JOB 1.7's sixth item).
    """
    pair = _PAIR.fullmatch(asked)
    variables = parse_rule(skill.item_rule or "").variables
    if pair is None or [variable.name for variable in variables] != ["a", "b"]:
        return None
    numbers = {"a": int(pair[1]), "b": int(pair[2])}
    if not all(variable.lo <= numbers[variable.name] <= variable.hi for variable in variables):
        return None
    if numbers["a"] < numbers["b"]:
        return None
    rule = rule_of(skill.id)
    for format_id, maker in rule.formats.items():
        if format_id in rule.fits and not rule.fits[format_id](numbers):
            continue
        prompt = maker(numbers).prompt
        if isinstance(prompt, (Row, Column)) and sum_face(prompt) == asked:
            return format_id, numbers
    return None


def _parted(skill: Skill, text: str) -> tuple[str, str]:
    """What was asked, as a face, and what was answered."""
    line, colon, after = text.translate(_SIGNS).partition(":")
    asked = "".join(line.split())
    if colon:
        answers = after.split()
        if not answers or not all(re.fullmatch(r"\d+|[<>=+\-]", answer) for answer in answers):
            raise NotAnItem(skill=skill.id, text=text, why="has no number after the colon")
        return asked, " ".join(_canonical(answer) for answer in answers)
    if plain := _PLAIN.fullmatch(asked):
        return f"{plain[1]}=_", _canonical(plain[2])
    if compared := _COMPARISON.fullmatch(asked):
        return f"{compared[1]}_{compared[3]}", compared[2]
    raise NotAnItem(skill=skill.id, text=text, why="cannot be read; write it as 62-38=36, or with a gap as 8+□=13: 4")


def _canonical(answer: str) -> str:
    return str(int(answer)) if answer.isdigit() else answer


@lru_cache(maxsize=64)
def _faces(skill_id: SkillId, rule_text: str) -> Mapping[str, tuple[FormatId, dict[str, int]]]:
    """Every row and plain column of a skill by what it asks, the first format that asks it first."""
    rule = rule_of(skill_id)
    domain = domain_of_rule(rule_text)
    faces: dict[str, tuple[FormatId, dict[str, int]]] = {}
    for format_id, maker in rule.formats.items():
        fits = rule.fits.get(format_id)
        for place in range(len(domain)):
            numbers = domain.numbers(place)
            if fits is not None and not fits(numbers):
                continue
            prompt = maker(numbers).prompt
            if not isinstance(prompt, (Row, Column)) or (isinstance(prompt, Column) and prompt.shown is not None):
                break
            asked = sum_face(prompt).translate(_SIGNS)
            if faces.get(asked, (format_id, numbers)) != (format_id, numbers):
                break  # the same sums in another layout
            faces[asked] = format_id, numbers
    return faces
