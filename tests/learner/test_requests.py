"""What the line protocol answers to `written`, `ask` and `place`.

Referees: the shapes of issue 7; a chain of three skills whose answers anyone can work out.
"""

from __future__ import annotations

import pytest

from dayleaf.course.load import grade2
from dayleaf.learner.adviser import Adviser
from dayleaf.learner.requests import offer_requests


@pytest.fixture
def adviser() -> Adviser:
    one = Adviser(grade2())
    offer_requests(one)
    return one


def test_written_answers_name_a_habit_of_one_learner_and_not_of_another(adviser: Adviser) -> None:
    request = {"op": "written", "learner": "Wren", "day": 1, "skill": "sub-2digit-regroup"}
    first = adviser.reply({**request, "numbers": {"a": 62, "b": 38}, "answer": 36})
    second = adviser.reply({**request, "numbers": [71, 47], "answer": "36"})
    other = adviser.reply({**request, "learner": "Ivo", "numbers": "71-47", "answer": "36"})

    assert set(first) == {"habit", "p", "class", "ask"}
    assert (first["habit"], second["habit"], other["habit"]) == (None, "smaller-from-larger", None)
    assert second["class"] == ["smaller-from-larger"]
    assert set(second["ask"]) >= {"text", "numbers"}


def test_an_item_to_ask_is_given_before_anything_was_written(adviser: Adviser) -> None:
    item = adviser.reply({"op": "ask", "learner": 7, "skill": "sub-3digit-zero-tens"})["item"]

    assert set(item["numbers"]) == {"a", "b"}
    assert str(item["numbers"]["a"]) in item["text"]


def test_any_course_is_placed_and_the_asking_ends(adviser: Adviser) -> None:
    skills = [{"id": "a", "prereqs": []}, {"id": "b", "prereqs": ["a"]}, {"id": "c", "prereqs": ["b"]}]
    plan = [{"day": 1, "skills": ["a"]}, {"day": 2, "skills": ["b"]}, {"day": 3, "skills": ["c"]}]
    adviser.reply({"op": "course", "skills": skills, "plan": plan})
    answers: list[dict[str, object]] = []
    while (told := adviser.reply({"op": "place", "answers": answers}))["ask"] is not None:
        answers.append({"skill": told["ask"], "correct": told["ask"] == "a"})

    assert len(answers) <= 6  # at most twice each
    assert told["start"] == 2
    assert told["belief"]["a"] > 0.9
    assert told["belief"]["c"] < 0.1


@pytest.mark.parametrize(
    "request_",
    [
        {"op": "written", "learner": "x", "skill": "none", "numbers": [1], "answer": 3},
        {"op": "written", "learner": "x", "skill": "sub-2digit-regroup", "numbers": [1], "answer": 3},
        {"op": "written", "learner": "x", "skill": "sub-2digit-regroup", "numbers": ["a", 2], "answer": 3},
        {"op": "written", "learner": "x", "skill": "sub-2digit-regroup", "numbers": [62, 38], "answer": None},
        {"op": "written", "learner": None, "skill": "sub-2digit-regroup", "numbers": [62, 38], "answer": 3},
        {"op": "written", "skill": ["x"]},
        {"op": "ask", "learner": "x"},
        {"op": "place"},
        {"op": "place", "answers": [{"skill": "none", "correct": True}]},
        {"op": "place", "answers": [{"skill": "add-make-ten-9", "correct": 1}]},
        {"op": "place", "answers": [[]]},
    ],
)
def test_a_bad_request_is_answered_with_a_sentence_and_the_next_one_is_heard(
    adviser: Adviser, request_: dict[str, object]
) -> None:
    told = adviser.reply(request_)

    assert set(told) == {"error"}
    assert told["error"].endswith(".")
    assert adviser.reply({"op": "ask", "learner": "x", "skill": "sub-2digit-regroup"})["item"]
