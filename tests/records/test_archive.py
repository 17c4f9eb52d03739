"""An archive read back by others: Python's csv and hashlib, jsonschema, icalendar, pikepdf, pdfplumber."""

from __future__ import annotations

import csv
import hashlib
import json
import zipfile
from datetime import date, timedelta
from io import BytesIO, StringIO
from typing import TYPE_CHECKING

import icalendar
import pdfplumber
import pikepdf
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator  # type: ignore[import-untyped]  # it has no types

from dayleaf.core.ids import LessonId, SheetId, SkillId
from dayleaf.course.load import grade2
from dayleaf.packets.reports import RULES
from dayleaf.plan.codec import to_json
from dayleaf.plan.kept import KeptYear
from dayleaf.records import attendance, grades, people, services, subjects
from dayleaf.records.archive import archive_of, write_new
from dayleaf.records.backup import CannotWrite, FileIsThere
from dayleaf.records.demo import CHILDREN, plan_for
from dayleaf.records.gradebook import LETTERS, Scale
from dayleaf.records.models import SheetRow
from dayleaf.records.summer import dealt, print_summer
from dayleaf.records.tables import csv_of

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from dayleaf.events.model import ItemMark
    from dayleaf.records.models import Learner, PrintRow

TUESDAY = date(2027, 1, 12)
FORMULA = "=HYPERLINK(1)"


@pytest.fixture
def kept(wren: Learner, print_day: Callable[..., PrintRow], marks: tuple[ItemMark, ...]) -> Learner:
    """Wren with a plan, a marked sheet, a day said, a subject that looks like a formula, a note and grades."""
    plan = plan_for(grade2(), CHILDREN[0], today=TUESDAY)
    services.plan_set(learner=wren, plan=to_json(KeptYear((plan,))), reason="first", day=plan.first)
    print_day(wren)
    services.sheet_mark(sheet=SheetRow.objects.get(), items=marks, day=TUESDAY)
    services.day_taught(
        learner=wren, lesson=LessonId("day-084"), how_far="done", skills=[SkillId("sub-2digit-regroup")], day=TUESDAY
    )
    attendance.day_said(learner=wren, day=TUESDAY, known="there", minutes=45, today=TUESDAY)
    subjects.subject_add(learner=wren, day=TUESDAY, title=FORMULA, minutes=20)
    services.note_add(household=wren.household, learner=wren, text='“Ten” first,\nthen "ones"', day=TUESDAY)
    grades.scale_keep(learner=wren, scale=Scale("letters", LETTERS, test=1, sheet=1))
    return wren


def test_an_archive_opens_with_other_peoples_readers(kept: Learner) -> None:
    first = TUESDAY - timedelta(days=7)
    archive = archive_of(kept, first=first, last=TUESDAY, today=TUESDAY)
    again = archive_of(kept, first=first, last=TUESDAY, today=TUESDAY)

    assert archive.zipped() == again.zipped()
    with zipfile.ZipFile(BytesIO(archive.zipped())) as pack:
        assert pack.testzip() is None
        files = {name: pack.read(name) for name in pack.namelist()}
    for line in files["SHA256SUMS"].decode().splitlines():
        sha256, name = line.split("  ")
        assert hashlib.sha256(files[name]).hexdigest() == sha256
    assert RULES in files["README.txt"].decode()
    _check_json(files)
    _check_tables(files)
    for name, content in files.items():
        if name.endswith(".pdf"):
            _check_pdf(content)
    calendar = icalendar.Calendar.from_ical(files["lessons.ics"])
    assert any(part.name == "VEVENT" for part in calendar.walk())
    with pdfplumber.open(BytesIO(files["attendance.pdf"])) as pages:
        words = pages.pages[0].extract_text()
    assert "12 January 2027" in words
    assert "Rules differ from place to place; check yours." in words
    assert FORMULA in words


def _check_json(files: dict[str, bytes]) -> None:
    """JSON Schema 2020-12, with the formats of dates."""
    schema = json.loads(files["archive.schema.json"])
    Draft202012Validator.check_schema(schema)
    data = json.loads(files["records.json"])
    validator = Draft202012Validator(schema, format_checker=Draft202012Validator.FORMAT_CHECKER)
    assert list(validator.iter_errors(data)) == []
    assert data["grade"]["share"] == [1, 2]
    assert data["grade"]["said"] == "E"
    assert {"marked", "attended", "noted", "taught"} <= {event["kind"] for event in data["events"]}
    assert data["subjects"] == [{"day": "2027-01-12", "title": FORMULA, "minutes": 20, "done": True}]


def _check_tables(files: dict[str, bytes]) -> None:
    """RFC 4180: CRLF, a header, rows of the same length; no cell that a spreadsheet would work out."""
    for name in (one for one in files if one.endswith(".csv")):
        text = files[name].decode("utf-8")
        head, *rows = csv.reader(StringIO(text, newline=""), strict=True)
        assert text.endswith("\r\n")
        assert all(len(row) == len(head) for row in rows)
        assert not [cell for row in rows for cell in row if cell[:1] in {"=", "+", "-", "@", "\t", "\r"}]
    (day, *_), *_ = list(csv.reader(StringIO(files["attendance.csv"].decode(), newline="")))[-1:]
    assert day == "2027-01-12"
    assert list(csv.reader(StringIO(files["notes.csv"].decode(), newline="")))[1][2] == '“Ten” first,\nthen "ones"'


def _check_pdf(data: bytes) -> None:
    """PDF/A-2 by its own mark (ISO 19005-2, 6.6.4), a title, and every font inside the file (6.2.11.4)."""
    with pikepdf.open(BytesIO(data)) as file:
        about = file.open_metadata()
        assert (about["pdfaid:part"], about["pdfaid:conformance"]) == ("2", "A")
        assert about["dc:title"]
        assert not file.is_encrypted
        described = [one for one in file.objects if isinstance(one, pikepdf.Dictionary)]
        fonts = [one for one in described if one.get("/Type") == "/FontDescriptor"]
        assert fonts
        assert all(any(kind in one for kind in ("/FontFile", "/FontFile2", "/FontFile3")) for one in fonts)


@settings(max_examples=40, suppress_health_check=[HealthCheck.too_slow])
@given(st.lists(st.lists(st.one_of(st.text(), st.integers(), st.none()), min_size=2, max_size=2), max_size=5))
def test_any_table_reads_back_and_no_text_cell_begins_a_formula(rows: list[list[str | int | None]]) -> None:
    """Source of the signs: OWASP, CSV Injection."""
    text = csv_of(("a", "b"), rows).decode("utf-8", "surrogatepass")

    back = list(csv.reader(StringIO(text, newline=""), strict=True))[1:]

    assert len(back) == len(rows)
    for row, read in zip(rows, back, strict=True):
        for cell, one in zip(row, read, strict=True):
            plain = "" if cell is None else str(cell)
            assert one in {plain, f"'{plain}"}
            assert not isinstance(cell, str) or one[:1] not in {"=", "+", "-", "@", "\t", "\r", "\n"}


def test_a_file_that_is_there_is_never_written_over(tmp_path: Path) -> None:
    file = tmp_path / "wren.zip"
    file.write_bytes(b"mine")

    with pytest.raises(FileIsThere):
        write_new(file, b"other")

    assert file.read_bytes() == b"mine"
    assert list(tmp_path.iterdir()) == [file]


def test_a_disk_that_fills_up_is_said_and_leaves_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(handle: int) -> None:
        raise OSError(28, "No space left on device", handle)

    monkeypatch.setattr("os.fsync", full)

    with pytest.raises(CannotWrite, match="No space left on device"):
        write_new(tmp_path / "wren.zip", b"data")

    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("many", [1, 5, 8, 23, 40])
def test_the_summer_strip_asks_each_skill_as_often_as_the_others_and_none_twice_on_a_sheet(many: int) -> None:
    sheets = dealt([SkillId(f"s{n}") for n in range(many)])

    assert len(sheets) == 10
    assert all(len(sheet) == len(set(sheet)) == min(8, many) for sheet in sheets)
    counts = [sum(f"s{n}" in sheet for sheet in sheets) for n in range(many)]
    assert max(counts) - min(counts) <= 1


def test_the_summer_strip_is_paper_with_a_key(kept: Learner) -> None:
    data = print_summer(kept, today=TUESDAY)

    with pdfplumber.open(BytesIO(data)) as pages:
        words = "\n".join(page.extract_text() for page in pages.pages)
    assert all(f"My page {n}" in words for n in range(1, 11))
    assert "Answer key" in words


def test_nothing_of_another_child_stands_in_an_archive(kept: Learner) -> None:
    ivo = people.learner_add(household=kept.household, name="Ivo")
    subjects.subject_add(learner=ivo, day=TUESDAY, title="Whittling")

    archive = archive_of(kept, first=TUESDAY, last=TUESDAY, today=TUESDAY)

    assert not [name for name, data in archive.files.items() if b"Whittling" in data or b"Ivo" in data]
    assert SheetId("4C7Q2MX").encode() in archive.files["records.json"]
