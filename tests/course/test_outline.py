"""Outlines as other people write them: tables with any separator, pasted tables of contents, and lines gone wrong."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dayleaf.course.load import CONTENT, grade2
from dayleaf.course.outline import confirmed, read_outline, suggested
from dayleaf.course.outline_codec import outline_data, outline_from_json
from dayleaf.course.outline_course import course_id, course_of_outline, pages_sentence
from dayleaf.course.suggest import Asked, suggest

OUTLINES = CONTENT / "outlines"
DATA = Path(__file__).parent / "data"
TABLE = (
    ("Unit", "Lesson", "Title", "Guide", "Child's book pages", "Tests", "Materials", "Alone"),
    ("1", "1", "Skip counting, by 5s", "10", "p. 3-4", "", "counters; chart", "no"),
    ("", "2", "Even and odd", "12", "5", "", "", "yes"),
    ("", "3", "Unit 1 quiz", "", "", "T1", "", ""),
    ("2", "4", "Telling time to five minutes", "14", "7 to 8", "", "clock", ""),
)


@pytest.mark.parametrize("separator", [",", ";", "\t", "|"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
def test_a_table_is_read_whatever_parts_its_cells_and_whoever_wrote_it(separator: str, encoding: str) -> None:
    written = io.StringIO()
    csv.writer(written, delimiter=separator).writerows(TABLE)

    outline = read_outline(written.getvalue().encode(encoding))

    assert [line.title for line in outline.lines] == [row[2] for row in TABLE[1:]]
    first, second, third, fourth = outline.lines
    assert first.pages == (("guide", "10"), ("child's book", "3–4"))
    assert first.materials == ("counters", "chart")
    assert (second.chapter, second.alone, third.kind, third.pages) == ("1", True, "test", (("tests", "T1"),))
    assert (fourth.chapter, fourth.pages[1][1]) == ("2", "7–8")
    assert outline.wrong == ()


PASTED = """Contents

Chapter 1 Numbers to 100
  Lesson 1 Tens and ones .... 8
  Lesson 2 Comparing numbers to 100 .... 12-15
  Chapter review .... 20
  Chapter 1 test
Chapter 2 Adding
  Day 3-4 Adding with regrouping .... 24
  Catch-up day
  Project: a shop
"""


def test_a_pasted_table_of_contents_is_read_with_chapters_pages_and_kinds_of_day() -> None:
    outline = read_outline(PASTED)

    assert [line.kind for line in outline.lines] == [
        *("lesson", "lesson", "look-back", "test", "lesson", "spare", "project"),
    ]
    assert [line.chapter for line in outline.lines] == ["Numbers to 100"] * 4 + ["Adding"] * 3
    assert outline.lines[1].pages == (("book", "12–15"),)
    assert outline.lines[1].title == "Comparing numbers to 100"
    assert outline.lines[4].days == 2
    assert outline.other == ((1, "Contents"),)


@pytest.mark.parametrize(
    ("text", "titles"),
    [
        ("1. Numbers\n1.1 Place value 3\n1.2 Rounding 9\n1.3 Numbers to 1,000 12\n2. Adding\n2.1 Carrying 18", 4),
        ("Week 1: Counting by fives\nWeek 2: Odd and even (alone)\nWeek 3: Test", 3),
        ("ADDING\nAdding tens, guide p. 4\nAdding ones (p. 6)\nTAKING AWAY\nBorrowing", 3),
        ("Adding:\n- Doubles\n- Near doubles\nTaking away:\n- Counting back", 3),
        ("• Tens\n• Ones\n• Review", 3),
    ],
)
def test_other_layouts_are_read_as_well(text: str, titles: int) -> None:
    outline = read_outline(text)

    assert len(outline.lines) == titles
    assert outline.wrong == ()
    assert all(not line.title[-1].isdigit() or line.title.endswith("1,000") for line in outline.lines)


def test_a_wrong_line_is_named_with_its_number_and_nothing_is_lost() -> None:
    text = PASTED.replace("12-15", "15-12").replace("Lesson 2", "Lesson 1").replace("Adding with regrouping", "")

    outline = read_outline(text)

    assert {line for line, _ in outline.wrong} == {5, 9}
    assert any("end before they begin" in says for _, says in outline.wrong)
    assert any("second lesson 1 (the first is on line 4)" in says for _, says in outline.wrong)
    assert len(outline.lines) == len(read_outline(PASTED).lines)


@pytest.mark.parametrize(
    ("row", "says"),
    [
        ("3,5,,9,,,,", "has no title"),
        ("3,5,Tens,9,1,,,no,extra", "more cells"),
        ("3,5,Tens,eleven,,,,", "is no page of the guide"),
        ("3,5,Tens,9,8-7,,,", "end before they begin"),
        ("3,5,Tens,9,,,,perhaps", "neither yes nor no"),
    ],
)
def test_a_wrong_row_of_a_table_is_named_with_what_mends_it(row: str, says: str) -> None:
    good = "\n".join(",".join(f'"{cell}"' for cell in cells) for cells in TABLE)

    outline = read_outline(f"{good}\n{row}\n")

    assert [line for line, _ in outline.wrong] == [6]
    assert says in outline.wrong[0][1]
    assert len(outline.lines) == 5


def test_a_quotation_mark_that_is_never_closed_spoils_its_own_row_only() -> None:
    rows = [
        "Chapter,Title",
        '1,"Tens',
        *(f"1,Lesson about {word}" for word in ("twos", "fives", "tens", "odd", "even")),
    ]

    outline = read_outline("\n".join(rows))

    assert [line for line, _ in outline.wrong] == [2]
    assert len(outline.lines) == 6


@settings(max_examples=60, deadline=None)
@given(st.text(max_size=200))
def test_whatever_is_pasted_every_line_comes_back_as_a_day_as_a_heading_or_as_other(text: str) -> None:
    outline = read_outline(text)

    written = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    assert all(1 <= line.line <= len(written) for line in outline.lines)
    assert outline.lines or outline.wrong


def test_the_two_invented_outlines_are_read_without_a_wrong_line() -> None:
    weeks = read_outline((OUTLINES / "thirty-six-weeks.csv").read_bytes())
    units = read_outline((OUTLINES / "twelve-units.txt").read_bytes())

    assert (len(weeks.lines), weeks.wrong) == (144, ())
    assert (len({line.chapter for line in units.lines}), units.wrong) == (12, ())
    assert len(units.lines) >= 170
    assert any(line.alone for line in weeks.lines)


def test_an_outline_comes_back_from_its_json_with_what_was_chosen() -> None:
    course = grade2()
    outline = read_outline(PASTED)
    found = suggested(course, outline)
    chosen = confirmed(outline, [[some[0][0]] for some in found])

    again = outline_from_json(json.dumps(outline_data(course, chosen, found)))

    assert again.lines == chosen.lines
    assert all(len(some) == 3 for some in found)


def test_a_course_of_an_outline_has_a_day_for_every_line_and_its_pages_in_words() -> None:
    course = grade2()
    outline = read_outline(PASTED)
    whole = confirmed(outline, [[some[0][0]] for some in suggested(course, outline)])

    own = course_of_outline(course, whole, id=course_id("Our Own!"), title="Our own")

    assert own.id == "our-own"
    assert [day.id for day in own.days] == [f"our-own-{n:03}" for n in range(1, 9)]
    assert own.days[1].how == "Pages 12–15 of the family's book."
    assert own.days[3].kind == "test"
    assert own.days[3].front_skills == (*own.days[0].front_skills, *own.days[1].front_skills)
    assert [day.chapter for day in own.days] == [1, 1, 1, 1, 2, 2, 2, 2]


def test_pages_are_said_for_each_book() -> None:
    said = pages_sentence((("workbook", "114–115"), ("guide", "52")))

    assert said == "Pages 114–115 of the family's workbook; page 52 of the family's guide."


def lines_kept_aside() -> list[tuple[str, str, set[str]]]:
    """Lines in other people's manner with the skills that a teacher would name; written after the matcher."""
    rows = (DATA / "held_out_outlines.tsv").read_text(encoding="utf-8").splitlines()
    return [(a, b, set(skills.split("|"))) for a, b, skills in (row.split("\t") for row in rows if row[0] != "#")]


@pytest.mark.parametrize("with_chapter", [True, False])
def test_the_right_skill_is_among_three_for_four_lines_of_five_kept_aside(*, with_chapter: bool) -> None:
    """Issue 5 asks for 80 %; the right skills were named by hand, line by line (`held_out_outlines.tsv`)."""
    rows = lines_kept_aside()
    asked = [Asked(title, chapter if with_chapter else "") for chapter, title, _ in rows]

    found = suggest(grade2(), asked)

    hits = [bool({one.skill for one in some} & right) for some, (_, _, right) in zip(found, rows, strict=True)]
    assert len(rows) >= 100
    assert sum(hits) / len(hits) >= 0.8


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Subtraction with borrowing", "Subtracting with regrouping"),
        ("Skip counting by 5s", "Counting by fives"),
        ("Two-digit addition", "Addition of 2-digit numbers"),
        ("Numbers to 1,000", "Numbers to one thousand"),
        ("Bar charts", "Bar graphs"),
        ("Comparing fractons", "Comparing fractions"),
    ],
)
def test_words_that_mean_the_same_find_the_same_skill(one: str, other: str) -> None:
    first, second = (suggest(grade2(), [Asked(title)])[0][0] for title in (one, other))

    assert first.skill == second.skill
