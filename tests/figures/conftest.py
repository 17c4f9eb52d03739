"""One or more pictures of every kind, as the tests of this room need them."""

import pytest

from dayleaf.items.model import Figure

SAMPLES: tuple[Figure, ...] = (
    Figure("none", {}),
    Figure("ten-frame", {"a": 7}),
    Figure("ten-frame", {"a": 9, "b": 4, "apart": 1}),
    Figure("ten-frame", {"a": 8, "crossed": 3}),
    Figure("counters", {"n": 13}),
    Figure("counters", {"n": 6, "layout": "scatter", "seed": 3}),
    Figure("counters", {"n": 9, "layout": "ring"}),
    Figure("counters", {"n": 8, "m": 6, "spread": 1}),
    Figure("scene", {"n": 20, "end": "right", "rings": (3, 4)}),
    Figure("scene", {"n": 7, "arrow": 4, "question": 1}),
    Figure("dot-pairs", {"n": 9}),
    Figure("linking-train", {"a": 5, "b": 4}),
    Figure("bundle", {"tens": 8, "ones": 12}),
    Figure("bundle", {"tens": 3, "ones": 6, "opened": 1}),
    Figure("base-ten", {"t": 5, "o": 12, "traded": 1, "crossed_o": 8, "crossed_t": 3}),
    Figure("base-ten", {"th": 1, "h": 2, "t": 3, "o": 4}),
    Figure("pv-mat", {"digits": (6, -1, 2)}),
    Figure("pv-mat", {"digits": (5, 12), "show": "blocks"}),
    Figure("hundred-chart", {"lo": 1, "hi": 100, "blanks": (45,), "rings": (23,), "hatched": (10, 20)}),
    Figure("hundred-chart", {"cells": (34, 35, 36, 45), "blanks": (45,)}),
    Figure("number-line", {"lo": 0, "hi": 100, "big": 10, "points": (37, 62)}),
    Figure("number-line", {"lo": 0, "hi": 100, "step": 10, "labels": (0, 100), "arrow": 60, "question": 1}),
    Figure("number-line", {"lo": 30, "hi": 70, "open": 1, "jumps": (38, 40, 60, 62), "jump_labels": ("+2", "?", "+2")}),
    Figure("part-whole", {"whole": 14, "a": 8, "b": 6, "hidden": ("b",)}),
    Figure("family-card", {"w": 13, "a": 9, "b": 4, "hidden": ("w",)}),
    Figure("bar-model", {"whole": 45, "a": 28, "b": 17, "hidden": ("b",)}),
    Figure(
        "bar-model", {"kind": "compare", "a": 34, "b": 19, "names": ("child", "brother"), "hidden": ("difference",)}
    ),
    Figure("array-dots", {"r": 3, "c": 5, "ring": "rows"}),
    Figure("area-grid", {"r": 3, "c": 4, "cells": (0, 1, 4)}),
    Figure("set-objects", {"groups": 4, "size": 3, "extra": 2}),
    Figure("set-objects", {"groups": 3, "size": 5, "rings": 0, "shape": "triangle"}),
    Figure("clock", {"h": 4, "m": 35}),
    Figure("clock-pair", {"h": 1, "m": 50, "hidden": ("digital",)}),
    Figure("timeline", {"start": 540, "end": 720, "jumps": (570, 600, 645), "jump_labels": ("30", "?")}),
    Figure("calendar", {"year": 2027, "month": 2, "marks": (14,), "blanks": (20,)}),
    Figure("coins", {"coins": (25, 10, 5, 1, 50, 100)}),
    Figure("bills", {"bills": (5, 1, 20)}),
    Figure("ruler-cm", {"length": 12, "start": 2, "end": 9, "object": "pencil", "question": 1}),
    Figure("ruler-in", {"length": 5, "end": 3, "parts": 4, "object": "rope"}),
    Figure("ruler-in", {"length": 6, "end": 3, "quarters": 3, "both": 1}),
    Figure("tape-measure", {"values": (45, 27), "hidden": (1,)}),
    Figure("objects-line", {"lengths": (80, 55, 92), "object": "mixed"}),
    Figure("balance", {"left": 8, "right": 5}),
    Figure("balance", {"left": 8, "right": 5, "locked": 1}),
    Figure("jug", {"max": 1000, "step": 100, "level": 700, "every": 2}),
    Figure("thermometer", {"lo": -10, "hi": 40, "step": 5, "level": 15, "every": 2, "unit": "C"}),
    Figure("tally", {"counts": (12, 7, 5), "labels": ("egg", "bean", "seed"), "numbers": 2}),
    Figure("table", {"head": ("egg", "bean"), "cells": ("4", ""), "columns": 2}),
    Figure("picture-graph", {"labels": ("egg", "bean"), "data": (5, 8)}),
    Figure("bar-graph", {"labels": ("egg", "bean"), "data": (5, 8)}),
    Figure("line-plot", {"lo": 3, "data": (2, 4, 0, 1), "unit": "cm"}),
    Figure(
        "shapes-2d", {"shapes": ("triangle", "circle", "open-square", "hexagon-3-rhombuses"), "angles": (15, 0, 0, 0)}
    ),
    Figure("shapes-2d", {"shapes": ("heart",), "lines": (90,)}),
    Figure("solids-3d", {"solids": ("cube", "box", "pyramid", "prism", "cylinder", "cone")}),
    Figure("solids-3d", {"solids": ("sphere",)}),
    Figure("fraction-shapes", {"shape": "circle", "n": 3, "k": 1}),
    Figure("fraction-shapes", {"shape": "rectangle", "n": 4, "k": 3, "seed": 2}),
    Figure("fraction-shapes", {"shape": "strip", "n": 3, "equal": 0}),
    Figure("grid-map", {"things": ("tree", "goat"), "places": ("B2", "D4"), "start": "A1", "path": ("A1", "A2")}),
    Figure("step-cards", {"steps": ("repeat-3", "forward", "turn-right", "end", "blank", "up")}),
)


@pytest.fixture
def pictures() -> tuple[Figure, ...]:
    return SAMPLES


@pytest.fixture(params=SAMPLES, ids=lambda figure: figure.kind)
def picture(request: pytest.FixtureRequest) -> Figure:
    figure: Figure = request.param
    return figure
