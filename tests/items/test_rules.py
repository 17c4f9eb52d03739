"""Every number skill over its whole rule: right answers, right boxes, known codes."""

from __future__ import annotations

import ast
from functools import cache
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dayleaf.core.ids import FormatId, SkillId
from dayleaf.course.load import grade2
from dayleaf.figures.values import values_of
from dayleaf.items.built import formats_built, is_built, rule_of
from dayleaf.items.codes import OPTIONS, QUESTIONS, STEPS, WORDS
from dayleaf.items.domain import domain_of
from dayleaf.items.face import face
from dayleaf.items.make import make
from dayleaf.items.model import Column, Gap, Question, Row, Word
from dayleaf.items.numbers import RULES
from dayleaf.items.second import second_answer

if TYPE_CHECKING:
    from collections.abc import Callable

    from dayleaf.items.model import Item

SKILLS = grade2().skills
BUILT = [rule.skill for rule in RULES]
ACTED_OUT = {"build", "oral", "explain", "group-ring", "graph-make"}
LATER = {"match"}


TWO_WIDTHS = {
    ("regroup-ten-for-ones", "missing"),  # 3 tens 4 ones = 2 tens [ ] ones: the tens or the ones are asked
    ("numerals-to-120", "words"),  # numbers from a hundred on get a box more
    ("number-words-to-100", "words"),
}


@cache
def places(skill_id: SkillId, format_id: FormatId) -> tuple[int, ...]:
    """Places of the domain that the format can use, about a hundred spread evenly; `dev.py prove` takes them all."""
    domain = domain_of(SKILLS[skill_id])
    fits = rule_of(skill_id).fits.get(format_id)
    step = max(1, len(domain) // 120) | 1
    return tuple(place for place in range(0, len(domain), step) if fits is None or fits(domain.numbers(place)))


@cache
def items_as(skill_id: SkillId, format_id: FormatId) -> tuple[Item, ...]:
    skill = SKILLS[skill_id]
    domain = domain_of(skill)
    return tuple(make(skill, format_id, domain.numbers(place)) for place in places(skill_id, format_id))


def items(skill_id: SkillId) -> tuple[Item, ...]:
    return tuple(
        item for rule in RULES if rule.skill == skill_id for one in rule.formats for item in items_as(skill_id, one)
    )


@pytest.mark.parametrize("skill_id", BUILT)
def test_the_second_solver_agrees_over_the_whole_rule(skill_id: SkillId) -> None:
    assert items(skill_id)
    differing = [item.key for item in items(skill_id) if second_answer(item) != item.answer]

    assert differing == []


@pytest.mark.parametrize("skill_id", BUILT)
def test_the_boxes_hold_every_answer_right_or_wrong(skill_id: SkillId) -> None:
    for item in items(skill_id):
        asked = [part for part in item.parts if part.kind != "look"]
        rows = [item.answer.split(" "), *(wrong.split(" ") for wrong in item.errors.values())]
        for row in rows if all(part.kind != "many" for part in asked) else []:
            for part, answer in zip(asked, row, strict=bool(asked)):
                if part.kind == "digits":
                    assert answer.isdigit(), (item.key, answer)
                    assert len(answer) <= part.width, (item.key, answer)
                    assert answer == str(int(answer)), (item.key, answer)
                elif part.kind == "choice":
                    assert answer in {option.code for option in part.options}, (item.key, answer)
                else:
                    assert answer in {"<", ">", "="}, (item.key, answer)


@pytest.mark.parametrize("skill_id", BUILT)
def test_one_format_of_a_skill_always_has_boxes_of_one_width(skill_id: SkillId) -> None:
    for format_id in (one for rule in RULES if rule.skill == skill_id for one in rule.formats):
        widths = {tuple(part.width for part in item.parts) for item in items_as(skill_id, format_id)}
        assert len(widths) == (2 if (skill_id, format_id) in TWO_WIDTHS else 1)


@pytest.mark.parametrize("skill_id", BUILT)
def test_every_wrong_option_is_some_ways_answer(skill_id: SkillId) -> None:
    for item in items(skill_id):
        for part in item.parts:
            codes = [option.code for option in part.options]
            assert len(codes) == len(set(codes)), item.key
            assert part.kind == "many" or not codes or part.answer in codes
            if part.kind == "choice" and not {"true", "even", "A", "+"} & set(codes):
                wrong = {option.code for option in part.options} - {part.answer}
                assert wrong <= set(item.errors.values()), item.key


@pytest.mark.parametrize("skill_id", BUILT)
def test_items_carry_known_codes_with_exactly_their_values(skill_id: SkillId) -> None:
    for item in items(skill_id):
        assert item.steps, item.key
        for step in item.steps:
            assert tuple(step.values) == STEPS[step.code]
        if isinstance(item.prompt, Question):
            assert tuple(item.prompt.values) == QUESTIONS[item.prompt.code]
        if isinstance(item.prompt, Row):
            assert {token.code for token in item.prompt.tokens if isinstance(token, Word)} <= WORDS
            gaps = [token.part for token in item.prompt.tokens if isinstance(token, Gap)]
            assert gaps == [part.id for part in item.parts] or not gaps
        for option in (option for part in item.parts for option in part.options):
            plain = all(sign.isdigit() or sign in "+-ABCD" for sign in option.code)
            assert plain or option.code in OPTIONS
        if item.figure is not None:
            values_of(item.figure)  # raises where a parameter is missing, unknown or of another type
        assert 0 <= item.difficulty <= 1


@pytest.mark.parametrize("skill_id", BUILT)
def test_the_numbers_of_an_item_are_the_rules_variables_inside_the_rule(skill_id: SkillId) -> None:
    domain = domain_of(SKILLS[skill_id])

    assert all(domain.holds(item.numbers) for item in items(skill_id)[::7])


@pytest.mark.parametrize("skill_id", BUILT)
def test_every_printed_format_of_the_file_is_built(skill_id: SkillId) -> None:
    wanted = [one for one in SKILLS[skill_id].formats if one not in ACTED_OUT | LATER]

    assert set(wanted) <= set(formats_built(skill_id))
    assert set(formats_built(skill_id)) <= set(SKILLS[skill_id].formats)
    assert is_built(skill_id)


SUMS = [
    (rule.skill, format_id)
    for rule in RULES
    for format_id in rule.formats
    if format_id in {"horiz", "vert", "strip"} and isinstance(items_as(rule.skill, format_id)[0].prompt, (Row, Column))
]


def evaluated(expression: str) -> int:
    """A sum of whole numbers by the language's own parser, no code of ours."""
    total = ast.parse(expression, mode="eval")
    return int(eval(compile(total, "sum", "eval"), {"__builtins__": {}}))  # noqa: S307 -- digits and signs only


@given(st.data())
@settings(max_examples=300, deadline=None)
def test_a_plain_sum_is_what_the_languages_own_arithmetic_gives(data: st.DataObject) -> None:
    skill_id, format_id = data.draw(st.sampled_from(SUMS))
    item = data.draw(st.sampled_from(items_as(skill_id, format_id)))
    if isinstance(item.prompt, Column):
        text = item.prompt.sign.join(str(row) for row in item.prompt.rows) + "=_"
    else:
        assert isinstance(item.prompt, Row)
        text = "".join("_" if isinstance(token, Gap) else str(token) for token in item.prompt.tokens)
    if text.count("_") > 1:
        return

    text = text.replace("×", "*").replace("÷", "//")
    left, right = text.replace("_", item.answer).split("=")

    assert evaluated(left) == evaluated(right)


# CHECKS H: exact counts of facts and of two-digit sums.
def count(skill_id: str) -> int:
    return len(domain_of(SKILLS[SkillId(skill_id)]))


def test_the_rules_hold_as_many_items_as_counted_elsewhere() -> None:
    assert count("add-facts-within-20-mixed") == 55  # H.1: sums of two digits, unordered
    assert count("sub-facts-within-20-mixed") == 100  # H.1: inverse subtraction facts
    assert count("sub-through-ten") == 36  # H.1: as many as sums of two digits above ten
    assert count("missing-number-within-20") == 4 * 231  # H.1: pairs with a + b <= 20, four places of the gap
    assert count("add-facts-within-10") == 66
    assert count("compare-2digit") == 90 * 90


def test_two_digit_pairs_that_open_a_ten_are_as_many_as_counted_elsewhere() -> None:
    # H.3: 4,095 pairs a >= b, of them 1,620 open a ten; the rule begins with bottoms of 12.
    opening = [(a, b) for a in range(10, 100) for b in range(10, a + 1) if a % 10 < b % 10]
    domain = domain_of(SKILLS[SkillId("sub-2digit-regroup")])

    assert len(opening) == 1620
    assert set(domain.rows) <= set(opening)
    assert all(a < 21 or b < 12 for a, b in set(opening) - set(domain.rows))


@pytest.mark.parametrize("skill_id", BUILT)
def test_items_of_one_format_never_look_alike(skill_id: SkillId) -> None:
    for format_id in (one for rule in RULES if rule.skill == skill_id for one in rule.formats):
        found = items_as(skill_id, format_id)
        assert len({face(item) for item in found}) == len(found), format_id


@pytest.mark.parametrize("skill_id", [skill_id for skill_id in BUILT if "nl-jump" in formats_built(skill_id)])
def test_hops_on_a_line_go_one_way_and_end_at_the_answer(skill_id: SkillId) -> None:
    for item in items_as(skill_id, FormatId("nl-jump")):
        assert item.figure is not None
        stops = item.figure.params["jumps"]
        assert isinstance(stops, tuple)
        landings = [int(stop) for stop in stops]
        assert landings in (sorted(landings), sorted(landings, reverse=True))
        assert len(set(landings)) == len(landings) >= 2
        if isinstance(item.prompt, Row) and "÷" in item.prompt.tokens:  # the number of equal hops down to zero
            assert landings[-1] == 0
            assert str(len(landings) - 1) == item.answer
        elif item.figure.params["blank_end"]:
            assert str(landings[-1]) == item.answer
        else:  # counting up: the distance is wanted, both ends are known
            assert str(landings[-1] - landings[0]) == item.answer


def test_every_key_comes_to_the_answer() -> None:
    for skill_id, format_id in SUMS:
        for item in items_as(skill_id, format_id):
            numbers = {str(value) for value in item.steps[-1].values.values()}
            ten_is_said = item.steps[-1].code == "partner-of-ten" and item.answer == "10"
            assert item.answer in numbers or ten_is_said, (item.key, item.steps[-1])


TRUE_IF: dict[tuple[str, ...], Callable[..., bool]] = {
    ("from", "take", "left"): lambda start, take, left: start - take == left,
    ("left", "taken", "start"): lambda left, taken, start: left + taken == start,
    ("tens", "number"): lambda tens, number: 10 * tens == number,
    ("digit", "value"): lambda digit, value: 10 * digit == value,
    ("number", "tens", "ones"): lambda number, tens, ones: tens + ones == number,
    ("tens", "ones", "number"): lambda tens, ones, number: 10 * tens + ones == number,
    ("tens", "tens_left", "ones"): lambda tens, left, ones: left == tens - 1 and 10 <= ones <= 19,
    ("from", "by", "to"): lambda start, by, to: abs(to - start) == abs(by),
    ("hundreds", "hundreds_left", "tens"): lambda hundreds, left, tens: left == hundreds - 1 and 10 <= tens <= 19,
    ("thousands", "thousands_left", "hundreds"): lambda thousands, left, more: left == thousands - 1 and more >= 10,
    ("start", "by", "sum"): lambda start, by, total: start + by == total,
    ("start", "by", "left"): lambda start, by, left: start - by == left,
    ("from", "add", "sum"): lambda start, add, total: start + add == total,
    ("ones", "sum"): lambda ones, total: 10 + ones == total,
    ("ones", "left"): lambda ones, left: ones - 10 == left,
    ("a", "b", "whole"): lambda a, b, whole: a + b == whole,
    ("part", "other", "whole"): lambda a, b, whole: a + b == whole,
    ("part", "missing", "sum"): lambda a, b, whole: a + b == whole,
    ("double", "more", "sum"): lambda double, more, total: double + more == total,
    ("from", "moved", "left"): lambda start, moved, left: start + moved == 10 and left >= 0,
    ("whole", "half"): lambda whole, half: whole == 2 * half,
    ("first", "second", "third"): lambda first, second, third: first < second < third,
    ("by", "times", "total"): lambda by, times, total: by * times == total,
    ("a", "b", "product"): lambda a, b, product: a * b == product,
    ("rows", "columns", "total"): lambda rows, columns, total: rows * columns == total,
    ("factor", "tens", "product"): lambda factor, tens, product: factor * tens == product,
    ("factor", "other", "product"): lambda factor, other, product: factor * other == product,
    ("total", "by", "quotient"): lambda total, by, quotient: by * quotient == total,
    ("total", "by", "jumps"): lambda total, by, jumps: by * jumps == total,
    ("total", "groups", "each"): lambda total, groups, each: groups * each == total,
    ("total", "size", "groups"): lambda total, size, groups: groups * size == total,
    ("total", "used", "left"): lambda total, used, left: used + left == total,
    ("below", "above"): lambda below, above: above - below == 10,
}
"""What a step claims, by the names of its values; sums of the new ten are told apart by their code."""


@pytest.mark.parametrize("skill_id", BUILT)
def test_every_step_of_a_key_is_true(skill_id: SkillId) -> None:
    for item in items(skill_id):
        for step in item.steps:
            values = tuple(step.values.values())
            names = tuple(step.values)
            if names == ("a", "b", "sum"):
                if step.code == "about-difference":
                    assert int(values[0]) - int(values[1]) == int(values[2]), (item.key, step)
                    continue
                extra = 1 if step.code.endswith("-and-new") else 0
                assert int(values[0]) + int(values[1]) + extra == int(values[2]), (item.key, step)
            elif names in TRUE_IF:
                assert TRUE_IF[names](*values), (item.key, step)
