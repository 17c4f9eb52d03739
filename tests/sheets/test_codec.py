"""The map as data: the shape of DESIGN 8, there and back."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

import pytest

from dayleaf.core.errors import BadInput
from dayleaf.sheets.codec import map_from_data, map_to_data
from dayleaf.sheets.model import Look
from dayleaf.sheets.typeset import typeset_pages

if TYPE_CHECKING:
    from collections.abc import Callable

    from dayleaf.sheets.model import PageMap, SheetSpec

SHAPE = {
    "": ["boxes", "items", "kind", "lang", "lesson", "marks", "page", "pdf_page", "qr", "sheet", "size_mm"],
    "qr": ["size", "text", "x", "y"],
    "marks": ["id", "size", "x", "y"],
    "boxes": ["answer", "h", "id", "item", "kind", "part", "role", "w", "x", "y"],
    "items": ["answer", "errors", "format", "key", "n", "numbers", "skill", "text"],
}
"""DESIGN 8, "Sheet map"."""


@pytest.fixture(scope="module")
def pages(day: Callable[..., tuple[SheetSpec, ...]]) -> tuple[PageMap, ...]:
    return typeset_pages(day(), Look()).pages


def test_the_map_survives_a_json_file(pages: tuple[PageMap, ...]) -> None:
    assert map_from_data(json.loads(json.dumps(map_to_data(pages)))) == pages


def test_the_map_has_exactly_the_published_fields(pages: tuple[PageMap, ...]) -> None:
    data = map_to_data(pages)

    assert sorted(data) == ["sheets", "version"]
    assert data["version"] == 1
    for entry in data["sheets"]:
        assert sorted(entry) == SHAPE[""]
        assert sorted(entry["qr"]) == SHAPE["qr"]
        for field in ("marks", "boxes", "items"):
            assert all(sorted(one) == SHAPE[field] for one in entry[field])


def test_the_answer_of_a_part_is_spelled_by_its_boxes(pages: tuple[PageMap, ...]) -> None:
    """62 - 38 in two boxes reads 2, 4; 54 in three boxes reads blank, 5, 4; ring and tick 1 or blank."""
    spelled = {
        (page.kind, item.n): "|".join(box.answer for box in page.boxes if box.item == item.n and box.role == "answer")
        for page in pages[:4]
        for item in page.items
    }

    assert spelled["own", 1] == "2|4"
    assert spelled["front", 5] == "|5|4"
    assert spelled["front", 7] == ">"
    assert spelled["back", 10] == "1||"
    assert spelled["back", 11] == "1||1"


def _broken(data: dict[str, Any], where: int, field: str, value: object) -> None:
    if value is None:
        del data["sheets"][where][field]
    else:
        data["sheets"][where][field] = value


def test_all_broken_sides_are_listed_at_once(pages: tuple[PageMap, ...]) -> None:
    data = map_to_data(pages)
    _broken(data, 0, "lesson", None)
    _broken(data, 2, "kind", "poster")
    _broken(data, 3, "boxes", [{"id": 7}])

    with pytest.raises(BadInput) as caught:
        map_from_data(data)

    assert [problem.where for problem in caught.value.problems] == ["sheets[0]", "sheets[2]", "sheets[3]"]


def test_another_version_is_refused(pages: tuple[PageMap, ...]) -> None:
    with pytest.raises(BadInput, match="version"):
        map_from_data({**map_to_data(pages), "version": 2})
