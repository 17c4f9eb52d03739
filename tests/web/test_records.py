"""The pages of records, as a browser without a script would use them."""

from __future__ import annotations

import hashlib
import zipfile
from datetime import date
from io import BytesIO
from typing import TYPE_CHECKING

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from dayleaf.records import desk, selectors
from dayleaf.records.grades import scale_of
from dayleaf.records.restore import restore

if TYPE_CHECKING:
    from pathlib import Path

    from django.test import Client

    from dayleaf.records.models import Household, Learner

TODAY = date(2027, 1, 12)
SHEET = "4C7Q2MX"
PAGES = ("", "/days", "/grades", "/progress", "/samples")


@pytest.fixture
def marked(household: Household) -> Household:
    """Yesterday's sheet is marked, two of six wrong."""
    sheet = selectors.sheet_find(household, SHEET)
    desk.sheet_mark(sheet, today=TODAY, right_except="1=35, 2=36")
    return household


@pytest.mark.parametrize("page", PAGES)
def test_a_page_of_records_takes_at_most_twenty_queries(browser: Client, wren: Learner, page: str) -> None:
    with CaptureQueriesContext(connection) as asked:
        answer = browser.get(f"/records/{wren.id}{page}")

    assert answer.status_code == 200
    assert len(asked) <= 20


@pytest.mark.parametrize("page", PAGES)
def test_a_child_of_other_people_has_no_records_here(browser: Client, neighbours: Household, page: str) -> None:
    pip = neighbours.learners.get()

    assert browser.get(f"/records/{pip.id}{page}").status_code == 404


def test_a_day_is_said_corrected_and_taken_back(browser: Client, wren: Learner) -> None:
    days = f"/records/{wren.id}/days"

    browser.post(days, {"day": "2027-01-11", "known": "not there"})
    away = selectors.attendance_of(wren)
    browser.post(days, {"day": "2027-01-11", "known": "there", "minutes": "40"})
    there = browser.get(f"{days}?month=2027-01").content.decode()
    browser.post(days, {"day": "2027-01-11", "known": "not said"})

    assert list(away.values()) == [False]
    assert "there" in there
    assert "40 min" in there
    assert selectors.attendance_of(wren) == {}


def test_a_line_of_another_subject_that_is_taken_away_can_come_back(browser: Client, wren: Learner) -> None:
    days = f"/records/{wren.id}/days"
    line = {"day": "2027-01-11", "title": "Piano", "minutes": "20", "done": "yes"}

    kept = browser.post(f"/records/{wren.id}/subjects", line, follow=True).content.decode()
    row = wren.subjects.get()
    away = browser.post(f"/records/{wren.id}/subjects/{row.line_id}/away", follow=True).content.decode()
    browser.post(f"/records/{wren.id}/subjects/{row.line_id}/away", {"back": "yes"})

    assert "Piano, 20 min" in kept
    assert "Piano, 20 min" not in away
    assert "Bring it back" in away
    assert "Piano, 20 min" in browser.get(days).content.decode()


@pytest.mark.parametrize(
    "form",
    [{"day": "yesterday", "known": "there"}, {"day": "2027-01-13", "known": "there"}, {"day": "2027-01-11"}],
)
def test_a_day_that_cannot_be_said_is_answered_in_words_and_changes_nothing(
    browser: Client, wren: Learner, form: dict[str, str]
) -> None:
    answer = browser.post(f"/records/{wren.id}/days", form)

    assert answer.status_code == 422
    assert selectors.attendance_of(wren) == {}


def test_a_grade_book_counts_in_the_familys_own_letters(browser: Client, marked: Household) -> None:
    """Four of six right are 66 2/3 percent."""
    wren = marked.learners.get()
    book = f"/records/{wren.id}/grades"
    letters = "60 grown\n0 growing"
    form = {"kind": "letters", "letters": letters, "words": "", "test": "0", "sheet": "1"}

    page = browser.post(book, form, follow=True).content.decode()
    entry = page.split('name="out" value="')[1].split('"')[0]
    without = browser.post(book, {**form, "out": entry}, follow=True).content.decode()

    assert "So far: grown" in page
    assert page.count('name="kind"') == 4
    assert "4 of 6 right" in page
    assert "Nothing counts yet" in without


def test_a_scale_that_cannot_be_read_is_answered_with_every_problem(browser: Client, wren: Learner) -> None:
    form = {"kind": "letters", "letters": "ninety A\n80", "test": "x", "sheet": "1"}

    answer = browser.post(f"/records/{wren.id}/grades", form)

    assert answer.status_code == 422
    assert all(words in answer.content.decode() for words in ("ninety A", "“80”", "test"))
    assert scale_of(wren).kind == "none"


def test_files_are_made_of_what_is_kept(browser: Client, marked: Household) -> None:
    wren = marked.learners.get()
    form = {"first": "2027-01-04", "last": "2027-01-12"}

    report = browser.post(f"/records/{wren.id}/file", {**form, "what": "attendance"})
    archive = browser.post(f"/records/{wren.id}/file", {**form, "what": "archive"})

    assert report.content.startswith(b"%PDF-")
    assert report.headers["Content-Disposition"] == 'attachment; filename="Wren-attendance.pdf"'
    with zipfile.ZipFile(BytesIO(archive.content)) as pack:
        assert pack.testzip() is None
        assert {"records.json", "marks.csv", "year.pdf", "lessons.ics"} <= set(pack.namelist())


@pytest.mark.parametrize(
    ("form", "status"),
    [
        ({"first": "2027-01-12", "last": "2027-01-04", "what": "year"}, 422),
        ({"first": "", "last": "2027-01-04", "what": "year"}, 422),
        ({"first": "2027-01-04", "last": "2027-01-12", "what": "secrets"}, 404),
    ],
)
def test_a_file_that_cannot_be_made_is_said(browser: Client, wren: Learner, form: dict[str, str], status: int) -> None:
    assert browser.post(f"/records/{wren.id}/file", form).status_code == status


def test_a_copy_made_with_one_touch_restores_row_for_row(browser: Client, marked: Household, tmp_path: Path) -> None:
    before = len(selectors.events_of_household(marked))

    page = browser.post("/records/backups", follow=True).content.decode()
    name = page.split("/records/backups/")[1].split('"')[0]
    saved = tmp_path / name
    saved.write_bytes(b"".join(browser.get(f"/records/backups/{name}").streaming_content))  # type: ignore[attr-defined] # a file's answer streams
    manifest = restore(saved, tmp_path / "new laptop")

    assert hashlib.sha256(saved.read_bytes()).hexdigest() in page
    assert manifest.counts["records_eventrow"] == before
    assert browser.post("/records/backups", follow=True).content.decode().count("Save dayleaf-") == 2


@pytest.mark.parametrize("name", ["dayleaf.sqlite3", "..%2Fdayleaf.sqlite3", "dayleaf-2027-01-12-9.dayleaf"])
def test_only_backups_can_be_saved_elsewhere(browser: Client, name: str) -> None:
    assert browser.get(f"/records/backups/{name}").status_code == 404


def test_a_full_disk_is_said_and_leaves_no_half_copy(
    browser: Client, marked: Household, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(handle: int) -> None:
        raise OSError(28, "No space left on device", handle)

    monkeypatch.setattr("dayleaf.records.backup.os.fsync", full)

    answer = browser.post("/records/backups")

    assert marked.name
    assert answer.status_code == 409
    assert "No space left on device" in answer.content.decode()
    assert "No copy was made yet" in browser.get("/records/backups").content.decode()
