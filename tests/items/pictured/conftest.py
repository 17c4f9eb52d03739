"""Every item that a skill's rule allows in one format."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from dayleaf.core.ids import FormatId, SkillId
from dayleaf.course.load import grade2
from dayleaf.items.built import rule_of
from dayleaf.items.domain import domain_of
from dayleaf.items.make import make

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from dayleaf.items.model import Item


@pytest.fixture
def every() -> Callable[..., Iterator[Item]]:
    """`every(skill, format, step)`: one of each `step` items, in the order of the rule."""
    return _every


def _every(skill_id: str, name: str, step: int = 1) -> Iterator[Item]:
    skill = grade2().skills[SkillId(skill_id)]
    domain = domain_of(skill)
    fits = rule_of(skill.id).fits.get(FormatId(name))
    allowed = [one for one in map(domain.numbers, range(len(domain))) if fits is None or fits(one)]
    return (make(skill, FormatId(name), one) for one in allowed[::step])
