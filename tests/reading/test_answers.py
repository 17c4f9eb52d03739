"""What may count without a person's look, and what may not (DESIGN, reading photos: the policy)."""

from __future__ import annotations

from dataclasses import replace
from itertools import product
from typing import Literal

import pytest

from dayleaf.core.ids import FormatId, LessonId, SheetId, SkillId
from dayleaf.marking.entry import parse_entry
from dayleaf.marking.mark import mark_sheet
from dayleaf.reading.answers import entry_words, misfits, propose
from dayleaf.reading.model import BoxReading, PageReading
from dayleaf.sheets.model import Box, BoxKind, MapItem, PageMap, Qr

State = Literal["sure", "ask", "blank"]


def box(item: int, part: str, place: str, kind: BoxKind = "digit", answer: str = "") -> Box:
    role: Literal["answer", "trade"] = "trade" if part == "trade" else "answer"
    name = f"{item}.{part}.{place}" if place else f"{item}.{part}"
    return Box(name, item, part, role, kind, 10.0, 10.0, 12.0, 14.0, answer)


def item(n: int, answer: str) -> MapItem:
    return MapItem(n, f"key-{n}", SkillId("some-skill"), FormatId("vert"), {"a": 62, "b": 38}, "62 − 38", answer, {})


PAGE = PageMap(
    SheetId("7KQ2M4D"), 1, 1, "front", LessonId("day-084"), "en", (215.9, 279.4), Qr(0, 0, 17, ""), (),
    (
        box(1, "trade", "1"), box(1, "trade", "0"),
        box(1, "a", "2"), box(1, "a", "1", answer="2"), box(1, "a", "0", answer="4"),
        box(2, "a", "", "compare", ">"),
        *(box(3, "a", code, "circle", "1" if code == "24" else "") for code in ("20", "24", "30")),
        *(box(4, "a", code, "tick", "1" if code in ("4", "12") else "") for code in ("4", "7", "12")),
    ),
    (item(1, "24"), item(2, ">"), item(3, "24"), item(4, "4 12"), item(5, "")),
)  # fmt: skip


def read(**said: str | tuple[str, State]) -> list[PageReading]:
    """The side with these readings (box id with _ for .), the other boxes empty; sure unless said otherwise."""
    boxes = []
    for one in PAGE.boxes:
        reading = said.get("b" + one.id.replace(".", "_"), "")
        text, state = reading if isinstance(reading, tuple) else (reading, "sure" if reading else "blank")
        boxes.append(BoxReading(one.id, text, 0.99 if state == "sure" else 0.7, state, picture=b"png"))
    return [PageReading("read", 1, sheet=PAGE.sheet, page=1, boxes=tuple(boxes))]


def state_of(n: int, readings: list[PageReading], **settled: str) -> str:
    known = {name.removeprefix("b").replace("_", "."): said for name, said in settled.items()}
    return next(one.state for one in propose([PAGE], readings, settled=known) if one.n == n)


def test_a_sure_right_answer_is_right() -> None:
    assert state_of(1, read(b1_a_1="2", b1_a_0="4")) == "right"
    assert state_of(2, read(b2_a=">")) == "right"
    assert state_of(3, read(b3_a_24="1")) == "right"
    assert state_of(4, read(b4_a_4="1", b4_a_12="1")) == "right"


def test_an_empty_item_is_blank_and_a_drawn_one_is_asked() -> None:
    assert [one.state for one in propose([PAGE], read())] == ["blank", "blank", "blank", "blank", "ask"]
    assert propose([PAGE], read())[4].questions[0].why == "drawn"


LOOKED = ("look-alone", "look-helped", "look-not-yet")


def looked(*states: State) -> str:
    """What is proposed for a drawn item whose three boxes for the grown-up are in these states."""
    boxes = tuple(Box(f"1.1.{code}", 1, "1", "look", "tick", 10.0, 10.0, 5.0, 5.0, "") for code in LOOKED)
    page = replace(PAGE, boxes=boxes, items=(item(1, ""),))
    seen = [
        BoxReading(one.id, "" if state == "blank" else "1", 0.99, state)
        for one, state in zip(boxes, states, strict=True)
    ]
    return propose([page], [PageReading("read", 1, sheet=page.sheet, page=1, boxes=tuple(seen))])[0].state


def test_a_drawn_item_counts_where_a_grown_up_has_surely_ticked_alone_and_is_asked_about_otherwise() -> None:
    # DESIGN 8, the policy: nothing counts against a child without a person's look.
    assert looked("sure", "blank", "blank") == "right"
    assert looked("ask", "blank", "blank") == "ask"
    assert looked("blank", "sure", "blank") == "ask"
    assert looked("blank", "blank", "sure") == "ask"
    assert looked("sure", "blank", "sure") == "ask"
    assert looked("blank", "blank", "blank") == "ask"


def test_the_expected_answer_never_makes_a_doubtful_digit_right() -> None:
    doubtful = read(b1_a_1="2", b1_a_0=("4", "ask"))

    assert state_of(1, doubtful) == "ask"
    assert state_of(1, doubtful, b1_a_0="4") == "right"


def test_nothing_is_wrong_before_a_person_has_looked() -> None:
    wrong = read(b1_a_1="3", b1_a_0="6")
    (first, *_) = propose([PAGE], wrong)

    assert first.state == "ask"
    assert {(ask.box, ask.why, ask.picture) for ask in first.questions} == {
        ("1.a.1", "would be wrong", b"png"),
        ("1.a.0", "would be wrong", b"png"),
    }
    assert state_of(1, wrong, b1_a_1="3", b1_a_0="6") == "wrong"
    assert state_of(1, wrong, b1_a_1="2", b1_a_0="4") == "right"


def test_no_reading_that_differs_from_the_key_counts_without_a_look() -> None:
    for high, tens, ones in product(("", "1", "2"), ("", "2", "7"), ("", "4", "9")):
        seen = state_of(1, read(b1_a_2=high, b1_a_1=tens, b1_a_0=ones))
        if (high, tens, ones) == ("", "2", "4"):
            assert seen == "right"
        elif high + tens + ones == "":
            assert seen == "blank"
        else:
            assert seen == "ask"


def test_the_first_digit_off_is_named_with_what_stands_in_the_small_boxes() -> None:
    (first, *_) = propose([PAGE], read(b1_a_1="3", b1_a_0="4", b1_trade_1="5", b1_trade_0=("12", "ask")))

    assert (first.first_off, first.trades) == (1, ((0, "12"), (1, "5")))


def test_a_doubtful_small_box_asks_nothing() -> None:
    assert state_of(1, read(b1_a_1="2", b1_a_0="4", b1_trade_1=("8", "ask"))) == "right"


def test_two_rings_are_asked_about() -> None:
    (_, _, third, *_) = propose([PAGE], read(b3_a_20="1", b3_a_24="1"))

    assert {ask.why for ask in third.questions} == {"two ringed"}


def test_a_side_that_was_not_photographed_is_not_seen() -> None:
    assert {one.state for one in propose([PAGE], [])} == {"not seen"}


def test_a_whole_item_may_be_said() -> None:
    assert [one.state for one in propose([PAGE], read(), settled={"5": "right"})][4] == "right"


@pytest.mark.parametrize(
    ("readings", "settled", "states"),
    [
        (read(b1_a_1="2", b1_a_0="4", b2_a=">", b3_a_24="1", b4_a_4="1", b4_a_12="1"), {},
         "right right right right right"),
        (read(b1_a_1="3", b1_a_0="6", b2_a="<"), {"1.a.1": "3", "1.a.0": "6", "2.a": "<"},
         "wrong wrong blank blank right"),
        (read(b3_a_20="1", b4_a_7="1"), {"3.a.20": "1", "3.a.24": "", "4.a.4": "", "4.a.7": "1", "4.a.12": ""},
         "blank blank wrong wrong right"),
    ],
)  # fmt: skip
def test_settled_proposals_become_the_marking_a_parent_would_type(
    readings: list[PageReading], settled: dict[str, str], states: str
) -> None:
    right_except, blank = entry_words([PAGE], propose([PAGE], readings, settled={**settled, "5": "right"}))
    entry = parse_entry([PAGE], right_except=right_except, blank=blank)

    assert [mark.state for mark in mark_sheet([PAGE], entry)] == states.split()


def test_a_whole_answer_may_be_typed_as_when_marking_by_hand() -> None:
    """The referee is marking by exception: the same words give the same marks."""
    doubtful = read(b1_a_1="2", b1_a_0=("1", "ask"), b2_a="<", b3_a_20="1")
    settled = {"1": "24", "2": ">", "3": "C", "4": "A C", "5": "right"}

    found = propose([PAGE], doubtful, settled=settled)
    right_except, blank = entry_words([PAGE], found)

    assert [one.state for one in found] == ["right", "right", "wrong", "right", "right"]
    assert (right_except, blank) == ("3=C", "")
    marks = mark_sheet([PAGE], parse_entry([PAGE], right_except=right_except))
    assert (marks[2].state, marks[2].answer) == ("wrong", "30")


def test_what_cannot_stand_in_a_box_or_an_item_is_named_all_at_once() -> None:
    settled = {
        "1.a.0": "45",
        "2.a": "7",
        "3.a.24": "x",
        "9.a.0": "1",
        "1": "many",
        "12": "right",
        "1.a.1": "",
        "5": "wrong",
    }

    problems = misfits([PAGE], settled)

    assert [problem.where for problem in problems] == ["1.a.0", "2.a", "3.a.24", "9.a.0", "item 1", "12"]
