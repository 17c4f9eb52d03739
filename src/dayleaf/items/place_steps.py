"""The steps of the written ways with numbers of up to four digits."""

from __future__ import annotations

from functools import lru_cache
from itertools import zip_longest
from typing import TYPE_CHECKING

from dayleaf.items.steps import step

if TYPE_CHECKING:
    from dayleaf.items.model import Step

PLACES = ("ones", "tens", "hundreds", "thousands")
_ONE = ("one", "ten", "hundred", "thousand")


def _digits(n: int) -> list[int]:
    """The digits of a number, ones first."""
    return [int(digit) for digit in reversed(str(n))]


@lru_cache(maxsize=4096)
def adding_places(a: int, b: int) -> tuple[Step, ...]:
    """The written way to add: place by place, ten of one place traded for one of the next.

    Both numbers have at most four digits, and so has the sum.
    """
    steps: list[Step] = []
    new = 0
    for place, (top, bottom) in enumerate(zip_longest(_digits(a), _digits(b), fillvalue=0)):
        total = top + bottom + new
        if place >= len(str(b)) and not new:
            steps.append(step(f"{PLACES[place]}-stay", top))
        else:
            steps.append(step(f"add-{PLACES[place]}{'-and-new' if new else ''}", top, bottom, total))
        new = total // 10
        if new and place + 1 < max(len(str(a)), len(str(b))):
            steps.append(step(f"trade-{_ONE[place + 1]}", total, total - 10))
    return (*steps, step("sum-is", a, b, a + b))


def _open_up_to(top: list[int], place: int) -> list[Step]:
    """Open from the nearest place that has something down to this one; the digits are changed in place."""
    source = next(higher for higher in range(place + 1, len(top)) if top[higher])
    steps = [step(f"no-{_ONE[zero]}-to-open") for zero in range(place + 1, source)]
    for higher in range(source, place, -1):
        steps.append(step(f"open-{_ONE[higher]}", top[higher], top[higher] - 1, top[higher - 1] + 10))
        top[higher] -= 1
        top[higher - 1] += 10
    return steps


@lru_cache(maxsize=4096)
def taking_places(top: int, bottom: int) -> tuple[Step, ...]:
    """The written way to take away: from the ones on, each place opened where it has too few; then a check.

    0 <= bottom <= top, at most four digits.
    """
    upper, lower = _digits(top), _digits(bottom)
    steps: list[Step] = []
    for place in range(len(upper)):
        if place >= len(lower):
            if upper[place]:
                steps.append(step(f"{PLACES[place]}-stay", upper[place]))
            continue
        have, take = upper[place], lower[place]
        if have < take:
            steps.append(step(f"too-few-{PLACES[place]}", have, take))
            steps += _open_up_to(upper, place)
        elif place == 0:
            steps.append(step("enough-ones", have, take))
        left = upper[place] - take
        steps.append(step(f"take-{PLACES[place]}", upper[place], take, left))
    return (*steps, step("check-by-adding", top - bottom, bottom, top))
