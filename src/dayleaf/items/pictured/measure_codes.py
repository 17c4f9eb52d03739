"""Codes of items about inches and feet, programs with turns and repeats, and polygons; `codes` takes them in."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

QUESTIONS: Mapping[str, tuple[str, ...]] = {
    "laid-well": ("n",),  # Which line of cubes measures the strip well? How many cubes long is it?
    "lay-cubes": ("n",),  # Lay 7 cubes end to end. Find a thing that is just as long
    # p, what and unit are codes
    "mass-both": ("p", "what", "unit", "a", "b"),  # Wren has 12 kg of beans. Ivo brings 7 kg more. How much in all?
    "mass-left": ("p", "what", "unit", "a", "b"),
    "mass-groups": ("p", "what", "unit", "groups", "size"),  # Wren has 3 bags of 5 kg each. How much in all?
    "mass-shared": ("p", "what", "unit", "total", "groups"),
    "scale-then-more": ("p", "what", "unit", "b"),  # Read the scale. Wren adds 6 L. How much is it then?
    "scale-then-less": ("p", "what", "unit", "b"),
    # programs with a part done again; turn is a code in the section `card`
    "cards-for-path": (),  # Which cards walk along the line?
    "stairs-end": ("times", "a", "turn", "b"),  # 3 times: forward 2, turn right, forward 1, turn back
    "wrong-card-again": ("times", "cards"),  # The cards are done 4 times. One is wrong
    "fix-inches": ("shown",),  # The answer 10 inches is not right. How long is it?
    "draw-line-inches": ("n",),  # Draw a straight line 4 inches long.
    "why-more-cm": ("inches", "cm"),  # It is 5 inches long. It is 13 cm long, too. Why are there more centimeters?
    "inches-in-feet": ("n",),  # How many inches are 2 feet?
    "about-how-many-feet": ("thing",),  # code. A door: about how many feet?
    "inches-or-feet": ("thing", "n"),  # code. A spoon: about 6 inches or about 6 feet?
    "about-how-many-inches": (),  # The short strip is 1 inch long. About how many inches is the long one?
    "guess-then-measure": (),  # Guess first. Then read the ruler: how many inches?
    # programs; turn is a code in the section `card`
    "where-after-turn": ("n", "turn", "m"),  # Go forward 2. Turn right. Go forward 3. Where do you stop?
    "cards-to-gate": (),  # Which cards lead to the gate?
    "squares-in-all": (),  # How many squares does the mover go?
    "loop-for": ("n", "b"),  # Go 8 squares, 2 at a time. Which cards do it?
    "wrong-card": ("cards",),  # codes, as the options show them. Which card is wrong? Which belongs there?
    "if-even": ("a", "b", "c"),  # If a number is even, go right. If not, go up. …
    "if-more-than-six": ("a", "b", "c"),
    "what-is-left": (),  # What is to the left of the boat?
    "what-is-right": (),
    "what-is-up": (),
    "what-is-down": (),
    "at-its-left": (),  # Look where its nose points. What is at its left hand?
    "at-its-right": (),
    "draw-left": ("thing",),  # code. Draw a dot to the left of the tree.
    "draw-right": ("thing",),
    "draw-up": ("thing",),
    "draw-down": ("thing",),
    # polygons
    "fits-on-a": (),  # Which one fits exactly on A? You may turn it.
    "draw-corners": ("n",),  # Draw a shape with 5 corners.
    "draw-square-corner": ("n",),  # … Make one a square corner.
    "draw-equal-sides": ("n",),  # … Make two sides equally long.
    "draw-uneven-sides": ("n",),  # … Make all sides of different length.
    "closed-corners": ("n",),  # Which one is closed and has 4 corners?
    "every-is": ("kind", "family"),  # codes. Every square is a rectangle.
    "draw-pieces": ("whole", "n", "piece"),  # codes. Draw lines: make 2 triangles out of the square.
    # weights and capacities
    "unit-for": ("thing",),  # code. Which unit fits best for a cat?
    "about-ounces-pounds": ("thing", "n"),  # code. A cat: about 8 ounces or about 8 pounds?
    "about-grams-kilograms": ("thing", "n"),
    "about-milliliters-liters": ("thing", "n"),
    "which-heavier": (),  # Which one is heavier?
    "pints-or-quarts": ("n",),  # Which is more: 3 pints or 3 quarts?
    "tall-or-wide": ("a", "b"),  # The tall jar holds 3 cups, the wide jar 5 cups. Which holds more?
    # line plots; unit is a code
    "sticks-this-long": ("n", "unit"),  # How many sticks are 5 cm long?
    "most-often": ("unit",),  # Which length comes most often? How many cm?
}

OPTIONS: frozenset[str] = frozenset(
    {
        "cm-are-smaller",
        "it-is-longer-in-cm",
        "one-number-is-wrong",
        "inches",
        "feet",
        "quadrilateral",
        "none-of-these",
        "four-sides",
        *(f"not-{kind}" for kind in ("triangle", "square", "rectangle", "rhombus", "quadrilateral", "hexagon")),
        "not-four-sides",
        "ounces",
        "pounds",
        "grams",
        "kilograms",
        "milliliters",
        "liters",
        "pints",
        "quarts",
        "tall-jar",
        "wide-jar",
    }
)

THINGS: frozenset[str] = frozenset(
    {
        "bed",
        "window",
        "bread-slice",
        "one-egg",
        "an-apple",
        "letter-paper",
        "a-mouse",
        "bread-loaf",
        "a-cat",
        "a-pumpkin",
        "water-bucket",
        "a-goose",
        "a-brick",
        "paper-clip",
        "a-dog",
        "spoonful",
        "drinking-glass",
        "small-cup",
        "egg-shell",
        "jam-jar",
        "bucket",
        "bath-tub",
        "soup-pot",
        "watering-can",
        "fish-tank",
        "pillow",
        "brick",
        "balloon",
        "apple",
        "hat",
        "stone",
        "paper-bag",
        "hammer",
    }
)

WORDS: Mapping[str, bool] = {
    "cubes-long": False,
    "inches": False,
    "feet": True,
    "yards": True,
    "inches-and": False,
    "equal-parts": False,
    "kg": False,
    "g": False,
    "lb": False,
    "mL": False,
    "L": False,
    "cups": True,
    "pints": True,
    "quarts": True,
    "gallons": True,
    "tall-jar": False,
    "wide-jar": False,
    "small-jar": False,
    "sides": False,
    "square-corners": True,
    # things to match: what stands at either side
    "rows-of-each": True,
    "times-forward": False,
    "squares-far": False,
    "and-cents": False,
    "halves": True,
    "thirds": True,
    "fourths": True,
    "flat-faces-each": True,
    **dict.fromkeys(("circle", "triangle", "square", "quadrilateral", "pentagon", "hexagon"), False),
    **dict.fromkeys(("cube", "pyramid", "cylinder", "cone", "sphere"), False),
}

STEPS: Mapping[str, tuple[str, ...]] = {
    "no-gap-count": ("n",),  # No gap, one size, end to end: 7
    "units-touch": (),  # Units of one size touch, with no gap and no overlap
    "scale-shows": ("value",),  # The scale shows 14
    "square-is": ("n",),  # One side: 2 ahead, then turn
    "four-times": (),  # Four sides: the turn belongs inside
    "stair-is": ("a", "b"),  # One stair: 2 ahead, turn, 1 ahead, turn back
    "so-many-stairs": ("n",),  # That is done 3 times
    "card-there": ("card",),  # code in the section card. The card there: turn left
    "nearer-inch": ("low", "n"),  # The end is past 3. It is nearest to 4
    "both-sides": ("inches", "cm"),  # Read both sides: 5 inches, 13 cm
    "smaller-unit-more": (),  # Centimeters are smaller, so more of them fit
    "unit-feet-inches": (),  # 1 foot is 12 inches
    "unit-yards-feet": (),  # 1 yard is 3 feet
    "so-many-units": ("a", "b", "from", "to"),  # codes of units. So 2 feet are 24 inches
    "ruler-is-a-foot": ("n",),  # A long ruler is one foot. About 7 of them fit
    "fingers-or-ruler": (),  # Two fingers are about an inch, a long ruler is a foot
    "parts-an-inch": ("n",),  # Each inch has 4 equal parts
    "past-the-inch": ("inches", "top", "parts"),  # 3 whole inches and 1 of 4 parts
    "go-ahead": ("n", "square"),  # Go ahead 2: C4
    "nose-points": ("way",),  # code. Turn: now the nose points right
    "loop-is": ("a", "b", "n"),  # 4 times 2 squares are 8 squares
    "follow-to-wrong": ("n",),  # Follow the line. Card 3 leaves it
    "card-needed": ("way",),  # code. The line goes up there
    "check-each-number": (),  # Check each number anew. Do one of the two
    "find-the-side": (),  # Your pencil hand tells left from right
    "stand-like-mover": (),  # Turn the page until its nose points up
    "turn-and-lay-on": (),  # Turn it and lay it on: every edge must fit
    "closed-with-sides": ("n",),  # It must be closed, with 5 straight sides
    "mark-and-count": ("n",),  # Mark where you start. Count 5 sides and 5 corners
    "sides-name": ("n", "name"),  # code. A shape with 5 sides is a pentagon
    "family-square": (),  # 4 square corners and 4 equal sides
    "family-rectangle": (),  # 4 square corners; a square has them, too
    "family-rhombus": (),  # 4 equal sides; a square has them, too
    "family-quadrilateral": (),  # 4 straight sides, closed
    "lay-the-checker": ("n",),  # Lay the corner of a paper on each corner: 2 fit
    "pieces-no-gap": ("n",),  # 4 pieces with no gap between them
    "fits-ounces-pounds": (),  # A slice of bread is about an ounce, a loaf about a pound
    "fits-grams-kilograms": (),  # A paper clip is about a gram, a liter of water a kilogram
    "fits-milliliters-liters": (),  # A spoon holds a few milliliters, a big bottle a liter
    "hold-or-weigh": (),  # Hold both. Size does not tell
    "lower-pan": (),  # The heavier side hangs lower
    "count-the-cups": (),  # Count the cups; height does not tell
    "cups-a-pint": (),  # 1 pint is 2 cups
    "pints-a-quart": (),  # 1 quart is 2 pints
    "quarts-a-gallon": (),  # 1 gallon is 4 quarts
    "marks-over": ("n", "count"),  # Over the 5 stand 4 marks
}
