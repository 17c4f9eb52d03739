"""A family's own course from the command line: read, kept, planned, printed, marked; notes and family lines."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

import pdfplumber
import pytest

from dayleaf.course.load import CONTENT

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

TODAY = "2027-01-12"
UNITS = CONTENT / "outlines" / "twelve-units.txt"


def text_of(path: Path) -> str:
    with pdfplumber.open(path) as pdf:
        return " ".join(" ".join(page.extract_text() for page in pdf.pages).split())


@pytest.fixture
def lanterns(say: Callable[..., Any], home: Path) -> Path:
    """The demo household with Wren on the course of twelve units."""
    words = ("--confirm", "--title", "Lanterns", "--learner", "Wren", "--start", TODAY, "--today", TODAY)
    said = say("outline", UNITS, *words, "--home", home)
    assert said.status == 0, said.err
    return home


def test_every_line_gets_three_skills_and_a_wrong_one_is_named(say: Callable[..., Any], tmp_path: Path) -> None:
    file = tmp_path / "contents.txt"
    file.write_text("Chapter 1 Time\nLesson 1 Telling time .... 9-7\nLesson 2 Calendars .... 12\n", encoding="utf-8")

    said = say("outline", file, "--json")

    assert said.status == 2
    assert "contents.txt: line 2: pages 9–7" in said.err
    assert [len(line["skills"]) for line in said.json["lines"]] == [3, 3]
    assert said.json["wrong"][0]["line"] == 2


def test_a_hundred_and_seventy_pasted_lines_are_planned_without_retyping_any(
    say: Callable[..., Any], lanterns: Path
) -> None:
    said = say("plan", "--home", lanterns, "--learner", "Wren", "--today", TODAY, "--json")

    assert said.status == 0, said.err
    lessons = said.json["lessons"]
    assert len(lessons) >= 170
    assert lessons[0] == {"id": "lanterns-001", "date": TODAY} | {
        k: lessons[0][k] for k in lessons[0].keys() - {"id", "date"}
    }
    assert [one["date"] for one in lessons] == sorted(one["date"] for one in lessons)


def test_a_day_says_the_pages_of_their_book_and_their_own_line_and_can_be_marked(
    say: Callable[..., Any], lanterns: Path, tmp_path: Path
) -> None:
    at = ("--home", lanterns)
    say("line", "Slow is smooth, smooth is quick.", "--lesson", "lanterns-002", *at)
    say("line", "Bean counts too.", "--chapter", "1", "--course", "lanterns", "--close", *at)
    say("note", "lanterns-002", "The sticks lie in the deck box.", *at, "--today", TODAY)

    words = ("--learner", "Wren", "--lesson", "lanterns-002", "--out", tmp_path, *at, "--today", TODAY)
    said = say("day", *words, "--json")

    assert said.status == 0, said.err
    guide = text_of(tmp_path / "guide.pdf")
    assert "of the family's book." in guide
    assert guide.index("Slow is smooth") < guide.index("Bean counts too")
    assert "The sticks lie in the deck box." in say("note", "lanterns-002", *at).out
    sheet = said.json["sheets"][0]["sheet"]
    marked = say("mark", sheet, "--right-except", "1=3", *at, "--today", TODAY)
    assert marked.status == 0, marked.err


def test_a_page_of_their_own_is_marked_by_count_with_its_skills(say: Callable[..., Any], lanterns: Path) -> None:
    at = ("--home", lanterns, "--today", TODAY)

    said = say("own", "lanterns-001", "--learner", "Wren", "--of", "12", "--wrong", "3,7=sub-2digit-regroup", *at)
    wrong = say("own", "lanterns-001", "--learner", "Wren", "--of", "12", "--wrong", "13", *at)

    assert said.status == 0, said.err
    assert "10 of 12 right" in said.out
    assert "7: Subtract 2-digit numbers, opening a ten" in said.out
    assert wrong.status == 2


def test_a_set_of_notes_is_handed_on_to_another_home(say: Callable[..., Any], home: Path, tmp_path: Path) -> None:
    file = tmp_path / "ours.json"
    say("note", "day-084", "Lay the ten open on the deck.", "--home", home, "--today", TODAY)
    say("line", "Many hands.", "--chapter", "9", "--home", home)
    say("note", "--export", file, "--home", home)
    data = json.loads(file.read_text("utf-8"))
    data["notes"].append({"day": 3, "text": "Shoes on the stairs."})
    file.write_text(json.dumps(data), encoding="utf-8")

    said = say("note", "--import", file, "--home", home, "--today", TODAY)

    assert said.out.strip() == "New here: 1 of its notes, 0 of its lines."
    assert {"chapter": 9, "part": "open", "text": "Many hands."} in data["lines"]
    data["notes"].append({"day": 999, "text": "nowhere"})
    file.write_text(json.dumps(data), encoding="utf-8")
    assert say("note", "--import", file, "--home", home).status == 2


def test_the_map_finds_borrowing_where_our_course_says_open_a_ten(say: Callable[..., Any]) -> None:
    found = say("map", "--where", "borrowing", "--json").json["skills"]

    row = next(one for one in found if one["skill"] == "sub-2digit-regroup")
    assert row["taught"] == [84]
    assert row["tested"] == [89]
