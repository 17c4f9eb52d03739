"""More tables to sort: the second solver agrees everywhere, and each group is found again by other means."""

from __future__ import annotations

from collections import Counter

import numpy as np
import pytest

from dayleaf.core.ids import FormatId, SkillId
from dayleaf.course.load import grade2
from dayleaf.figures.outlines import SHAPES
from dayleaf.items.built import rule_of
from dayleaf.items.domain import domain_of
from dayleaf.items.face import face
from dayleaf.items.make import make
from dayleaf.items.model import Figure, Item, Sort
from dayleaf.items.paired import families
from dayleaf.items.second import second_answer

SORT = FormatId("sort")
SKILLS = [rule.skill for rule in families.RULES]


def sorts(skill_id: SkillId) -> list[Item]:
    skill = grade2().skills[skill_id]
    domain, fits = domain_of(skill), rule_of(skill_id).fits.get(SORT)
    step = max(1, len(domain) // 80) | 1
    rows = (domain.numbers(place) for place in range(0, len(domain), step))
    return [make(skill, SORT, numbers) for numbers in rows if fits is None or fits(numbers)]


@pytest.mark.parametrize("skill_id", SKILLS)
def test_the_second_solver_finds_the_same_groups_and_more_than_one_is_used(skill_id: SkillId) -> None:
    items = sorts(skill_id)

    assert [item.key for item in items if second_answer(item) != item.answer] == []
    assert all(len(set(item.answer.split())) > 1 for item in items)
    assert len({face(item) for item in items}) == len(items)


@pytest.mark.parametrize("skill_id", SKILLS)
def test_a_way_of_the_skills_own_file_puts_some_thing_into_another_group(skill_id: SkillId) -> None:
    wrong: Counter[str] = Counter()
    for item in sorts(skill_id):
        wrong.update(way for way, answer in item.errors.items() if answer != item.answer)

    assert wrong
    assert set(wrong) <= {note.id for note in grade2().skills[skill_id].error_ways}


def square_corners(name: str) -> int:
    """Corners of the printed outline whose two sides stand upright on one another, by numpy's dot product."""
    points = np.array(SHAPES[name].outline, dtype=np.float64)
    sides = np.roll(points, -1, axis=0) - points
    return int(np.isclose(np.sum(sides * np.roll(sides, -1, axis=0), axis=1), 0, atol=1e-9).sum())


def test_a_shape_has_a_square_corner_where_two_sides_of_its_outline_are_perpendicular() -> None:
    for item in sorts(SkillId("shape-square-corner")):
        assert isinstance(item.prompt, Sort)
        for thing, group in zip(item.prompt.things, item.answer.split(), strict=True):
            assert isinstance(thing, Figure)
            shapes = thing.params["shapes"]
            assert isinstance(shapes, tuple)

            assert (square_corners(str(shapes[0])) > 0) == (group == "yes"), shapes
