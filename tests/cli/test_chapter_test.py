"""`dayleaf test`, the marks of its sheets and `dayleaf result`, typed as a parent types them.

Referees: JOB 1.11 and story 10 (chapter 9: per-skill marks, decision text names skills, minutes and date).
"""

from __future__ import annotations

import json
from collections import Counter
from datetime import date
from typing import TYPE_CHECKING, Any

import pytest

from dayleaf.core.ids import ErrorWayId, SkillId
from dayleaf.course.load import grade2

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

TAKEN = "2027-01-21"
TWO_OPEN = ("sub-2digit-no-regroup", "sub-check-by-adding")


@pytest.fixture
def at_home(say: Callable[..., Any], home: Path) -> Callable[..., Any]:
    """A command in the demo home on the day of the test."""
    return lambda *words: say(*words, "--home", home)


@pytest.fixture
def taken(at_home: Callable[..., Any], tmp_path: Path) -> list[dict[str, Any]]:
    """The sides of Wren's test of chapter 9, form A, printed with the day."""
    said = at_home("day", "--learner", "Wren", "--lesson", "day-089", "--today", TAKEN, "--out", tmp_path / "a")
    assert said.status == 0, said.err
    sides: list[dict[str, Any]] = json.loads((tmp_path / "a" / "sheets.json").read_text("utf-8"))["sheets"]
    return sides


def items_of(sides: list[dict[str, Any]]) -> list[tuple[str, dict[str, Any]]]:
    return [(side["sheet"], item) for side in sides for item in side["items"]]


def test_a_habit_in_the_misses_is_named_with_what_to_do(
    at_home: Callable[..., Any], taken: list[dict[str, Any]]
) -> None:
    way = "smaller-from-larger"
    missed: dict[str, list[str]] = {}
    for sheet, item in items_of(taken):
        missed.setdefault(sheet, [])
        if item["errors"].get(way, item["answer"]) != item["answer"]:
            missed[sheet].append(f"{item['n']}={item['errors'][way]}")
    for sheet, wrong in missed.items():
        at_home("mark", sheet, "--right-except", ",".join(wrong), "--today", TAKEN)

    said = at_home("result", 9, "--learner", "Wren").out

    assert grade2().error_ways[ErrorWayId(way)].phrase in said
    assert "show the same habit" in said


def mark(at_home: Callable[..., Any], sides: list[dict[str, Any]], wrong: dict[str, int]) -> Any:
    """Mark every sheet: of each skill named, its first so many items are wrong. What the last marking said."""
    left = Counter(wrong)
    missed: dict[str, list[str]] = {}
    for sheet, item in items_of(sides):
        missed.setdefault(sheet, [])
        if left[item["skill"]]:
            left[item["skill"]] -= 1
            missed[sheet].append(str(item["n"]))
    for sheet, numbers in missed.items():
        said = at_home("mark", sheet, "--right-except", ",".join(numbers), "--today", TAKEN, "--json")
    return said.json


def test_the_test_shown_has_items_minutes_formats_and_difficulty_of_every_skill(say: Callable[..., Any]) -> None:
    said = say("test", 9)

    assert said.status == 0
    day = grade2().days[88]
    for skill in day.front_skills:
        assert grade2().skills[skill].title in said.out
    assert "24 minutes" in said.out


def test_two_forms_as_json_can_be_held_against_each_other(say: Callable[..., Any]) -> None:
    one, other = (say("test", 12, "--form", form, "--seed", 7, "--json").json for form in ("A", "B"))

    assert one["blueprint"] == other["blueprint"]
    features = [
        Counter(json.dumps(item["features"], sort_keys=True) for item in form["items"]) for form in (one, other)
    ]
    assert features[0] == features[1]
    many = {skill["skill"] for skill in one["blueprint"] if skill["distinct_items"] >= 25}
    texts = [{item["text"] for item in form["items"] if item["skill"] in many} for form in (one, other)]
    assert texts[0]
    assert not texts[0] & texts[1]


def test_what_is_no_test_is_answered_in_one_line(say: Callable[..., Any]) -> None:
    said = say("test", 19)

    assert (said.status, said.out) == (2, "")
    assert said.err == "Chapter 19 is not a chapter test.\n"


def test_nothing_marked_gives_no_result(at_home: Callable[..., Any]) -> None:
    assert at_home("result", 9, "--learner", "Wren").out == "Wren has no marked test of chapter 9 yet.\n"
    assert at_home("result", 9, "--learner", "Wren", "--json").json == {"result": None}


def test_two_open_skills_are_fixed_up_on_the_tenth_day_by_name_with_minutes_and_date(
    at_home: Callable[..., Any], taken: list[dict[str, Any]], tmp_path: Path
) -> None:
    result = mark(at_home, taken, dict.fromkeys(TWO_OPEN, 2))["test"]

    of = Counter(item["skill"] for _, item in items_of(taken))
    right = {skill["skill"]: (skill["right"], skill["of"], skill["holds"]) for skill in result["skills"]}
    assert right == {one: (n - 2, n, False) if one in TWO_OPEN else (n, n, True) for one, n in of.items()}
    assert (result["form"], result["step"], result["minutes"], result["waiting"]) == ("A", "fix up", 10, [])
    assert date.fromisoformat(result["when"]) > date.fromisoformat(TAKEN)
    said = at_home("result", 9, "--learner", "Wren").out
    assert "Fix up 10 minutes on Friday 22 January" in said
    assert all(f"“{grade2().skills[SkillId(skill)].title}”" in said for skill in TWO_OPEN)

    at_home("day", "--learner", "Wren", "--lesson", "day-090", "--today", "2027-01-22", "--out", tmp_path / "tenth")

    first = json.loads((tmp_path / "tenth" / "sheets.json").read_text("utf-8"))["sheets"][0]
    assert {item["skill"] for item in first["items"]} == set(TWO_OPEN)


def test_a_sheet_that_waits_is_named_and_form_b_is_another_print_of_the_same_day(
    at_home: Callable[..., Any], taken: list[dict[str, Any]], tmp_path: Path
) -> None:
    sheets = list(dict.fromkeys(sheet for sheet, _ in items_of(taken)))
    said = at_home("mark", sheets[0], "--today", TAKEN)
    assert f"not marked yet ({', '.join(sheets[1:])})" in said.out
    wrong = ["sub-2digit-regroup", "sub-2digit-multiple-of-10", "regroup-ten-for-ones"]
    assert mark(at_home, taken, dict.fromkeys(wrong, 3))["test"]["step"] == "form B"

    words = ("--learner", "Wren", "--today", "2027-01-28", "--out")
    at_home("test", 9, "--form", "B", *words, tmp_path / "b")
    at_home("day", "--lesson", "day-089", *words, tmp_path / "again")

    second = json.loads((tmp_path / "b" / "sheets.json").read_text("utf-8"))["sheets"]
    assert not {item["text"] for _, item in items_of(taken)} & {item["text"] for _, item in items_of(second)}
    assert (tmp_path / "again" / "pages.pdf").read_bytes() == (tmp_path / "a" / "pages.pdf").read_bytes()
    result = mark(at_home, second, {})["test"]
    assert (result["form"], result["step"]) == ("B", "go on")
    assert "every skill holds" in result["evidence"]
