"""Codes of items that are built with things, told aloud, drawn, or ringed in groups; `codes` takes them in."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

QUESTIONS: Mapping[str, tuple[str, ...]] = {
    # built with things
    "build-add": ("a", "b"),  # Build 47 and 28 with blocks. Put them together. How many in all?
    "build-take": ("a", "b"),  # Build 62 with blocks. Take 38 away. How many are left?
    "build-number": ("n",),  # Build 325 with blocks
    "build-count": ("n",),  # Count out 14 things
    "build-rows": ("a", "b"),  # Lay 7 things in one row, 5 in another. Which row has more?
    "build-pairs": ("n",),  # Lay 13 things in pairs. Even or odd?
    "build-share": ("n", "groups"),  # Share 12 things among 3. How many in each?
    "build-compare": ("a", "b"),  # Build 39 and 42. Which is larger?
    "build-trade": ("tens", "ones"),  # Lay 2 tens and 15 ones. Trade ten ones for a ten. What is there now?
    "build-open": ("tens", "ones"),  # Lay 5 tens and 2 ones. Open one ten. What is there now?
    "build-with-tens": ("n", "tens"),  # Build 34 with 2 tens and ones. How many ones?
    "build-tens-only": ("n",),  # Build 325 with tens and ones only. How many tens?
    "build-tens": ("n",),  # Lay 13 tens. Trade ten of them for a hundred. Which number is it?
    "build-hundreds": ("n",),
    "build-trains-short": ("a", "b", "c"),  # Make trains of 7, 4 and 9 cubes. Lay the shortest first
    "build-trains-long": ("a", "b", "c"),
    "build-cups": ("n",),  # Fill 3 pints with a cup. How many cups?
    "build-hold": ("first", "second"),  # codes of nouns. Hold a pillow in one hand, a brick in the other
    "build-solid": ("solid",),  # code. Build a cube from sticks and balls of clay. How many sticks? How many balls?
    "build-fill": ("whole", "piece"),  # codes. Cut out triangles like the small one. Fill the hexagon
    "build-pieces": ("whole", "n", "piece"),  # codes. Lay 2 triangles so that they make a square
    # told; the values are those of the skill's own row, question or story
    "why-compensate": ("a", "b"),
    "why-split": ("a", "b"),  # 47 + 25: add the tens first, then the ones. Why does that work?
    "why-split-hundreds": ("a", "b"),
    "why-near-double": ("a", "b"),
    "why-take-tens-first": ("a", "b"),
    "why-up-from": ("a", "b"),
    "why-check-adds": ("a", "b", "left"),
    "why-wrong-card": ("start", "goal"),  # squares. The cards go from A1 to C3. One is wrong. Which one?
    "why-before": ("first", "then"),  # words of TASKS. Why must the one come before the other?
    "why-rule": ("a", "b", "c", "d"),  # 4, 7, 10, 13: what is the rule?
    "why-left-over": ("n", "k"),  # 13 are shared among 4. Is something left over?
    "why-share": ("n",),  # Is a fourth of the sheet hatched?
    "why-pieces": ("whole", "n", "piece"),  # codes. 6 triangles fill the hexagon. How can you be sure?
    "why-every": ("kind", "family"),  # codes. Every square is a rectangle. Is that true?
    "why-kind": ("kind",),  # code. Which ones are rectangles?
    "why-more-small-units": ("inches", "cm"),
    "why-not-from-zero": ("start",),  # The strip begins at 3 on the ruler. How do you find its length?
    "why-same-cents": ("n",),  # Show 30 cents in two ways. Why are both the same?
    "why-split-times": ("a", "b"),  # 7 × 6 is 5 × 6 and 2 × 6. Why?
    "why-all-ways": ("n",),  # 7 in two boxes. How do you know that you have all ways?
    "why-not-needed-gets": ("p", "noun", "x", "a", "b"),
    "why-not-needed-gives": ("p", "noun", "x", "a", "b"),
    # dots to ring
    "ring-groups-of": ("n", "size"),  # Ring groups of 3. How many groups?
    "ring-shares": ("n", "groups"),  # Ring 3 fair shares. How many in each?
    "ring-tens": (),  # Ring groups of ten. How many groups? How many are not ringed?
    # drawn; nouns and kinds are codes
    "draw-shape-large": ("kind",),
    "draw-shape-small": ("kind",),
    "draw-shape-turned": ("kind",),
    "draw-fold-line": (),
    "draw-level": ("n", "unit"),  # Color the thermometer up to 26 degrees
    "draw-graph": ("first", "a", "second", "b", "third", "c", "fourth", "d"),
    "draw-plot": ("lengths", "unit"),  # lengths as they stand. Sticks of 3, 4, 4, 6 cm: draw a mark for each
    "told-how-many-more": ("first", "a", "second", "b", "third", "c", "fourth", "d"),
    "told-how-many-fewer": ("first", "a", "second", "b", "third", "c", "fourth", "d"),
    "told-how-many-both": ("first", "a", "second", "b", "third", "c", "fourth", "d"),
    # measured
    "guess-then-measure-cm": (),
    "measure-at-home": ("thing",),  # code. Measure a door with a meter stick
    # walked
    "path-from": ("thing", "first", "n", "second", "m"),  # codes. Start at the tree. Go 2 right, then 1 up
}

WORDS: Mapping[str, bool] = dict.fromkeys(
    ("go-right", "go-left", "go-up", "go-down", "all-round", "long-side", "short-side"), False
)

STEPS: Mapping[str, tuple[str, ...]] = {
    "build-then-count": ("n",),  # Count the blocks: hundreds, tens, ones. 75
    "hold-both": (),  # Hold both and wait. Then look at a balance
    "sticks-and-balls": ("edges", "corners"),  # 12 edges need 12 sticks, 8 corners 8 balls
    "trains-in-order": ("first", "second", "third"),
    "so-many-rings": ("groups", "left"),
    "up-to-mark": ("value",),  # Color up to 26
    "marks-for-sticks": ("n", "count"),  # n as it stands. Over 4 draw 2 marks
    "bar-for": ("group", "value"),  # code. Apples: 7 high
    "measure-both-sides": ("a", "b"),
    "ends-together": (),  # Each time lay the stick just where it ended
    "every-row-whole": (),
    "one-more-one-less": ("n",),
    "no-number-asks": ("x",),
}
