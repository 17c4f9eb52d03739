"""The lesson guide with the day's own numbers in it, so that guide and pages always agree."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from dayleaf.core.ids import FormatId
from dayleaf.course.slots import fill, piece_of, slots_in
from dayleaf.packets.beside import beside_sections, is_beside, with_family_lines
from dayleaf.packets.model import GuideItems
from dayleaf.sheets.cells import LETTERS, answer_words
from dayleaf.sheets.model import GuideLine, GuideSection, GuideSheet
from dayleaf.wording.say import steps_of, text_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from dayleaf.core.ids import SkillId
    from dayleaf.course.model import Course, Guide
    from dayleaf.course.slots import Slot
    from dayleaf.items.model import Figure, Item
    from dayleaf.packets.model import Packet
    from dayleaf.packets.pages import Maker

HEADINGS = {
    "open": "Open",
    "show": "Show",
    "together": "Together",
    "alone": "Alone",
    "close": "Close",
    "if-there-is-time": "If there is time",
}
PAGES = {
    "together": "Together page",
    "own": "Own page",
    "front": "Practice sheet, front",
    "back": "Practice sheet, back",
}
LETTERS_ALONE: Final = re.compile(r"(?:\s+[A-H])+$")
"""Letters of options that are pictures: beside their pictures they stand anyway."""
TOGETHER_ITEMS = 4
NO_BREAK = "\u00a0"
WARM_UP_FACTS = 8
SPOKEN: tuple[FormatId, ...] = tuple(FormatId(name) for name in ("strip", "horiz", "missing", "pattern"))


def guide_items(maker: Maker) -> GuideItems:
    """Choose the items that the guide shows and works through with the child."""
    guide = maker.day.guide
    warm_up = _warm_up(maker)
    if guide is None or not guide.shown:
        skills = [skill for skill in maker.day.front_skills if maker.formats(skill)]
        if maker.day.kind != "lesson" or not skills:
            return GuideItems(warm_up=warm_up)
        shown = maker.items(skills[0], maker.formats(skills[0])[:1], n=1, place="show")
        share = max(1, TOGETHER_ITEMS // len(skills))
        together = [maker.items(skill, maker.formats(skill)[:1], n=share, place="together") for skill in skills]
        return GuideItems(shown, tuple(item for some in together for item in some), warm_up)
    return GuideItems(_asked(maker, guide.shown, "show"), _asked(maker, guide.together, "together"), warm_up)


def _warm_up(maker: Maker) -> tuple[Item, ...]:
    """The spoken facts of the day, in a format that can be read aloud."""
    skill = maker.day.fact_warm_up
    if skill is None:
        return ()
    spoken = [name for name in SPOKEN if name in maker.formats(skill)]
    return maker.spoken(skill, spoken[0], n=WARM_UP_FACTS) if spoken else ()


def _asked(maker: Maker, pairs: Sequence[tuple[SkillId, FormatId]], place: str) -> tuple[Item, ...]:
    """Items for (skill, format) pairs in their order; equal pairs are chosen as one set, so that they differ.

    A pair that comes once gets the middle one of three: the first is the surest, and shows least.
    """
    chosen: dict[tuple[SkillId, FormatId], list[Item]] = {}
    for pair in dict.fromkeys(pairs):
        skill, name = pair
        wanted = list(pairs).count(pair)
        if wanted == 1:
            some = maker.tried(skill, (name,), n=3, place=place)
            chosen[pair] = [some[len(some) // 2]]
            maker.keep(chosen[pair])
        else:
            chosen[pair] = list(maker.items(skill, (name,), n=wanted, place=place))
    return tuple(chosen[pair].pop(0) for pair in pairs)


def compose_guide(course: Course, packet: Packet) -> GuideSheet:
    """Fill the written guide's slots and add the day's facts and answers."""
    day = packet.day
    guide = day.guide
    if is_beside(course, day):
        sections = beside_sections(course, packet)
    else:
        sections = _written(packet, guide) if guide is not None else _from_skills(course, packet)
    return GuideSheet(
        lesson=day.id,
        title=day.title,
        under_title=f"{packet.child.name} · day {day.number} · {course.chapters[day.chapter - 1].title}",
        facts=_facts(packet),
        sections=with_family_lines(sections, packet.family),
        short=_filled(packet, guide.short) if guide else "",
        bare=_filled(packet, guide.bare) if guide else "",
        answers=_answers(packet),
    )


def _facts(packet: Packet) -> tuple[tuple[str, str], ...]:
    day = packet.day
    facts = [("Minutes", f"{day.parent_minutes} with you, {day.child_minutes} alone")]
    if packet.fetch:
        facts.append(("Fetch", ", ".join(packet.fetch)))
    if packet.cautions:
        facts.append(("Mind", " ".join(packet.cautions)))
    if packet.yesterday:
        facts.append(("Yesterday", packet.yesterday))
    if packet.child.look.lang != "en":
        facts.append(("Language", "The child's pages are in another language; guides are in English only so far."))
    return tuple(facts)


def _written(packet: Packet, guide: Guide) -> tuple[GuideSection, ...]:
    aim = _filled(packet, guide.aim)
    before = _filled(packet, guide.before)
    seen = _on_together_page(packet)
    sections = [GuideSection("Before you sit down", None, (GuideLine("", aim), GuideLine("", before)))]
    for part in guide.parts:
        lines = [
            GuideLine(step.kind, _filled(packet, step.text), tuple(_pictures(packet, step.text, seen)))
            for step in part.steps
        ]
        if part.name == "open" and packet.guide_items.warm_up:
            facts = (_filled_in(item) for item in packet.guide_items.warm_up)
            lines.append(GuideLine("", "Facts to ask aloud: " + " · ".join(facts)))
        if part.name == "together" and guide.watch:
            lines.append(GuideLine("watch", _filled(packet, guide.watch)))
        sections.append(GuideSection(HEADINGS[part.name], part.minutes or None, tuple(lines), core=part.core))
    return tuple(sections)


def _on_together_page(packet: Packet) -> set[str]:
    """Keys of the items that lie on the table as a page; their pictures need not stand in the guide."""
    sides = (side for sheet in packet.sheets for side in sheet.pages if side.kind == "together")
    return {placed.item.key for side in sides for block in side.blocks for placed in block.items}


def _pictures(packet: Packet, text: str, seen: set[str]) -> Iterator[tuple[str, Figure]]:
    """The pictures of each item that this text reads out for the first time, lettered where one is to be chosen."""
    for slot in slots_in(text):
        if slot.name != "text" or slot.place not in ("show", "together"):
            continue
        item = _item_of(packet, slot)
        if item.key in seen:
            continue
        seen.add(item.key)
        if item.figure is not None and item.figure.kind != "none":
            yield "", item.figure
        options = (option for part in item.parts for option in part.options)
        yield from ((LETTERS[n], option.figure) for n, option in enumerate(options) if option.figure is not None)


def _filled_in(item: Item) -> str:
    """An item with its answers in its gaps: 13 − 5 = 8."""
    said = text_of(item, "en")
    for part in item.parts:
        said = said.replace("□", part.answer, 1)
    return said.replace(" ", NO_BREAK)


def _answer(item: Item, lang: str = "en") -> str:
    """The answer as a person reads it, or a word for what the eye judges."""
    return answer_words(item, lang) or "look"


def _from_skills(course: Course, packet: Packet) -> tuple[GuideSection, ...]:
    """What can be said of a lesson whose guide is not written yet: the skills' own words."""
    lines: list[GuideLine] = []
    for skill in packet.day.front_skills:
        known = course.skills[skill]
        lines += [GuideLine("say", known.say), GuideLine("ask", known.ask), GuideLine("answer", known.answer)]
        lines += [GuideLine("if-instead", way.text + ".") for way in known.error_ways]
    note = "This day's full guide is not written yet. Here is the heart of it."
    show = [
        GuideLine("", f"{text_of(item, 'en')}  {' '.join(steps_of(item, 'en'))}") for item in packet.guide_items.show
    ]
    return (
        GuideSection("Before you sit down", None, (GuideLine("", note), GuideLine("", packet.day.how))),
        GuideSection("Show", None, tuple(lines + show), core=True),
    )


def _filled(packet: Packet, text: str) -> str:
    """The text with its slots filled; what begins with a slot begins with a capital letter."""
    filled = fill(text, lambda slot: _slot_value(packet, slot))
    return filled[:1].upper() + filled[1:] if text.startswith("{") else filled


def _slot_value(packet: Packet, slot: Slot) -> str:
    """The value of one slot; `dayleaf check` has made sure that each slot of our course has one."""
    return packet.child.name if slot.place == "child" else value_of(_item_of(packet, slot), slot.name)


def _item_of(packet: Packet, slot: Slot) -> Item:
    items: Sequence[Item]
    if slot.place == "own":
        sides = (side for sheet in packet.sheets for side in sheet.pages if side.kind == "own")
        items = [placed.item for side in sides for block in side.blocks for placed in block.items]
    else:
        items = packet.guide_items.show if slot.place == "show" else packet.guide_items.together
    return items[slot.n - 1]


def value_of(item: Item, name: str) -> str:
    """One named value of an item: a rule variable, its tens or ones, text, answer, or error.WAY."""
    if name == "text":
        return LETTERS_ALONE.sub("", text_of(item, "en").removesuffix(" = □"))
    if name == "answer":
        return answer_words(item, "en", letters=False) or "look"
    if name.startswith("error."):
        return next(answer for way, answer in item.errors.items() if way == name.removeprefix("error."))
    variable, _, piece = name.partition(".")
    value = item.numbers[variable]
    return str(piece_of(value, piece) if piece else value)


def _answers(packet: Packet) -> tuple[tuple[str, tuple[str, ...]], ...]:
    pages: list[tuple[str, tuple[str, ...]]] = []
    for sheet in packet.sheets:
        for number, side in enumerate(sheet.pages, start=1):
            answers = tuple(
                f"{placed.n}: {_answer(placed.item, packet.child.look.lang)}"
                for block in side.blocks
                for placed in block.items
            )
            plain = packet.day.kind == "lesson"
            pages.append((PAGES[side.kind] if plain else f"{side.title} ({sheet.id}.{number})", answers))
    return tuple(pages)
