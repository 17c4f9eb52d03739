"""Items by seed, one after another, without choosing among them."""

from __future__ import annotations

from random import Random
from typing import TYPE_CHECKING

from dayleaf.core.seeds import seed_from
from dayleaf.items.built import NotBuilt, rule_of
from dayleaf.items.domain import domain_of
from dayleaf.items.face import is_key, same_numbers, without_format
from dayleaf.items.make import make

if TYPE_CHECKING:
    from collections.abc import Iterator
    from collections.abc import Set as AbstractSet

    from dayleaf.core.ids import FormatId
    from dayleaf.course.model import Skill
    from dayleaf.items.model import Item


def draw_items(
    skill: Skill,
    *,
    n: int,
    seed: int,
    format: FormatId | None = None,  # noqa: A002 -- the trade's word
    avoid: AbstractSet[str] = frozenset(),
) -> tuple[Item, ...]:
    """Up to n items; the same arguments give the same items.

    Without a format the built formats take turns. No numbers come twice while the rule has more; when all are
    used they begin again in another order. Items whose key is in `avoid`, in any format, come only when nothing
    else is left.

    Raises:
        NotBuilt: the skill or the format cannot be made yet.
    """
    rule = rule_of(skill.id)
    if format is not None and format not in rule.formats:
        raise NotBuilt(skill=skill.id, format=format)
    formats = (format,) if format is not None else tuple(rule.formats)
    if n <= 0:
        return ()
    rng = Random(seed_from("draw", skill.id, seed, format or ""))
    items: list[Item] = []
    while len(items) < n:
        before = len(items)
        for numbers in _each_once(skill, n, rng, avoid):
            turn = len(items) % len(formats)
            kinds = formats[turn:] + formats[:turn]
            one = next((kind for kind in kinds if kind not in rule.fits or rule.fits[kind](numbers)), None)
            if one is not None:
                items.append(make(skill, one, numbers))
                if len(items) == n:
                    break
        if len(items) == before:
            break
    return tuple(items)


def _each_once(skill: Skill, n: int, rng: Random, avoid: AbstractSet[str]) -> Iterator[dict[str, int]]:
    """Every set of numbers once in random order, avoided ones last."""
    avoided = {without_format(key) for key in avoid if is_key(key)}
    late: list[dict[str, int]] = []
    for numbers in domain_of(skill).shuffled(rng, about=2 * n + 8):
        if avoided and same_numbers(skill.id, numbers) in avoided:
            late.append(numbers)
        else:
            yield numbers
    yield from late
