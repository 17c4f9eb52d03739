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
    places = _places(skill, n, Random(seed_from("draw", skill.id, seed, format or "")), avoid)
    domain = domain_of(skill)
    items: list[Item] = []
    misses = 0
    while len(items) < n and misses <= len(domain):
        numbers = domain.numbers(next(places))
        turn = len(items) % len(formats)
        one = next((f for f in formats[turn:] + formats[:turn] if f not in rule.fits or rule.fits[f](numbers)), None)
        if one is None:
            misses += 1
            continue
        misses = 0
        items.append(make(skill, one, numbers))
    return tuple(items)


def _places(skill: Skill, n: int, rng: Random, avoid: AbstractSet[str]) -> Iterator[int]:
    """Places of the domain without end: every one before any comes again, avoided ones last."""
    domain = domain_of(skill)
    avoided = {without_format(key) for key in avoid if is_key(key)}
    used: set[int] = set()
    late: list[int] = []
    for chunk in (2 * n + 8, len(domain)):
        for place in rng.sample(range(len(domain)), min(chunk, len(domain))):
            if place in used:
                continue
            used.add(place)
            if avoided and same_numbers(skill.id, domain.numbers(place)) in avoided:
                late.append(place)
            else:
                yield place
    yield from late
    while True:
        yield from rng.sample(range(len(domain)), len(domain))
