"""A course on paper for a year: bound by kind, findable, the same for the same seed, without codes nobody knows."""

from __future__ import annotations

from hashlib import sha256
from threading import Thread
from typing import TYPE_CHECKING

import pypdfium2 as pdfium
import pytest
import zxingcpp

from dayleaf.core.ids import LessonId
from dayleaf.core.seeds import seed_from
from dayleaf.packets.model import Child
from dayleaf.packets.year import Year, files_of, parts_of

if TYPE_CHECKING:

    from dayleaf.course.model import Course, Day
    from dayleaf.packets.year import YearFile

CHAPTER = 9
THREE = (LessonId("day-084"), LessonId("day-089"), LessonId("day-090"))
"""A lesson, the chapter's test and its project."""


def _files(course: Course, seed: int) -> dict[str, YearFile]:
    year = Year(course, Child("Wren"), lambda day: seed_from(seed, day.id), only=frozenset(THREE))
    return {file.name: file for file in files_of(parts_of(year, chapters=[CHAPTER]))}


def _sums(files: dict[str, YearFile]) -> dict[str, str]:
    return {name: sha256(file.pdf).hexdigest() for name, file in files.items()}


@pytest.fixture(scope="module")
def files(course: Course) -> dict[str, YearFile]:
    return _files(course, 7)


def test_the_same_seed_gives_the_same_files_also_on_a_fresh_press(course: Course, files: dict[str, YearFile]) -> None:
    again: list[dict[str, str]] = []
    thread = Thread(target=lambda: again.append(_sums(_files(course, 7))))
    thread.start()
    thread.join()

    assert again == [_sums(files)]
    other = _sums(_files(course, 8))
    assert other.keys() == files.keys()
    assert other["chapter-09-pages.pdf"] != again[0]["chapter-09-pages.pdf"]


def test_every_kind_of_paper_of_a_chapter_is_a_file_of_its_own(files: dict[str, YearFile]) -> None:
    assert [file.kind for file in files.values()] == ["reading", "guides", "pages", "tests", "keys", "picture-cards"]
    assert [name for name, *_ in files["chapter-09-guides.pdf"].parts] == list(THREE)
    assert [name for name, *_ in files["chapter-09-tests.pdf"].parts] == ["day-089 form A", "day-089 form B"]


def test_every_part_begins_on_a_front_and_stands_where_the_contents_say(
    course: Course, files: dict[str, YearFile]
) -> None:
    """Against the text that pdfium reads from the bound files."""
    titles = {str(day.id): day.title for day in course.days}
    for file in files.values():
        document = pdfium.PdfDocument(file.pdf)
        assert len(document) == file.sides
        assert [first % 2 for _, first, _ in file.parts] == [1] * len(file.parts)
        assert [end for *_, end in file.parts][-1] == file.sides
    guides = files["chapter-09-guides.pdf"]
    document = pdfium.PdfDocument(guides.pdf)
    for name, first, _ in guides.parts:
        assert titles[name] in document[first - 1].get_textpage().get_text_bounded()


def test_pages_that_no_record_knows_of_carry_no_code(files: dict[str, YearFile]) -> None:
    """Against an independent reader of codes: a camera must not take them for a sheet of the household."""
    with pdfium.PdfDocument(files["chapter-09-pages.pdf"].pdf) as document:
        pictures = [side.render(scale=2, grayscale=True).to_numpy() for side in document]

    assert len(pictures) == files["chapter-09-pages.pdf"].sides
    assert not any(zxingcpp.read_barcodes(picture) for picture in pictures)


def test_what_a_record_prints_is_bound_as_it_is(course: Course, files: dict[str, YearFile]) -> None:
    given = files["chapter-09-reading.pdf"].pdf
    asked: list[tuple[str, str]] = []

    def recorded(day: Day, form: str) -> tuple[bytes, bytes, bytes]:
        asked.append((day.id, form))
        return given, given, given

    year = Year(course, Child("Wren"), lambda _: 1, recorded=recorded, only=frozenset(THREE[:2]))
    made = {file.kind: file for file in files_of(parts_of(year, chapters=[CHAPTER]))}

    assert asked == [("day-084", "A"), ("day-089", "A"), ("day-089", "B")]
    sides = files["chapter-09-reading.pdf"].sides
    assert [made[kind].sides for kind in ("guides", "pages", "tests", "keys")] == [
        n * (sides + sides % 2) - sides % 2 for n in (2, 1, 2, 3)
    ]
