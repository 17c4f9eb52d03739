"""Every code that items with pictures and stories carry, with the names of its values.

A comment gives the sense in English; `wording` says it in a language. Values are numbers unless the
comment says *code*: then they are codes that wording has to say, too.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.items.pictured import almanac_codes, daily_codes, measure_codes, part_codes, telling_codes

if TYPE_CHECKING:
    from collections.abc import Mapping

CELLS: Mapping[str, tuple[str, ...]] = {
    # the situations of stories about adding and taking away, with the numbers they tell
    "add-to-result": ("start", "change"),
    "add-to-change": ("start", "result"),
    "add-to-start": ("change", "result"),
    "take-from-result": ("start", "change"),
    "take-from-change": ("start", "result"),
    "take-from-start": ("change", "result"),
    "put-together-total": ("a", "b"),
    "put-together-addend": ("total", "a"),
    "put-together-both": ("total",),
    "compare-difference-more": ("bigger", "smaller"),
    "compare-difference-fewer": ("bigger", "smaller"),
    "compare-bigger-more": ("smaller", "difference"),  # Q has 9, P has 4 more than Q: how many has P?
    "compare-bigger-fewer": ("smaller", "difference"),  # Q has 9, Q has 4 fewer than P: how many has P?
    "compare-smaller-fewer": ("bigger", "difference"),  # P has 9, Q has 4 fewer than P: how many has Q?
    "compare-smaller-more": ("bigger", "difference"),  # P has 9, P has 4 more than Q: how many has Q?
    "put-together-three": ("a", "b", "c"),
}
"""Story cells. Compare stories name two people, P and Q, the first of whom has the bigger number; the others one.

Where a story has a unit, the noun is something long (`LONG_NOUNS`) and the numbers are lengths: a
taking away is a cutting off, a putting together is a laying or tying end to end, *more* is *longer*.
"""

PEOPLE: frozenset[str] = frozenset({"child", "brother", "gran", "lock-keeper", "mother", "father"})
"""Who stories are about; wording has the names of the course's setting."""

NOUNS: frozenset[str] = frozenset(
    {
        "apple",
        "bean",
        "brick",
        "button",
        "carrot",
        "egg",
        "feather",
        "jar",
        "pumpkin",
        "radish",
        "seed",
        "shell",
        "stick",
        "stone",
    }
)
"""Countable things of stories and graphs."""

LONG_NOUNS: frozenset[str] = frozenset({"rope", "plank", "ribbon", "string", "hose"})
UNITS: frozenset[str] = frozenset({"cm", "m"})

QUESTIONS: Mapping[str, tuple[str, ...]] = {
    # data; group, first and second are codes of nouns
    "tally-how-many": (),  # How many in all?
    "graph-how-many": ("group",),  # How many carrots?
    "table-how-many-more": ("first", "second"),  # How many more carrots than beans?
    "graph-how-many-more": ("first", "second"),
    "graph-how-many-fewer": ("first", "second"),  # How many fewer beans than carrots?
    "graph-how-many-both": ("first", "second"),  # How many carrots and beans altogether?
    # time
    "clock-draw": ("h", "m"),  # Draw the hands: 4:30
    # shapes; kind is a code in SHAPE_KINDS
    "tick-shapes": ("kind",),  # Tick each triangle.
    "name-shape": (),  # What is this shape?
    "name-solid": (),  # What is this solid called?
    "find-solid": ("solid",),  # code. Which one is the cone?
    "fold-matches": (),  # Fold on the dashed line. Do both halves match?
    "fill-with": ("whole", "piece"),  # codes in FILLED. How many triangles like the small one fill the hexagon?
    # lengths
    "ring-longest": (),  # Which is the longest?
    "ring-shortest": (),  # Which is the shortest?
    "how-long-cm": (),  # How long is it, in centimeters? (beside a printed ruler)
    "about-how-long-b": (),  # The short strip is 1 cm long. About how long is the other?
    "draw-line-cm": ("n",),  # Draw a line 8 cm long.
    "stop-mark": ("start", "n"),  # A line starts at 2 on the ruler. It is 8 cm long. At which number does it stop?
    "choose-tool": ("thing",),  # code. Which tool fits best to measure a door?
    "choose-unit": ("thing",),  # code. Which unit fits best for a door?
    "cm-or-m": ("thing", "n"),  # code. A door: about 2 centimeters or about 2 meters?
    "fix-measure": ("shown",),  # Someone read 7 cm. How long is it really?
    # scales
    "read-thermometer": ("unit",),  # code F or C. How many degrees?
    # maps and steps
    "what-is-in": ("square",),  # a square such as C4, as it stands. What is in square C4?
    "square-of": ("thing",),  # code. In which square is the goat?
    "arrows-home": ("thing",),  # code. Which steps lead to the gate?
    "moves-to": ("thing",),  # code. How many moves is the path to the gate?
    # first and second are codes in WAYS. Start at B2. Go 3 to the right, then 2 up. Where do you stop?
    "where-stop": ("start", "first", "n", "second", "m"),
    **part_codes.QUESTIONS,
    **daily_codes.QUESTIONS,
    **measure_codes.QUESTIONS,
    **almanac_codes.QUESTIONS,
    **telling_codes.QUESTIONS,
}

OPTIONS: frozenset[str] = frozenset(
    {
        # names of shapes and solids
        "circle", "triangle", "square", "rectangle", "hexagon", "pentagon", "diamond", "oval", "not-a-triangle",
        "cube", "box", "cone", "cylinder", "sphere", "pyramid",
        # yes and no
        "yes", "no",
        # tools and units
        "ruler", "meter-stick", "tape", "cm", "m",
        *daily_codes.OPTIONS,
        *measure_codes.OPTIONS,
        *almanac_codes.OPTIONS,
    }
)  # fmt: skip
"""Option codes that are words, beside those of THINGS.

Letters a … i mean lettered pictures; squares (C4) and numerals stand as they are.
"""

SHAPE_KINDS: frozenset[str] = frozenset(
    {"triangle", "square", "rectangle", "hexagon", "four-sides", "circle", "rhombus", "quadrilateral"}
)
"""What a child is asked to tick; `four-sides` is any closed shape with four straight sides."""

THINGS: frozenset[str] = frozenset(
    {
        # to measure
        "pencil", "book", "leaf", "spoon", "shoe", "finger", "door", "table", "boat", "room",
        "garden-path", "wall", "boat-deck", "yard",
        # to measure around
        "tree-round", "head-round", "bucket-round", "jar-round",
        # on a map
        "gate", "tree", "well", "hut", "bridge", "flower", "heron", "bell", "bench",
        *measure_codes.THINGS,
    }
)  # fmt: skip

WORDS: Mapping[str, bool] = {
    "cm": False,
    "m": False,
    "faces": False,
    "edges": False,
    "corners": False,
    "flat-faces": False,
    "degrees": False,
    "longer-by": False,
    **dict.fromkeys(part_codes.WORDS, False),
    **daily_codes.WORDS,
    **measure_codes.WORDS,
    **almanac_codes.WORDS,
    **telling_codes.WORDS,
}
"""Words inside rows: code → whether it comes with a count.

Nouns of NOUNS stand there too, with the count 2, and the steps of TASKS.
"""

WAYS: frozenset[str] = frozenset({"right", "left", "up", "down"})

FILLED: frozenset[str] = frozenset({"hexagon", "rhombus", "triangle", "square", "rectangle"})
"""Shapes filled and shapes to fill them with."""

TASKS: Mapping[str, tuple[str, ...]] = {
    # steps of everyday tasks, in the one order that works; each step is a word code `task.step`
    "plant-bean": ("fill-pot", "make-hole", "drop-bean", "cover-bean"),
    "wash-jar": ("take-lid-off", "fill-water", "pour-out", "dry-jar"),
    "tie-boat": ("steer-to-bank", "step-off", "wrap-rope", "make-knot"),
    "send-letter": ("write-letter", "fold-letter", "into-envelope", "close-envelope"),
    "boil-egg": ("pour-water", "heat-water", "egg-in", "peel-egg"),
    "make-soup": ("pick-carrots", "wash-carrots", "cut-carrots", "cook-carrots"),
    "open-lock": ("boat-in", "close-gate", "fill-lock", "boat-out"),
    "build-wall": ("dig-ground", "lay-first-row", "lay-second-row", "lay-top-row"),
}

STEPS: Mapping[str, tuple[str, ...]] = {
    "count-fives": ("fives", "value"),  # 3 bundles are 15
    "count-on-marks": ("marks", "total"),  # and 2 marks make 17
    "read-bar": ("group", "value"),  # code. The top of the bar is at 7
    "count-pictures": ("group", "value"),  # code. Each picture is one: 7
    "read-two": ("first", "a", "second", "b"),  # codes. Carrots 9, beans 4
    "write-take-away": ("a", "b", "result"),  # 9 − 4 = 5
    "write-add": ("a", "b", "result"),  # 9 + 4 = 13
    "write-add-three": ("a", "b", "c", "result"),  # 4 + 6 + 3 = 13
    "long-hand-12": (),  # The long hand is on 12: a full hour
    "long-hand-6": (),  # The long hand is on 6: half past
    "short-hand-on": ("h",),  # The short hand is on 4
    "short-hand-between": ("h", "next"),  # The short hand is between 4 and 5
    "turned-keeps-name": ("kind",),  # code. Count sides and corners. Turning does not change the name
    "closed-and-straight": ("kind",),  # It must be closed and have straight sides
    "solid-is": ("solid",),  # code of the solid: its flat faces, edges, points described
    "count-all-round": ("n",),  # Count the ones at the back, too: 6
    "fold-and-match": (),  # Fold: each point must meet its partner
    "pieces-fill": ("n",),  # The pieces fill it with no gap: 6
    "line-up-ends": (),  # Line up one end, look at the other
    "zero-at-end": ("n",),  # Put zero at one end; the other end is at 6
    "from-to-spaces": ("start", "end", "result"),  # From 3 to 8 are 5 spaces
    "known-length": ("n",),  # Think of the short strip laid along the long one: about 6 times
    "round-needs-tape": (),  # Round things need a tape: it bends
    "small-needs-cm": (),  # Short things: ruler, centimeters
    "long-needs-m": (),  # Long things: meter stick, meters
    "mark-is-worth": ("step",),  # Each small mark is worth 2
    "level-with-label": ("value",),  # The top is level with 20
    "up-from-label": ("label", "marks", "value"),  # From 20 up 3 marks: 26
    "across-then-up": ("letter", "number"),  # letter is a code such as C. Across to C, up to 4
    "do-each-step": ("count",),  # Do each step; there are 5 moves
    "leg": ("way", "n", "square"),  # codes. 3 to the right: D2
    "what-must-come-first": (),  # Ask: what must be done before this?
    "draw-bar": ("whole", "a", "b", "asked"),  # asked: a code of whole, a, b. The bar: whole 15, part 8, part ?
    "tell-backward": (),  # Tell the story backward
    "answer-with-unit": ("value", "unit"),  # code. The answer: 25 cm
    **daily_codes.STEPS,
    **measure_codes.STEPS,
    **part_codes.STEPS,
    **almanac_codes.STEPS,
    **telling_codes.STEPS,
}
