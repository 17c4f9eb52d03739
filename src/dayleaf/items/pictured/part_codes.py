"""The codes of stories about equal groups, of shares and of areas, with the names of their values.

`items.pictured.codes` joins them to its own.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

STEPS: Mapping[str, tuple[str, ...]] = {
    "parts-of-one": ("n",),  # Cut from 0 to 1 in 4 equal parts
    "marks-from-zero": ("k",),  # From 0 go on 3 parts
    "write-times": ("a", "b", "result"),  # 3 × 4 = 12
    "write-divide": ("a", "b", "result"),  # 12 ÷ 3 = 4
    "total-known": (),  # the story tells the total: divide
    "total-asked": (),  # the story asks for the total: multiply
    # shares; n picks the name of the parts (halves, thirds, fourths)
    "parts-hatched": ("k", "n"),  # 1 of 3 equal parts is hatched
    "equal-parts": ("n",),  # 3 equal parts are thirds
    "cuts-and-parts": ("cuts", "n"),  # 2 cuts make 3 parts
    "lay-one-on-other": (),  # lay one part on the other: do they cover each other?
    "top-and-bottom": ("k", "n"),  # write 1 on top, 3 at the bottom
    "whole-is": ("n",),  # one whole is 3 thirds
    "more-parts-smaller": ("few", "many"),  # a whole in 4 parts has smaller parts than one in 3
    "count-squares-of": ("k", "n"),  # 8 of 16 squares are hatched
    "share-has-squares": ("k", "n"),  # the share is 8 of 16 squares
    "each-part-cut": ("m", "k", "result"),  # each part is cut in 2: 1 part becomes 2
    "equal-groups-one": ("groups", "each"),  # 3 equal groups, 4 in one of them
    # areas
    "count-row-by-row": ("total",),  # count row by row: 20
    "one-way-rows": ("rows", "columns"),  # one way: 3 rows of 4
    "two-sides": ("a", "b", "sum"),  # one long and one short side: 10
    "and-again": ("half", "all"),  # twice 10: 20
}

QUESTIONS: Mapping[str, tuple[str, ...]] = {
    "point-at-fraction": ("k", "n"),  # Which point is at 3/4?
    # shares
    "hatched-and-all": (),  # how many parts are hatched? how many equal parts are there?
    "which-shares": ("n", "shape"),  # shape is a code. Which circle is cut into halves?
    "cut-into": ("n",),  # draw lines that cut it into thirds
    "cuts-for": ("n",),  # how many cuts make thirds of the strip?
    "parts-equal": (),  # are the parts equal?
    "which-fraction": (),  # which fraction of the shape is hatched?
    "parts-make-whole": ("n",),  # how many thirds make one whole?
    "larger-share": ("a", "b"),  # a and b as printed, 1/3 and 1/4. Which is more of the same pie?
    "is-share": ("n",),  # is half of the sheet hatched?
    "hatch-share": ("n",),  # hatch half of the squares
    "parts-as-much": ("k", "b", "n"),  # how many of the 4 parts are as much as 1/2?
    "ring-share": ("n",),  # ring a third of the dots: how many?
    # areas
    "squares-fill": (),  # how many squares?
    "draw-squares": ("rows", "columns"),  # draw 3 rows of 4 squares; how many squares?
    "squares-cover": (),  # how many squares are hatched?
    "draw-area": ("n",),  # draw a rectangle that covers 12 squares
    "draw-rectangle": ("rows", "columns"),  # draw a rectangle of 3 rows and 4 columns; how many squares?
    "walk-round": ("a", "b"),  # a garden is 6 m long and 4 m wide; how far is it all the way round?
}

WORDS: frozenset[str] = frozenset({"one-of-2", "one-of-3", "one-of-4", "rows-of", "square-units"})
"""`one-of-3` is the fraction 1/3."""
