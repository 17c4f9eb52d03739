"""A day put together and printed: course + belief + history + seed → sheets, guide, key."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from dayleaf.core.errors import DayleafError
from dayleaf.packets.binding import bound
from dayleaf.packets.form_pages import form_for, form_sides, form_tables
from dayleaf.packets.guide import compose_guide, guide_items
from dayleaf.packets.look_back import all_so_far_sides, look_back_sides
from dayleaf.packets.model import Child, GuideItems, Packet, Prints
from dayleaf.packets.pages import (
    BACK_PLACES,
    Maker,
    front_items,
    one_each,
    own_items,
    page,
    printed_skills,
    with_pictures,
    worked_example,
)
from dayleaf.packets.project import print_project
from dayleaf.packets.spread import spread_on, without_lonely_filler
from dayleaf.packets.tenth_day import tenth_day_sides
from dayleaf.sheets.ids import sheet_id
from dayleaf.sheets.model import Block, PageSpec, Placed, SheetSpec
from dayleaf.sheets.typeset import PageTooFull, check_room, typeset_guide, typeset_key, typeset_pages

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from dayleaf.core.ids import SkillId
    from dayleaf.course.model import Course, Day
    from dayleaf.items.model import Item
    from dayleaf.learner.review import Back
    from dayleaf.sheets.model import KeyTable, PageKind

TRIES = 12
NOTHING_LEFT_OUT = frozenset({"test", "look-back", "look-back-all"})
"""Kinds of day whose items go on to another side where one is too full."""


class DoesNotFit(DayleafError):
    """A page stays too full even with one item: the layout and the item do not go together."""

    def __init__(self, day: Day) -> None:
        super().__init__(f"A page of {day.id} is too full even with one item on it.")


def prepare_day(
    course: Course,
    day: Day,
    child: Child,
    *,
    seed: int,
    backs: Sequence[Back],
    avoid: Iterable[str] = (),
    id_parts: Sequence[str | int] = (),
    yesterday: str = "",
    younger_child: bool = False,
    form: str = "A",
    fix_up: Sequence[SkillId] = (),
) -> Packet:
    """Choose every item of a day.

    `backs` are the skills that come back, in order; `avoid` holds keys of items this child (or a
    sibling) has had lately; `id_parts` makes the sheet ids; `yesterday` is one sentence for the
    guide. `younger_child` asks for the caution about small parts. `form` is the form of a chapter test; `fix_up` are
    the skills that the test before a tenth day named. Same arguments, same packet.

    Raises:
        NotBuiltYet: a skill of the day has no printed items.
        NoSuchForm: the test has no form of that letter.
    """
    maker = Maker(course, day, seed, child.look.lang, set(avoid))
    chosen = guide_items(maker)
    letter = form.upper() if day.kind == "test" else ""
    sides = _sides(maker, child, chosen, backs, form=letter, fix_up=fix_up)
    parts = (*(tuple(id_parts) or (day.id, seed)), *([letter] if letter > "A" else []))
    sheets = tuple(
        SheetSpec(sheet_id(*parts, seed, index), day.id, child.name, pages, letter) for index, pages in enumerate(sides)
    )
    materials = [course.materials[name] for name in (*day.materials, *day.print_outs) if name in course.materials]
    cautions = tuple(dict.fromkeys(material.caution for material in materials if material.caution))
    if younger_child and any(material.small_parts for material in materials):
        cautions = (*cautions, "Count small parts back in, away from the little one.")
    return Packet(
        day=day,
        child=child,
        sheets=sheets,
        guide_items=chosen,
        backs=tuple(backs),
        fetch=tuple(material.title for material in materials),
        cautions=cautions,
        yesterday=yesterday,
        fix_up=tuple(fix_up),
    )


def _sides(
    maker: Maker, child: Child, chosen: GuideItems, backs: Sequence[Back], *, form: str, fix_up: Sequence[SkillId]
) -> tuple[tuple[PageSpec, ...], ...]:
    """The sides of each sheet of the day."""
    day = maker.day
    back = tuple(choice.skill for choice in backs)
    if day.kind == "lesson":
        return _lesson_sides(maker, child, chosen, back)
    maker.sheet.clear()
    if day.kind == "test":
        return form_sides(form_for(maker.course, day, form=form, seed=maker.seed), maker.lang)
    if day.kind == "look-back":
        return look_back_sides(maker, back)
    if day.kind == "look-back-all":
        return all_so_far_sides(maker, back, fix_up=fix_up)
    return tenth_day_sides(maker, back, fix_up=fix_up)


def _lesson_sides(
    maker: Maker, child: Child, chosen: GuideItems, back: Sequence[SkillId]
) -> tuple[tuple[PageSpec, ...], ...]:
    day, fewer = maker.day, child.fewer_items
    two = day.second_sheet if child.two_sheets is None else child.two_sheets
    printed_skills(maker, day.front_skills)
    maker.sheet.clear()
    if two:
        maker.sheet.update(item.key for item in chosen.together)
    example = worked_example(maker) if day.number <= _first_day(maker) + 1 else None
    own = own_items(maker, fewer=fewer)
    if not two:
        returning = one_each(maker, back, place="back", most=BACK_PLACES)
        return _sheets(_sheet(maker, ("own", own), ("back", returning), example=example))
    together = with_pictures(maker, chosen.together)
    first = _sheet(maker, ("together", together), ("own", own), example=example)
    maker.sheet.clear()
    front = front_items(maker, fewer=fewer)
    returning = one_each(maker, back, place="back", most=BACK_PLACES)
    return _sheets(first, _sheet(maker, ("front", front), ("back", returning)))


def _sheets(*sheets: tuple[PageSpec, ...]) -> tuple[tuple[PageSpec, ...], ...]:
    return tuple(sheet for sheet in sheets if sheet)


def _sheet(maker: Maker, *sides: tuple[PageKind, Sequence[Item]], example: Item | None = None) -> tuple[PageSpec, ...]:
    """The sides of one sheet; a side without items is left out, never printed empty."""
    pages: list[PageSpec] = []
    first = 1
    for kind, items in sides:
        if items:
            shown = example if kind == "own" else None
            pages.append(page(kind, items, maker.lang, first=first, example=shown))
            first += len(items)
    return tuple(pages)


def _first_day(maker: Maker) -> int:
    """The number of the day on which today's first skill is new: the worked example fades two days later."""
    skill = maker.day.front_skills[0]
    return next((day.number for day in maker.course.days if skill in day.new_skills), maker.day.number)


def print_packet(course: Course, packet: Packet) -> Prints:
    """Set the pages, the key and the guide, after `fit_packet`.

    Raises:
        DoesNotFit: a page with one item is still too full.
    """
    look = packet.child.look
    for _ in range(TRIES):
        packet = fit_packet(packet)
        try:
            pages = typeset_pages(packet.sheets, look)
        except PageTooFull as full:
            packet = _shortened(packet, full)
        else:
            key = typeset_key(packet.sheets, look, tables=key_tables(course, packet))
            return Prints(guide=_guide(course, packet), pages=pages, key=key, packet=packet)
    raise DoesNotFit(packet.day)


def fit_packet(packet: Packet) -> Packet:
    """The packet with no more on each side than there is room for, so that nothing runs over silently.

    A page that is too full loses its longest block's middle item; where nothing may be left out, items go on to
    another side. Sides are measured, not set.

    Raises:
        DoesNotFit: a page with one item is still too full.
    """
    for _ in range(TRIES):
        try:
            check_room(packet.sheets, packet.child.look)
        except PageTooFull as full:
            packet = _shortened(packet, full)
        else:
            whole = packet.day.kind in NOTHING_LEFT_OUT
            lean = without_lonely_filler(packet.sheets) if whole else packet.sheets
            if lean == packet.sheets:
                return packet
            packet = replace(packet, sheets=lean)
    raise DoesNotFit(packet.day)


def _shortened(packet: Packet, full: PageTooFull) -> Packet:
    room = full.room or {full.page: full.fits or full.items - 1}
    if packet.day.kind in NOTHING_LEFT_OUT:
        return replace(packet, sheets=spread_on(packet.sheets, room, packet.child.look.lang))
    return replace(packet, sheets=_thinned(packet, room))


def key_tables(course: Course, packet: Packet) -> tuple[KeyTable, ...]:
    """What stands at the end of a test's key; nothing on other days."""
    return form_tables(course, packet.sheets) if packet.day.kind == "test" else ()


def _guide(course: Course, packet: Packet) -> bytes:
    """The day's guide; behind a project's, the project's own page with what to look for."""
    guide = typeset_guide(compose_guide(course, packet), packet.child.look)
    project = course.projects.get(packet.day.chapter) if packet.day.kind == "project" else None
    if project is None:
        return guide
    whole, _before = bound((guide, print_project(course, project, packet.child.look)))
    return whole


def _thinned(packet: Packet, room: Mapping[int, int]) -> tuple[SheetSpec, ...]:
    """The sheets with no more items than there is room for on each side (counted from 1), numbers running on again."""
    seen = 0
    thinned: list[SheetSpec] = []
    for sheet in packet.sheets:
        pages = []
        for side in sheet.pages:
            seen += 1
            pages.append(_at_most(packet, side, room.get(seen)))
        thinned.append(replace(sheet, pages=_renumbered(pages)))
    return tuple(thinned)


def _at_most(packet: Packet, side: PageSpec, room: int | None) -> PageSpec:
    """The side with at most `room` items, and always one fewer where it was too full."""
    if room is None:
        return side
    side = _one_fewer(packet, side)
    while sum(len(block.items) for block in side.blocks) > max(room, 1):
        side = _one_fewer(packet, side)
    return side


def _one_fewer(packet: Packet, side: PageSpec) -> PageSpec:
    longest = max(side.blocks, key=lambda block: len(block.items))
    if len(longest.items) > 1:
        middle = len(longest.items) // 2
        shorter = replace(longest, items=longest.items[:middle] + longest.items[middle + 1 :])
        return replace(side, blocks=tuple(shorter if block is longest else block for block in side.blocks))
    if any(block.example for block in side.blocks):
        return replace(side, blocks=tuple(replace(block, example=None) for block in side.blocks))
    if len(side.blocks) == 1:
        raise DoesNotFit(packet.day)
    return replace(side, blocks=side.blocks[:-2] + side.blocks[-1:])


def _renumbered(pages: Iterable[PageSpec]) -> tuple[PageSpec, ...]:
    number = 0
    done: list[PageSpec] = []
    for side in pages:
        blocks: list[Block] = []
        for block in side.blocks:
            items = tuple(Placed(number + place, old.item) for place, old in enumerate(block.items, start=1))
            number += len(items)
            blocks.append(replace(block, items=items))
        done.append(replace(side, blocks=tuple(blocks)))
    return tuple(done)
