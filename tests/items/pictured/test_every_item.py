"""Every item of every pictured skill, over the whole of its rule."""

from __future__ import annotations

import re
from collections import Counter
from functools import cache
from typing import TYPE_CHECKING

import pytest

from dayleaf.course.load import grade2
from dayleaf.figures.values import values_of
from dayleaf.items.built import rule_of
from dayleaf.items.codes import OPTIONS as NUMBER_OPTIONS
from dayleaf.items.codes import QUESTIONS as NUMBER_QUESTIONS
from dayleaf.items.codes import STEPS as NUMBER_STEPS
from dayleaf.items.codes import WORDS as NUMBER_WORDS
from dayleaf.items.domain import domain_of
from dayleaf.items.face import face
from dayleaf.items.make import make
from dayleaf.items.model import Item, Question, Row, Word
from dayleaf.items.pictured import RULES
from dayleaf.items.pictured import codes as known
from dayleaf.items.pictured.number_stories import TOLD
from dayleaf.items.second import second_answer

if TYPE_CHECKING:
    from dayleaf.core.ids import FormatId, SkillId

BUILT = sorted({(rule.skill, name) for rule in RULES for name in rule.formats})
_MOST = 200  # of larger rules, items evenly spread


def _allowed(skill_id: SkillId, name: FormatId) -> list[dict[str, int]]:
    domain = domain_of(grade2().skills[skill_id])
    fits = rule_of(skill_id).fits.get(name)
    numbers = (domain.numbers(i) for i in range(len(domain)))
    return [one for one in numbers if fits is None or fits(one)]


@cache
def items(skill_id: SkillId, name: FormatId) -> tuple[Item, ...]:
    """All items of small rules; of larger ones some, evenly spread."""
    allowed = _allowed(skill_id, name)
    skill, step = grade2().skills[skill_id], max(1, len(allowed) // _MOST)
    return tuple(make(skill, name, numbers) for numbers in allowed[::step])


@pytest.mark.parametrize(("skill_id", "name"), BUILT)
def test_the_answer_is_found_again_by_separate_code(skill_id: SkillId, name: FormatId) -> None:
    assert [item.key for item in items(skill_id, name) if second_answer(item) != item.answer] == []


@pytest.mark.parametrize(("skill_id", "name"), BUILT)
def test_numbers_are_the_variables_of_the_rule(skill_id: SkillId, name: FormatId) -> None:
    domain = domain_of(grade2().skills[skill_id])

    assert all(domain.holds(item.numbers) for item in items(skill_id, name))


@pytest.mark.parametrize(("skill_id", "name"), BUILT)
def test_boxes_hold_the_right_answer_and_every_wrong_one(skill_id: SkillId, name: FormatId) -> None:
    for item in items(skill_id, name):
        for answers in (item.answer, *item.errors.values()):
            for part, answer in zip(item.parts, answers.split(), strict=False):
                assert part.kind != "digits" or (answer.isdigit() and len(answer) <= part.width), item.key


@pytest.mark.parametrize(("skill_id", "name"), BUILT)
def test_one_option_is_right_and_each_other_belongs_to_the_way_that_gives_it(skill_id: SkillId, name: FormatId) -> None:
    for item in items(skill_id, name):
        for part in item.parts:
            codes = [option.code for option in part.options]
            assert len(set(codes)) == len(codes), item.key
            if part.kind != "choice":
                continue
            right = [option for option in part.options if option.code == part.answer]
            assert len(codes) >= 2, item.key
            assert [option.error for option in right] == [None], item.key
            for option in part.options:
                assert option.error is None or option.error in item.errors, item.key


@pytest.mark.parametrize(("skill_id", "name"), BUILT)
def test_an_error_way_that_answers_wrongly_can_be_rung(skill_id: SkillId, name: FormatId) -> None:
    for item in items(skill_id, name):
        if [part.kind for part in item.parts] == ["choice"]:
            codes = {option.code for option in item.parts[0].options}
            assert set(item.errors.values()) <= codes, item.key


@pytest.mark.parametrize(("skill_id", "name"), BUILT)
def test_the_place_of_the_right_option_is_no_pattern(skill_id: SkillId, name: FormatId) -> None:
    places: Counter[tuple[int, int]] = Counter()
    for item in items(skill_id, name):
        for part in item.parts:
            if part.kind == "choice":
                codes = [option.code for option in part.options]
                places[len(codes), codes.index(part.answer)] += 1

    for length in {length for length, _ in places}:
        counts = [places[length, at] for at in range(length)]
        assert sum(counts) < 12 or max(counts) < 0.8 * sum(counts), places


@pytest.mark.parametrize(("skill_id", "name"), BUILT)
def test_error_ways_are_those_of_the_skill(skill_id: SkillId, name: FormatId) -> None:
    skill = grade2().skills[skill_id]
    ways = {note.id for note in skill.error_ways}

    assert name in skill.formats
    # stories about numbers, and what is asked aloud or built, go astray as their rows do
    if skill_id not in TOLD and name not in {"oral", "build"}:
        assert {way for item in items(skill_id, name) for way in item.errors} <= ways


@pytest.mark.parametrize(("skill_id", "name"), BUILT)
def test_pictures_can_be_drawn_and_are_marked_as_asked(skill_id: SkillId, name: FormatId) -> None:
    for item in items(skill_id, name):
        figures = [option.figure for part in item.parts for option in part.options]
        for figure in (item.figure, *figures):
            if figure is not None:
                values_of(figure)
        if item.figure is not None and item.figure.kind not in {"bar-model", "calendar", "table"}:
            assert item.figure.params["question"] == 1, item.key


@pytest.mark.parametrize(("skill_id", "name"), [one for one in BUILT if one[1] != "oral"])  # as on paper
def test_different_numbers_show_different_items(skill_id: SkillId, name: FormatId) -> None:
    made = items(skill_id, name)

    assert [shown for shown, times in Counter(face(item) for item in made).items() if times > 1] == []


def test_every_code_is_on_the_list_for_wording_and_carries_the_values_named_there() -> None:
    for skill_id, name in BUILT:
        for item in items(skill_id, name):
            if isinstance(item.prompt, Question):
                names = known.QUESTIONS.get(item.prompt.code) or NUMBER_QUESTIONS.get(item.prompt.code, ())
                assert set(item.prompt.values) == set(names), item.key
            if isinstance(item.prompt, Row):
                words = {token.code for token in item.prompt.tokens if isinstance(token, Word)}
                tasks = {f"{task}.{step}" for task, steps in known.TASKS.items() for step in steps}
                assert words <= known.WORDS.keys() | known.NOUNS | tasks | NUMBER_WORDS, item.key
            for step in item.steps:
                names = known.STEPS.get(step.code) or NUMBER_STEPS.get(step.code, ())
                assert set(step.values) == set(names), (item.key, step.code)


def test_every_option_is_a_numeral_a_square_a_letter_or_on_the_list_for_wording() -> None:
    codes = {
        option.code
        for skill_id, name in BUILT
        for item in items(skill_id, name)
        for part in item.parts
        for option in part.options
    }
    plain = re.compile(r"\d+[+×÷/]\d+|[$]?\d+(:\d\d)?¢?|[$]\d+[+]\d+¢")  # sums, fractions, amounts, times
    words = {code for code in codes if len(code) > 2 and not code.isdigit() and not plain.fullmatch(code)}

    assert words <= known.OPTIONS | known.THINGS | NUMBER_OPTIONS
