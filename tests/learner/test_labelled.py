"""Misses that are named after their error way, and lessons held back by what lies beneath.

Referees: Bayes' rule worked out by hand with the stated rates; the shapes of issue 7.
"""

from __future__ import annotations

from typing import Any

import pytest

from dayleaf.course.load import grade2
from dayleaf.learner.adviser import Adviser
from dayleaf.learner.labelled import Labelled, heard

COURSE = {
    "op": "course",
    "skills": [{"id": "below", "prereqs": []}, {"id": "mid", "prereqs": []}, {"id": "above", "prereqs": ["below"]}],
    "plan": [{"day": day, "skills": [skill]} for day, skill in ((1, "below"), (2, "mid"), (9, "above"))],
}


@pytest.fixture
def adviser() -> Adviser:
    one = Adviser(grade2())
    one.reply(COURSE)
    return one


def tell(adviser: Adviser, day: int, skill: str, signs: str, *, error: str | None = None) -> None:
    adviser.reply({"op": "taught", "learner": 1, "day": day, "skill": skill})
    for sign in signs:
        line: dict[str, Any] = {"op": "answer", "learner": 1, "day": day, "skill": skill, "correct": sign == "r"}
        assert adviser.reply({**line, "choices": None, "help": False, "error": error if sign == "w" else None}) == {
            "ok": True
        }


def test_the_odds_of_a_named_way_are_those_of_bayes_rule() -> None:
    odds = Labelled()
    for right in (False, True, False):
        odds = heard(odds, "s", right=right, error=None if right else "smaller-from-larger")

    # prior .025; a miss of its own .75 against .03, a right answer .25 against .92
    ratio = 0.025 / 0.975 * (0.75 / 0.03) * (0.25 / 0.92) * (0.75 / 0.03)
    assert odds.ways["smaller-from-larger"].p == pytest.approx(ratio / (1 + ratio), rel=1e-12)


def test_a_habit_is_never_named_from_one_miss_and_mends_with_right_answers() -> None:
    once = heard(Labelled(), "s", right=False, error="e")
    thrice = heard(heard(once, "s", right=False, error="e"), "s", right=False, error="e")
    mended = thrice
    for _ in range(8):
        mended = heard(mended, "s", right=True, error=None)

    assert once.habit_on("s") is None
    assert thrice.habit_on("s") == "e"
    assert thrice.habit_on("another") is None
    assert mended.habit_on("s") is None


def test_misses_by_one_habit_lower_the_chance_more_than_misses_without_a_name(adviser: Adviser) -> None:
    tell(adviser, 1, "below", "wrwwrw", error="smaller-from-larger")
    tell(adviser, 1, "mid", "wrwwrw")

    p = adviser.reply({"op": "predict", "learner": 1, "day": 2, "skills": ["below", "mid"]})["p"]

    assert p["below"] < p["mid"]


def test_after_a_lesson_whose_misses_are_one_habit_it_is_shown_another_way(adviser: Adviser) -> None:
    tell(adviser, 1, "below", "wrwwww", error="smaller-from-larger")

    told = adviser.reply({"op": "next", "learner": 1, "day": 1, "skill": "below"})

    assert (told["advice"], told["skill"]) == ("re-teach", "below")
    assert "one habit" in told["why"]


def test_the_next_lesson_waits_while_what_it_stands_on_is_stuck(adviser: Adviser) -> None:
    tell(adviser, 1, "below", "wwwwww")
    tell(adviser, 2, "mid", "rrrrrrrrrrrr")
    stuck = adviser.reply({"op": "next", "learner": 1, "day": 2, "skill": "mid"})
    for day in (3, 4):
        tell(adviser, day, "below", "rrrrrrrrrrrr")
    mended = adviser.reply({"op": "next", "learner": 1, "day": 4, "skill": "mid"})

    assert (stuck["advice"], stuck["skill"]) == ("re-teach", "below")
    assert (mended["advice"], mended["skill"]) == ("go on", "above")


def test_an_error_that_is_no_name_is_refused_in_words(adviser: Adviser) -> None:
    line = {"op": "answer", "learner": 1, "day": 1, "skill": "mid", "correct": False, "error": 7}

    assert set(adviser.reply(line)) == {"error"}
