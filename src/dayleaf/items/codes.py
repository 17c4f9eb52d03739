"""Every code an item of the number skills may carry, with the names of its values: what `wording` has to cover.

A code means one sentence (or one word) per language. Values are whole numbers. Codes of hundreds and thousands
stand in `items.large_codes`, those of equal groups in `items.group_codes`, and both are joined here; those of
pictured skills and stories stand in `items.pictured.codes`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.items import group_codes, large_codes

if TYPE_CHECKING:
    from collections.abc import Mapping

STEPS: Mapping[str, tuple[str, ...]] = {
    # taking away, digit by digit: 62 - 38
    "enough-ones": ("top", "bottom"),  # 8 ones, 2 to take: enough
    "too-few-ones": ("top", "bottom"),  # 2 ones, 8 to take: too few
    "open-ten": ("tens", "tens_left", "ones"),  # open one of 6 tens: 5 tens and 12 ones
    "take-ones": ("from", "take", "left"),  # 12 ones take away 8 ones leave 4 ones
    "take-tens": ("from", "take", "left"),  # 5 tens take away 3 tens leave 2 tens
    "check-by-adding": ("left", "taken", "start"),  # 24 + 38 = 62
    # taking away in other ways
    "tens-minus-tens": ("from", "take", "left"),  # 7 tens minus 3 tens are 4 tens
    "tens-are": ("tens", "number"),  # 4 tens are 40
    "ones-stay": ("ones",),  # the 8 ones stay
    "tens-stay": ("tens",),  # the 5 tens stay
    "split-number": ("number", "tens", "ones"),  # 38 is 30 and 8
    "first-take": ("from", "take", "left"),  # 62 - 30 = 32
    "then-take": ("from", "take", "left"),  # 32 - 8 = 24
    "jump-up": ("from", "by", "to"),  # from 47 jump 3 to 50
    "jump-back": ("from", "by", "to"),  # from 62 jump back 15 to 47
    "jumps-together": ("sum",),  # the jumps together are 15
    # adding, digit by digit: 47 + 28
    "add-ones": ("a", "b", "sum"),  # 7 ones and 8 ones are 15 ones
    "trade-ten": ("ones", "left"),  # trade ten of the 15 ones for a ten; 5 ones stay
    "add-tens": ("a", "b", "sum"),  # 4 tens and 2 tens are 6 tens
    "add-tens-and-new": ("a", "b", "sum"),  # 4 tens, 2 tens and the new ten are 7 tens
    "sum-is": ("a", "b", "sum"),  # 47 + 28 = 75
    # adding in other ways
    "first-add": ("from", "add", "sum"),  # 47 + 20 = 67
    "then-add": ("from", "add", "sum"),  # 67 + 8 = 75
    "helper-add": ("number", "helper", "ten"),  # 49 needs 1 to be 50
    "helper-off": ("from", "helper", "sum"),  # 76 with 1 taken off is 75
    "round-number": ("number", "ten"),  # 43 is near 40
    "about-sum": ("a", "b", "sum"),  # 40 + 30 = 70, so about 70
    # trading
    "same-number": ("number",),  # it is still 34
    "open-tens": ("opened", "tens", "ones"),  # open 2 of the tens: 1 ten and 24 ones
    "ten-and-number": ("tens", "ones", "number"),  # 3 tens and 4 ones are 34
    # facts that add
    "count-on": ("start", "by", "sum"),  # start at 8, count on 3: 11
    "double": ("number", "sum"),  # double 6 is 12
    "near-double": ("double", "more", "sum"),  # 12 and 1 more: 13
    "fill-ten": ("from", "moved", "left"),  # 9 takes 1 to fill the ten; 5 are left
    "ten-and": ("ones", "sum"),  # 10 and 5 are 15
    "zero-changes-nothing": ("number",),  # adding or taking 0 leaves 6 as it is
    "turn-round": ("larger", "smaller"),  # start with the larger: 8 + 2
    "pair-ten": ("a", "b"),  # 4 and 6 make ten
    "pair-double": ("number", "sum"),  # 4 and 4 are a double: 8
    "add-next": ("from", "add", "sum"),  # 10 + 7 = 17
    "partner-of-ten": ("a", "b"),  # 7 and 3 make ten
    # facts that take away
    "count-back": ("start", "by", "left"),  # start at 12, count back 3: 9
    "to-ten": ("start", "by"),  # 13 take 3 is 10
    "on-from-ten": ("by", "left"),  # 10 take 2 is 8
    "all-taken": ("number", "left"),  # 8 take away 8: all are taken, 0 are left
    "half": ("whole", "half"),  # half of 16 is 8
    "think-addition": ("part", "other", "whole"),  # 6 and 8 make 14
    "from-the-ten": ("take", "left"),  # 10 take 9 leaves 1
    "with-the-ones": ("left", "ones", "sum"),  # 1 and 5 are 6
    "parts-and-whole": ("a", "b", "whole"),  # 8 and 7 make 15
    # equations
    "side-is": ("a", "b", "sum"),  # 8 + 4 is 12
    "other-side-needs": ("part", "missing", "sum"),  # 5 and 7 make 12
    "result-grew": ("start", "result"),  # 8 became 12: more, so it was added
    "result-shrank": ("start", "result"),  # 12 became 8: less, so it was taken away
    # counting
    "next-by": ("from", "by", "to"),  # 34 and 10 more: 44
    "next-less": ("from", "by", "to"),  # 34 and 10 less: 24
    "pairs-left": ("pairs", "alone"),  # 6 pairs, 1 alone
    "rows-hold": ("a", "b"),  # row A has 6, row B has 8
    "numeral-is": ("number",),  # it is written 7
    "chart-step": ("from", "by", "to"),  # on the chart, from 34 by 10 to 44
    # place value
    "tens-digit-worth": ("digit", "value"),  # 3 tens are 30
    "compare-tens": ("a", "b"),  # 3 tens and 4 tens
    "compare-ones": ("a", "b"),  # the tens are the same; 9 ones and 2 ones
    "compare-hundreds": ("a", "b"),  # one has a hundred
    "in-order": ("first", "second", "third"),  # 46, then 60, then 64
    "between-tens": ("number", "below", "above"),  # 48 lies between 40 and 50
    "nearer-to": ("number", "ten"),  # 48 is nearer to 50
    "half-way-up": ("number", "ten"),  # 45 is half way; it goes up to 50
    "ticks-from": ("start", "ticks", "number"),  # from 40, 8 marks on: 48
    "about-place": ("number",),  # the arrow is about at 37
    "rows-of-ten": ("tens", "number"),  # about 4 tens: about 40
    **large_codes.STEPS,
    **group_codes.STEPS,
}

QUESTIONS: Mapping[str, tuple[str, ...]] = {
    # adding, taking away, equations
    "about-sum": ("a", "b"),  # about how much is 43 + 28? (answer: the sum of the nearest tens)
    "fill-bar": (),  # which number is missing in the bar picture?
    "fix-turned-take-away": ("first", "second", "left"),  # 8 - 15 = 7 is not right; write it right: [ ] - [ ] = 7
    # counting; a picture stands beside each of these
    "chart-gap": ("start",),  # find 34 on this piece of the chart: which number belongs in the empty cell?
    "hop-on": ("start", "by", "hops"),  # start at 10, hop by 5, 3 times: where do you land?
    "ten-more": ("n",),  # 10 more than 34
    "ten-less": ("n",),  # 10 less than 34
    "follow-cards-on-chart": ("n",),  # start at 34 on the hundred chart, follow the cards: which number?
    # even and odd
    "even-or-odd": ("n",),  # 12 dots in pairs: even or odd?
    "draw-pairs": ("n",),  # draw 12 dots in pairs
    "which-row-more": (),  # which row has more?
    # place value
    "how-many-in-all": (),  # how many in all?
    "how-many-tens-ones": (),  # how many tens, how many ones? (parts: tens, ones)
    "tens-and-ones-of": ("n",),  # write 37 into the chart (parts: tens, ones)
    "value-of-digit": ("digit", "n"),  # what is the 3 in 37 worth?
    "digit-worth": ("digit", "n"),  # the 3 in 37 is worth [ ]
    "open-one-ten": ("tens", "ones"),  # 3 tens 4 ones: open one ten (parts: tens, ones)
    "trade-ten-ones": ("tens", "ones"),  # 3 tens 13 ones: trade ten ones (parts: tens, ones)
    # comparing, ordering, number line, rounding
    "larger-of": ("a", "b"),  # which is larger?
    "largest-of": ("a", "b", "c"),  # which is largest?
    "order-from-smallest": ("a", "b", "c"),  # 64, 46, 60: smallest first (three parts)
    "mark-on-line": ("n",),  # mark 37 on the line
    "which-point": ("n",),  # which point is at 37?
    "about-which-number": (),  # about which number does the arrow show?
    "round-to-ten": ("n",),  # 48 is nearest to which ten?
    "nearest-ten-on-line": ("n",),  # which ten is nearest to the dot at 48?
    "about-how-many": (),  # about how many, to the nearest ten?
    "which-jump": (),  # which sum does the jump show?
    **large_codes.QUESTIONS,
    **group_codes.QUESTIONS,
}
"""Question codes with the names of their values; parts follow the sentence in their order."""

WORDS: frozenset[str] = frozenset({"tens", "ones", "number-name", *large_codes.WORDS, *group_codes.WORDS})
"""Words inside rows. `tens` and `ones` may come with a count (3 tens, 1 ten); `number-name` stands for the name
of its count (thirty-four)."""

OPTIONS: frozenset[str] = frozenset({"true", "not-true", "even", "odd", "same", "tens", "none-of-these"})
"""Option codes that are words. Codes made of digits, letters A to D and signs are printed as they are, with the
signs of print (`34-20` as 34 − 20)."""
