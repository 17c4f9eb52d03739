"""The guide of a day of a family's own course: which pages of their book, and our own words for its skills beside it.

And the family's own lines, which stand in Open or Close of any day.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from dayleaf.sheets.model import GuideLine, GuideSection
from dayleaf.wording.say import steps_of, text_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from dayleaf.course.model import Course, Day
    from dayleaf.packets.model import Packet

OPEN: Final = "Open"
CLOSE: Final = "Close"
BEFORE: Final = "Before you sit down"
MOST_TROUBLES: Final = 3
"""Error ways of a skill that a guide beside another book names."""


def is_beside(course: Course, day: Day) -> bool:
    """Whether the day is one of a family's own course, taught from their own books."""
    return day.guide is None and not course.covers


def beside_sections(course: Course, packet: Packet) -> tuple[GuideSection, ...]:
    """What stands in the guide of such a day: the pages, and what we can say of each confirmed skill."""
    day = packet.day
    first = [GuideLine("", day.how or "Nothing to open in your own books today.")]
    if day.alone:
        first.append(GuideLine("", f"{packet.child.name} works this day alone; look it over afterwards."))
    if packet.sheets:
        first.append(GuideLine("", "The sheet printed with this page goes beside your own; its back is earlier work."))
    sections = [GuideSection(BEFORE, None, tuple(first))]
    skills = [course.skills[skill] for skill in day.front_skills] if day.kind == "lesson" else []
    lines: list[GuideLine] = []
    for skill in skills:
        lines += [GuideLine("say", skill.say), GuideLine("ask", skill.ask), GuideLine("answer", skill.answer)]
        ways = [way for way in skill.error_ways if way.shows_as == "wrong answer"][:MOST_TROUBLES]
        lines += [GuideLine("if-instead", f"{way.text}.") for way in ways]
    lines += [
        GuideLine("", f"{text_of(item, 'en')}  {' '.join(steps_of(item, 'en'))}") for item in packet.guide_items.show
    ]
    if lines and not day.alone:
        sections.append(GuideSection("Show", day.parent_minutes or None, tuple(lines), core=True))
    return tuple(sections)


def with_family_lines(sections: Sequence[GuideSection], family: Sequence[tuple[str, str]]) -> tuple[GuideSection, ...]:
    """The sections with the family's lines, (`open` or `close`, words): Open begins with one, Close ends with one."""
    found = list(sections)
    for part, words in family:
        heading = OPEN if part == "open" else CLOSE
        line = GuideLine("", f"Your family's line: {words}")
        place = next((n for n, section in enumerate(found) if section.heading == heading), None)
        if place is None:
            new = GuideSection(heading, None, (line,))
            led_in = bool(found) and found[0].heading == BEFORE
            at = int(led_in) if part == "open" else len(found)
            found.insert(at, new)
        else:
            old = found[place]
            lines = (line, *old.lines) if part == "open" else (*old.lines, line)
            found[place] = replace(old, lines=lines)
    return tuple(found)
