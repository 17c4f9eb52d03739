"""Shapes to sort: each picture's group is the one that numpy finds from the corners of its printed outline."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

import numpy as np
import pytest

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.course.load import grade2
from dayleaf.figures.outlines import SHAPES
from dayleaf.items.domain import domain_of
from dayleaf.items.face import face
from dayleaf.items.make import make
from dayleaf.items.model import Figure, Item, Sort
from dayleaf.items.second import second_answer

if TYPE_CHECKING:
    import numpy.typing as npt

BY_NAME, BY_FOLDING = SkillId("shapes-2d-name"), SkillId("symmetry-line")
SIDES = {"triangle": 3, "square": 4, "rectangle": 4, "hexagon": 6}
ROUND = {"circle", "oval"}


def sorts(skill_id: SkillId) -> list[Item]:
    skill = grade2().skills[skill_id]
    domain = domain_of(skill)
    return [make(skill, FormatId("sort"), domain.numbers(place)) for place in range(len(domain))]


def sorted_shapes(item: Item) -> list[tuple[Figure, str]]:
    assert isinstance(item.prompt, Sort)
    figures = [thing for thing in item.prompt.things if isinstance(thing, Figure)]
    return list(zip(figures, item.answer.split(), strict=True))


def shape_of(figure: Figure) -> str:
    shapes = figure.params["shapes"]
    assert isinstance(shapes, tuple)
    return str(shapes[0])


def corners(name: str) -> npt.NDArray[np.float64]:
    """The corners of the printed outline, around the middle of its box."""
    points = np.array(SHAPES[name].outline, dtype=np.float64)
    middle: npt.NDArray[np.float64] = (points.min(axis=0) + points.max(axis=0)) / 2
    return np.subtract(points, middle, dtype=np.float64)


def has_name(name: str, kind: str) -> bool:
    """By counting corners and measuring sides of the outline; round shapes have their own name alone."""
    if name in ROUND or kind == "circle":
        return name == kind
    points = corners(name)
    if kind not in ("square", "rectangle"):
        return len(points) == SIDES[kind]
    sides = np.roll(points, -1, axis=0) - points
    square_corners = np.allclose(np.sum(sides * np.roll(sides, -1, axis=0), axis=1), 0)
    lengths = np.linalg.norm(sides, axis=1)
    return len(points) == 4 and square_corners and (kind == "rectangle" or bool(np.allclose(lengths, lengths[0])))


def meets(name: str, degrees: int) -> bool:
    """Whether mirroring at a line through the middle takes every corner to a corner."""
    double = 2 * np.radians(degrees)
    mirror = np.array([[np.cos(double), np.sin(double)], [np.sin(double), -np.cos(double)]])
    points = corners(name)
    distances = np.linalg.norm((points @ mirror)[:, None] - points[None], axis=2)
    return bool(np.all(distances.min(axis=1) < 0.04 * np.ptp(points)))


def test_each_shape_stands_in_the_group_of_its_name_and_in_no_other() -> None:
    for item in sorts(BY_NAME):
        assert isinstance(item.prompt, Sort)
        for figure, group in sorted_shapes(item):
            fitting = [kind for kind in item.prompt.groups[:2] if has_name(shape_of(figure), kind)]

            assert fitting == ([] if group == "none-of-these" else [group]), item.key


def test_a_fold_meets_where_the_line_mirrors_the_outline_onto_itself() -> None:
    for item in sorts(BY_FOLDING):
        for figure, group in sorted_shapes(item):
            lines = figure.params["lines"]
            assert isinstance(lines, tuple)

            assert meets(shape_of(figure), int(lines[0])) == (group == "yes"), (item.key, figure)


@pytest.mark.parametrize("skill_id", [BY_NAME, BY_FOLDING])
def test_the_second_solver_agrees_and_no_two_tables_look_alike(skill_id: SkillId) -> None:
    items = sorts(skill_id)

    assert [item.key for item in items if second_answer(item) != item.answer] == []
    assert len({face(item) for item in items}) == len(items)
    assert all(len(set(item.answer.split())) > 1 for item in items)


def test_every_way_of_the_skills_puts_some_shape_into_another_group() -> None:
    for skill_id in (BY_NAME, BY_FOLDING):
        wrong: Counter[ErrorWayId] = Counter()
        for item in sorts(skill_id):
            wrong.update(way for way, answer in item.errors.items() if answer != item.answer)

        assert set(wrong) == {note.id for note in grade2().skills[skill_id].error_ways}
