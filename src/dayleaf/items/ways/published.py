"""The published ways to go astray in column subtraction, as procedures for numbers of any length.

Sources: Brown & Burton, Cognitive Science 2 (1978) 155-192; Brown & VanLehn, Cognitive Science 4 (1980) 379-426;
VanLehn, Mind Bugs (1990). Names and most examples are recalled from memory (the project's check values, D.1, say
which); descriptions, ids and code are our own. Each procedure gives the right answer where its trigger is absent.
"""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId
from dayleaf.items.ways.paper import lend, lowered, read, take, worked

if TYPE_CHECKING:
    from collections.abc import Mapping

    from dayleaf.items.ways.paper import Column, Lend, Need, Paper


@dataclass(frozen=True, slots=True)
class Habit:
    """One published way: its number in the collection, what replaces the taught step, and what that needs.

    Where what it `needs` is absent (`needs_met`) the way gives the right answer; "" says that it may always show.
    """

    number: int
    column: Column = take
    lender: Lend = lend
    needs: Need = ""

    def columns(self, top: int, bottom: int) -> tuple[int | None, ...]:
        """What stands under each column, from the left."""
        return worked(top, bottom, column=self.column, lender=self.lender)

    def __call__(self, top: int, bottom: int) -> int:
        """The number written; 0 <= bottom <= top."""
        return read(self.columns(top, bottom))


# what is done in a column


def _too_few(paper: Paper, place: int) -> bool:
    return paper.top[place] < paper.bottom[place]


def _turned(paper: Paper, place: int, _: Lend) -> int:
    """The smaller digit is taken from the larger: 253 - 118 gives 145."""
    return abs(paper.top[place] - paper.bottom[place])


def _turned_at_zero(paper: Paper, place: int, lender: Lend) -> int:
    """The same, only where a zero would have to lend: 306 - 148 gives 162."""
    if _too_few(paper, place) and paper.top[place + 1 : place + 2] == [0]:
        return paper.bottom[place] - paper.top[place]
    return take(paper, place, lender)


def _turned_after_first(paper: Paper, place: int, lender: Lend) -> int:
    """The first opening is right, later columns are turned: 535 - 277 gives 358."""
    return _turned(paper, place, lender) if paper.opened else take(paper, place, lender)


def _zero_gives_digit(paper: Paper, place: int, lender: Lend) -> int:
    """Under a zero the lower digit is written: 140 - 21 gives 121."""
    return paper.bottom[place] if paper.top[place] == 0 else take(paper, place, lender)


def _zero_gives_zero(paper: Paper, place: int, lender: Lend) -> int:
    """Under a zero a zero is written: 140 - 21 gives 120."""
    return 0 if paper.top[place] == 0 else take(paper, place, lender)


def _minus_zero_is_zero(paper: Paper, place: int, lender: Lend) -> int:
    """Above a zero a zero is written: 143 - 20 gives 120."""
    if paper.bottom[place] == 0 and not paper.blank(place):
        return 0
    return take(paper, place, lender)


def _always_opens(paper: Paper, place: int, lender: Lend) -> int:
    """Every column but the last is opened, needed or not: 488 - 229 gives 1159."""
    if not _too_few(paper, place) and place + 1 < len(paper.top) and lender(paper, place + 1):
        paper.top[place] += 10
    return take(paper, place, lender)


def _sum(paper: Paper, place: int, _: Lend) -> int:
    """The digits are added, a new ten carried: 32 - 15 gives 47."""
    total = paper.top[place] + paper.bottom[place]
    if total > 9 and place + 1 < len(paper.top):
        paper.top[place + 1] += 1
        return total - 10
    return total


def _opened_one_is_ten(paper: Paper, place: int, lender: Lend) -> int:
    """A 1 that is opened becomes 10, not 11: 71 - 38 gives 32."""
    opens = _too_few(paper, place) and paper.top[place] == 1
    written = take(paper, place, lender)
    return written - 1 if opens and paper.top[place] == 11 else written


def _opens_what_is_missing(paper: Paper, place: int, lender: Lend) -> int:
    """Only as much is taken from the left as the column lacks: 86 - 29 gives 30."""
    if not _too_few(paper, place) or place + 1 == len(paper.top):
        return take(paper, place, lender)
    missing = paper.bottom[place] - paper.top[place]
    if paper.top[place + 1] < missing and lender(paper, place + 2):
        paper.top[place + 1] += 10
    paper.top[place + 1] = max(0, paper.top[place + 1] - missing)
    return 0


def _zero_written(paper: Paper, place: int, lender: Lend) -> int:
    """A zero is written where a place must be opened: 42 - 16 gives 30."""
    return 0 if _too_few(paper, place) else take(paper, place, lender)


def _left_empty(paper: Paper, place: int, lender: Lend) -> int | None:
    """Nothing is written where a place must be opened: 425 - 283 gives 2 and 2 with a gap between."""
    return None if _too_few(paper, place) else take(paper, place, lender)


def _top_written(paper: Paper, place: int, lender: Lend) -> int:
    """The upper digit is written where a place must be opened: 54 - 29 gives 34."""
    return paper.top[place] if _too_few(paper, place) else take(paper, place, lender)


def _ends_with_bottom(paper: Paper, place: int, lender: Lend) -> int | None:
    """The work ends where the lower number ends: 178 - 59 gives 19."""
    return None if paper.blank(place) else take(paper, place, lender)


def _last_digit_again(paper: Paper, place: int, lender: Lend) -> int:
    """The lower number's left digit is used again under every column left over: 4369 - 22 gives 2147."""
    if paper.blank(place):
        paper.bottom[place] = paper.bottom[paper.filled - 1]
    return take(paper, place, lender)


def _leading_one_lost(paper: Paper, place: int, lender: Lend) -> int | None:
    """A leading 1 with nothing under it is left out: 143 - 22 gives 21."""
    if paper.blank(place) and place + 1 == len(paper.top) and paper.top[place] == 1:
        return None
    return take(paper, place, lender)


def _one_off_over_blank(paper: Paper, place: int, lender: Lend) -> int:
    """One is taken in every column with nothing under it: 548 - 2 gives 436."""
    if paper.blank(place):
        paper.bottom[place] = 1
    return take(paper, place, lender)


# what is done to the column that lends


def _is(paper: Paper, place: int, digit: int) -> bool:
    return place < len(paper.top) and paper.top[place] == digit


def _zero_becomes(digit: int) -> Lend:
    """A zero that lends becomes this digit and its left neighbor is not touched: 103 - 45 gives 158."""

    def lender(paper: Paper, place: int) -> bool:
        if not _is(paper, place, 0):
            return lend(paper, place)
        paper.top[place] = digit
        return True

    return lender


def _zero_becomes_nine_but_in_ten(paper: Paper, place: int) -> bool:
    """A zero becomes nine alone, but a leading 10 is lowered as taught: 803 - 508 gives 395."""
    leading_ten = place + 2 == len(paper.top) and _is(paper, place + 1, 1)
    return lend(paper, place) if leading_ten else _zero_becomes(9)(paper, place)


def _passes_over_zero(paper: Paper, place: int) -> bool:
    """Zeros are passed over, the next digit is lowered: 304 - 75 gives 139."""
    while _is(paper, place, 0):
        place += 1
    return lend(paper, place)


def _stops_at_zero(paper: Paper, place: int) -> bool:
    """A zero that is to lend stays as it is, and so does all to its left: 203 - 98 gives 115."""
    return _is(paper, place, 0) or lend(paper, place)


def _lowers_nothing(paper: Paper, place: int) -> bool:
    """Nothing is lowered: 62 - 44 gives 28."""
    return place < len(paper.top)


def _lowers_leftmost(paper: Paper, _: int) -> bool:
    """The one is always taken from the leftmost digit: 733 - 216 gives 427."""
    return lend(paper, len(paper.top) - 1)


def _raises(paper: Paper, place: int) -> bool:
    """The digit that lends is raised: 863 - 134 gives 749."""
    if place >= len(paper.top):
        return False
    paper.top[place] += 1
    return True


def _lowers_bottom_at_zero(paper: Paper, place: int) -> bool:
    """Where a zero is to lend, the digit under it is lowered: 602 - 364 gives 258."""
    if not _is(paper, place, 0) or paper.bottom[place] == 0:
        return lend(paper, place)
    paper.bottom[place] -= 1
    return True


def _one_becomes(digit: int) -> Lend:
    """A 1 that lends becomes this digit: 316 - 139 gives 267 with nine, 414 - 277 gives 237 with ten."""

    def lender(paper: Paper, place: int) -> bool:
        if not _is(paper, place, 1):
            return lowered(paper, place, lender)
        paper.top[place] = digit
        return True

    return lender


def _one_lends_like_zero(paper: Paper, place: int) -> bool:
    """A 1 that lends gets nine, and its left neighbor is lowered too: 313 - 159 gives 144."""
    if _is(paper, place, 1) and lend(paper, place + 1):
        paper.top[place] = 9
        return True
    return lend(paper, place)


def _zero_left_as_ten(paper: Paper, place: int) -> bool:
    """A zero opened on the way stays ten: 506 - 318 gives 198."""
    if not _is(paper, place, 0):
        return lend(paper, place)
    if not _zero_left_as_ten(paper, place + 1):
        return False
    paper.top[place] = 10
    return True


def _forgets_over_blank(paper: Paper, place: int) -> bool:
    """Nothing is lowered where nothing stands below: 347 - 9 gives 348."""
    if place < len(paper.top) and paper.blank(place):
        return True
    return lowered(paper, place, _forgets_over_blank)


PUBLISHED: Mapping[ErrorWayId, Habit] = MappingProxyType(
    {
        ErrorWayId("smaller-from-larger"): Habit(1, _turned, needs="opens"),
        ErrorWayId("turned-at-zero"): Habit(2, _turned_at_zero, needs="zero"),
        ErrorWayId("borrow-from-zero"): Habit(3, lender=_zero_becomes(9), needs="zero"),
        ErrorWayId("borrow-from-zero-not-ten"): Habit(4, lender=_zero_becomes_nine_but_in_ten, needs="zero"),
        ErrorWayId("move-over-zero"): Habit(5, lender=_passes_over_zero, needs="zero"),
        ErrorWayId("zero-digit-move-over"): Habit(6, _zero_gives_digit, _passes_over_zero, needs="nought"),
        ErrorWayId("zero-zero-move-over"): Habit(7, _zero_gives_zero, _passes_over_zero, needs="nought"),
        ErrorWayId("stops-at-zero"): Habit(8, lender=_stops_at_zero, needs="zero"),
        ErrorWayId("ten-not-reduced"): Habit(9, lender=_lowers_nothing, needs="opens"),
        ErrorWayId("zero-minus-is-digit"): Habit(10, _zero_gives_digit, needs="nought"),
        ErrorWayId("zero-minus-is-zero"): Habit(11, _zero_gives_zero, needs="nought"),
        ErrorWayId("minus-zero-is-zero"): Habit(12, _minus_zero_is_zero, needs="zero below"),
        ErrorWayId("opens-every-place"): Habit(13, _always_opens),
        ErrorWayId("opens-leftmost"): Habit(14, lender=_lowers_leftmost, needs="opens"),
        ErrorWayId("sign-ignored"): Habit(15, _sum),
        ErrorWayId("ten-added-to-lender"): Habit(16, lender=_raises, needs="opens"),
        ErrorWayId("lowers-bottom-for-zero"): Habit(17, lender=_lowers_bottom_at_zero, needs="zero"),
        ErrorWayId("lending-one-is-nine"): Habit(18, lender=_one_becomes(9), needs="one"),
        ErrorWayId("lending-one-is-ten"): Habit(19, lender=_one_becomes(10), needs="one"),
        ErrorWayId("lending-zero-is-ten"): Habit(20, lender=_zero_becomes(10), needs="zero"),
        ErrorWayId("lending-one-as-zero"): Habit(21, lender=_one_lends_like_zero, needs="one"),
        ErrorWayId("zero-left-as-ten"): Habit(22, lender=_zero_left_as_ten, needs="zero"),
        ErrorWayId("not-lowered-over-gap"): Habit(23, lender=_forgets_over_blank, needs="gap"),
        ErrorWayId("second-open-forgotten"): Habit(24, _turned_after_first, needs="opens twice"),
        ErrorWayId("opened-one-is-ten"): Habit(25, _opened_one_is_ten, needs="opens"),
        ErrorWayId("opens-what-is-missing"): Habit(26, _opens_what_is_missing, needs="opens"),
        ErrorWayId("zero-instead-of-opening"): Habit(27, _zero_written, needs="opens"),
        ErrorWayId("empty-instead-of-opening"): Habit(28, _left_empty, needs="opens"),
        ErrorWayId("top-instead-of-opening"): Habit(29, _top_written, needs="opens"),
        ErrorWayId("ends-with-bottom"): Habit(30, _ends_with_bottom, needs="gap"),
        ErrorWayId("last-digit-again"): Habit(31, _last_digit_again, needs="gap"),
        ErrorWayId("leading-one-lost"): Habit(32, _leading_one_lost, needs="gap"),
        ErrorWayId("one-off-over-gap"): Habit(33, _one_off_over_blank, needs="gap"),
    }
)
"""The 33 published ways in the order of the collection."""
