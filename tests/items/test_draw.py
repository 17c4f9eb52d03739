"""Items by seed, and items typed in."""

from __future__ import annotations

import ast
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dayleaf.core.ids import FormatId, SkillId
from dayleaf.course.load import grade2
from dayleaf.items import second
from dayleaf.items.built import BuiltTwice, NotBuilt, formats_built, is_built, joined
from dayleaf.items.domain import NoRule, domain_of
from dayleaf.items.draw import draw_items
from dayleaf.items.face import without_format
from dayleaf.items.model import Item, Part, Question
from dayleaf.items.rule import Made, SkillRule
from dayleaf.items.written import NotAnItem, read_written

SKILLS = grade2().skills
REGROUP = SKILLS[SkillId("sub-2digit-regroup")]
VERT = FormatId("vert")


def test_numbers_come_again_only_when_all_have_been_used() -> None:
    doubles = SKILLS[SkillId("add-doubles-to-20")]

    drawn = draw_items(doubles, n=30, seed=4, format=FormatId("horiz"))

    assert len({item.key for item in drawn[:11]}) == 11
    assert len({item.key for item in drawn[11:22]}) == 11
    assert len(drawn) == 30


@given(st.integers(0, 10**12), st.integers(1, 40))
def test_the_same_seed_gives_the_same_items_and_no_number_twice(seed: int, n: int) -> None:
    drawn = draw_items(REGROUP, n=n, seed=seed)

    assert drawn == draw_items(REGROUP, n=n, seed=seed)
    assert len({without_format(item.key) for item in drawn}) == n
    assert all(domain_of(REGROUP).holds(item.numbers) for item in drawn)


def test_another_seed_gives_other_items() -> None:
    assert draw_items(REGROUP, n=10, seed=1, format=VERT) != draw_items(REGROUP, n=10, seed=2, format=VERT)


def test_avoided_items_come_last() -> None:
    doubles = SKILLS[SkillId("add-doubles-to-20")]
    avoid = frozenset(f"add-doubles-to-20/strip/a={a}" for a in range(8))

    drawn = draw_items(doubles, n=11, seed=4, format=FormatId("horiz"), avoid=avoid)

    assert {item.numbers["a"] for item in drawn[:3]} == {8, 9, 10}
    assert {item.numbers["a"] for item in drawn} == set(range(11))


def test_a_skill_that_is_not_built_says_so() -> None:
    skill = replace(REGROUP, id=SkillId("juggling"))

    assert not is_built(skill.id)
    assert formats_built(skill.id) == ()
    with pytest.raises(NotBuilt, match="is not built yet, so nothing can be printed for it"):
        draw_items(skill, n=3, seed=1)


def test_a_skill_without_a_rule_says_so() -> None:
    with pytest.raises(NoRule, match="has no rule for its numbers"):
        domain_of(replace(REGROUP, item_rule=None))


def test_one_format_may_not_be_built_by_two_rules() -> None:
    def maker(_numbers: object) -> Made:
        return Made(Question("how-many-in-all"), (Part("1", "look", ""),), ())

    rule = SkillRule(SkillId("some-skill"), formats={VERT: maker})

    with pytest.raises(BuiltTwice, match="some-skill as vert is built by two rules"):
        joined([rule, rule])


@pytest.mark.parametrize(
    ("skill_id", "line", "key", "answer"),
    [
        ("sub-2digit-regroup", "62-38=36", "sub-2digit-regroup/vert/a=62,b=38", "36"),
        ("sub-2digit-regroup", " 62 − 38 = 036 ", "sub-2digit-regroup/vert/a=62,b=38", "36"),
        ("sub-2digit-regroup", "65-21=44", "sub-2digit-regroup/vert/a=65,b=21", "44"),  # JOB 1.7's sixth item
        ("missing-number-within-20", "8+□=13: 4", "missing-number-within-20/missing/a=8,b=5,k=0", "4"),
        ("missing-number-within-20", "? - 5 = 9 : 4", "missing-number-within-20/missing/a=9,b=5,k=3", "4"),
        ("compare-2digit", "39 > 42", "compare-2digit/cmp/a=39,b=42", ">"),
        ("even-equal-addends", "14=?+?: 8 6", "even-equal-addends/missing/a=7", "8 6"),
        ("choose-operation-sign", "8?4=12: +", "choose-operation-sign/sign/a=8,b=4,k=0", "+"),
        ("add-3-4-addends-1digit", "4+7+6=11", "add-3-4-addends-1digit/horiz/a=4,b=7,d=6,e=0", "11"),
    ],
)
def test_a_typed_problem_is_found_with_what_the_child_wrote(skill_id: str, line: str, key: str, answer: str) -> None:
    item, written = read_written(SKILLS[SkillId(skill_id)], line)

    assert (item.key, written) == (key, answer)


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("hello", "cannot be read; write it as 62-38=36"),
        ("62-38", "cannot be read"),
        ("62-38=", "cannot be read"),
        ("62-38=-4", "cannot be read"),
        ("62-38=__: ", "has no number after the colon"),
        ("62-38=□: x", "has no number after the colon"),
        ("99-31=68", "is not a problem of sub-2digit-regroup"),
        ("62-38=□: 3 6", "needs 1 answers after the colon"),
        ("62/38=1", "is not a problem of sub-2digit-regroup"),
        ("", "cannot be read"),
    ],
)
def test_a_line_that_is_no_problem_gets_one_clear_sentence(line: str, said: str) -> None:
    with pytest.raises(NotAnItem, match=said) as caught:
        read_written(REGROUP, line)

    assert "\n" not in str(caught.value)


def test_a_sum_that_only_a_format_of_the_skill_cannot_ask_is_refused_too() -> None:
    # Nothing to mend in 68 - 23: no ten is opened, so no way in the skill's list gives a wrong answer.
    with pytest.raises(NotAnItem, match="is not a problem of sub-check-by-adding"):
        read_written(SKILLS[SkillId("sub-check-by-adding")], "68-23=45")


def test_the_second_solver_imports_nothing_of_what_it_checks() -> None:
    allowed = ("dayleaf.core", "dayleaf.items.model", "dayleaf.items.second")
    for path in Path(str(second.__file__)).parent.glob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.ImportFrom) and node.module and node.module.startswith("dayleaf"):
                assert node.module.startswith(allowed), (path.name, node.module)


def test_an_item_nobody_can_check_is_named() -> None:
    item = Item(REGROUP.id, VERT, {"a": 1}, Question("of-no-kind"), (Part("1", "digits", "7", 1),), (), {})

    with pytest.raises(second.NoSecondSolver, match="cannot be checked a second time"):
        second.second_answer(item)
