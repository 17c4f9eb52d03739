"""`dayleaf print` and `dayleaf calibrate`: things by name, a lost piece, a printer that shrinks, a day with mats."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pikepdf
import pytest

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path


def _pages(file: Path) -> int:
    with pikepdf.open(file) as document:
        return len(document.pages)


def test_things_come_out_one_file_each_and_a_day_stands_for_its_print_outs(
    say: Callable[..., Any], home: Path, tmp_path: Path
) -> None:
    said = say("print", "sign-cards", "day-082", "--home", home, "--out", tmp_path / "out", "--json")

    assert [one["thing"] for one in said.json["printed"]] == ["sign-cards", "pv-mat", "picture-card:base-ten"]
    for one in said.json["printed"]:
        assert _pages(tmp_path / "out" / one["file"]) == one["sides"]


def test_a_lost_piece_is_printed_and_a_wrong_name_is_answered_with_the_names(
    say: Callable[..., Any], home: Path, tmp_path: Path
) -> None:
    one = say("print", "digit-cards", "--piece", "7", "--piece", "3=2", "--home", home, "--out", tmp_path, "--json")
    wrong = say("print", "digit-cards", "--piece", "ten", "--home", home, "--out", tmp_path / "other")

    assert (one.json["printed"][0]["pieces"], one.json["printed"][0]["sheets"]) == (3, 1)
    assert wrong.status == 2
    assert "its pieces are 0, 1, 2" in wrong.err
    assert not (tmp_path / "other").exists()


def test_a_measured_bar_corrects_what_is_printed_until_it_is_forgotten(
    say: Callable[..., Any], home: Path, tmp_path: Path
) -> None:
    page = say("calibrate", "--home", home, "--out", tmp_path, "--json")
    measured = say("calibrate", "--home", home, "--measured", "98.5mm", "--json")
    drawn = say("print", "ruler", "--home", home, "--out", tmp_path, "--json")
    forgotten = say("calibrate", "--home", home, "--forget", "--json")

    assert page.json == {"scale": 1.0, "file": "calibration.pdf"}
    assert measured.json["scale"] == pytest.approx(100 / 98.5)
    assert drawn.json["scale"] == measured.json["scale"]
    assert forgotten.json["scale"] == 1.0


@pytest.mark.parametrize("written", ["80mm", "long", "100"])
def test_a_measure_that_cannot_be_meant_changes_nothing(say: Callable[..., Any], home: Path, written: str) -> None:
    said = say("calibrate", "--home", home, "--measured", written)

    assert said.status == 2
    assert len(said.err.strip().splitlines()) == 1
    assert say("calibrate", "--home", home, "--json").json["scale"] == 1.0


def test_nothing_is_kept_where_no_household_is(say: Callable[..., Any], tmp_path: Path) -> None:
    said = say("calibrate", "--home", tmp_path / "nowhere", "--measured", "99mm")

    assert said.status == 2
    assert not (tmp_path / "nowhere").exists()


def test_a_day_is_printed_with_its_print_outs_after_its_pages(
    wren: Callable[..., Any], say: Callable[..., Any], home: Path, tmp_path: Path
) -> None:
    """The pages stay where they were, so that the map of their boxes holds."""
    assert wren("--out", tmp_path / "plain").status == 0
    both = wren("--out", tmp_path / "both", "--with-print-outs", "--json")

    alone, together = _pages(tmp_path / "plain" / "pages.pdf"), _pages(tmp_path / "both" / "pages.pdf")
    assert together > alone
    assert (tmp_path / "plain" / "sheets.json").read_bytes() == (tmp_path / "both" / "sheets.json").read_bytes()
    assert max(side["pdf_page"] for side in both.json["sheets"]) <= alone
    assert say("log", "--home", home).out.count("Wren: Printed day-084") == 1


def test_a_week_is_printed_with_what_its_prep_list_says_to_print(
    say: Callable[..., Any], home: Path, tmp_path: Path
) -> None:
    said = say(
        "week", "--all", "--home", home, "--today", "2027-01-12", "--with-print-outs", "--out", tmp_path, "--json"
    )

    asked = [one["kind"] for one in said.json["prep"]]
    assert ("print-outs.pdf" in said.json["papers"]) == ("print" in asked)
    assert ("cut-outs.pdf" in said.json["papers"]) == ("cut" in asked)
    assert all((tmp_path / name).exists() for name in said.json["papers"])
