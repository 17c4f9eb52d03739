"""Reports of a child's year on paper: attendance, progress, grades, work samples, and all of them as the year's end."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal

from dayleaf.sheets.book import Block, Book, Drawing, Heading, Paragraph, Rows, Table, typeset_book

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from dayleaf.sheets.model import Paper

ReportName = Literal["attendance", "progress", "grades", "samples", "year"]
RULES: Final = "These are your own records. Rules differ from place to place; check yours."
UNPROVED: Final = "The words are worked out from the marks kept here; they are not validated on children yet."
MOST_SIDES: Final = 200
SAMPLE_MM: Final = 152.0
SAMPLE_HIGH: Final = 200.0
FIT: Final = {"exact": "as the code says", "part": "a part of it", "beyond": "and beyond it", "none": "near it"}


@dataclass(frozen=True, slots=True)
class Span:
    """Whose report it is, and from which day to which; `made_on` is the day on which it was made."""

    child: str
    first: date
    last: date
    made_on: date


@dataclass(frozen=True, slots=True)
class DayLine:
    """A day of the attendance page: what is known, from what, minutes if they were named, other subjects."""

    day: date
    known: str
    because: str
    minutes: int | None
    others: str


@dataclass(frozen=True, slots=True)
class Attendance:
    """The days, and sums: days there, not there, not known; (subject, minutes named, on how many days)."""

    days: tuple[DayLine, ...]
    there: int
    not_there: int
    not_known: int
    minutes: tuple[tuple[str, int, int], ...]


@dataclass(frozen=True, slots=True)
class SkillLine:
    """A skill with its word and the sentence it stands on."""

    title: str
    word: str
    evidence: str


@dataclass(frozen=True, slots=True)
class CodeLine:
    """A code of a published standard, what it asks in our words, and the skills met so far that belong to it.

    `skills` are (title, word, fit).
    """

    code: str
    asks: str
    skills: tuple[tuple[str, str, str], ...]


@dataclass(frozen=True, slots=True)
class Progress:
    """Skills by strand, codes covered, and what is still to come: `codes_in_all` are those the course reaches."""

    strands: tuple[tuple[str, tuple[SkillLine, ...]], ...]
    codes: tuple[CodeLine, ...]
    codes_in_all: int
    not_yet: int
    lessons_done: int
    lessons: int


@dataclass(frozen=True, slots=True)
class GradeLine:
    """One entry of the grade book; `note` says if it was dropped or left out."""

    day: date
    title: str
    right: int
    of: int
    said: str
    note: str


@dataclass(frozen=True, slots=True)
class Grades:
    """The grade as the family's scale says it, how it was counted, and its entries."""

    said: str
    how: str
    lines: tuple[GradeLine, ...]


@dataclass(frozen=True, slots=True)
class SamplePage:
    """A work sample: its heading, its line of facts, and the picture; "" where there is none."""

    heading: str
    facts: str
    svg: str
    size_mm: tuple[float, float]


@dataclass(frozen=True, slots=True)
class Ahead:
    """What next year starts from: titles by word, and sentences."""

    groups: tuple[tuple[str, tuple[str, ...]], ...]
    sentences: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Report:
    """Everything that a child's records say of a span; None or () for what there is not."""

    span: Span
    attendance: Attendance
    progress: Progress
    grades: Grades | None
    samples: tuple[SamplePage, ...]
    ahead: Ahead


TITLES: Final[dict[ReportName, str]] = {
    "attendance": "Days of learning",
    "progress": "What was learned",
    "grades": "Grade book",
    "samples": "Work samples",
    "year": "The year",
}


def print_report(report: Report, name: ReportName, *, paper: Paper) -> bytes:
    """One report as a file that is meant to be kept (PDF/A-2 by the typesetter's mode)."""
    return typeset_book(book_of(report, name), paper=paper, most=MOST_SIDES)


def book_of(report: Report, name: ReportName) -> Book:
    """The same before it is set."""
    if name == "year":
        blocks = _whole_year(report)
    elif name == "attendance":
        blocks = attendance_blocks(report.attendance)
    elif name == "progress":
        blocks = progress_blocks(report.progress)
    elif name == "grades":
        blocks = grade_blocks(report.grades)
    else:
        blocks = sample_blocks(report.samples, first=True)
    span = report.span
    return Book(
        title=f"{TITLES[name]}: {span.child}",
        over="Mathematics at home",
        under=f"{day_said(span.first)} to {day_said(span.last)}",
        blocks=(*blocks, Paragraph(RULES, "aside")),
        foot=f"{span.child} · made {day_said(span.made_on)} · {RULES}",
        voice="report",
        made_on=span.made_on,
    )


def attendance_blocks(found: Attendance) -> tuple[Block, ...]:
    """A sentence, the months, the minutes, every day."""
    months: dict[str, list[str]] = {}
    for one in found.days:
        months.setdefault(f"{one.day:%B %Y}", []).append(one.known)
    by_month = tuple(
        (name, *(str(known.count(one)) for one in ("there", "not there", "not known")))
        for name, known in months.items()
    )
    minutes = tuple((title, hours_said(total), str(days)) for title, total, days in found.minutes)
    lines = tuple(
        (
            f"{one.day:%a} {day_said(one.day)}",
            one.known,
            one.because,
            "" if one.minutes is None else str(one.minutes),
            one.others,
        )
        for one in found.days
    )
    return (
        Paragraph(attendance_sentence(found), "lead"),
        Paragraph(
            "A day counts as there where somebody said so, a lesson was said to be done, a sheet was marked or another "
            "subject was done. Nothing is filled in for a day of which nothing is known."
        ),
        Table(("Month", "There", "Not there", "Not known"), by_month, (1, 0, 0, 0), right=(1, 2, 3)),
        *((Table(("Subject", "Time named", "On days"), minutes, (1, 0, 0), right=(1, 2)),) if minutes else ()),
        Heading("Every day"),
        Table(("Day", "", "Known from", "Minutes", "Other subjects"), lines, (0, 0, 0, 0, 1), right=(3,)),
    )


def attendance_sentence(found: Attendance) -> str:
    """How many days, in a sentence."""
    known = f"{_days(found.there)} there, {found.not_there} not there"
    return f"{known}; of {_days(found.not_known)} nothing is known." if found.not_known else f"{known}."


def progress_blocks(found: Progress) -> tuple[Block, ...]:
    """Skills in words with their evidence by strand, then the codes with how they fit."""
    met = sum(len(lines) for _, lines in found.strands)
    skills: list[Block] = [
        Paragraph(
            f"{met} skills met, {found.not_yet} still to come; {found.lessons_done} of {found.lessons} lessons done.",
            "lead",
        ),
        Paragraph(
            "*not yet*: not taught or asked here · *new*: taught, with little practice · *shaky*: practised, not sure "
            "yet · *firm*: likely right on the next try · *rusty*: was firm, and not seen for long. " + UNPROVED
        ),
    ]
    for title, lines in found.strands:
        skills += [
            Heading(title),
            Table(
                ("Skill", "", "Evidence"), tuple((one.title, one.word, one.evidence) for one in lines), (5, 0, 4)
            ),
        ]
    if found.codes:
        rows = tuple((one.code, _code_words(one)) for one in found.codes)
        skills += [
            Heading("Standard codes covered"),
            Paragraph(
                f"{len(found.codes)} of the {found.codes_in_all} codes that the course reaches. Codes are those of the "
                "published standards; what each asks is said in our own words."
            ),
            Rows(rows, ruled=True, label_mm=26),
        ]
    return tuple(skills)


def grade_blocks(found: Grades | None) -> tuple[Block, ...]:
    """The grade, how it was counted, the entries; one sentence where no grades are kept."""
    if found is None:
        return (Paragraph("No grades are kept."),)
    rows = tuple(
        (day_said(one.day), one.title, f"{one.right} of {one.of}", one.said, one.note) for one in found.lines
    )
    return (
        Heading(found.said or "Nothing counts yet"),
        Paragraph(found.how),
        *((Table(("Day", "What", "Right", "", ""), rows, (0, 1, 0, 0, 0)),) if rows else ()),
    )


def sample_blocks(samples: Sequence[SamplePage], *, first: bool) -> tuple[Block, ...]:
    """Each sample on a page of its own; `first` says that the first one follows the report's title."""
    if not samples:
        return (Paragraph("No sheet was printed and marked in this time, so there is nothing to show yet."),)
    blocks: list[Block] = []
    for n, one in enumerate(samples):
        blocks += [Heading(one.heading, top=n > 0 or not first), Paragraph(one.facts)]
        if one.svg:
            w, h = one.size_mm
            blocks.append(Drawing(one.svg, f"{one.heading}. {one.facts}", min(SAMPLE_MM, SAMPLE_HIGH * w / h)))
    return tuple(blocks)


def ahead_blocks(found: Ahead) -> tuple[Block, ...]:
    """What next year starts from."""
    groups = tuple((word, "; ".join(titles)) for word, titles in found.groups)
    return (*(Paragraph(one) for one in found.sentences), *((Rows(groups, ruled=True),) if groups else ()))


def hours_said(minutes: int) -> str:
    """Minutes as hours and minutes.

    >>> hours_said(135)
    '2 h 15 min'
    """
    hours, rest = divmod(minutes, 60)
    return f"{hours} h {rest} min" if hours else f"{rest} min"


def day_said(day: date) -> str:
    """A date in words, the same in every place.

    >>> from datetime import date
    >>> day_said(date(2027, 1, 12))
    '12 January 2027'
    """
    return f"{day.day} {day:%B %Y}"


def _whole_year(report: Report) -> tuple[Block, ...]:
    grades = (Heading(TITLES["grades"], top=True), *grade_blocks(report.grades)) if report.grades else ()
    return (
        *progress_blocks(report.progress),
        Heading("For next year", top=True),
        *ahead_blocks(report.ahead),
        *grades,
        Heading(TITLES["attendance"], top=True),
        *attendance_blocks(report.attendance),
        *sample_blocks(report.samples, first=False),
    )


def _code_words(one: CodeLine) -> str:
    skills = "; ".join(f"{title} ({word}, {FIT[fit]})" for title, word, fit in one.skills)
    return f"*{one.asks}*: {skills}" if one.asks else skills


def _days(n: int) -> str:
    return "1 day" if n == 1 else f"{n} days"
