"""A picture drawn: the one door of this room."""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING, Final

from dayleaf.figures import (
    bars,
    charts,
    clocks,
    counting,
    graphs,
    grids,
    measuring,
    money,
    number_lines,
    place_value,
    scales,
    scenes,
    shapes,
    solids,
)
from dayleaf.figures.pen import Art, escaped, num
from dayleaf.figures.values import Values, values_of

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from dayleaf.items.model import Figure


@dataclass(frozen=True, slots=True)
class Drawing:
    """A picture as SVG, with its size in mm."""

    svg: str
    width: float
    height: float


def _nothing(_v: Values, _words: Mapping[str, str]) -> Art:
    return Art("", 1, 1)


DRAWERS: Final[Mapping[str, Callable[[Values, Mapping[str, str]], Art]]] = MappingProxyType(
    {
        "none": _nothing,
        "ten-frame": counting.ten_frame,
        "counters": counting.counters,
        "scene": scenes.scene,
        "dot-pairs": counting.dot_pairs,
        "linking-train": counting.linking_train,
        "set-objects": counting.set_objects,
        "bundle": place_value.bundle,
        "base-ten": place_value.base_ten,
        "pv-mat": place_value.pv_mat,
        "hundred-chart": charts.hundred_chart,
        "table": charts.table,
        "calendar": charts.calendar,
        "number-line": number_lines.number_line,
        "timeline": number_lines.timeline,
        "part-whole": bars.part_whole,
        "family-card": bars.family_card,
        "bar-model": bars.bar_model,
        "clock": clocks.clock,
        "clock-pair": clocks.clock_pair,
        "coins": money.coins,
        "bills": money.bills,
        "ruler-cm": measuring.ruler_cm,
        "ruler-in": measuring.ruler_in,
        "tape-measure": measuring.tape_measure,
        "objects-line": measuring.objects_line,
        "balance": scales.balance,
        "jug": scales.jug,
        "thermometer": scales.thermometer,
        "tally": graphs.tally,
        "picture-graph": graphs.picture_graph,
        "bar-graph": graphs.bar_graph,
        "line-plot": graphs.line_plot,
        "shapes-2d": shapes.shapes_2d,
        "fraction-shapes": shapes.fraction_shapes,
        "solids-3d": solids.solids_3d,
        "array-dots": grids.array_dots,
        "area-grid": grids.area_grid,
        "grid-map": grids.grid_map,
        "step-cards": grids.step_cards,
    }
)

_NO_WORDS: Final[Mapping[str, str]] = MappingProxyType({})


def draw(figure: Figure, *, title: str, desc: str, words: Mapping[str, str] = _NO_WORDS) -> Drawing:
    """The picture as one SVG element, sizes in mm, black on white, with `title` and `desc` inside.

    `words` gives the words for the codes inside the picture; a code without one is printed as it
    stands. The same figure and words always give the same bytes. No id is used, so that any number
    of pictures can stand in one page.

    Raises:
        UnknownFigure: nobody has drawn this kind.
        WrongParameter: a parameter is missing, unknown, of another type or out of its range.
    """
    values = values_of(figure)
    art = DRAWERS[figure.kind](values, words)
    width, height = num(art.width), num(art.height)
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm" '
        f'viewBox="0 0 {width} {height}" role="img">'
        f"<title>{escaped(title)}</title><desc>{escaped(desc)}</desc>"
        '<g fill="none" stroke="#000" stroke-width="0.5" stroke-linecap="round" stroke-linejoin="round" '
        'font-family="Lexend" text-anchor="middle">'
        f"{art.body}</g></svg>"
    )
    return Drawing(svg, float(width), float(height))
