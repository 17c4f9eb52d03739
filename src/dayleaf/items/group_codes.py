"""The codes that items about equal groups bring, with the names of their values.

`items.codes` joins them to those of the other number skills.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

STEPS: Mapping[str, tuple[str, ...]] = {
    # multiplying
    "groups-of-same": ("groups", "size"),  # 3 groups of 4
    "count-by": ("by", "times", "total"),  # count by fives, 6 times: 30
    "double-again": ("number", "sum"),  # and double 14 again: 28
    "one-more-group": ("from", "add", "sum"),  # 12 and one more group of 6: 18
    "nothing-in-groups": ("total",),  # no groups, or groups with nothing in them: 0
    "one-group": ("total",),  # one group of 6 is 6
    "first-times": ("a", "b", "product"),  # first 5 × 7 = 35
    "then-times": ("a", "b", "product"),  # then 2 × 7 = 14
    "times-is": ("a", "b", "product"),  # so 3 × 4 = 12
    "rows-make": ("rows", "columns", "total"),  # 3 rows of 4 are 12
    "turn-the-array": ("product",),  # turning the array keeps the total: 15
    "times-tens": ("factor", "tens", "product"),  # 4 times 3 tens are 12 tens
    # dividing
    "think-times": ("factor", "other", "product"),  # 5 × 6 = 30
    "divide-is": ("total", "by", "quotient"),  # so 30 ÷ 5 = 6
    "jumps-to-zero": ("total", "by", "jumps"),  # from 15 jumps of 5 to zero: 3 jumps
    "deal-out": ("total", "groups", "each"),  # deal out 12 to 3, one at a time: 4 each
    "make-groups": ("total", "size", "groups"),  # ring groups of 4 in 12: 3 groups
    "some-left": ("total", "used", "left"),  # 12 of the 13 are shared; 1 is left over
}

QUESTIONS: Mapping[str, tuple[str, ...]] = {
    "groups-in-all": (),  # how many in all? (beside rings with things)
    "draw-groups": ("groups", "size"),  # draw 3 groups of 4; how many in all?
    "which-groups": ("groups", "size"),  # which picture shows 3 equal groups of 4?
    "draw-array": ("rows", "columns"),  # draw 3 rows of 4 dots; how many dots?
    "take-again": ("n", "by"),  # take 5 from 15 again and again down to 0: how many times?
    "draw-share": ("n", "groups"),  # draw 12 dots shared by 3: how many for each?
    "draw-grouping": ("n", "size"),  # draw 12 dots in groups of 4: how many groups?
    "draw-share-left": ("n", "groups"),  # 13 dots shared by 4 (parts: each, left over)
}

WORDS: frozenset[str] = frozenset({"rows-of"})
