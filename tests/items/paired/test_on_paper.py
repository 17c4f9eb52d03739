"""Things to match and to sort on paper: which boxes they have, and that a kept sheet gives them back."""

from __future__ import annotations

import itertools
import json
from typing import TYPE_CHECKING

import pytest

from dayleaf.core.ids import FormatId, LessonId, SkillId
from dayleaf.course.load import grade2
from dayleaf.items.draw import draw_items
from dayleaf.marking.answer import asked_items, read_typed
from dayleaf.records.frozen import from_plain, to_plain
from dayleaf.sheets.codec import map_from_data, map_to_data
from dayleaf.sheets.ids import sheet_id
from dayleaf.sheets.model import Block, Look, PageMap, PageSpec, Placed, SheetSpec
from dayleaf.sheets.typeset import typeset_pages

if TYPE_CHECKING:
    from dayleaf.items.model import Item

SOME = [
    ("add-facts-within-20-mixed", "match"),
    ("tens-ones-model-99", "match"),
    ("regroup-ten-for-ones", "match"),
    ("even-odd-pairs", "sort"),
    ("shapes-2d-name", "sort"),
    ("symmetry-line", "sort"),
    ("time-quarter-hour", "match"),
    ("pv-3digit-model", "match"),
    ("choose-length-tool-unit", "sort"),
]


def item_of(skill: str, layout: str) -> Item:
    return draw_items(grade2().skills[SkillId(skill)], n=1, seed=7, format=FormatId(layout))[0]


def printed(item: Item) -> PageMap:
    page = PageSpec("own", "My page", (Block("Look.", (Placed(1, item),)),))
    sheet = SheetSpec(sheet_id("pairs"), LessonId("day-001"), "Ivo", (page,))
    return typeset_pages((sheet,), Look(large_boxes=True)).pages[0]


@pytest.mark.parametrize(("skill", "layout"), SOME)
def test_boxes_stand_line_under_line_and_never_touch(skill: str, layout: str) -> None:
    item = item_of(skill, layout)

    boxes = printed(item).boxes

    assert {box.kind for box in boxes} == {"digit" if layout == "match" else "tick"}
    lines = [[box for box in boxes if box.part == part.id] for part in item.parts]
    for above, below in itertools.pairwise(lines):
        assert max(box.y + box.h for box in above) < min(box.y for box in below)
    for line in lines:
        assert len({box.y for box in line}) == 1
        assert all(left.x + left.w < right.x for left, right in itertools.pairwise(line))


@pytest.mark.parametrize(("skill", "layout"), SOME)
def test_the_right_answer_is_typed_as_numbers_or_as_letters_of_the_columns(skill: str, layout: str) -> None:
    item = item_of(skill, layout)
    typed = item.answer
    if layout == "sort":
        typed = " ".join("ABC"[[one.code for one in part.options].index(part.answer)] for part in item.parts)

    asked = asked_items([printed(item)])[1]

    assert read_typed(asked, typed) == item.answer


@pytest.mark.parametrize(("skill", "layout"), SOME)
def test_a_kept_item_comes_back_as_it_was(skill: str, layout: str) -> None:
    item = item_of(skill, layout)

    assert from_plain(json.loads(json.dumps(to_plain(item)))) == item


@pytest.mark.parametrize(
    ("skill", "layout"),
    [("position-words", "draw"), ("count-objects-20", "build"), ("add-2digit-mental-split", "explain")],
)
def test_what_a_grown_up_ticks_stands_in_the_map_and_is_no_answer_of_the_child(skill: str, layout: str) -> None:
    page = printed(item_of(skill, layout))

    looks = [box for box in page.boxes if box.role == "look"]
    assert [box.id.rpartition(".")[2] for box in looks] == ["look-alone", "look-helped", "look-not-yet"]
    assert {box.kind for box in looks} == {"tick"}
    assert all(left.x + left.w < right.x or left.y + left.h < right.y for left, right in itertools.pairwise(looks))
    assert asked_items([page])[1].spots == ()
    assert map_from_data(map_to_data([page])) == (page,)
