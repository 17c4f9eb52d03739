"""Items said: the line a stranger can read, the steps, the options, the languages."""

import re

import pytest

from dayleaf.core.ids import FormatId, SkillId
from dayleaf.course.load import grade2
from dayleaf.items.built import formats_built
from dayleaf.items.draw import draw_items
from dayleaf.items.make import make
from dayleaf.items.model import Column, Gap, Item, Match, Option, Part, Row, Sort
from dayleaf.wording.languages import NotInThisLanguage, languages_of
from dayleaf.wording.say import (
    instruction_for,
    instruction_for_many,
    lines_of,
    option_words,
    steps_of,
    text_of,
    word_of,
)
from dayleaf.wording.ways import try_next, way_phrase

REGROUP = SkillId("sub-2digit-regroup")
BUILT = [(skill, format_id) for skill in grade2().skills for format_id in formats_built(skill)]


def item_of(format_id: str, **numbers: int) -> Item:
    return make(grade2().skills[REGROUP], FormatId(format_id), numbers)


@pytest.mark.parametrize("format_id", ["horiz", "vert"])
def test_a_take_away_reads_as_a_stranger_writes_it(format_id: str) -> None:
    text = text_of(item_of(format_id, a=62, b=38), "en")

    assert text == "62 − 38 = □"
    assert "\N{MINUS SIGN}" in text


def test_a_mistake_to_find_names_the_wrong_answer_but_asks_the_same() -> None:
    assert re.fullmatch(r"62 − 38 = □ \(not \d+\)", text_of(item_of("fix", a=62, b=38), "en"))


def test_hidden_digits_are_gaps() -> None:
    column = Column((62, 38), "-", hidden=((0, 0), (2, 1)), shown=24)
    item = Item(REGROUP, FormatId("digit-puzzle"), {}, column, (), (), {})

    assert text_of(item, "en") == "6□ − 38 = □4"


def test_options_stand_after_their_letters() -> None:
    part = Part("1", "choice", "30", options=(Option("30"), Option("3"), Option("tens")))
    row = Row((34, "=", Gap("1"), "+", 4))

    item = Item(REGROUP, FormatId("choose"), {}, row, (part,), (), {})

    assert text_of(item, "en") == "34 = □ + 4  A 30  B 3  C tens"


@pytest.mark.parametrize(
    ("code", "words"),
    [("30", "30"), ("34-20", "34 − 20"), ("<", "<"), ("C4", "C4"), ("a", ""), ("not-true", "not true"), ("-", "−")],
)
def test_options_are_words_or_stay_as_they_are(code: str, words: str) -> None:
    assert option_words(code, "en") == words


def test_words_of_a_row_follow_their_count() -> None:
    assert word_of("tens", "en", 1) == "ten"
    assert word_of("tens", "en", 3) == "tens"
    assert word_of("number-name", "en", 34) == "thirty-four"


def test_steps_of_a_take_away_are_told_in_the_order_of_solving() -> None:
    assert steps_of(item_of("vert", a=62, b=38), "en") == (
        "2 ones, 8 to take: too few.",
        "Open a ten: 5 tens and 12 ones.",
        "12 ones take away 8: 4 ones.",
        "5 tens take away 3: 2 tens.",
        "Check by adding: 24 + 38 = 62.",
    )


def words_in(sentence: str) -> int:
    """The words of a sentence; a list of numbers with commas counts as one."""
    return len(re.sub(r"(\d[\d/ ]*, )+", "", sentence).split())


@pytest.mark.parametrize(("skill", "format_id"), BUILT)
def test_everything_built_can_be_said_in_short_sentences(skill: SkillId, format_id: FormatId) -> None:
    for item in draw_items(grade2().skills[skill], n=3, seed=11, format=format_id):
        assert text_of(item, "en")
        assert len(instruction_for(item, "en").split()) <= 12
        lines = () if isinstance(item.prompt, Row | Column | Match | Sort) else lines_of(item, "en")
        for said in (*lines, *steps_of(item, "en")):
            assert "{" not in said
            assert all(words_in(sentence) <= 12 for sentence in re.split(r"(?<=[.?]) ", said))
        for way in item.errors:
            assert way_phrase(way, "en")
            assert try_next(way, "en").endswith((".", "?"))


def test_one_instruction_serves_a_block_and_a_wider_one_mixed_signs() -> None:
    take, add = (
        make(grade2().skills[SkillId(skill)], FormatId("horiz"), {"a": 42, "b": b})
        for skill, b in (("sub-2digit-regroup", 17), ("add-2digit-no-regroup", 17))
    )

    assert instruction_for_many((take, take), "en") == instruction_for(take, "en") == "Subtract."
    assert instruction_for_many((take, add), "en") == "Look at the sign. Add or subtract."


def test_one_skill_is_complete_in_spanish() -> None:
    skill = grade2().skills[REGROUP]

    assert languages_of(REGROUP) == ("en", "es")
    for format_id in formats_built(REGROUP):
        for item in draw_items(skill, n=40, seed=5, format=format_id):
            assert text_of(item, "es")
            assert instruction_for(item, "es")
            assert steps_of(item, "es")
            assert all(way_phrase(way, "es") and try_next(way, "es") for way in item.errors)


def test_spanish_says_the_same_numbers_as_english() -> None:
    for format_id in formats_built(REGROUP):
        for item in draw_items(grade2().skills[REGROUP], n=20, seed=6, format=format_id):
            both = [re.findall(r"\d+", " ".join((text_of(item, lang), *steps_of(item, lang)))) for lang in ("en", "es")]
            assert sorted(both[0]) == sorted(both[1])


def test_a_skill_without_spanish_words_says_so_in_one_sentence() -> None:
    item = draw_items(grade2().skills[SkillId("add-doubles-to-20")], n=1, seed=1)[0]

    for say in (text_of, lines_of, steps_of, instruction_for):
        with pytest.raises(
            NotInThisLanguage, match=r"“add-doubles-to-20” has no words in the language “es” yet; it has en\."
        ):
            say(item, "es")


def test_the_habit_is_named_as_the_guide_for_parents_names_it() -> None:
    # The phrase of JOB.md 1.7: "Four of six show the same habit: taking the smaller digit from the larger."
    item = item_of("horiz", a=62, b=38)
    way = next(way for way in item.errors if way == "smaller-from-larger")

    assert way_phrase(way, "en") == "taking the smaller digit from the larger"
