"""A day put together and printed: course + belief + history + seed → sheets, guide, key."""

from __future__ import annotations

from collections import Counter
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from typing import TYPE_CHECKING

from dayleaf.core.errors import DayleafError
from dayleaf.packets.binding import bound
from dayleaf.packets.form_pages import form_for, form_sides, form_tables
from dayleaf.packets.guide import compose_guide, guide_items
from dayleaf.packets.look_back import all_so_far_sides, look_back_sides
from dayleaf.packets.model import AllInTheBook, Child, GuideItems, Packet, Prints
from dayleaf.packets.pages import (
    BACK_PLACES,
    Maker,
    front_items,
    one_each,
    own_items,
    page,
    printed_skills,
    renumbered,
    with_pictures,
    worked_example,
)
from dayleaf.packets.project import print_project
from dayleaf.packets.room import height_beside
from dayleaf.packets.spread import spread_on, without_lonely_filler
from dayleaf.packets.tenth_day import tenth_day_sides
from dayleaf.sheets.ids import sheet_id
from dayleaf.sheets.model import Block, PageSpec, SheetSpec
from dayleaf.sheets.typeset import PageTooFull, check_room, typeset_guide, typeset_key, typeset_pages

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Sequence

    from dayleaf.core.ids import SkillId
    from dayleaf.course.model import Course, Day
    from dayleaf.items.model import Item
    from dayleaf.learner.review import Back
    from dayleaf.sheets.model import KeyTable, PageKind

TRIES = 24
BESIDE = ThreadPoolExecutor(max_workers=1, thread_name_prefix="key")
"""Sets keys while the pages are set: the typesetter works without holding the interpreter."""
ITEMS_BEFORE_EXAMPLE = 3
"""A worked example may take the room of items as long as so many are left."""
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
    if not day.front_skills:
        maker.sheet.clear()
        return _sheets(_sheet(maker, ("back", one_each(maker, back, place="back", most=BACK_PLACES))))
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
    """Set the pages, the key and the guide, after `fit_packet`; the key beside the pages, on another core.

    Raises:
        DoesNotFit: a page with one item is still too full.
        AllInTheBook: a day of a family's own course has no sheet.
    """
    if not packet.sheets:
        raise AllInTheBook(packet.day)
    for _ in range(TRIES):
        packet = fit_packet(packet)
        look = packet.child.look
        key = BESIDE.submit(typeset_key, packet.sheets, look, tables=key_tables(course, packet))
        try:
            pages = typeset_pages(packet.sheets, look)
        except PageTooFull as full:
            key.cancel()
            packet = _shortened(packet, full)
        else:
            return Prints(guide=_guide(course, packet), pages=pages, key=key.result(), packet=packet)
    raise DoesNotFit(packet.day)


def fit_packet(packet: Packet) -> Packet:
    """The packet with no more on each side than there is room for, so that nothing runs over silently.

    A page that is too full loses one item after another; where nothing may be left out, items go on to another side.
    Sides are measured, not set, and nothing is measured twice.

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
    if packet.day.kind in NOTHING_LEFT_OUT:
        room = full.room or {full.page: full.fits or full.items - 1}
        if packet.child.look.large_boxes and 0 in room.values():
            return _with_standard_boxes(packet)
        return replace(packet, sheets=spread_on(packet.sheets, room, packet.child.look.lang))
    return replace(packet, sheets=_thinned(packet, full.room or {full.page}))


def _with_standard_boxes(packet: Packet) -> Packet:
    """The packet for a child with large boxes, where an item that may not be left out is too wide with them."""
    child = packet.child
    return replace(packet, child=replace(child, look=replace(child.look, large_boxes=False)))


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


def _thinned(packet: Packet, full: Collection[int]) -> tuple[SheetSpec, ...]:
    """The sheets with one item fewer on each of these sides (counted from 1), numbers running on again."""
    seen = 0
    thinned: list[SheetSpec] = []
    for sheet in packet.sheets:
        pages = []
        for side in sheet.pages:
            seen += 1
            pages.append(_one_fewer(packet, side) if seen in full else side)
        thinned.append(replace(sheet, pages=renumbered(pages)))
    return tuple(thinned)


def _one_fewer(packet: Packet, side: PageSpec) -> PageSpec:
    """The side without the middle one of the highest items whose skill has others.

    The example goes before it would cost the side its third item. Where every skill has one item left, the last but
    one goes: the last of a back is its one picture.
    """
    lang = packet.child.look.lang
    of_skill = Counter(placed.item.skill for block in side.blocks for placed in block.items)
    spare = [block for block in side.blocks if of_skill[_middle(block).skill] > 1]
    dear = any(block.example for block in side.blocks) and of_skill.total() <= ITEMS_BEFORE_EXAMPLE
    if spare and not dear:
        return _without(side, max(spare, key=lambda block: (height_beside(_middle(block), lang), len(block.items))))
    if any(block.example for block in side.blocks):
        return replace(side, blocks=tuple(replace(block, example=None) for block in side.blocks))
    if len(side.blocks) == 1:
        raise DoesNotFit(packet.day)
    return replace(side, blocks=side.blocks[:-2] + side.blocks[-1:])


def _middle(block: Block) -> Item:
    return block.items[len(block.items) // 2].item


def _without(side: PageSpec, block: Block) -> PageSpec:
    """The side without the middle item of a block, or without the block; its example goes on to the next one."""
    at = side.blocks.index(block)
    middle = len(block.items) // 2
    left = [replace(block, items=block.items[:middle] + block.items[middle + 1 :])] if len(block.items) > 1 else []
    after = list(side.blocks[at + 1 :])
    if not left and block.example and after:
        after[0] = replace(after[0], example=block.example)
    return replace(side, blocks=(*side.blocks[:at], *left, *after))
