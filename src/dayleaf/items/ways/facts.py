"""Ways to go astray with facts to 20.

Procedures follow the project's skill files; examples stand beside them. All take the two numbers as written.
"""

from __future__ import annotations


def one_less(a: int, b: int) -> int:
    """Counting on starts at the number itself: 8 + 3 gives 10. For facts: the neighbor below, 7 + 8 gives 14."""
    return a + b - 1


def smaller_count(a: int, b: int) -> int:
    """Counting back starts at the number itself: 12 - 3 gives 10."""
    return a - b + 1


def zero_adds_one(a: int, b: int) -> int:
    """Adding zero makes one more: 6 + 0 gives 7."""
    return a + b + 1 if a == 0 or b == 0 else a + b


def added_instead(a: int, b: int) -> int:
    """The numbers are added in a take-away: 9 - 3 gives 12."""
    return a + b


def taken_instead(a: int, b: int) -> int | None:
    """The second number is taken away in a sum: 5 + 2 gives 3."""
    return a - b if a >= b else None


def double_mixed(a: int, b: int) -> int | None:
    """The neighbor's double: 7 + 7 gives 16."""
    return a + b + 2 if a == b else None


def double_plus_two(a: int, b: int) -> int | None:
    """Double 6 is read as 6 + 2."""
    return a + 2 if a == b else None


def double_again(a: int, _b: int) -> int:
    """The double is answered where a half is asked: 16 - 8 gives 16."""
    return a


def half_neighbor(a: int, b: int) -> int:
    """The half of a neighbor: 16 - 8 gives 7."""
    return a - b - 1 if a > b else 0


def near_double_wrong_way(a: int, b: int) -> int:
    """The difference is taken off the double instead of added: 6 + 7 gives 11."""
    small, large = sorted((a, b))
    return 2 * small - (large - small)


def double_only(a: int, b: int) -> int:
    """The double of the smaller number, and a stop: 6 + 7 gives 12."""
    return 2 * min(a, b)


def adds_ten(a: int, b: int) -> int:
    """Ten is added and the difference never taken off: 9 + 6 gives 16, 8 + 5 gives 15."""
    return 10 + min(a, b)


def two_off(a: int, b: int) -> int:
    """One is taken off twice: 9 + 6 gives 14."""
    return a + b - 1


def wrong_partner(a: int, b: int) -> int:
    """The other number is split with the wrong partner of ten: 8 + 5 gives 14."""
    return a + b + 1


def stops_at_ten(_a: int, _b: int) -> int:
    """Stops on the way at ten: 13 - 5 gives 10."""
    return 10


def ones_turned(a: int, b: int) -> int:
    """The ones are taken the other way round: 13 - 5 gives 12."""
    return 10 * (a // 10 - b // 10) + abs(a % 10 - b % 10)


def minus_ten_left(a: int, _b: int) -> int | None:
    """Ten is taken and nothing given back: 15 - 9 gives 5."""
    return a - 10 if a >= 10 else None


def gives_back_wrong(a: int, b: int) -> int | None:
    """Ten is taken and then more still: 15 - 9 gives 4."""
    return a - 10 - (10 - b) if a - 10 >= 10 - b else None
