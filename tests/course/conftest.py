"""A course small enough to read at a glance, written to files so that a test can break one of them."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from dayleaf.course.check import check_course
from dayleaf.course.load import read_course

if TYPE_CHECKING:
    from pathlib import Path

    from dayleaf.course.model import Course

FILES = {
    "formats.toml": """
source = "common practice, no source"
[horiz]
name = "Row"
does = "a + b = [box]"
answer = "whole number"
marking = "keyed"
per_side = [8, 12]
instruction = "Write the answer."
""",
    "pictures.toml": """
[counters]
must_show = "loose counters"
parameters = ["n"]
""",
    "error_ways.toml": """
[one-short]
phrase = "counting one too few"
try_next = "Count again with a finger on each."
goes_to = "count-on"
""",
    "standards.toml": """
source = "made up for this test"
["2.OA.A.1"]
paraphrase = "add small numbers"
["1.OA.A.1"]
paraphrase = "count on"
""",
    "mini/course.toml": """
title = "Mini"
covers = "2"
[strands]
add = "Adding"
""",
    "mini/materials.toml": """
source = "common practice, no source"
[ten-frame]
title = "ten-frame mat"
from = "print-out"
prep_minutes = 1
small_parts = false
scissors = false
how_many = "1"
""",
    "mini/skills/add/count-on.toml": """
title = "Count on"
grade = "1"
role = "below"
prereqs = []
codes = ["1.OA.A.1"]
fit = "exact"
number_range = "1-3"
formats = ["horiz"]
pictures = []
materials = []
say = "Count on."
ask = "3 and one more?"
answer = "4"
""",
    "mini/skills/add/add-small.toml": """
title = "Add small numbers"
grade = "2"
role = "core"
prereqs = ["count-on"]
codes = ["2.OA.A.1"]
fit = "exact"
number_range = "sums to 5"
item_rule = "a=1..4 b=1..4 | a+b<=5"
distinct_items = 10
formats = ["horiz"]
pictures = ["counters"]
materials = ["ten-frame"]
say = "Put together."
ask = "2 and 3?"
answer = "5"
[[error_ways]]
id = "one-short"
text = "Counts the start, 2+3→4"
shows_as = "wrong answer"
""",
    "mini/chapters/01/chapter.toml": """
title = "Small sums"
aim = "By the end the child adds to five."
big_idea = "Two parts make a whole"
words_taught = ["add"]
usual_trouble = ["Counting the start"]
story = "The Short Plank"
stretch_skills = []
""",
    "mini/chapters/01/day-001.toml": """
kind = "lesson"
title = "Two and three"
how = "Counters"
fact_warm_up = "count-on"
materials = ["ten-frame"]
print_outs = ["picture-card:counters"]
second_sheet = true
if_short = "keep"
[skills]
new = ["add-small"]
refresh = []
front = ["add-small"]
back = ["count-on"]
stretch = []
[minutes]
adult = 10
alone = 12
source = "common practice, no source"
[guide]
aim = "By the end {child} adds."
before = "Lay out the ten-frame mat."
shown = [["add-small", "horiz"]]
together = [["add-small", "horiz"]]
watch = "Ask {together.1.text} again."
short = "Show only."
bare = "Use fingers."
[[guide.parts]]
name = "show"
minutes = 6
core = true
steps = '''
say: {show.1.a} and {show.1.b}.
ask: How many?
answer: {show.1.answer}
if instead: {show.1.error.one-short}. Put a finger on the start
  and stay silent there.
'''
[[guide.parts]]
name = "together"
minutes = 4
steps = '''
do: Work {together.1.text}.
'''
[[guide.parts]]
name = "alone"
minutes = 12
steps = '''
do: Own page.
'''
""",
    "mini/chapters/01/day-002.toml": """
kind = "look-back"
title = "Look back"
how = "Sort"
materials = []
print_outs = []
second_sheet = false
if_short = "join-next"
[skills]
new = []
refresh = []
front = ["add-small"]
back = ["count-on"]
stretch = []
[minutes]
adult = 5
alone = 20
source = "common practice, no source"
""",
    "mini/chapters/01/day-003.toml": """
kind = "test"
title = "Test"
how = "Untimed"
materials = []
print_outs = []
second_sheet = false
if_short = "keep"
[skills]
new = []
refresh = []
front = ["add-small"]
back = []
stretch = []
[minutes]
adult = 5
alone = 20
source = "common practice, no source"
""",
}


class SmallCourse:
    """The files above in a folder of their own."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        for name, text in FILES.items():
            self.write(name, text)

    def write(self, name: str, text: str) -> None:
        path = self.folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")

    def change(self, name: str, old: str, new: str) -> None:
        """Replace a piece of one file; a piece that is not there is a slip of the test."""
        text = (self.folder / name).read_text(encoding="utf-8")
        assert old in text, f"{old!r} is not in {name}"
        self.write(name, text.replace(old, new, 1))

    def shape(self) -> list[str]:
        """What reading says of the files."""
        return [str(problem) for problem in read_course(self.folder / "mini")[1]]

    def course(self) -> Course:
        course, problems = read_course(self.folder / "mini")
        assert course is not None, problems
        return course

    def meaning(self) -> list[str]:
        """What the check of meaning says of the course."""
        return [str(problem) for problem in check_course(self.course())]


@pytest.fixture
def small(tmp_path: Path) -> SmallCourse:
    return SmallCourse(tmp_path / "content")
