"""The published ways of taking away wrongly, worked a second time by separate code.

Virtual children answer with this code, so that what is looked for (`items.ways.published`) and what they do were
written twice from the same short descriptions (the project's check values, D.1, numbers 1 to 33). Where a description
leaves something open this code decides otherwise than the other: a 0 or a 1 is the printed digit, and who is stuck
writes a zero.
"""

from __future__ import annotations

from typing import Final

STUCK: Final = 0
LOWERED_AT_ZERO = {3: 9, 20: 10}
LOWERED_AT_ONE = {18: 9, 19: 10}
PASSES_ZEROS = frozenset({5, 6, 7})


def answer_with(number: int | None, top: int, bottom: int) -> int:
    """What a child with the published way of this number (None: with none) writes; 0 <= bottom <= top."""
    if number is None:
        return top - bottom
    if number == 15:
        return top + bottom
    return _Sheet(number, top, bottom).worked()


class _Sheet:
    """One take-away on paper while it is worked; private to one answer."""

    def __init__(self, number: int, top: int, bottom: int) -> None:
        self.way = number
        self.printed = [int(one) for one in reversed(str(top))]
        self.top = list(self.printed)
        self.below: list[int | None] = [int(one) for one in reversed(str(bottom))]
        self.below += [None] * (len(self.top) - len(self.below))
        self.opened = 0

    def worked(self) -> int:
        columns = [self._column(place) for place in range(len(self.top))]
        return int("".join("" if one is None else str(one) for one in reversed(columns)) or "0")

    def _column(self, place: int) -> int | None:  # noqa: C901, PLR0911 -- one line a way, as the list has them
        way, below = self.way, self.below[place]
        if below is None:
            if way == 30 or (way == 32 and place == len(self.top) - 1 and self.top[place] == 1):
                return None
            below = {31: self.below[self._last()], 33: 1}.get(way, 0) or 0
        elif way == 12 and below == 0:
            return 0
        zero = (self.top if way in {10, 11} else self.printed)[place] == 0
        if zero and way in {6, 7, 10, 11}:
            return below if way in {6, 10} else 0
        short = self.top[place] < below
        if way == 1 or (way == 24 and self.opened):
            return abs(self.top[place] - below)
        if way == 2 and short and self._digit(place + 1) == 0:
            return below - self.top[place]
        if short and way in {27, 28, 29}:
            return {27: 0, 28: None, 29: self.top[place]}[way]
        if short and way == 26 and place + 1 < len(self.top):
            self.top[place + 1] = max(0, self.top[place + 1] - (below - self.top[place]))
            return 0
        if short or (way == 13 and place + 1 < len(self.top)):
            if not self._lend(place + 1) and short:
                return STUCK
            ten = 9 if way == 25 and self.printed[place] == 1 and self.top[place] == 1 else 10
            self.top[place] += ten if short or self.top[place] < 10 else 0
            self.opened += 1
        return self.top[place] - below

    def _last(self) -> int:
        return max(place for place, digit in enumerate(self.below) if digit is not None)

    def _digit(self, place: int) -> int | None:
        return self.top[place] if place < len(self.top) else None

    def _lend(self, place: int) -> bool:  # noqa: PLR0911 -- one line a way
        """One is taken from a place, or what the way does instead; False where there is none to take."""
        way = self.way
        if place >= len(self.top):
            return False
        digit = self.top[place]
        if way == 9 or (way == 23 and self.below[place] is None):
            return True
        if way == 14:
            place = len(self.top) - 1
            digit = self.top[place]
        if way == 16:
            self.top[place] += 1
            return True
        if digit == 0:
            return self._lend_zero(place)
        if digit == 1 and way in LOWERED_AT_ONE:
            self.top[place] = LOWERED_AT_ONE[way]
            return True
        if digit == 1 and way == 21 and self._lend(place + 1):
            self.top[place] = 9
            return True
        self.top[place] -= 1
        return True

    def _lend_zero(self, place: int) -> bool:  # noqa: PLR0911 -- one line a way
        way = self.way
        if way == 8:
            return True
        if way == 17 and self.below[place]:
            self.below[place] = (self.below[place] or 0) - 1
            return True
        if way in LOWERED_AT_ZERO:
            self.top[place] = LOWERED_AT_ZERO[way]
            return True
        if way == 4 and not (place == len(self.top) - 2 and self.top[place + 1] == 1):
            self.top[place] = 9
            return True
        if way in PASSES_ZEROS:
            return self._lend(place + 1)
        if not self._lend(place + 1):
            return False
        self.top[place] = 10 if way == 22 else 9
        return True
