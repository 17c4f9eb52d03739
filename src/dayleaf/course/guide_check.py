"""Checks of the written guides: parts and minutes, slots, materials."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from dayleaf.course.guide import PART_NAMES
from dayleaf.course.places import in_day
from dayleaf.course.rules import RuleNotUnderstood, parse_rule
from dayleaf.course.slots import PIECES, SlotNotUnderstood, slots_in

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from dayleaf.core.errors import Problem
    from dayleaf.core.ids import FormatId, SkillId
    from dayleaf.course.model import Course, Day, Guide, Skill
    from dayleaf.course.slots import Slot

OWN_PAGE_ITEMS = 6
"""Own pages have at least this many items, so that a guide may name them."""
WITH_THE_ADULT = ("open", "show", "together", "close")


def check_guides(course: Course) -> Iterator[Problem]:
    """Check every guide there is."""
    for day in course.days:
        if day.guide is not None:
            yield from _check_parts(course, day, day.guide)
            yield from _check_items(course, day, day.guide)
            yield from _check_slots(course, day, day.guide)
            yield from _check_materials(course, day, day.guide)


def texts_of(guide: Guide) -> Iterator[tuple[str, str]]:
    """Yield every text of a guide with the field it stands in."""
    for name in ("aim", "before", "watch", "short", "bare"):
        yield f"guide.{name}", getattr(guide, name)
    for part in guide.parts:
        for n, step in enumerate(part.steps, start=1):
            yield f"guide.{part.name} step {n}", step.text


def _check_parts(course: Course, day: Day, guide: Guide) -> Iterator[Problem]:
    places = [PART_NAMES.index(part.name) for part in guide.parts]
    if sorted(set(places)) != places:
        order = ", ".join(part.name for part in guide.parts)
        yield in_day(course, day, "guide.parts", f"stand as {order}; the order is {', '.join(PART_NAMES)}, each once")
    core = [part.name for part in guide.parts if part.core]
    if day.kind == "lesson" and len(core) != 1:
        yield in_day(course, day, "guide.parts", f"have {len(core)} parts with core = true; a lesson has one")
    with_adult = sum(part.minutes for part in guide.parts if part.name in WITH_THE_ADULT)
    if with_adult != day.parent_minutes:
        message = (
            f"give {with_adult} minutes with the adult, but minutes.adult is {day.parent_minutes}; make them agree"
        )
        yield in_day(course, day, "guide.parts", message)
    alone = sum(part.minutes for part in guide.parts if part.name == "alone")
    if alone not in {0, day.child_minutes} or (day.kind == "lesson" and alone != day.child_minutes):
        message = f"give {alone} minutes alone, but minutes.alone is {day.child_minutes}; make them agree"
        yield in_day(course, day, "guide.parts", message)


def _check_items(course: Course, day: Day, guide: Guide) -> Iterator[Problem]:
    asked_today = {*day.new_skills, *day.refresh_skills, *day.front_skills, *day.back_skills}
    for field, pairs in (("shown", guide.shown), ("together", guide.together)):
        for n, (name, form) in enumerate(pairs, start=1):
            skill = course.skills.get(name)
            where = f"guide.{field}[{n}]"
            if skill is None:
                yield in_day(course, day, where, f'"{name}" is not a skill of the course; mend the name')
            elif form not in skill.formats:
                known = ", ".join(skill.formats)
                yield in_day(course, day, where, f'"{form}" is not a format of {name}; it has {known}')
            elif skill.format_from_day.get(form, "") > day.id:
                message = f'"{form}" is held back until {skill.format_from_day[form]}; choose another format'
                yield in_day(course, day, where, message)
            elif name not in asked_today:
                yield in_day(
                    course, day, where, f'"{name}" is not among the day\'s skills; name it there or choose another'
                )


def _check_slots(course: Course, day: Day, guide: Guide) -> Iterator[Problem]:
    for field, text in texts_of(guide):
        try:
            slots = slots_in(text)
        except SlotNotUnderstood as error:
            yield in_day(course, day, field, str(error))
            continue
        for slot in slots:
            if (message := _objection(course, day, guide, slot)) is not None:
                yield in_day(course, day, field, f"{slot} {message}")


def _objection(course: Course, day: Day, guide: Guide, slot: Slot) -> str | None:
    """Say what is wrong with a slot, if anything is."""
    named: Sequence[tuple[SkillId, FormatId]]
    if slot.place == "child":
        return None
    if slot.place == "own":
        if slot.n > OWN_PAGE_ITEMS:
            return f"names an item past the sixth; the own page is sure of {OWN_PAGE_ITEMS}"
        skills = [course.skills[name] for name in day.front_skills if name in course.skills]
    else:
        named = guide.shown if slot.place == "show" else guide.together
        if slot.n > len(named):
            field = "shown" if slot.place == "show" else "together"
            return f"names item {slot.n}, but guide.{field} has {len(named)}; add one there or name another"
        name = named[slot.n - 1][0]
        skills = [course.skills[name]] if name in course.skills else []
    return next((message for skill in skills if (message := _not_of(skill, slot)) is not None), None)


def _not_of(skill: Skill, slot: Slot) -> str | None:
    """Say why a slot's name does not fit items of the skill, if it does not."""
    if slot.error_way is not None:
        ways = [note.id for note in skill.error_ways if note.shows_as == "wrong answer"]
        if slot.error_way not in ways:
            return f"names an error way that {skill.id} does not have; it has {', '.join(ways) or 'none'}"
    elif slot.variable is not None:
        try:
            names = parse_rule(skill.item_rule).names if skill.item_rule else ()
        except RuleNotUnderstood:
            return None  # said where the rule stands
        if slot.variable not in names:
            return f"names no variable of {skill.id}; it has {', '.join(names) or 'no rule, so no variable'}"
        if slot.piece is not None and slot.piece not in PIECES:
            return f"names a piece that numbers do not have; the pieces are {', '.join(PIECES)}"
    elif slot.name not in {"text", "answer"}:
        return "is not complete; write error.WAY with one of the skill's error ways"
    return None


def _check_materials(course: Course, day: Day, guide: Guide) -> Iterator[Problem]:
    """A thing to cut, print or buy that the adult is told to use is on the day's list, so that it is there in time.

    Things of the home are left out: buttons on a coat ask for no box of buttons.
    """
    script = [guide.before, *(step.text for part in guide.parts for step in part.steps if step.kind == "do")]
    text = " ".join(script).lower()
    fetched = {*day.materials, *day.print_outs}
    for thing in course.materials.values():
        if thing.source != "home" and thing.id not in fetched and _is_named(thing.title, text):
            message = f'speak of the {thing.title}, but neither materials nor print_outs has "{thing.id}"; add it'
            yield in_day(course, day, "guide", message)


def _is_named(title: str, text: str) -> bool:
    """Say whether a thing is named as a thing to use: "a number line is a ruler" asks for no ruler."""
    return re.search(rf"(?<!is a )(?<!like a )\b{re.escape(title.lower())}\b", text) is not None
