"""The week sheet on paper, read back by a PDF reader that is not ours; strips as pictures."""

from __future__ import annotations

from datetime import date, time, timedelta
from io import BytesIO
from typing import TYPE_CHECKING
from xml.etree import ElementTree as ET

import pdfplumber
import pikepdf
import pytest

from dayleaf.core.ids import LearnerId
from dayleaf.packets.binding import bound
from dayleaf.packets.morning_strip import INK, LABELS, lane, morning_strip
from dayleaf.packets.week import listed, run_sentences, week_sheet
from dayleaf.plan.morning import plan_morning
from dayleaf.plan.morning_model import Block, MorningNeeds, MorningPlan, Phase
from dayleaf.plan.week import WeekLesson, at_hand_before, prepare_week
from dayleaf.sheets.model import Look
from dayleaf.sheets.weeks import typeset_week

if TYPE_CHECKING:
    from dayleaf.course.model import Course

MONDAY = date(2027, 1, 11)
CHILDREN = {LearnerId("wren"): ("Wren", 81), LearnerId("ivo"): ("Ivo", 15), LearnerId("bean"): ("Bean", 1)}
NAMES = {child: name for child, (name, _) in CHILDREN.items()}


def lessons_of(course: Course, children: int) -> list[WeekLesson]:
    return [
        WeekLesson(child, MONDAY + timedelta(days=n), course.days[first - 1 + n])
        for n in range(5)
        for child, (_, first) in list(CHILDREN.items())[:children]
    ]


def morning(lessons: list[WeekLesson], *, start: time | None = time(9)) -> MorningPlan:
    blocks = [
        Block(
            f"{one.learner}/{one.lesson.id}",
            one.learner,
            one.lesson.title,
            (Phase("led", one.lesson.parent_minutes), Phase("alone", one.lesson.child_minutes)),
        )
        for one in lessons
    ]
    return plan_morning(MorningNeeds(tuple(blocks), start=start))


def printed(course: Course, children: int, *, paper: str = "letter") -> bytes:
    lessons = lessons_of(course, children)
    week = prepare_week(
        course,
        lessons,
        first=MONDAY,
        last=MONDAY + timedelta(days=6),
        today=MONDAY,
        at_hand=at_hand_before(course.days[:80], course.materials),
    )
    mornings = {day: morning([one for one in lessons if one.day == day]) for day in week.days}
    sheet = week_sheet(week, course=course, names=NAMES, mornings=mornings, little_one=True)
    return typeset_week(sheet, Look("a4" if paper == "a4" else "letter"))


@pytest.mark.parametrize(("children", "paper"), [(1, "letter"), (2, "a4"), (3, "letter")])
def test_the_week_of_up_to_three_children_is_one_page_with_everything_on_it(
    course: Course, children: int, paper: str
) -> None:
    with pdfplumber.open(BytesIO(printed(course, children, paper=paper))) as pdf:
        assert len(pdf.pages) == 1
        text = pdf.pages[0].extract_text()

    for child in list(CHILDREN)[:children]:
        assert NAMES[child] in text
    for one in lessons_of(course, children):
        assert one.lesson.title in text
    for words in (
        "The week of January 11 to 15",
        "Monday",
        "Friday",
        "Base-ten blocks",
        "small parts",
        "Short of time".upper(),
    ):
        assert words.lower() in text.lower()


def test_the_same_week_is_the_same_bytes(course: Course) -> None:
    assert printed(course, 2) == printed(course, 2)


def test_a_strip_is_drawn_to_scale_and_says_the_same_in_words(course: Course) -> None:
    lessons = lessons_of(course, 2)[:2]
    plan = morning(lessons)

    root = ET.fromstring(morning_strip(plan, NAMES, width=160))  # noqa: S314 -- our own picture

    space = "{http://www.w3.org/2000/svg}"
    bars = [bar.attrib for bar in root.iter(f"{space}rect")]
    scale = (160 - LABELS - 6) / plan.minutes
    assert [bar["fill"] for bar in bars].count(INK) == len(plan.with_adult)
    starts = sorted(round((float(bar["x"]) - LABELS - 0.15) / scale) for bar in bars)
    assert starts == sorted(one.start for one in plan.sessions)
    said = root.findtext(f"{space}desc") or ""
    assert "Wren: with you from 9:00, 25 minutes" in said
    assert {"9:00", "9:10"} <= {text.text for text in root.iter(f"{space}text")}


def test_a_strip_without_a_start_counts_minutes_and_a_lane_stands_alone(course: Course) -> None:
    plan = morning(lessons_of(course, 1)[:1], start=None)

    whole = morning_strip(plan, NAMES)
    one = lane(plan, LearnerId("wren"), name="Wren", width=50, length=plan.minutes)

    assert ">0</text>" in whole
    assert ":00" not in whole
    assert one.count("<rect") == 2


def test_a_print_run_says_what_is_for_now_and_what_waits(course: Course) -> None:
    week = prepare_week(course, lessons_of(course, 1), first=MONDAY, last=MONDAY + timedelta(days=6), today=MONDAY)

    # day 81 to 85: two sheets on each but the second (`second_sheet` in the course)
    assert run_sentences(week.run) == (
        "Monday, Tuesday and Wednesday now: 5 sheets, in the order of use.",
        "Thursday and Friday later (4 sheets): what comes back there depends on the days before.",
    )
    assert (listed(["one"]), listed(["one", "two"]), listed(["a", "b", "c"])) == ("one", "one and two", "a, b and c")


def test_bound_prints_each_begin_on_a_front(course: Course) -> None:
    one, two = printed(course, 1), printed(course, 2)

    whole, before = bound([one, two, one])

    with pikepdf.open(BytesIO(whole)) as document:
        assert len(document.pages) == 5  # one side, a blank back, one side, a blank back, one side
        assert document.Root.ViewerPreferences.Duplex == "/DuplexFlipLongEdge"
    assert before == (0, 2, 4)
    with pdfplumber.open(BytesIO(whole)) as pdf:
        assert [bool(page.extract_text()) for page in pdf.pages] == [True, False, True, False, True]


def test_a_week_without_lessons_is_a_page_that_says_so(course: Course) -> None:
    week = prepare_week(course, [], first=MONDAY, last=MONDAY + timedelta(days=6), today=MONDAY)

    sheet = week_sheet(week, course=course, names={}, mornings={})

    assert (sheet.title, sheet.under) == ("The week of January 11 to 17", "No lessons are planned this week.")
    with pdfplumber.open(BytesIO(typeset_week(sheet, Look()))) as pdf:
        assert "No lessons are planned" in pdf.pages[0].extract_text()
