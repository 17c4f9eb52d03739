"""Stories of weights, bills and equal groups worked again: amounts laid down, poured and dealt out one by one."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.items.model import Question, Row
from dayleaf.items.second.pictured_params import number, numbers

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from dayleaf.items.model import Item

_CENTS: Mapping[str, int] = {"penny": 1, "nickel": 5, "dime": 10, "quarter": 25}


def amount_answer(item: Item) -> str | None:
    """The answer of a story of amounts, or of a picture of bills or cubes; None for others."""
    prompt = item.prompt
    if isinstance(prompt, Row):
        return _row(item)
    if not isinstance(prompt, Question):
        return None
    if prompt.code in _LOOKED_AT:
        return ""
    solve = _STORIES.get(prompt.code)
    if solve is not None:
        steps = solve({name: value for name, value in prompt.values.items() if isinstance(value, int)}, item)
        if steps is None:
            return None
        return " ".join(str(n) for n in steps[-len([part for part in item.parts if part.kind == "digits"]) :])
    answer = _RUNG.get(prompt.code)
    return answer(item, prompt) if answer else None


_LOOKED_AT = frozenset(
    {
        "lay-cubes", "ask-people", "plan-survey", "why-new-ten", "why-tens-first", "why-friendly-ten", "why-open-ten",
        "why-count-up", "why-still-same",
    }
)  # fmt: skip


def _row(item: Item) -> str | None:
    kind = item.figure.kind if item.figure else ""
    if kind == "bills":
        return f"{sum(numbers(item, 'bills'))} {sum(numbers(item, 'coins'))}"
    if kind == "objects-line" and numbers(item, "units"):
        return str(len(numbers(item, "units")))
    return None


# stories: every number found on the way, the last ones asked


def _heap(*sizes: int) -> int:
    """Things of all heaps counted."""
    return sum(1 for size in sizes for _ in range(size))


def _dealt(total: int, groups: int) -> int | None:
    """Dealt round after round; None where something is left."""
    each = 0
    while total >= groups:
        total -= groups
        each += 1
    return None if total else each


def _shared(told: Mapping[str, int], _: Item) -> tuple[int, ...] | None:
    each = _dealt(told["total"], told["groups"])
    return None if each is None else (each,)


def _shared_more(told: Mapping[str, int], _: Item) -> tuple[int, ...] | None:
    each = _dealt(told["total"], told["a"])
    return None if each is None else (each, _heap(each, told["c"]))


def _less_shared(told: Mapping[str, int], _: Item) -> tuple[int, ...] | None:
    left = len(range(told["c"], told["total"]))
    each = _dealt(left, told["a"])
    return None if each is None else (left, each)


def _groups(told: Mapping[str, int]) -> int:
    return _heap(*([told["b"]] * told["a"]))


def _level(item: Item) -> int:
    """Climb the scale mark by mark."""
    at, wanted = 0, number(item, "level") or number(item, "arrow")
    while at < wanted:
        at += number(item, "step")
    return at


_STORIES: Mapping[str, Callable[[Mapping[str, int], Item], tuple[int, ...] | None]] = {
    "mass-both": lambda told, _: (_heap(told["a"], told["b"]),),
    "mass-left": lambda told, _: (len(range(told["b"], told["a"])),),
    "mass-groups": lambda told, _: (_heap(*([told["size"]] * told["groups"])),),
    "mass-shared": _shared,
    "scale-then-more": lambda told, item: (_heap(_level(item), told["b"]),),
    "scale-then-less": lambda told, item: (len(range(told["b"], _level(item))),),
    "has-then-groups": lambda told, _: (_groups(told), _heap(told["c"], _groups(told))),
    "wants-from-groups": lambda told, _: (_groups(told), len(range(told["c"], _groups(told)))),
    "finds-then-shared": _shared_more,
    "gives-then-shared": _less_shared,
}


# rung


def _purse(item: Item, question: Question) -> str | None:
    told = question.values
    dollars = int(told["a"]) * int(told["first"]) + int(told.get("b", 0)) * int(told.get("second", 0))
    cents = int(told["n"]) * _CENTS[str(told["noun"])]
    said = f"${dollars}+{cents}¢"
    return said if said in {option.code for option in item.parts[0].options} else None


def _laid_well(item: Item, _: Question) -> str | None:
    """The line whose units are of one size, touch, and reach from end to end of the strip."""
    found = []
    for option in item.parts[0].options:
        params = option.figure.params if option.figure else {}
        units, lengths = params.get("units", ()), params.get("lengths", ())
        if isinstance(units, tuple) and isinstance(lengths, tuple):
            sizes = [int(unit) for unit in units]
            if not params.get("gap") and len(set(sizes)) == 1 and sum(sizes) == int(lengths[0]):
                found.append(f"{option.code} {len(sizes)}")
    return found[0] if len(found) == 1 else None


_RUNG: Mapping[str, Callable[[Item, Question], str | None]] = {
    "bills-one-kind": _purse,
    "bills-two-kinds": _purse,
    "laid-well": _laid_well,
    # by hand: the only one of the three that says why
    "what-is-small-one": lambda _item, _question: "made-from-ten-ones",
    "why-ten-opened": lambda _item, _question: "ten-only-opened",
}
