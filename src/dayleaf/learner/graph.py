"""Skills and what they rest on, as numbers: the one shape that both engines work on. Any course has it."""

from __future__ import annotations

from dataclasses import dataclass, field
from math import log
from typing import TYPE_CHECKING, Final

import numpy as np

from dayleaf.learner.parameters import DEFAULT, USUAL_PRACTICE

if TYPE_CHECKING:
    from collections.abc import Container, Iterable, Mapping, Sequence

    from numpy.typing import NDArray

    from dayleaf.core.ids import SkillId
    from dayleaf.course.model import Course, Role

BROUGHT_ROLES: Final[frozenset[Role]] = frozenset({"below", "refresh"})
BROUGHT: Final = (
    log(DEFAULT.beneath_level / (1 - DEFAULT.beneath_level)) - DEFAULT.base + DEFAULT.practice * USUAL_PRACTICE
)
"""The u of a skill that a child brings along: it starts at the level where prerequisites neither help nor hold
back. An assumption until the child is placed; every other skill has u = 0."""


@dataclass(frozen=True, slots=True)
class Below:
    """The prerequisites of all skills as flat arrays: entry e says that `lower[e]` lies beneath `upper[e]`."""

    upper: NDArray[np.intp]
    lower: NDArray[np.intp]
    many: NDArray[np.intp]
    """How many lie beneath each skill; its entries begin at `first`."""
    first: NDArray[np.intp]


@dataclass(frozen=True, slots=True)
class Graph:
    """Skills by number. `beneath` are direct prerequisites, `level` the u of each skill (logits)."""

    ids: tuple[SkillId, ...]
    number: Mapping[SkillId, int] = field(repr=False)
    beneath: tuple[tuple[int, ...], ...] = field(repr=False)
    level: tuple[float, ...] = field(repr=False)
    below: Below = field(repr=False, compare=False)
    levels: NDArray[np.float64] = field(repr=False, compare=False)


def graph_of_links(links: Mapping[SkillId, Sequence[SkillId]], *, brought: Container[SkillId] = ()) -> Graph:
    """The graph of skills with their prerequisites; a prerequisite that is no skill here is passed over."""
    number = {skill: place for place, skill in enumerate(links)}
    beneath = tuple(_numbers(lowers, number, but=skill) for skill, lowers in links.items())
    level = tuple(BROUGHT if skill in brought else 0.0 for skill in links)
    return Graph(
        ids=tuple(links),
        number=number,
        beneath=beneath,
        level=level,
        below=_below(beneath),
        levels=np.array(level, dtype=np.float64),
    )


def graph_of(course: Course, *, brought: Container[SkillId] = ()) -> Graph:
    """The graph of a course; skills whose role says so, and those in `brought`, start at the level that carries."""
    known = {skill.id for skill in course.skills.values() if skill.role in BROUGHT_ROLES or skill.id in brought}
    return graph_of_links({skill.id: skill.prereqs for skill in course.skills.values()}, brought=known)


def _below(beneath: Sequence[Sequence[int]]) -> Below:
    pairs = [(upper, lower) for upper, lowers in enumerate(beneath) for lower in lowers]
    flat = np.array(pairs, dtype=np.intp).reshape(-1, 2)
    many = np.array([len(lowers) for lowers in beneath], dtype=np.intp)
    return Below(upper=flat[:, 0].copy(), lower=flat[:, 1].copy(), many=many, first=np.cumsum(many) - many)


def _numbers(lowers: Iterable[SkillId], number: Mapping[SkillId, int], *, but: SkillId) -> tuple[int, ...]:
    return tuple(number[lower] for lower in dict.fromkeys(lowers) if lower in number and lower != but)
