"""Things to sort: each thing has a place of its own in the table, and every group is used."""

from __future__ import annotations

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.course.load import grade2
from dayleaf.items.domain import domain_of
from dayleaf.items.make import make
from dayleaf.items.model import Item, Row, Sort
from dayleaf.items.second import second_answer
from dayleaf.sheets.cells import answer_words

SKILL = grade2().skills[SkillId("even-odd-pairs")]


def sorts() -> list[Item]:
    domain = domain_of(SKILL)
    return [make(SKILL, FormatId("sort"), domain.numbers(place)) for place in range(len(domain))]


def things(item: Item) -> list[int]:
    assert isinstance(item.prompt, Sort)
    return [int(str(thing.tokens[0])) for thing in item.prompt.things if isinstance(thing, Row)]


def test_every_number_is_sorted_by_whether_pairs_leave_one_alone() -> None:
    for item in sorts():
        wanted = " ".join("odd" if n & 1 else "even" for n in things(item))

        assert item.answer == wanted == second_answer(item)
        assert set(item.answer.split()) == {"even", "odd"}
        assert len(set(things(item))) == len(item.parts) == 6


def test_who_looks_at_the_tens_digit_calls_twelve_odd() -> None:
    # The example of the skill's own file.
    item = make(SKILL, FormatId("sort"), {"n": 12})

    written = item.errors[ErrorWayId("judge-by-tens-digit")].split()

    assert things(item)[0] == 12
    assert written[0] == "odd"


def test_the_key_names_the_group_of_every_letter() -> None:
    item = make(SKILL, FormatId("sort"), {"n": 20})

    assert things(item) == [20, 3, 9, 18, 10, 5]  # as printed
    assert answer_words(item, "en") == "A even, B odd, C odd, D even, E even, F odd"
