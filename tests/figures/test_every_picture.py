"""What holds for every kind of picture: sound SVG, black on white, lines that print, no clash of ids."""

import re
import xml.etree.ElementTree as ET

import pytest

from dayleaf.course.load import grade2
from dayleaf.figures.draw import DRAWERS, draw
from dayleaf.figures.params import PARAMS
from dayleaf.figures.values import UnknownFigure, WrongParameter
from dayleaf.items.model import Figure

SVG = "{http://www.w3.org/2000/svg}"
INKS = {"none", "#000", "#fff", "#6b6b6b", "#8c8c8c"}
"""Black, white and two greys."""


def test_every_kind_of_the_table_is_drawn() -> None:
    assert set(DRAWERS) == set(PARAMS)


def test_every_picture_of_the_course_has_parameters() -> None:
    # Source of the list: content/pictures.toml, which other hands keep.
    assert set(grade2().pictures) <= set(PARAMS)


def test_the_samples_of_these_tests_leave_no_kind_out(pictures: tuple[Figure, ...]) -> None:
    assert {figure.kind for figure in pictures} == set(PARAMS)


def test_title_and_description_come_first_and_are_escaped(picture: Figure) -> None:
    svg = draw(picture, title="a < b & “c”", desc="5 > 3").svg

    root = ET.fromstring(svg)  # noqa: S314 - our own output
    assert [child.tag for child in root][:2] == [f"{SVG}title", f"{SVG}desc"]
    assert (root[0].text, root[1].text) == ("a < b & “c”", "5 > 3")


def test_size_is_in_millimetres_and_agrees_with_the_view(picture: Figure) -> None:
    drawing = draw(picture, title="t", desc="d")

    root = ET.fromstring(drawing.svg)  # noqa: S314 - our own output
    assert root.get("width") == f"{root.get('viewBox', '').split()[2]}mm"
    assert root.get("viewBox") == f"0 0 {drawing.width:g} {drawing.height:g}"
    assert 0 < drawing.width <= 182  # what a Letter page leaves between its margins (JOB 3.1: 18 mm or more)


def test_nothing_but_black_white_and_grey_is_used(picture: Figure) -> None:
    root = ET.fromstring(draw(picture, title="t", desc="d").svg)  # noqa: S314 - our own output

    for element in root.iter():
        assert element.get("fill", "none") in INKS
        assert element.get("stroke", "none") in INKS


def test_no_line_is_thinner_than_one_point(picture: Figure) -> None:
    # 1 point = 25.4 / 72 = 0.3528 mm; the task's limit is 0.35 mm.
    for width in re.findall(r'stroke-width="([\d.]+)"', draw(picture, title="t", desc="d").svg):
        assert float(width) >= 0.35


def test_no_id_no_script_and_no_style_can_clash_in_a_page(picture: Figure) -> None:
    root = ET.fromstring(draw(picture, title="t", desc="d").svg)  # noqa: S314 - our own output

    tags = {element.tag.removeprefix(SVG) for element in root.iter()}
    assert tags <= {"svg", "title", "desc", "g", "path", "rect", "circle", "text"}
    assert not any(name in element.attrib for element in root.iter() for name in ("id", "class", "style"))


def test_numbers_are_short_and_the_same_every_time(picture: Figure) -> None:
    first, again = (draw(picture, title="t", desc="d").svg for _ in range(2))

    assert first == again
    assert not re.search(r"\d\.\d{4,}", first)
    assert "e-" not in re.sub(r"[a-z]+-[a-z]+", "", first)


def test_every_mark_lies_within_the_picture(picture: Figure) -> None:
    drawing = draw(picture, title="t", desc="d")

    unmoved = re.sub(r"<path transform[^>]*>", "", drawing.svg.split("<g transform")[0])
    for x, y in re.findall(r"M(-?[\d.]+) (-?[\d.]+)L", unmoved):
        assert -0.01 <= float(x) <= drawing.width + 0.01
        assert -0.01 <= float(y) <= drawing.height + 0.01


def test_words_of_the_language_take_the_place_of_codes() -> None:
    figure = Figure("pv-mat", {"digits": (4, 7)})

    svg = draw(figure, title="t", desc="d", words={"tens": "decenas", "ones": "unidades <1>"}).svg

    assert ">decenas<" in svg
    assert ">unidades &lt;1&gt;<" in svg


def test_an_unknown_kind_is_named() -> None:
    with pytest.raises(UnknownFigure, match="kind “unicorn”"):
        draw(Figure("unicorn", {}), title="t", desc="d")


@pytest.mark.parametrize(
    ("figure", "words"),
    [
        (Figure("clock", {"h": 4}), "m is missing"),
        (Figure("clock", {"h": 4, "m": 60}), "m is 60, not within 0 … 59"),
        (Figure("clock", {"h": 4, "m": 0, "colour": 1}), "colour is not a parameter"),
        (Figure("clock", {"h": "four", "m": 0}), "h is not of the type int"),
        (Figure("ten-frame", {"a": 15, "frames": 1}), "does not fit"),
        (Figure("counters", {"n": 5, "layout": "spiral"}), "layout is “spiral”"),
        (Figure("counters", {"n": 12, "layout": "scatter"}), "too many for a scatter"),
        (Figure("base-ten", {"o": 4, "traded": 1}), "at least ten ones"),
        (Figure("number-line", {"lo": 0, "hi": 10, "step": 3}), "does not lead from 0 to 10"),
        (Figure("number-line", {"lo": 0, "hi": 10, "points": (11,)}), "do not reach 11"),
        (Figure("coins", {"coins": (3,)}), "holds no coin"),
        (Figure("bar-model", {"kind": "compare", "a": 3, "b": 9}), "the smaller of the two"),
        (Figure("shapes-2d", {"shapes": ("blob",)}), "“blob”"),
        (Figure("grid-map", {"things": ("goat",), "places": ("Z9",)}), "“Z9”"),
        (Figure("step-cards", {"steps": ("repeat-2", "up")}), "no end"),
        (Figure("table", {"cells": ("1", "2", "3"), "columns": 2}), "rows of 2"),
        (Figure("jug", {"max": 10, "step": 2, "level": 11}), "level is 11"),
        (Figure("bar-graph", {"labels": ("egg",), "data": (5, 6)}), "are 1 for 2"),
        (Figure("bar-graph", {"labels": ("egg",), "data": (8,), "max": 5}), "lower than a bar"),
    ],
)
def test_a_parameter_that_cannot_be_drawn_is_named(figure: Figure, words: str) -> None:
    with pytest.raises(WrongParameter, match=re.escape(words)):
        draw(figure, title="t", desc="d")
