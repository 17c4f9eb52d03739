"""Stories tell the situation they are filed under, in numbers that make sense.

Source of the situations: the table of addition and subtraction situations in CCSS-M (2010), glossary Table 1,
as noted in CHECKS A.6: four families, twelve cells, fifteen wordings.
"""

from __future__ import annotations

from itertools import product

import pytest

from dayleaf.core.ids import FormatId, SkillId
from dayleaf.course.load import grade2
from dayleaf.items.built import formats_built, rule_of
from dayleaf.items.domain import domain_of
from dayleaf.items.make import make
from dayleaf.items.model import Story
from dayleaf.items.pictured.codes import CELLS, LONG_NOUNS, NOUNS, PEOPLE
from dayleaf.items.pictured.number_stories import TOLD
from dayleaf.items.stories import EQUATIONS, bar, by_the_cue, solution, story, whole_and_parts

# CHECKS A.6 on the numbers 2, 3, 5: what is told, the equation that tells the same story, the number asked for.
PUBLISHED = {
    "add-to-result": ({"start": 2, "change": 3}, "2 + 3 = ?", 5),
    "add-to-change": ({"start": 2, "result": 5}, "2 + ? = 5", 3),
    "add-to-start": ({"change": 3, "result": 5}, "? + 3 = 5", 2),
    "take-from-result": ({"start": 5, "change": 2}, "5 - 2 = ?", 3),
    "take-from-change": ({"start": 5, "result": 3}, "5 - ? = 3", 2),
    "take-from-start": ({"change": 2, "result": 3}, "? - 2 = 3", 5),
    "put-together-total": ({"a": 3, "b": 2}, "3 + 2 = ?", 5),
    "put-together-addend": ({"total": 5, "a": 3}, "3 + ? = 5", 2),
    "compare-difference-more": ({"bigger": 5, "smaller": 2}, "2 + ? = 5", 3),
    "compare-difference-fewer": ({"bigger": 5, "smaller": 2}, "2 + ? = 5", 3),
    "compare-bigger-more": ({"smaller": 2, "difference": 3}, "2 + 3 = ?", 5),
    "compare-bigger-fewer": ({"smaller": 2, "difference": 3}, "2 + 3 = ?", 5),
    "compare-smaller-fewer": ({"bigger": 5, "difference": 3}, "5 - 3 = ?", 2),
    "compare-smaller-more": ({"bigger": 5, "difference": 3}, "5 - 3 = ?", 2),
}

WORD_SKILLS = {
    "word-result-unknown-20": {"add-to-result", "take-from-result"},
    "word-put-together-20": {"put-together-total", "put-together-addend"},
    "word-bar-part-whole": {"put-together-total", "put-together-addend"},
    "word-change-unknown": {"add-to-change", "take-from-change"},
    "word-start-unknown": {"add-to-start", "take-from-start"},
    "word-compare-difference": {"compare-difference-more", "compare-difference-fewer"},
    "word-compare-bigger-smaller": {
        "compare-bigger-more",
        "compare-bigger-fewer",
        "compare-smaller-fewer",
        "compare-smaller-more",
    },
}


def test_fifteen_wordings_have_a_cell() -> None:
    singles = set(PUBLISHED)

    assert len(singles) == 14
    assert singles | {"put-together-both"} == set(CELLS) - {"put-together-three"}


@pytest.mark.parametrize("cell", PUBLISHED)
def test_the_situation_equation_and_the_answer_are_the_published_ones(cell: str) -> None:
    told, equation, answer = PUBLISHED[cell]

    left, sign, right, result = (str(told.get(part, part)) for part in EQUATIONS[cell])

    assert f"{left} {sign} {right} = {result}" == equation
    assert solution(cell, told) == answer


@pytest.mark.parametrize("cell", PUBLISHED)
def test_a_story_tells_the_numbers_of_its_cell_and_of_no_other(cell: str) -> None:
    told, _, _ = PUBLISHED[cell]

    assert tuple(told) == CELLS[cell]


@pytest.mark.parametrize("cell", PUBLISHED)
def test_the_whole_is_its_two_parts_and_the_bar_hides_the_number_asked_for(cell: str) -> None:
    told, _, answer = PUBLISHED[cell]

    whole, a, b, asked = whole_and_parts(cell, told)
    picture = bar(story(cell, told))

    assert whole == a + b
    assert {"whole": whole, "a": a, "b": b}[asked] == answer
    (hidden,) = tuple(picture.params["hidden"])  # type: ignore[arg-type]  # codes here
    shown = dict(picture.params)
    shown["difference"] = int(str(shown["a"])) - int(str(shown["b"]))
    assert shown[str(hidden)] == answer


# CHECKS A.6 and D.3: the two misleading cells, and the keyword trap "more means add".
@pytest.mark.parametrize(
    ("cell", "wrong"),
    [("compare-bigger-fewer", 1), ("compare-smaller-more", 8), ("compare-difference-more", 7), ("add-to-change", 7)],
)
def test_one_word_misleads_where_the_table_says_so(cell: str, wrong: int) -> None:
    told, _, answer = PUBLISHED[cell]

    assert by_the_cue(cell, told) == wrong != answer


@pytest.mark.parametrize("cell", ["add-to-result", "take-from-result", "put-together-total", "compare-bigger-more"])
def test_one_word_helps_where_it_agrees_with_the_story(cell: str) -> None:
    told, _, answer = PUBLISHED[cell]

    assert by_the_cue(cell, told) == answer


@pytest.mark.parametrize("skill_id", WORD_SKILLS)
def test_a_story_skill_within_twenty_tells_its_situations_and_stays_within_twenty(skill_id: str) -> None:
    skill = grade2().skills[SkillId(skill_id)]
    domain = domain_of(skill)
    cells = set()

    for i, name in product(range(len(domain)), formats_built(skill.id)):
        item = make(skill, name, domain.numbers(i))
        if isinstance(item.prompt, Story):
            cells.add(item.prompt.cell)
            assert all(1 <= n <= 20 for n in item.prompt.values.values()), item.key
        assert 1 <= int(item.answer) <= 20, item.key

    assert cells == WORD_SKILLS[skill_id]


def test_stories_name_people_and_things_that_wording_knows() -> None:
    for (cell, names), size in product(CELLS.items(), range(1, 60)):
        told = dict(zip(names, (size + 7, size, size + 2), strict=False))

        counted, measured = story(cell, told), story(cell, told, unit="cm")

        assert set(counted.people) <= PEOPLE
        assert len(set(counted.people)) == (2 if cell.startswith("compare") else 1)
        assert counted.noun in NOUNS
        assert measured.noun in LONG_NOUNS
        assert measured.values == counted.values == told


def test_nobody_has_pumpkins_jars_or_eggs_by_the_dozen() -> None:
    for a, b in product(range(21, 99), range(2, 40)):
        assert story("add-to-result", {"start": a, "change": b}).noun not in {"pumpkin", "jar", "egg"}


def test_length_stories_stay_within_one_hundred_of_one_unit() -> None:
    skill = grade2().skills[SkillId("length-word-problems-100")]
    domain = domain_of(skill)

    for i in range(0, len(domain), 7):
        item = make(skill, formats_built(skill.id)[0], domain.numbers(i))
        assert isinstance(item.prompt, Story)
        assert item.prompt.unit in {"cm", "m"}
        assert max(*item.prompt.values.values(), int(item.answer)) <= 100


@pytest.mark.parametrize("skill_id", [skill for skill in TOLD if "word1" in formats_built(SkillId(skill))])
def test_a_story_about_numbers_asks_and_goes_astray_as_its_row_does(skill_id: str) -> None:
    skill = grade2().skills[SkillId(skill_id)]
    domain = domain_of(skill)
    plain = next(name for name in formats_built(skill.id) if name in {"horiz", "vert"})
    fits = rule_of(skill.id).fits.get(FormatId("word1"))

    for i in range(0, len(domain), max(17, len(domain) // 400)):
        numbers = domain.numbers(i)
        if fits is None or fits(numbers):
            row, told = make(skill, plain, numbers), make(skill, FormatId("word1"), numbers)
            assert (told.answer, told.errors, told.parts) == (row.answer, row.errors, row.parts)
            assert isinstance(told.prompt, Story)
