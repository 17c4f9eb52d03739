"""When two items look the same to the child, whatever they are called."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from dayleaf.items.model import Column, Figure, Gap, Match, Row, Sort, Story, Word

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from dayleaf.core.ids import SkillId
    from dayleaf.items.model import Item, Token


def face(item: Item) -> str:
    """What is asked, without language and layout: `62-38=_` for the row and for the columns.

    Items that are not sums are told apart by everything they show: a row without a numeral asks about its picture.
    """
    prompt = item.prompt
    if isinstance(prompt, Row):
        row = sum_face(prompt)
        return row if any(isinstance(token, int) for token in prompt.tokens) else f"{row}{_picture(item)}"
    if isinstance(prompt, Column):
        digits = "" if not prompt.hidden else f"?{prompt.hidden}"
        shown = "" if prompt.shown is None else f"({prompt.shown})"
        return f"{sum_face(prompt)}{shown}{digits}"
    if isinstance(prompt, Story):
        told = ",".join(f"{name}={value}" for name, value in prompt.values.items())
        return f"{prompt.cell}:{prompt.noun}:{told}"
    if isinstance(prompt, Match):
        return f"{_things(prompt.left)}~{_things(prompt.right)}"
    if isinstance(prompt, Sort):
        return f"{_things(prompt.things)}:{','.join(prompt.groups)}"
    asked = ",".join(f"{name}={value}" for name, value in prompt.values.items())
    options = ",".join(option.code for part in item.parts for option in part.options)
    return f"{prompt.code}:{asked}:{_picture(item)}:{options}"


def figures_of(item: Item) -> Iterator[Figure]:
    """Every picture of an item: its own, those of its things, those of its options."""
    if item.figure is not None and item.figure.kind != "none":
        yield item.figure
    if isinstance(item.prompt, Match):
        yield from (one for one in (*item.prompt.left, *item.prompt.right) if isinstance(one, Figure))
    elif isinstance(item.prompt, Sort):
        yield from (one for one in item.prompt.things if isinstance(one, Figure))
    yield from (option.figure for part in item.parts for option in part.options if option.figure is not None)


def sum_face(prompt: Row | Column) -> str:
    """A row or column as one line with _ for each gap."""
    if isinstance(prompt, Row):
        return "".join(_sign(token) for token in prompt.tokens)
    return prompt.sign.join(str(row) for row in prompt.rows) + "=_"


def _things(things: Sequence[Row | Figure]) -> str:
    return ",".join(sum_face(one) if isinstance(one, Row) else _drawn(one) for one in things)


def _picture(item: Item) -> str:
    return _drawn(item.figure) if item.figure else ""


def _drawn(figure: Figure) -> str:
    return f"{figure.kind}{sorted(figure.params.items())}"


def _sign(token: Token) -> str:
    if isinstance(token, Gap):
        return "_"
    if isinstance(token, Word):
        return f" {token.code}{'' if token.count is None else token.count} "
    return str(token)


def is_key(text: str) -> bool:
    """Whether this is an item's key (skill/format/numbers) and not a face."""
    return text.count("/") == 2


def without_format(key: str) -> str:
    """An item's key less its format: the same numbers asked in another layout are the same problem."""
    skill, _, rest = key.split("/", 2)
    return f"{skill}/{rest}"


@lru_cache(maxsize=16_384)
def numbers_of_key(text: str) -> str | None:
    """What `without_format` gives for an item's key; None for a face."""
    return without_format(text) if is_key(text) else None


def same_numbers(skill_id: SkillId, numbers: Mapping[str, int]) -> str:
    """What `without_format` gives for every item of the skill with these numbers."""
    return f"{skill_id}/{','.join(f'{name}={value}' for name, value in sorted(numbers.items()))}"
