"""Ways to misread, miswrite and miscompare numbers to 120.

Procedures follow the project's skill files and check values (D.3); examples stand beside them.
"""

from __future__ import annotations

TEENS_AND_TENS = {12: 20, **{10 + ones: 10 * ones for ones in range(3, 10)}}
"""Number names that sound alike: twelve and twenty, thirteen and thirty, and so on."""


def digits_swapped(n: int) -> int | None:
    """The two digits change places: 52 for 25."""
    if not 10 <= n <= 99:
        return None
    return 10 * (n % 10) + n // 10


def written_as_heard(n: int) -> int | None:
    """Each heard part is written out: one hundred six becomes 1006, twenty-five becomes 205.

    None from 110 on: what would be written there (10010) is longer than a child keeps up.
    """
    if 100 < n < 110:
        return int(f"100{n - 100}")
    if 20 < n < 100 and n % 10:
        return int(f"{n // 10 * 10}{n % 10}")
    return None


def teen_ty_mixed(n: int) -> int | None:
    """Thirteen and thirty are mixed up, fifteen and fifty, and so on."""
    if n in TEENS_AND_TENS:
        return TEENS_AND_TENS[n]
    return next((teen for teen, tens in TEENS_AND_TENS.items() if tens == n), None)


def ten_as_one(n: int) -> int:
    """A ten counts as one: 3 tens 4 ones make 7."""
    return n // 10 + n % 10


def glued(tens: int, ones: int) -> int:
    """Parts are written one after the other: 50 + 8 gives 508, 3 tens 13 ones give 313."""
    return int(f"{tens}{ones}")


def sign_between(a: int, b: int) -> str:
    """The right sign between two numbers."""
    return "<" if a < b else ">" if a > b else "="


def turned(sign: str) -> str:
    """The sign the other way round."""
    return {"<": ">", ">": "<", "=": "="}[sign]


def compared_by_ones(a: int, b: int) -> str:
    """The ones decide, and the rest only when they are equal: 39 > 42."""
    if a % 10 != b % 10:
        return sign_between(a % 10, b % 10)
    return sign_between(a, b)


def always_down(n: int) -> int:
    """Rounding drops the ones: 48 becomes 40."""
    return n // 10 * 10


def always_up(n: int) -> int:
    """Rounding means up: 42 becomes 50."""
    return n // 10 * 10 + 10
