"""The course, and lessons of it that can be printed."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

import pytest

from dayleaf.course.load import grade2
from dayleaf.items.built import is_built
from dayleaf.learner.review import Back
from dayleaf.packets.day import prepare_day
from dayleaf.packets.model import Child
from dayleaf.sheets.model import Look

if TYPE_CHECKING:
    from collections.abc import Callable

    from dayleaf.course.model import Course, Day
    from dayleaf.items.model import Item
    from dayleaf.packets.model import Packet
    from dayleaf.sheets.model import PageKind

SAMPLED = (1, 3, 7, 13, 17, 24, 26, 81, 84, 86)
"""Lessons of the four chapters that are built in full: whole numbers, facts, place value, opening a ten."""


@pytest.fixture(scope="session")
def course() -> Course:
    return grade2()


@pytest.fixture(params=SAMPLED, ids=lambda number: f"day-{number:03d}")
def lesson(request: pytest.FixtureRequest, course: Course) -> Day:
    day = course.days[int(request.param) - 1]
    assert day.kind == "lesson"
    assert all(is_built(skill) for skill in day.front_skills)
    return day


@pytest.fixture(params=[(True, 1), (False, 2)], ids=["two sheets", "one sheet"])
def deal(request: pytest.FixtureRequest, lesson: Day) -> tuple[Day, bool, int]:
    """A lesson, whether it has two sheets, and a seed."""
    two, seed = request.param
    return lesson, two, seed


@pytest.fixture
def packet(deal: tuple[Day, bool, int], prepare: Callable[..., Packet]) -> Packet:
    day, two, seed = deal
    return prepare(day.number, seed=seed, two=two)


@pytest.fixture(scope="session")
def prepare(course: Course) -> Callable[..., Packet]:
    """Put the day of a number together as for a child whose back is what the course proposes; made once each."""

    @cache
    def made(
        number: int,
        *,
        seed: int = 1,
        two: bool | None = None,
        fewer: bool = False,
        avoid: frozenset[str] = frozenset(),
        look: Look = Look(),  # noqa: B008 -- a frozen value
    ) -> Packet:
        day = course.days[number - 1]
        backs = [Back(skill, "on the course's list") for skill in day.back_skills if is_built(skill)]
        child = Child("Wren", look, two_sheets=two, fewer_items=fewer)
        return prepare_day(course, day, child, seed=seed, backs=backs, avoid=avoid)

    return made


@pytest.fixture
def on() -> Callable[..., list[Item]]:
    """The items on the sides of some kinds, in order; all sides where none is named."""

    def items(packet: Packet, *kinds: PageKind) -> list[Item]:
        sides = [side for sheet in packet.sheets for side in sheet.pages if not kinds or side.kind in kinds]
        return [placed.item for side in sides for block in side.blocks for placed in block.items]

    return items
