"""The morning of several children. Referees: trying every minute, a published theorem, and a checker written apart."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, time
from itertools import chain, combinations, permutations
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dayleaf.core.ids import LearnerId
from dayleaf.plan.morning import plan_morning
from dayleaf.plan.morning_check import check_morning
from dayleaf.plan.morning_codec import morning_data
from dayleaf.plan.morning_cost import finish_bound, joined, preemptive_end
from dayleaf.plan.morning_model import ADULT, Appointment, Block, MorningNeeds, MorningPlan, Phase, Stamina
from dayleaf.plan.morning_words import morning_lines
from dayleaf.trial.mornings import best_by_trying, drawn_morning, tiny_morning

WREN, IVO = LearnerId("wren"), LearnerId("ivo")
TUESDAY = date(2027, 1, 12)


def block(learner: LearnerId, name: str, *phases: Phase, **more: Any) -> Block:
    return Block(f"{learner}/{name}", learner, name.capitalize(), phases, **more)


def led(minutes: int, *uses: str) -> Phase:
    return Phase("led", minutes, uses)


def alone(minutes: int, *uses: str) -> Phase:
    return Phase("alone", minutes, uses)


def times(plan: MorningPlan) -> dict[tuple[str, int], tuple[int, int]]:
    return {(one.block, one.phase): (one.start, one.end) for one in plan.sessions}


@pytest.mark.parametrize("seed", range(16))
def test_a_small_morning_is_the_best_of_all_that_can_be_tried(seed: int) -> None:
    needs = tiny_morning(seed)

    plan = plan_morning(needs)

    assert check_morning(needs, plan) == ()
    assert plan.proof == "optimal"
    # every order and every start of every phase, tried by code that shares nothing with the planner
    assert best_by_trying(needs, within=plan.minutes) == (plan.minutes, plan.total)


@pytest.mark.parametrize("children", [1, 2, 3, 4, 5])
def test_drawn_mornings_break_no_rule_and_are_proven(children: int) -> None:
    for seed in range(3 if children < 4 else 1):
        for short in (False, True):
            needs = drawn_morning(children, seed, short=short)

            plan = plan_morning(needs)

            assert check_morning(needs, plan) == ()
            if children < 5:
                assert plan.proof == "optimal"
            # issue 6: within 2 % of the proven optimum for five
            assert plan.minutes <= 1.02 * plan.finish_bound or plan.price
            assert plan.price == plan.price_bound


jobs = st.lists(st.tuples(st.integers(0, 30), st.integers(1, 12), st.integers(0, 30)), min_size=1, max_size=7)


@given(jobs)
def test_the_bound_of_one_machine_is_the_greatest_over_all_sets_of_jobs(drawn: list[tuple[int, int, int]]) -> None:
    # Carlier 1982, proposition on Jackson's preemptive schedule: its end is the maximum over all sets of jobs of
    # least head + all minutes + least tail
    sets = chain.from_iterable(combinations(drawn, n) for n in range(1, len(drawn) + 1))
    greatest = max(min(r for r, _, _ in s) + sum(p for _, p, _ in s) + min(q for _, _, q in s) for s in sets)

    assert preemptive_end(drawn) == greatest


@given(jobs, st.lists(st.tuples(st.integers(0, 60), st.integers(1, 15)), max_size=3))
def test_a_machine_that_stands_still_at_times_is_followed_minute_by_minute(
    drawn: list[tuple[int, int, int]], still: list[tuple[int, int]]
) -> None:
    away = joined((start, start + minutes) for start, minutes in still)

    # the same rule played out minute by minute: of the jobs that have come, work on the one with the longest tail
    left, minute, end = {n: job[1] for n, job in enumerate(drawn)}, 0, 0
    while left:
        here = [n for n in left if drawn[n][0] <= minute]
        if here and not any(start <= minute < stop for start, stop in away):
            n = max(here, key=lambda one: drawn[one][2])
            left[n] -= 1
            if not left[n]:
                del left[n]
                end = max(end, minute + 1 + drawn[n][2])
        minute += 1
    assert preemptive_end(drawn, away) == end


@settings(max_examples=40, deadline=None)
@given(st.lists(st.tuples(st.integers(1, 40), st.integers(1, 60)), min_size=1, max_size=5))
def test_one_lesson_each_is_settled_by_the_rule_of_the_longest_time_alone(parts: list[tuple[int, int]]) -> None:
    children = [LearnerId(f"child-{n}") for n in range(len(parts))]
    needs = MorningNeeds(tuple(block(c, "sums", led(a), alone(b)) for c, (a, b) in zip(children, parts, strict=True)))

    plan = plan_morning(needs)

    # every order of the children; the rule is that of Jackson 1955
    orders = permutations(parts)
    ends = (max(sum(a for a, _ in one[: n + 1]) + one[n][1] for n in range(len(one))) for one in orders)
    assert plan.minutes == min(ends)
    assert (plan.how, plan.proof, plan.total) == ("rule", "optimal", 0)


def test_a_morning_without_lessons_is_over_before_it_begins() -> None:
    plan = plan_morning(MorningNeeds(()))

    assert (plan.minutes, plan.sessions, plan.proof) == (0, (), "optimal")


def test_alone_time_of_one_child_fills_with_led_time_of_the_other() -> None:
    needs = MorningNeeds(
        (block(WREN, "sums", led(10), alone(20), led(5)), block(IVO, "sums", led(15), alone(10), led(5)))
    )

    plan = plan_morning(needs)

    # by hand: Wren led 0-10, Ivo led 10-25, Wren alone 10-30 and led 30-35, Ivo alone 25-35 and led 35-40;
    # Ivo alone needs 10 + 30 minutes, so nothing ends before 40 whoever begins, and nobody waits inside a lesson
    assert (plan.minutes, plan.total, plan.proof) == (35 + 5, 0, "optimal")


def test_a_pause_stands_where_the_span_of_a_child_ends() -> None:
    lessons = (block(WREN, "sums", led(20), alone(15)), block(WREN, "reading", led(10)))
    needs = MorningNeeds(lessons, {WREN: Stamina(span=40, pause=10)})

    plan = plan_morning(needs)

    # 45 minutes of lessons, a span of 40: one pause of 10 somewhere, and not inside a lesson where it would cost
    assert (plan.minutes, plan.total) == (55, 0)
    assert check_morning(needs, plan) == ()
    assert check_morning(needs, replace(plan, sessions=tuple(_at_once(lessons)), minutes=45)) == (
        "wren sits for 45 minutes without a pause.",
    )


def _at_once(lessons: tuple[Block, ...]) -> list[Any]:
    plan = plan_morning(MorningNeeds(lessons))
    return list(plan.sessions)


def test_nobody_is_led_while_the_adult_is_on_the_telephone() -> None:
    call = Appointment("a call", (ADULT,), 5, 20)
    needs = MorningNeeds((block(WREN, "sums", led(10), alone(10)),), appointments=(call,))

    plan = plan_morning(needs)

    # 5 minutes before the call are too few, so the lesson begins when it ends
    assert times(plan)["wren/sums", 0] == (25, 35)
    assert plan.minutes == 45


def test_one_tablet_goes_from_child_to_child_and_two_serve_both_at_once() -> None:
    lessons = (block(WREN, "reading", alone(20, "tablet")), block(IVO, "reading", alone(20, "tablet")))

    one = plan_morning(MorningNeeds(lessons, shared={"tablet": 1}))
    two = plan_morning(MorningNeeds(lessons, shared={"tablet": 2}))

    assert (one.minutes, two.minutes) == (40, 20)


def test_singing_waits_until_the_little_one_is_awake() -> None:
    nap = Appointment("the nap", ("bean",), 0, 30, quiet=True)
    needs = MorningNeeds((block(IVO, "singing", led(10), loud=True), block(WREN, "sums", led(10))), appointments=(nap,))

    plan = plan_morning(needs)

    assert times(plan)["ivo/singing", 0] == (30, 40)
    assert times(plan)["wren/sums", 0][0] < 30


def test_a_day_too_short_leaves_out_what_is_worth_least_and_says_why() -> None:
    lessons = (
        block(WREN, "sums", led(30), worth=100),
        block(IVO, "sums", led(30), worth=100),
        block(IVO, "reading", led(15), worth=40),
        block(WREN, "knots", led(15), worth=50),
    )

    plan = plan_morning(MorningNeeds(lessons, latest=80, start=time(9)))

    # 90 minutes with the adult and 80 there are: one of the short ones goes, and Ivo's reading is worth less
    assert [one.block for one in plan.left_out] == ["ivo/reading"]
    assert (plan.price, plan.minutes, plan.proof) == (40, 75, "optimal")
    assert plan.left_out[0].says == (
        "Reading (15 minutes) is left out: all that needs an adult takes 90 minutes, and there are 80."
    )


@pytest.mark.parametrize("seed", range(4))
def test_what_is_left_out_is_the_cheapest_choice_of_lessons_that_fits(seed: int) -> None:
    needs = drawn_morning(2, seed, short=True)
    assert needs.latest is not None

    plan = plan_morning(needs)

    # every choice of lessons laid out by itself without an end: the cheapest one that is over in time
    prices = []
    for size in range(len(needs.blocks) + 1):
        for kept in combinations(needs.blocks, size):
            ends = plan_morning(replace(needs, blocks=kept, latest=None))
            assert ends.minutes == ends.finish_bound
            if ends.minutes <= needs.latest:
                prices.append(sum(one.worth for one in needs.blocks if one not in kept))
    assert plan.price == min(prices)


def test_a_morning_too_short_for_anything_leaves_everything_out() -> None:
    needs = MorningNeeds((block(WREN, "sums", led(30)), block(IVO, "sums", led(12), alone(20))), latest=10)

    plan = plan_morning(needs)

    assert (len(plan.left_out), plan.minutes, plan.price, plan.proof) == (2, 0, 100, "optimal")
    assert "it is longer than the 10 minutes there are" in plan.left_out[0].says
    assert check_morning(needs, plan) == ()


def test_wishes_come_after_the_earliest_end() -> None:
    sums, reading = block(WREN, "sums", led(10)), block(WREN, "reading", alone(10), after=("wren/sums",))

    plan = plan_morning(MorningNeeds((reading, sums)))
    turned = plan_morning(MorningNeeds((reading, sums, block(IVO, "sums", led(10), alone(30), fresh=True))))

    assert times(plan)["wren/sums", 0] == (0, 10)
    assert plan.total == 0
    # Ivo begins, because nothing else ends by 40; then Wren's order is kept
    assert (times(turned)["ivo/sums", 0], turned.minutes, turned.total) == ((0, 10), 40, 0)


def test_the_checker_sees_every_kind_of_broken_rule() -> None:
    lessons = (
        block(WREN, "sums", led(10), alone(10, "tablet")),
        block(WREN, "song", alone(5), loud=True),
        block(IVO, "sums", led(10), alone(10, "tablet")),
    )
    nap = Appointment("the nap", (ADULT, "ivo"), 60, 30, quiet=True)
    needs = MorningNeeds(lessons, appointments=(nap,), shared={"tablet": 1}, latest=50)
    plan = plan_morning(needs)
    assert check_morning(needs, plan) == ()

    def broken(start: dict[tuple[str, int], int]) -> str:
        moved = tuple(replace(one, start=start.get((one.block, one.phase), one.start)) for one in plan.sessions)
        ordered = tuple(sorted(moved, key=lambda one: one.start))
        return " ".join(check_morning(needs, replace(plan, sessions=ordered, minutes=max(one.end for one in ordered))))

    everyone_first = broken({("wren/sums", 0): 0, ("ivo/sums", 0): 0})
    assert "adult has" in everyone_first
    assert "tablet is wanted 2 times" in broken({("wren/sums", 1): 25, ("ivo/sums", 1): 25})
    assert "ivo has ivo/sums and the nap at once" in broken({("ivo/sums", 1): 65})
    assert "wren/song is loud during the nap" in broken({("wren/song", 0): 62})
    assert "after 50" in broken({("wren/song", 0): 90})
    assert "out of order" in broken({("wren/sums", 0): 30, ("wren/sums", 1): 10})
    assert "interrupted by another lesson" in broken({("wren/sums", 0): 0, ("wren/song", 0): 10, ("wren/sums", 1): 20})
    assert "not there with every phase" in " ".join(check_morning(needs, replace(plan, sessions=plan.sessions[1:])))
    assert "worth" in " ".join(check_morning(needs, replace(plan, price=7)))


def test_the_same_needs_give_the_same_morning_twice() -> None:
    needs = drawn_morning(4, 11)

    assert plan_morning(needs) == plan_morning(needs)


def test_no_bound_is_above_what_was_found() -> None:
    for seed in range(3):
        needs = drawn_morning(3, seed)
        plan = plan_morning(needs)
        assert finish_bound(needs, needs.blocks) <= plan.finish_bound <= plan.minutes
        assert 0 <= plan.wishes_bound <= plan.total


def test_without_a_start_the_morning_is_an_order_and_with_one_a_clock() -> None:
    needs = MorningNeeds((block(WREN, "sums", led(21), alone(22)), block(IVO, "sums", led(12), alone(30))))
    names = {WREN: "Wren", IVO: "Ivo"}
    clocked = replace(needs, start=time(9, 5))

    # the hand-made figures of test_morning.py: Ivo first, 55 minutes in all
    assert morning_lines(needs, plan_morning(needs), names) == (
        "About 33 minutes with you, 55 in all.",
        "  minute 0 to minute 12: Ivo, Sums",
        "  minute 12 to minute 33: Wren, Sums",
    )
    assert morning_lines(clocked, plan_morning(clocked), names)[:2] == (
        "About 33 minutes with you, done by 10:00.",
        "  9:05 to 9:17: Ivo, Sums",
    )
    data = morning_data(needs, plan_morning(needs), day=TUESDAY, names=names)
    assert "at" not in data["sessions"][0]
    assert data["with_adult"] == [
        {"learner": "ivo", "block": "ivo/sums", "start": 0, "minutes": 12},
        {"learner": "wren", "block": "wren/sums", "start": 12, "minutes": 21},
    ]
    assert morning_data(clocked, plan_morning(clocked), day=TUESDAY, names=names)["ends"] == "10:00"
