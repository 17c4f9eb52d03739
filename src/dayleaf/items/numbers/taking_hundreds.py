"""Taking away with three and four digits."""

from __future__ import annotations

from itertools import pairwise
from types import MappingProxyType
from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.items.choices import ring_one
from dayleaf.items.model import Question
from dayleaf.items.place_steps import taking_places
from dayleaf.items.rule import Made, SkillRule
from dayleaf.items.steps import step
from dayleaf.items.two_numbers import (
    TwoNumbers,
    a_and_b,
    all_three_digit,
    answers_of,
    digit_puzzle,
    find_and_fix,
    in_a_row,
    in_columns,
    line_of_hops,
    mendable,
    number_part,
    ways_of,
)
from dayleaf.items.ways import places
from dayleaf.items.ways.published import PUBLISHED
from dayleaf.items.ways.together import Together

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from dayleaf.items.model import Figure, Step
    from dayleaf.items.rule import Numbers
    from dayleaf.items.two_numbers import Procedure

VERT, HORIZ, FIX, JUMP = FormatId("vert"), FormatId("horiz"), FormatId("fix"), FormatId("nl-jump")
PUZZLE, ESTIMATE, CHOOSE = FormatId("digit-puzzle"), FormatId("estimate"), FormatId("choose")

SMALLER_FROM_LARGER = ErrorWayId("smaller-from-larger")
TEN_NOT_REDUCED = ErrorWayId("ten-not-reduced")
HUNDRED_NOT_REDUCED = ErrorWayId("hundred-not-reduced")
BOTH_ZEROS_TEN = ErrorWayId("both-zeros-ten")
LEFT_AS_TEN = ErrorWayId("zero-left-as-ten")

WIDTH = 4


def published(
    *but: str,
    width: int = WIDTH,
    renamed: Mapping[ErrorWayId, ErrorWayId] = MappingProxyType({}),
    others: Mapping[ErrorWayId, Procedure] = MappingProxyType({}),
) -> Together:
    """The published ways but those named, where their answers have room in the boxes.

    `renamed` holds further names of published ways, `others` ways that are not published.
    """
    habits = {way: habit for way, habit in PUBLISHED.items() if way not in but}
    return Together({**habits, **{new: PUBLISHED[old] for new, old in renamed.items()}}, width=width, others=others)


_AT_A_ZERO = (
    "turned-at-zero",
    "borrow-from-zero",
    "borrow-from-zero-not-ten",
    "move-over-zero",
    "zero-digit-move-over",
    "zero-zero-move-over",
    "stops-at-zero",
    "lowers-bottom-for-zero",
    "lending-zero-is-ten",
    "zero-left-as-ten",
)
"""Ways that show only where a zero has to lend."""

_AT_A_ONE = ("lending-one-is-nine", "lending-one-is-ten", "lending-one-as-zero")
"""Ways that show only where a 1 has to lend."""

_NEVER_ABOVE_200 = ("borrow-from-zero-not-ten", "leading-one-lost")
"""The first differs from its plainer sister, the second from what is right, only where the top begins with 1."""


def hard(top: int, bottom: int) -> float:
    """Each place to open makes a take-away harder, a zero in the way most of all.

    The weights are ours (common practice, no source); that the item with a zero is the hardest is measured in
    published response data (check values, F.2).
    """
    opened = places.openings(top, bottom)
    zero = any(str(top)[::-1][place + 1] == "0" for place in opened if place + 1 < len(str(top)))
    return min(1.0, 0.1 + 0.25 * len(opened) + 0.25 * zero + 0.01 * (bottom % 10))


def _kind(ways: Together, *mend: ErrorWayId, width: int = WIDTH) -> TwoNumbers:
    return TwoNumbers("-", read=a_and_b, ways=ways, steps=taking_places, hard=hard, width=width, mend=mend)


_KNOWN_WITHOUT_OPENING = (
    "sign-ignored",
    "minus-zero-is-zero",
    "opens-every-place",
    "ends-with-bottom",
    "last-digit-again",
    "one-off-over-gap",
)
"""Ways that show although nothing has to be opened."""

NO_REGROUP = _kind(
    published(
        *(way for way in PUBLISHED if way not in _KNOWN_WITHOUT_OPENING),
        others={
            ErrorWayId("misaligned"): places.taken_aligned_left,
            ErrorWayId("one-column-added"): places.one_column_added,
        },
    )
)
ONES_SHORT = _kind(
    published(*_AT_A_ZERO, *_NEVER_ABOVE_200, "second-open-forgotten", "not-lowered-over-gap"),
    SMALLER_FROM_LARGER,
    TEN_NOT_REDUCED,
)
TENS_SHORT = _kind(
    published(
        *_AT_A_ZERO,
        *_AT_A_ONE,
        *_NEVER_ABOVE_200,
        "second-open-forgotten",
        "opens-leftmost",
        "ten-not-reduced",
        renamed={HUNDRED_NOT_REDUCED: TEN_NOT_REDUCED},
    ),
    SMALLER_FROM_LARGER,
    HUNDRED_NOT_REDUCED,
)
TWICE = _kind(
    published(*_AT_A_ZERO, *_NEVER_ABOVE_200, "opens-every-place"),
    SMALLER_FROM_LARGER,
    ErrorWayId("second-open-forgotten"),
    TEN_NOT_REDUCED,
)
OVER_ZERO = _kind(
    published(*_AT_A_ONE, *_NEVER_ABOVE_200, "opens-every-place", "opened-one-is-ten"),
    LEFT_AS_TEN,
    ErrorWayId("borrow-from-zero"),
    ErrorWayId("move-over-zero"),
    ErrorWayId("stops-at-zero"),
)
WHOLE_HUNDREDS = TwoNumbers(
    "-",
    read=lambda numbers: (100 * numbers["a"], numbers["b"]),
    ways=published(
        *_AT_A_ONE,
        *_NEVER_ABOVE_200,
        "opens-every-place",
        "opened-one-is-ten",
        "minus-zero-is-zero",
        "zero-left-as-ten",
        "ends-with-bottom",
        "last-digit-again",
        "one-off-over-gap",
        "not-lowered-over-gap",
        renamed={BOTH_ZEROS_TEN: LEFT_AS_TEN},
    ),
    steps=taking_places,
    hard=hard,
    width=WIDTH,
)
THOUSAND = TwoNumbers(
    "-",
    read=lambda numbers: (1000, numbers["b"]),
    ways=published(
        "opened-one-is-ten",
        "zero-left-as-ten",
        "leading-one-lost",
        "lending-one-as-zero",
        renamed={BOTH_ZEROS_TEN: LEFT_AS_TEN},
    ),
    steps=taking_places,
    hard=lambda _, bottom: min(1.0, 0.3 + bottom / 2000 + 0.02 * (bottom % 10)),
    width=WIDTH,
)


def _stops_up(top: int, bottom: int) -> tuple[int, ...]:
    """Jumping up: to the next ten, to the next hundred, to the hundreds of the top number, to the top."""
    ten = bottom + (-bottom % 10)
    hundred = bottom + (-bottom % 100)
    return tuple(sorted({bottom, *(stop for stop in (ten, hundred) if stop < top), top}))


def _steps_up(top: int, bottom: int) -> tuple[Step, ...]:
    stops = _stops_up(top, bottom)
    jumps = [step("jump-up", start, end - start, end) for start, end in pairwise(stops)]
    return (*jumps, step("jumps-together", top - bottom))


def _line_up(top: int, bottom: int) -> Figure:
    return line_of_hops(_stops_up(top, bottom), blank_end=False)


def _jumping_up(read: Callable[[Numbers], tuple[int, int]]) -> TwoNumbers:
    """On the line the same sum is jumped up; what goes wrong there is another matter than in columns."""
    return TwoNumbers(
        "-",
        read=read,
        ways={
            ErrorWayId("end-not-jumps"): lambda top, _: top,
            ErrorWayId("jump-lost"): lambda top, bottom: top - bottom - (-bottom % 10),
        },
        steps=_steps_up,
        hard=lambda top, bottom: min(1.0, 0.2 + (top - bottom) / 1250),
        width=WIDTH,
    )


def _about_steps(a: int, b: int) -> tuple[Step, ...]:
    near_a, near_b = places.nearest(a, 10), places.nearest(b, 10)
    return (
        step("round-number", a, near_a),
        step("round-number", b, near_b),
        step("about-difference", near_a, near_b, near_a - near_b),
    )


ABOUT: dict[ErrorWayId, Procedure] = {
    ErrorWayId("exact-first"): lambda a, b: places.nearest(a - b, 10),
    ErrorWayId("rounds-one-only"): lambda a, b: abs(places.nearest(a, 10) - b),
}
EXACT = {**ABOUT, ErrorWayId("estimate-is-exact"): lambda a, b: a - b}


def _about(numbers: Numbers, *, ring: bool) -> Made:
    """About how much is 71 - 38? Round first, then take away."""
    a, b = a_and_b(numbers)
    errors = answers_of(EXACT if ring else ABOUT, a, b)
    right = places.nearest(a, 10) - places.nearest(b, 10)
    return Made(
        Question("about-difference", {"a": a, "b": b}),
        (ring_one(str(right), errors, turn=a + 2 * b) if ring else number_part(right, 2),),
        _about_steps(a, b),
        errors,
        None,
        min(1.0, 0.3 + 0.15 * ((a % 10 == 5) + (b % 10 == 5)) + (a - b) / 200),
    )


def _rule(skill: str, kind: TwoNumbers, *formats: FormatId) -> SkillRule:
    makers = {
        VERT: lambda: in_columns(kind, trades=True),
        HORIZ: lambda: in_a_row(kind),
        FIX: lambda: find_and_fix(kind),
        PUZZLE: lambda: digit_puzzle(kind),
        JUMP: lambda: in_a_row(_jumping_up(kind.read), _line_up),
    }
    narrow = {FIX: mendable, PUZZLE: all_three_digit}
    return SkillRule(
        SkillId(skill),
        formats={format_id: makers[format_id]() for format_id in formats},
        ways=ways_of(kind),
        fits={format_id: narrow[format_id](kind) for format_id in formats if format_id in narrow},
    )


RULES: tuple[SkillRule, ...] = (
    _rule("sub-3digit-no-regroup", NO_REGROUP, VERT, HORIZ),
    _rule("sub-3digit-regroup-tens", ONES_SHORT, VERT, HORIZ, FIX),
    _rule("sub-3digit-regroup-hundreds", TENS_SHORT, VERT, HORIZ, FIX),
    _rule("sub-3digit-regroup-twice", TWICE, VERT, HORIZ, PUZZLE, FIX),
    _rule("sub-3digit-zero-tens", OVER_ZERO, VERT, FIX),
    _rule("sub-from-hundreds", WHOLE_HUNDREDS, VERT, JUMP),
    _rule("sub-from-1000", THOUSAND, VERT, JUMP),
    SkillRule(
        SkillId("sub-estimate-2digit"),
        formats={
            ESTIMATE: lambda numbers: _about(numbers, ring=False),
            CHOOSE: lambda numbers: _about(numbers, ring=True),
        },
    ),
)
