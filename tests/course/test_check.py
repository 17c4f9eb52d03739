"""Meaning of a course: each rule of the check is shown on a course that breaks it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from dayleaf.core.ids import FormatId, SkillId
from dayleaf.course.check import check_course

if TYPE_CHECKING:
    from tests.course.conftest import SmallCourse

SKILL = "mini/skills/add/add-small.toml"
BELOW = "mini/skills/add/count-on.toml"
DAY = "mini/chapters/01/day-001.toml"
LOOK_BACK = "mini/chapters/01/day-002.toml"
TEST = "mini/chapters/01/day-003.toml"


def test_the_small_course_means_what_it_says(small: SmallCourse) -> None:
    assert small.meaning() == []


@pytest.mark.parametrize(
    ("name", "old", "new", "said"),
    [
        # skills
        (SKILL, 'prereqs = ["count-on"]', 'prereqs = ["count-off"]', '"count-off" is not a skill'),
        (SKILL, 'formats = ["horiz"]', 'formats = ["vert"]', '"vert" is not a row of formats.toml'),
        (SKILL, 'formats = ["horiz"]', "formats = []", "formats: is empty"),
        (SKILL, 'formats = ["horiz"]', 'formats = ["horiz", "horiz"]', 'names "horiz" 2 times'),
        (SKILL, 'pictures = ["counters"]', 'pictures = ["pebbles"]', '"pebbles" is not a row of pictures.toml'),
        (SKILL, 'materials = ["ten-frame"]', 'materials = ["abacus"]', '"abacus" is not a row of materials.toml'),
        (
            SKILL,
            'codes = ["2.OA.A.1"]',
            'codes = ["2.OA.A.1", "2.OA.Z.9"]',
            '"2.OA.Z.9" is not a row of standards.toml',
        ),
        (SKILL, 'codes = ["2.OA.A.1"]', "codes = []", 'fit: is "exact" but there is no code'),
        (SKILL, 'id = "one-short"', 'id = "two-short"', '"two-short" has no row in error_ways.toml'),
        (SKILL, "distinct_items = 10", "distinct_items = 11", "is 11, but the rule allows 10"),
        (SKILL, "a+b<=5", "a+c<=5", '"c" is neither a variable of the rule'),
        (SKILL, "a=1..4", "a=4..1", "runs downward"),
        (SKILL, "[[error_ways]]", '[format_from_day]\nhoriz = "day-009"\n[[error_ways]]', '"day-009" is not a day'),
        (BELOW, "prereqs = []", 'prereqs = ["add-small"]', "leads in a circle through add-small, count-on"),
        (BELOW, "prereqs = []", 'prereqs = ["count-on"]', "names the skill itself"),
        (BELOW, 'role = "below"', 'role = "core"', "is core, but no day has it"),
        (SKILL, 'role = "core"', 'role = "extension"', "is extension, but day 1 has it as new"),
        ("mini/course.toml", 'add = "Adding"', 'sub = "Subtracting"', '"add" is not a strand'),
        ("error_ways.toml", '"count-on"', '"count-off"', 'one-short.goes_to: "count-off" is not a skill'),
        # days
        (DAY, 'new = ["add-small"]', "new = []", "names nothing to teach or refresh"),
        (DAY, 'front = ["add-small"]', "front = []", 'leaves out "add-small", which is new today'),
        (DAY, 'back = ["count-on"]', 'back = ["add-small"]', '"add-small" is new on day 1; ask for it later'),
        (DAY, 'back = ["count-on"]', 'back = ["count-on", "count-on"]', "names a skill twice"),
        (DAY, 'fact_warm_up = "count-on"', 'fact_warm_up = "add-small"', "fact_warm_up"),
        (DAY, "refresh = []", 'refresh = ["tie-knots"]', '"tie-knots" is not a skill'),
        (DAY, 'materials = ["ten-frame"]', 'materials = ["abacus"]', '"abacus" is not in materials.toml'),
        (DAY, "picture-card:counters", "picture-card:pebbles", "names no kind of picture"),
        (DAY, "picture-card:counters", "star-chart", '"star-chart" is not in materials.toml'),
        (DAY, 'if_short = "keep"', 'if_short = "drop"', "is drop on a day with a new skill"),
        (LOOK_BACK, 'kind = "look-back"', 'kind = "spare"', "is a test without a look back the day before"),
        (TEST, 'kind = "test"', 'kind = "spare"', "is a look back with no test the next day"),
        (LOOK_BACK, 'kind = "look-back"', 'kind = "test"', "is the second test of its chapter"),
        (TEST, "new = []", 'new = ["add-small"]', "teaches something on a test day"),
        (TEST, "new = []", 'new = ["add-small"]', '"add-small" was new on day 1'),
        # guides
        (DAY, "adult = 10", "adult = 11", "give 10 minutes with the adult, but minutes.adult is 11"),
        (DAY, "alone = 12", "alone = 13", "give 12 minutes alone, but minutes.alone is 13"),
        (DAY, "core = true\n", "", "have 0 parts with core = true"),
        (DAY, 'name = "together"', 'name = "open"', "the order is open, show, together"),
        (DAY, "{show.1.a}", "{show.2.a}", "names item 2, but guide.shown has 1"),
        (DAY, "{show.1.a}", "{show.1.c}", "names no variable of add-small; it has a, b"),
        (DAY, "{show.1.a}", "{show.1.a.digits}", "names a piece that numbers do not have"),
        (DAY, "{show.1.a}", "{show.1.error}", "is not complete"),
        (DAY, "{show.1.a}", "{shown.1.a}", '"{shown.1.a}" is not a slot'),
        (DAY, "{show.1.a}", "{show.1.a", "is not a slot"),
        (DAY, "{show.1.a}", "{own.7.a}", "names an item past the sixth"),
        (
            DAY,
            "error.one-short",
            "error.two-short",
            "names an error way that add-small does not have; it has one-short",
        ),
        (
            DAY,
            'shown = [["add-small", "horiz"]]',
            'shown = [["add-small", "vert"]]',
            '"vert" is not a format of add-small',
        ),
        (DAY, 'shown = [["add-small", "horiz"]]', 'shown = [["tie-knots", "horiz"]]', '"tie-knots" is not a skill'),
        (DAY, 'materials = ["ten-frame"]', "materials = []", "speak of the ten-frame mat"),
    ],
)
def test_a_slip_of_meaning_is_named_with_its_place_and_cure(
    small: SmallCourse, name: str, old: str, new: str, said: str
) -> None:
    small.change(name, old, new)

    problems = small.meaning()

    assert any(said in problem for problem in problems), problems
    assert all(": " in problem for problem in problems)


def test_a_code_that_no_core_skill_teaches_is_named(small: SmallCourse) -> None:
    small.change("standards.toml", '["1.OA.A.1"]', '["2.OA.B.2"]\nparaphrase = "know sums"\n["1.OA.A.1"]')

    assert small.meaning() == [
        "mini/course.toml: covers: no core skill has the code 2.OA.B.2; add it to the skill that teaches it"
    ]


def test_a_lettered_point_covers_its_standard(small: SmallCourse) -> None:
    small.change("standards.toml", '["2.OA.A.1"]', '["2.OA.A.1a"]\nparaphrase = "point"\n["2.OA.A.1"]')
    small.change(SKILL, 'codes = ["2.OA.A.1"]', 'codes = ["2.OA.A.1a"]')

    assert small.meaning() == []


def test_a_course_that_claims_no_grade_is_asked_for_no_codes(small: SmallCourse) -> None:
    small.change("mini/course.toml", 'covers = "2"\n', "")
    small.change("standards.toml", '["1.OA.A.1"]', '["2.OA.B.2"]\nparaphrase = "know sums"\n["1.OA.A.1"]')

    assert small.meaning() == []


def test_a_skill_taught_before_what_it_rests_on_is_named(small: SmallCourse) -> None:
    text = (small.folder / SKILL).read_text(encoding="utf-8").replace('prereqs = ["count-on"]', "prereqs = []")
    small.write("mini/skills/add/add-more.toml", text)
    small.change(SKILL, 'prereqs = ["count-on"]', 'prereqs = ["add-more"]')
    small.change(DAY, 'new = ["add-small"]', 'new = ["add-small", "add-more"]')
    small.change(DAY, 'front = ["add-small"]', 'front = ["add-small", "add-more"]')

    assert any('"add-small" needs "add-more", which is new on day 1' in problem for problem in small.meaning())


def test_a_skill_listed_after_what_it_rests_on_may_share_its_day(small: SmallCourse) -> None:
    text = (small.folder / SKILL).read_text(encoding="utf-8").replace('prereqs = ["count-on"]', "prereqs = []")
    small.write("mini/skills/add/add-more.toml", text)
    small.change(SKILL, 'prereqs = ["count-on"]', 'prereqs = ["add-more"]')
    small.change(DAY, 'new = ["add-small"]', 'new = ["add-more", "add-small"]')
    small.change(DAY, 'front = ["add-small"]', 'front = ["add-more", "add-small"]')

    assert small.meaning() == []


def test_a_skill_of_an_earlier_grade_is_warmed_up_before_something_rests_on_it(small: SmallCourse) -> None:
    small.change(BELOW, 'role = "below"', 'role = "refresh"')

    problems = small.meaning()

    assert problems == [
        (
            f'{DAY}: skills.refresh: "add-small" rests on "count-on", '
            "which is not refreshed by then; add it to skills.refresh"
        )
    ]


def test_a_gap_in_the_days_is_named(small: SmallCourse) -> None:
    (small.folder / TEST).rename(small.folder / "mini/chapters/01/day-004.toml")

    assert any("is day 4 where day 3 is next" in problem for problem in small.meaning())


def test_a_chapter_left_out_is_named(small: SmallCourse) -> None:
    (small.folder / "mini/chapters/01").rename(small.folder / "mini/chapters/02")

    assert any(
        "chapters/02/chapter.toml: folder: is next after 0; name it 01" in problem for problem in small.meaning()
    )


def test_a_format_that_can_be_made_but_is_not_listed_is_named(small: SmallCourse) -> None:
    built = {SkillId("add-small"): (FormatId("horiz"), FormatId("vert")), SkillId("elsewhere"): (FormatId("vert"),)}

    problems = check_course(small.course(), built=built)

    assert [str(problem) for problem in problems] == [
        f'{SKILL}: formats: can be made as "vert" but does not list it; add it'
    ]


def test_a_number_line_called_a_ruler_asks_for_no_ruler(small: SmallCourse) -> None:
    small.change(DAY, 'materials = ["ten-frame"]', "materials = []")
    small.change(DAY, "Lay out the ten-frame mat.", "A row of eggs is like a ten-frame mat.")

    assert small.meaning() == []


def test_a_familys_own_lesson_may_name_no_skill(small: SmallCourse) -> None:
    small.change("mini/course.toml", 'covers = "2"\n', "")
    small.change(DAY, 'new = ["add-small"]', "new = []")
    small.change(SKILL, 'role = "core"', 'role = "refresh"')

    assert small.meaning() == []
