"""`dayleaf advise`: one JSON line answers each line (issue 7 names the requests and what their answers hold)."""

from __future__ import annotations

import json
from typing import Any

import pytest

from dayleaf.cli.advise import replies

COURSE = {
    "op": "course",
    "skills": [{"id": f"s{n}", "prereqs": [f"s{n - 1}"] if n else []} for n in range(10)],
    "plan": [{"day": 2 * n, "skills": [f"s{n}"]} for n in range(10)],
}


def said(*requests: object) -> list[dict[str, Any]]:
    lines = [one if isinstance(one, bytes) else json.dumps(one).encode() for one in requests]
    return [json.loads(line) for line in replies(lines)]


def answers(skill: str, signs: str, *, day: float, learner: object = "wren") -> list[dict[str, Any]]:
    return [
        {"op": "answer", "learner": learner, "day": day, "skill": skill, "correct": sign == "r", "choices": None,
         "help": False, "error": None}
        for sign in signs
    ]  # fmt: skip


def last(*requests: object) -> dict[str, Any]:
    return said(*requests)[-1]


@pytest.mark.parametrize("bad", [
    b"{", b"\xff\xfe", b"[]", b"7", b'{"op":7}', {"op": "dance"}, {"op": "answer"},
    {"op": "answer", "learner": "w", "day": 1, "skill": "nowhere", "correct": True},
    {"op": "answer", "learner": "w", "day": None, "skill": "s1", "correct": True},
    {"op": "answer", "learner": "w", "day": 1, "skill": "s1", "correct": "yes"},
    {"op": "answer", "learner": "w", "day": 1, "skill": "s1", "correct": True, "choices": 0},
    {"op": "predict", "learner": "w", "day": 1, "skills": "s1"},
    {"op": "review", "learner": "w", "day": 1, "n": -1},
    {"op": "course", "skills": [{"name": "s"}]}, {"op": "course", "skills": []},
    {"op": "taught", "learner": ["w"], "day": 1, "skill": "s1"},
    {"op": "course", "skills": [{"id": "s1"}], "plan": [{"day": 1, "skills": [{"a": 1}]}]},
    {"op": "place", "answers": [{"skill": ["s1"], "correct": True}]},
])  # fmt: skip
def test_a_bad_line_gets_an_error_in_words_and_the_stream_goes_on(bad: object) -> None:
    found = said(COURSE, bad, {"op": "spare", "learner": "w", "day": 1})

    assert list(found[1]) == ["error"]
    assert found[1]["error"].endswith(".")
    assert found[2] == {"skill": None}


def test_a_prediction_falls_with_time_and_rises_with_right_answers() -> None:
    def p(day: float, signs: str) -> float:
        asked = {"op": "predict", "learner": "wren", "day": day, "skills": ["s1"], "L": 0.7}
        found = last(COURSE, *answers("s1", signs, day=0), asked)
        assert set(found) == {"p", "sd", "firm"}
        return float(found["p"]["s1"])

    assert p(1, "rrrr") > p(60, "rrrr") > p(60, "wwww")
    assert p(1, "rrrr") > p(1, "rrww") > p(1, "wwww")


def test_a_choice_between_two_and_a_helped_answer_tell_less() -> None:
    def p(**told: object) -> float:
        one = answers("s1", "r", day=0)[0] | told
        asked = {"op": "predict", "learner": "wren", "day": 0, "skills": ["s2"]}
        return float(last(COURSE, one, asked)["p"]["s2"])

    assert p() > p(choices=2)
    assert p() > p(help=True)


def test_the_order_in_which_days_are_told_does_not_matter() -> None:
    told = [*answers("s0", "rrw", day=1), *answers("s1", "rr", day=5), *answers("s0", "w", day=9)]
    asked = {"op": "predict", "learner": "wren", "day": 20, "skills": ["s0", "s1", "s2"]}

    assert last(COURSE, *told, asked) == last(COURSE, *told[3:], *told[:3], asked)


def test_a_course_given_late_counts_what_was_told_before() -> None:
    ours = [{"id": "add-make-ten-9", "prereqs": []}, {"id": "doubles-to-20", "prereqs": ["add-make-ten-9"]}]
    told = answers("add-make-ten-9", "rrrr", day=0)
    asked = {"op": "predict", "learner": "wren", "day": 1, "skills": ["add-make-ten-9"]}

    assert last(*told, {"op": "course", "skills": ours}, asked) == last({"op": "course", "skills": ours}, *told, asked)


def test_a_review_names_met_skills_once_none_of_them_todays_each_with_a_reason() -> None:
    told = [one for n in range(6) for one in answers(f"s{n}", "rrwr", day=2 * n)]

    found = last(COURSE, *told, {"op": "review", "learner": "wren", "day": 12, "n": 4, "today": ["s2"]})

    assert len(found["skills"]) == len(set(found["skills"])) == 4
    assert set(found["skills"]) <= {"s0", "s1", "s3", "s4", "s5"}
    assert set(found["why"]) == set(found["skills"])
    assert all(found["why"].values())


def test_a_learner_without_marks_is_asked_what_the_plan_has_shown() -> None:
    found = last(COURSE, {"op": "review", "learner": "new", "day": 7, "n": 9, "today": []})

    assert set(found["skills"]) == {"s0", "s1", "s2", "s3"}


def test_after_right_answers_the_advice_is_to_go_on_to_the_next_lesson_and_after_wrong_ones_to_repeat() -> None:
    taught = {"op": "taught", "learner": "wren", "day": 0, "skill": "s0"}
    asked = {"op": "next", "learner": "wren", "day": 0, "skill": "s0"}

    on = last(COURSE, taught, *answers("s0", "r" * 12, day=0), asked)
    again = last(COURSE, taught, *answers("s0", "w" * 8, day=0), asked)

    assert (on["advice"], on["skill"]) == ("go on", "s1")
    assert (again["advice"], again["skill"]) == ("repeat", "s0")
    assert on["why"].endswith(".")


def test_a_skill_is_repeated_twice_at_the_most() -> None:
    told: list[object] = []
    steps = []
    for day in range(4):
        told += [{"op": "taught", "learner": "wren", "day": day, "skill": "s0"}, *answers("s0", "wwww", day=day)]
        steps.append(last(COURSE, *told, {"op": "next", "learner": "wren", "day": day, "skill": "s0"})["advice"])

    assert steps[:3] == ["repeat", "re-teach", "go on"]


def test_a_spare_day_goes_to_the_lowest_skill_not_taught_for_nine_days() -> None:
    told: list[object] = []
    for skill, signs in (("s0", "rrrrrrrr"), ("s1", "wwwwwwww"), ("s2", "wwwwrwww")):
        told += [{"op": "taught", "learner": "wren", "day": 0, "skill": skill}, *answers(skill, signs, day=0)]

    assert last(COURSE, *told, {"op": "spare", "learner": "wren", "day": 8}) == {"skill": None}
    assert last(COURSE, *told, {"op": "spare", "learner": "wren", "day": 20})["skill"] in {"s1", "s2"}


def test_six_right_answers_before_a_lesson_let_it_be_skipped() -> None:
    told = [one for n in range(5) for one in answers(f"s{n}", "r" * 10, day=n)]
    before = last(COURSE, *told, {"op": "precheck", "learner": "wren", "day": 6, "skill": "s5"})

    after = last(
        COURSE, *told, *answers("s5", "r" * 6, day=6), {"op": "next", "learner": "wren", "day": 6, "skill": "s5"}
    )

    assert before["n"] in {0, 6}
    assert after["advice"] == "skip"
    assert last(COURSE, {"op": "precheck", "learner": "new", "day": 6, "skill": "s5"}) == {"n": 0}


def test_habits_and_placement_answer_on_the_same_stream() -> None:
    found = said(
        {"op": "ask", "learner": "wren", "skill": "sub-2digit-regroup"},
        {"op": "written", "learner": "wren", "day": 1, "skill": "sub-2digit-regroup", "numbers": {"a": 62, "b": 38},
         "answer": 36},
        {"op": "place", "answers": []},
    )  # fmt: skip

    assert set(found[0]["item"]) >= {"text", "numbers"}
    assert set(found[1]) == {"habit", "p", "class", "ask"}
    assert set(found[2]) == {"ask", "start", "belief"}
