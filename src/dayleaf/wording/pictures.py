"""Pictures in words: title, description, and the words inside them."""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING, Final

from dayleaf.wording import seen_scales, seen_scenes, seen_things
from dayleaf.wording.nouns import noun
from dayleaf.wording.say import word_of
from dayleaf.wording.seen_things import Look
from dayleaf.wording.tables import NoWords, has, phrase

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from dayleaf.items.model import Figure


def _nothing(_look: Look) -> str:
    return ""


SEEN: Final[Mapping[str, Callable[[Look], str]]] = MappingProxyType(
    {
        "none": _nothing,
        "ten-frame": seen_things.ten_frame,
        "counters": seen_things.counters,
        "scene": seen_scenes.scene,
        "dot-pairs": seen_things.dot_pairs,
        "linking-train": seen_things.linking_train,
        "bundle": seen_things.bundle,
        "base-ten": seen_things.base_ten,
        "pv-mat": seen_things.pv_mat,
        "array-dots": seen_things.array_dots,
        "area-grid": seen_things.area_grid,
        "set-objects": seen_things.set_objects,
        "part-whole": seen_things.part_whole,
        "family-card": seen_things.family_card,
        "bar-model": seen_things.bar_model,
        "shapes-2d": seen_things.shapes_2d,
        "solids-3d": seen_things.solids_3d,
        "fraction-shapes": seen_things.fraction_shapes,
        "hundred-chart": seen_scales.hundred_chart,
        "number-line": seen_scales.number_line,
        "timeline": seen_scales.timeline,
        "clock": seen_scales.clock,
        "clock-pair": seen_scales.clock_pair,
        "calendar": seen_scales.calendar,
        "coins": seen_scales.coins,
        "bills": seen_scales.bills,
        "ruler-cm": seen_scales.ruler,
        "ruler-in": seen_scales.ruler,
        "tape-measure": seen_scales.tape_measure,
        "objects-line": seen_scales.objects_line,
        "balance": seen_scales.balance,
        "jug": seen_scales.scale,
        "thermometer": seen_scales.scale,
        "tally": seen_scales.tally,
        "table": seen_scales.table,
        "picture-graph": seen_scales.picture_graph,
        "bar-graph": seen_scales.bar_graph,
        "line-plot": seen_scales.line_plot,
        "grid-map": seen_scales.grid_map,
        "step-cards": seen_scales.step_cards,
    }
)

_PLURAL: Final = ("labels", "head", "cells", "title")
_SINGLE: Final = ("things", "names", "unit")
_ALWAYS: Final[Mapping[str, tuple[str, ...]]] = MappingProxyType(
    {
        "pv-mat": ("thousands", "hundreds", "tens", "ones"),
        "ruler-cm": ("cm",),
        "ruler-in": ("inches", "cm"),
        "coins": tuple(f"coin-{value}" for value in (1, 5, 10, 25, 50, 100)),
        "bills": ("play-money",),
        "thermometer": ("degrees-F", "degrees-C"),
        "calendar": (*(f"day-{k}" for k in range(7)), *(f"month-{k}" for k in range(1, 13))),
    }
)


def figure_words(figure: Figure, lang: str) -> tuple[str, str]:
    """The title and the description of a picture.

    The description holds what is seen, never the answer: where the picture's number is asked, its
    pieces are told one by one.

    Raises:
        NoWords: the picture has no words in this language.
    """
    if figure.kind not in SEEN:
        raise NoWords(code=f"figure.{figure.kind}", lang=lang)
    return phrase("figure", figure.kind, lang), SEEN[figure.kind](Look(figure.params, lang))


def figure_texts(figure: Figure, lang: str) -> dict[str, str]:
    """The words that stand inside the picture, by code; a code without a word is left out."""
    texts = {code: word_of(code, lang) for code in _ALWAYS.get(figure.kind, ()) if has("word", code, lang)}
    for name in (*_PLURAL, *_SINGLE):
        value = figure.params.get(name, ())
        for code in (value,) if isinstance(value, str) else value if isinstance(value, tuple) else ():
            if isinstance(code, str) and (said := _inside(code, lang, many=name in _PLURAL)):
                texts[code] = said
    return texts


def _inside(code: str, lang: str, *, many: bool) -> str:
    if has("person", code, lang):
        return phrase("person", code, lang)
    if has("noun", code, lang):
        return noun(code, lang).many if many else noun(code, lang).one
    return word_of(code, lang) if has("word", code, lang) else ""
