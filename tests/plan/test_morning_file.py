"""The morning in a household's file: read, refused, and turned into the needs of a date. Referee: jsonschema."""

from __future__ import annotations

import json
import tomllib
from dataclasses import replace
from datetime import date, time
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator  # type: ignore[import-untyped]  # it has no types

import dayleaf
from dayleaf.core.ids import LearnerId
from dayleaf.plan.busy import BusyTime
from dayleaf.plan.morning import plan_morning
from dayleaf.plan.morning_check import check_morning
from dayleaf.plan.morning_file import LessonOfDay, needs_on, read_morning, stamina_at

CONTENT = Path(dayleaf.__file__).parent / "content"
WREN, IVO = LearnerId("wren"), LearnerId("ivo")
TUESDAY, FRIDAY = date(2027, 1, 12), date(2027, 1, 15)
FILE: dict[str, Any] = {
    "morning": {"start": "9:00", "end": "12:00", "little_ones": ["bean"], "wishes": {"order": 20}},
    "shared": [{"name": "tablet"}, {"name": "base-ten-blocks"}],
    "blocks": {
        "wren": [
            {"id": "reading", "phases": [{"led": 10}, {"alone": 15, "uses": ["tablet"]}], "after": ["lesson"]},
            {"lesson": True, "fresh": True},
        ],
        "ivo": [{"id": "knots", "title": "Knots", "phases": [{"led": 10}], "weekdays": ["friday"], "worth": 20}],
    },
    "appointments": [
        {"name": "Nap", "who": ["bean"], "from": "9:30", "until": "11:00", "quiet": True},
        {"name": "Co-op", "who": ["adult", "wren", "ivo"], "from": "10:00", "minutes": 120, "weekdays": ["fri"]},
    ],
}
AGES = {WREN: 7, IVO: 9}
LESSONS = (
    LessonOfDay(WREN, "Not enough ones", 21, 22, ("base-ten-blocks",)),
    LessonOfDay(IVO, "Tables", 12, 30, ("base-ten-blocks", "mirror")),
)


def test_the_file_and_the_plan_together_make_the_needs_of_a_date() -> None:
    tables, problems = read_morning(FILE, ages=AGES)

    needs = needs_on(tables, TUESDAY, lessons=LESSONS)

    assert problems == ()
    assert [one.id for one in needs.blocks] == ["wren/lesson", "wren/reading", "ivo/lesson"]
    lesson = needs.blocks[0]
    assert (lesson.title, lesson.fresh, lesson.worth) == ("Not enough ones", True, 100)
    assert [(one.kind, one.minutes, one.uses) for one in lesson.phases] == [
        ("led", 21, ("base-ten-blocks",)),
        ("alone", 22, ("base-ten-blocks",)),
    ]
    assert [(one.name, one.start, one.end) for one in needs.appointments] == [("Nap", 30, 120)]
    assert (needs.latest, needs.start, needs.wishes.order) == (180, time(9), 20)
    assert needs.stamina == {WREN: stamina_at(7), IVO: stamina_at(9)}


def test_the_schema_for_machines_takes_what_the_reader_takes_and_refuses_what_it_refuses() -> None:
    schema = Draft202012Validator(json.loads((CONTENT / "morning.schema.json").read_text("utf-8")))
    schema.check_schema(schema.schema)
    told = (CONTENT.parents[2] / "docs" / "plan-format-morning.md").read_text("utf-8")
    example = tomllib.loads(
        "\n".join(line[4:] for line in told.splitlines() if line.startswith("    ")).split('{"date')[0]
    )
    raw = {name: example[name] for name in ("morning", "shared", "appointments")}
    raw["blocks"] = {child["id"]: child["blocks"] for child in example["learners"]}

    assert list(schema.iter_errors(FILE)) == []
    assert list(schema.iter_errors(raw)) == []
    assert read_morning(raw, ages=AGES)[1] == ()
    wrong: list[dict[str, Any]] = [
        {"morning": {"end": "9:00"}},
        {"morning": {"ende": 3}},
        {"morning": {"start": "25:00"}},
        {"shared": [{"nam": "x"}]},
        {"blocks": {"wren": [{"id": "a", "phases": [{"led": 1, "alone": 2}]}]}},
        {"blocks": {"wren": [{"phases": [{"led": 1}]}]}},
        {"appointments": [{"who": ["wren"]}]},
    ]
    for one in wrong:
        assert list(schema.iter_errors(one)), one
        assert read_morning(one, ages=AGES)[1], one


def test_a_co_op_afternoon_takes_its_own_weekday_only_and_a_busy_calendar_its_own_date() -> None:
    tables, _ = read_morning(FILE, ages=AGES)
    visit = BusyTime(FRIDAY, time(9, 15), 20, "visit", who=("ivo",))

    needs = needs_on(tables, FRIDAY, lessons=LESSONS, busy=[visit, replace(visit, day=TUESDAY)])

    assert [(one.name, one.who, one.start) for one in needs.appointments] == [
        ("Nap", ("bean",), 30),
        ("Co-op", ("adult", "wren", "ivo"), 60),
        ("visit", ("ivo",), 15),
    ]
    plan = plan_morning(needs)
    assert check_morning(needs, plan) == ()
    assert "ivo/knots" in {one.id for one in needs.blocks}


def test_everything_wrong_in_the_tables_is_said_at_once() -> None:
    raw: dict[str, Any] = {
        "morning": {"end": "9:00", "ende": 3, "wishes": {"waitng": 2}, "stamina": [{"learner": "zed", "span": 30}]},
        "shared": [{"nam": "x"}],
        "blocks": {
            "wren": [
                {"id": "a", "phases": [{"led": 1, "alone": 2}]},
                {"id": "b", "phases": [{"led": 5, "uses": ["tab"]}], "after": ["q"], "weekdays": ["mo"]},
                {"id": "b", "phases": [{"led": -1}]},
            ]
        },
        "appointments": [{"who": ["zed"], "from": "9"}, {"from": "9:00", "until": "8:00"}],
    }

    _, problems = read_morning(raw, ages=AGES)

    said = [str(one) for one in problems]
    for part in (
        "morning.end: an end needs a start",
        "morning.ende: nothing is called so here; did you mean end",
        "morning.wishes.waitng: nothing is called so here; did you mean waiting",
        "morning.stamina[1].learner: 'zed' is no learner",
        "shared[1].name: a shared thing needs a name",
        "learners.wren.blocks[1].phases[1]: write either led = 10 or alone = 10",
        "learners.wren.blocks[2].phases[1].uses: 'tab' is none of the [[shared]] things",
        "learners.wren.blocks[2].weekdays: 'mo' is no weekday",
        "learners.wren.blocks[3].phases[1].led: -1 is not a whole number",
        "appointments[1].from: '9' is not a clock time",
        "appointments[1].who: 'zed' is neither 'adult'",
        "appointments[2].until: an appointment needs an end after its beginning",
    ):
        assert any(one.startswith(part) for one in said), part


@pytest.mark.parametrize(
    "raw", [{"morning": 3}, {"shared": {"name": "x"}}, {"blocks": {"wren": 7}}, {"appointments": ["x"]}]
)
def test_a_table_of_another_shape_is_a_problem_and_no_crash(raw: dict[str, Any]) -> None:
    _, problems = read_morning(raw, ages=AGES)

    assert problems


def test_two_lessons_of_one_child_on_a_day_are_two_blocks_in_their_order() -> None:
    tables, _ = read_morning({}, ages=AGES)
    joined = [LessonOfDay(WREN, "Look back", 12, 30), LessonOfDay(WREN, "Chapter test", 5, 25)]

    needs = needs_on(tables, TUESDAY, lessons=joined)
    plan = plan_morning(needs)

    assert [(one.id, one.after) for one in needs.blocks] == [("wren/lesson", ()), ("wren/lesson-2", ("wren/lesson",))]
    assert check_morning(needs, plan) == ()
    assert [one.block for one in plan.sessions] == ["wren/lesson"] * 2 + ["wren/lesson-2"] * 2
    # 42 minutes, then 30 more than the 50 of a child of seven: a pause of 10 between
    assert plan.minutes == 42 + 10 + 30
