"""Look backs, looks over all so far, tenth days and projects on paper.

Referees: JOB 1.11 for what each has; the course's own lists for what it must cover; pdfplumber reads the prints back.
"""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import replace
from io import BytesIO
from typing import TYPE_CHECKING

import pdfplumber
import pytest

from dayleaf.course.model import GuideStep, Project, RubricRow
from dayleaf.course.projects import check_projects
from dayleaf.learner.review import Back
from dayleaf.packets.day import prepare_day, print_packet
from dayleaf.packets.model import Child
from dayleaf.packets.project import print_project
from dayleaf.sheets.model import Look
from dayleaf.wording.tables import has, phrase

if TYPE_CHECKING:
    from dayleaf.core.ids import SkillId
    from dayleaf.course.model import Course, Day
    from dayleaf.packets.model import Packet
    from dayleaf.sheets.model import PageSpec

ROW = RubricRow("The rows begin at one line", "They begin anywhere", "Most do", "All do")


@pytest.fixture
def window_watch(course: Course) -> Project:
    day = course.days[9]
    return Project(
        title=day.title.removeprefix("Project: "),
        day=10,
        begins=6,
        needs=("sticky-notes", "a window"),
        steps=(GuideStep("do", "Watch for five minutes."), GuideStep("ask", "What came most?"),
               GuideStep("answer", "Boats, or what the tally says.")),
        evidence="The tally and both graphs.",
        cautions="The window stays shut.",
        rubric=(ROW, ROW),
    )  # fmt: skip


def packet_of(course: Course, number: int, *, fix_up: tuple[SkillId, ...] = ()) -> Packet:
    day = course.days[number - 1]
    backs = [Back(skill, "on the course's list") for skill in day.back_skills]
    return prepare_day(course, day, Child("Wren"), seed=1, backs=backs, fix_up=fix_up)


def sides_of(packet: Packet) -> list[PageSpec]:
    return [side for sheet in packet.sheets for side in sheet.pages]


def skills_on(sides: list[PageSpec]) -> Counter[SkillId]:
    return Counter(one.item.skill for side in sides for block in side.blocks for one in block.items)


def words_of(pdf: bytes) -> str:
    with pdfplumber.open(BytesIO(pdf)) as file:
        return " ".join(" ".join(page.extract_text() for page in file.pages).split())


def days_of(course: Course, kind: str) -> list[Day]:
    return [day for day in course.days if day.kind == kind]


def test_every_topic_of_every_look_back_has_its_own_few_words_for_the_child(course: Course) -> None:
    topics = {skill for day in days_of(course, "look-back") for skill in day.front_skills}

    assert all(has("topic", skill, "en") for skill in topics)
    # common practice, no source: a child of seven reads about seven short words at a glance
    assert all(len(re.findall("[A-Za-z]+", phrase("topic", skill, "en"))) <= 7 for skill in topics)
    assert len({phrase("topic", skill, "en") for skill in topics}) == len(topics)


@pytest.mark.parametrize("number", [8, 128])
def test_a_look_back_lets_the_child_sort_its_topics_and_meets_each_once(course: Course, number: int) -> None:
    packet = packet_of(course, number)
    first, *others = sides_of(packet)

    words = words_of(print_packet(course, packet).pages.pdf)

    assert [phrase("topic", skill, "en") for skill in packet.day.front_skills] == list(first.topics)
    assert all(word in words for word in ("sure", "nearly", "help me", first.topics[0], first.topics[-1]))
    assert not any(side.topics for side in others)
    met = skills_on([side for side in sides_of(packet) if side.title == first.title])
    assert all(met[skill] == 1 for skill in packet.day.front_skills)
    assert set(met) - set(packet.day.front_skills) <= set(packet.day.back_skills)


def test_a_page_to_stretch_only_fills_an_empty_back(course: Course) -> None:
    for number, stretched in ((18, True), (28, False)):
        printed = print_packet(course, packet_of(course, number)).packet
        titles = [side.title for side in sides_of(printed)]

        assert ("A bit further" in titles) is stretched
        assert len(titles) % 2 == 0
        if stretched:
            assert set(skills_on(sides_of(printed)[-1:])) == set(printed.day.stretch_skills)


def test_a_look_over_all_so_far_has_seven_skills_and_seven_that_come_back(course: Course) -> None:
    for day in days_of(course, "look-back-all"):
        sides = [side for side in sides_of(packet_of(course, day.number)) if side.title == "All so far"]
        met = skills_on(sides)

        assert set(day.front_skills) <= set(met)
        assert set(met) == {*day.front_skills, *day.back_skills}
        assert set(met.values()) == {1}


@pytest.mark.parametrize(("number", "named"), [(10, 3), (90, 1), (110, 2)])
def test_a_tenth_day_begins_with_what_the_test_left_open(course: Course, number: int, named: int) -> None:
    skills = course.days[number - 2].front_skills[:named]

    first, *others = sides_of(packet_of(course, number, fix_up=skills))

    assert first.title == "Once more"
    assert set(skills_on([first])) == set(skills)
    assert min(skills_on([first]).values()) >= 3
    assert not any(side.title == "Once more" for side in others)


def test_a_spare_day_with_nothing_to_mend_still_has_its_page_to_stretch(course: Course) -> None:
    sides = sides_of(packet_of(course, 20))

    assert [side.title for side in sides][-1] == "A bit further"
    assert set(skills_on(sides[-1:])) <= set(course.days[19].stretch_skills)


def test_a_projects_page_says_what_it_needs_how_it_goes_and_what_to_look_for(
    course: Course, window_watch: Project
) -> None:
    words = words_of(print_project(course, window_watch, Look(paper="a4")))

    wanted = ("sticky notes, a window", "on day 6, 4 course days before", "The window stays shut.", "What came most?")
    for said in (*wanted, "The tally and both graphs.", "What to look for", "They begin anywhere"):
        assert said in words


def test_a_project_days_guide_has_the_projects_page_behind_it(course: Course, window_watch: Project) -> None:
    with_it = replace(course, projects={1: window_watch})

    words = words_of(print_packet(with_it, packet_of(with_it, 10)).guide)

    assert "Before you sit down" in words
    assert words.index("Before you sit down") < words.index("What to look for")


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"day": 11}, "is 11, which is no project day of chapter 1"),
        ({"title": "Door Watch"}, 'is "Door Watch" where day 10 says'),
        ({"begins": 12}, "after the project's own day 10"),
        ({"begins": 9}, "has no small_task"),
        ({"needs": ("ruler",)}, 'has "ruler", which day 10 does not fetch'),
        ({"rubric": (ROW,)}, "has 1 rows; write 2 to 5"),
        ({"steps": (GuideStep("ask", "What came?"),)}, "has no answer: after it"),
    ],
    ids=["day", "title", "begins", "small task", "needs", "rubric", "ask"],
)
def test_what_is_wrong_with_a_project_is_named(
    course: Course, window_watch: Project, change: dict[str, object], said: str
) -> None:
    wrong = replace(window_watch, **change)  # type: ignore[arg-type]  # one field at a time, as the case says

    problems = list(check_projects(replace(course, projects={1: wrong})))

    assert len(problems) == 1
    assert said in problems[0].message
    assert not list(check_projects(replace(course, projects={1: window_watch})))
