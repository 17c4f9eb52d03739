"""Marking by exception: all right but these. Sheets are laid out by hand; the answers of JOB 1.7 are the referee."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dayleaf.core.errors import BadInput
from dayleaf.core.ids import ErrorWayId, FormatId, LessonId, SheetId, SkillId
from dayleaf.marking.answer import NotAnAnswer, asked_items, digits_right, read_typed, same_answer
from dayleaf.marking.entry import Entry, entry_problems, parse_entry
from dayleaf.marking.mark import mark_sheet, score
from dayleaf.sheets.model import Box, BoxKind, MapItem, PageKind, PageMap, Qr

SFL = ErrorWayId("smaller-from-larger")
TNR = ErrorWayId("ten-not-reduced")

# JOB 1.7: take-away, right answer, smaller-from-larger, ten-not-reduced
TABLE = (
    (62, 38, 24, 36, 34),
    (71, 47, 24, 36, 34),
    (84, 29, 55, 65, 65),
    (53, 17, 36, 44, 46),
    (90, 36, 54, 66, 64),
    (65, 21, 44, 44, 44),
)


def box(n: int, part: str, kind: BoxKind, answer: str, code: str = "") -> Box:
    return Box(
        id=f"{n}.{part}.{code}", item=n, part=part, role="answer", kind=kind, x=0, y=0, w=12, h=14, answer=answer
    )


def take_away(n: int, row: tuple[int, int, int, int, int]) -> MapItem:
    a, b, right, sfl, tnr = row
    return MapItem(
        n=n,
        key=f"sub-2digit-regroup/vert/a={a},b={b}",
        skill=SkillId("sub-2digit-regroup"),
        format=FormatId("vert"),
        numbers={"a": a, "b": b},
        text=f"{a} − {b} = □",
        answer=str(right),
        errors={SFL: str(sfl), TNR: str(tnr)},
    )


def plain(n: int, answer: str, **errors: str) -> MapItem:
    return MapItem(
        n=n,
        key=f"counted-by-hand/row/n={n}",
        skill=SkillId("counted-by-hand"),
        format=FormatId("row"),
        numbers={"n": n},
        text="",
        answer=answer,
        errors={ErrorWayId(way): wrong for way, wrong in errors.items()},
    )


def page(items: tuple[MapItem, ...], boxes: tuple[Box, ...], kind: PageKind = "front", number: int = 1) -> PageMap:
    return PageMap(
        sheet=SheetId("ABC2345"),
        page=number,
        pdf_page=number,
        kind=kind,
        lesson=LessonId("day-084"),
        lang="en",
        size_mm=(215.9, 279.4),
        qr=Qr(x=0, y=0, size=17, text=""),
        marks=(),
        boxes=boxes,
        items=items,
    )


def digits(n: int, answer: str, part: str = "a", width: int = 2) -> tuple[Box, ...]:
    return tuple(box(n, part, "digit", digit.strip()) for digit in answer.rjust(width))


FRONT = page(
    tuple(take_away(n, row) for n, row in enumerate(TABLE, start=1)),
    tuple(box for n, row in enumerate(TABLE, start=1) for box in digits(n, str(row[2]))),
)
CORNERED = ("square", "circle", "oblong", "ring")
BACK = page(
    (
        plain(7, "73", **{"says-in-order": "703"}),
        plain(8, "<", **{"sign-turned": ">"}),
        plain(9, "5 12", **{"tens-first": "12 5"}),
        plain(10, ""),
        plain(11, "square oblong"),
    ),
    (
        *(box(7, "a", "circle", mark, code) for mark, code in (("", "37"), ("1", "73"), ("", "703"))),
        box(8, "a", "compare", "<"),
        *digits(9, "5", "tens"),
        *digits(9, "12", "ones"),
        *(box(11, "a", "tick", mark, code) for mark, code in zip(("1", "", "1", ""), CORNERED, strict=True)),
    ),
    kind="back",
    number=2,
)
SHEET = (FRONT, BACK)


def problems(**said: str | int | None) -> list[str]:
    with pytest.raises(BadInput) as caught:
        parse_entry(SHEET, **said)  # type: ignore[arg-type]  # a table of wrong lines is easier to read so
    return [str(problem) for problem in caught.value.problems]


def test_a_sheet_without_exceptions_is_all_right() -> None:
    marks = mark_sheet(SHEET, Entry())

    assert [mark.state for mark in marks] == ["right"] * 11
    assert marks[0].answer == "24"
    assert score(marks) == (11, 11)


def test_the_habit_of_job_1_7_is_found_in_each_wrong_answer() -> None:
    entry = parse_entry(SHEET, right_except="1=36, 2=36, 3=65, 4=44, 5=66")

    marks = mark_sheet(SHEET, entry)

    assert [mark.errors for mark in marks[:6]] == [(SFL,), (SFL,), (SFL, TNR), (SFL,), (SFL,), ()]
    assert [mark.answer for mark in marks[:6]] == ["36", "36", "65", "44", "66", "44"]
    assert score(marks) == (6, 11)


def test_blank_counts_against_the_sheet_and_not_reached_does_not() -> None:
    entry = parse_entry(SHEET, right_except="3=36", reached=7, helped="4,5", blank="6")

    marks = mark_sheet(SHEET, entry)

    assert score(marks) == (5, 7)
    assert [mark.state for mark in marks] == [
        *("right", "right", "wrong", "right", "right", "blank", "right"),
        *("not reached",) * 4,
    ]
    assert [mark.n for mark in marks if mark.helped] == [4, 5]
    assert {mark.answer for mark in marks if mark.state in {"blank", "not reached"}} == {None}


def test_a_wrong_item_may_be_named_without_what_was_written() -> None:
    marks = mark_sheet(SHEET, parse_entry(SHEET, right_except="2,10"))

    assert [(mark.n, mark.answer) for mark in marks if mark.state == "wrong"] == [(2, None), (10, None)]


def test_options_are_typed_by_letter_and_signs_and_parts_as_written() -> None:
    marks = mark_sheet(SHEET, parse_entry(SHEET, right_except="7=c;8=>;9=12 5;11=bd"))

    assert [mark.answer for mark in marks if mark.state == "wrong"] == ["703", ">", "12 5", "circle ring"]
    assert [mark.errors for mark in marks if mark.state == "wrong"] == [
        ("says-in-order",),
        ("sign-turned",),
        ("tens-first",),
        (),
    ]


def test_options_may_be_typed_by_their_codes_too_in_any_order() -> None:
    marks = mark_sheet(SHEET, parse_entry(SHEET, right_except="7=37;11=ring circle"))

    assert [mark.answer for mark in marks if mark.state == "wrong"] == ["37", "circle ring"]


def test_all_the_right_letters_in_another_order_are_the_right_answer() -> None:
    assert problems(right_except="11=C A") == [
        "item 11: C A is the right answer; leave the item out if the child wrote it"
    ]


def test_items_worked_together_count_as_helped() -> None:
    marks = mark_sheet((page(FRONT.items, FRONT.boxes, kind="together"),), Entry(reached=2))

    assert [mark.helped for mark in marks] == [True, True, False, False, False, False]


def test_every_problem_of_a_line_is_listed_at_once() -> None:
    found = problems(right_except="3=24x,3=36,15=4,x=5,9=7,6=9,10=8,1=24,2=3667,8=9,7=E", blank="6", reached=10)

    assert found == [
        "item 3: is named twice among the wrong ones; keep one",
        "right except: “x” is not an item's number",
        "item 1: 24 is the right answer; leave the item out if the child wrote it",
        "item 2: has 2 digit boxes; “3667” does not fit",
        "item 3: is answered in digits; “24x” is not a number",
        "item 6: is both answered and blank; keep one",
        "item 7: is answered by a letter from A to C; “E” is not one of them",
        "item 8: is answered by <, > or =; “9” is none of them",
        "item 9: has 2 places; “7” fills 1",
        "item 10: is drawn, built or told; give its number alone",
        "item 15: is not on this sheet; it has the items 1 to 11",
    ]


def test_nothing_after_the_last_item_reached_can_be_wrong_helped_or_blank() -> None:
    assert problems(right_except="5=66", helped="6", reached=4) == [
        "item 5: comes after the last item reached, 4",
        "item 6: comes after the last item reached, 4",
    ]


def test_a_child_cannot_come_further_than_the_sheet() -> None:
    assert problems(reached=12) == ["reached: is 12; this sheet has the items 1 to 11"]


def test_an_entry_made_without_the_line_is_held_to_the_same_rules() -> None:
    with pytest.raises(BadInput):
        mark_sheet(SHEET, Entry(wrong={1: "24"}))


@given(st.integers(0, 9999), st.integers(0, 9999))
def test_digits_right_never_exceed_the_digits_of_the_key(answer: int, written: int) -> None:
    right = digits_right(str(answer), str(written))

    assert 0 <= right <= len(str(answer))
    assert digits_right(str(answer), str(answer)) == len(str(answer))
    # the number of places where both numbers have a digit and the digits agree, by arithmetic
    places = range(min(len(str(answer)), len(str(written))))
    assert right == sum(answer // 10**place % 10 == written // 10**place % 10 for place in places)


def test_digits_right_follow_the_published_example() -> None:
    # CHECKS D.7 (curriculum-based measurement): key 135, answer 145, two digits correct
    assert digits_right("135", "145") == 2


def test_a_zero_in_front_changes_no_answer() -> None:
    assert same_answer("06 12", "6 12")
    assert not same_answer("60", "6")
    assert same_answer("0", "00")


def test_marking_with_the_key_itself_is_refused_item_by_item() -> None:
    every = Entry(wrong={n: asked.item.answer for n, asked in asked_items([FRONT]).items()})

    assert len(entry_problems([FRONT], every)) == 6


def test_an_entry_with_nothing_written_is_refused() -> None:
    assert [str(problem) for problem in entry_problems(SHEET, Entry(wrong={7: " "}))] == [
        "item 7: says nothing; give what the child wrote"
    ]


def test_two_letters_for_one_ring_are_refused() -> None:
    with pytest.raises(NotAnAnswer, match="one letter to ring"):
        read_typed(asked_items(SHEET)[7], "AC")
