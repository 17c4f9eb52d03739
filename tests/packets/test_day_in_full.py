"""Guide, own page and prints of a day; and days that cannot be printed."""

from __future__ import annotations

import re
from dataclasses import replace
from io import BytesIO
from typing import TYPE_CHECKING

import pdfplumber
import pytest

from dayleaf.core.ids import ErrorWayId, SkillId
from dayleaf.packets.day import prepare_day, print_packet
from dayleaf.packets.guide import compose_guide
from dayleaf.packets.model import Child, NotBuiltYet
from dayleaf.sheets.model import Look

if TYPE_CHECKING:
    from collections.abc import Callable

    from dayleaf.course.model import Course, Day
    from dayleaf.items.model import Item
    from dayleaf.packets.model import Packet

SFL, TNR = ErrorWayId("smaller-from-larger"), ErrorWayId("ten-not-reduced")
LOOKS = {
    "letter": Look(),
    "a4, left-handed": Look(paper="a4", left_handed=True),
    "large boxes": Look(large_boxes=True),
    "compact": Look(compact=True),
}


def digit_by_digit(a: int, b: int) -> int:
    """JOB 1.7: in each place the smaller digit is taken from the larger."""
    return abs(a // 10 - b // 10) * 10 + abs(a % 10 - b % 10)


def ten_kept(a: int, b: int) -> int:
    """JOB 1.7: a ten is opened but not taken away from the tens, so the answer is ten too large."""
    return a - b + 10


@pytest.mark.slow
def test_the_own_page_of_regrouping_tells_the_two_commonest_ways_apart_for_a_thousand_seeds(
    course: Course, on: Callable[..., list[Item]]
) -> None:
    day = course.days[83]
    assert day.front_skills == (SkillId("sub-2digit-regroup"),)
    apart = []
    for seed in range(1000):
        # nothing comes back: the own page is chosen before the back and does not depend on it
        page = on(prepare_day(course, day, Child("Wren", two_sheets=False), seed=seed, backs=()), "own")
        pairs = [(item.numbers["a"], item.numbers["b"]) for item in page]
        apart.append(sum(digit_by_digit(a, b) != ten_kept(a, b) for a, b in pairs))
        for item, (a, b) in zip(page, pairs, strict=True):
            assert item.errors[SFL] == str(digit_by_digit(a, b))
            assert item.errors[TNR] == str(ten_kept(a, b))

    assert min(apart) >= 2


def test_the_guide_is_filled_with_the_days_own_numbers(
    lesson: Day, course: Course, prepare: Callable[..., Packet]
) -> None:
    packet = prepare(lesson.number, two=True)
    written = course.days[lesson.number - 1].guide
    assert written is not None

    sheet = compose_guide(course, packet)

    text = "\n".join(line.text for section in sheet.sections for line in section.lines)
    assert not re.search(r"\{[^}]*\}", text + sheet.short + sheet.bare)
    source = "\n".join(step.text for part in written.parts for step in part.steps)
    shown = {"show": packet.guide_items.show, "together": packet.guide_items.together}
    for place, n, name, zeros in re.findall(r"\{(show|together)\.(\d+)\.([a-z])\}(\d*)", source):
        number = f"{shown[place][int(n) - 1].numbers[name]}{zeros}"
        assert re.search(rf"(?<!\d){number}(?!\d)", text), (place, n, name)


def test_what_the_guide_works_through_together_stands_on_the_together_page(
    lesson: Day, prepare: Callable[..., Packet], on: Callable[..., list[Item]]
) -> None:
    packet = prepare(lesson.number, two=True)

    assert [item.key for item in on(packet, "together")] == [item.key for item in packet.guide_items.together]


def test_the_guides_last_lines_repeat_the_answers_of_every_side(
    lesson: Day, course: Course, prepare: Callable[..., Packet]
) -> None:
    packet = prepare(lesson.number, two=True)
    sides = [side for sheet in packet.sheets for side in sheet.pages]

    answers = compose_guide(course, packet).answers

    assert [len(lines) for _, lines in answers] == [sum(len(block.items) for block in side.blocks) for side in sides]
    for (_, lines), side in zip(answers, sides, strict=True):
        placed = [one for block in side.blocks for one in block.items]
        for line, one in zip(lines, placed, strict=True):
            assert line.startswith(f"{one.n}: ")
            if [part.kind for part in one.item.parts] == ["digits"]:
                assert line == f"{one.n}: {one.item.answer}"


@pytest.mark.parametrize("look", LOOKS.values(), ids=LOOKS)
@pytest.mark.parametrize("number", [7, 17, 84])
def test_a_day_prints_in_every_look_with_every_box_between_the_margins(
    number: int, look: Look, course: Course, prepare: Callable[..., Packet]
) -> None:
    packet = prepare(number, seed=5, two=True, look=look)

    prints = print_packet(course, packet)

    assert [page.kind for page in prints.pages.pages] == ["together", "own", "front", "back"]
    for page in prints.pages.pages:
        width, height = page.size_mm
        assert page.items
        # common practice, no source: home printers leave 8 mm or less unprinted, and the corner marks stand there
        assert all(box.x >= 8 and box.x + box.w <= width - 8 for box in page.boxes)
        assert all(box.y >= 15 and box.y + box.h <= height - 15 for box in page.boxes)
    with pdfplumber.open(BytesIO(prints.pages.pdf)) as document:
        for side in document.pages:
            assert all(sign["x0"] > 0 and sign["x1"] < side.width for sign in side.chars)
            assert all(sign["top"] > 0 and sign["bottom"] < side.height for sign in side.chars)
    with pdfplumber.open(BytesIO(prints.guide)) as document:
        assert len(document.pages) <= 2


@pytest.mark.parametrize("look", LOOKS.values(), ids=LOOKS)
def test_no_two_boxes_of_a_side_lie_on_each_other(look: Look, course: Course, prepare: Callable[..., Packet]) -> None:
    prints = print_packet(course, prepare(84, seed=9, two=True, look=look))

    for page in prints.pages.pages:
        for index, one in enumerate(page.boxes):
            for other in page.boxes[index + 1 :]:
                apart_x = one.x + one.w <= other.x + 0.01 or other.x + other.w <= one.x + 0.01
                apart_y = one.y + one.h <= other.y + 0.01 or other.y + other.h <= one.y + 0.01
                assert apart_x or apart_y, (one.id, other.id)


def test_what_is_printed_is_what_was_put_together(
    course: Course, prepare: Callable[..., Packet], on: Callable[..., list[Item]]
) -> None:
    prints = print_packet(course, prepare(84, seed=4, two=True))

    mapped = [item.key for page in prints.pages.pages for item in page.items]
    assert mapped == [item.key for item in on(prints.packet)]


def test_a_lesson_with_a_skill_that_is_not_built_names_it_and_gives_no_packet(
    course: Course,
) -> None:
    known = course.skills[SkillId("sub-2digit-regroup")]
    untaught = replace(known, id=SkillId("knots-and-hitches"))
    day = replace(course.days[83], front_skills=(*course.days[83].front_skills, untaught.id))
    with_it = replace(course, skills={**course.skills, untaught.id: untaught})

    with pytest.raises(NotBuiltYet, match="knots-and-hitches") as refused:
        prepare_day(with_it, day, Child("Wren"), seed=1, backs=())

    assert refused.value.skills == ("knots-and-hitches",)
    assert len(str(refused.value).splitlines()) == 1
