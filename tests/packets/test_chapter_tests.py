"""Chapter tests: what every form shares, what no two forms share, and that all of it reaches the paper.

Referees: JOB 1.11 and CHECKS H.7 for the promise; carries and borrows by Legendre's digit sums; networkx for matching;
the second solver for the keys; pdfplumber reads the printed key.
"""

from __future__ import annotations

import re
from collections import Counter
from functools import cache
from io import BytesIO
from itertools import pairwise
from typing import TYPE_CHECKING

import networkx as nx
import pdfplumber
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dayleaf.core.ids import FormatId, SkillId
from dayleaf.course.load import grade2
from dayleaf.items.face import figures_of
from dayleaf.items.make import make
from dayleaf.items.second import second_answer
from dayleaf.packets import blueprint as plans
from dayleaf.packets.features import borrows, carries, features_of, trades_of
from dayleaf.packets.forms import NoSuchForm, form_of
from dayleaf.packets.model import Child
from dayleaf.packets.pairing import Matching
from dayleaf.packets.tests import print_test
from dayleaf.sheets.model import Look
from dayleaf.wording.say import text_of

if TYPE_CHECKING:
    from dayleaf.course.model import Course
    from dayleaf.items.model import Item
    from dayleaf.packets.blueprint import Blueprint

CHAPTERS = range(1, 19)


@cache
def planned(chapter: int) -> Blueprint:
    course = grade2()
    return plans.blueprint_of(course, plans.day_of_test(course, chapter))


def digit_sum(number: int) -> int:
    return sum(map(int, str(number)))


def make_of(item: Item) -> tuple[object, ...]:
    """What anybody can count who sees only the item as it is printed and the wrong answers it foresees."""
    text = text_of(item, "en")
    numerals = tuple(sorted(re.sub("[1-9]", "d", numeral) for numeral in re.findall(r"\d+", text)))
    wrong = {answer for answer in item.errors.values() if answer != item.answer}
    answer = re.sub("[1-9]", "d", item.answer) if item.answer.replace(" ", "").isdigit() else ""
    return item.skill, item.format, len(text.split()), numerals, answer, len(wrong), trades_in(item)


def trades_in(item: Item) -> int | None:
    """Legendre: adding a and b carries (s(a) + s(b) − s(a + b)) / 9 times, s the digit sum.

    a − b borrows as often as b and the difference carry.
    """
    a, b = item.numbers.get("a"), item.numbers.get("b")
    if a is None or b is None or not re.fullmatch(rf"{a} [+−] {b} = □", text_of(item, "en")):
        return None
    low, high = (a, b) if "+" in text_of(item, "en") else (b, a - b)
    return (digit_sum(low) + digit_sum(high) - digit_sum(low + high)) // 9


def numbers_on(items: tuple[Item, ...], skill: SkillId) -> set[object]:
    """The numbers of a skill's items, and what is printed of them."""
    mine = [item for item in items if item.skill == skill]
    return {tuple(sorted(item.numbers.items())) for item in mine} | {
        text_of(item, "en") for item in mine if not any(figures_of(item))
    }


@pytest.mark.parametrize("chapter", CHAPTERS)
def test_a_blueprint_has_five_to_eight_skills_two_to_four_items_each_and_thirty_minutes_at_most(chapter: int) -> None:
    course, plan = grade2(), planned(chapter)

    assert [one.skill.id for one in plan.skills] == list(plan.day.front_skills)
    assert 5 <= len(plan.skills) <= 8
    assert all(2 <= len(one.places) <= 4 for one in plan.skills)
    assert plan.minutes <= 30
    for one in plan.skills:
        held_back = {name for name, lesson in one.skill.format_from_day.items() if lesson > plan.day.id}
        assert not any(course.formats[FormatId(name)].acted_out or name in held_back for name in one.formats)


@pytest.mark.parametrize("chapter", CHAPTERS)
def test_forms_a_and_b_are_alike_in_make_and_share_no_item_where_the_rule_has_25(chapter: int) -> None:
    for seed in (1, 2):
        one, other = (form_of(planned(chapter), letter, seed=seed).items for letter in "AB")

        assert Counter(map(make_of, one)) == Counter(map(make_of, other))
        for plan in planned(chapter).skills:
            if (plan.skill.distinct_items or 0) >= 25:
                assert not numbers_on(one, plan.skill.id) & numbers_on(other, plan.skill.id)
        for form in (one, other):
            keys = Counter(item.key for item in form)
            assert max(keys.values()) == 1
            assert all(second_answer(item) == item.answer for item in form)


def test_small_rules_give_the_second_form_other_numbers_or_at_least_another_order() -> None:
    """JOB 1.11: facts, doubles, times five: order and format vary where a rule has fewer than 25 items."""
    for chapter in (3, 5, 12, 17):
        one, other = (form_of(planned(chapter), letter, seed=3).items for letter in "AB")
        for plan in planned(chapter).skills:
            rows = [[item.key for item in form if item.skill == plan.skill.id] for form in (one, other)]
            assert rows[0] != rows[1], plan.skill.id


def test_the_same_seed_gives_the_same_form_and_another_seed_another() -> None:
    keys = {seed: [item.key for item in form_of(planned(9), "b", seed=seed).items] for seed in (5, 6)}

    assert keys[5] == [item.key for item in form_of(planned(9), "B", seed=5).items]
    assert keys[5] != keys[6]


def test_a_third_form_has_the_same_make_and_an_unknown_one_is_named() -> None:
    first, third = (form_of(planned(9), letter, seed=1).items for letter in "AC")

    assert Counter(map(make_of, first)) == Counter(map(make_of, third))
    assert not {item.key for item in first} & {item.key for item in third}
    with pytest.raises(NoSuchForm, match="no form Z"):
        form_of(planned(9), "Z", seed=1)


@given(st.integers(0, 9999), st.integers(0, 9999))
def test_carries_and_borrows_are_legendres(a: int, b: int) -> None:
    assert carries([a, b]) == (digit_sum(a) + digit_sum(b) - digit_sum(a + b)) // 9
    low, high = sorted((a, b))
    assert borrows(high, low) == carries([low, high - low])


def test_trades_are_found_in_rows_with_a_gap_and_in_columns(course: Course) -> None:
    """CHECKS H.4: count borrows with the running borrow: 100 − 1 has two."""
    regroup, twice = course.skills[SkillId("sub-2digit-regroup")], course.skills[SkillId("sub-3digit-regroup-twice")]

    assert trades_of(make(regroup, FormatId("vert"), {"a": 62, "b": 38})) == 1
    assert borrows(100, 1) == 2
    assert features_of(twice, make(twice, FormatId("vert"), {"a": 523, "b": 147})).trades == 2


@settings(max_examples=60, deadline=None)
@given(st.lists(st.sets(st.integers(0, 7), max_size=4), min_size=1, max_size=9))
def test_a_matching_serves_as_many_places_as_hopcroft_and_karp(places: list[set[int]]) -> None:
    matching = Matching()

    served = sum(matching.add([f"thing {one}" for one in sorted(options)]) for options in places)

    graph = nx.Graph()
    graph.add_nodes_from(range(len(places)))
    graph.add_edges_from((place, f"thing {one}") for place, options in enumerate(places) for one in options)
    best = nx.bipartite.hopcroft_karp_matching(graph, top_nodes=range(len(places)))
    assert served == len(matching.given) == len(best) // 2
    assert len(set(matching.given.values())) == served


@pytest.mark.parametrize(
    "look", [Look(), Look(paper="a4", left_handed=True), Look(large_boxes=True), Look(compact=True)],
    ids=["letter", "a4", "large", "compact"],
)  # fmt: skip
def test_all_of_a_test_is_on_the_paper_in_its_order_and_within_the_margins(course: Course, look: Look) -> None:
    prints = print_test(course, 6, Child("Wren", look), form="B", seed=4)

    printed = [item.key for page in prints.pages.pages for item in page.items]
    assert printed == [item.key for item in form_of(planned(6), "B", seed=4).items]
    numbers = [item.n for page in prints.pages.pages for item in page.items]
    assert all(after == before + 1 for before, after in pairwise(numbers))
    for page in prints.pages.pages:
        width, height = page.size_mm
        # common practice, no source: home printers leave 8 mm or less unprinted
        assert all(box.x >= 8 and box.x + box.w <= width - 8 for box in page.boxes)
        assert all(box.y >= 15 and box.y + box.h <= height - 15 for box in page.boxes)


def test_the_key_has_marks_by_skill_what_to_look_for_and_the_steps(course: Course) -> None:
    key = print_test(course, 4, Child("Ivo"), seed=2).key

    with pdfplumber.open(BytesIO(key)) as file:
        words = " ".join(" ".join(page.extract_text() for page in file.pages).split())
    for plan in planned(4).skills:
        assert plan.skill.title.split(",")[0] in words
    assert "Marks by skill" in words
    assert words.count("____ of 2") == len([plan for plan in planned(4).skills if len(plan.places) == 2])
    assert "What to look for" in words
    assert "A stranger could say" in words
    assert "How each one goes" in words
