"""`dayleaf place` and `dayleaf strip`, typed as a family types them.

Referees: the files on the disk; JOB story 1 (stops by itself at or before 25, one day, reasons).
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from dayleaf.core.ids import SkillId
from dayleaf.course.load import grade2

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

FILES = {"guide.pdf", "pages.pdf", "key.pdf", "sheets.json"}


def test_the_paper_is_printed_and_its_marks_give_a_start_and_nothing_is_recorded(
    say: Callable[..., Any], home: Path, tmp_path: Path, kept: Callable[[Path], str]
) -> None:
    before = kept(home)
    printed = say("place", "--home", home, "--learner", "Wren", "--out", tmp_path / "paper")
    told = say("place", "--home", home, "--learner", "Wren", "--right-except", "11,12,13", "--reached", 13, "--json")

    assert printed.status == told.status == 0
    assert {file.name for file in (tmp_path / "paper").iterdir()} == FILES
    assert told.json["ask"] is None
    assert 1 <= told.json["start"] <= 180
    assert {entry["word"] for entry in told.json["map"]} == {"firm", "shaky", "not yet"}
    assert len(told.json["starts"]) == 3
    assert kept(home) == before


def test_question_by_question_an_item_is_asked_until_25_answers_are_there(say: Callable[..., Any], home: Path) -> None:
    days = {skill: day.number for day in reversed(grade2().days) for skill in day.new_skills}
    order = sorted(days, key=lambda skill: (days[skill], skill))
    answers = [{"skill": skill, "correct": days[skill] < 60} for skill in order[::8]]
    first = say("place", "--home", home, "--learner", "Wren", "--answers", json.dumps(answers[:9]), "--json").json
    told = say("place", "--home", home, "--learner", "Wren", "--answers", json.dumps((answers * 2)[:25]), "--json").json

    assert first["ask"]["item"]["skill"] == first["ask"]["skill"]
    assert first["ask"]["item"]["answer"]
    assert told["ask"] is None
    assert abs(told["start"] - 60) <= 12
    assert told["reasons"][0].startswith(f"Begin with day {told['start']}")


def test_a_strip_is_printed_for_the_habit_named_or_without_one(
    say: Callable[..., Any], home: Path, tmp_path: Path
) -> None:
    one = say("strip", "--home", home, "--learner", "Ivo", "--skill", "sub-2digit-regroup", "--out", tmp_path / "one")
    other = say(
        *("strip", "--home", home, "--learner", "Wren", "--skill", "sub-2digit-regroup"),
        *("--error", "smaller-from-larger", "--out", tmp_path / "other"),
    )

    assert one.status == other.status == 0
    assert {file.name for file in (tmp_path / "one").iterdir()} == FILES
    sheets = json.loads((tmp_path / "other" / "sheets.json").read_text())["sheets"]
    assert [len(page["items"]) for page in sheets] == [4, 4, 6]


def test_story_9_the_probe_asks_six_questions_at_most_and_names_the_link(say: Callable[..., Any]) -> None:
    skills, answers = grade2().skills, list[dict[str, Any]]()

    def rests_on(skill: str, weak: str) -> bool:
        return skill == weak or any(rests_on(one, weak) for one in skills[SkillId(skill)].prereqs)

    while True:
        told = say("probe", "--skill", "sub-2digit-regroup", "--answers", json.dumps(answers), "--json").json
        if told["ask"] is None:
            break
        asked = told["ask"]["skill"]
        answers.append({"skill": asked, "correct": not rests_on(asked, "pv-2digit-regroup-names")})

    assert len(answers) <= 6
    assert told["link"] == "pv-2digit-regroup-names"


def test_what_cannot_be_read_is_said_line_by_line_with_status_2(
    say: Callable[..., Any], home: Path, tmp_path: Path
) -> None:
    wrong = (
        ("place", "--home", home, "--learner", "Wren", "--answers", "[{}, 3]"),
        ("place", "--home", home, "--learner", "Wren", "--answers", "no"),
        ("place", "--home", home, "--learner", "Wren", "--right-except", "99,x"),
        ("strip", "--home", home, "--learner", "Wren", "--skill", "none", "--out", tmp_path / "x"),
        (
            *("strip", "--home", home, "--learner", "Wren", "--skill", "sub-2digit-regroup"),
            *("--error", "none", "--out", tmp_path / "x"),
        ),
    )
    told = [say(*words) for words in wrong]

    assert [one.status for one in told] == [2] * 5
    assert [len(one.err.strip().splitlines()) for one in told[:3]] == [2, 1, 2]
