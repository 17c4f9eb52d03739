"""Ways to go astray with equal groups.

Procedures follow the project's skill files; examples stand beside them. Factors come in the order in which they
are written; in a division the whole comes first.
"""

from __future__ import annotations


def added(a: int, b: int) -> int:
    """The sign × is read as +, or the two numbers of a picture are added: 3 × 4 gives 7."""
    return a + b


def one_group_short(a: int, b: int) -> int | None:
    """Counting by the first factor stops one step too soon: 2 × 7 gives 12."""
    return a * (b - 1) if b else None


def one_addend_short(groups: int, size: int) -> int:
    """One of the equal addends is left out: 4 groups of 3 give 9."""
    return (groups - 1) * size


def double_only(_a: int, b: int) -> int:
    """The second factor is doubled once and no more: 3 × 6 gives 12."""
    return 2 * b


def zero_changes_nothing(a: int, b: int) -> int | None:
    """Times zero is taken to change nothing: 6 × 0 gives 6."""
    return max(a, b) if 0 in (a, b) else None


def one_adds_one(a: int, b: int) -> int | None:
    """Times one adds one: 6 × 1 gives 7."""
    if a == 1:
        return b + 1
    return a + 1 if b == 1 else None


def neighbor_product(a: int, b: int) -> int | None:
    """A fact next to it in the table, the smaller factor one less and the larger one more: 7 × 8 gives 54."""
    small, large = min(a, b), max(a, b)
    return (small - 1) * (large + 1) if small > 1 else None


def zero_lost(a: int, b: int) -> int:
    """The zero of the tens is forgotten: 4 × 30 gives 12."""
    return a * (b // 10)


def zero_doubled(a: int, b: int) -> int:
    """One zero too many is written: 4 × 30 gives 1200."""
    return a * b * 10


def splits_both(a: int, b: int) -> int | None:
    """Both factors are split at five, and only fives times fives and the two rests are kept: 7 × 6 gives 27."""
    return 25 + (a - 5) * (b - 5) if b > 5 else None


def part_of_product(_a: int, b: int) -> int:
    """Only the five rows are multiplied: 7 × 6 gives 30."""
    return 5 * b


def taken_once(whole: int, part: int) -> int:
    """The number is taken away once: 14 ÷ 2 gives 12, and 4 × □ = 12 gives 8."""
    return whole - part


def one_group_fewer(whole: int, size: int) -> int:
    """One group too few is counted: 60 ÷ 10 gives 5."""
    return whole // size - 1


def one_group_more(whole: int, size: int) -> int:
    """One group too many is counted: 35 ÷ 5 gives 8."""
    return whole // size + 1


def last_number(_whole: int, _size: int) -> int:
    """The number reached at the end is given, not the count of jumps: 15 in jumps of 5 gives 0."""
    return 0


def group_size(_whole: int, size: int) -> int:
    """The number told beside the whole is given again: 12 in bags of 4 gives 4."""
    return size


def shared_out(whole: int, size: int) -> int:
    """The things are shared among so many in place of grouped by so many; the number is the same: 12, 4 gives 3."""
    return whole // size


def multiplied(whole: int, part: int) -> int:
    """The numbers are multiplied because there are equal groups: 20 and 5 give 100."""
    return whole * part
