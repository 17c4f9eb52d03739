"""The pieces of every set to cut out, at true size.

How many of each there are is what `materials.toml` says of the set. Names of pieces are for asking one back that was
lost: `dayleaf print digit-cards --piece 7`.
"""

from __future__ import annotations

from itertools import pairwise
from types import MappingProxyType
from typing import TYPE_CHECKING, Final

from dayleaf.figures.money import COIN_MM
from dayleaf.figures.outlines import SHAPES
from dayleaf.figures.pieces import blocks, cards, scales
from dayleaf.figures.shapes import placed
from dayleaf.items.model import Figure
from dayleaf.packets.cut_outs import facts
from dayleaf.packets.cut_outs.model import CutSet, Piece
from dayleaf.wording.pictures import figure_texts

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping

    from dayleaf.course.model import Course
    from dayleaf.figures.pen import Art

CARD: Final = (36.0, 46.0)
"""A small card, five to a row on Letter and A4."""
FACT_CARD: Final = (61.0, 46.0)
STEP_CARD: Final = (36.0, 36.0)
COINS: Final[Mapping[int, int]] = MappingProxyType({25: 4, 5: 10, 1: 10, 10: 10})
BILLS: Final[Mapping[int, int]] = MappingProxyType({1: 10, 5: 4, 10: 4, 20: 2})
STEPS: Final[tuple[tuple[str, str, int], ...]] = (
    ("forward", "forward", 8),
    ("turn-left", "turn left", 5),
    ("turn-right", "turn right", 5),
    ("repeat", "repeat", 2),
    ("end", "end of repeat", 2),
    ("blank", "your own step", 2),
)
SHAPES_CUT: Final[tuple[tuple[str, float, int], ...]] = (
    ("square", 40, 2), ("rectangle", 54, 2), ("long-rectangle", 56, 1), ("triangle", 42, 3), ("right-triangle", 46, 2),
    ("tall-triangle", 46, 1), ("rhombus", 50, 2), ("parallelogram", 54, 1), ("trapezoid", 56, 2), ("kite", 48, 1),
    ("quadrilateral", 48, 1), ("pentagon", 44, 2), ("hexagon", 50, 2), ("circle", 42, 1), ("half-circle", 46, 1),
)  # fmt: skip
"""Names of `outlines.SHAPES`, the larger side of their box in mm, how many: 24 in all."""


def _named(title: str, name: str, art: Art, count: int = 1, *, under: str = "") -> Piece:
    """A piece with its set's name on the back."""
    return Piece(name, art, cards.words_back(title, art.width, art.height, under=under), count)


def _set(course: Course, thing: str, pieces: Iterable[Piece], *contents: str, says: str = "") -> CutSet:
    material = course.materials.get(thing)
    caution = material.caution if material and material.small_parts else ""
    return CutSet(thing, _title(course, thing), says, contents, (tuple(pieces),), caution=caution)


def _title(course: Course, thing: str) -> str:
    material = course.materials.get(thing)
    return material.title if material else OWN_TITLES.get(thing, thing.replace("-", " "))


def _base_ten(course: Course) -> CutSet:
    title = _title(course, "base-ten-blocks")
    kinds = (("hundred", 10, 10, 10), ("ten", 1, 10, 20), ("one", 1, 1, 30))
    pieces = [_named(title, name, blocks.block(columns, rows), n) for name, columns, rows, n in kinds]
    says = "A one is 1 cm wide. Stack the sheets and cut the long lines first."
    return _set(course, "base-ten-blocks", pieces, "10 hundreds, 20 tens, 30 ones", says=says)


def _numbers(course: Course) -> CutSet:
    title = _title(course, "number-cards-0-20")
    pieces = [_named(title, str(n), cards.number_card(n, *CARD)) for n in range(21)]
    return _set(course, "number-cards-0-20", pieces, "21 cards, 0 to 20")


def _digits(course: Course) -> CutSet:
    title = _title(course, "digit-cards")
    pieces = [_named(title, str(n), cards.sign_card(str(n), *CARD), 2) for n in range(10)]
    return _set(course, "digit-cards", pieces, "20 cards, 0 to 9 twice")


def _signs(course: Course) -> CutSet:
    title = _title(course, "sign-cards")
    names = {"+": "plus", "−": "minus", "=": "equals", "<": "less", ">": "more", "×": "times", "÷": "divided"}
    pieces = [_named(title, name, cards.sign_card(sign, *CARD), 2) for sign, name in names.items()]
    return _set(course, "sign-cards", pieces, "14 cards: +  −  =  <  >  ×  ÷, two of each")


def _frames(course: Course) -> CutSet:
    title = _title(course, "ten-frame-mat")
    pieces = [_named(title, "frame", blocks.ten_frame(35.0), 2)]
    return _set(course, "ten-frame-mat", pieces, "2 frames")


def _path(course: Course) -> CutSet:
    title, side = _title(course, "number-path"), 25.0
    rows = [range(k, min(k + 8, 41)) for k in range(1, 41, 8)]
    pieces = [
        _named(title, f"{row[0]}-{row[-1]}", cards.upright(scales.path_strip(row, side=side, ends=row[-1] == 40)))
        for row in rows
    ]
    return _set(
        course, "number-path", pieces, "5 strips, 1 to 40", says="Glue each strip on the hatched end before it."
    )


def _strips(
    course: Course,
    thing: str,
    ticks: scales.Ticks,
    stops: tuple[int, ...],
    *,
    labels: range,
    each: int = 1,
    contents: str,
    note: str = "",
    tall: float = 30.0,
    bold: int = 10,
) -> CutSet:
    title = _title(course, thing)
    pieces = []
    for k, (first, last) in enumerate(pairwise(stops)):
        art = scales.strip(
            ticks, first=first, last=last, labels=labels, each=each, bold=bold, tall=tall,
            begins=k == 0, ends=last == stops[-1], note=note,
        )  # fmt: skip
        pieces.append(_named(title, f"{first * each}-{last * each}", cards.upright(art)))
    return _set(course, thing, pieces, contents, says="Glue each strip on the hatched end before it.")


def _line_100(course: Course) -> CutSet:
    ticks = scales.Ticks(scales.CM, ((1, 6.0),))
    stops = (0, 20, 40, 60, 80, 100)
    return _strips(course, "number-line-100", ticks, stops, labels=range(101), contents="5 strips, 0 to 100")


def _line_1000(course: Course) -> CutSet:
    ticks = scales.Ticks(scales.CM, ((1, 6.0),))
    stops = (0, 20, 40, 60, 80, 100)
    return _strips(
        course, "number-line-1000", ticks, stops, labels=range(0, 101, 5), each=10, contents="5 strips, 0 to 1000"
    )


def _meter(course: Course) -> CutSet:
    stops = (0, 20, 40, 60, 80, 100)
    return _strips(
        course, "meter-stick", scales.METRIC, stops, labels=range(101), contents="5 strips, 100 cm", note="cm"
    )


def _yard(course: Course) -> CutSet:
    stops = (0, 7, 15, 23, 31, 36)
    return _strips(
        course,
        "yardstick",
        scales.INCHES,
        stops,
        labels=range(37),
        contents="5 strips, 36 inches",
        note="inches",
        bold=12,
    )


def _tape(course: Course) -> CutSet:
    stops = (*range(0, 141, 20), 150)
    return _strips(
        course, "tape-measure", scales.WHOLE_CM, stops, labels=range(151), contents="8 strips, 150 cm", tall=19
    )


def _ruler(course: Course) -> CutSet:
    title = _title(course, "ruler")
    kinds = {
        "cm-and-inch": scales.ruler(scales.METRIC, 20, lower=scales.INCHES, lower_last=7),
        "cm": scales.ruler(scales.WHOLE_CM, 20),
        "inch": scales.ruler(scales.INCHES, 7),
        "broken": scales.ruler(scales.WHOLE_CM, 18, first=3),
    }
    pieces = [_named(title, name, cards.upright(art)) for name, art in kinds.items()]
    contents = "1 with cm and inches, 1 cm, 1 inch, 1 that begins at 3"
    return _set(course, "ruler", pieces, contents, says="Zero lies inside the edge. Glue them on card.")


def _coins(course: Course) -> CutSet:
    title = _title(course, "play-coins")
    pieces = []
    for value, n in COINS.items():
        words = figure_texts(Figure("coins", {"coins": (value,)}), "en")
        side = COIN_MM[value] + 2.4
        pieces.append(_named(title, words[f"coin-{value}"], blocks.coin(value, words, side=side), n))
    contents = "4 quarters, 10 nickels, 10 pennies, 10 dimes"
    return _set(course, "play-coins", pieces, contents, says="Cut squares first, then go round. Coins are true size.")


def _bills(course: Course) -> CutSet:
    """Bills are printed on one side only, as 31 CFR 411.1 asks of a picture of money; their set's name is in front."""
    title = _title(course, "play-bills")
    words = figure_texts(Figure("bills", {"bills": (1,)}), "en")
    pieces = [Piece(f"${value}", blocks.bill(value, words, under=title), None, n) for value, n in BILLS.items()]
    contents = "10 ones, 4 fives, 4 tens, 2 twenties"
    return CutSet("play-bills", title, "Printed on one side.", (contents,), (tuple(pieces),), one_sided=True)


def _clock(course: Course) -> CutSet:
    title = _title(course, "model-clock")
    pieces = [
        _named(title, "face", blocks.clock_face(160.0)),
        _named(title, "minute hand", blocks.clock_hand(62.0, 13.0, "minutes")),
        _named(title, "hour hand", blocks.clock_hand(40.0, 15.0, "hours")),
    ]
    says = "An adult pushes the fastener through the small circles."
    return _set(course, "model-clock", pieces, "1 face, 1 hour hand, 1 minute hand", says=says)


def _fractions(course: Course) -> CutSet:
    title = _title(course, "fraction-pieces")
    said = {1: "one whole", 2: "one half", 3: "one third", 4: "one fourth"}
    names = {1: "whole", 2: "halves", 3: "thirds", 4: "fourths"}
    circles = [
        Piece(f"{names[n]} of a circle", blocks.circle_parts(90.0, n), blocks.circle_backs(90.0, n, said[n], title))
        for n in said
    ]
    bars = [_named(title, f"{said[n]} of a bar", blocks.bar_part(168.0 / n, 32.0), n, under=said[n]) for n in said]
    contents = ("4 circles and 4 bars:", "whole, halves, thirds, fourths")
    return CutSet("fraction-pieces", title, "Cut along every line.", contents, (tuple(circles), tuple(bars)))


def _shapes(course: Course) -> CutSet:
    title = _title(course, "shape-cutouts")
    pieces = []
    for name, size, n in SHAPES_CUT:
        points = placed(SHAPES[name].outline, size=size, degrees=0)
        pieces.append(Piece(name, blocks.outline(points), blocks.outline_back(points, title), n))
    return _set(course, "shape-cutouts", pieces, "24 shapes", says="Cut the boxes apart, then go round each shape.")


def _steps(course: Course) -> CutSet:
    title = _title(course, "step-cards")
    pieces = []
    for step, said, n in STEPS:
        if step in ("repeat", "end"):
            art = cards.sign_card("repeat" if step == "repeat" else "end", *STEP_CARD)
        else:
            art = cards.step_card(step, STEP_CARD[0])
        pieces.append(_named(title, said, art, n, under=said))
    contents = ("8 forward, 5 turn left, 5 turn right,", "2 repeat, 2 end, 2 of your own")
    return _set(course, "step-cards", pieces, *contents)


def _thermometer(course: Course) -> CutSet:
    title = _title(course, "thermometer")
    pieces = [
        _named(title, "scale", scales.thermometer()),
        _named(title, "strip", scales.thermometer_strip()),
    ]
    says = "Cut the two dashed slits; pull the strip up or down."
    return _set(course, "thermometer", pieces, "1 scale, 1 strip", says=says)


def _families(course: Course) -> CutSet:
    title = _title(course, "family-cards")
    pieces = []
    for a, b in facts.families():
        figure = Figure("family-card", {"w": a + b, "a": a, "b": b})
        front = cards.picture_card(figure, *FACT_CARD)
        pieces.append(Piece(f"{a + b}-{a}-{b}", front, cards.lines_back(facts.of_family(a, b), title, *FACT_CARD)))
    return _set(course, "family-cards", pieces, f"{len(pieces)} cards, wholes from 11 to 18")


def _arrays(course: Course) -> CutSet:
    title = _title(course, "array-cards")
    pieces = []
    for rows, columns in facts.arrays():
        front = cards.picture_card(Figure("array-dots", {"r": rows, "c": columns}), *CARD, most=0.7)
        back = cards.lines_back(facts.of_array(rows, columns), title, *CARD)
        pieces.append(Piece(f"{rows}x{columns}", front, back))
    return _set(course, "array-cards", pieces, f"{len(pieces)} cards, up to 5 rows of 5")


def _fact_cards(course: Course) -> CutSet:
    title = _title(course, "fact-cards")
    groups = tuple(
        tuple(
            Piece(said, cards.fact_card(said, *FACT_CARD), cards.lines_back((answer,), f"{title}: {name}", *FACT_CARD))
            for said, answer in pairs
        )
        for name, pairs in facts.by_strategy(course)
    )
    return CutSet(
        "fact-cards", title, "One way a sheet: cut a sheet when its day comes.", ("about 12 of a way",), groups
    )


OWN_TITLES: Final[Mapping[str, str]] = MappingProxyType({"family-cards": "family cards", "array-cards": "array cards"})
"""Sets that no day asks for by name, and that stay useful: families and arrays to hold in the hand."""

SETS: Final[Mapping[str, Callable[[Course], CutSet]]] = MappingProxyType(
    {
        "base-ten-blocks": _base_ten,
        "number-cards-0-20": _numbers,
        "digit-cards": _digits,
        "sign-cards": _signs,
        "fact-cards": _fact_cards,
        "family-cards": _families,
        "array-cards": _arrays,
        "ten-frame-mat": _frames,
        "number-path": _path,
        "number-line-100": _line_100,
        "number-line-1000": _line_1000,
        "meter-stick": _meter,
        "yardstick": _yard,
        "tape-measure": _tape,
        "ruler": _ruler,
        "play-coins": _coins,
        "play-bills": _bills,
        "model-clock": _clock,
        "fraction-pieces": _fractions,
        "shape-cutouts": _shapes,
        "step-cards": _steps,
        "thermometer": _thermometer,
    }
)
"""Every set to cut out by the id of its material."""
