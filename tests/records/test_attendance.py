"""Attendance is never invented: only what a person said, or what was done and marked, makes a day known."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

import pytest

from dayleaf.core.errors import BadInput
from dayleaf.core.ids import LearnerId, LessonId
from dayleaf.course.load import grade2
from dayleaf.plan.calendar import LearningCalendar
from dayleaf.plan.codec import to_json
from dayleaf.plan.kept import KeptYear
from dayleaf.plan.lessons import lessons_of
from dayleaf.plan.path import Stuck, cheapest_run
from dayleaf.plan.run import CourseRun
from dayleaf.plan.wishes import Rules, Wishes
from dayleaf.records import services, subjects
from dayleaf.records.attendance import COURSE, attendance, day_said, totals
from dayleaf.records.models import SheetRow

if TYPE_CHECKING:
    from collections.abc import Callable

    from dayleaf.events.model import HowFar, ItemMark
    from dayleaf.records.models import Learner, PrintRow

MONDAY = date(2027, 1, 11)
TUESDAY = date(2027, 1, 12)
SUNDAY = date(2027, 1, 17)


def known(learner: Learner, *, today: date = SUNDAY) -> dict[date, tuple[str, str]]:
    found = attendance(learner, first=MONDAY, last=SUNDAY, today=today)
    return {one.day: (one.known, one.because) for one in found}


def taught(learner: Learner, day: date, how_far: HowFar = "done") -> None:
    services.day_taught(learner=learner, lesson=LessonId("day-001"), how_far=how_far, skills=(), day=day)


def plan_from(learner: Learner, start: date) -> None:
    """A plan with Monday and Tuesday as learning days."""
    run = CourseRun(
        learner=LearnerId(learner.id),
        course=grade2().id,
        lessons=lessons_of(grade2())[:4],
        calendar=LearningCalendar(start=start, minutes={0: 45, 1: 45}),
    )
    plan = cheapest_run(run, rules=Rules(), wishes=Wishes())
    assert not isinstance(plan, Stuck)
    services.plan_set(learner=learner, plan=to_json(KeptYear((plan,))), reason="first", day=start)


def test_a_learning_day_of_which_nobody_said_anything_is_not_known(wren: Learner) -> None:
    plan_from(wren, MONDAY)

    assert known(wren) == {MONDAY: ("not known", ""), TUESDAY: ("not known", "")}


def test_a_learning_day_still_to_come_is_not_listed(wren: Learner) -> None:
    plan_from(wren, MONDAY)

    assert set(known(wren, today=MONDAY)) == {MONDAY}


def test_a_day_without_a_plan_and_without_a_word_is_not_listed(wren: Learner) -> None:
    assert known(wren) == {}


def test_a_lesson_done_makes_a_day_there_and_one_put_off_does_not(wren: Learner) -> None:
    taught(wren, MONDAY)
    taught(wren, TUESDAY)
    taught(wren, TUESDAY, "not today")

    assert known(wren) == {MONDAY: ("there", "taught")}


def test_what_a_person_says_of_a_day_goes_before_all_else_until_it_is_taken_back(wren: Learner) -> None:
    taught(wren, MONDAY)

    day_said(learner=wren, day=MONDAY, known="not there", minutes=None, today=TUESDAY)
    before = known(wren)
    day_said(learner=wren, day=MONDAY, known="not said", minutes=None, today=TUESDAY)

    assert before == {MONDAY: ("not there", "said")}
    assert known(wren) == {MONDAY: ("there", "taught")}


def test_a_sheet_marked_on_sunday_tells_of_the_day_it_was_printed_for(
    wren: Learner, print_day: Callable[..., PrintRow], marks: tuple[ItemMark, ...]
) -> None:
    print_day(wren, day=TUESDAY)
    services.sheet_mark(sheet=SheetRow.objects.get(), items=marks, day=SUNDAY)

    assert known(wren) == {TUESDAY: ("there", "marked")}


def test_a_sheet_printed_for_later_tells_of_the_day_on_which_it_was_marked(
    wren: Learner, print_day: Callable[..., PrintRow], marks: tuple[ItemMark, ...]
) -> None:
    print_day(wren, day=SUNDAY)
    services.sheet_mark(sheet=SheetRow.objects.get(), items=marks, day=MONDAY)

    assert known(wren) == {MONDAY: ("there", "marked")}


def test_five_days_lost_are_five_days_not_there(wren: Learner) -> None:
    """JOB (g) 8: attendance shows five absent days."""
    for n in range(5):
        services.attendance_set(learner=wren, present=False, day=MONDAY + timedelta(days=n))

    found = totals(attendance(wren, first=MONDAY, last=SUNDAY, today=SUNDAY))

    assert (found.there, found.not_there, found.not_known) == (0, 5, 0)


def test_minutes_are_only_those_that_somebody_named(wren: Learner) -> None:
    day_said(learner=wren, day=MONDAY, known="there", minutes=40, today=SUNDAY)
    day_said(learner=wren, day=TUESDAY, known="there", minutes=None, today=SUNDAY)
    subjects.subject_add(learner=wren, day=MONDAY, title="Piano", minutes=20)
    subjects.subject_add(learner=wren, day=TUESDAY, title="Piano", minutes=25)
    subjects.subject_add(learner=wren, day=TUESDAY, title="Reading", minutes=30, done=False)

    found = totals(attendance(wren, first=MONDAY, last=SUNDAY, today=SUNDAY))

    assert found.minutes == {COURSE: (40, 1), "Piano": (45, 2)}


def test_another_subject_done_makes_a_day_there_and_a_line_taken_away_does_not(wren: Learner) -> None:
    line = subjects.subject_add(learner=wren, day=MONDAY, title="Canal walk")
    with_it = known(wren)

    subjects.subject_away(learner=wren, line=line.line_id)
    without = known(wren)
    subjects.subject_away(learner=wren, line=line.line_id, back=True)

    assert with_it == known(wren) == {MONDAY: ("there", "another subject")}
    assert without == {}


@pytest.mark.parametrize(
    ("day", "said", "minutes", "where"),
    [
        (SUNDAY, "there", None, "day"),
        (MONDAY, "there", 1441, "minutes"),
        (MONDAY, "perhaps", None, "day"),
    ],
)
def test_a_day_to_come_and_minutes_beyond_a_day_are_refused(
    wren: Learner, day: date, said: str, minutes: int | None, where: str
) -> None:
    with pytest.raises(BadInput) as refused:
        day_said(learner=wren, day=day, known=said, minutes=minutes, today=TUESDAY)

    assert [problem.where for problem in refused.value.problems] == [where]
    assert known(wren) == {}


def test_a_subject_without_a_title_and_with_signs_no_typeface_has_is_refused_at_once(wren: Learner) -> None:
    with pytest.raises(BadInput) as refused:
        subjects.subject_add(learner=wren, day=MONDAY, title="\U0001f4d6", minutes=-1)

    assert [problem.where for problem in refused.value.problems] == ["subject", "minutes"]
