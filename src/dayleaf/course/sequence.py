"""The order of the days: numbers, kinds, when each skill is met, what is asked for on which page."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from dayleaf.core.errors import Problem
from dayleaf.course.places import in_chapter, in_day, in_skill

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from dayleaf.core.ids import SkillId
    from dayleaf.course.model import Course, Day

PICTURE_CARD = "picture-card:"
MET_BEFORE = ("below", "refresh")


def first_new(course: Course) -> dict[SkillId, int]:
    """Return the number of the day on which each skill is new."""
    days: dict[SkillId, int] = {}
    for day in course.days:
        for skill in day.new_skills:
            days.setdefault(skill, day.number)
    return days


def first_refreshed(course: Course) -> dict[SkillId, int]:
    """Return the number of the day on which each skill of an earlier grade is first warmed up."""
    days: dict[SkillId, int] = {}
    for day in course.days:
        for skill in day.refresh_skills:
            days.setdefault(skill, day.number)
    return days


def check_sequence(course: Course) -> Iterator[Problem]:
    """Check the days as a row and each of them by itself."""
    new, refreshed = first_new(course), first_refreshed(course)
    yield from _check_numbers(course)
    yield from _check_chapters(course)
    for day in course.days:
        yield from _check_names(course, day)
        yield from _check_new(course, day, new)
        yield from _check_warmed_up(course, day, refreshed)
        yield from _check_pages(course, day, new)
    yield from _check_met_once(course, new)


def _check_numbers(course: Course) -> Iterator[Problem]:
    for wanted, day in enumerate(course.days, start=1):
        if day.number != wanted:
            message = f"is day {day.number} where day {wanted} is next; name the files day-001, day-002 … without a gap"
            yield in_day(course, day, "file name", message)
            return
    for before, after in pairwise(course.days):
        if after.chapter < before.chapter:
            message = f"stands in chapter {after.chapter} after a day of chapter {before.chapter}; move the file"
            yield in_day(course, after, "folder", message)


def _check_chapters(course: Course) -> Iterator[Problem]:
    for wanted, chapter in enumerate(course.chapters, start=1):
        if chapter.number != wanted:
            yield in_chapter(course, chapter.number, "folder", f"is next after {wanted - 1}; name it {wanted:02}")
            return
    known = {chapter.number for chapter in course.chapters}
    for number in sorted({day.chapter for day in course.days} - known):
        yield in_chapter(course, number, "file", "is missing; write one for the days that stand in this folder")
    for chapter in course.chapters:
        for skill in chapter.stretch_skills:
            if skill not in course.skills:
                message = f'"{skill}" is not a skill of the course; mend the name or write its file'
                yield in_chapter(course, chapter.number, "stretch_skills", message)
        yield from _check_kinds(course, [day for day in course.days if day.chapter == chapter.number])


def _check_kinds(course: Course, days: Sequence[Day]) -> Iterator[Problem]:
    """A chapter has at most one test, and its look back stands on the day before."""
    tests = [place for place, day in enumerate(days) if day.kind == "test"]
    if len(tests) > 1:
        yield in_day(course, days[tests[1]], "kind", "is the second test of its chapter; keep one")
    for place in tests:
        if place == 0 or days[place - 1].kind != "look-back":
            yield in_day(course, days[place], "kind", "is a test without a look back the day before; put one there")
    for place, day in enumerate(days):
        if day.kind == "look-back" and (place + 1 == len(days) or days[place + 1].kind != "test"):
            yield in_day(course, day, "kind", "is a look back with no test the next day; put the test there")


def _check_names(course: Course, day: Day) -> Iterator[Problem]:
    places = {
        "skills.new": day.new_skills,
        "skills.refresh": day.refresh_skills,
        "skills.front": day.front_skills,
        "skills.back": day.back_skills,
        "skills.stretch": day.stretch_skills,
        "fact_warm_up": (day.fact_warm_up,) if day.fact_warm_up else (),
    }
    for field, skills in places.items():
        for skill in skills:
            if skill not in course.skills:
                message = f'"{skill}" is not a skill of the course; mend the name or write its file'
                yield in_day(course, day, field, message)
        if len(set(skills)) < len(skills):
            yield in_day(course, day, field, "names a skill twice; keep one")
    yield from _check_things(course, day)


def _check_things(course: Course, day: Day) -> Iterator[Problem]:
    for thing in day.materials:
        if thing not in course.materials:
            yield in_day(course, day, "materials", f'"{thing}" is not in materials.toml; mend the name or add it')
    for name in day.print_outs:
        if name.startswith(PICTURE_CARD):
            if name.removeprefix(PICTURE_CARD) not in course.pictures:
                message = f'"{name}" names no kind of picture; use picture-card: and a row of pictures.toml'
                yield in_day(course, day, "print_outs", message)
        elif name not in course.materials:
            yield in_day(course, day, "print_outs", f'"{name}" is not in materials.toml; mend the name or add it')


def _check_new(course: Course, day: Day, new: Mapping[SkillId, int]) -> Iterator[Problem]:
    if day.new_skills and day.kind != "lesson":
        yield in_day(course, day, "skills.new", f"teaches something on a {day.kind} day; move it to a lesson")
    if day.new_skills and day.if_short == "drop":
        message = "is drop on a day with a new skill, which would never be taught; write keep or join-next"
        yield in_day(course, day, "if_short", message)
    for place, name in enumerate(day.new_skills):
        if new.get(name) != day.number:
            yield in_day(course, day, "skills.new", f'"{name}" was new on day {new[name]}; move it to refresh')
        skill = course.skills.get(name)
        for before in skill.prereqs if skill else ():
            known = course.skills.get(before)
            if known is None or known.role in MET_BEFORE:
                continue
            met = new.get(before)
            if before in day.new_skills[:place] or (met is not None and met < day.number):
                continue
            when = f"is new on day {met}" if met else "is never new"
            yield in_day(
                course,
                day,
                "skills.new",
                f'"{name}" needs "{before}", which {when}; teach that first, or mend the link',
            )


def _check_warmed_up(course: Course, day: Day, refreshed: Mapping[SkillId, int]) -> Iterator[Problem]:
    """What an earlier grade taught is warmed up by the day on which something new rests on it."""
    for name in day.new_skills:
        skill = course.skills.get(name)
        for before in skill.prereqs if skill else ():
            known = course.skills.get(before)
            if known is not None and known.role == "refresh" and refreshed.get(before, day.number + 1) > day.number:
                message = f'"{name}" rests on "{before}", which is not refreshed by then; add it to skills.refresh'
                yield in_day(course, day, "skills.refresh", message)


def _check_pages(course: Course, day: Day, new: Mapping[SkillId, int]) -> Iterator[Problem]:
    """A page asks only for what was met: front by today, back and warm-up before today."""
    for field, skills, latest in (
        ("skills.front", day.front_skills, day.number),
        ("skills.back", day.back_skills, day.number - 1),
        ("fact_warm_up", (day.fact_warm_up,) if day.fact_warm_up else (), day.number - 1),
    ):
        for name in skills:
            skill = course.skills.get(name)
            if skill is not None and skill.role not in MET_BEFORE and new.get(name, latest + 1) > latest:
                when = f"is new on day {new[name]}" if name in new else "is never new"
                yield in_day(course, day, field, f'"{name}" {when}; ask for it later')
    for name in day.back_skills:
        if name in day.front_skills:
            yield in_day(course, day, "skills.back", f'"{name}" stands on the front too; keep it there')
    for name in day.new_skills:
        if name not in day.front_skills and not _is_acted_out(course, name):
            yield in_day(course, day, "skills.front", f'leaves out "{name}", which is new today; add it')
    # A family's own outline claims no grade, and its lessons may name no skill at all.
    if course.covers and day.kind == "lesson" and not (day.new_skills or day.refresh_skills):
        yield in_day(course, day, "skills", "names nothing to teach or refresh; a lesson needs one of them")


def _is_acted_out(course: Course, name: SkillId) -> bool:
    """Say whether a skill has no format that is written on paper."""
    skill = course.skills.get(name)
    return skill is None or set(skill.formats) <= {"build", "oral", "explain", "draw", "graph-make"}


def _check_met_once(course: Course, new: Mapping[SkillId, int]) -> Iterator[Problem]:
    for skill in course.skills.values():
        if skill.role == "core" and skill.id not in new:
            yield in_skill(course, skill, "role", "is core, but no day has it under skills.new; give it a day")
        if skill.role != "core" and skill.id in new:
            message = f"is {skill.role}, but day {new[skill.id]} has it as new; write core or take it out there"
            yield in_skill(course, skill, "role", message)
    if not course.days:
        yield Problem(f"{course.id}/chapters", "holds no day; write chapters/01/day-001.toml")
