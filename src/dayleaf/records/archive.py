"""The archive of a child's year: reports, tables and plain data that open without Dayleaf in ten years, in one zip."""

from __future__ import annotations

import hashlib
import json
import os
import tempfile
import zipfile
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from django.db.models import Q

import dayleaf
from dayleaf.events.codec import from_data, to_data
from dayleaf.events.model import Noted
from dayleaf.packets.reports import RULES, ReportName, print_report
from dayleaf.records import feeds, selectors
from dayleaf.records.backup import CannotWrite, FileIsThere
from dayleaf.records.courses import course_of
from dayleaf.records.gradebook import grade
from dayleaf.records.grades import entries_of, scale_of
from dayleaf.records.models import EventRow
from dayleaf.records.reports import report_of
from dayleaf.records.span import markings_of
from dayleaf.records.subjects import subjects_of
from dayleaf.records.tables import csv_of

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import date

    from dayleaf.course.model import Course
    from dayleaf.packets.reports import Report
    from dayleaf.records.models import Learner
    from dayleaf.sheets.model import Paper

FORMAT: Final = 1
REPORTS: Final[tuple[ReportName, ...]] = ("year", "attendance", "progress", "samples")
EPOCH: Final = (1980, 1, 1, 0, 0, 0)
"""The date of every member: the same records give the same archive, byte for byte."""
README: Final = """What this is: the mathematics records of {child}, {first} to {last}.

*.pdf         reports to read and print (PDF/A-2 by the typesetter's mode)
*.csv         tables for a spreadsheet (RFC 4180, UTF-8; an apostrophe stands before a text that would be a formula)
records.json  everything in one file; archive.schema.json says what each field means
lessons.ics   the lessons as calendar entries (RFC 5545)
SHA256SUMS    a checksum of every other file

{rules}
"""


@dataclass(frozen=True, slots=True)
class Archive:
    """The files of an archive by name, in order."""

    files: Mapping[str, bytes]

    def zipped(self) -> bytes:
        """All of them in one zip file; the same files give the same bytes."""
        out = BytesIO()
        with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as pack:
            for name, data in self.files.items():
                pack.writestr(zipfile.ZipInfo(name, EPOCH), data, zipfile.ZIP_DEFLATED)
        return out.getvalue()


def archive_of(learner: Learner, *, first: date, last: date, today: date) -> Archive:
    """Reports, tables, calendar and data of a child from `first` to `last`."""
    course, paper = course_of(learner), selectors.look_of(learner).paper
    report = report_of(learner, first=first, last=last, today=today)
    files = {
        "README.txt": README.format(child=learner.name, first=first, last=last, rules=RULES).encode(),
        **_reports(report, paper),
        **tables_of(learner, report),
        "lessons.ics": feeds.calendar_of(learner.household, (learner,)),
        "records.json": _json(data_of(learner, course, report)),
        "archive.schema.json": schema(),
    }
    sums = "".join(f"{hashlib.sha256(data).hexdigest()}  {name}\n" for name, data in files.items())
    return Archive({**files, "SHA256SUMS": sums.encode()})


def schema() -> bytes:
    """The JSON Schema (2020-12) of `records.json`."""
    return (Path(str(__file__)).parent.parent / "content" / "archive.schema.json").read_bytes()


def tables_of(learner: Learner, report: Report) -> dict[str, bytes]:
    """The CSV tables by file name."""
    span = report.span
    marks = [
        (str(one.head.day), str(one.lesson), str(one.sheet), item.n, str(item.skill), item.state, item.answer,
         "yes" if item.helped else "no")
        for one in markings_of(learner, first=span.first, last=span.last)
        for item in one.items
    ]  # fmt: skip
    tables = {
        "attendance.csv": csv_of(
            ("day", "known", "known from", "minutes", "other subjects"),
            [(str(one.day), one.known, one.because, one.minutes, one.others) for one in report.attendance.days],
        ),
        "subjects.csv": csv_of(
            ("day", "subject", "minutes", "done"),
            [
                (str(row.day), row.title, row.minutes, "yes" if row.done else "no")
                for row in subjects_of(learner, first=span.first, last=span.last)
            ],
        ),
        "skills.csv": csv_of(
            ("strand", "skill", "word", "evidence"),
            [
                (strand, one.title, one.word, one.evidence)
                for strand, lines in report.progress.strands
                for one in lines
            ],
        ),
        "codes.csv": csv_of(
            ("code", "asks", "skill", "word", "fit"),
            [(one.code, one.asks, *skill) for one in report.progress.codes for skill in one.skills],
        ),
        "marks.csv": csv_of(("day", "lesson", "sheet", "item", "skill", "mark", "answer", "helped"), marks),
        "notes.csv": csv_of(
            ("day", "lesson", "note"),
            [(str(one.head.day), one.lesson, one.text) for one in _notes(learner, span.first, span.last)],
        ),
    }
    if report.grades is not None:
        tables["grades.csv"] = csv_of(
            ("day", "what", "right", "of", "grade", "note"),
            [(str(one.day), one.title, one.right, one.of, one.said, one.note) for one in report.grades.lines],
        )
    return tables


def data_of(learner: Learner, course: Course, report: Report) -> dict[str, Any]:
    """Everything as plain data (`content/archive.schema.json`)."""
    span = report.span
    events = [to_data(one) for one in selectors.events_of(learner) if span.first <= one.head.day <= span.last]
    scale = scale_of(learner)
    graded = grade(scale, entries_of(learner, course, first=span.first, last=span.last))
    return {
        "format": FORMAT,
        "made_by": f"dayleaf {dayleaf.__version__}",
        "made_on": str(span.made_on),
        "says": RULES,
        "child": {"name": learner.name, "born": f"{learner.born:%Y-%m}" if learner.born else None},
        "course": {"id": str(course.id), "title": course.title},
        "from": str(span.first),
        "to": str(span.last),
        "attendance": [
            {"day": str(one.day), "known": one.known, "from": one.because, "minutes": one.minutes}
            for one in report.attendance.days
        ],
        "subjects": [
            {"day": str(row.day), "title": row.title, "minutes": row.minutes, "done": row.done}
            for row in subjects_of(learner, first=span.first, last=span.last)
        ],
        "skills": [
            {"strand": strand, "title": one.title, "word": one.word, "evidence": one.evidence}
            for strand, lines in report.progress.strands
            for one in lines
        ],
        "codes": [
            {
                "code": one.code,
                "asks": one.asks,
                "skills": [{"title": title, "word": word, "fit": fit} for title, word, fit in one.skills],
            }
            for one in report.progress.codes
        ],
        "grade": None
        if report.grades is None
        else {
            "scale": scale.kind,
            "said": graded.said,
            "share": None if graded.share is None else [graded.share.numerator, graded.share.denominator],
            "how": report.grades.how,
        },
        "next_year": {word: list(titles) for word, titles in report.ahead.groups},
        "events": events,
    }


def write_new(file: Path, data: bytes) -> None:
    """Write a new file whole or not at all; never over another one.

    Raises:
        FileIsThere: there is one of that name.
        CannotWrite: the folder is not there, is read-only or full.
    """
    if file.exists():
        raise FileIsThere(file)
    scratch = None
    try:
        handle, name = tempfile.mkstemp(prefix=".dayleaf-", dir=file.resolve().parent)
        scratch = Path(name)
        with os.fdopen(handle, "wb") as stream:
            stream.write(data)
            stream.flush()
            os.fsync(stream.fileno())
        if file.exists():
            raise FileIsThere(file)
        scratch.rename(file)
    except OSError as error:
        raise CannotWrite(file, error.strerror or "no reason was given") from error
    finally:
        if scratch is not None:
            scratch.unlink(missing_ok=True)


def _reports(report: Report, paper: Paper) -> dict[str, bytes]:
    names: tuple[ReportName, ...] = (*REPORTS, "grades") if report.grades is not None else REPORTS
    return {f"{name}.pdf": print_report(report, name, paper=paper) for name in names}


def _notes(learner: Learner, first: date, last: date) -> list[Noted]:
    """The adults' own words on this child's days, and those on a lesson or day of the whole household."""
    rows = EventRow.objects.filter(Q(learner=learner) | Q(learner=None), household_id=learner.household_id)
    rows = rows.filter(kind="noted", day__gte=first, day__lte=last).order_by("seq")
    notes = (from_data(json.loads(payload)) for payload in rows.values_list("payload", flat=True))
    return [one for one in notes if isinstance(one, Noted)]


def _json(data: object) -> bytes:
    return (json.dumps(data, ensure_ascii=False, indent=1, sort_keys=True) + "\n").encode()
