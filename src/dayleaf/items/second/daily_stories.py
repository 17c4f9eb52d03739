"""Longer stories worked again: things laid down one by one, taken up one by one."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.items.model import Gap, Question, Row, Story

if TYPE_CHECKING:
    from dayleaf.items.model import Item

_MOVES = {
    # what happens to the first number, in the order in which it is told
    "gets-then-gives": ("get b", "give c"),
    "gives-then-gets": ("give b", "get c"),
    "gives-twice": ("give b", "give c"),
    "extra-gets": ("get b",),
    "extra-gives": ("give b",),
}


def long_story_answer(item: Item) -> str | None:
    """The answer of a story of two steps, with something extra, or with two unknown parts; None for others."""
    prompt = item.prompt
    if isinstance(prompt, Story):
        return _ways_to_split(prompt.values["total"]) if prompt.cell == "put-together-both" else None
    if isinstance(prompt, Row):
        return _partners(prompt) if item.format == "table" and "," in prompt.tokens else None
    if not isinstance(prompt, Question):
        return None
    if prompt.code in ("told-enough", "told-too-little"):
        return "yes" if {"a", "b"} <= prompt.values.keys() else "no"
    moves = _MOVES.get(prompt.code)
    if moves is None:
        return None
    things = ["thing"] * int(prompt.values["a"])
    for move in moves:
        what, name = move.split()
        for _ in range(int(prompt.values[name])):
            if what == "get":
                things.append("thing")
            else:
                things.pop()
    return str(len(things))


def _ways_to_split(whole: int) -> str:
    """How many ways there are to put so many things in two places, by trying all."""
    return str(sum(1 for a in range(whole + 1) for b in range(whole + 1) if a + b == whole))


def _partners(row: Row) -> str | None:
    """Each gap of `7 = 3 + □, 7 = …` by trying every part."""
    found: list[str] = []
    equation: list[int] = []
    for token in row.tokens:
        if isinstance(token, int):
            equation.append(token)
        elif isinstance(token, Gap):
            if len(equation) != 2:
                return None
            whole, part = equation
            found += [str(x) for x in range(whole + 1) if part + x == whole]
            equation = []
    return " ".join(found)
