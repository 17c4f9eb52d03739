"""What is built: every skill in every format of its file, every code of grade 2, every wording of a story."""

from __future__ import annotations

from collections import Counter
from functools import cache

import pytest

from dayleaf.core.ids import ErrorWayId, FormatId
from dayleaf.course.load import grade2
from dayleaf.items.built import formats_built
from dayleaf.items.draw import draw_items
from dayleaf.items.model import Question, Story
from dayleaf.items.pictured.codes import CELLS

SKILLS = grade2().skills
PAIRED = {"match", "sort"}
"""Built in a room of its own."""

# CHECKS A.4: the codes of grade 2 as they are counted there, without the lettered points.
GRADE_2 = [
    *(f"2.OA.{code}" for code in ("A.1", "B.2", "C.3", "C.4")),
    *(f"2.NBT.{code}" for code in ("A.1", "A.2", "A.3", "A.4", "B.5", "B.6", "B.7", "B.8", "B.9")),
    *(f"2.MD.{code}" for code in ("A.1", "A.2", "A.3", "A.4", "B.5", "B.6", "C.7", "C.8", "D.9", "D.10")),
    *(f"2.G.{code}" for code in ("A.1", "A.2", "A.3")),
]


@pytest.mark.parametrize("skill_id", sorted(SKILLS))
def test_every_format_of_a_skills_file_is_built(skill_id: str) -> None:
    skill = next(skill for skill in SKILLS.values() if skill.id == skill_id)

    assert [name for name in skill.formats if name not in {*formats_built(skill.id), *PAIRED}] == []
    assert formats_built(skill.id)


def test_formats_and_skills_that_are_acted_out_say_so_in_data() -> None:
    acted = {name for name, one in grade2().formats.items() if one.acted_out}

    assert acted == {"build", "oral"}
    assert [skill.id for skill in SKILLS.values() if skill.acted_out] == ["survey-collect"]


def test_the_standard_has_26_codes_in_grade_2() -> None:
    # CHECKS A.1: numbered standards of grade 2.
    assert len(GRADE_2) == len(set(GRADE_2)) == 26


@pytest.mark.parametrize("code", GRADE_2)
def test_every_code_of_grade_2_has_items(code: str) -> None:
    serving = [skill for skill in SKILLS.values() if any(one.startswith(code) for one in skill.codes)]

    assert any(draw_items(skill, n=3, seed=2) for skill in serving if formats_built(skill.id))


@cache
def cells_told() -> Counter[str]:
    """How often each situation is told over all skills and formats, a few dozen items each."""
    found = Counter[str]()
    for skill in SKILLS.values():
        for name in formats_built(skill.id):
            if name in {"word1", "word2", "bar-fill", "draw", "choose", "explain"}:
                prompts = (item.prompt for item in draw_items(skill, n=42, seed=15, format=name))
                found.update(prompt.cell for prompt in prompts if isinstance(prompt, Story))
    return found


@pytest.mark.parametrize("cell", sorted(set(CELLS) - {"put-together-three"}))
def test_every_one_of_the_fifteen_wordings_occurs(cell: str) -> None:
    # CHECKS A.6, Table 1: twelve cells, three of them (compare) in two wordings, make fifteen.
    assert len(set(CELLS) - {"put-together-three"}) == 15
    assert cells_told()[cell] >= 16


@pytest.mark.parametrize("cell", ["groups-product", "groups-size", "groups-number", "array-product"])
def test_groups_arrays_and_both_readings_of_division_occur(cell: str) -> None:
    # CHECKS A.6, Table 2: sharing asks for the size of a group, measuring for their number.
    assert cells_told()[cell] >= 16


# error ways of skills with items whose answer follows from a thought and not from the numbers, or that show only in
# what is drawn, laid or sorted: each with the reason why no procedure gives an answer
NO_ANSWER = {
    "after-900": "what is said has no digits of its own",
    "bent-is-shorter": "a bent string is compared with things in the hand",
    "bigger-numbers-bigger": "shows where two fractions are compared, which this skill does not ask",
    "comma-misplaced": "answers are kept without commas",
    "different-wholes": "needs two wholes of two sizes in the hand",
    "four-facts-for-doubles": "the card of a double asks for two facts only",
    "half-of-odd": "only even numbers are asked",
    "more-parts-more": "shows where two wholes are compared, which this skill does not ask",
    "not-one-family": "which other number is written does not follow from the card",
    "object-in-two-groups": "shows while things are sorted",
    "odd-means-big-or-strange": "a guess",
    "order-turned": "shows in the sentence written, not in its answer",
    "restart-gap": "shows while a real thing is measured",
    "starts-at-edge": "shows while a real ruler is laid",
    "step-left-out": "every step stands on the page",
    "thirds-of-circle-uneven": "shows in the cuts drawn",
    "whole-number-count": "a single number is said where two are asked",
    "wild-guess": "a guess",
}


def test_every_error_way_that_yields_an_answer_is_a_procedure() -> None:
    named = {note.id for skill in SKILLS.values() for note in skill.error_ways if note.shows_as == "wrong answer"}
    given: set[ErrorWayId] = set()
    for skill in SKILLS.values():
        for name in formats_built(skill.id):
            for item in draw_items(skill, n=90, seed=3, format=name):
                given |= item.errors.keys()

    assert named - given == set(map(ErrorWayId, NO_ANSWER))


def test_questions_that_ask_for_a_reason_tell_a_way_to_answer_them() -> None:
    for skill in SKILLS.values():
        if "explain" in formats_built(skill.id):
            for item in draw_items(skill, n=3, seed=4, format=FormatId("explain")):
                assert item.steps, item.key
                assert isinstance(item.prompt, Question | Story)
