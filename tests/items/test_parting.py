"""Items that tell error ways apart, held against every item of a rule gone through one by one."""

from __future__ import annotations

import json
from itertools import combinations
from typing import TYPE_CHECKING

import pytest
from click.testing import CliRunner

from dayleaf.cli.items import verb
from dayleaf.core.ids import FormatId, SkillId
from dayleaf.course.load import grade2
from dayleaf.items.built import rule_of
from dayleaf.items.domain import domain_of
from dayleaf.items.make import make
from dayleaf.items.parting import set_apart

if TYPE_CHECKING:
    from collections.abc import Iterable

    from dayleaf.items.model import Item

SKILLS = grade2().skills


def every_item(skill_id: str) -> list[Item]:
    skill = SKILLS[SkillId(skill_id)]
    fits = rule_of(skill.id).fits
    domain = domain_of(skill)
    return [
        make(skill, format_id, numbers)
        for numbers in map(domain.numbers, range(len(domain)))
        for format_id in rule_of(skill.id).formats
        if format_id not in fits or fits[format_id](numbers)
    ]


def told_apart(items: Iterable[Item]) -> tuple[set[frozenset[str]], set[frozenset[str]]]:
    """The pairs that meet in some item and those that get different answers there, compared one by one."""
    met, parted = set(), set()
    for item in items:
        answers = {"right": item.answer} | {str(way): said for way, said in item.errors.items()}
        for one, other in combinations(answers, 2):
            met.add(frozenset((one, other)))
            if answers[one] != answers[other]:
                parted.add(frozenset((one, other)))
    return met, parted


@pytest.mark.parametrize(
    "skill_id", ["sub-2digit-multiple-of-10", "sub-2digit-regroup", "mul-by-0-1", "div-grouping", "time-am-pm"]
)
def test_pairs_that_no_item_tells_apart_are_named_and_no_others(skill_id: str) -> None:
    met, parted = told_apart(every_item(skill_id))

    found = set_apart(SKILLS[SkillId(skill_id)], n=4, seed=1)

    assert found.whole
    assert found.pairs == len(met)
    assert {frozenset(way or "right" for way in pair) for pair in found.never} == met - parted


@pytest.mark.parametrize("n", [1, 2, 4])
def test_what_the_chosen_items_do_not_tell_is_named(n: int) -> None:
    found = set_apart(SKILLS[SkillId("sub-2digit-multiple-of-10")], n=n, seed=3)

    _, parted = told_apart(found.items)
    left = {frozenset(way or "right" for way in pair) for pair in found.not_here}
    assert len(found.items) == n
    assert len({tuple(item.numbers.items()) for item in found.items}) == n
    assert found.told == len(parted)
    assert not left & parted


def test_the_least_number_of_items_is_found_where_all_sets_of_so_few_can_be_tried() -> None:
    items = every_item("add-make-ten-9")
    _, parted = told_apart(items)

    least = next(n for n in (1, 2, 3) if any(told_apart(few)[1] == parted for few in combinations(items, n)))

    found = set_apart(SKILLS[SkillId("add-make-ten-9")], n=least, seed=1)
    assert found.not_here == ()


def test_a_wide_rule_says_how_much_of_it_was_looked_at() -> None:
    found = set_apart(SKILLS[SkillId("sub-3digit-regroup-tens")], n=4, seed=1, formats=[FormatId("vert")])

    assert not found.whole
    assert found.looked_at == 3000
    assert (found.told, found.never, found.not_here) == (found.pairs, (), ())


def test_the_command_line_names_the_pairs() -> None:
    ran = CliRunner().invoke(verb, ["sub-2digit-multiple-of-10", "--n", "4", "--apart", "--json"])

    said = json.loads(ran.stdout)
    assert len(said["items"]) == 4
    assert said["apart"]["pairs"] == 36  # eight ways and the right one: 9 choose 2
    assert ["smaller-from-larger", "zero-minus-is-digit"] in said["apart"]["never"]  # under a zero they agree
    assert said["apart"]["told"] + len(said["apart"]["never"]) + len(said["apart"]["not here"]) == 36
