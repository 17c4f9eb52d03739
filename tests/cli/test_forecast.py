"""`dayleaf forecast` on the demo household: its shape, its sentence, and what must hold of any forecast."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from .conftest import Said


def test_the_rest_of_the_year_is_lived_from_what_is_believed_today(say: Callable[..., Said], home: Path) -> None:
    words = ("forecast", "--home", home, "--today", "2027-05-25", "--learner", "Wren", "--years", 9)

    shape, said = say(*words, "--json").json, say(*words).out

    (wren,) = shape["learners"]
    assert shape["simulated"] is True
    assert wren["years"] == 9
    assert 0 < wren["firm"] <= wren["skills"]
    assert 0 <= wren["repeats"] <= 2 * wren["lessons"]
    dates = [day for day in wren["finished"].values() if day is not None]
    assert dates == sorted(dates)
    assert said.startswith("Wren: ")
    assert "Simulated" in said
