"""`dayleaf plan` at home: the same words and JSON as for a file, and changes that are kept and given back."""

from __future__ import annotations

import json
from datetime import date
from typing import TYPE_CHECKING, Any

import pytest

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

TODAY = "2027-01-12"
BUSY = (
    "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Somebody//EN\r\nBEGIN:VEVENT\r\nUID:1\r\nDTSTAMP:20260101T000000Z\r\n"
    "SUMMARY:Market\r\nDTSTART;VALUE=DATE:20270121\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n"
)


@pytest.fixture
def plan(say: Callable[..., Any], home: Path) -> Callable[..., Any]:
    """`dayleaf plan` at the demo's home, with further words."""
    return lambda *words: say("plan", "--home", home, "--today", TODAY, *words)


def test_the_plan_at_home_has_the_json_of_a_file_and_prices_itself_the_same(
    plan: Callable[..., Any], tmp_path: Path
) -> None:
    said = plan("--json")
    (tmp_path / "plan.json").write_text(said.out, "utf-8")

    data = said.json
    assert {"fits", "lessons", "learners", "cost", "total", "proof", "bound", "ms"} == set(data)
    assert data["total"] == sum(data["cost"].values()) >= data["bound"]
    assert {one["learner"] for one in data["lessons"]} == {"Wren", "Ivo"}
    assert all(one["spare_days"] > 0 for one in data["learners"])
    priced = plan("--price", tmp_path / "plan.json", "--json").json
    assert (priced["cost"], priced["breaks"]) == (data["cost"], [])
    alone = plan("--learner", "wren", "--json").json
    assert {"id", "date"} == set(alone["lessons"][0])
    assert alone["name"] == "Wren"


def test_a_week_lost_is_only_shown_until_it_is_kept_and_undo_brings_the_plan_back(plan: Callable[..., Any]) -> None:
    before = plan("--json").json
    week = ("--missed", "2027-01-12", "2027-01-14", "2027-01-15")

    shown = plan(*week, "--json").json
    assert plan("--json").json["lessons"] == before["lessons"]
    kept = plan(*week, "--way", "spare", "--keep", "--json").json

    assert set(shown["ways"]) == {"slide", "spare", "trim"}
    assert kept["way"] == "spare"
    after = plan("--json").json["lessons"]
    assert {tuple(one.items()) for one in after} == {tuple(one.items()) for one in kept["lessons"]}
    assert not {"2027-01-12", "2027-01-14", "2027-01-15"} & {one["date"] for one in after}
    assert "Wren" in plan("--undo").err + plan("--learner", "wren").out
    assert plan("--json").json["lessons"] == before["lessons"]
    assert plan("--undo").status == 2


def test_only_the_child_named_lost_the_day(plan: Callable[..., Any]) -> None:
    said = plan("--learner", "Ivo", "--missed", TODAY, "--json").json

    assert said["moved"]
    assert all("learner" not in one for one in said["moved"])
    assert plan("--missed", TODAY, "--way", "magic").status == 2


def test_what_if_a_weekday_had_no_lessons_is_answered_and_kept_on_demand(plan: Callable[..., Any]) -> None:
    no = plan("--without", "friday", "--json").json
    kept = plan("--without", "friday", "--way", "more_days", "--keep", "--json").json

    assert no["fits"] is False
    assert "more_days" in {way["name"] for way in no["ways"]}
    assert kept["fits"] is True
    days = [date.fromisoformat(one["date"]) for one in plan("--json").json["lessons"]]
    assert {day.weekday() for day in days if day > date(2027, 1, 12)} == {0, 1, 3}
    wren = plan("--chance", "2027-12-31", "--json").json["chances"][0]
    dates = {one["date"] for one in plan("--learner", "wren", "--json").json["lessons"]}
    assert wren["needed"] == len({one for one in dates if one >= TODAY})  # two lessons on a day need one
    assert wren["chance"] > 0.9
    assert "ways" in plan("--learner", "wren", "--ways-out", "--json").json


def test_lessons_left_out_given_again_and_done_early_are_planned_on(plan: Callable[..., Any]) -> None:
    words = ("--learner", "wren", "--skip", "day-086", "--repeat", "day-085", "--done", "day-084=2027-01-11")

    said = plan(*words, "--way", "spare", "--keep", "--json").json

    dates = {one["id"]: one["date"] for one in said["lessons"]}
    assert "day-086" not in dates
    assert dates["day-085~again"] > dates["day-085"]
    assert dates["day-084"] == "2027-01-11"
    assert "day-085~again" in json.dumps(plan("--json").json)
    assert plan("--done", "day-084", "--json").status == 2


def test_the_familys_own_calendar_is_kept_as_days_off_and_the_calendar_file_follows(
    plan: Callable[..., Any], tmp_path: Path
) -> None:
    busy, out = tmp_path / "busy.ics", tmp_path / "ours.ics"
    busy.write_bytes(BUSY.encode())
    plan("--ics", out)
    first = out.read_bytes()

    said = plan("--busy", busy, "--keep", "--json").json
    plan("--ics", out)

    assert said["moved"]
    assert "2027-01-21" not in {one["date"] for one in plan("--json").json["lessons"]}
    before, after = (
        [line for line in one.splitlines() if line.startswith(b"UID:")] for one in (first, out.read_bytes())
    )
    assert set(before) <= set(after)
    assert len(after) == len(set(after))
    assert b"SEQUENCE:1" in out.read_bytes()
    assert b"SEQUENCE:1" not in first
