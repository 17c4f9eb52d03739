"""Every code an item may carry, with the names of its values: the list that `wording` has to cover.

A code means one sentence (or word) per language. Values are numbers unless a note says otherwise.
Codes of pictured skills and stories stand in `items.pictured.codes`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

STEPS: Mapping[str, tuple[str, ...]] = {
    # taking away two-digit numbers, digit by digit
    "enough-ones": ("top", "bottom"),  # 8 from 8: there are enough ones
    "too-few-ones": ("top", "bottom"),  # 2 ones, 8 to take: too few
    "open-ten": ("tens", "tens_left", "ones"),  # 6 tens become 5 tens; now 12 ones
    "take-ones": ("from", "take", "left"),  # 12 ones take away 8 ones leave 4 ones
    "take-tens": ("from", "take", "left"),  # 5 tens take away 3 tens leave 2 tens
    "check-by-adding": ("left", "taken", "start"),  # 24 + 38 = 62
}

QUESTIONS: Mapping[str, tuple[str, ...]] = {}

WORDS: Mapping[str, bool] = {}
"""Words inside rows: code → whether it comes with a count."""

OPTIONS: frozenset[str] = frozenset()
"""Option codes that are words (numerals and the signs < > = + - need none)."""
