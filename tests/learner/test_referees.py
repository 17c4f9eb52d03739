"""The models that ours is measured against, and the fit of difficulties: worked values and other software.

Values: CHECKS D.5 (knowledge tracing, worked by a script of its own), D.6 (performance factors), D.8 (also given by
catsim), F.2 (eRm and psychotools agree to four digits). hmmlearn is a general library for hidden Markov models.
"""

from __future__ import annotations

from math import sqrt

import numpy as np
import pytest

from dayleaf.learner.factors import counts_before, factor_chance, fit_factors
from dayleaf.learner.rasch import ScoresDoNotFit, fit_rasch, information
from dayleaf.learner.tracing import Tracing, fit_tracing, predict, trace


def test_knowledge_tracing_gives_the_worked_values() -> None:
    before, after = trace(map(bool, (1, 0, 1, 1, 1, 1)), Tracing(known=0.3, learn=0.1, slip=0.1, guess=0.2))

    assert after == pytest.approx((0.692683, 0.297833, 0.690587, 0.918505, 0.982598, 0.996472), abs=5e-7)
    assert before == pytest.approx((0.41, 0.684878, 0.408483, 0.683411, 0.842954, 0.887819), abs=5e-7)


def test_knowledge_tracing_gives_the_second_worked_values() -> None:
    _before, after = trace(
        map(bool, (0, 0, 1, 1, 1, 0, 1, 1, 0, 1)), Tracing(known=0.5, learn=0.4, slip=0.2, guess=0.2)
    )

    assert after == pytest.approx(
        (0.52, 0.527869, 0.890355, 0.98208, 0.997275, 0.993514, 0.999022, 0.999853, 0.999648, 0.999947), abs=5e-7
    )


@pytest.mark.parametrize(("known", "learn", "slip", "guess", "in_a_row"), [
    (0.3, 0.1, 0.1, 0.2, 3), (0.0, 0.1, 0.1, 0.2, 5), (0.1, 0.2, 0.1, 0.02, 2),
])  # fmt: skip
def test_so_many_right_answers_in_a_row_reach_mastery(
    known: float, learn: float, slip: float, guess: float, in_a_row: int
) -> None:
    _before, after = trace([True] * 8, Tracing(known=known, learn=learn, slip=slip, guess=guess))

    assert next(turn for turn, level in enumerate(after, start=1) if level >= 0.95) == in_a_row


@pytest.mark.parametrize("seed", range(5))
def test_knowledge_tracing_with_forgetting_equals_a_hidden_markov_model(seed: int) -> None:
    hmm = pytest.importorskip("hmmlearn.hmm")
    chance = np.random.default_rng(seed)
    known, learn, slip, guess, forget = chance.uniform(0.05, 0.5, 5)
    answers = chance.random(30) < 0.6
    model = hmm.CategoricalHMM(n_components=2, n_features=2)
    model.startprob_ = np.array([1 - known, known])
    model.transmat_ = np.array([[1 - learn, learn], [forget, 1 - forget]])
    model.emissionprob_ = np.array([[1 - guess, guess], [slip, 1 - slip]])

    tracing = Tracing(known=known, learn=learn, slip=slip, guess=guess, forget=forget)
    _before, after = trace(answers.tolist(), tracing)

    for turn in range(len(answers)):
        last = model.predict_proba(answers[: turn + 1].astype(int).reshape(-1, 1))[-1, 1]
        assert abs(after[turn] - (last * (1 - forget) + (1 - last) * learn)) < 1e-12


def test_many_children_are_traced_as_one_is() -> None:
    chance = np.random.default_rng(3)
    right, there = chance.random((2, 5, 9)) < 0.6, np.ones((2, 5, 9), dtype=bool)
    tracing = Tracing(*(chance.uniform(0.1, 0.4, 2) for _ in range(5)))

    chances = predict(right, there, tracing)

    one = Tracing(
        *(float(np.asarray(getattr(tracing, name))[1]) for name in ("known", "learn", "slip", "guess", "forget"))
    )
    assert chances[1, 3] == pytest.approx(trace(right[1, 3].tolist(), one)[0])


def test_the_fit_of_knowledge_tracing_finds_what_the_answers_were_drawn_from() -> None:
    # 3,000 children, 12 turns, drawn here from the model itself
    chance = np.random.default_rng(11)
    known = chance.random(3000) < 0.3
    turns = []
    for _ in range(12):
        turns.append(chance.random(3000) < np.where(known, 0.93, 0.15))
        known |= chance.random(3000) < 0.2
    right = np.stack(turns, axis=1)[None]

    found = fit_tracing(right, np.ones_like(right), forgetting=False, rounds=60)

    fitted = [float(np.asarray(one)[0]) for one in (found.known, found.learn, found.slip, found.guess)]
    assert fitted == pytest.approx([0.3, 0.2, 0.07, 0.15], abs=0.03)


@pytest.mark.parametrize(("right", "wrong", "p"), [
    (0, 0, 0.377541), (1, 0, 0.450166), (3, 1, 0.622459), (5, 2, 0.768525), (8, 2, 0.890903),
])  # fmt: skip
def test_performance_factors_give_the_worked_values(right: int, wrong: int, p: float) -> None:
    assert factor_chance(start=-0.5, rights=0.3, wrongs=0.1, right=right, wrong=wrong) == pytest.approx(p, abs=5e-7)


def test_the_fit_of_performance_factors_finds_what_the_answers_were_drawn_from() -> None:
    chance = np.random.default_rng(5)
    rows: list[tuple[int, int, bool]] = []
    for child in range(1500):
        right = wrong = 0
        for _ in range(10):
            good = bool(chance.random() < factor_chance(start=-0.5, rights=0.3, wrongs=0.1, right=right, wrong=wrong))
            rows.append((child, 0, good))
            right, wrong = right + good, wrong + (not good)
    child_, skill, good_ = (np.array(column) for column in zip(*rows, strict=True))

    found = fit_factors(skill, *counts_before(child_, skill, good_), good_, skills=1)

    assert [float(found.start[0]), float(found.rights[0]), float(found.wrongs[0])] == pytest.approx(
        [-0.5, 0.3, 0.1], abs=0.07
    )


def test_counts_before_an_answer_are_of_the_same_child_and_skill() -> None:
    child, skill = np.array([0, 1, 0, 0, 1]), np.array([2, 2, 2, 1, 2])

    rights, wrongs = counts_before(child, skill, np.array([True, False, False, True, True]))

    assert rights.tolist() == [0, 0, 1, 0, 0]
    assert wrongs.tolist() == [0, 0, 0, 0, 1]


SUBTRACTION = (0.901, 0.830, 0.823, 0.568, 0.759, 0.796, 0.823, 0.765)
SCORES = (5, 5, 6, 13, 14, 27, 56, 85, 83)


def test_difficulties_of_eight_subtractions_equal_the_published_softwares() -> None:
    # CHECKS F.2: 294 children, 1,842 right answers
    found = fit_rasch([round(share * 294) for share in SUBTRACTION], SCORES)

    assert found.difficulties == pytest.approx(
        (-1.1487, -0.3028, -0.2392, 1.4138, 0.2844, -0.0031, -0.2392, 0.2348), abs=6e-5
    )
    assert found.log_likelihood == pytest.approx(-544.3322, abs=6e-5)
    assert found.abilities == pytest.approx((-2.1012, -1.2055, -0.5705, -0.0114, 0.5515, 1.1988, 2.1169), abs=6e-5)


def test_scores_that_do_not_fit_the_items_are_refused() -> None:
    with pytest.raises(ScoresDoNotFit):
        fit_rasch([10, 10], [5, 5, 5])


def test_the_information_of_items_has_the_published_values() -> None:
    # CHECKS D.8, the same in catsim
    assert information(0, [0]) == pytest.approx(0.25)
    assert information(1, [0]) == pytest.approx(0.196612, abs=5e-7)
    assert information(1, [0], slope=1.5) == pytest.approx(0.335579, abs=1e-6)
    five = information(0.2, [-1, -0.5, 0, 0.5, 1])
    assert (five, 1 / sqrt(five)) == pytest.approx((1.105492, 0.951091), abs=5e-7)
