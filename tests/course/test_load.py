"""Reading a course: every slip of shape is named with its file, its field and what would mend it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from dayleaf.core.errors import BadInput
from dayleaf.course import load
from dayleaf.course.load import grade2, read_course

if TYPE_CHECKING:
    from pathlib import Path

    from tests.course.conftest import SmallCourse

SKILL = "mini/skills/add/add-small.toml"
DAY = "mini/chapters/01/day-001.toml"


def test_the_small_course_reads_without_a_problem(small: SmallCourse) -> None:
    course = small.course()

    assert (course.id, len(course.days), len(course.skills)) == ("mini", 3, 2)
    assert course.skills[course.days[0].new_skills[0]].strand == "add"


def test_the_folder_above_a_single_course_will_do(small: SmallCourse) -> None:
    course, problems = read_course(small.folder)

    assert problems == ()
    assert course is not None
    assert course.id == "mini"


def test_a_step_of_a_guide_goes_on_over_its_lines(small: SmallCourse) -> None:
    guide = small.course().days[0].guide

    assert guide is not None
    assert [step.kind for step in guide.parts[0].steps] == ["say", "ask", "answer", "if-instead"]
    assert guide.parts[0].steps[3].text.endswith("Put a finger on the start and stay silent there.")


def test_materials_know_the_first_day_that_asks_for_them(small: SmallCourse) -> None:
    assert small.course().materials["ten-frame"].first_day == 1


@pytest.mark.parametrize(
    ("name", "old", "new", "said"),
    [
        (SKILL, 'title = "Add small numbers"\n', "", f'{SKILL}: title: is missing; write title = "…"'),
        (SKILL, "distinct_items = 10", 'distinct_items = "10"', "holds the text"),
        (SKILL, "distinct_items = 10\n", "", "distinct_items: is missing"),
        (
            SKILL,
            'say = "Put together."',
            'sey = "Put together."',
            f"{SKILL}: sey: is not a field here; did you mean say",
        ),
        (SKILL, 'role = "core"', 'role = "heart"', "role: is the text"),
        (SKILL, 'formats = ["horiz"]', 'formats = "horiz"', "formats: holds the text"),
        (SKILL, 'shows_as = "wrong answer"', 'shows_as = "wrong"', "error_ways[1].shows_as"),
        (SKILL, 'say = "Put together."', 'say = "Put together.', "is not TOML"),
        (DAY, "adult = 10", "adult = -1", "minutes.adult: is -1; the least it can be is 0"),
        (DAY, "second_sheet = true", 'second_sheet = "y"', "second_sheet: holds the text"),
        (DAY, "second_sheet = true", "second_sheet = 1", "second_sheet: holds the number 1"),
        (DAY, "[minutes]\n", "[minute]\n", f"{DAY}: minutes: is missing"),
        (DAY, "alone = 12\nsource", "alone = 12\n#", "minutes.source: is missing; say where the numbers come from"),
        (DAY, 'shown = [["add-small", "horiz"]]', 'shown = ["add-small"]', "guide.shown: holds a list"),
        (DAY, "say: {show.1.a}", "tell {show.1.a}", "begins with"),
        (DAY, "do: Own page.", "do:", 'has a "do:" with nothing after it'),
        (DAY, "ask: How many?", "Ask: How many?", 'has the label "Ask:"; write it as "ask:"'),
        (DAY, 'name = "alone"', 'name = "by-oneself"', "guide.parts[3].name"),
        ("formats.toml", "per_side = [8, 12]", "per_side = [12, 8]", "horiz.per_side: runs from 12 down to 8"),
        ("formats.toml", 'source = "common practice, no source"', "", "formats.toml: source: is missing"),
        ("mini/materials.toml", 'source = "common practice, no source"', "", "materials.toml: source: is missing"),
        ("error_ways.toml", "phrase", "phrases", "one-short.phrase: is missing"),
    ],
)
def test_a_slip_of_shape_is_named_with_its_place_and_cure(
    small: SmallCourse, name: str, old: str, new: str, said: str
) -> None:
    small.change(name, old, new)

    problems = small.shape()

    assert any(said in problem and problem.startswith(name) for problem in problems), problems
    assert read_course(small.folder / "mini")[0] is None


def test_all_slips_of_all_files_are_listed_at_once(small: SmallCourse) -> None:
    small.change(SKILL, 'title = "Add small numbers"\n', "")
    small.change(SKILL, "distinct_items = 10", "distinct_items = true")
    small.change(DAY, 'how = "Counters"', "how = 3")
    small.write("mini/chapters/01/day-002.toml", "kind = \ntitle = 3\n")

    problems = small.shape()

    assert sum(problem.startswith(SKILL) for problem in problems) == 2
    assert any(problem.startswith(f"{DAY}: how") for problem in problems)
    assert any("day-002.toml: is not TOML" in problem and "line 1" in problem for problem in problems)


def test_a_file_that_is_no_text_is_one_problem(small: SmallCourse) -> None:
    (small.folder / SKILL).write_bytes(b'title = "\xff"')

    assert any(problem.startswith(f"{SKILL}: byte 9 is not UTF-8 text") for problem in small.shape())


def test_a_missing_table_is_named(small: SmallCourse) -> None:
    (small.folder / "formats.toml").unlink()

    assert any(problem.startswith("formats.toml: the file is missing") for problem in small.shape())


def test_two_skills_of_one_name_are_a_problem(small: SmallCourse) -> None:
    text = (small.folder / SKILL).read_text(encoding="utf-8")
    small.write("mini/skills/more/add-small.toml", text)

    assert any("is the second file of this name" in problem for problem in small.shape())


@pytest.mark.parametrize("name", ["mini/chapters/01/day-4.toml", "mini/chapters/01/monday.toml"])
def test_a_file_with_no_days_name_is_a_problem(small: SmallCourse, name: str) -> None:
    small.write(name, "")

    assert any(problem.startswith(name) and "not a day's name" in problem for problem in small.shape())


def test_a_folder_that_is_no_chapter_number_is_a_problem(small: SmallCourse) -> None:
    small.write("mini/chapters/first/chapter.toml", "")

    assert any("is not a chapter number" in problem for problem in small.shape())


def test_an_empty_folder_gives_problems_and_no_course(tmp_path: Path) -> None:
    course, problems = read_course(tmp_path / "nothing")

    assert course is None
    assert problems


def test_our_own_course_is_read_once_and_kept() -> None:
    assert grade2() is grade2()


def test_a_broken_course_of_our_own_raises_with_every_problem(
    small: SmallCourse, monkeypatch: pytest.MonkeyPatch
) -> None:
    small.change(SKILL, 'title = "Add small numbers"\n', "")
    (small.folder / "mini").rename(small.folder / "grade2")
    monkeypatch.setattr(load, "CONTENT", small.folder)

    with pytest.raises(BadInput, match="title: is missing"):
        grade2.__wrapped__()
