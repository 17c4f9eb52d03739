"""Ways to add wrongly, with two-digit numbers.

Examples as collected in the project's check values (D.2, general literature on error patterns, names descriptive);
ids, descriptions and code are our own. All take two addends of at most two digits and give the number written.
"""

from __future__ import annotations


def sign_ignored(a: int, b: int) -> int | None:
    """The second number is taken away: 43 + 21 gives 22."""
    return a - b if a >= b else None


def ten_forgotten(a: int, b: int) -> int:
    """The new ten is dropped: 47 + 28 gives 65."""
    return 10 * (a // 10 + b // 10) + (a + b) % 10


def writes_both_digits(a: int, b: int) -> int:
    """The whole sum of the ones is written beside the tens: 47 + 28 gives 615."""
    ones = a % 10 + b % 10
    tens = a // 10 + b // 10
    if ones < 10:
        return a + b
    return 100 * tens + ones


def ten_written_one_carried(a: int, b: int) -> int:
    """The ten is written and the ones are carried: 38 + 27 gives 101."""
    ones = a % 10 + b % 10
    if ones < 10:
        return a + b
    return 10 * (a // 10 + b // 10 + ones % 10) + ones // 10


def always_regroups(a: int, b: int) -> int:
    """A ten is added though there is none to trade: 42 + 35 gives 87."""
    ones = a % 10 + b % 10
    return a + b if ones >= 10 else a + b + 10


def digits_all_added(a: int, b: int) -> int:
    """All digits are added: 38 + 27 gives 20."""
    return a // 10 + a % 10 + b // 10 + b % 10


def misaligned(a: int, b: int) -> int:
    """Tens are added to ones and ones to tens: 23 + 45 gives 77."""
    return 10 * (a // 10 + b % 10) + a % 10 + b // 10


def digit_added_to_tens_too(a: int, b: int) -> int | None:
    """A one-digit number is added to both places: 46 + 3 gives 79."""
    if b > 9:
        return None
    return 10 * (a // 10 + b) + (a + b) % 10


def adds_to_tens(a: int, b: int) -> int:
    """A one-digit number is added to the tens digit: 43 + 5 gives 93."""
    return a + 10 * b


def hundred_dropped(a: int, b: int) -> int:
    """The hundred is left out: 76 + 58 gives 34."""
    return (a + b) % 100


def adds_from_the_left(a: int, b: int) -> int:
    """Works from the left and carries to the right: 76 + 85 gives 512."""
    tens = a // 10 + b // 10
    ones = a % 10 + b % 10 + tens // 10
    return int(f"{tens % 10}{ones}")


def adds_to_ones(a: int, b: int) -> int:
    """The tens digit is added to the ones: 34 + 20 gives 36."""
    return a + b // 10


def drops_ones(a: int, b: int) -> int:
    """Only the tens are answered: 34 + 20 gives 50."""
    return 10 * (a // 10 + b // 10)


def splits_both_loses_part(a: int, b: int) -> int:
    """The second number is split and its ones are forgotten: 36 + 27 gives 56."""
    return a + 10 * (b // 10)


def adds_tens_as_ones(a: int, b: int) -> int:
    """Jumps by the tens digit: 36 + 27 gives 45."""
    return a + b // 10 + b % 10


def compensates_wrong_way(a: int, b: int) -> int:
    """The helper is added again instead of taken off: 49 + 26 gives 77."""
    helper = -a % 10
    return a + b + 2 * helper


def helper_forgotten(a: int, b: int) -> int:
    """The helper stays in the sum: 49 + 26 gives 76."""
    return a + b + (-a % 10)


def rounded(n: int) -> int:
    """The nearest ten; five goes up by agreement."""
    return (n + 5) // 10 * 10


def exact_first(a: int, b: int) -> int:
    """The exact sum is worked out and rounded afterwards."""
    return rounded(a + b)


def rounds_one_only(a: int, b: int) -> int:
    """Only the first number is rounded."""
    return rounded(a) + b
