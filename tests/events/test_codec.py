"""Events survive being written and read. The referee is the event itself: what is read equals what was said."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta, timezone
from typing import get_args

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from dayleaf.core.errors import BadInput
from dayleaf.core.ids import EventId, FormatId, LearnerId, LessonId, SheetId, SkillId
from dayleaf.events.codec import KINDS, MomentWithoutZone, NewerEvent, UnknownEventKind, from_data, kind_of, to_data
from dayleaf.events.model import (
    Attended,
    BoxEvidence,
    Event,
    Head,
    HowFar,
    Impression,
    ItemMark,
    ItemState,
    Looked,
    Marked,
    Mended,
    Noted,
    Override,
    PlanChanged,
    Printed,
    Taught,
)

words = st.text(max_size=12)
texts = st.lists(words, max_size=4).map(tuple)
heads = st.builds(
    Head,
    id=words,
    at=st.datetimes(timezones=st.just(UTC)),
    day=st.dates(),
    learner=st.none() | words,
)
marks = st.builds(
    ItemMark,
    n=st.integers(1, 40),
    skill=words,
    format=words,
    key=words,
    state=st.sampled_from(get_args(ItemState)),
    answer=st.none() | words,
    helped=st.booleans(),
    errors=texts,
)
evidence = st.builds(
    BoxEvidence, box=words, reading=words, certainty=st.floats(0, 1), settled=st.none() | words, by=words
)
events: st.SearchStrategy[Event] = st.one_of(
    st.builds(Printed, head=heads, lesson=words, sheets=texts, skills=texts),
    st.builds(Taught, head=heads, lesson=words, how_far=st.sampled_from(get_args(HowFar)), skills=texts),
    st.builds(
        Marked,
        head=heads,
        sheet=words,
        lesson=words,
        items=st.lists(marks, max_size=2).map(tuple),
        replaces=st.none() | words,
        evidence=st.lists(evidence, max_size=2).map(tuple),
    ),
    st.builds(
        Looked,
        head=heads,
        sheet=words,
        lesson=words,
        skills=texts,
        impression=st.sampled_from(get_args(Impression)),
    ),
    st.builds(Mended, head=heads, sheet=words, n=st.integers(), with_help=st.booleans(), taken_back=st.booleans()),
    st.builds(Noted, head=heads, lesson=st.none() | words, text=words),
    st.builds(Override, head=heads, lesson=st.none() | words, advised=words, chosen=words),
    st.builds(Attended, head=heads, present=st.booleans()),
    st.builds(PlanChanged, head=heads, version=words, reason=words),
)

MARKED = Marked(
    head=Head(
        id=EventId("e1"),
        at=datetime(2027, 1, 12, 20, 10, tzinfo=UTC),
        day=date(2027, 1, 12),
        learner=LearnerId("wren"),
    ),
    sheet=SheetId("ABC2345"),
    lesson=LessonId("day-084"),
    items=(
        ItemMark(
            n=1,
            skill=SkillId("sub-2digit-regroup"),
            format=FormatId("vert"),
            key="sub-2digit-regroup/vert/a=62,b=38",
            state="wrong",
            answer="36",
            helped=False,
            errors=(),
        ),
    ),
)


@settings(suppress_health_check=[HealthCheck.too_slow])  # a busy machine is no fault of the events
@given(events)
def test_every_event_comes_back_from_json_exactly_as_it_was(event: Event) -> None:
    through_json = json.loads(json.dumps(to_data(event)))

    assert from_data(through_json) == event


def test_every_kind_of_event_has_one_name_in_the_log() -> None:
    assert set(KINDS.values()) == set(get_args(Event))
    assert kind_of(MARKED) == "marked"


def test_an_event_says_its_form_kind_and_day_in_plain_words() -> None:
    data = to_data(MARKED)

    assert (data["version"], data["kind"], data["day"], data["at"]) == (
        1,
        "marked",
        "2027-01-12",
        "2027-01-12T20:10:00+00:00",
    )


def test_a_kind_from_a_newer_program_is_named() -> None:
    with pytest.raises(UnknownEventKind, match="'sung'"):
        from_data(to_data(MARKED) | {"kind": "sung"})


def test_a_newer_form_is_named() -> None:
    with pytest.raises(NewerEvent, match="form 2"):
        from_data(to_data(MARKED) | {"version": 2})


def test_all_problems_of_a_broken_event_are_listed_at_once() -> None:
    what = {
        "sheet": 7,
        "items": [
            {
                "n": "1",
                "skill": "s",
                "format": "f",
                "key": "k",
                "state": "fine",
                "answer": None,
                "helped": 1,
                "errors": [],
            },
            3,
        ],
        "replaces": None,
        "mood": "sunny",
    }
    data = to_data(MARKED) | {"day": "12 January", "what": what}

    with pytest.raises(BadInput) as caught:
        from_data(data)

    assert [problem.where for problem in caught.value.problems] == [
        "day",
        "what.sheet",
        "what.lesson",
        "what.items[0].n",
        "what.items[0].state",
        "what.items[0].helped",
        "what.items[1]",
        "what.mood",
    ]


def test_a_moment_must_be_in_utc() -> None:
    boat_time = datetime(2027, 1, 12, 20, 10, tzinfo=timezone(timedelta(hours=1)))

    with pytest.raises(MomentWithoutZone):
        to_data(replace(MARKED, head=replace(MARKED.head, at=boat_time)))
