"""Plurals and articles, against inflect for English."""

import inflect
import pytest

from dayleaf.wording.nouns import counted, noun, with_article
from dayleaf.wording.tables import NoWords, table

REFEREE = inflect.engine()
NOUNS = [code for code in table("en")["noun"] if code not in {"cm", "m", "four-sides"}]


@pytest.mark.parametrize("code", NOUNS)
def test_the_plural_is_the_one_inflect_gives(code: str) -> None:
    said = noun(code, "en")

    assert said.many == REFEREE.plural_noun(said.one)


@pytest.mark.parametrize("code", NOUNS)
def test_the_article_is_the_one_inflect_gives(code: str) -> None:
    assert with_article(code, "en") == REFEREE.a(noun(code, "en").one)


def test_one_and_many_are_told_apart() -> None:
    assert counted(1, "egg", "en") == "1 egg"
    assert counted(0, "egg", "en") == "0 eggs"
    assert counted(12, "radish", "en") == "12 radishes"
    assert counted(1, "egg", "es") == "1 huevo"
    assert counted(3, "carrot", "es") == "3 zanahorias"


def test_spanish_articles_follow_the_gender() -> None:
    assert with_article("egg", "es") == "un huevo"
    assert with_article("carrot", "es", definite=True) == "la zanahoria"


def test_both_languages_know_the_same_story_nouns() -> None:
    english, spanish = ({code for code, said in table(lang)["noun"].items() if said} for lang in ("en", "es"))

    assert spanish <= english


def test_every_spanish_noun_has_a_gender() -> None:
    assert {noun(code, "es").gender for code in table("es")["noun"]} == {"m", "f"}


def test_an_unknown_thing_has_no_noun() -> None:
    with pytest.raises(NoWords, match=r"noun\.unicorn"):
        noun("unicorn", "en")
