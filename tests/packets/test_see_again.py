"""A skill seen again, and the course map: whole for every skill, true to the course's own data."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from io import BytesIO

import networkx as nx
import pdfplumber
import pytest

from dayleaf.course.load import grade2
from dayleaf.packets.course_map import course_map, map_svg, ordinary_week, print_map, weeks_of
from dayleaf.packets.see_again import print_again, second_way, second_ways, see_again
from dayleaf.sheets.model import Look

SOME = ("sub-2digit-regroup", "time-five-minutes", "frac-compare-unit", "code-trace", "position-words", "div-leftovers")
SVG = "{http://www.w3.org/2000/svg}"


def test_every_skill_has_a_second_way_of_its_own_family() -> None:
    last = second_ways()[-1]

    assert last.skills == ("*",)
    assert [skill.id for skill in grade2().skills.values() if second_way(skill) is last] == []


def test_skills_have_an_example_in_steps_and_no_step_holds_an_unfilled_slot() -> None:
    """Every fifth skill of the course, which is some of every strand."""
    for skill in list(grade2().skills.values())[::5]:
        again = see_again(grade2(), skill)

        assert len(again.steps) >= 2, skill.id
        assert len(again.second) >= 3, skill.id
        said = " ".join((again.asked.text, *again.steps, *again.second))
        assert "{" not in said, skill.id
        assert len(again.screens) >= 1 + len(again.steps) + len(again.second)


@pytest.mark.parametrize("name", ["add-3digit-regroup-both", "sub-2digit-regroup", "sub-3digit-no-regroup"])
def test_the_answer_shown_is_what_the_numbers_give(name: str) -> None:
    """Plain arithmetic on the numbers that stand in the question is the referee."""
    skill = grade2().skills[name]  # type: ignore[index] # plain text
    again = see_again(grade2(), skill, seed=3)

    sum_asked = again.asked.text.rpartition(". ")[2].removesuffix(" = □")
    first, sign, second = sum_asked.split()
    worked = {"+": int(first) + int(second), "−": int(first) - int(second), "×": int(first) * int(second)}[sign]
    assert again.answer == str(worked)


@pytest.mark.parametrize("name", SOME)
def test_a_page_is_one_or_two_sides_and_says_every_step(name: str) -> None:
    skill = grade2().skills[name]  # type: ignore[index] # plain text
    again = see_again(grade2(), skill)

    with pdfplumber.open(BytesIO(print_again(grade2(), skill, Look()))) as pdf:
        text = " ".join(" ".join(page.extract_text() for page in pdf.pages).split())

        assert len(pdf.pages) <= 2
    for word in " ".join(again.second).split():
        assert word in text


def test_the_map_has_a_dot_for_every_skill_that_is_taught_and_each_lies_in_its_column() -> None:
    course = grade2()
    root = ET.fromstring(map_svg(course_map(course)))  # noqa: S314 -- our own picture

    dots = root.findall(f".//{SVG}circle")
    taught = [skill for day in course.days for skill in day.new_skills]
    assert len(dots) == len(taught) == len(set(taught))
    titles = sorted(dot.findtext(f"{SVG}title") or "" for dot in dots)
    assert titles == sorted(course.skills[skill].title for skill in taught)
    places = {(dot.get("cx"), dot.get("cy")) for dot in dots}
    assert len(places) == len(dots), "two dots lie on each other"


def test_the_chain_drawn_is_as_long_as_any_chain_of_taught_skills() -> None:
    """The longest path by networkx over the prerequisites, taken from the skills themselves, is the referee."""
    course = grade2()
    taught = {skill for day in course.days for skill in day.new_skills}
    graph = nx.DiGraph(
        (before, skill) for skill in taught for before in course.skills[skill].prereqs if before in taught
    )

    found = course_map(course)

    assert len(found.links) == nx.dag_longest_path_length(graph)
    assert all(before in course.skills[after].prereqs for before, after in found.links)


def test_a_chosen_skill_shows_all_that_it_rests_on() -> None:
    course = grade2()
    found = course_map(course, chosen=course.days[83].new_skills[0])

    before = {one for one, _ in found.links} - {found.chosen}
    assert set(course.skills[found.chosen].prereqs) <= before  # type: ignore[index] # it was chosen


def test_the_totals_of_the_weeks_are_those_of_the_days() -> None:
    course = grade2()

    weeks = weeks_of(course)

    assert sum(week.led for week in weeks) == sum(day.parent_minutes for day in course.days)
    assert sum(week.alone for week in weeks) == sum(day.child_minutes for day in course.days)
    assert sum(week.sheets for week in weeks) == sum(1 + day.second_sheet for day in course.days)
    assert ordinary_week(course) in weeks


def test_the_map_is_one_side_with_the_index_behind_it() -> None:
    with pdfplumber.open(BytesIO(print_map(grade2(), paper="a4"))) as pdf:
        first = pdf.pages[0].extract_text()
        index = " ".join(page.extract_text() for page in pdf.pages[1:])

    assert "The course map" in first
    assert "Where everything stands" in index
    assert all(title in first for title in grade2().strands.values())
