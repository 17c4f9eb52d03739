"""The codes that items with hundreds and thousands bring, with the names of their values.

`items.codes` joins them to those of the other number skills.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

STEPS: Mapping[str, tuple[str, ...]] = {
    # taking away in three or four places: 405 - 178
    "too-few-tens": ("top", "bottom"),  # 2 tens, 8 to take: too few
    "too-few-hundreds": ("top", "bottom"),  # 2 hundreds, 8 to take: too few
    "no-ten-to-open": (),  # no ten is there to open; go on to the hundreds
    "no-hundred-to-open": (),  # no hundred is there to open; go on to the thousands
    "open-hundred": ("hundreds", "hundreds_left", "tens"),  # open one of 4 hundreds: 3 hundreds and 10 tens
    "open-thousand": ("thousands", "thousands_left", "hundreds"),  # 1 thousand and 12 hundreds
    "take-hundreds": ("from", "take", "left"),  # 3 hundreds take away 1 hundred leave 2
    "take-thousands": ("from", "take", "left"),  # 4 thousands take away 2 thousands leave 2
    "hundreds-stay": ("hundreds",),  # the 3 hundreds stay
    "thousands-stay": ("thousands",),  # the 2 thousands stay
    # adding in three or four places: 378 + 246
    "trade-hundred": ("tens", "left"),  # trade ten of the 12 tens for a hundred; 2 tens stay
    "trade-thousand": ("hundreds", "left"),  # trade ten of the 13 hundreds for a thousand; 3 stay
    "add-hundreds": ("a", "b", "sum"),  # 3 hundreds and 2 hundreds are 5 hundreds
    "add-hundreds-and-new": ("a", "b", "sum"),  # 3 hundreds, 2 hundreds and the new one are 6
    "add-thousands": ("a", "b", "sum"),  # 2 thousands and 1 thousand are 3 thousands
    "add-thousands-and-new": ("a", "b", "sum"),  # 2 thousands, 1 thousand and the new one are 4
    "about-difference": ("a", "b", "sum"),  # 70 - 40 = 30, so about 30
    # adding three or four numbers
    "ones-of-all": ("sum",),  # the ones together are 24
    "trade-tens": ("ones", "traded", "left"),  # trade 20 of the 24 ones for 2 tens; 4 ones stay
    "tens-of-all": ("sum",),  # all the tens, with the new ones, are 8
    "all-is": ("sum",),  # together 84
}

QUESTIONS: Mapping[str, tuple[str, ...]] = {
    "about-sum-hundreds": ("a", "b"),  # about how much is 290 + 480? (nearest hundreds)
    "about-difference": ("a", "b"),  # about how much is 71 - 38? (nearest tens)
}

WORDS: frozenset[str] = frozenset({"hundreds", "thousands"})
