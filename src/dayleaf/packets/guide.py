"""The lesson guide with the day's own numbers in it, so that guide and pages always agree."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import FormatId
from dayleaf.course.slots import fill, piece_of
from dayleaf.packets.model import GuideItems
from dayleaf.sheets.cells import answer_words
from dayleaf.sheets.model import GuideLine, GuideSection, GuideSheet
from dayleaf.wording.say import steps_of, text_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from dayleaf.course.model import Course, Guide
    from dayleaf.course.slots import Slot
    from dayleaf.items.model import Item
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


def _asked(maker: Maker, pairs: Sequence[tuple[object, object]], place: str) -> tuple[Item, ...]:
    """Items for (skill, format) pairs in their order; equal pairs are chosen as one set, so that they differ."""
    chosen: dict[tuple[object, object], list[Item]] = {}
    for pair in dict.fromkeys(pairs):
        skill, name = pair
        chosen[pair] = list(maker.items(skill, (name,), n=list(pairs).count(pair), place=place))  # type: ignore[arg-type]
    return tuple(chosen[pair].pop(0) for pair in pairs)


def compose_guide(course: Course, packet: Packet) -> GuideSheet:
    """Fill the written guide's slots and add the day's facts and answers."""
    day = packet.day
    guide = day.guide
    sections = _written(packet, guide) if guide is not None else _from_skills(course, packet)
    return GuideSheet(
        lesson=day.id,
        title=day.title,
        under_title=f"{packet.child.name} · day {day.number} · {course.chapters[day.chapter - 1].title}",
        facts=_facts(packet),
        sections=sections,
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
    sections = [GuideSection("Before you sit down", None, (GuideLine("", aim), GuideLine("", before)))]
    for part in guide.parts:
        lines = [GuideLine(step.kind, _filled(packet, step.text)) for step in part.steps]
        if part.name == "open" and packet.guide_items.warm_up:
            facts = (_filled_in(item) for item in packet.guide_items.warm_up)
            lines.append(GuideLine("", "Facts to ask aloud: " + " · ".join(facts)))
        if part.name == "together" and guide.watch:
            lines.append(GuideLine("", _filled(packet, guide.watch)))
        sections.append(GuideSection(HEADINGS[part.name], part.minutes or None, tuple(lines), core=part.core))
    return tuple(sections)


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
    return fill(text, lambda slot: _slot_value(packet, slot))


def _slot_value(packet: Packet, slot: Slot) -> str:
    """The value of one slot; `dayleaf check` has made sure that each slot of our course has one."""
    if slot.place == "child":
        return packet.child.name
    items: Sequence[Item]
    if slot.place == "own":
        sides = (side for sheet in packet.sheets for side in sheet.pages if side.kind == "own")
        items = [placed.item for side in sides for block in side.blocks for placed in block.items]
    else:
        items = packet.guide_items.show if slot.place == "show" else packet.guide_items.together
    return value_of(items[slot.n - 1], slot.name)


def value_of(item: Item, name: str) -> str:
    """One named value of an item: a rule variable, its tens or ones, text, answer, or error.WAY."""
    if name == "text":
        return text_of(item, "en").removesuffix(" = □")
    if name == "answer":
        return _answer(item)
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
