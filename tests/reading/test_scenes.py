"""People's digits (MNIST test digits 0 to 4999) in photos and scans of our own sheets; the long run is in bench/."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
import reading_report
import scenes

if TYPE_CHECKING:
    from pathlib import Path

SEEDS = {"easy": (1,), "normal": (2, 3), "hard": (3, 4, 6), "scan": (1, 2)}


@pytest.mark.parametrize("level", scenes.LEVELS)
def test_every_box_is_placed_and_none_is_mistaken_for_empty(level: scenes.Level, digits_folder: Path) -> None:
    count = reading_report.count_level(level, SEEDS[level], digits_folder)

    assert count.refused.total() == 0
    assert max(count.away, default=0) <= reading_report.PLACED
    assert count.boxes["written"] > 5
    assert count.boxes["written taken for blank"] == 0
    assert count.boxes["blank taken for written"] == 0
    assert count.boxes["signs wrong"] == 0
    assert count.boxes["silently wrong"] == 0


def test_a_seed_gives_the_same_scene_again(digits_folder: Path) -> None:
    first, second = (scenes.scene("scan", seed=3, folder=digits_folder) for _ in range(2))

    assert (first.file, first.written) == (second.file, second.written)
