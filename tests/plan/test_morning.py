"""Who is led when. The referee is every possible order, tried one by one."""

from __future__ import annotations

from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dayleaf.core.ids import LearnerId
from dayleaf.plan.morning import MinutesBelowZero, Sitting, order_morning

WREN = Sitting(learner=LearnerId("wren"), led=21, alone=22)
IVO = Sitting(learner=LearnerId("ivo"), led=12, alone=30)

sittings = st.lists(
    st.tuples(st.integers(0, 40), st.integers(0, 60)),
    max_size=5,
).map(lambda parts: [Sitting(learner=LearnerId(f"child-{n}"), led=a, alone=b) for n, (a, b) in enumerate(parts)])


def end_of(order: tuple[Sitting, ...]) -> int:
    """The morning's length by plain counting, apart from the code under test."""
    clock, end = 0, 0
    for one in order:
        clock += one.led
        end = max(end, clock + one.alone)
    return end


@given(sittings)
def test_no_other_order_of_the_children_ends_sooner(children: list[Sitting]) -> None:
    soonest = min(end_of(order) for order in permutations(children))

    assert order_morning(children).minutes == soonest


@given(sittings)
def test_the_adult_leads_one_child_at_a_time_and_each_child_goes_on_alone_at_once(children: list[Sitting]) -> None:
    morning = order_morning(children)

    led = [segment for segment in morning.segments if segment.kind == "led"]
    alone = {segment.learner: segment for segment in morning.segments if segment.kind == "alone"}
    assert [segment.start for segment in led[1:]] == [segment.end for segment in led[:-1]]
    assert all(alone[segment.learner].start == segment.end for segment in led)
    assert morning.with_adult == sum(one.led for one in children)
    assert sorted(morning.order) == sorted(one.learner for one in children)


def test_the_longer_part_alone_goes_first() -> None:
    morning = order_morning([WREN, IVO])

    # Ivo led 0-12 and alone to 42; Wren led 12-33 and alone to 55. The other way round it takes 63.
    assert morning.order == ("ivo", "wren")
    assert (morning.minutes, morning.with_adult) == (55, 33)
    assert [(one.learner, one.kind, one.start, one.end) for one in morning.segments] == [
        ("ivo", "led", 0, 12),
        ("ivo", "alone", 12, 42),
        ("wren", "led", 12, 33),
        ("wren", "alone", 33, 55),
    ]


def test_a_morning_without_children_takes_no_time() -> None:
    assert order_morning([]).minutes == 0


def test_minutes_below_zero_are_refused_by_name() -> None:
    with pytest.raises(MinutesBelowZero, match="wren"):
        order_morning([Sitting(learner=LearnerId("wren"), led=-1, alone=5)])
