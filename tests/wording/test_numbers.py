"""Names of numbers, against a library for English and a hand-typed list for Spanish."""

import inflect
import pytest

from dayleaf.wording.numbers import number_name
from dayleaf.wording.tables import NoWords

SPANISH = {
    0: "cero",
    16: "dieciséis",
    20: "veinte",
    21: "veintiuno",
    22: "veintidós",
    23: "veintitrés",
    26: "veintiséis",
    31: "treinta y uno",
    45: "cuarenta y cinco",
    99: "noventa y nueve",
    100: "cien",
    101: "ciento uno",
    200: "doscientos",
    500: "quinientos",
    555: "quinientos cincuenta y cinco",
    700: "setecientos",
    900: "novecientos",
    1000: "mil",
    1001: "mil uno",
    2026: "dos mil veintiséis",
    9999: "nueve mil novecientos noventa y nueve",
}
"""Standard Spanish spelling of cardinal numbers, typed by hand from general knowledge of the language."""


def test_english_names_are_those_of_inflect_without_and() -> None:
    # Source: inflect.number_to_words with andword="" gives the US school style (CHECKS C.5); its comma goes.
    referee = inflect.engine()

    for n in (*range(10_000), *range(10_000, 100_000, 997)):
        said = str(referee.number_to_words(str(n), andword="")).replace(",", "")
        assert number_name(n, "en") == said


@pytest.mark.parametrize(("n", "name"), SPANISH.items())
def test_spanish_names_are_spelled_as_in_school(n: int, name: str) -> None:
    assert number_name(n, "es") == name


def test_spanish_names_are_all_different() -> None:
    assert len({number_name(n, "es") for n in range(10_000)}) == 10_000


@pytest.mark.parametrize(("n", "lang"), [(-1, "en"), (100_000, "en"), (10_000, "es")])
def test_a_number_beyond_the_range_has_no_name(n: int, lang: str) -> None:
    with pytest.raises(NoWords):
        number_name(n, lang)


def test_an_unknown_language_has_no_names() -> None:
    with pytest.raises(NoWords, match="language “xx”"):
        number_name(7, "xx")
