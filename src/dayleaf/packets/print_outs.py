"""Papers to print for a day: mats, charts, picture cards, logs; what each word of `print_outs` stands for."""

from __future__ import annotations

from datetime import date
from types import MappingProxyType
from typing import TYPE_CHECKING, Final

from dayleaf.figures.pieces import mats
from dayleaf.figures.pieces.cards import moved
from dayleaf.items.model import Figure
from dayleaf.packets.cut_outs.model import NothingPrintable
from dayleaf.sheets.true_size import TrueSide
from dayleaf.wording.pictures import figure_texts, figure_words

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from dayleaf.course.model import Course
    from dayleaf.figures.pen import Art
    from dayleaf.packets.cut_outs.pages import Frame

PICTURE_CARD: Final = "picture-card:"

SHOWN: Final[Mapping[str, tuple[Figure, ...]]] = MappingProxyType(
    {
        "area-grid": (Figure("area-grid", {"r": 3, "c": 4}), Figure("area-grid", {"r": 2, "c": 5})),
        "array-dots": (Figure("array-dots", {"r": 3, "c": 5}), Figure("array-dots", {"r": 4, "c": 2})),
        "balance": (Figure("balance", {"left": 9, "right": 9}), Figure("balance", {"left": 8, "right": 5})),
        "bar-graph": (Figure("bar-graph", {"labels": ("egg", "bean", "seed"), "data": (5, 8, 3)}),),
        "bar-model": (
            Figure("bar-model", {"whole": 14, "a": 8, "b": 6, "hidden": ("b",)}),
            Figure("bar-model", {"kind": "compare", "a": 9, "b": 5, "hidden": ("difference",)}),
        ),
        "base-ten": (Figure("base-ten", {"t": 3, "o": 6}), Figure("base-ten", {"h": 1, "t": 4, "o": 5})),
        "bills": (Figure("bills", {"bills": (10, 5, 1, 1)}), Figure("bills", {"bills": (20, 10)})),
        "bundle": (Figure("bundle", {"tens": 3, "ones": 4}), Figure("bundle", {"tens": 2, "ones": 6, "opened": 1})),
        "calendar": (Figure("calendar", {"year": 2027, "month": 1}),),
        "clock": (Figure("clock", {"h": 9, "m": 30}), Figure("clock", {"h": 4, "m": 15})),
        "clock-pair": (Figure("clock-pair", {"h": 7, "m": 25}), Figure("clock-pair", {"h": 1, "m": 50})),
        "coins": (Figure("coins", {"coins": (25, 10, 10, 5, 1, 1)}), Figure("coins", {"coins": (25, 25, 10, 5)})),
        "counters": (Figure("counters", {"n": 12}), Figure("counters", {"n": 9, "m": 7})),
        "dot-pairs": (Figure("dot-pairs", {"n": 8}), Figure("dot-pairs", {"n": 11})),
        "family-card": (
            Figure("family-card", {"w": 13, "a": 9, "b": 4}),
            Figure("family-card", {"w": 15, "a": 8, "b": 7}),
        ),
        "fraction-shapes": (
            Figure("fraction-shapes", {"shape": "circle", "n": 2, "k": 1}),
            Figure("fraction-shapes", {"shape": "rectangle", "n": 4, "k": 1}),
        ),
        "grid-map": (Figure("grid-map", {"things": ("tree", "goat"), "places": ("B4", "D2"), "start": "A1"}),),
        "jug": (Figure("jug", {"max": 1000, "step": 100, "level": 700, "every": 2}),),
        "line-plot": (Figure("line-plot", {"lo": 3, "data": (2, 4, 0, 1), "unit": "cm"}),),
        "linking-train": (Figure("linking-train", {"a": 6, "b": 6}), Figure("linking-train", {"a": 7, "b": 6})),
        "number-line": (
            Figure("number-line", {"lo": 0, "hi": 20}),
            Figure("number-line", {"lo": 0, "hi": 100, "step": 10}),
        ),
        "part-whole": (
            Figure("part-whole", {"whole": 10, "a": 7, "b": 3}),
            Figure("part-whole", {"whole": 14, "a": 9, "b": 5, "hidden": ("b",)}),
        ),
        "picture-graph": (Figure("picture-graph", {"labels": ("egg", "bean", "seed"), "data": (5, 8, 3)}),),
        "pv-mat": (
            Figure("pv-mat", {"digits": (3, 6), "show": "blocks"}),
            Figure("pv-mat", {"digits": (2, 0, 5), "show": "blocks"}),
        ),
        "ruler-cm": (Figure("ruler-cm", {"length": 12, "end": 9, "object": "pencil"}),),
        "ruler-in": (Figure("ruler-in", {"length": 5, "end": 3, "parts": 2, "object": "rope"}),),
        "set-objects": (
            Figure("set-objects", {"groups": 4, "size": 3}),
            Figure("set-objects", {"groups": 3, "size": 5, "extra": 2}),
        ),
        "shapes-2d": (Figure("shapes-2d", {"shapes": ("triangle", "quadrilateral", "pentagon", "hexagon", "circle")}),),
        "solids-3d": (Figure("solids-3d", {"solids": ("cube", "box", "cylinder", "cone", "sphere", "pyramid")}),),
        "step-cards": (Figure("step-cards", {"steps": ("forward", "forward", "turn-right", "forward")}),),
        "table": (Figure("table", {"head": ("egg", "bean"), "cells": ("4", "7", "", ""), "columns": 2}),),
        "tally": (Figure("tally", {"counts": (12, 7, 5), "labels": ("egg", "bean", "seed"), "numbers": 2}),),
        "tape-measure": (Figure("tape-measure", {"values": (45, 27, 60)}),),
        "ten-frame": (Figure("ten-frame", {"a": 8}), Figure("ten-frame", {"a": 9, "b": 4, "apart": 1})),
        "thermometer": (Figure("thermometer", {"lo": 0, "hi": 100, "step": 10, "level": 60, "every": 2}),),
        "timeline": (Figure("timeline", {"start": 540, "end": 720, "jumps": (570, 600, 645)}),),
    }
)
"""What a picture card shows where the day itself has no picture of the kind; at most two a card."""

LOG_WORDS: Final = MappingProxyType(
    {"when": "day, time", "what": "what", "tally": "tally", "how many": "how many", "question": "We ask:"}
)


def paper_sides(course: Course, word: str, frame: Frame, *, month: date | None = None) -> tuple[TrueSide, ...]:
    """The sides of one print-out, named as in the day files: `pv-mat`, `picture-card:base-ten`.

    `month` is the month that a calendar shows; `month-calendar:2027-01` names another, and without one its dates are
    left to write.

    Raises:
        NothingPrintable: the word is none.
    """
    if word.startswith(PICTURE_CARD):
        return card_sides((word.removeprefix(PICTURE_CARD),), frame)
    name, _, when = word.partition(":")
    if name not in PAPERS:
        raise NothingPrintable(word)
    if when:
        month = _month(word, when)
    title = course.materials[name].title if name in course.materials else name.replace("-", " ")
    return tuple(_side(art, title, frame) for art in PAPERS[name](frame, month))


def card_sides(kinds: Sequence[str], frame: Frame, *, pictures: Sequence[Figure] = ()) -> tuple[TrueSide, ...]:
    """Picture cards of these kinds, two pictures a side; `pictures` are the day's own, which come before ours.

    Raises:
        NothingPrintable: a kind has no picture.
    """
    shown: list[Figure] = []
    for kind in kinds:
        own = {repr(figure): figure for figure in pictures if figure.kind == kind}
        figures = tuple(own.values()) or SHOWN.get(kind, ())
        if not figures:
            raise NothingPrintable(PICTURE_CARD + kind, why="there is no picture of this kind")
        shown += figures[: 2 if len(kinds) == 1 else 1]
    return tuple(_card(shown[k : k + 2], frame) for k in range(0, len(shown), 2))


def knows(word: str) -> bool:
    """Whether a word names a print-out of this module."""
    name, _, more = word.partition(":")
    return more in SHOWN if word.startswith(PICTURE_CARD) else name in PAPERS


def _side(art: Art, title: str, frame: Frame, *, said: str = "", heading: bool = True) -> TrueSide:
    title = title[:1].upper() + title[1:]
    body = moved(art.body, -art.width / 2, 0) + frame.bar()
    return TrueSide(frame.picture(body, said or title), said or title, title if heading else "")


def _card(figures: Sequence[Figure], frame: Frame) -> TrueSide:
    art = mats.picture_page([(figure, figure_texts(figure, "en")) for figure in figures], *frame.room)
    said = " ".join(" ".join(figure_words(figure, "en")) for figure in figures)
    return _side(art, "Picture card", frame, said=said)


def _month(word: str, when: str) -> date:
    try:
        return date.fromisoformat(f"{when}-01")
    except ValueError as error:
        raise NothingPrintable(word, why="write the month as 2027-01") from error


def _places(frame: Frame, _month: date | None) -> tuple[Art, ...]:
    words = figure_texts(Figure("pv-mat", {"digits": (1, 1, 1)}), "en")
    height = frame.room[1] - 4
    return (
        mats.place_mat(("tens", "ones"), words, height),
        mats.place_mat(("hundreds", "tens", "ones"), words, height),
    )


def _calendar(frame: Frame, month: date | None) -> tuple[Art, ...]:
    figure = Figure("calendar", {"year": month.year, "month": month.month}) if month else None
    words = figure_texts(figure or Figure("calendar", {"year": 2027, "month": 1}), "en")
    return (mats.month(figure, words, frame.room[0]),)


def _faces(frame: Frame, _month: date | None) -> tuple[Art, ...]:
    return (mats.clock_faces(frame.room[0]),)


PAPERS: Final[Mapping[str, Callable[[Frame, date | None], tuple[Art, ...]]]] = MappingProxyType(
    {
        "pv-mat": _places,
        "part-whole-mat": lambda frame, _: (mats.part_whole_mat({}, frame.room[0]),),
        "hundred-chart": lambda frame, _: (mats.hundred_chart(frame.room[0]),),
        "month-calendar": _calendar,
        "dot-paper": lambda frame, _: (mats.dot_paper(frame.room[0] - 4, frame.room[1] - 6),),
        "grid-paper": lambda frame, _: (mats.grid_paper(*frame.room),),
        "map-grid": lambda _frame, _: (mats.map_grid(),),
        "graph-paper": lambda frame, _: (mats.graph_paper(frame.room[0], {"title": "Title"}),),
        "log-sheet": lambda frame, _: (mats.log_sheet(*frame.room, LOG_WORDS),),
        "clock-faces": _faces,
        "paper-circle": lambda _frame, _: (mats.paper_circle(),),
        "paper-balance": lambda frame, _: (mats.paper_balance(frame.room[0], {}),),
    }
)
"""Every paper by its id in `materials.toml`, one picture a side."""
