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
    # hundreds and thousands
    "digit-is-worth": ("digit", "worth"),  # the 4 is worth 400
    "together-are": ("number",),  # together 405
    "ten-tens-are": ("number",),  # ten tens are 100
    "ten-hundreds-are": ("number",),  # ten hundreds are 1000
    "hundreds-as-tens": ("hundreds", "tens"),  # 2 hundreds are 20 tens
    "tens-with": ("tens", "total"),  # with the 4 tens there are 24
    # comparing and rounding
    "compare-lengths": ("a", "b"),  # one has 3 digits, the other 4
    "compare-parts": ("a", "b"),  # here they differ: 400 and 300
    "compare-same": ("number",),  # both are 405
    "between-hundreds": ("number", "below", "above"),  # 348 lies between 300 and 400
    "is-already": ("number",),  # 400 is round already
    # counting
    "marks-of": ("start", "unit", "number"),  # from 300 in steps of 10 to 370
    "rule-up": ("by",),  # each number is 3 more
    "rule-down": ("by",),  # each number is 3 less
}

QUESTIONS: Mapping[str, tuple[str, ...]] = {
    "about-sum-hundreds": ("a", "b"),  # about how much is 290 + 480? (nearest hundreds)
    "about-difference": ("a", "b"),  # about how much is 71 - 38? (nearest tens)
    # hundreds and thousands
    "places-of": ("n",),  # write 405 into the chart (a part for each digit)
    "places-told": ("ones", "hundreds", "tens"),  # 5 ones, 3 hundreds, 2 tens (parts: hundreds, tens, ones)
    "how-many-tens": (),  # how many tens in all?
    "how-many-hundreds": (),  # how many hundreds in all?
    "which-is-named": ("n",),  # which is four hundred five?
    "round-to-hundred": ("n",),  # 348 is nearest to which hundred?
    "nearest-hundred-on-line": ("n",),  # which hundred is nearest to the dot at 348?
    "more-than": ("n", "by"),  # what is 100 more than 2950?
    "less-than": ("n", "by"),  # what is 100 less than 2950?
    # counting; a picture stands beside the first three
    "table-gap": (),  # which number is missing in the table?
    "arrow-at": (),  # at which number does the arrow point?
    "hop-back": ("start", "by", "hops"),  # start at 420, hop back by 10, 3 times: where do you land?
    "just-after": ("n",),  # which number comes just after 399?
    "just-before": ("n",),  # which number comes just before 500?
    "rule-adds": ("a", "b", "c", "d"),  # 4, 7, 10, 13: how much is added each time?
    "rule-takes": ("a", "b", "c", "d"),  # 13, 10, 7, 4: how much is taken away each time?
}

WORDS: frozenset[str] = frozenset({"hundreds", "thousands"})
