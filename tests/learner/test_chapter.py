"""The decision after a chapter test (JOB 1.11 and story 10 name the steps; 4 of 5 with a slip goes on)."""

from __future__ import annotations

import pytest

from dayleaf.core.ids import FormatId, SkillId
from dayleaf.course.load import grade2
from dayleaf.events.model import ItemMark, ItemState
from dayleaf.learner.chapter import after_test

COURSE = grade2()
CHAPTER = 9
SKILLS = list(dict.fromkeys(one for day in COURSE.days if day.chapter == CHAPTER for one in day.new_skills))[:4]
SIGNS: dict[str, ItemState] = {"r": "right", "w": "wrong", "b": "blank", "n": "not reached"}


def marks(*signs: str) -> list[ItemMark]:
    return [
        ItemMark(n=n, skill=skill, format=FormatId("vert"), key=f"{skill}/{n}", state=SIGNS[sign], answer=None,
                 helped=False, errors=())
        for skill, row in zip(SKILLS, signs, strict=False)
        for n, sign in enumerate(row, start=1)
    ]  # fmt: skip


@pytest.mark.parametrize(("signs", "step", "minutes"), [
    (("rrrrw", "rrrrr", "rrrrr", "rrrrr"), "go on", None),
    (("rrrrw", "rrrrb", "rrrrr", "rrrwr"), "go on", None),
    (("rrrww", "rrrrr", "rrrrr", "rrrrr"), "fix up", 5),
    (("rrrww", "rrrww", "rrrrr", "rrrrr"), "form B", None),
    (("rwwww", "rrrrr", "rrrrr", "rrrrr"), "form B", None),
    (("rwwww", "wwwww", "rrrrr", "rrrrr"), "re-teach", None),
    (("rrrrn", "rrnnn", "rrrrr", "rrrrr"), "go on", None),
])  # fmt: skip
def test_the_step_follows_what_holds(signs: tuple[str, ...], step: str, minutes: int | None) -> None:
    found = after_test(COURSE, CHAPTER, marks(*signs))

    assert (found.step, found.minutes) == (step, minutes)


def test_marks_stand_by_skill_and_re_teaching_begins_where_the_first_of_them_was_taught() -> None:
    found = after_test(COURSE, CHAPTER, marks("rrrrr", "rwwww", "wwwww", "rrrrr"))

    assert [(one.right, one.of) for one in found.results] == [(5, 5), (1, 5), (0, 5), (5, 5)]
    day = next(day for day in COURSE.days if day.id == found.from_lesson)
    assert {SKILLS[1], SKILLS[2]} & {*day.new_skills, *day.front_skills}
    earlier = [one for one in COURSE.days if one.chapter == CHAPTER and one.number < day.number]
    assert not any({SKILLS[1], SKILLS[2]} & {*one.new_skills, *one.front_skills} for one in earlier)


def test_the_evidence_is_in_plain_sentences_with_its_numbers_and_what_would_change_it() -> None:
    found = after_test(COURSE, CHAPTER, marks("rrrrr", "rrrww", "rrrrr", "rrrrr"))

    title = COURSE.skills[SkillId(SKILLS[1])].title
    assert found.evidence == f"18 of 20 right; “{title}” does not hold yet."
    assert found.change.endswith(".")
