"""`dayleaf week` from the command line: the week of the demo household, its print run, and four weeks ahead."""

from __future__ import annotations

import json
from io import BytesIO
from typing import TYPE_CHECKING, Any

import pdfplumber

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

TODAY = "2027-01-12"


def test_the_week_of_everyone_is_one_page_and_one_list(say: Callable[..., Any], home: Path, tmp_path: Path) -> None:
    said = say("week", "--home", home, "--today", TODAY, "--all", "--out", tmp_path / "week")

    assert said.status == 0, said.err
    assert said.out.startswith("The week of January 11 to 15: 4 days with lessons")
    with pdfplumber.open(tmp_path / "week" / "week.pdf") as pdf:
        assert len(pdf.pages) == 1
    data = json.loads((tmp_path / "week" / "week.json").read_text("utf-8"))
    assert {one["learner"] for one in data["lessons"]} == {"Wren", "Ivo"}
    things = [(one["material"], one["what"]) for one in data["prep"]]
    assert len(things) == len(set(things))
    # JOB 1.5: three days firm; the demo's fourth day, Monday, is past
    assert {one["date"] for one in data["run"] if one["firm"]} == {"2027-01-12", "2027-01-14", "2027-01-15"}


def test_looking_at_a_week_records_nothing(
    say: Callable[..., Any], home: Path, kept: Callable[[Path], str], tmp_path: Path
) -> None:
    before = kept(home)

    assert say("week", "--home", home, "--today", TODAY, "--learner", "Wren", "--out", tmp_path / "o").status == 0
    assert say("week", "--home", home, "--today", TODAY, "--all", "--json").json["first"] == "2027-01-11"

    assert kept(home) == before


def test_the_firm_days_are_printed_in_the_order_of_use_and_a_later_run_prints_nothing_twice(
    say: Callable[..., Any], home: Path, tmp_path: Path
) -> None:
    words = ("week", "--home", home, "--today", TODAY, "--all", "--json")

    first = say(*words, "--print", "--out", tmp_path / "one").json
    second = say(*words, "--ahead", 1, "--out", tmp_path / "two").json

    days = [one["date"] for one in first["printed"]]
    assert days == sorted(days)
    assert {one["learner"] for one in first["printed"]} == {"Wren", "Ivo"}
    ids = [sheet for one in first["printed"] for sheet in one["sheets"]]
    assert len(ids) == len(set(ids))  # JOB (g) 3: each sheet id unique
    assert all(one["new"] for one in first["printed"])
    assert not any(one["new"] for one in second["printed"])
    assert (tmp_path / "one" / "pages.pdf").read_bytes() == (tmp_path / "two" / "pages.pdf").read_bytes()
    _map_fits_the_pages(tmp_path / "one")
    _other_skills_come_back_each_day(tmp_path / "one")
    assert say("mark", ids[-1], "--home", home, "--today", TODAY).status == 0


def _map_fits_the_pages(folder: Path) -> None:
    """Every side of the map stands on the page of the bound file that it names, a front on an odd page."""
    sides = json.loads((folder / "sheets.json").read_text("utf-8"))["sheets"]
    with pdfplumber.open(BytesIO((folder / "pages.pdf").read_bytes())) as pdf:
        for side in sides:
            assert side["sheet"] in pdf.pages[side["pdf_page"] - 1].extract_text()
            assert side["pdf_page"] % 2 == side["page"] % 2


def _other_skills_come_back_each_day(folder: Path) -> None:
    """What was printed for a day is taken as done when the next day's back is guessed."""
    backs: dict[str, set[str]] = {}
    for side in json.loads((folder / "sheets.json").read_text("utf-8"))["sheets"]:
        if side["kind"] == "back":
            backs.setdefault(side["lesson"], set()).update(item["skill"] for item in side["items"])
    one, two, three = (backs[lesson] for lesson in ("day-084", "day-085", "day-086"))
    assert one
    assert two
    assert not one & two & three


def test_a_wish_that_cannot_be_met_is_one_clear_line(say: Callable[..., Any], home: Path, tmp_path: Path) -> None:
    both = say("week", "--home", home, "--all", "--learner", "Wren", "--out", tmp_path)
    nobody = say("week", "--home", home, "--out", tmp_path)
    nowhere = say("week", "--home", home, "--all")
    far = say("week", "--home", home, "--all", "--ahead", 5, "--out", tmp_path)
    file = tmp_path / "file"
    file.touch()
    no_folder = say("week", "--home", home, "--today", TODAY, "--all", "--out", file / "x")

    assert [one.status for one in (both, nobody, nowhere, far, no_folder)] == [2] * 5
    assert "--all" in nobody.err
    assert "--out" in nowhere.err
    assert "Nothing can be written" in no_folder.err
