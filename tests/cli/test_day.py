"""`dayleaf day`: the same again, nothing recorded, fresh numbers, other paper and languages."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

import pikepdf
import pytest

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

FILES = {"guide.pdf", "pages.pdf", "key.pdf", "sheets.json"}
"""The issue's own list."""


def files(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in folder.iterdir()}


def keys(sheets: Any) -> list[str]:
    return [item["key"] for side in sheets["sheets"] for item in side["items"]]


def test_a_day_is_four_files_and_printing_it_again_gives_the_same_bytes(
    wren: Callable[..., Any], tmp_path: Path
) -> None:
    assert wren("--out", tmp_path / "one").status == 0
    assert wren("--out", tmp_path / "two").status == 0

    first, second = files(tmp_path / "one"), files(tmp_path / "two")
    assert set(first) == FILES
    assert first == second


def test_a_dry_run_shows_the_same_pages_and_records_nothing(
    wren: Callable[..., Any], say: Callable[..., Any], home: Path, kept: Callable[[Path], str], tmp_path: Path
) -> None:
    before, log = kept(home), say("log", "--home", home, "--json").out

    assert wren("--out", tmp_path / "dry", "--dry").status == 0

    assert kept(home) == before
    assert say("log", "--home", home, "--json").out == log
    assert wren("--out", tmp_path / "wet").status == 0
    assert files(tmp_path / "dry") == files(tmp_path / "wet")
    assert say("log", "--home", home, "--json").out != log


def test_fresh_numbers_are_other_numbers_on_other_sheets(wren: Callable[..., Any], tmp_path: Path) -> None:
    first = wren("--out", tmp_path / "one", "--json").json
    second = wren("--out", tmp_path / "two", "--fresh", "--json").json

    own = [[item["key"] for side in one["sheets"] if side["kind"] == "own" for item in side["items"]]
           for one in (first, second)]  # fmt: skip
    assert len(own[0]) == len(own[1])
    assert set(own[0]).isdisjoint(own[1])
    assert {side["sheet"] for side in first["sheets"]}.isdisjoint(side["sheet"] for side in second["sheets"])
    assert wren("--out", tmp_path / "three", "--json").json == second


def test_the_same_seed_gives_the_same_items_and_another_one_others(wren: Callable[..., Any], tmp_path: Path) -> None:
    seven, again, eight = (wren("--out", tmp_path / "x", "--dry", "--seed", n, "--json").json for n in (7, 7, 8))

    assert seven == again
    assert keys(seven) != keys(eight)


@pytest.mark.parametrize(("paper", "size"), [("letter", (215.9, 279.4)), ("a4", (210.0, 297.0))])
def test_paper_can_be_another_for_once(
    paper: str, size: tuple[float, float], wren: Callable[..., Any], tmp_path: Path
) -> None:
    # ANSI/ASME Y14.1 (8.5 × 11 inch) and ISO 216; a point is 1/72 inch
    data = wren("--out", tmp_path, "--paper", paper, "--dry", "--json").json

    assert {tuple(side["size_mm"]) for side in data["sheets"]} == {size}
    for name in ("guide.pdf", "pages.pdf", "key.pdf"):
        with pikepdf.open(tmp_path / name) as document:
            for side in document.pages:
                box = [float(edge) for edge in side.MediaBox]
                assert [edge * 25.4 / 72 for edge in box[2:]] == pytest.approx(size, abs=0.1)


def test_the_childs_pages_speak_spanish_where_asked(wren: Callable[..., Any], tmp_path: Path) -> None:
    data = wren("--out", tmp_path, "--lang", "es", "--dry", "--json").json

    assert {side["lang"] for side in data["sheets"]} == {"es"}
    assert {item["skill"] for side in data["sheets"] for item in side["items"] if side["kind"] == "own"} == {
        "sub-2digit-regroup"
    }
    with pikepdf.open(tmp_path / "pages.pdf") as document:
        assert document.Root.Lang == "es"


def test_a_lesson_may_be_named_or_found_by_its_date(
    wren: Callable[..., Any], say: Callable[..., Any], home: Path, tmp_path: Path
) -> None:
    plan = say("plan", "--home", home, "--learner", "wren", "--json").json
    on = next(one["date"] for one in plan["lessons"] if one["id"] == "day-086")

    by_name = wren("--out", tmp_path / "a", "--lesson", "day-086", "--dry", "--json").json
    by_number = wren("--out", tmp_path / "b", "--lesson", "86", "--dry", "--json").json
    by_date = wren("--out", tmp_path / "c", "--date", on, "--dry", "--json").json

    assert {side["lesson"] for side in by_name["sheets"]} == {"day-086"}
    assert by_name == by_number
    assert {side["lesson"] for side in by_date["sheets"]} == {"day-086"}
    assert json.loads((tmp_path / "c" / "sheets.json").read_text("utf-8")) == by_date


def test_many_seeds_give_only_items_and_record_nothing(
    wren: Callable[..., Any], home: Path, kept: Callable[[Path], str]
) -> None:
    before = kept(home)

    data = wren("--items-only", "--seeds", "1:4", "--json").json

    assert [one["seed"] for one in data["seeds"]] == [1, 2, 3]
    assert kept(home) == before
    again = wren("--items-only", "--seeds", "2:3", "--json").json
    assert again["seeds"] == data["seeds"][1:2]
