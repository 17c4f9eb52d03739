"""`dayleaf year`: a course in files with their contents; recorded only where it is asked for; what cannot be done."""

from __future__ import annotations

import json
from dataclasses import replace
from typing import TYPE_CHECKING

import pypdfium2 as pdfium
import pytest
import zxingcpp

from dayleaf.cli import year as cli_year
from dayleaf.core.ids import LessonId
from dayleaf.sheets.ids import read_code

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from .conftest import Said

TODAY = "2027-01-12"


def test_a_seed_without_a_home_gives_a_course_and_says_where_everything_stands(
    say: Callable[..., Said], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Sides are counted by pdfium."""
    monkeypatch.delenv("DAYLEAF_HOME", raising=False)  # a household opened before names itself there
    out = tmp_path / "year"

    said = say("year", "--learner", "Bean", "--out", out, "--seed", 7, "--chapters", "0", "--paper", "a4")

    assert said.status == 0, said.err
    contents = json.loads((out / "contents.json").read_text(encoding="utf-8"))
    assert (contents["learner"], contents["paper"], contents["recorded"]) == ("Bean", "a4", False)
    assert {file["file"] for file in contents["files"]} == {one.name for one in out.glob("*.pdf")}
    for file in contents["files"]:
        with pdfium.PdfDocument(out / file["file"]) as document:
            assert len(document) == file["sides"] == file["parts"][-1]["sides"][1]
            assert round(document[0].get_width() / 72 * 25.4) == 210  # ISO 216
    assert sum(file["sides"] for file in contents["files"]) == contents["sides"]


@pytest.fixture
def one_day(monkeypatch: pytest.MonkeyPatch) -> None:
    """A year of a single day, for what does not depend on how many there are."""
    for name in ("year_of", "year_recorded"):
        whole = getattr(cli_year, name)
        monkeypatch.setattr(
            cli_year, name, lambda *a, whole=whole, **k: replace(whole(*a, **k), only=frozenset({LessonId("day-171")}))
        )


@pytest.mark.usefixtures("one_day")
def test_a_recorded_chapter_is_in_the_log_and_its_pages_carry_codes(
    say: Callable[..., Said], home: Path, tmp_path: Path
) -> None:
    """Codes are read by zxing-cpp and belong to the sheets that the log names."""
    out = tmp_path / "year"

    said = say(
        "year", "--home", home, "--today", TODAY, "--learner", "Wren", "--out", out, "--chapters", "18", "--record"
    )

    assert said.status == 0, said.err
    log = say("log", "--home", home, "--json").out
    with pdfium.PdfDocument(out / "chapter-18-pages.pdf") as document:
        picture = document[0].render(scale=3, grayscale=True).to_numpy()
    (code, *_) = zxingcpp.read_barcodes(picture)
    assert read_code(code.text)[0] in log


@pytest.mark.usefixtures("one_day")
def test_a_year_that_is_not_recorded_changes_nothing(
    say: Callable[..., Said], home: Path, tmp_path: Path, kept: Callable[[Path], str]
) -> None:
    before = kept(home)

    said = say("year", "--home", home, "--learner", "Wren", "--out", tmp_path / "year", "--chapters", "18")

    assert said.status == 0, said.err
    assert kept(home) == before


def test_what_cannot_be_printed_is_said_in_one_line_and_makes_no_folder(
    say: Callable[..., Said], home: Path, tmp_path: Path
) -> None:
    out = tmp_path / "year"
    wrong = (
        ("--learner", "Nobody", "--home", home),
        ("--learner", "Wren", "--home", home, "--seed", 7, "--record"),
        ("--learner", "Wren", "--home", home, "--chapters", "40"),
        ("--learner", "Wren\u2603", "--seed", 7),
        ("--learner", "Wren", "--home", tmp_path / "nowhere"),
    )
    for words in wrong:
        said = say("year", "--out", out, *words)

        assert said.status == 2, words
        assert said.err.strip(), words
        assert not out.exists(), words
