"""Every code that items carry has words, and the words keep the rules of the house."""

import re
from collections.abc import Iterator
from typing import Any

import pytest

from dayleaf.figures.params import PARAMS
from dayleaf.items import codes
from dayleaf.items.model import Figure, Story
from dayleaf.items.pictured import codes as pictured
from dayleaf.wording.nouns import noun
from dayleaf.wording.page import page_word
from dayleaf.wording.pictures import SEEN, figure_words
from dayleaf.wording.say import option_words, word_of
from dayleaf.wording.stories import story_lines
from dayleaf.wording.tables import NoWords, entry, has, phrase, table
from dayleaf.wording.template import places_of

TEMPLATES = [
    *(("step", code, names) for table_of in (codes.STEPS, pictured.STEPS) for code, names in table_of.items()),
    *(
        ("question", code, names)
        for table_of in (codes.QUESTIONS, pictured.QUESTIONS)
        for code, names in table_of.items()
    ),
]


@pytest.mark.parametrize(("section", "code", "names"), TEMPLATES)
def test_every_step_and_question_has_a_sentence_that_needs_only_its_values(
    section: str, code: str, names: tuple[str, ...]
) -> None:
    assert places_of(phrase(section, code, "en")) <= set(names)


@pytest.mark.parametrize("code", sorted(codes.OPTIONS | pictured.OPTIONS))
def test_every_option_has_words(code: str) -> None:
    assert option_words(code, "en") != ""


@pytest.mark.parametrize("code", sorted({*codes.WORDS, *pictured.WORDS} - {"number-name", "order-name"}))
def test_every_word_of_a_row_has_words(code: str) -> None:
    assert word_of(code, "en", 3)


def test_every_step_of_an_everyday_task_has_a_sentence() -> None:
    for task, steps in pictured.TASKS.items():
        for step in steps:
            assert word_of(f"{task}.{step}", "en").endswith(".")


@pytest.mark.parametrize("code", sorted(pictured.THINGS))
def test_every_thing_can_be_named_or_measured(code: str) -> None:
    assert has("thing", code, "en") or has("noun", code, "en")


@pytest.mark.parametrize("code", sorted(pictured.NOUNS | pictured.LONG_NOUNS | pictured.UNITS))
def test_every_noun_of_the_stories_is_known(code: str) -> None:
    assert noun(code, "en").many


@pytest.mark.parametrize("code", sorted(pictured.PEOPLE))
def test_every_person_has_a_name_of_the_setting(code: str) -> None:
    # The family of the canal boat, JOB.md (d).
    assert phrase("person", code, "en") in {"Wren", "Ivo", "Gran Sorrel", "Pell", "Mara", "Tobin"}


@pytest.mark.parametrize("section", ["story", "story-long"])
@pytest.mark.parametrize("cell", sorted(pictured.CELLS))
def test_every_situation_can_be_told(section: str, cell: str) -> None:
    known = {*pictured.CELLS[cell], "p", "q", "noun", "unit"}

    for telling in entry(section, cell, "en"):
        for sentence in telling:
            assert places_of(sentence) <= known


def test_a_code_without_words_is_named() -> None:
    with pytest.raises(NoWords, match=r"“question\.why-is-the-sky-blue” in the language “en”"):
        phrase("question", "why-is-the-sky-blue", "en")


@pytest.mark.parametrize("lang", ["en", "es"])
@pytest.mark.parametrize(
    "code",
    [
        *("Name", "Date", "Together", "My page", "Practice", "Today", "Earlier", "You are done", "Answer key"),
        *("Before you sit down", "Open", "Show", "Alone", "Close", "If there is time"),
        *("Say", "Do", "Ask", "Answer", "If instead"),
    ],
)
def test_the_furniture_of_a_page_has_words_in_both_languages(code: str, lang: str) -> None:
    # The list is that of DESIGN.md, 6 Words.
    assert page_word(code, lang)


def texts(data: Any) -> Iterator[str]:
    if isinstance(data, str):
        yield data
    elif isinstance(data, dict):
        for value in data.values():
            yield from texts(value)
    elif isinstance(data, list):
        for value in data:
            yield from texts(value)


BANNED = ("failed", "behind", "weak", "easy", "should", "oops", "great job", "awesome", "!")
"""LOOK.md, Voice."""


@pytest.mark.parametrize("lang", ["en", "es"])
def test_no_text_uses_a_word_or_sign_that_the_voice_forbids(lang: str) -> None:
    for said in texts(table(lang)):
        assert not [word for word in BANNED if re.search(rf"(?<![a-z]){re.escape(word)}(?![a-z])", said.lower())]


VERBS = re.compile(
    r"(Add|Subtract|Look|Write|Work|Find|Ring|Put|Tick|Fill|Go|Use|Build|Draw|Count|Read|Say|Tell|Measure|Follow|Mark"
    r"|Number|Show|Trade|Multiply|Divide|Hop)\b"
)
"""Verbs with which an instruction to a child may begin; typed by hand."""


@pytest.mark.parametrize("code", sorted(table("en")["instruction"]))
def test_an_instruction_begins_with_a_verb_and_has_at_most_twelve_words(code: str) -> None:
    # JOB.md 3.1: up to 12 words, verb first.
    said = phrase("instruction", code, "en")

    assert VERBS.match(said)
    assert len(said.split()) <= 12


def numbers_told(cell: str) -> dict[str, int]:
    return dict(zip(pictured.CELLS[cell], (47, 18, 9), strict=False))


@pytest.mark.parametrize("unit", [None, "cm"])
@pytest.mark.parametrize("cell", sorted(pictured.CELLS))
def test_a_story_tells_its_numbers_once_in_short_sentences_and_ends_with_the_question(
    cell: str, unit: str | None
) -> None:
    told = numbers_told(cell)
    people = ("gran", "lock-keeper") if cell.startswith("compare") else ("gran",)

    lines = story_lines(Story(cell, people, "rope" if unit else "pumpkin", told, unit), "en")

    said = " ".join(lines)
    assert lines[-1].endswith("?")
    assert said.count("?") == 1
    assert sorted(int(n) for n in re.findall(r"\d+", said)) == sorted(told.values())
    for sentence in re.split(r"(?<=[.?]) ", said):
        assert len(sentence.split()) <= 12
        assert sentence[0].isupper() or sentence[0].isdigit()


MORE_OR_FEWER = {
    "compare-difference-more": ("more", "longer"),
    "compare-difference-fewer": ("fewer", "shorter"),
    "compare-bigger-more": ("more", "longer"),
    "compare-bigger-fewer": ("fewer", "shorter"),
    "compare-smaller-fewer": ("fewer", "shorter"),
    "compare-smaller-more": ("more", "longer"),
}
"""CHECKS A.6: each compare situation is told with "more" or with "fewer", which may mislead."""


@pytest.mark.parametrize(("cell", "words"), MORE_OR_FEWER.items())
def test_compare_stories_use_the_word_of_their_situation(cell: str, words: tuple[str, str]) -> None:
    told = numbers_told(cell)

    counted = " ".join(story_lines(Story(cell, ("child", "brother"), "egg", told), "en"))
    long = " ".join(story_lines(Story(cell, ("child", "brother"), "rope", told, "m"), "en"))

    assert words[0] in counted
    assert words[1] in long
    assert not ({"more", "fewer"} - {words[0]}) & set(re.findall(r"\w+", counted))


def test_one_of_a_thing_is_told_in_the_singular() -> None:
    lines = story_lines(Story("take-from-result", ("child",), "egg", {"start": 1, "change": 1}), "en")

    assert lines[0] in {"Wren has 1 egg.", "There is 1 egg on the deck."}


def test_every_picture_of_figures_can_be_described() -> None:
    assert set(SEEN) == set(PARAMS)
    assert all(has("figure", kind, "en") for kind in PARAMS)


def test_an_unknown_picture_has_no_words() -> None:
    with pytest.raises(NoWords):
        figure_words(Figure("unicorn", {}), "en")
