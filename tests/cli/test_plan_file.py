"""`dayleaf plan FILE.toml` as it is typed."""

from __future__ import annotations

import json
from datetime import date
from typing import TYPE_CHECKING, Any

import pytest
from icalendar import Calendar

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

BOAT = """
[household]
name = "Slow Lettuce"
timezone = "Europe/Dublin"
country = "US"
holidays = ["all"]
[calendar]
start = 2026-08-17
end = 2027-06-25
[calendar.weekdays]
monday = 45
tuesday = 45
wednesday = 45
thursday = 45
friday = 45
[[learners]]
name = "Wren"
age = 7
"""
IVO = '[[learners]]\nname = "Ivo"\nage = 9\ncourse = "knots"\n[[courses]]\nid = "knots"\ncount = 36\n'
FOUR_DAYS = BOAT.replace("friday = 45\n", "").replace("2027-06-25", "2027-04-25").replace('holidays = ["all"]', "")


@pytest.fixture
def boat(tmp_path: Path) -> Callable[[str], Path]:
    """Write a household's file."""

    def written(text: str) -> Path:
        path = tmp_path / "boat.toml"
        path.write_text(text, encoding="utf-8")
        return path

    return written


def test_a_plan_has_every_lesson_with_its_date_its_cost_and_its_proof(
    say: Callable[..., Any], boat: Callable[[str], Path]
) -> None:
    said = say("plan", boat(BOAT), "--json").json

    assert [one["id"] for one in said["lessons"]] == [f"day-{n:03}" for n in range(1, 181)]
    assert all(set(one) == {"id", "date"} for one in said["lessons"])
    assert said["total"] == sum(said["cost"].values()) == said["bound"]
    assert said["proof"] == "optimal"
    assert said["ms"] > 0


def test_a_plan_of_ours_priced_again_has_the_same_price_and_breaks_nothing(
    say: Callable[..., Any], boat: Callable[[str], Path], tmp_path: Path
) -> None:
    file = boat(BOAT + IVO)
    said = say("plan", file, "--json")
    (tmp_path / "plan.json").write_text(said.out, "utf-8")

    priced = say("plan", file, "--price", tmp_path / "plan.json", "--json").json

    assert {one["learner"] for one in said.json["lessons"]} == {"Wren", "Ivo"}
    assert (priced["cost"], priced["total"], priced["breaks"]) == (said.json["cost"], said.json["total"], [])


def test_somebody_elses_plan_is_priced_and_its_broken_rules_are_listed(
    say: Callable[..., Any], boat: Callable[[str], Path], tmp_path: Path
) -> None:
    file = boat(BOAT)
    plan = say("plan", file, "--json").json
    plan["lessons"][4]["date"] = "2026-08-22"
    (tmp_path / "plan.json").write_text(json.dumps({"lessons": plan["lessons"][:-1]}), "utf-8")

    found = say("plan", file, "--price", tmp_path / "plan.json", "--json").json

    broken = {(one["rule"], one["lesson"], one["date"]) for one in found["breaks"]}
    assert {("learning_day", "day-005", "2026-08-22"), ("all_lessons", "day-180", None)} <= broken
    assert all(one["says"].endswith(".") for one in found["breaks"])


def test_a_year_that_does_not_fit_is_refused_with_ways_out_and_one_of_them_is_gone(
    say: Callable[..., Any], boat: Callable[[str], Path], tmp_path: Path
) -> None:
    file = boat(FOUR_DAYS)

    said = say("plan", file, "--json")
    shorter = say("plan", file, "--way", "shorten", "--json").json

    assert said.status == 0
    no = said.json
    assert (no["fits"], no["needed"], no["available"], no["first_without_a_day"]) == (False, 180, 144, "day-145")
    assert {"shorten", "more_days"} <= {way["name"] for way in no["ways"]}
    assert len({one["date"] for one in shorter["lessons"]}) == 144  # JOB 1.4
    say("plan", file, "--way", "shorten", "--ics", tmp_path / "boat.ics")
    # JOB (g), story 2: another program finds 144 events
    opened: Any = Calendar.from_ical((tmp_path / "boat.ics").read_bytes())
    assert len(opened.walk("VEVENT")) == 144
    assert say("plan", file, "--way", "magic", "--json").status == 2
    assert "There is no way out called “magic”" in say("plan", file, "--way", "magic").err


@pytest.mark.parametrize(
    "words",
    [
        ("--missed", "2026-10-06", "--missed", "2026-10-07"),
        ("--missed", "2026-10-06", "2026-10-07"),
    ],
)
def test_missed_days_move_few_dates_however_they_are_typed(
    say: Callable[..., Any], boat: Callable[[str], Path], words: tuple[str, ...]
) -> None:
    file = boat(BOAT)
    before = {one["id"]: one["date"] for one in say("plan", file, "--json").json["lessons"]}

    said = say("plan", file, *words, "--json").json

    assert set(said["ways"]) == {"slide", "spare", "trim"}
    after = {one["id"]: one["date"] for one in said["lessons"]}
    assert not {"2026-10-06", "2026-10-07"} & set(after.values())
    moved = {lesson for lesson, day in before.items() if after.get(lesson) != day}
    assert moved == {one["id"] for one in said["moved"]}
    assert len(said["ways"]["spare"]["moved"]) < len(said["ways"]["slide"]["moved"])


def test_a_plan_in_force_is_bent_instead_of_the_files_own(
    say: Callable[..., Any], boat: Callable[[str], Path], tmp_path: Path
) -> None:
    file = boat(BOAT)
    bent = say("plan", file, "--missed", "2026-10-06", "--way", "spare", "--json")
    (tmp_path / "plan.json").write_text(bent.out, "utf-8")

    again = say("plan", file, "--was", tmp_path / "plan.json", "--missed", "2026-11-03", "--json").json

    before = {one["id"]: one["date"] for one in bent.json["lessons"]}
    kept = [one for one in again["lessons"] if one["date"] < "2026-11-03"]
    assert all(before[one["id"]] == one["date"] for one in kept)


def test_without_a_weekday_and_by_a_date_are_answered(say: Callable[..., Any], boat: Callable[[str], Path]) -> None:
    file = boat(BOAT.replace("[calendar]", "lost_days = [2, 60]\n[calendar]", 1))

    without = say("plan", file, "--without", "friday", "--json").json
    chance = say("plan", file, "--chance", "2027-06-25", "--json").json

    assert without["fits"] is False
    low, high = chance["interval"]
    assert 0.9 < low <= chance["chance"] < high <= 1
    assert (chance["needed"], chance["by"]) == (180, "2027-06-25")
    assert say("plan", file, "--without", "someday").status == 2


def test_a_calendar_file_and_a_morning_come_from_the_same_plan(
    say: Callable[..., Any], boat: Callable[[str], Path], tmp_path: Path
) -> None:
    file = boat(BOAT + IVO)
    plan = say("plan", file, "--ics", tmp_path / "boat.ics", "--json").json
    first = (tmp_path / "boat.ics").read_bytes()

    again = say("plan", file, "--ics", tmp_path / "boat.ics")
    morning = say("plan", file, "--morning", plan["lessons"][0]["date"], "--json").json

    assert again.status == 0
    assert (tmp_path / "boat.ics").read_bytes() == first
    assert first.count(b"BEGIN:VEVENT") == len(plan["lessons"]) == 216
    assert {one["learner"] for one in morning["sessions"]} == {"Wren", "Ivo"}


def test_words_for_people_name_dates_and_costs(say: Callable[..., Any], boat: Callable[[str], Path]) -> None:
    said = say("plan", boat(BOAT)).out
    no = say("plan", boat(FOUR_DAYS)).out
    missed = say("plan", boat(BOAT), "--missed", "2026-10-06").out

    assert "Wren, grade2: 180 lessons, the last on" in said
    assert "no plan costs less" in said
    assert "180 lessons do not fit in 144 learning days" in no
    assert "spare days left" in missed


@pytest.mark.parametrize(
    ("plan", "wanted"),
    [
        ("[]", "plan.json: lessons: is missing"),
        ("{", "plan.json: is no JSON"),
        ('{"lessons": [{"id": "day-001"}]}', "plan.json: lessons[0]: needs an id and a date"),
        ('{"lessons": [{"id": "day-001", "date": "2026-02-30"}]}', "“2026-02-30” is no date"),
        ('{"lessons": [{"id": "day-999", "date": "2026-09-01"}]}', "“day-999” is no lesson"),
    ],
)
def test_a_plan_that_cannot_be_read_is_refused_in_one_sentence_a_line(
    say: Callable[..., Any], boat: Callable[[str], Path], tmp_path: Path, plan: str, wanted: str
) -> None:
    (tmp_path / "plan.json").write_text(plan, "utf-8")

    said = say("plan", boat(BOAT), "--price", tmp_path / "plan.json")

    assert said.status == 2
    assert wanted in said.err


def test_a_file_that_is_not_there_or_has_something_wrong_ends_with_status_2(
    say: Callable[..., Any], boat: Callable[[str], Path], tmp_path: Path
) -> None:
    missing = say("plan", tmp_path / "raft.toml", "--json")
    wrong = say("plan", boat(BOAT.replace("2026-08-17", "17").replace("Europe/Dublin", "Atlantis")), "--json")

    assert (missing.status, wrong.status) == (2, 2)
    assert "there is no such file" in missing.err
    assert len(wrong.err.strip().splitlines()) == 2


def test_the_same_file_gives_the_same_plan_apart_from_the_time_it_took(
    say: Callable[..., Any], boat: Callable[[str], Path]
) -> None:
    file = boat(BOAT + IVO)

    one, other = (say("plan", file, "--json").json for _ in range(2))

    assert {**one, "ms": 0} == {**other, "ms": 0}
    assert date.fromisoformat(one["lessons"][-1]["date"]) <= date(2027, 6, 25)
