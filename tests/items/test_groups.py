"""Multiplying and dividing: how many there are, and the slips that the literature names.

Sources: CHECKS H (exact counts), CHECKS D.2 (slips of mental multiplication), CHECKS A.6 Table 2 (situations of
CCSS-M (2010), glossary). Other examples are those of the course's own skill files.
"""

from __future__ import annotations

from itertools import product

import pytest

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.course.load import grade2
from dayleaf.figures.draw import draw
from dayleaf.items.domain import domain_of
from dayleaf.items.group_stories import GROUP_CELLS, GROUP_EQUATIONS, group_solution, group_story
from dayleaf.items.make import make
from dayleaf.items.model import Figure
from dayleaf.items.pictured.codes import NOUNS, PEOPLE
from dayleaf.items.pictured.group_stories import product_told, quotient_told
from dayleaf.items.ways import groups as ways
from dayleaf.items.written import read_written

SKILLS = grade2().skills


def rows(skill_id: str) -> list[dict[str, int]]:
    domain = domain_of(SKILLS[SkillId(skill_id)])
    return [domain.numbers(place) for place in range(len(domain))]


# CHECKS H.1: products of digits 0–9: 37 distinct; of 1–10: 42; exact divisions n ÷ d, n ≤ 100, d ≤ 10: 291.
def test_products_and_exact_divisions_are_as_many_as_counted_elsewhere() -> None:
    assert len({a * b for a, b in product(range(10), repeat=2)}) == 37
    assert len({a * b for a, b in product(range(1, 11), repeat=2)}) == 42
    assert sum(n % d == 0 for n in range(1, 101) for d in range(1, 11)) == 291

    divisions = {(numbers["a"] * numbers["b"], numbers["a"]) for numbers in rows("div-facts-within-100")}

    # Of the 291, 100 divide by 1; of the others those within the facts have a result of at most 10.
    assert divisions == {(n, d) for n in range(1, 101) for d in range(2, 11) if n % d == 0 and n // d <= 10}


# CHECKS H.6: arrays up to 5 × 5: 25 ordered shapes, 14 totals. The course leaves out 2 × 2, where 2 + 2 = 2 × 2.
def test_arrays_are_all_shapes_up_to_five_by_five_but_one() -> None:
    shapes = {(numbers["a"], numbers["b"]) for numbers in rows("mul-arrays")}

    assert shapes == set(product(range(1, 6), repeat=2)) - {(2, 2)}
    assert len({a * b for a, b in shapes}) == 14


def answers(skill_id: str, form: str, **numbers: int) -> tuple[str, dict[str, str]]:
    item = make(SKILLS[SkillId(skill_id)], FormatId(form), numbers)
    return item.answer, {str(way): wrong for way, wrong in item.errors.items()}


# CHECKS D.2: × read as + (3 × 4 = 7); N × 0 = N; × 1 = N + 1; table neighbor 7 × 8 = 54; skip-count off by one group.
@pytest.mark.parametrize(
    ("skill_id", "form", "numbers", "slip"),
    [
        ("mul-sentence", "horiz", {"a": 3, "b": 4}, ("adds-for-times", "12", "7")),
        ("mul-by-0-1", "horiz", {"a": 0, "b": 6}, ("times-zero-same", "0", "6")),
        ("mul-by-0-1", "horiz", {"a": 1, "b": 6}, ("times-one-adds-one", "6", "7")),
        ("mul-facts-6-to-9", "horiz", {"a": 7, "b": 8}, ("neighbor-fact", "56", "54")),
        ("mul-by-5", "horiz", {"a": 7}, ("one-group-short", "35", "30")),
        # the course's own examples
        ("mul-by-2", "strip", {"a": 7}, ("one-group-short", "14", "12")),
        ("mul-by-3", "horiz", {"a": 6}, ("double-only", "18", "12")),
        ("mul-by-4", "horiz", {"a": 6}, ("adds-four", "24", "10")),
        ("mul-repeated-addition", "horiz", {"a": 4, "b": 3}, ("one-addend-short", "12", "9")),
        ("mul-arrays", "draw", {"a": 3, "b": 4}, ("counts-edge-twice", "12", "7")),
        ("mul-multiples-of-10", "horiz", {"a": 4, "b": 3}, ("zero-lost-in-product", "120", "12")),
        ("mul-multiples-of-10", "horiz", {"a": 4, "b": 3}, ("zero-doubled", "120", "1200")),
        ("mul-unknown-factor", "missing", {"a": 4, "b": 3}, ("subtracts-for-factor", "3", "8")),
        ("mul-unknown-factor", "missing", {"a": 4, "b": 7}, ("off-by-one-group", "7", "6")),
        ("div-by-2", "horiz", {"a": 7}, ("subtracts-once", "7", "12")),
        ("div-by-2", "horiz", {"a": 7}, ("half-neighbor", "7", "8")),
        ("div-by-5", "horiz", {"a": 7}, ("off-by-one-group", "7", "8")),
        ("div-by-10", "horiz", {"a": 6}, ("off-by-one-group", "6", "5")),
        ("div-facts-within-100", "horiz", {"a": 8, "b": 7}, ("neighbor-fact", "7", "6")),
        ("div-repeated-subtraction", "nl-jump", {"a": 5, "b": 3}, ("last-number-answer", "3", "0")),
        ("div-word", "word1", {"k": 1, "a": 5, "b": 4}, ("times-for-divide", "4", "100")),
        ("div-leftovers", "draw", {"n": 13, "k": 4}, ("leftover-too-many", "3 1", "2 5")),
    ],
)
def test_a_slip_gives_the_answer_named_for_it(
    skill_id: str, form: str, numbers: dict[str, int], slip: tuple[str, str, str]
) -> None:
    way, right, wrong = slip

    answer, errors = answers(skill_id, form, **numbers)

    assert answer == right
    assert errors[way] == wrong


@pytest.mark.parametrize(("a", "b"), list(product(range(2, 10), repeat=2)))
def test_a_neighbor_fact_is_never_the_right_one_and_stands_in_the_table(a: int, b: int) -> None:
    wrong = ways.neighbor_product(a, b)

    assert wrong is not None
    assert wrong != a * b
    assert wrong in {x * y for x, y in product(range(1, 11), repeat=2)}


def test_zero_and_one_slips_are_silent_where_no_zero_or_one_stands() -> None:
    assert all(ways.zero_changes_nothing(a, b) is None for a, b in product(range(1, 11), repeat=2))
    assert all(ways.one_adds_one(a, b) is None for a, b in product((0, *range(2, 11)), repeat=2))


# CHECKS A.6 Table 2 on 3 groups of 6: product 3 × 6 = ?, sharing 3 × ? = 18, measuring ? × 6 = 18; arrays the same.
PUBLISHED = {
    "groups-product": ({"groups": 3, "size": 6}, "3 × 6 = ?", 18),
    "groups-size": ({"total": 18, "groups": 3}, "3 × ? = 18", 6),
    "groups-number": ({"total": 18, "size": 6}, "? × 6 = 18", 3),
    "array-product": ({"rows": 3, "columns": 6}, "3 × 6 = ?", 18),
    "array-columns": ({"total": 18, "rows": 3}, "3 × ? = 18", 6),
    "array-rows": ({"total": 18, "columns": 6}, "? × 6 = 18", 3),
}


@pytest.mark.parametrize("cell", PUBLISHED)
def test_the_situation_equation_and_the_answer_are_the_published_ones(cell: str) -> None:
    told, equation, answer = PUBLISHED[cell]

    first, second, result = (str(told.get(part, part)) for part in GROUP_EQUATIONS[cell])

    assert f"{first} × {second} = {result}" == equation
    assert group_solution(cell, told) == answer
    assert tuple(told) == GROUP_CELLS[cell]


def test_every_cell_of_the_table_is_told_and_both_readings_of_division_come() -> None:
    told = {product_told(a, b)[0] for a, b in product(range(2, 11), repeat=2)}
    told |= {quotient_told(a * b, a)[0] for a, b in product(range(2, 11), repeat=2)}

    assert told == set(PUBLISHED)


def test_stories_name_people_and_things_that_wording_knows() -> None:
    for cell, names in GROUP_CELLS.items():
        for n in range(2, 40):
            story = group_story(cell, dict.fromkeys(names, n))
            assert story.noun in NOUNS
            assert set(story.people) <= PEOPLE


def test_groups_of_different_sizes_are_drawn_ring_by_ring() -> None:
    figure = Figure("set-objects", {"groups": 3, "size": 4, "sizes": (4, 5, 3), "question": 1})

    assert draw(figure, title="", desc="").svg.count("<circle") == 12


@pytest.mark.parametrize(
    ("skill_id", "typed", "way"),
    [("mul-by-5", "5x7=30", "one-group-short"), ("div-by-2", "14÷2=12", "subtracts-once")],
)
def test_a_typed_product_or_quotient_is_read_with_its_slip(skill_id: str, typed: str, way: str) -> None:
    item, written = read_written(SKILLS[SkillId(skill_id)], typed)

    assert item.errors[ErrorWayId(way)] == written
