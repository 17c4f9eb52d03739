"""The three-day strip and the placement paper: what stands on the sides, and that they read back as ours.

Referees: pdfplumber reads the finished files; the answers on the key are the items' own, computed a second time.
"""

from __future__ import annotations

from io import BytesIO
from typing import TYPE_CHECKING

import pdfplumber
import pytest

from dayleaf.core.ids import ErrorWayId, SkillId
from dayleaf.items.second import second_answer
from dayleaf.learner.states import ground_of_course, number_skills
from dayleaf.learner.strip import strip_for
from dayleaf.packets.model import Child
from dayleaf.packets.placement import A_SITTING, ON_PAPER, PlacementPaper, placement_skills, print_placement
from dayleaf.packets.strip import print_strip
from dayleaf.sheets.model import Look

if TYPE_CHECKING:
    from dayleaf.course.model import Course
    from dayleaf.packets.loose import Loose

REGROUP = SkillId("sub-2digit-regroup")
SFL = ErrorWayId("smaller-from-larger")


def text_of_file(pdf: bytes) -> str:
    with pdfplumber.open(BytesIO(pdf)) as file:
        return "\n".join(page.extract_text() for page in file.pages)


@pytest.fixture(scope="module")
def paper(course: Course) -> PlacementPaper:
    ground = ground_of_course(course)
    places = {skill: float(day) for skill, day in zip(ground.graph.ids, ground.place, strict=True)}
    asked = placement_skills(course, places, skills=number_skills(course), lang="en", n=ON_PAPER)
    return print_placement(course, asked, Child("Bean"), seed=4)


def strip_on_paper(course: Course, look: Look) -> Loose:
    return print_strip(strip_for(course, course.skills[REGROUP], way=SFL, seed=3), Child("Wren", look))


@pytest.mark.parametrize("look", [Look(), Look(paper="a4", left_handed=True), Look(large_boxes=True)])
def test_a_strip_is_three_sides_with_four_four_and_six_items_and_boxes_for_each(course: Course, look: Look) -> None:
    pages = strip_on_paper(course, look).pages.pages

    assert [len(page.items) for page in pages] == [4, 4, 6]
    for page in pages:
        assert {box.item for box in page.boxes} == {item.n for item in page.items}
    assert len({page.sheet for page in pages}) == 2


def test_the_guide_of_a_strip_names_the_habit_what_to_do_and_what_ends_it(course: Course) -> None:
    words = " ".join(text_of_file(strip_on_paper(course, Look()).guide).split())

    assert "taking the smaller digit from the larger" in words
    assert "Day one: with things" in words
    assert "Five of the last six right end it" in words
    assert "Open one ten into ten ones" in words


def test_the_placement_paper_is_one_sheet_of_two_sides_from_early_to_late(
    course: Course, paper: PlacementPaper
) -> None:
    pages = paper.prints.pages.pages
    ground = ground_of_course(course)
    place = [ground.place[ground.graph.number[item.skill]] for item in paper.items]

    assert [page.page for page in pages] == [1, 2]
    assert all(5 <= len(page.items) <= A_SITTING for page in pages)
    assert place == sorted(place)
    assert len({item.skill for item in paper.items}) == len(paper.items)
    assert len({course.skills[item.skill].strand for item in paper.items}) >= 4


def test_every_answer_of_the_placement_key_is_right(paper: PlacementPaper) -> None:
    key = text_of_file(paper.prints.guide)

    for n, item in enumerate(paper.items, start=1):
        assert item.answer == second_answer(item)
        assert f"{n}: " in key


def test_the_parent_reads_when_to_stop(paper: PlacementPaper) -> None:
    words = " ".join(text_of_file(paper.prints.guide).split())

    assert "Stop here when three in a row are not yet there" in words
    assert "Any other day may be chosen" in words


def test_marks_become_answers_up_to_the_last_item_reached(paper: PlacementPaper) -> None:
    told = paper.answers(wrong={2, 4}, reached=5)

    assert told == tuple((item.skill, n not in {2, 4}) for n, item in enumerate(paper.items[:5], start=1))
