"""Item rules such as `a=21..98 b=12..89 | a%10<b%10 and a>b`: which numbers a skill may use.

A rule is a list of whole-number variables with inclusive ranges, then, after a bar, a condition on them. The
condition is a small part of Python's expressions: whole numbers, the variables, arithmetic with + - * // %,
comparisons, `and`, `or`, `not`, `in`, tuples and their places, and the calls abs, min, max, len, set, str, int.
"""

from __future__ import annotations

import ast
import re
from contextlib import contextmanager
from dataclasses import dataclass, field
from functools import lru_cache
from math import prod
from typing import TYPE_CHECKING, Any

from dayleaf.core.errors import DayleafError

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Mapping

MOST_COMBINATIONS = 5_000_000
"""A rule whose ranges give more combinations than this is neither listed nor, if it has a condition, counted."""

_RANGE = re.compile(r"([a-z]\w*)=(-?\d+)\.\.(-?\d+)")
_CALLS = {"abs": abs, "min": min, "max": max, "len": len, "set": set, "str": str, "int": int}
_ALLOWED = (
    ast.Expression, ast.BoolOp, ast.And, ast.Or, ast.UnaryOp, ast.Not, ast.USub, ast.BinOp, ast.Add, ast.Sub,
    ast.Mult, ast.FloorDiv, ast.Mod, ast.Compare, ast.Eq, ast.NotEq, ast.Lt, ast.LtE, ast.Gt, ast.GtE, ast.In,
    ast.NotIn, ast.Call, ast.Name, ast.Load, ast.Constant, ast.Tuple, ast.Subscript,
)  # fmt: skip


class RuleNotUnderstood(DayleafError):
    """The text of an item rule cannot be read, or its condition cannot be worked out."""

    def __init__(self, *, rule: str, because: str) -> None:
        self.rule = rule
        self.because = because
        super().__init__(f'The item rule "{rule}" is not understood: {because}.')


class RuleTooWide(DayleafError):
    """An item rule allows more sets of numbers than can be listed or counted one by one."""

    def __init__(self, *, rule: str, combinations: int) -> None:
        self.rule = rule
        self.combinations = combinations
        super().__init__(
            f'The ranges of the item rule "{rule}" give {combinations:,} combinations; '
            f"at most {MOST_COMBINATIONS:,} can be gone through one by one."
        )


@dataclass(frozen=True, slots=True)
class Variable:
    """A variable of a rule; both ends of its range belong to it."""

    name: str
    lo: int
    hi: int


@dataclass(frozen=True, slots=True)
class Rule:
    """A rule, ready to be asked. Two rules of the same text are equal."""

    text: str
    variables: tuple[Variable, ...] = field(compare=False)
    condition: str = field(compare=False)
    _walk: Callable[[], Iterator[tuple[int, ...]]] = field(compare=False, repr=False)
    _tried: Callable[[Iterable[int]], Iterator[tuple[int, ...]]] = field(compare=False, repr=False)
    _count: Callable[[], int] = field(compare=False, repr=False)
    _holds: Callable[..., bool] = field(compare=False, repr=False)

    @property
    def names(self) -> tuple[str, ...]:
        """The names of the variables in the order of the rule."""
        return tuple(variable.name for variable in self.variables)

    @property
    def combinations(self) -> int:
        """How many sets of numbers the ranges alone give."""
        return prod(variable.hi - variable.lo + 1 for variable in self.variables)

    def each(self) -> Iterator[tuple[int, ...]]:
        """Yield every set of numbers the rule allows, in lexicographic order, without keeping them.

        Raises:
            RuleNotUnderstood: the condition divides by zero or mixes kinds for some numbers.
        """
        with self._worked_out():
            yield from self._walk()

    def all(self) -> tuple[tuple[int, ...], ...]:
        """Return every set of numbers the rule allows, in lexicographic order; kept for the next call.

        Raises:
            RuleNotUnderstood: see `each`.
            RuleTooWide: there are too many to list.
        """
        self._refuse_if_too_wide()
        return _all_of(self)

    def tried(self, places: Iterable[int]) -> Iterator[tuple[int, ...]]:
        """Yield the sets of numbers at these places of the ranges, in their order, less those that the rule refuses.

        Places count from 0 to `combinations` - 1 through all sets that the ranges give, in lexicographic order.

        Raises:
            RuleNotUnderstood: see `each`.
        """
        with self._worked_out():
            yield from self._tried(places)

    def count(self) -> int:
        """Return how many sets of numbers the rule allows.

        Raises:
            RuleNotUnderstood: see `each`.
            RuleTooWide: there is a condition, and too many numbers to try it on.
        """
        if not self.condition:
            return self.combinations
        self._refuse_if_too_wide()
        with self._worked_out():
            return self._count()

    @contextmanager
    def _worked_out(self) -> Iterator[None]:
        try:
            yield
        except (ArithmeticError, TypeError, IndexError) as error:
            raise RuleNotUnderstood(rule=self.text, because=f"for some numbers {error}") from error

    def _refuse_if_too_wide(self) -> None:
        if self.combinations > MOST_COMBINATIONS:
            raise RuleTooWide(rule=self.text, combinations=self.combinations)

    def holds(self, numbers: Mapping[str, int]) -> bool:
        """Say whether the numbers are exactly the rule's variables, inside their ranges, and fit the condition."""
        if numbers.keys() != set(self.names):
            return False
        if any(not variable.lo <= numbers[variable.name] <= variable.hi for variable in self.variables):
            return False
        try:
            return bool(self._holds(*(numbers[name] for name in self.names)))
        except (ArithmeticError, TypeError, IndexError) as error:
            raise RuleNotUnderstood(rule=self.text, because=f"for {dict(numbers)} {error}") from error


@lru_cache(maxsize=64)
def _all_of(rule: Rule) -> tuple[tuple[int, ...], ...]:
    return tuple(rule.each())


@lru_cache(maxsize=1024)
def parse_rule(text: str) -> Rule:
    """Read the text of a rule.

    >>> rule = parse_rule("a=11..13 b=8..9 | a-b<5")
    >>> rule.all()
    ((11, 8), (11, 9), (12, 8), (12, 9), (13, 9))
    >>> rule.count(), rule.holds({"a": 13, "b": 8})
    (5, False)

    Raises:
        RuleNotUnderstood: a range or the condition is not written as it must be.
    """
    ranges, _, condition = text.partition("|")
    variables = _variables(text, ranges)
    condition = condition.strip()
    tree = _condition(text, condition, {variable.name for variable in variables})
    loops = _loops(variables, tree)
    names = ", ".join(variable.name for variable in variables)
    return Rule(
        text=text,
        variables=variables,
        condition=condition,
        _walk=_compiled(f"lambda: (({names},){loops})"),
        _tried=_compiled(f"lambda _places: (({names},) for _place in _places{_unranked(variables, tree)})"),
        _count=_compiled(f"lambda: sum([1{loops}])"),
        _holds=_compiled(f"lambda {names}: {ast.unparse(tree) if tree is not None else True}"),
    )


def _variables(text: str, ranges: str) -> tuple[Variable, ...]:
    variables: list[Variable] = []
    for part in ranges.split():
        match = _RANGE.fullmatch(part)
        if match is None:
            raise RuleNotUnderstood(rule=text, because=f'"{part}" is not a range; write it as a=1..9')
        variable = Variable(match[1], int(match[2]), int(match[3]))
        if variable.lo > variable.hi:
            raise RuleNotUnderstood(rule=text, because=f'the range "{part}" runs downward; write the lower end first')
        if variable.name in _CALLS or any(variable.name == other.name for other in variables):
            raise RuleNotUnderstood(rule=text, because=f'the name "{variable.name}" is taken; choose another')
        variables.append(variable)
    if not variables:
        raise RuleNotUnderstood(rule=text, because="it names no variable; begin with a range such as a=1..9")
    return tuple(variables)


def _condition(text: str, condition: str, names: set[str]) -> ast.expr | None:
    if not condition:
        return None
    try:
        tree = ast.parse(condition, mode="eval")
    except (SyntaxError, ValueError, RecursionError) as error:
        raise RuleNotUnderstood(rule=text, because=f'the condition "{condition}" is not an expression') from error
    parents = {child: parent for parent in ast.walk(tree) for child in ast.iter_child_nodes(parent)}
    for node in ast.walk(tree):
        if (because := _objection(node, parents.get(node), names)) is not None:
            raise RuleNotUnderstood(rule=text, because=because)
    return tree.body


def _objection(node: ast.AST, parent: ast.AST | None, names: set[str]) -> str | None:
    match node:
        case ast.Constant(value=value) if type(value) is not int:
            return f"{value!r} is not a whole number"
        case ast.Name(id=name):
            is_call = isinstance(parent, ast.Call) and parent.func is node
            if not (name in _CALLS if is_call else name in names):
                return f'"{name}" is neither a variable of the rule nor one of {", ".join(_CALLS)}'
        case ast.Call(func=func, keywords=keywords):
            if not isinstance(func, ast.Name) or keywords:
                return f'"{ast.unparse(node)}" is not one of the calls allowed'
            if func.id == "str" and not (
                # Only to look at digits: text arithmetic could fill the memory.
                isinstance(parent, ast.Call) and isinstance(parent.func, ast.Name) and parent.func.id in {"set", "len"}
            ):
                return "str(…) may stand only inside set(…) or len(…)"
        case _ if not isinstance(node, _ALLOWED):
            return f'"{ast.unparse(node)}" is not allowed in a condition'
    return None


def _loops(variables: tuple[Variable, ...], tree: ast.expr | None) -> str:
    """Return nested loops over the ranges, each part of the condition tested as soon as its variables are known."""
    names = [variable.name for variable in variables]
    tests: list[list[ast.expr]] = [[] for _ in variables]
    for part in _conjuncts(tree):
        used = {node.id for node in ast.walk(part) if isinstance(node, ast.Name)}
        tests[max((names.index(name) for name in used if name in names), default=0)].append(part)
    return "".join(
        f" for {variable.name} in range({variable.lo}, {variable.hi + 1})"
        + "".join(f" if ({ast.unparse(test)})" for test in tests[depth])
        for depth, variable in enumerate(variables)
    )


def _unranked(variables: tuple[Variable, ...], tree: ast.expr | None) -> str:
    """Return the values at a place of the ranges as variables, then the condition."""
    said, worth = "", 1
    for variable in reversed(variables):
        span = variable.hi - variable.lo + 1
        said = f" for {variable.name} in (_place // {worth} % {span} + {variable.lo},){said}"
        worth *= span
    return said if tree is None else f"{said} if ({ast.unparse(tree)})"


def _conjuncts(tree: ast.expr | None) -> list[ast.expr]:
    match tree:
        case None:
            return []
        case ast.BoolOp(op=ast.And(), values=values):
            return [part for value in values for part in _conjuncts(value)]
        case _:
            return [tree]


def _compiled(source: str) -> Callable[..., Any]:
    # The source is rebuilt from a tree whose every node was allowed by name, with no other name in reach.
    names = {"__builtins__": {"range": range, "sum": sum}, **_CALLS}
    made: Callable[..., Any] = eval(compile(source, "<item rule>", "eval"), names)  # noqa: S307 - see above
    return made
