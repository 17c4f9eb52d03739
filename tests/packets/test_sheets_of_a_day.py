"""What must hold of every day put together, over real lessons and both numbers of sheets."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from dayleaf.items.face import face
from dayleaf.items.second import second_answer
from dayleaf.packets.day import prepare_day

if TYPE_CHECKING:
    from collections.abc import Callable

    from dayleaf.course.model import Course, Day
    from dayleaf.items.model import Item
    from dayleaf.packets.model import Packet


CALLS = {"abs": abs, "min": min, "max": max, "len": len, "set": set, "str": str, "int": int}
"""The calls that docs and rules allow."""


def numbers_of(item: Item) -> tuple[str, tuple[tuple[str, int], ...]]:
    """The same numbers in another format are the same item."""
    return item.skill, tuple(sorted(item.numbers.items()))


def allows(rule: str, numbers: dict[str, int]) -> bool:
    """Whether a rule such as `a=21..98 b=12..89 | a%10<b%10 and a>b` allows numbers: Python's own reading of it.

    The rule's language is Python's for what stands after the bar; before it stand ranges and lists.
    """
    ranges, _, condition = rule.partition("|")
    for part in ranges.split():
        name, _, span = part.partition("=")
        allowed: set[int] = set()
        for piece in span.split(","):
            first, dots, last = piece.partition("..")
            allowed.update(range(int(first), int(last) + 1) if dots else [int(piece)])
        if numbers[name] not in allowed:
            return False
    return not condition.strip() or bool(eval(condition, {"__builtins__": CALLS}, dict(numbers)))  # noqa: S307 -- our own file


def test_no_item_stands_twice_on_a_sheet_not_even_in_another_format(
    packet: Packet,
) -> None:
    for sheet in packet.sheets:
        items = [placed.item for side in sheet.pages for block in side.blocks for placed in block.items]

        assert len({numbers_of(item) for item in items}) == len(items)
        assert len({face(item) for item in items}) == len(items)


def test_the_worked_example_is_never_asked_on_its_sheet(
    packet: Packet,
) -> None:
    for sheet in packet.sheets:
        blocks = [block for side in sheet.pages for block in side.blocks]
        asked = {numbers_of(placed.item) for block in blocks for placed in block.items}

        assert not asked & {numbers_of(block.example) for block in blocks if block.example}


def test_all_numbers_are_inside_the_skills_rule_and_the_answers_come_out_twice(
    packet: Packet, course: Course, on: Callable[..., list[Item]]
) -> None:
    items = on(packet)

    assert items
    for item in items:
        rule = course.skills[item.skill].item_rule
        assert rule is not None
        assert allows(rule, dict(item.numbers)), item.key
        assert second_answer(item) == item.answer, item.key


def test_item_numbers_run_from_one_through_both_sides(
    packet: Packet,
) -> None:
    for sheet in packet.sheets:
        numbers = [placed.n for side in sheet.pages for block in side.blocks for placed in block.items]

        assert numbers == list(range(1, len(numbers) + 1))


def test_two_sheets_have_four_sides_and_one_sheet_has_two(deal: tuple[Day, bool, int], packet: Packet) -> None:
    _, two, _ = deal
    sides = [[side.kind for side in sheet.pages] for sheet in packet.sheets]

    assert sides == ([["together", "own"], ["front", "back"]] if two else [["own", "back"]])


def test_the_sides_of_today_ask_todays_skills_and_the_back_none_of_them(
    deal: tuple[Day, bool, int], packet: Packet, on: Callable[..., list[Item]]
) -> None:
    day, _, _ = deal
    today = set(day.front_skills)
    assert {item.skill for item in on(packet, "own", "front")} == today
    back = [item.skill for item in on(packet, "back")]
    assert back
    assert not set(back) & {*today, *day.new_skills}
    assert len(set(back)) == len(back)


def test_every_instruction_is_at_most_twelve_words(
    packet: Packet,
) -> None:
    # JOB 3.1
    for sheet in packet.sheets:
        for block in (block for side in sheet.pages for block in side.blocks):
            assert 1 <= len(re.findall(r"[\w<>=□]+", block.instruction)) <= 12, block.instruction


def test_the_same_arguments_give_the_same_packet_and_another_seed_another(
    deal: tuple[Day, bool, int],
    packet: Packet,
    course: Course,
    prepare: Callable[..., Packet],
    on: Callable[..., list[Item]],
) -> None:
    day, two, seed = deal
    again = prepare_day(course, day, packet.child, seed=seed, backs=packet.backs)
    other = prepare(day.number, seed=seed + 1000, two=two)

    assert packet == again
    assert [item.key for item in on(packet)] != [item.key for item in on(other)]
    assert {sheet.id for sheet in packet.sheets}.isdisjoint(sheet.id for sheet in other.sheets)


def test_fewer_items_keep_every_skill(
    deal: tuple[Day, bool, int], packet: Packet, prepare: Callable[..., Packet], on: Callable[..., list[Item]]
) -> None:
    day, two, seed = deal
    fewer = prepare(day.number, seed=seed, two=two, fewer=True)

    for kind in ("own", "front"):
        few, whole = on(fewer, kind), on(packet, kind)
        assert {item.skill for item in few} == {item.skill for item in whole}
        assert len(few) <= len(whole)
        if len(whole) >= 5:
            assert len(whole) / 2 <= len(few) < len(whole)


def test_numbers_had_yesterday_do_not_come_again_while_the_rule_has_others(
    deal: tuple[Day, bool, int],
    packet: Packet,
    course: Course,
    prepare: Callable[..., Packet],
    on: Callable[..., list[Item]],
) -> None:
    day, two, seed = deal
    before = on(packet)
    avoid = frozenset(item.key for item in before)

    again = on(prepare(day.number, seed=seed + 1, two=two, avoid=avoid))

    had = {numbers_of(item) for item in before if (course.skills[item.skill].distinct_items or 0) >= 200}
    assert not had & {numbers_of(item) for item in again}
