"""What a marked chapter test says: marks by skill, and what to do next, with its evidence and its date."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta
from typing import TYPE_CHECKING, Final

from dayleaf.learner.chapter import after_test
from dayleaf.learner.words import WEEKDAYS, count_word, seen_sentences
from dayleaf.packets.blueprint import day_of_test
from dayleaf.packets.forms import LETTERS
from dayleaf.plan.year import LessonNotPlanned
from dayleaf.records import selectors
from dayleaf.records.beliefs import year_plan
from dayleaf.records.courses import course_of, course_with
from dayleaf.records.seen import seen_in

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from dayleaf.core.ids import SheetId, SkillId
    from dayleaf.course.model import Course, Day
    from dayleaf.learner.chapter import SkillResult, TestAdvice
    from dayleaf.records.models import Household, Learner, SheetRow

TENTH_DAYS: Final = frozenset({"project", "spare", "look-back-all"})
A_WEEK: Final = timedelta(days=7)


@dataclass(frozen=True, slots=True)
class TestResult:
    """What the newest marked form of a chapter's test says.

    `waiting` are sheets of it that nobody has marked yet: until they are, the advice may change. `when` is the day on
    which the advice begins, None where the plan has none. `sentences` say it to the parent.
    """

    test: Day
    form: str
    marked_on: date
    advice: TestAdvice
    waiting: tuple[SheetId, ...]
    when: date | None
    sentences: tuple[str, ...]

    @property
    def open_skills(self) -> tuple[SkillId, ...]:
        """Skills that do not hold yet, the one with the smallest share right first."""
        return tuple(one.skill for one in sorted(_open(self.advice), key=lambda one: one.right / one.of))


def test_result(
    home: Household,
    learner: Learner,
    chapter: int,
    *,
    course: Course | None = None,  # noqa: PT028 -- no test function: it reads a chapter test's result
) -> TestResult | None:
    """The result of a chapter's test for a child of this household; None where no sheet of it is marked.

    Left out, `course` is the one that the child is on.

    Raises:
        NotATest: the chapter has no test.
        NoPlan: the child has no plan.
    """
    course = course or course_of(learner)
    test = day_of_test(course, chapter)
    for sheets in _forms_printed(learner, test):
        markings = [(sheet, selectors.marking_of(sheet)) for sheet in sheets if sheet.household_id == home.id]
        marked = [marking for _, marking in markings if marking is not None]
        if not marked:
            continue
        advice = after_test(course, chapter, [item for marking in marked for item in marking.items])
        day = max(marking.head.day for marking in marked)
        form = selectors.spec_of(sheets[0]).form or LETTERS[0]
        waiting = tuple(selectors.spec_of(sheet).id for sheet, marking in markings if marking is None)
        when = _when(learner, course, test, advice, day)
        seen = seen_in(learner, marked)
        habit = seen_sentences(seen) if seen.seen == "habit" else ""
        said = _sentences(course, test, advice, form=form, habit=habit, waiting=waiting, when=when)
        return TestResult(test, form, day, advice, waiting, when, said)
    return None


def named_by_test(learner: Learner, day: Day) -> tuple[SkillId, ...]:
    """The skills that a tenth day fixes up: those that the chapter's test left open; none on any other day."""
    if day.kind not in TENTH_DAYS:
        return ()
    course = course_with(learner.household, day.id)
    if not any(one.chapter == day.chapter and one.kind == "test" for one in course.days):
        return ()
    result = test_result(learner.household, learner, day.chapter, course=course)
    return result.open_skills if result else ()


def form_printed(sheet: SheetRow | None) -> str:
    """The letter of the form that a test's sheet belongs to."""
    return (selectors.spec_of(sheet).form if sheet else "") or LETTERS[0]


def _forms_printed(learner: Learner, test: Day) -> list[tuple[SheetRow, ...]]:
    """The sheets of each print of the test, the newest print first."""
    prints: dict[int, list[SheetRow]] = {}
    for sheet in selectors.sheets_of(learner, test.id):
        prints.setdefault(sheet.printed.seq, []).append(sheet)
    return [tuple(sorted(prints[seq], key=lambda one: one.place)) for seq in sorted(prints, reverse=True)]


def _open(advice: TestAdvice) -> list[SkillResult]:
    return [one for one in advice.results if not one.holds]


def _when(learner: Learner, course: Course, test: Day, advice: TestAdvice, marked: date) -> date | None:
    """The day on which to do it: the tenth day, the first learning day a week on, or the next one."""
    plan = year_plan(learner)
    if advice.step == "fix up":
        try:
            tenth = plan.date_of(course.days[test.number].id)
        except (LessonNotPlanned, IndexError):
            tenth = marked
        if tenth > marked:
            return tenth
    after = marked + A_WEEK - timedelta(days=1) if advice.step == "form B" else marked
    following = plan.next_days(after, 1)
    return following[0].day if following else None


def _sentences(
    course: Course,
    test: Day,
    advice: TestAdvice,
    *,
    form: str,
    habit: str,
    waiting: Sequence[SheetId],
    when: date | None,
) -> tuple[str, ...]:
    titles = [course.skills[one.skill].title for one in _open(advice)]
    names = "; ".join(f"“{title}”" for title in titles)
    on = f"on {_day_said(when)}" if when else "on your next learning day"
    if advice.step == "go on":
        do = f"Go on with the next lesson {on}; all of this comes back on back sides."
    elif advice.step == "fix up":
        do = f"Fix up {advice.minutes} minutes {on}: {names}."
    elif advice.step == "form B":
        following = LETTERS[min(LETTERS.index(form) + 1, len(LETTERS) - 1)]
        do = f"Work once more on {names}, then try form {following} next week, {on}."
    else:
        first = next((day for day in course.days if day.id == advice.from_lesson), test)
        do = f"Teach again from day {first.number} ({first.title}) {on}: {names}."
    head = " ".join([f"Chapter {test.chapter} test, form {form}. {advice.evidence}", *([habit] if habit else [])])
    if not waiting:
        return head, do, advice.change
    many = f"{count_word(len(waiting)).capitalize()} {'sheet is' if len(waiting) == 1 else 'sheets are'}"
    return head, f"{many} not marked yet ({', '.join(waiting)}); that may change what follows.", do, advice.change


def _day_said(day: date) -> str:
    return f"{WEEKDAYS[day.weekday()]} {day:%-d %B}"
