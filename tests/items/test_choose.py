"""A chosen page: error ways told apart, numbers spread, the ladder, nothing twice."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.course.load import grade2
from dayleaf.items.built import NotBuilt, rules
from dayleaf.items.choose import choose_items
from dayleaf.items.domain import domain_of
from dayleaf.items.face import face, without_format
from dayleaf.items.ladder import hardest_place, ranks

if TYPE_CHECKING:
    from dayleaf.items.model import Item

SKILLS = grade2().skills
REGROUP = SKILLS[SkillId("sub-2digit-regroup")]
VERT, HORIZ, FIX = FormatId("vert"), FormatId("horiz"), FormatId("fix")
SFL, TNR = ErrorWayId("smaller-from-larger"), ErrorWayId("ten-not-reduced")


def parting(page: tuple[Item, ...]) -> int:
    return sum(item.errors[SFL] != item.errors[TNR] for item in page)


@pytest.mark.parametrize("n", [2, 6])
def test_every_page_tells_the_two_commonest_ways_apart_for_a_thousand_seeds(n: int) -> None:
    # JOB 1.7: the ways agree where the ones differ by five (11 % of the items).
    pages = [choose_items(REGROUP, n=n, seed=seed, formats=[VERT]) for seed in range(1000)]

    assert min(parting(page) for page in pages) >= 2
    assert all(len(page) == n for page in pages)


def test_a_page_in_mixed_formats_tells_them_apart_too() -> None:
    pages = [choose_items(REGROUP, n=6, seed=seed, formats=[VERT, HORIZ, FIX]) for seed in range(200)]

    assert min(parting(page) for page in pages) >= 2
    assert {Counter(item.format for item in page)[FIX] for page in pages} == {1}


def test_each_pair_of_the_files_ways_is_parted_twice_wherever_the_rule_allows_it() -> None:
    for seed in range(50):
        page = choose_items(SKILLS[SkillId("sub-2digit-mixed")], n=8, seed=seed, formats=[VERT])
        ways = [way.id for way in SKILLS[SkillId("sub-2digit-mixed")].error_ways]
        for one in ways:
            assert sum(item.errors[one] != item.answer for item in page) >= 2
            for other in ways:
                assert one == other or sum(item.errors[one] != item.errors[other] for item in page) >= 2


def test_about_half_of_a_mixed_page_opens_a_ten() -> None:
    # The skill's range: "about half need opening".
    for seed in range(100):
        page = choose_items(SKILLS[SkillId("sub-2digit-mixed")], n=8, seed=seed, formats=[VERT, HORIZ])
        opened = sum(item.numbers["a"] % 10 < item.numbers["b"] % 10 for item in page)
        assert 3 <= opened <= 5


@given(
    st.sampled_from(sorted(rules())),
    st.integers(1, 12),
    st.integers(0, 10**9),
)
@settings(max_examples=60, deadline=None)
def test_no_page_holds_the_same_problem_twice(skill_id: SkillId, n: int, seed: int) -> None:
    page = choose_items(SKILLS[skill_id], n=n, seed=seed, formats=tuple(rules()[skill_id].formats))

    assert len({face(item) for item in page}) == len(page)
    assert len({without_format(item.key) for item in page}) == len(page)
    small = len(domain_of(SKILLS[skill_id])) < 40  # such a rule may have fewer items that look different
    assert len(page) == n or small
    assert page == choose_items(SKILLS[skill_id], n=n, seed=seed, formats=tuple(rules()[skill_id].formats))


def test_items_printed_before_do_not_come_again_in_any_format() -> None:
    first = choose_items(REGROUP, n=8, seed=1, formats=[VERT])
    keys = frozenset(item.key for item in first)

    second = choose_items(REGROUP, n=8, seed=1, formats=[HORIZ], avoid=keys)

    assert {without_format(key) for key in keys} & {without_format(item.key) for item in second} == set()


def test_a_sum_seen_under_another_skill_does_not_come_again_on_the_sheet() -> None:
    mixed = choose_items(SKILLS[SkillId("sub-2digit-mixed")], n=8, seed=1, formats=[VERT])
    faces = frozenset(face(item) for item in mixed)
    again = choose_items(SKILLS[SkillId("sub-2digit-mixed")], n=8, seed=1, formats=[VERT], avoid=faces)

    assert faces & {face(item) for item in again} == set()


def test_a_rule_with_nothing_fresh_left_repeats_sooner_than_print_an_empty_page() -> None:
    partners = SKILLS[SkillId("partners-of-10")]
    everything = frozenset(f"partners-of-10/missing/a={a}" for a in range(1, 10))

    assert len(choose_items(partners, n=6, seed=3, formats=[FormatId("missing")], avoid=everything)) == 6


def test_answers_on_one_page_differ() -> None:
    for seed in range(50):
        page = choose_items(REGROUP, n=6, seed=seed, formats=[VERT])
        assert len({item.answer for item in page}) == 6


def test_the_first_is_sure_the_hardest_at_two_thirds_the_last_sure() -> None:
    # JOB 3.1 (common practice, no source).
    for seed in range(50):
        hard = [item.difficulty for item in choose_items(REGROUP, n=8, seed=seed, formats=[VERT])]
        assert hard[0] == min(hard)
        assert hard[hardest_place(8)] == max(hard)
        assert hard[-1] <= sorted(hard)[1]


@given(st.integers(3, 40))
def test_three_of_the_hardest_never_stand_in_a_row(n: int) -> None:
    # JOB 3.1: "never three of the hardest in a row"; the hardest are the upper third of the page.
    order = ranks(n)
    hardest = {place for place, rank in enumerate(order) if rank >= n - n // 3}

    assert sorted(order) == list(range(n))
    assert not any({place, place + 1, place + 2} <= hardest for place in range(n))
    assert order.index(n - 1) == hardest_place(n)


def test_as_many_formats_as_places_name_each_place() -> None:
    page = choose_items(REGROUP, n=4, seed=5, formats=[VERT, HORIZ, VERT, FIX])

    assert [item.format for item in page] == [VERT, VERT, HORIZ, FIX]


def test_a_format_that_is_not_built_is_named() -> None:
    with pytest.raises(NotBuilt, match="sub-2digit-regroup as sort is not built yet"):
        choose_items(REGROUP, n=4, seed=5, formats=[FormatId("sort")])


@pytest.mark.parametrize(
    ("skill_id", "name", "way"),
    [
        ("hundred-chart-moves", "missing", "wrap-lost"),  # shows in 18 of 784 items
        ("count-to-120", "table", "decade-stumble"),  # shows at the end of a ten only
        ("regroup-ten-for-ones", "missing", "ten-not-reduced"),  # shows where the tens are asked
    ],
)
def test_a_way_that_hardly_ever_shows_is_looked_for(skill_id: str, name: str, way: str) -> None:
    for seed in range(20):
        page = choose_items(SKILLS[SkillId(skill_id)], n=8, seed=seed, formats=[FormatId(name)])
        assert any(item.errors.get(ErrorWayId(way), item.answer) != item.answer for item in page)
