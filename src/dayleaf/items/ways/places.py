"""Ways to go astray with numbers of three and four digits, beside the published ones for taking away.

Examples as in the project's skill files and check values (D.2); ids, descriptions and code are our own. All take the
two numbers as written and give the number written; None where the habit writes none.
"""

from __future__ import annotations

SCALES = (10, 100, 1000, 10_000)
"""What comes after ones, tens, hundreds, thousands: ten of a place."""


def trades(a: int, b: int) -> tuple[int, ...]:
    """The places (0 for ones) in which ten are traded for one of the next place when a and b are added."""
    return tuple(place for place, scale in enumerate(SCALES) if a % scale + b % scale >= scale)


def openings(top: int, bottom: int) -> tuple[int, ...]:
    """The places (0 for ones) that have to be opened when bottom is taken from top, zeros on the way included."""
    return tuple(place for place, scale in enumerate(SCALES) if top % scale < bottom % scale)


def _added(a: int, b: int, *, dropped: int) -> int:
    """The written sum with the trade of one place lost."""
    scale = SCALES[dropped]
    return (a // scale + b // scale) * scale + (a + b) % scale


def ten_forgotten(a: int, b: int) -> int:
    """The ten made by the ones is dropped: 236 + 147 gives 373."""
    return _added(a, b, dropped=0)


def hundred_forgotten(a: int, b: int) -> int:
    """The hundred made by the tens is dropped: 283 + 154 gives 337."""
    return _added(a, b, dropped=1)


def second_trade_forgotten(a: int, b: int) -> int:
    """Where there are several trades the last is dropped: 378 + 246 gives 524, 2758 + 1467 gives 3225."""
    places = trades(a, b)
    return _added(a, b, dropped=places[-1]) if len(places) > 1 else a + b


def writes_both_digits(a: int, b: int) -> int:
    """Each place's whole sum is written: 236 + 147 gives 3713."""
    written = ""
    while a or b:
        written = f"{a % 10 + b % 10}{written}"
        a, b = a // 10, b // 10
    return int(written or "0")


def always_trades(a: int, b: int) -> int:
    """One is carried into each place, needed or not: 412 + 136 gives 658."""
    total, scale = a % 10 + b % 10, 1
    written = total % 10
    while a >= 10 * scale or b >= 10 * scale:
        scale *= 10
        total = a // scale % 10 + b // scale % 10 + 1
        written += total % 10 * scale
    return written + total // 10 * 10 * scale


def aligned_left(a: int, b: int) -> int | None:
    """A shorter second number is written under the highest place: 325 + 41 gives 735."""
    shift = len(str(a)) - len(str(b))
    return a + int(f"{b}{'0' * shift}") if shift > 0 else None


def column_skipped(a: int, b: int) -> int | None:
    """The tens are left out: 412 + 136 gives 58."""
    if a < 100 or b < 100:
        return None
    return int(f"{a // 100 % 10 + b // 100 % 10}{a % 10 + b % 10}")


def taken_instead(a: int, b: int) -> int | None:
    """The second number is taken away: 325 + 41 gives 284."""
    return a - b if a >= b else None


def carried_off(a: int, b: int) -> int:
    """What is first traded is taken from the next place instead of added: 236 + 147 gives 363."""
    first = trades(a, b)[:1]
    return a + b - 2 * SCALES[first[0]] if first else a + b


def taken_aligned_left(top: int, bottom: int) -> int | None:
    """A shorter second number is written under the highest place and taken there: 685 - 42 gives 265."""
    shift = len(str(top)) - len(str(bottom))
    left = top - int(f"{bottom}{'0' * shift}")
    return left if shift > 0 and left >= 0 else None


def one_column_added(top: int, bottom: int) -> int | None:
    """The ones are added, the other places taken: 685 - 242 gives 447."""
    ones = top % 10 + bottom % 10
    if ones > 9 or top // 10 < bottom // 10:
        return None
    return 10 * (top // 10 - bottom // 10) + ones


def added_instead(top: int, bottom: int) -> int:
    """The two numbers are added: 685 - 242 gives 927."""
    return top + bottom


# in the head


def tens_lost(a: int, b: int) -> int:
    """The hundreds are jumped, the tens forgotten: 345 + 230 gives 545."""
    return a + b // 100 * 100


def tens_as_ones(a: int, b: int) -> int:
    """The tens are jumped as ones: 345 + 230 gives 548."""
    return a + b // 100 * 100 + b // 10 % 10


# several numbers


def ten_once(*addends: int) -> int:
    """One ten is traded even where the ones make more: 28 + 37 + 19 gives 74."""
    ones = sum(one % 10 for one in addends)
    tens = sum(one // 10 for one in addends)
    return 10 * (tens + (ones > 9)) + ones % 10


def last_dropped(*addends: int) -> int:
    """The last number is left out: 24 + 31 + 16 gives 55."""
    return sum(addends[:-1])


# about how much


def nearest(n: int, unit: int) -> int:
    """The nearest ten or hundred; half way goes up by agreement."""
    return (n + unit // 2) // unit * unit
