"""What is drawn, built or told is marked by three touches: alone, with help, not yet (JOB 1.7)."""

from __future__ import annotations

import html
from datetime import date
from typing import TYPE_CHECKING

from dayleaf.course.load import grade2
from dayleaf.marking.answer import asked_items
from dayleaf.records import desk, selectors

if TYPE_CHECKING:
    from django.test import Client

    from dayleaf.records.models import Learner, SheetRow

TODAY = date(2027, 1, 12)
CLOCKS = "day-124"
"""A lesson on which hands are drawn."""


def drawn_on(wren: Learner) -> tuple[SheetRow, list[int]]:
    """A printed sheet with items that are drawn, and their numbers."""
    desk.day_print(wren, desk.Wish(today=TODAY, lesson=CLOCKS))
    for sheet in selectors.sheets_of(wren):
        asked = asked_items(selectors.pages_of(sheet))
        looked = [n for n, one in asked.items() if not one.spots]
        if sheet.lesson == CLOCKS and looked:
            return sheet, looked
    raise AssertionError


def test_a_drawn_item_is_marked_by_a_touch_with_what_to_look_for_beside_it(browser: Client, wren: Learner) -> None:
    sheet, looked = drawn_on(wren)
    page = html.unescape(browser.get(f"/mark/{sheet.sheet_id}").content.decode())
    how = ["not yet", "with help", "alone"]
    said = {f"look-{n}": how[k % 3] for k, n in enumerate(looked)}

    again = browser.post(f"/mark/{sheet.sheet_id}", said).content.decode()

    marking = selectors.marking_of(sheet)
    assert marking is not None
    marks = {mark.n: (mark.state, mark.helped) for mark in marking.items}
    expected = {"not yet": ("wrong", False), "with help": ("right", True), "alone": ("right", False)}
    assert {n: marks[n] for n in looked} == {n: expected[how[k % 3]] for k, n in enumerate(looked)}
    rubric = grade2().rubrics
    formats = {mark.format for mark in marking.items if mark.n in looked}
    assert all(rubric[name].look_for in page for name in formats if name in rubric)
    for n in looked:
        assert f'name="look-{n}" value="{said[f"look-{n}"]}" checked' in again
        assert f'name="wrong-{n}"' not in page
