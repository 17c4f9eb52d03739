"""The pages of the skills: every one opens, a search in plain words finds, and few questions reach the database."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest

from dayleaf.core.ids import SkillId
from dayleaf.course.load import grade2
from dayleaf.items.built import formats_built
from dayleaf.web.skills_shown import shown_skill, skills_by_strand

if TYPE_CHECKING:
    from django.test import Client
    from pytest_django import DjangoAssertNumQueries

COURSE = grade2()
pytestmark = pytest.mark.usefixtures("household")


def test_every_skill_stands_once_under_its_strand_with_an_example() -> None:
    lines = [one for strand in skills_by_strand() for one in strand["skills"]]

    assert sorted(one["id"] for one in lines) == sorted(COURSE.skills)
    assert all(one["example"] for one in lines)


@pytest.mark.parametrize("strand", sorted(COURSE.strands))
def test_every_way_to_ask_a_skill_is_shown_with_its_answer_or_a_look(strand: str) -> None:
    for skill in (one for one in COURSE.skills.values() if one.strand == strand):
        shown = shown_skill(skill.id)

        assert len(shown["examples"]) == len(formats_built(skill.id))
        assert all(one["do"] and (one["lines"] or one["things"]) for one in shown["examples"])


def test_the_days_of_a_skill_are_those_of_the_course() -> None:
    # course data: taught on day 67 of chapter 7, tested with the chapter's end
    taught = {skill_id: day.number for day in COURSE.days for skill_id in day.new_skills}

    shown = shown_skill(SkillId("sub-2digit-regroup"))

    assert [day.number for day in shown["days"]["taught"]] == [taught[SkillId("sub-2digit-regroup")]]
    assert {day.kind for day in shown["days"]["tested"]} <= {"test", "look-back", "look-back-all"}


# JOB and the course's table of trade words: what others call regrouping is opening or trading a ten here.
@pytest.mark.parametrize(
    ("query", "skill"), [("regrouping", "sub-2digit-regroup"), ("half past", "time-past-to-language")]
)
def test_a_search_in_other_books_words_finds_the_skill(client: Client, query: str, skill: str) -> None:
    said = client.get("/library/skills", {"q": query}).content.decode()

    assert f"/library/skills/{skill}" in said
    assert said.count("/library/skills/") < len(COURSE.skills)


def test_a_search_that_finds_nothing_says_what_to_do_next(client: Client) -> None:
    said = client.get("/library/skills", {"q": "xylophone"}).content.decode()

    assert "No skill is called “xylophone”" in said
    assert "All skills" in said


def test_a_page_of_a_skill_has_its_pictures_inside_and_asks_the_database_little(
    client: Client, django_assert_max_num_queries: DjangoAssertNumQueries
) -> None:
    with django_assert_max_num_queries(20):
        said = client.get("/library/skills/polygon-sides-corners").content.decode()

    assert len(re.findall(r"<svg ", said)) >= 12
    assert "&lt;svg" not in said


def test_an_unknown_skill_has_no_page(client: Client) -> None:
    assert client.get("/library/skills/flying").status_code == 404
