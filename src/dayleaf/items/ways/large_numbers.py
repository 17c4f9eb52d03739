"""Ways to misread, miswrite and miscompare numbers of three and four digits.

Procedures follow the project's skill files and check values (D.3); examples stand beside them.
"""

from __future__ import annotations

from dayleaf.items.ways.place_value import sign_between


def digits(n: int) -> list[int]:
    """The digits of a number from the left."""
    return list(map(int, str(n)))


def parts(n: int) -> list[int]:
    """What each digit is worth, from the left: 405 is 400, 0 and 5."""
    scale = 10 ** (len(str(n)) - 1)
    found = []
    while scale:
        found.append(n // scale % 10 * scale)
        scale //= 10
    return found


def digit_sum(n: int) -> int:
    """All digits added: 364 gives 13."""
    return sum(digits(n))


def as_heard(n: int) -> int:
    """Each heard part is written out: four hundred five gives 4005, three hundred twenty gives 30020."""
    heard = [part for part in parts(n) if part]
    if n % 100 in range(11, 20):
        heard[-2:] = [n % 100]
    return int("".join(str(part) for part in heard))


def hundred_half_written(n: int) -> int | None:
    """The hundred keeps one zero before the rest: two hundred thirty-five gives 2035."""
    return int(f"{n // 100}0{n % 100}") if 100 < n < 1000 and n % 100 > 9 else None


def zero_dropped(n: int) -> int | None:
    """The first zero is left out: 405 gives 45, 2005 gives 205."""
    return int(str(n).replace("0", "", 1)) if "0" in str(n) else None


def one_place_off(value: int) -> int:
    """The worth of a digit one place further right, for tens one further left: 400 gives 40, 60 gives 600."""
    return value // 10 if value > 90 else value * 10


def by_last_digit(a: int, b: int) -> str:
    """The ones decide, and the rest only when they are equal: 329 > 341."""
    return sign_between(a % 10, b % 10) if a % 10 != b % 10 else sign_between(a, b)


def by_digit_sum(a: int, b: int) -> str:
    """The sums of the digits decide, and the rest only when they are equal: 199 > 300."""
    one, other = digit_sum(a), digit_sum(b)
    return sign_between(one, other) if one != other else sign_between(a, b)


def by_first_digit(a: int, b: int) -> str:
    """The first digits decide, whatever the length: 987 > 1203."""
    one, other = digits(a)[0], digits(b)[0]
    return sign_between(one, other) if one != other else sign_between(a, b)


def by_the_ones(n: int) -> int:
    """The nearest hundred decided by the ones: 319 gives 400."""
    return n // 100 * 100 + (100 if n % 10 >= 5 else 0)


def rounded_twice(n: int) -> int:
    """To the nearest ten first, then to the nearest hundred: 348 gives 400."""
    ten = (n + 5) // 10 * 10
    return (ten + 50) // 100 * 100


def changed_one_place_higher(n: int, by: int) -> int | None:
    """The digit to the left of the right one changes: 340 and 10 more gives 440."""
    wrong = n + 10 * by
    return wrong if wrong >= 0 else None


def stuck_at_the_turn(n: int, by: int) -> int | None:
    """A full place is written out in its place: 395 and 10 more gives 3105; None where nothing turns."""
    place = len(str(abs(by))) - 1
    digit = n // 10**place % 10
    if by < 0 or digit != 9 or n < 10 ** (place + 1):
        return None
    rest = str(n)[len(str(n)) - place :] if place else ""
    return int(f"{n // 10 ** (place + 1)}10{rest}")
