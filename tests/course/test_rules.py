"""Item rules: read as written, counted as published, and never more than a rule may do."""

from __future__ import annotations

import ast
import operator
from itertools import pairwise, product
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dayleaf.course.load import grade2
from dayleaf.course.rules import RuleNotUnderstood, RuleTooWide, parse_rule

if TYPE_CHECKING:
    from collections.abc import Mapping

# Counts of "H. Exact counts", points 1 to 5, of the project's list of outside values (computed there by enumeration).
PUBLISHED = [
    ("a=0..9 b=0..9", 100),
    ("a=0..9 b=0..9 | a<=b", 55),
    ("a=0..9 b=0..9 | a+b<=10", 64),
    ("a=0..9 b=0..9 | a+b>=10", 45),
    ("a=0..9 b=0..9 | a+b>10", 36),
    ("a=0..20 b=0..20 | a+b<=20", 231),
    ("a=0..20 b=0..20 | b<=a", 231),
    ("n=1..100 d=1..10 | n%d==0", 291),
    ("a=10..99 b=1..9", 810),
    ("a=10..99 b=1..9 | a%10+b>=10", 405),
    ("a=10..99 b=1..9 | a+b<=100", 774),
    ("a=10..99 b=1..9 | a+b<=100 and a%10+b>=10", 369),
    ("a=10..99 b=1..9 | a%10<b", 405),
    ("a=10..99 b=10..99 | a%10+b%10>=10", 3645),
    ("a=10..99 b=10..99 | a+b<=100", 3321),
    ("a=10..99 b=10..99 | a+b<=100 and a%10+b%10>=10", 1332),
    ("a=10..99 b=10..99 | a>=b", 4095),
    ("a=10..99 b=10..99 | a>=b and a%10<b%10", 1620),
    ("a=10..99 b=10..99 | a>=b and not a%10<b%10", 2475),
    ("a=100..999 b=100..999 | a+b<=1000", 321_201),
    ("a=100..999 b=100..999 | a>=b and a//10%10==0 and a%10<b%10", 16_200),
    ("n=100..999 | n%10==0 or n//10%10==0", 171),
    ("n=100..999 | n//10%10==0", 90),
    ("r=1..5 c=1..5", 25),
    ("n=0..20 | n%2==0", 11),
]


@pytest.mark.parametrize(("text", "count"), PUBLISHED)
def test_a_rule_counts_what_was_counted_elsewhere(text: str, count: int) -> None:
    assert parse_rule(text).count() == count


def test_taking_a_digit_without_opening_a_ten_counts_what_is_left_of_the_published_810() -> None:
    skill = next(skill for skill in grade2().skills.values() if skill.id == "sub-2digit-1digit-no-regroup")

    assert skill.distinct_items == 810 - 405


def test_numbers_come_in_lexicographic_order() -> None:
    assert parse_rule("b=1..2 a=8..9 | a-b!=6").all() == ((1, 8), (1, 9), (2, 9))


def test_a_condition_may_look_at_digits_and_places() -> None:
    assert parse_rule("n=100..999 | len(set(str(n)))==3").count() == 9 * 9 * 8
    assert parse_rule("p=5..99 k=0..2 | p<(25,50,100)[k]").count() == 20 + 45 + 95
    assert parse_rule("a=1..10 | a in (2,5,10)").all() == ((2,), (5,), (10,))


def test_numbers_must_be_exactly_the_variables_and_inside_their_ranges() -> None:
    rule = parse_rule("a=21..98 b=12..89 | a%10<b%10 and a>b")

    assert rule.holds({"a": 62, "b": 38})
    assert not rule.holds({"a": 68, "b": 32})
    assert not rule.holds({"a": 99, "b": 12})
    assert not rule.holds({"a": 62})
    assert not rule.holds({"a": 62, "b": 38, "c": 1})


@pytest.mark.parametrize(
    ("text", "because"),
    [
        ("", "it names no variable"),
        ("a", "is not a range"),
        ("a=1..", "is not a range"),
        ("A=1..3", "is not a range"),
        ("a=3..1", "runs downward"),
        ("a=1..3 a=1..4", "is taken"),
        ("len=1..3", "is taken"),
        ("a=1..3 | a <", "is not an expression"),
        ("a=1..3 | b>1", '"b" is neither'),
        ("a=1..3 | open(a)", '"open" is neither'),
        ("a=1..3 | a.real>1", "is not allowed"),
        ("a=1..3 | (lambda: a)()", "is not one of the calls"),
        ("a=1..3 | [a for a in (1,2)]", "is not allowed"),
        ("a=1..3 | a**9>1", "is not allowed"),
        ("a=1..3 | a/2>1", "is not allowed"),
        ("a=1..3 | a==1.5", "is not a whole number"),
        ("a=1..3 | a=='1'", "is not a whole number"),
        ("a=1..3 | a==True", "is not a whole number"),
        ("a=1..3 | str(a)*9>1", "may stand only inside"),
        ("a=1..3 | max(a, key=a)", "is not one of the calls"),
        ("a=1..3 | __import__", "is neither"),
        ("a=1..3 | abs", "is neither"),
    ],
)
def test_a_text_that_is_no_rule_says_why(text: str, because: str) -> None:
    with pytest.raises(RuleNotUnderstood, match=r"The item rule") as caught:
        parse_rule(text)

    assert because in str(caught.value)


def test_a_condition_that_cannot_be_worked_out_says_so() -> None:
    rule = parse_rule("a=1..3 b=0..2 | a%b==0")

    with pytest.raises(RuleNotUnderstood, match="for some numbers"):
        rule.count()
    with pytest.raises(RuleNotUnderstood, match="'b': 0"):
        rule.holds({"a": 1, "b": 0})


def test_a_rule_too_wide_to_go_through_is_refused_but_still_answers() -> None:
    rule = parse_rule("a=0..9999 b=0..9999 | a!=b")

    with pytest.raises(RuleTooWide, match="100,000,000"):
        rule.count()
    with pytest.raises(RuleTooWide):
        rule.all()
    assert rule.holds({"a": 1, "b": 2})
    assert next(rule.each()) == (0, 1)
    assert parse_rule("a=0..9999 b=0..9999").count() == 100_000_000


_BINARY: dict[type[ast.operator], Any] = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.FloorDiv: operator.floordiv,
    ast.Mod: operator.mod,
}
_ORDER: dict[type[ast.cmpop], Any] = {
    ast.Eq: operator.eq,
    ast.NotEq: operator.ne,
    ast.Lt: operator.lt,
    ast.LtE: operator.le,
    ast.Gt: operator.gt,
    ast.GtE: operator.ge,
    ast.In: lambda one, many: one in many,
}
_CALLS: dict[str, Any] = {"abs": abs, "min": min, "max": max, "len": len, "set": set, "str": str, "int": int}


def walk(node: ast.expr, numbers: Mapping[str, int]) -> Any:  # noqa: PLR0911 - one line a kind of node
    """Work a condition out by walking its tree, with no compiling: the tests' own reading of a rule."""
    match node:
        case ast.Constant(value=value):
            return value
        case ast.Name(id=name):
            return numbers[name]
        case ast.BoolOp(op=op, values=values):
            return (all if isinstance(op, ast.And) else any)(walk(value, numbers) for value in values)
        case ast.UnaryOp(op=op, operand=operand):
            inner = walk(operand, numbers)
            return not inner if isinstance(op, ast.Not) else -inner
        case ast.BinOp(left=left, op=op, right=right):
            return _BINARY[type(op)](walk(left, numbers), walk(right, numbers))
        case ast.Compare(left=left, ops=ops, comparators=comparators):
            sides = [walk(each, numbers) for each in (left, *comparators)]
            return all(_ORDER[type(op)](*pair) for op, pair in zip(ops, pairwise(sides), strict=True))
        case ast.Tuple(elts=elements):
            return tuple(walk(each, numbers) for each in elements)
        case ast.Subscript(value=value, slice=place):
            return walk(value, numbers)[walk(place, numbers)]
        case ast.Call(func=ast.Name(id=name), args=args):
            return _CALLS[name](*(walk(each, numbers) for each in args))
        case _:
            raise AssertionError(ast.dump(node))


def count_by_walking(text: str) -> int:
    ranges, _, condition = text.partition("|")
    names, spans = [], []
    for part in ranges.split():
        name, span = part.split("=")
        lo, hi = map(int, span.split(".."))
        names.append(name)
        spans.append(range(lo, hi + 1))
    tree = ast.parse(condition.strip() or "1", mode="eval").body
    return sum(1 for values in product(*spans) if walk(tree, dict(zip(names, values, strict=True))))


RULES = sorted({skill.item_rule for skill in grade2().skills.values() if skill.item_rule is not None})
SMALLER_RULES = [rule for rule in RULES if parse_rule(rule).combinations <= 4_000]


@pytest.mark.parametrize("text", SMALLER_RULES)
def test_each_smaller_rule_of_the_course_counts_the_same_when_walked_by_hand(text: str) -> None:
    assert parse_rule(text).count() == count_by_walking(text)


@st.composite
def conditions(draw: st.DrawFn, *, depth: int = 2) -> str:
    """Random conditions over a and b in the rule's own grammar."""
    if depth == 0:
        left, right = draw(numbers()), draw(numbers())
        return f"{left}{draw(st.sampled_from(['==', '!=', '<', '<=', '>', '>=']))}{right}"
    kind = draw(st.sampled_from(["leaf", "and", "or", "not"]))
    if kind == "leaf":
        return draw(conditions(depth=0))
    if kind == "not":
        return f"not ({draw(conditions(depth=depth - 1))})"
    return f"({draw(conditions(depth=depth - 1))}) {kind} ({draw(conditions(depth=depth - 1))})"


def numbers() -> st.SearchStrategy[str]:
    return st.sampled_from(["a", "b", "a%10", "b//10", "a+b", "a-b", "2*a", "abs(a-b)", "max(a,b)", "7", "20", "-a"])


@settings(max_examples=60)
@given(conditions(), st.integers(0, 30), st.integers(0, 12), st.integers(0, 30), st.integers(0, 12))
def test_any_condition_lists_exactly_the_numbers_on_which_it_holds(
    condition: str, lo_a: int, wide_a: int, lo_b: int, wide_b: int
) -> None:
    text = f"a={lo_a}..{lo_a + wide_a} b={lo_b}..{lo_b + wide_b} | {condition}"
    rule = parse_rule(text)

    listed = rule.all()

    tree = ast.parse(condition, mode="eval").body
    wanted = [
        (a, b)
        for a, b in product(range(lo_a, lo_a + wide_a + 1), range(lo_b, lo_b + wide_b + 1))
        if walk(tree, {"a": a, "b": b})
    ]
    assert list(listed) == wanted
    assert rule.count() == len(wanted)
    assert all(rule.holds({"a": a, "b": b}) for a, b in listed)


@given(st.text(max_size=40))
def test_no_text_does_anything_but_become_a_rule_or_be_refused(text: str) -> None:
    try:
        rule = parse_rule(text)
    except RuleNotUnderstood:
        return
    assert rule.variables
