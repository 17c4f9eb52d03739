"""A child's chapter tests for the pages: when each is, which forms are on paper, what they said, what was decided."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from typing import TYPE_CHECKING, Any, Final

from dayleaf.core.errors import BadInput, Problem
from dayleaf.core.ids import SkillId
from dayleaf.course.load import grade2
from dayleaf.events.model import Marked, Override
from dayleaf.learner.belief import MODEL_VERSION
from dayleaf.learner.chapter import SkillResult, TestAdvice
from dayleaf.marking.mark import score
from dayleaf.packets.blueprint import blueprint_of, day_of_test
from dayleaf.packets.forms import LETTERS
from dayleaf.records import selectors, services
from dayleaf.records.beliefs import year_plan
from dayleaf.records.courses import course_of
from dayleaf.records.results import TENTH_DAYS, TestResult, form_printed, test_result

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from dayleaf.core.ids import LessonId
    from dayleaf.course.model import Course, Day
    from dayleaf.packets.blueprint import Blueprint
    from dayleaf.records.models import Learner, SheetRow

CHOICES: Final = ("as advised", "go on", "fix up", "next form", "teach again")
"""What the adult may decide after a test; the first one takes back what was decided otherwise."""


@dataclass(frozen=True, slots=True)
class TestAhead:
    """One test in the list: its day, the date it is planned for, and what is known of it so far.

    `right` and `of` are those of the newest marked form, None where none is marked.
    """

    day: Day
    title: str
    on: date | None
    printed: bool
    right: int | None
    of: int | None


@dataclass(frozen=True, slots=True)
class FormOnPaper:
    """One form as it was printed: its sheets, and which of them wait for marks."""

    letter: str
    print_id: str
    day: date
    sheets: tuple[str, ...]
    waiting: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ChapterTest:
    """Everything about one chapter's test for one child. `tenth` is the day after it, None where there is none.

    `decided` is what the adult chose instead of what was advised, "" where nothing else was chosen.
    """

    day: Day
    on: date | None
    blueprint: Blueprint
    forms: tuple[FormOnPaper, ...]
    result: TestResult | None
    tenth: Day | None
    decided: str

    @property
    def next_form(self) -> str:
        """The letter of the first form that is not printed yet; the last one where all are."""
        gone = {form.letter for form in self.forms}
        return next((letter for letter in LETTERS if letter not in gone), LETTERS[-1])


def tests_of(learner: Learner) -> tuple[TestAhead, ...]:
    """Every test of the child's course, in order."""
    course = course_of(learner)
    titles = {chapter.number: chapter.title for chapter in course.chapters}
    planned = {one.lesson: one.day for one in year_plan(learner).placed}
    days = [day for day in course.days if day.kind == "test"]
    printed: dict[LessonId, int] = {}
    sheets: dict[str, tuple[LessonId, int]] = {}
    for sheet in selectors.sheets_of_lessons(learner, [day.id for day in days]):
        lesson = next(day.id for day in days if day.id == sheet.lesson)
        printed[lesson] = max(printed.get(lesson, 0), sheet.printed.seq)
        sheets[sheet.sheet_id] = (lesson, sheet.printed.seq)
    marks = _newest_marks(learner, sheets)
    return tuple(
        TestAhead(day, titles[day.chapter], planned.get(day.id), day.id in printed, *marks.get(day.id, (None, None)))
        for day in days
    )


def chapter_test(learner: Learner, chapter: int) -> ChapterTest:
    """One test with everything its page says.

    Raises:
        NotATest: the chapter has no test.
        NoPlan: the child has no plan.
    """
    course = course_of(learner)
    day = day_of_test(course, chapter)
    planned = {one.lesson: one.day for one in year_plan(learner).placed}
    day_sheets = selectors.sheets_of(learner, day.id)
    marked = selectors.sheets_marked(learner, [sheet.sheet_id for sheet in day_sheets])
    after = course.days[day.number] if day.number < len(course.days) else None
    return ChapterTest(
        day=day,
        on=planned.get(day.id),
        blueprint=_blueprint(day.id) if course is grade2() else blueprint_of(course, day),
        forms=tuple(_forms(day_sheets, marked)),
        result=_result(learner, course, day, day_sheets, marked) if marked else None,
        tenth=after if after is not None and after.kind in TENTH_DAYS else None,
        decided=_decided(learner, day),
    )


def test_decide(*, learner: Learner, chapter: int, chosen: str, day: date) -> None:
    """Keep what the adult decides after a test. Raises `BadInput` for anything but `CHOICES`, or without a result."""
    test = chapter_test(learner, chapter)
    if chosen not in CHOICES:
        raise BadInput([Problem("decision", f"{chosen!r} is none of {', '.join(CHOICES)}")])
    if test.result is None:
        raise BadInput([Problem("decision", "no form of this test is marked yet; mark it first")])
    advised = test.result.advice.step
    if chosen == (test.decided or CHOICES[0]):
        return
    services.choice_keep(learner=learner, lesson=test.day.id, advised=advised, chosen=chosen, day=day)


def _forms(day_sheets: Sequence[SheetRow], marked: Mapping[str, Marked]) -> Iterator[FormOnPaper]:
    """The forms on paper, each as printed last, in the order of their letters."""
    prints: dict[int, list[SheetRow]] = {}
    for sheet in day_sheets:
        prints.setdefault(sheet.printed.seq, []).append(sheet)
    newest: dict[str, list[SheetRow]] = {}
    for seq in sorted(prints):
        newest[form_printed(prints[seq][0])] = sorted(prints[seq], key=lambda one: one.place)
    for letter, sheets in sorted(newest.items()):
        ids = tuple(sheet.sheet_id for sheet in sheets)
        waiting = tuple(sheet for sheet in ids if sheet not in marked)
        yield FormOnPaper(letter, sheets[0].printed.print_id, sheets[0].printed.day, ids, waiting)


def _result(
    learner: Learner, course: Course, day: Day, sheets: Sequence[SheetRow], marked: Mapping[str, Marked]
) -> TestResult | None:
    """What the newest marked form says, worked out once for these marks and this plan: a page only reads it."""
    version = selectors.plan_version_or_none(learner)
    key = [
        version.version_id if version else "",
        *(f"{sheet.sheet_id} {marked[sheet.sheet_id].head.id if sheet.sheet_id in marked else ''}" for sheet in sheets),
    ]
    kind = f"result of {day.id}"
    kept, _last = selectors.cached_once(learner, kind, MODEL_VERSION)
    if kept is not None and kept["key"] == key:
        return _result_from(day, kept["result"])
    result = test_result(learner.household, learner, day.chapter, course=course)
    if result is not None:
        payload = {"key": key, "result": _result_data(result)}
        services.cache_keep(learner=learner, kind=kind, model_version=MODEL_VERSION, payload=payload)
    return result


def _result_data(result: TestResult) -> dict[str, Any]:
    advice = result.advice
    return {
        "form": result.form,
        "marked_on": result.marked_on.isoformat(),
        "step": advice.step,
        "results": [[one.skill, one.right, one.of] for one in advice.results],
        "minutes": advice.minutes,
        "from_lesson": advice.from_lesson,
        "evidence": advice.evidence,
        "change": advice.change,
        "waiting": list(result.waiting),
        "when": result.when.isoformat() if result.when else None,
        "sentences": list(result.sentences),
    }


def _result_from(day: Day, data: Mapping[str, Any]) -> TestResult:
    advice = TestAdvice(
        step=data["step"],
        results=tuple(SkillResult(SkillId(skill), right, of) for skill, right, of in data["results"]),
        minutes=data["minutes"],
        from_lesson=data["from_lesson"],
        evidence=data["evidence"],
        change=data["change"],
    )
    when = date.fromisoformat(data["when"]) if data["when"] else None
    marked_on, waiting = date.fromisoformat(data["marked_on"]), tuple(data["waiting"])
    return TestResult(day, data["form"], marked_on, advice, waiting, when, tuple(data["sentences"]))


def _newest_marks(learner: Learner, sheets: Mapping[str, tuple[LessonId, int]]) -> dict[LessonId, tuple[int, int]]:
    """(right, of) of the newest print of each test that has marks."""
    by_print: dict[tuple[LessonId, int], list[Marked]] = {}
    for sheet, marked in selectors.sheets_marked(learner, list(sheets)).items():
        by_print.setdefault(sheets[sheet], []).append(marked)
    found: dict[LessonId, tuple[int, int]] = {}
    for lesson, seq in sorted(by_print):
        found[lesson] = score(item for marked in by_print[lesson, seq] for item in marked.items)
    return found


def _decided(learner: Learner, day: Day) -> str:
    kept: Any = [one for one in selectors.events_of_lesson(learner, day.id, Override) if isinstance(one, Override)]
    return "" if not kept or kept[-1].chosen == CHOICES[0] else str(kept[-1].chosen)


@lru_cache(maxsize=32)
def _blueprint(lesson: LessonId) -> Blueprint:
    """The blueprint of a test of our own course: it is worked out from the course alone, so once is enough."""
    course = grade2()
    return blueprint_of(course, next(day for day in course.days if day.id == lesson))
