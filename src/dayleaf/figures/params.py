"""The parameters of every kind of picture: names, types, what happens when one is left out.

Items build `Figure(kind, params)` from this table and nothing else. Rules that hold for all kinds:

- switches are the whole numbers 0 and 1;
- `question=1` says that the number the picture shows is asked: the alternative text then describes
  what is seen and never gives that number, and a printed value that would tell it is left out;
- words inside a picture (headings, categories, names) are *codes*; `draw` gets their words in the
  page's language from `wording.pictures.figure_texts` and prints a code without a word as it stands.
"""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING, Final, Literal

if TYPE_CHECKING:
    from collections.abc import Mapping

Type = Literal["int", "str", "ints", "strs"]
Value = int | str | tuple[int, ...] | tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Param:
    """One parameter; a `default` of None means that it must be given."""

    name: str
    type: Type
    default: Value | None
    meaning: str


def _p(name: str, kind: Type, default: Value | None, meaning: str) -> Param:
    return Param(name, kind, default, meaning)


_QUESTION = _p("question", "int", 0, "1: the number shown is asked")
_HIDDEN = "names of the boxes left empty"
_LETTERS = _p("letters", "int", 1, "1: A, B, C … are printed beside the things when there are several")

_TABLE: dict[str, tuple[Param, ...]] = {
    "none": (),
    # counting
    "ten-frame": (
        _p("a", "int", None, "filled circles, 0–20"),
        _p("b", "int", 0, "rings after them"),
        _p("frames", "int", 0, "1 or 2; 0: as many as needed"),
        _p("apart", "int", 0, "1: the rings start in the second frame"),
        _p("crossed", "int", 0, "how many of the filled circles, from the last back, are crossed out"),
        _QUESTION,
    ),
    "counters": (
        _p("n", "int", None, "filled counters, 0–20"),
        _p("m", "int", -1, "a second group, drawn as rings (row B); -1: none, else 0–20"),
        _p("layout", "str", "line", "line, ring or scatter (scatter at most 10); two groups are two lines A and B"),
        _p("seed", "int", 0, "which scatter"),
        _p("crossed", "int", 0, "how many counters are crossed out"),
        _p("spread", "int", 0, "two groups: 1 stretches the shorter line past the longer one"),
        _p("large", "int", 0, "two groups: 1 draws the things of row A half as large again, 2 those of row B"),
        _QUESTION,
    ),
    "scene": (
        _p("n", "int", None, "boats in the line, 1–20"),
        _p("end", "str", "left", "left or right: where the bridge stands"),
        _p("rings", "ints", (), "ringed boats, counted from the bridge"),
        _p("arrow", "int", 0, "an arrow points at this boat, counted from the bridge; 0: none"),
        _QUESTION,
    ),
    "dot-pairs": (_p("n", "int", None, "dots, 1–24"), _QUESTION),
    "linking-train": (
        _p("a", "int", None, "striped cubes"),
        _p("b", "int", 0, "plain cubes after them; a + b at most 20"),
        _QUESTION,
    ),
    "bundle": (
        _p("tens", "int", None, "bundles of ten sticks, 0–12"),
        _p("ones", "int", None, "single sticks, 0–19"),
        _p("opened", "int", 0, "how many of the bundles are shown opened: ten loose sticks in a dashed ring"),
        _QUESTION,
    ),
    "base-ten": (
        _p("th", "int", 0, "thousand cubes"),
        _p("h", "int", 0, "hundred squares"),
        _p("t", "int", 0, "ten rods, 0–19"),
        _p("o", "int", 0, "one cubes, 0–19"),
        _p("crossed_t", "int", 0, "how many of the rods are crossed out"),
        _p("crossed_o", "int", 0, "how many of the one cubes are crossed out"),
        _p("traded", "int", 0, "1: one more rod is drawn with dashes (opened) and the last ten of the o cubes with it"),
        _QUESTION,
    ),
    "pv-mat": (
        _p("digits", "ints", None, "one a place from the highest (two to four); -1: an empty box"),
        _p("show", "str", "digits", "digits, or blocks (each number drawn as pieces, up to 19 ones), or empty"),
        _QUESTION,
    ),
    # grids of numbers
    "hundred-chart": (
        _p("lo", "int", 1, "first number; the chart has ten columns, the first one ends in 1"),
        _p("hi", "int", 100, "last number"),
        _p("cells", "ints", (), "only these numbers' cells are drawn (a piece of the chart); (): all"),
        _p("blanks", "ints", (), "cells left empty"),
        _p("rings", "ints", (), "numbers with a ring"),
        _p("hatched", "ints", (), "cells with hatching"),
    ),
    "number-line": (
        _p("lo", "int", None, "number at the left end"),
        _p("hi", "int", None, "number at the right end"),
        _p("step", "int", 1, "from tick to tick"),
        _p("big", "int", 0, "longer ticks at multiples of this; 0: none"),
        _p(
            "labels",
            "ints",
            (-1,),
            "numbers printed under their ticks; (-1,): every tick, or as many as there is room for; (): none",
        ),
        _p("blanks", "ints", (), "numbers whose label is an empty box"),
        _p("points", "ints", (), "dots on the line, lettered A, B, C in this order"),
        _p("dots", "ints", (), "dots on the line without a letter"),
        _p("arrow", "int", -1, "an arrow points at this number; -1: none"),
        _p("jumps", "ints", (), "stops of the hops above the line, in order: (62, 32, 24)"),
        _p("jump_labels", "strs", (), "one a hop, as “−30”; “?” prints a small box"),
        _p("open", "int", 0, "1: no ticks; only the stops of the jumps are marked and labelled"),
        _p("blank_end", "int", 0, "1: the last stop's label is an empty box"),
        _p("width", "int", 160, "length in mm, 60–180"),
        _p("parts", "int", 1, "into how many parts a one is cut: all numbers count parts, labels show n / parts"),
        _QUESTION,
    ),
    "area-grid": (
        _p("r", "int", None, "rows"),
        _p("c", "int", None, "columns"),
        _p("cells", "ints", (), "hatched cells, counted from 0 along the rows"),
        _p("halves", "ints", (), "cells of which the lower right half is hatched, cut from corner to corner"),
        _QUESTION,
    ),
    "array-dots": (
        _p("r", "int", None, "rows"),
        _p("c", "int", None, "columns"),
        _p("ring", "str", "none", "none, rows or columns"),
        _QUESTION,
    ),
    "grid-map": (
        _p("columns", "int", 5, "lettered A, B, … at the bottom"),
        _p("rows", "int", 5, "numbered from the bottom"),
        _p("things", "strs", (), "codes of what lies on the map, at most 8"),
        _p("places", "strs", (), "one square a thing, as B2"),
        _p("start", "str", "", "square of the mover, or empty: no mover"),
        _p("facing", "str", "up", "up, right, down or left: where the mover's nose points"),
        _p("path", "strs", (), "squares joined by a line, in order"),
        _p("marks", "strs", (), "squares with a letter (options of a question): A=C4 writes A into C4"),
        _QUESTION,
    ),
    "step-cards": (
        _p(
            "steps",
            "strs",
            None,
            "forward, turn-left, turn-right, up, right, down, left, repeat-2 … repeat-9 (till end), end, blank",
        ),
        _p("numbered", "int", 1, "1: 1, 2, 3 … under the cards"),
        _QUESTION,
    ),
    # parts, wholes and bars
    "part-whole": (
        _p("whole", "int", None, "number in the top box"),
        _p("a", "int", None, "first part"),
        _p("b", "int", None, "second part"),
        _p("c", "int", -1, "third part; -1: none"),
        _p("hidden", "strs", (), _HIDDEN + ": whole, a, b, c"),
    ),
    "family-card": (
        _p("w", "int", None, "the whole"),
        _p("a", "int", None, "first part"),
        _p("b", "int", None, "second part"),
        _p("hidden", "strs", (), _HIDDEN + ": w, a, b"),
    ),
    "bar-model": (
        _p("kind", "str", "parts", "parts (one bar in two or three parts under a brace) or compare (two bars)"),
        _p("whole", "int", 0, "parts: the whole"),
        _p("a", "int", None, "parts: first part; compare: the bigger number"),
        _p("b", "int", None, "parts: second part; compare: the smaller number"),
        _p("c", "int", -1, "parts: third part; -1: none"),
        _p("names", "strs", (), "codes written at the bars (compare: two) or over the parts"),
        _p("hidden", "strs", (), _HIDDEN + ": whole, a, b, c, difference"),
    ),
    "set-objects": (
        _p("groups", "int", None, "how many rings, at most 10"),
        _p("size", "int", None, "things in each ring, at most 10"),
        _p("sizes", "ints", (), "things in each ring where they differ, one number a ring; (): size in each"),
        _p("extra", "int", 0, "things left over outside"),
        _p("rings", "int", 1, "0: the things lie loose in rows, no ring"),
        _p("shape", "str", "dot", "dot, ring, square or triangle"),
        _QUESTION,
    ),
    # time
    "clock": (
        _p("h", "int", None, "hour 0–23"),
        _p("m", "int", None, "minute 0–59"),
        _p("hands", "int", 1, "0: a face without hands, to draw them"),
        _p("numerals", "int", 1, "0: ticks only"),
        _QUESTION,
    ),
    "clock-pair": (
        _p("h", "int", None, "hour 0–23"),
        _p("m", "int", None, "minute 0–59"),
        _p("hidden", "strs", (), "digital (empty display), analog (no hands)"),
    ),
    "timeline": (
        _p("start", "int", None, "minutes after midnight at the left end, a full hour"),
        _p("end", "int", None, "minutes after midnight at the right end, a full hour"),
        _p("step", "int", 15, "minutes from tick to tick"),
        _p("jumps", "ints", (), "stops of the hops, minutes after midnight"),
        _p("jump_labels", "strs", (), "one a hop; “?” prints a small box"),
        _QUESTION,
    ),
    "calendar": (
        _p("year", "int", None, "year"),
        _p("month", "int", None, "1–12"),
        _p("marks", "ints", (), "dates with a ring"),
        _p("blanks", "ints", (), "dates left empty"),
        _p("first", "int", 6, "first column, 0 Monday … 6 Sunday (usual in the US)"),
    ),
    # money
    "coins": (
        _p("coins", "ints", None, "values in cents in the order drawn: 1, 5, 10, 25, 50, 100; true size"),
        _p("show_value", "int", 1, "0: the coin's name without its value"),
        _QUESTION,
    ),
    "bills": (
        _p("bills", "ints", None, "values in dollars in the order drawn: 1, 5, 10, 20, 50, 100"),
        _p("coins", "ints", (), "coins in cents under the bills, true size"),
        _QUESTION,
    ),
    # measuring
    "ruler-cm": (
        _p("length", "int", None, "last number on the ruler, 1–18; true size"),
        _p("start", "int", 0, "where the thing begins, in cm"),
        _p("end", "int", 0, "where the thing ends, in cm; 0: nothing lies above the ruler"),
        _p("object", "str", "strip", "strip, pencil or rope"),
        _QUESTION,
    ),
    "ruler-in": (
        _p("length", "int", None, "last number on the ruler, 1–7; true size"),
        _p("start", "int", 0, "where the thing begins, in inches"),
        _p("end", "int", 0, "where the thing ends, in inches; 0: nothing lies above the ruler"),
        _p("parts", "int", 2, "ticks an inch: 1, 2 or 4"),
        _p("object", "str", "strip", "strip, pencil or rope"),
        _p("quarters", "int", 0, "quarter inches, 0–3, by which the thing reaches past `end`"),
        _p("both", "int", 0, "1: a centimetre scale runs along the lower edge from the same zero"),
        _QUESTION,
    ),
    "tape-measure": (
        _p("values", "ints", None, "lengths of ropes, longest at most 100; drawn in proportion"),
        _p("names", "strs", (), "codes written at the ropes"),
        _p("unit", "str", "m", "code of the unit"),
        _p("hidden", "ints", (), "places (from 0) whose length is an empty box"),
    ),
    "objects-line": (
        _p("lengths", "ints", None, "lengths in mm, true size, at most 150; two to four things"),
        _p("starts", "ints", (), "how far each is pushed to the right, in mm; (): all begin at one line"),
        _p("names", "strs", (), "codes; (): letters A, B, C"),
        _p("object", "str", "strip", "strip, pencil, rope or mixed"),
        _p("units", "ints", (), "lengths in mm of units laid in a line under the one thing; (): none"),
        _p("gap", "int", 0, "mm from one unit to the next"),
        _QUESTION,
    ),
    "balance": (
        _p("left", "int", None, "weight in the left pan"),
        _p("right", "int", None, "weight in the right pan"),
        _p("locked", "int", 0, "1: the beam is held level whatever is in the pans"),
        _p("names", "strs", (), "two texts written in the pans; (): the numbers"),
        _QUESTION,
    ),
    "jug": (
        _p("max", "int", None, "top mark"),
        _p("step", "int", None, "from mark to mark"),
        _p("level", "int", None, "where the water stands"),
        _p("every", "int", 1, "every n-th mark is labelled"),
        _p("unit", "str", "mL", "code of the unit"),
        _QUESTION,
    ),
    "thermometer": (
        _p("lo", "int", None, "lowest mark"),
        _p("hi", "int", None, "highest mark"),
        _p("step", "int", None, "from mark to mark"),
        _p("level", "int", None, "where the liquid stands"),
        _p("every", "int", 1, "every n-th mark from the lowest is labelled"),
        _p("unit", "str", "F", "F or C"),
        _QUESTION,
    ),
    # data
    "tally": (
        _p("counts", "ints", None, "marks a category"),
        _p("labels", "strs", (), "codes of the categories; () for a single tally"),
        _p("numbers", "int", 0, "1: a column with the numbers; 2: a column with empty boxes"),
        _QUESTION,
    ),
    "table": (
        _p("head", "strs", (), "codes of the headings; () for none"),
        _p("cells", "strs", None, "codes or numerals along the rows; “” is an empty box"),
        _p("columns", "int", 2, "how many columns"),
    ),
    "picture-graph": (
        _p("labels", "strs", None, "codes of the categories, at most 4"),
        _p("data", "ints", None, "one number a category, at most 12"),
        _p("halves", "ints", (), "1 for each category with half a picture more; (): none"),
        _p("room", "int", 0, "leave room for so many pictures in each row"),
        _p("icon", "str", "dot", "dot, square, triangle or ring"),
        _p("title", "str", "", "code of the heading"),
        _p("each", "int", 1, "what one picture stands for"),
        _QUESTION,
    ),
    "bar-graph": (
        _p("labels", "strs", None, "codes of the categories, at most 4"),
        _p("data", "ints", None, "one number a category, at most 20; -1: bar still to be drawn"),
        _p("max", "int", 0, "top of the scale in steps; 0: one above the highest bar"),
        _p("each", "int", 1, "what one step of the scale stands for"),
        _p("title", "str", "", "code of the heading"),
        _QUESTION,
    ),
    "line-plot": (
        _p("lo", "int", None, "first number on the line"),
        _p("data", "ints", None, "how many marks stand over lo, lo + 1, …"),
        _p("room", "int", 0, "leave room for so many marks over each number"),
        _p("parts", "int", 1, "into how many parts a unit is cut: lo counts parts, labels show n / parts"),
        _p("unit", "str", "", "code of the unit under the line"),
        _p("title", "str", "", "code of the heading"),
        _QUESTION,
    ),
    # shapes
    "shapes-2d": (
        _p("shapes", "strs", None, "names of `shapes.SHAPES`, at most 9"),
        _p("sizes", "ints", (), "largest extent in mm, 12–40; (): 26 each"),
        _p("angles", "ints", (), "turn in degrees, anticlockwise; (): 0"),
        _p("lines", "ints", (), "a dashed line through the middle at this many degrees; -1: none; (): none"),
        _LETTERS,
        _QUESTION,
    ),
    "solids-3d": (
        _p("solids", "strs", None, "cube, box, pyramid, prism, cylinder, cone, sphere; at most 6"),
        _LETTERS,
        _QUESTION,
    ),
    "fraction-shapes": (
        _p("shape", "str", None, "circle, rectangle or strip"),
        _p("n", "int", None, "parts, 1–12"),
        _p("k", "int", 0, "hatched parts"),
        _p("equal", "int", 1, "0: plainly unequal parts"),
        _p("seed", "int", 0, "which parts are hatched; 0: the first k"),
        _QUESTION,
    ),
}

PARAMS: Final[Mapping[str, tuple[Param, ...]]] = MappingProxyType(_TABLE)
"""Every kind of picture with its parameters, in the order in which they are written here."""
