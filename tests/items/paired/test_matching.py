"""Things to match: every pair obeys its skill's rule, every thing has one partner, mistakes show."""

from __future__ import annotations

from collections import Counter

import pytest
from inflect import engine

from dayleaf.core.ids import FormatId, SkillId
from dayleaf.course.load import grade2
from dayleaf.items.domain import domain_of, domain_of_rule
from dayleaf.items.face import face
from dayleaf.items.make import make
from dayleaf.items.model import Item, Match, Row
from dayleaf.items.paired import facts, groups, large_places, measures, money, named, places, shares, times
from dayleaf.items.second import second_answer
from dayleaf.wording.say import lines_of

MATCH = FormatId("match")
MODULES = (facts, groups, places, large_places, times, money, measures, shares, named)
SIDES = {skill_id: sides for module in MODULES for skill_id, sides in module.SIDES.items()}
SKILLS = grade2().skills


def matches(skill_id: SkillId) -> list[Item]:
    """Up to about fifty items spread over the rule."""
    domain = domain_of_rule(SIDES[skill_id].rule)
    step = max(1, len(domain) // 50) | 1
    return [make(SKILLS[skill_id], MATCH, domain.numbers(place)) for place in range(0, len(domain), step)]


def shown(item: Item) -> Match:
    assert isinstance(item.prompt, Match)
    return item.prompt


@pytest.mark.parametrize("skill_id", SIDES)
def test_pairs_are_taken_from_the_rule_of_the_skills_own_file(skill_id: SkillId) -> None:
    skill, sides = SKILLS[skill_id], SIDES[skill_id]

    if sides.part:
        assert all(domain_of(skill).holds(item.numbers) for item in matches(skill_id))
    else:
        assert sides.rule == skill.item_rule
    assert MATCH in skill.formats


@pytest.mark.parametrize("skill_id", SIDES)
def test_every_thing_has_one_partner_and_the_second_solver_finds_the_same(skill_id: SkillId) -> None:
    for item in matches(skill_id):
        numbers = [str(n) for n in range(1, len(shown(item).left) + 1)]

        assert sorted(item.answer.split()) == numbers
        assert second_answer(item) == item.answer
        assert len({str(one) for one in shown(item).right}) == len(numbers)
        assert len(item.steps) == len(item.parts) == len(numbers) in {3, 4}


@pytest.mark.parametrize("skill_id", SIDES)
def test_the_first_thing_shows_the_items_own_numbers(skill_id: SkillId) -> None:
    for item in matches(skill_id):
        assert shown(item).left[0] == SIDES[skill_id].left(item.numbers)


@pytest.mark.parametrize("skill_id", SIDES)
def test_no_two_items_look_alike_and_the_same_numbers_give_the_same_item(skill_id: SkillId) -> None:
    items = matches(skill_id)

    assert len({face(item) for item in items}) == len(items)
    assert items == matches(skill_id)


SILENT = {
    *("teen-ten-and-ones", "pv-2digit-regroup-names", "numerals-0-20", "number-words-to-1000", "pv-3digit-expanded"),
    *("pv-3digit-model", "pv-3digit-regroup-names", "pv-4digit-model", "time-units-relations", "ordinals-dates-31"),
    *("coins-equivalent-sets", "measure-foot-yard", "div-related-mul", "frac-nonunit", "frac-whole-as-parts"),
    "shapes-2d-name",
}
"""Their ways write numbers (31 for 13, 5 for 14) or names that are no partner of any pair of the rule."""


@pytest.mark.parametrize("skill_id", [skill_id for skill_id in SIDES if skill_id not in SILENT])
def test_the_partner_that_a_mistake_would_choose_stands_at_the_right(skill_id: SkillId) -> None:
    wrong = Counter(way for item in matches(skill_id) for way, answer in item.errors.items() if answer != item.answer)

    assert wrong
    assert set(wrong) <= set(SIDES[skill_id].ways)


# The examples of the skills' own files, worked by hand: what a mistake writes beside the first thing.
HABITS = [
    ("add-near-doubles", {"a": 6, "b": 7}, "double-only", 12),  # 6 + 7 → 12
    ("add-doubles-to-20", {"a": 7}, "double-mixed", 16),  # 7 + 7 → 16
    ("partners-of-10", {"a": 7}, "off-by-one-partner", 4),  # 7 + □ = 10 → 4
    ("sub-facts-within-10", {"a": 8, "b": 3}, "count-start-number", 6),  # 8 - 3 → 6
    ("sub-facts-within-20-mixed", {"a": 14, "b": 6}, "one-left-over", 9),  # 14 - 6 → 9
    ("mul-by-3", {"a": 6}, "double-only", 12),  # 3 × 6 → 12
    ("mul-by-5", {"a": 7}, "one-group-short", 30),  # 5 × 7 → 30
    ("div-by-2", {"a": 7}, "half-neighbor", 8),  # 14 ÷ 2 → 8
    ("div-by-10", {"a": 6}, "off-by-one-group", 5),  # 60 ÷ 10 → 5
    ("numerals-to-120", {"n": 25}, "digits-swapped", 52),
    ("number-words-to-100", {"n": 13}, "teen-ty-mixed", 30),
    ("coins-count-like", {"k": 1, "n": 6}, "wrong-skip", "60¢"),  # 6 nickels by tens
    ("coins-identify", {"a": 1, "b": 3}, "bigger-coin-worth-more", "10¢"),  # the nickel is larger than the dime
    ("money-symbols", {"n": 5}, "cents-after-dollar-lost", "$5"),  # $5 for 5 cents
    ("time-quarter-hour", {"h": 2, "m": 3}, "quarter-to-next-hour", "3:45"),  # 2:45 → 3:45
    ("time-quarter-hour", {"h": 6, "m": 3}, "quarter-to-as-past", "7:15"),  # 6:45 → 7:15
    ("time-past-to-language", {"h": 5, "m": 3}, "quarter-to-same-hour", "6:45"),  # quarter to six → 6:45
    ("data-tally-table", {"n": 13}, "tally-by-ones", 5),  # two bundles and three → 5
    ("code-loop-repeat", {"a": 4, "b": 2}, "repeat-extra", 10),  # once and then 4 times: 10 squares
    ("regroup-ten-ones", {"t": 3, "n": 13}, "trade-adds-amount", 53),  # the ten ones are kept: 4 tens 13 ones
]


@pytest.mark.parametrize(("skill_id", "numbers", "way", "chosen"), HABITS)
def test_a_habit_writes_the_number_of_the_partner_it_sees(
    skill_id: str, numbers: dict[str, int], way: str, chosen: int | str
) -> None:
    item = make(SKILLS[SkillId(skill_id)], MATCH, numbers)

    written = dict(item.errors)[next(one for one in item.errors if one == way)].split()[0]
    partner = shown(item).right[int(written) - 1]

    assert isinstance(partner, Row)
    told = partner.tokens[0]
    assert chosen in (told, getattr(told, "count", None))


def test_a_line_tells_the_letters_of_the_left_and_the_numbers_of_the_right() -> None:
    item = make(SKILLS[SkillId("number-words-to-100")], MATCH, {"n": 13})

    left, right = lines_of(item, "en")

    numbers = [part.split()[1] for part in left.split("  ")]
    assert [part.split()[0] for part in left.split("  ")] == ["A", "B", "C", "D"]
    # inflect names numbers in English without any code of ours.
    names = [str(engine().number_to_words(number)) for number in numbers]
    assert [right.split("  ")[int(n) - 1].split(" ", 1)[1] for n in item.answer.split()] == names
