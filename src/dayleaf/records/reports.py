"""What a child's records say of a stretch of time, gathered for a page, a printed report or the archive."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from dayleaf.learner.words import count_word, known_sentence
from dayleaf.packets.reports import (
    Ahead,
    Attendance,
    CodeLine,
    DayLine,
    GradeLine,
    Grades,
    Progress,
    Report,
    SamplePage,
    SkillLine,
    Span,
    day_said,
)
from dayleaf.records import selectors
from dayleaf.records.attendance import attendance, totals
from dayleaf.records.beliefs import beliefs_kept, beliefs_now
from dayleaf.records.courses import course_of
from dayleaf.records.gradebook import grade, said
from dayleaf.records.grades import entries_of, scale_of
from dayleaf.records.samples import candidates_of, choose_samples, picture_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from datetime import date

    from dayleaf.course.model import Course
    from dayleaf.learner.belief import Beliefs
    from dayleaf.records.attendance import DayThere
    from dayleaf.records.gradebook import Entry, Scale
    from dayleaf.records.models import Learner
    from dayleaf.records.samples import Sample

ORDER: Final = ("firm", "rusty", "shaky", "new")
NEXT: Final = ("rusty", "shaky", "new")
"""What next year begins with: the words that ask for another look."""
NAMED: Final = 25
"""More skills than this are counted, not named."""


def report_of(learner: Learner, *, first: date, last: date, today: date, pictures: bool = True) -> Report:
    """Everything that the records say from `first` to `last`; skills as they are believed `today`.

    Without `pictures` no sample is drawn.
    """
    course = course_of(learner)
    beliefs = beliefs_now(learner, course, upto=today)
    samples = choose_samples(candidates_of(learner, course, first=first, last=last))
    return Report(
        span=Span(learner.name, first, last, today),
        attendance=attendance_said(attendance(learner, first=first, last=last, today=today)),
        progress=progress_of(learner, course, beliefs, today=today),
        grades=grades_of(scale_of(learner), entries_of(learner, course, first=first, last=last)),
        samples=tuple(sample_page(learner, course, one, pictures=pictures) for one in samples),
        ahead=ahead_of(course, beliefs, today=today),
    )


def attendance_said(days: Iterable[DayThere]) -> Attendance:
    """The days and their sums, in words."""
    days = tuple(days)
    found = totals(days)
    return Attendance(
        days=tuple(
            DayLine(one.day, one.known, one.because, one.minutes, _others(one)) for one in days
        ),
        there=found.there,
        not_there=found.not_there,
        not_known=found.not_known,
        minutes=tuple((title, total, many) for title, (total, many) in found.minutes.items()),
    )


def progress_kept(learner: Learner, course: Course, *, today: date) -> Progress | None:
    """The progress from what was worked out before; None where something was written since. Only reads."""
    beliefs = beliefs_kept(learner, course)
    return None if beliefs is None else progress_of(learner, course, beliefs, today=today)


def progress_of(learner: Learner, course: Course, beliefs: Beliefs, *, today: date) -> Progress:
    """Skills in words with their evidence by strand, and the codes that those met so far belong to."""
    known = {skill: one for skill, one in beliefs.known_all(today).items() if one.word != "not yet"}
    strands: dict[str, list[SkillLine]] = {}
    codes: dict[str, list[tuple[str, str, str]]] = {}
    for skill, one in sorted(known.items(), key=lambda pair: (ORDER.index(pair[1].word), course.skills[pair[0]].title)):
        about = course.skills[skill]
        line = SkillLine(about.title, one.word, known_sentence(one, day=today))
        strands.setdefault(about.strand, []).append(line)
        for code in about.codes:
            codes.setdefault(code, []).append((about.title, one.word, about.fit))
    reached = {code for skill in course.skills.values() for code in skill.codes}
    done = {lesson for (lesson, _), event in selectors.taught_of(learner).items() if event.how_far == "done"}
    return Progress(
        strands=tuple((title, tuple(strands[code])) for code, title in course.strands.items() if code in strands),
        codes=tuple(
            CodeLine(code, course.standards[code].paraphrase if code in course.standards else "", tuple(codes[code]))
            for code in sorted(codes)
        ),
        codes_in_all=len(reached),
        not_yet=len(course.skills) - len(known),
        lessons_done=len(done & {day.id for day in course.days}),
        lessons=len(course.days),
    )


def grades_of(scale: Scale, entries: Sequence[Entry]) -> Grades | None:
    """The grade book in words; None where no grades are kept."""
    if scale.kind == "none":
        return None
    found = grade(scale, entries)
    lines = tuple(
        GradeLine(one.day, one.title, one.right, one.of, said(scale, one.share), _note(scale, one, found.dropped))
        for one in entries
        if scale.weight(one.kind)
    )
    return Grades(found.said, how_counted(scale), lines)


def how_counted(scale: Scale) -> str:
    """How a scale counts, in sentences."""
    kinds = [
        f"{name} weigh {weight}" + (f", the lowest {count_word(drop)} of them dropped" if drop else "")
        for name, weight, drop in (
            ("Tests", scale.test, scale.drop_test),
            ("sheets", scale.sheet, scale.drop_sheet),
        )
        if weight
    ]
    steps = "; ".join(f"{word} from {least} %" for least, word in scale.steps)
    counted = f"{'; '.join(kinds)}. Within a kind each entry counts the same. "
    counted = counted[0].upper() + counted[1:]
    with_steps = f"{steps}. " if scale.kind in {"letters", "words"} else ""
    return f"{counted}{with_steps}What was done together or with help is not counted. The scale is the family’s own."


def sample_page(learner: Learner, course: Course, sample: Sample, *, pictures: bool) -> SamplePage:
    """A sample with its heading, facts and picture."""
    one = sample.candidate
    found = picture_of(learner, one) if pictures else None
    svg, size = found or ("", (0.0, 0.0))
    strand = course.strands.get(one.strand, one.strand)
    title = next((about.title for name, about in course.skills.items() if name == one.skill), one.skill)
    shown = "as the photo shows it" if one.photo else "the sheet as it was printed; there is no photo of it"
    facts = f"{day_said(one.day)} · {title}: {one.right} of {one.of} right · sheet {one.sheet}, {shown}."
    return SamplePage(strand if sample.place == "once" else f"{strand}, {sample.place}", facts, svg, size)


def ahead_of(course: Course, beliefs: Beliefs, *, today: date) -> Ahead:
    """What next year starts from: skills that ask for another look, and those the course still has."""
    known = beliefs.known_all(today)
    groups = []
    for word in NEXT:
        titles = sorted(course.skills[skill].title for skill, one in known.items() if one.word == word)
        if titles:
            groups.append((word, tuple(titles)))
    core = [skill for day in course.days for skill in day.new_skills]
    left = [course.skills[one].title for one in dict.fromkeys(core) if known[one].word == "not yet"]
    if 0 < len(left) <= NAMED:
        groups.append(("not yet", tuple(left)))
    elif left:
        groups.append(("not yet", (f"{len(left)} skills of this course; its next lesson opens the first of them",)))
    firm = sum(one.word == "firm" for one in known.values())
    first = f"{firm} skills are firm and need no new start."
    second = (
        "Begin next year with those below, a few minutes a day, before anything new stands on them."
        if groups
        else "Nothing of this course asks for another look."
    )
    third = "A placement before the first day says it anew: a summer changes much."
    return Ahead(tuple(groups), (first, second, third))


def _others(one: DayThere) -> str:
    return "; ".join(
        row.title + (f" {row.minutes} min" if row.minutes is not None else "") + ("" if row.done else " (not done)")
        for row in one.subjects
    )


def _note(scale: Scale, one: Entry, dropped: Sequence[str]) -> str:
    if one.id in scale.left_out:
        return "left out"
    return "dropped" if one.id in dropped else ""
