"""A household written as data. Referees: jsonschema with the shipped schema, the `holidays` library."""

from __future__ import annotations

import json
import tomllib
from dataclasses import fields
from datetime import date
from pathlib import Path
from typing import Any

import holidays
import jsonschema  # type: ignore[import-untyped]  # it brings no types
import pytest

import dayleaf
from dayleaf.core.errors import BadInput
from dayleaf.course.load import grade2
from dayleaf.plan.calendar import learning_days
from dayleaf.plan.household import HouseholdFile, read_household
from dayleaf.plan.lessons import lessons_of
from dayleaf.plan.wishes import Rules, Wishes

GRADE2 = grade2()
SCHEMA = json.loads((Path(dayleaf.__file__).parent / "content" / "plan.schema.json").read_text("utf-8"))
DOCS = Path(__file__).resolve().parents[2] / "docs" / "plan-format.md"
LEAST = """
[calendar]
start = 2026-08-17
[calendar.weekdays]
monday = 45
[[learners]]
name = "Wren"
"""


def read(folder: Path, text: str) -> HouseholdFile:
    path = folder / "boat.toml"
    path.write_text(text, encoding="utf-8")
    return read_household(path, ours={GRADE2.id: lessons_of(GRADE2)})


def problems(folder: Path, text: str) -> list[str]:
    with pytest.raises(BadInput) as refused:
        read(folder, text)
    return [str(problem) for problem in refused.value.problems]


def as_json(text: str) -> Any:
    return json.loads(json.dumps(tomllib.loads(text), default=lambda value: value.isoformat()))


def test_the_least_that_a_file_needs_is_a_start_a_weekday_and_a_child(tmp_path: Path) -> None:
    file = read(tmp_path, LEAST)

    (run,) = file.year.runs
    assert (run.learner, run.course, len(run.lessons)) == ("Wren", "grade2", 180)
    assert run.calendar.minutes == {0: 45}
    assert file.timezone == "UTC"
    jsonschema.validate(as_json(LEAST), SCHEMA)


def test_the_example_of_the_documents_is_read_and_fits_the_schema(tmp_path: Path) -> None:
    text = DOCS.read_text("utf-8").split("```toml\n")[1].split("```")[0]
    # the document shows every field; a child has either a course or runs, and a repeated lesson is not skipped too
    text = text.replace("[[learners.runs]]", '[[learners]]\nname = "Ivo"\n[[learners.runs]]')

    file = read(tmp_path, text)

    jsonschema.validate(as_json(text), SCHEMA)
    wren = file.year.runs[0]
    assert wren.calendar.start == date(2026, 9, 7)
    assert wren.calendar.end == date(2027, 2, 26)
    assert wren.lessons[0].id == "day-021"
    assert "day-023" not in {one.id for one in wren.lessons}
    assert "day-031~again" in {one.id for one in wren.lessons}
    assert [one.lesson for one in wren.done] == ["day-021"]
    assert wren.wished_end == date(2027, 5, 28)
    assert file.lost == (3, 40)


def test_the_schema_lists_every_wish_and_rule_with_its_usual_value() -> None:
    wishes = SCHEMA["properties"]["wishes"]["properties"]
    rules = SCHEMA["properties"]["rules"]["properties"]

    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    assert {name: one["default"] for name, one in wishes.items()} == {
        one.name: getattr(Wishes(), one.name) for one in fields(Wishes)
    }
    assert {name: one["default"] for name, one in rules.items()} == {
        one.name: getattr(Rules(), one.name) for one in fields(Rules)
    }


def test_holidays_are_chosen_one_by_one_and_bring_their_observed_days(tmp_path: Path) -> None:
    text = '[household]\ncountry = "US"\nholidays = ["Labor Day", "Christmas Day"]\n' + LEAST.replace(
        "start = 2026-08-17", "start = 2027-08-16\nend = 2028-06-30"
    )

    kept = read(tmp_path, text).calendar.holidays

    # the library itself, asked by date: Christmas 2027 is a Saturday and kept on Friday the 24th
    known = holidays.country_holidays("US", years=[2027, 2028])
    assert date(2027, 12, 24) in {one.first for one in kept}
    assert date(2027, 9, 6) in {one.first for one in kept}
    assert all("Labor Day" in known[one.first] or "Christmas Day" in known[one.first] for one in kept)
    assert date(2027, 11, 25) not in {one.first for one in kept}


def test_terms_half_days_free_days_and_own_weekdays_make_the_learning_days(tmp_path: Path) -> None:
    text = (
        LEAST.replace(
            "[calendar.weekdays]\nmonday = 45",
            """end = 2026-10-30
free_days = [2026-08-24]
missed = ["2026-08-31"]
terms = [{first = 2026-08-17, last = 2026-09-11}, {first = 2026-10-05, last = 2026-10-30}]
half_days = [{date = 2026-08-19, minutes = 20}]
off = [{first = 2026-09-07}]
weekdays = {monday = 45}""",
        )
        + "[[learners]]\nname = 'Ivo'\nweekdays = {tuesday = 30}\nmissed = [2026-08-18]\n"
    )

    wren, ivo = read(tmp_path, text).year.runs

    assert [(one.day.isoformat()[5:], one.minutes) for one in learning_days(wren.calendar)] == [
        ("08-17", 45), ("08-19", 20), ("10-05", 45), ("10-12", 45), ("10-19", 45), ("10-26", 45),
    ]  # fmt: skip
    tuesdays = [one.day for one in learning_days(ivo.calendar) if one.minutes == 30]
    assert tuesdays[0] == date(2026, 8, 25)
    assert {day.weekday() for day in tuesdays} == {1}


def test_a_child_joins_later_and_changes_course_in_mid_year(tmp_path: Path) -> None:
    text = (
        LEAST
        + """
[[learners.runs]]
first_lesson = "day-061"
last_lesson = "day-100"
until = 2027-01-29
[[learners.runs]]
course = "knots"
from = 2027-02-01
[[courses]]
id = "knots"
count = 36
"""
    )

    first, second = read(tmp_path, text).year.runs

    assert (len(first.lessons), first.calendar.end) == (40, date(2027, 1, 29))
    assert (len(second.lessons), second.calendar.start) == (36, date(2027, 2, 1))
    assert [one.opens for one in second.lessons[:11]] == [True, *[False] * 9, True]


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("", ["calendar: is missing", "learners: is missing"]),
        ("[calendar", ["is not TOML"]),
        (LEAST.replace("2026-08-17", '"soon"'), ['calendar.start: holds the text "soon" where a date is wanted']),
        (LEAST.replace("2026-08-17", "2026-08-17T09:00:00"), ["calendar.start: holds a datetime"]),
        (LEAST.replace("start =", "end = 2026-01-01\nstart ="), ["calendar.end: 2026-01-01 lies before the start"]),
        (LEAST.replace("start =", "end = 2036-01-01\nstart ="), ["calendar.end: 2036-01-01 lies more than two years"]),
        (LEAST.replace("monday", "moonday"), ["calendar.weekdays.moonday: is not a field here; did you mean monday"]),
        (LEAST.replace("45", "-5"), ["calendar.weekdays.monday: is -5; the least it can be is 0"]),
        (LEAST.replace("45", "2000"), ["calendar.weekdays.monday: is 2000; a day has 1440 minutes"]),
        (LEAST + 'course = "grade3"', ["learners[1].course: there is no course “grade3”; did you mean “grade2”"]),
        (LEAST + 'first_lesson = "day-999"', ["learners[1].first_lesson: “day-999” is no lesson"]),
        (LEAST + 'first_lesson = "day-009"\nlast_lesson = "day-003"', ["last_lesson: comes before the first lesson"]),
        (LEAST + 'done = [{lesson = "day-001"}]', ["learners[1].done[1].date: is missing"]),
        (LEAST + 'skip = ["day-400"]', ["learners[1].skip: “day-400” is no lesson of this run"]),
        (LEAST + '[[learners]]\nname = "Wren"', ["learners[2].name: “Wren” stands twice"]),
        (LEAST + "[wishes]\ntest_on_sunday = 3", ["wishes.test_on_sunday: is not a field here"]),
        (LEAST + "[wishes]\nspread = 1.5", ["wishes.spread: holds the number 1.5 where a whole number is wanted"]),
        (LEAST + "[wishes]\nspread = 99999", ["wishes.spread: is 99999; the most it can be is 10000"]),
        (LEAST + "[rules]\nlog_on_time = 1", ["rules.log_on_time: holds the number 1 where true or false is wanted"]),
        (LEAST + '[household]\ntimezone = "Atlantis/Deep"', ["household.timezone: “Atlantis/Deep” is no time zone"]),
        (LEAST + '[household]\nholidays = ["all"]', ["household.country: is missing"]),
        (LEAST + '[household]\ncountry = "QQ"\nholidays = ["all"]', ["household.country: There is no holiday list"]),
        (
            LEAST + '[household]\ncountry = "US"\nholidays = ["Labour Day"]',
            ["household.holidays: “Labour Day” is no holiday in US from 2026 to 2028; did you mean “Labor Day”"],
        ),
        (LEAST + '[[courses]]\nid = "k"', ["courses[1].lessons: is empty"]),
        (LEAST + '[[courses]]\nid = "k"\nlessons = [{id = "a"}, {id = "a"}]', ["lessons[2].id: “a” stands twice"]),
        (
            LEAST + '[[courses]]\nid = "k"\nlessons = [{id = "a", log_for = "z", log_days = 3}]',
            ["lessons[1].log_for: “z” is no later lesson of this course"],
        ),
        (
            LEAST + '[[courses]]\nid = "k"\nlessons = [{id = "a", chapter = 2}, {id = "b", chapter = 1}]',
            ["lessons[2].chapter: is 1 after 2; chapters come in order"],
        ),
        (
            LEAST + '[[courses]]\nid = "k"\nlessons = [{id = "a", if_short = "join-next"}]',
            ["lessons[1].if_short: is join-next, but no lesson comes after it"],
        ),
        (
            LEAST.replace("start =", "off = [{first = 2026-09-09, last = 2026-09-08}]\nstart ="),
            ["calendar.off[1].last: 2026-09-08 lies before the first day"],
        ),
    ],
)
def test_what_is_wrong_is_said_with_its_place(tmp_path: Path, text: str, wanted: list[str]) -> None:
    found = problems(tmp_path, text)

    assert len(found) == len(wanted)
    for one, part in zip(found, wanted, strict=True):
        assert part in one


def test_all_that_is_wrong_is_said_at_once(tmp_path: Path) -> None:
    text = LEAST.replace("2026-08-17", "17").replace("monday = 45", 'monday = "45"') + 'colour = "red"\n[weather]\n'

    found = problems(tmp_path, text)

    assert len(found) == 4
    assert all(one.startswith("boat.toml: ") for one in found)
