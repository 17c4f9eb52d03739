"""The probe down the chain, the strip that follows it, and where a placement says to begin.

Referees: Bayes' rule and the information of a question written out by hand on a small chain; JOB stories 1 and 9; the
chain of JOB 1.10; the four kinds of number in JOB 1.7.
"""

from __future__ import annotations

from math import log
from random import Random

import pytest

from dayleaf.core.ids import ErrorWayId, SkillId
from dayleaf.course.load import grade2
from dayleaf.items.ways.published import PUBLISHED
from dayleaf.learner.placement import place
from dayleaf.learner.probe import MOST, probe, steps_down
from dayleaf.learner.start import placement_map
from dayleaf.learner.states import ground_of_course, number_skills
from dayleaf.learner.strip import strip_for

COURSE = grade2()
LINKS = {skill.id: skill.prereqs for skill in COURSE.skills.values()}
STUCK = SkillId("sub-2digit-regroup")
NAMES = SkillId("pv-2digit-regroup-names")
SFL = ErrorWayId("smaller-from-larger")
A, B, C = SkillId("a"), SkillId("b"), SkillId("c")
CHAIN: dict[SkillId, tuple[SkillId, ...]] = {A: (), B: (A,), C: (B,)}
NEVER = ("failed", "behind", "weak", "easy", "should", "oops", "great job", "awesome", "!")


def asked_of(weak: SkillId, *, slip: float = 0.0, guess: float = 0.0, seed: int = 0) -> tuple[SkillId, int]:
    """The link that is found in a child whose first weak link is `weak`, and how many questions it took."""
    chance, answers = Random(seed), list[tuple[SkillId, bool]]()
    while True:
        found = probe(LINKS, STUCK, answers)
        if found.ask is None:
            return found.link, len(answers)
        stands_on_it = weak in steps_down(LINKS, found.ask)
        answers.append((found.ask, chance.random() < (guess if stands_on_it else 1 - slip)))


def test_the_chain_under_a_skill_is_all_that_it_rests_on_nearest_first() -> None:
    steps = steps_down(LINKS, STUCK)

    # JOB 1.10: sub-2digit-regroup ← sub-2digit-1digit-regroup ← regroup-ten-for-ones ← pv-2digit-regroup-names
    chain = ("sub-2digit-regroup", "sub-2digit-1digit-regroup", "regroup-ten-for-ones", "pv-2digit-regroup-names")
    assert [steps[SkillId(one)] for one in chain] == [0, 1, 2, 3]


def test_story_9_the_names_of_tens_and_ones_are_found_in_at_most_six_questions() -> None:
    link, questions = asked_of(NAMES)

    assert link == NAMES
    assert questions <= MOST == 6


def test_each_link_of_the_chain_of_job_1_10_is_found_where_answers_do_not_slip() -> None:
    for weak in ("sub-2digit-regroup", "sub-2digit-1digit-regroup", "regroup-ten-for-ones"):
        assert asked_of(SkillId(weak))[0] == weak


def test_with_slips_the_link_is_still_found_most_of_the_time() -> None:
    found = [asked_of(NAMES, slip=0.08, guess=0.05, seed=seed)[0] for seed in range(20)]

    assert found.count(NAMES) >= 12  # one of 35 links by chance would be found once in 35


def test_the_chances_are_those_of_bayes_rule_by_hand() -> None:
    found = probe(CHAIN, C, [(B, False)], known={A: 0.9, B: 0.5, C: 0.1})

    weights = {C: 0.9 * (1 - 0.95), B: 0.85 * 0.5 * (1 - 0.06), A: 0.85**2 * 0.1 * (1 - 0.06)}
    total = sum(weights.values())
    for skill, weight in weights.items():
        assert found.chances[skill] == pytest.approx(weight / total)


def test_the_question_is_the_one_that_is_expected_to_tell_most() -> None:
    found = probe(CHAIN, C)

    def entropy(p: float) -> float:
        return -p * log(p) - (1 - p) * log(1 - p)

    prior = {C: 1.0, B: 0.85, A: 0.85**2}
    total = sum(prior.values())
    told = {}
    for asked, links in {A: (A,), B: (A, B), C: (A, B, C)}.items():
        weak = sum(prior[link] for link in links) / total
        told[asked] = entropy(weak * 0.06 + (1 - weak) * 0.95) - weak * entropy(0.06) - (1 - weak) * entropy(0.95)
    assert found.ask == max(told, key=lambda one: told[one])


def test_only_skills_with_items_are_asked() -> None:
    assert probe(CHAIN, C, may_ask={A}).ask == A
    assert probe(CHAIN, C, may_ask=()).ask is None


def test_a_strip_has_four_and_four_and_six_items_with_the_same_numbers_and_two_new_ones() -> None:
    strip = strip_for(COURSE, COURSE.skills[STUCK], way=SFL, seed=3)

    one, two, three = ([item.numbers for item in day.items] for day in strip.days)
    assert [len(day) for day in (one, two, three)] == [4, 4, 6]
    assert sorted(one, key=str) == sorted(two, key=str)
    assert all(numbers in three for numbers in one)
    assert {item.format for item in strip.days[2].items} == {"vert"}
    assert strip.goes_to is not None
    assert strip.goes_to.id == "regroup-ten-for-ones"
    assert strip == strip_for(COURSE, COURSE.skills[STUCK], way=SFL, seed=3)


def test_the_numbers_of_a_strip_are_such_that_only_this_habit_writes_what_it_writes() -> None:
    strip = strip_for(COURSE, COURSE.skills[STUCK], way=SFL, seed=5)

    for item in strip.days[2].items:
        top, bottom = item.numbers["a"], item.numbers["b"]
        own = PUBLISHED[SFL](top, bottom)
        others = [go(top, bottom) for way, go in PUBLISHED.items() if way != SFL]
        assert own not in {top - bottom, *others}


def test_a_strip_without_a_habit_takes_the_skill_as_it_is() -> None:
    strip = strip_for(COURSE, COURSE.skills[SkillId("add-2digit-regroup-ones")], seed=1)

    assert strip.way is None
    assert [len(day.items) for day in strip.days] == [4, 4, 6]
    spoken = " ".join((strip.say, strip.watch, strip.ends, strip.otherwise, *(day.does for day in strip.days)))
    assert not [word for word in NEVER if word in spoken.lower()]


def test_story_1_the_map_names_a_start_and_its_reasons_and_prices_other_starts() -> None:
    ground, skills = ground_of_course(COURSE), number_skills(COURSE)
    answers: list[tuple[SkillId, bool]] = []
    while (found := place(ground, answers, judged=skills)).ask is not None:
        answers.append((found.ask, bool(ground.place[ground.graph.number[found.ask]] < 80)))

    told = placement_map(COURSE, ground, found, answers, skills=skills)

    assert told.start is not None
    assert abs(told.start.number - 80) <= 10
    words = {entry.skill: entry.word for entry in told.entries}
    assert set(words) == skills
    assert words[SkillId("count-to-120")] == "firm"
    assert words[SkillId("sub-3digit-zero-tens")] == "not yet"
    said = " ".join((*told.reasons, *(start.sentence for start in told.starts)))
    asked = [entry.title for entry in told.entries if entry.asked]
    assert sum(f"“{title}”" in said for title in asked) >= 2
    assert not [word for word in NEVER if word in said.lower()]
    days = [start.day.number for start in told.starts]
    assert len(days) == 3
    assert days == sorted(days)
    # the later the start, the less comes again and the more is left out
    assert [start.again for start in told.starts] == sorted((one.again for one in told.starts), reverse=True)
    assert [start.left_out for start in told.starts] == sorted(one.left_out for one in told.starts)
