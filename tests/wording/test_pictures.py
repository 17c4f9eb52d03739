"""Descriptions of pictures hold the data and never the answer (CHECKS G.1, WCAG 2.2 criterion 1.1.1)."""

import re

import pytest

from dayleaf.figures.outlines import SHAPES
from dayleaf.items.model import Figure
from dayleaf.wording.pictures import figure_texts, figure_words
from dayleaf.wording.seen_things import sides_of
from dayleaf.wording.tables import NoWords

Params = dict[str, int | str | tuple[int, ...] | tuple[str, ...]]


def said(kind: str, params: Params, lang: str = "en") -> str:
    return figure_words(Figure(kind, params), lang)[1]


def numbers(text: str) -> list[int]:
    return [int(n) for n in re.findall(r"\d+", text)]


ASKED: list[tuple[str, Params, str, str, int]] = [
    ("counters", {"n": 13}, "13", "counter", 13),
    ("ten-frame", {"a": 7}, "7", "counter", 7),
    ("dot-pairs", {"n": 9}, "9", "dot", 9),
    ("linking-train", {"a": 8, "b": 5}, "13", "cube", 13),
    ("bundle", {"tens": 4, "ones": 3}, "43", "bundle", 4),
    ("base-ten", {"t": 4, "o": 3}, "43", "rod", 4),
    ("array-dots", {"r": 3, "c": 4}, "12", "dot", 12),
    ("area-grid", {"r": 2, "c": 3, "cells": (0, 1)}, "2", "hatched", 2),
    ("set-objects", {"groups": 4, "size": 3}, "12", "dot", 12),
    ("tally", {"counts": (13,)}, "13", "bundle of five", 2),
    ("picture-graph", {"labels": ("egg",), "data": (8,)}, "8", "picture", 8),
    ("bar-graph", {"labels": ("egg",), "data": (8,)}, "8", "step", 8),
    ("line-plot", {"lo": 3, "data": (5, 2)}, "5", "cross", 7),
    ("ruler-cm", {"length": 12, "start": 2, "end": 9}, "7", "space", 7),
    ("thermometer", {"lo": 0, "hi": 100, "step": 2, "level": 64, "every": 5}, "64", "mark", 2),
    ("jug", {"max": 1000, "step": 100, "level": 700, "every": 2}, "700", "mark", 1),
    ("number-line", {"lo": 0, "hi": 100, "step": 10, "labels": (0, 100), "arrow": 60}, "60", "mark", 6),
    ("fraction-shapes", {"shape": "circle", "n": 4, "k": 3}, "3", "hatched", 3),
]
"""kind, parameters, the answer asked for, a piece, and how often a listener must hear it (counted by hand)."""


@pytest.mark.parametrize(("kind", "params", "answer", "piece", "times"), ASKED)
def test_an_asked_number_is_told_piece_by_piece_and_not_as_a_number(
    kind: str, params: Params, answer: str, piece: str, times: int
) -> None:
    text = said(kind, {**params, "question": 1}).lower()

    assert int(answer) not in numbers(text)
    assert len(re.findall(rf"\b{piece}\b", text)) == times


TOLD: list[tuple[str, Params, list[int]]] = [
    ("counters", {"n": 13}, [13]),
    ("bundle", {"tens": 4, "ones": 3}, [4, 3]),
    ("base-ten", {"h": 2, "t": 4, "o": 13}, [2, 4, 13]),
    ("pv-mat", {"digits": (6, 4)}, [6, 4]),
    ("array-dots", {"r": 3, "c": 4}, [3, 4]),
    ("set-objects", {"groups": 4, "size": 3, "extra": 2}, [4, 3, 2]),
    ("tally", {"counts": (13,)}, [2, 3]),
    ("ruler-cm", {"length": 12, "start": 2, "end": 9}, [0, 12, 2, 9]),
    ("bar-graph", {"labels": ("egg", "bean"), "data": (8, 3)}, [8, 3]),
    ("balance", {"left": 8, "right": 5}, [8, 5]),
    ("bills", {"bills": (5, 20)}, [5, 20]),
    ("coins", {"coins": (25, 10, 1)}, [25, 10, 1]),
    ("objects-line", {"lengths": (80, 55)}, [80, 55]),
]


@pytest.mark.parametrize(("kind", "params", "data"), TOLD)
def test_what_is_not_asked_is_told_in_numbers(kind: str, params: Params, data: list[int]) -> None:
    assert numbers(said(kind, params)) == data


@pytest.mark.parametrize(
    ("kind", "params", "hidden"),
    [
        ("part-whole", {"whole": 14, "a": 8, "b": 6, "hidden": ("b",)}, 6),
        ("family-card", {"w": 13, "a": 9, "b": 4, "hidden": ("w",)}, 13),
        ("bar-model", {"whole": 45, "a": 28, "b": 17, "hidden": ("whole",)}, 45),
        ("bar-model", {"kind": "compare", "a": 34, "b": 19, "hidden": ("difference",)}, 15),
        ("hundred-chart", {"cells": (44, 45, 46), "blanks": (45,)}, 45),
        ("tape-measure", {"values": (45, 27), "hidden": (1,)}, 27),
        ("number-line", {"lo": 20, "hi": 70, "open": 1, "jumps": (62, 32, 24), "blank_end": 1}, 24),
    ],
)
def test_a_number_in_an_empty_box_is_not_told(kind: str, params: Params, hidden: int) -> None:
    assert hidden not in numbers(said(kind, params))


@pytest.mark.parametrize(
    ("time", "text"),
    [
        ((4, 35), "The short hand is between 4 and 5, the long hand on 7."),
        ((12, 30), "The short hand is between 12 and 1, the long hand on 6."),
        ((3, 0), "The short hand is on 3, the long hand on 12."),
        ((9, 47), "The short hand is between 9 and 10, the long hand 2 small marks past 9."),
    ],
)
def test_a_clock_is_told_by_its_hands(time: tuple[int, int], text: str) -> None:
    assert said("clock", {"h": time[0], "m": time[1], "question": 1}) == text


def test_a_face_to_draw_on_tells_no_hands() -> None:
    assert said("clock", {"h": 4, "m": 30, "hands": 0}) == "A clock face without hands."


def test_a_place_on_a_map_is_told_by_column_and_row_not_by_its_name() -> None:
    text = said("grid-map", {"things": ("goat",), "places": ("C4",), "question": 1})

    assert "goat: third column, fourth row" in text
    assert "C4" not in text


@pytest.mark.parametrize("name", sorted(SHAPES))
def test_sides_of_shapes_are_told_as_they_are_drawn(name: str) -> None:
    assert sides_of(name) == (SHAPES[name].sides or 0)


def test_names_of_shapes_and_solids_are_not_told_where_they_are_asked() -> None:
    assert "hexagon" not in said("shapes-2d", {"shapes": ("hexagon",), "question": 1})
    assert "cone" not in said("solids-3d", {"solids": ("cone", "cube"), "question": 1})
    assert "cone" in said("solids-3d", {"solids": ("cone", "cube")})


def test_words_inside_a_picture_come_in_the_language_of_the_page() -> None:
    mat = Figure("pv-mat", {"digits": (4, 7)})

    assert figure_texts(mat, "en")["tens"] == "tens"
    assert figure_texts(mat, "es")["tens"] == "decenas"
    assert figure_texts(Figure("bar-graph", {"labels": ("egg",), "data": (1,)}), "en") == {"egg": "eggs"}
    assert figure_texts(Figure("grid-map", {"things": ("goat",), "places": ("A1",)}), "en") == {"goat": "goat"}


def test_blocks_are_described_in_spanish_too() -> None:
    assert said("base-ten", {"t": 5, "o": 1}, "es") == "5 barras de diez, 1 cubo de uno."


def test_a_picture_without_spanish_words_says_so() -> None:
    with pytest.raises(NoWords, match=r"figure\.clock"):
        figure_words(Figure("clock", {"h": 1, "m": 0}), "es")
