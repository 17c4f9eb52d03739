"""The order of a page: sure first, hardest at two thirds, sure last, never three of the hardest in a row.

The shape is common practice (no source); it is written down in the job's description of a good page.
"""

from __future__ import annotations

from functools import lru_cache


def hardest_place(n: int) -> int:
    """The place (from 0) of the hardest of n items."""
    return round(2 * (n - 1) / 3)


@lru_cache(maxsize=64)
def ranks(n: int) -> tuple[int, ...]:
    """For each place of a page of n items the rank of difficulty it wants, 0 for the surest.

    The two surest stand at the ends and the hardest at two thirds. The harder half of the rest stand an even
    number of places from the hardest, the surer half an odd number, each half rising; so no two of the harder
    half are neighbors.
    """
    if n <= 2:
        return tuple(range(n))
    top = hardest_place(n)
    order = [0] * n
    order[0], order[-1], order[top] = 0, 1, n - 1
    rest = [place for place in range(1, n - 1) if place != top]
    surer = [place for place in rest if (place - top) % 2]
    harder = [place for place in rest if (place - top) % 2 == 0]
    for rank, place in enumerate(surer + harder, start=2):
        order[place] = rank
    return tuple(order)
