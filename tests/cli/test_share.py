"""Two installations on one machine: a family's home and a consultant's, from the verbs as they are typed."""

from __future__ import annotations

import json
import shutil
import zipfile
from typing import TYPE_CHECKING, Any

import pytest

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

TODAY = "2027-01-12"
END = "2027-03-01"
NOTE = "open the ten before you talk about it"
"""A part of a note that the demo household holds about Wren."""


@pytest.fixture
def shared(say: Callable[..., Any], home: Path, tmp_path: Path) -> Callable[..., Path]:
    """Wren's file with these kinds."""

    def made(kinds: str, name: str = "wren.shared") -> Path:
        file = tmp_path / name
        words = ("--home", home, "--today", TODAY, "--learner", "Wren", "--as", "Boat", "--kinds", kinds)
        assert say("share", *words, "--until", END, "--out", file).status == 0
        return file

    return made


def inside(file: Path) -> str:
    """Every byte that the file holds, unpacked, as text."""
    with zipfile.ZipFile(file) as pack:
        return "\n".join(pack.read(name).decode() for name in pack.namelist())


@pytest.mark.parametrize(
    ("kinds", "there", "absent"),
    [
        ("plan", ["kept"], ["taught", "samples", "messages", NOTE, "how_far", "known"]),
        ("progress", ["taught", "known"], ["kept", "then", "title", "samples", "messages", NOTE]),
        ("messages", [NOTE], ["taught", "kept", "known", "day-084"]),
        ("samples", ["items"], ["taught", "kept", "known", NOTE]),
    ],
)
def test_nothing_that_was_not_ticked_is_in_the_file(
    shared: Callable[..., Path], kinds: str, there: list[str], absent: list[str]
) -> None:
    text = inside(shared(kinds))

    assert [one for one in there if one not in text] == []
    assert [one for one in absent if f'"{one}"' in text or (" " in one and one in text)] == []
    assert "Ivo" not in text, "another child of the family"
    assert "Wherrow" not in text, "the family is listed under the name it chose"


def test_days_off_leave_without_their_names(shared: Callable[..., Path]) -> None:
    with zipfile.ZipFile(shared("plan")) as pack:
        kept = json.loads(pack.read("records.json"))["plan"]["kept"]

    calendars = [run["calendar"] for run in kept["runs"]]
    assert any(one["off"] for one in calendars), "the demo household has days off"
    assert {name for one in calendars for *_, name in (*one["off"], *one["holidays"])} == {"off"}
    assert kept["holidays_of"] == ["", ""]


def test_a_plan_goes_there_and_back_and_the_family_decides(
    say: Callable[..., Any], home: Path, shared: Callable[..., Path], tmp_path: Path, kept: Callable[[Path], str]
) -> None:
    file, desk, back = shared("plan,progress"), tmp_path / "desk", tmp_path / "plan.shared"
    before = kept(home)

    opened = say("open-share", file, "--home", desk, "--today", TODAY)
    wish = ("--off", "2027-02-01:2027-02-05", "--from", "Tobin", "--words", "a week for the locks")
    made = say("suggest", file, "--today", TODAY, *wish, "--out", back)
    looked = say("open-share", back, "--home", home, "--today", TODAY, "--json")

    assert (opened.status, made.status, looked.status) == (0, 0, 0)
    assert "Boat, Wren" in opened.out
    moved = looked.json["moved"]
    assert moved
    assert not [one for one in moved if "2027-02-01" <= (one["after"] or "") <= "2027-02-05"]
    assert [one for one in moved if "2027-02-01" <= (one["before"] or "") <= "2027-02-05"]
    assert kept(home) == before, "looking changes nothing"

    declined = say("open-share", back, "--home", home, "--today", TODAY, "--decline")
    assert "Nothing was changed" in declined.out
    assert kept(home) == before

    accepted = say("open-share", back, "--home", home, "--today", TODAY, "--accept")
    again = say("open-share", back, "--home", home, "--today", TODAY, "--accept")
    assert "Accepted" in accepted.out
    assert kept(home) != before
    assert (again.status, "has changed since it was shared" in again.err) == (2, True)


def test_a_plan_for_another_home_or_after_the_end_or_after_stop_is_let_in_nowhere(
    say: Callable[..., Any], home: Path, shared: Callable[..., Path], tmp_path: Path, kept: Callable[[Path], str]
) -> None:
    file, back, other = shared("plan"), tmp_path / "plan.shared", tmp_path / "other"
    shutil.copytree(home, other)
    shutil.rmtree(other / "shared")
    assert say("suggest", file, "--today", TODAY, "--weekdays", "mon,tue,wed,thu", "--out", back).status == 0
    before = kept(home)

    stranger = say("open-share", back, "--home", other, "--today", TODAY, "--accept")
    late = say("open-share", back, "--home", home, "--today", "2027-03-02", "--accept")
    listed = say("share", "--home", home, "--today", TODAY, "--list")
    share = listed.out.split("(share ")[1].split(")")[0]
    stopped = say("share", "--home", home, "--today", TODAY, "--stop", share)
    after = say("open-share", back, "--home", home, "--today", TODAY, "--accept")

    assert "answers nothing that this home shares" in stranger.err
    assert "ended on 1 March 2027" in late.err
    assert stopped.status == 0
    assert "answers nothing that this home shares" in after.err
    assert kept(home) == before


def test_a_consultants_copy_ends_by_itself(
    say: Callable[..., Any], shared: Callable[..., Path], tmp_path: Path
) -> None:
    file, desk = shared("plan,progress"), tmp_path / "desk"
    say("open-share", file, "--home", desk, "--today", TODAY)
    copies = desk / "families"
    assert len(list(copies.iterdir())) == 1

    on_the_last = say("who", "--home", desk, "--today", END, "--json")
    left = len(list(copies.iterdir()))
    day_after = say("who", "--home", desk, "--today", "2027-03-02", "--json")

    assert (on_the_last.json["children"], left) == (1, 1)
    assert (day_after.json["children"], list(copies.iterdir())) == (0, [])
    assert say("open-share", file, "--home", desk, "--today", "2027-03-02").status == 2


def test_what_cannot_be_shared_is_refused_and_nothing_is_written(
    say: Callable[..., Any], home: Path, tmp_path: Path, kept: Callable[[Path], str]
) -> None:
    out, before = tmp_path / "x.shared", kept(home)
    start = ("share", "--home", home, "--today", TODAY, "--learner")
    bad = [
        (*start, "Wren", "--kinds", "plan,birthday", "--until", END, "--out", out),
        (*start, "Wren", "--kinds", "", "--until", END, "--out", out),
        (*start, "Wren", "--kinds", "plan", "--until", "2027-01-11", "--out", out),
        (*start, "Wren", "--kinds", "plan", "--until", "2028-06-01", "--out", out),
        (*start, "Wren", "--kinds", "plan", "--out", out),
        (*start, "Nobody", "--kinds", "plan", "--until", END, "--out", out),
        (*start, "Wren", "--kinds", "plan", "--until", END, "--out", tmp_path / "no" / "x.shared"),
    ]

    said = [say(*words) for words in bad]

    assert [one.status for one in said] == [2] * len(bad)
    assert all(one.err.strip() for one in said)
    assert not out.exists()
    assert not list((home / "shared").glob("*.shared"))
    assert kept(home) == before


def test_who_reads_homes_and_says_no_news_only_after_ten_planned_days(
    say: Callable[..., Any], home: Path, tmp_path: Path, kept: Callable[[Path], str]
) -> None:
    folder = tmp_path / "families"
    folder.mkdir()
    shutil.copytree(home, folder / "boat")
    (folder / "note.json").write_text('{"not": "ours"}')
    before = kept(folder / "boat")

    now = say("who", "--families", folder, "--today", TODAY, "--json").json
    later = say("who", "--families", folder, "--today", "2027-02-05", "--json").json

    assert (now["children"], now["calls"]) == (2, [])
    assert [one["where"] for one in now["not_read"]] == ["note.json"]
    assert later["calls"]
    assert all([reason["reason"] for reason in call["reasons"]] == ["no news"] for call in later["calls"])
    assert later["calls"][0]["ask_first"].endswith(".")
    assert kept(folder / "boat") == before


def test_a_line_is_set_aside_with_a_note_until_its_day(say: Callable[..., Any], home: Path, tmp_path: Path) -> None:
    folder = tmp_path / "families"
    folder.mkdir()
    shutil.copytree(home, folder / "boat")
    who = ("who", "--families", folder, "--today", "2027-02-05")
    first = say(*who, "--json").json["calls"]
    line = f"{first[0]['family']}/{first[0]['learner']}"

    wordless = say(*who, "--dismiss", line, "--until", "2027-02-20")
    done = say(*who, "--dismiss", line, "--until", "2027-02-20", "--note", "on holiday until 20 February")
    hushed = say(*who, "--json").json
    again = say("who", "--families", folder, "--today", "2027-02-21", "--json").json

    assert (wordless.status, done.status) == (2, 0)
    assert len(hushed["calls"]) == len(first) - 1
    assert hushed["set_aside"][0]["note"] == "on holiday until 20 February"
    assert line in {f"{call['family']}/{call['learner']}" for call in again["calls"]}
    assert say(*who, "--dismiss", "Nobody", "--note", "x").status == 2
