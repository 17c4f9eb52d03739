"""When the words of a picture say the answer, and when they only carry the data. The cases are worked by hand."""

from __future__ import annotations

from dayleaf.wording.given_away import Told, given_away

NAMES = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
FRUIT = ("apples", "beans", "carrots")


def told(said: str, answer: int, *, n: int, printed: frozenset[str] = frozenset()) -> Told:
    return Told(f"item {n}", "how-many", said, (str(answer), NAMES[answer]), printed)


def test_a_number_that_always_stands_at_the_same_place_is_given_away() -> None:
    found = given_away(told(f"A row of {n} dots.", n, n=n) for n in range(1, 11))

    assert [one.question for one in found] == ["how-many"]


def test_a_number_in_words_is_given_away_too() -> None:
    found = given_away(told(f"A row: {NAMES[n]} dots.", n, n=n) for n in range(1, 11))

    assert len(found) == 1


def test_dots_told_one_by_one_are_not_given_away() -> None:
    assert given_away(told(" ".join(["A dot."] * n), n, n=n) for n in range(1, 11)) == ()


def test_one_bar_among_three_is_data_and_the_question_must_be_read() -> None:
    texts = [
        told("Bars. " + " ".join(f"{FRUIT[k]}: {n + k - 1}." for k in range(3)), n + asked - 1, n=n)
        for n in range(1, 9)
        for asked in range(3)
    ]

    assert given_away(texts) == ()


def test_the_same_bar_asked_each_time_is_given_away() -> None:
    texts = [told("Bars. " + " ".join(f"{FRUIT[k]}: {n + k}." for k in range(3)), n + 2, n=n) for n in range(1, 9)]

    assert len(given_away(texts)) == 1


def test_what_is_printed_beside_it_is_no_secret() -> None:
    texts = [told(f"A hand that points to the {n}.", n, n=n, printed=frozenset({str(n)})) for n in range(1, 11)]

    assert given_away(texts) == ()


def test_with_few_texts_nothing_is_decided() -> None:
    assert given_away(told(f"A row of {n} dots.", n, n=n) for n in range(1, 8)) == ()


def test_one_kind_of_picture_among_several_is_found() -> None:
    hidden = [told(" ".join(["A dot."] * n), n, n=n) for n in range(1, 11)]
    plain = [told(f"A train of {n} cubes.", n, n=n) for n in range(1, 11)]

    assert len(given_away([*hidden, *plain])) == 1
