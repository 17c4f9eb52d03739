"""The demo from the command line: any weekday is the day of two-digit subtraction with regrouping."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING, Any

import pytest

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

MONDAY = date(2026, 11, 23)


@pytest.mark.slow
@pytest.mark.parametrize("days", range(5), ids=("Monday", "Tuesday", "Wednesday", "Thursday", "Friday"))
def test_wrens_today_is_day_084_and_its_back_shows_five_other_skills(
    days: int, say: Callable[..., Any], tmp_path: Path
) -> None:
    today = (MONDAY + timedelta(days=days)).isoformat()
    where = ("--home", tmp_path / "home", "--today", today)

    assert say("demo", *where).status == 0
    data = say("day", *where, "--learner", "Wren", "--out", tmp_path / "out", "--json").json

    assert {side["lesson"] for side in data["sheets"]} == {"day-084"}
    assert [side["kind"] for side in data["sheets"]] == ["together", "own", "front", "back"]
    for side in data["sheets"][:3]:
        assert {item["skill"] for item in side["items"]} == {"sub-2digit-regroup"}
    back = [item["skill"] for item in data["sheets"][3]["items"]]
    assert len(set(back)) >= 5
    assert "sub-2digit-regroup" not in back


def test_the_demo_names_the_two_children_and_says_that_it_is_invented(say: Callable[..., Any], tmp_path: Path) -> None:
    said = say("demo", "--home", tmp_path / "home", "--today", "2027-01-12")

    assert "Wren and Ivo" in said.out
    assert "invented" in said.out
