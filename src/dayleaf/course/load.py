"""Reads a course from its folder: parsing and shape. Meaning is checked in `check`."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Literal, cast, get_args

from dayleaf.core.errors import BadInput, Problem
from dayleaf.core.ids import CourseId, ErrorWayId, FormatId, LessonId, SkillId
from dayleaf.course.front import FRONT, read_front
from dayleaf.course.guide import read_guide
from dayleaf.course.model import (
    Chapter,
    Course,
    Day,
    DayKind,
    ErrorWayNote,
    IfShort,
    Project,
    Role,
    ShowsAs,
    Skill,
    Story,
)
from dayleaf.course.projects import PROJECT, read_project
from dayleaf.course.rubrics import RUBRICS, read_rubrics
from dayleaf.course.shape import Fields, read_toml
from dayleaf.course.stories import STORY, drawing_beside, read_story
from dayleaf.course.tables import read_error_ways, read_formats, read_materials, read_pictures, read_standards

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Iterator

CONTENT = Path(__file__).resolve().parent.parent / "content"
FITS = ("exact", "part", "beyond", "none")
GRADES = ("K", "1", "2", "3")
BESIDE_THE_DAYS = frozenset({"chapter.toml", STORY, PROJECT})
"""Files of a chapter's folder that are no days."""
_DAY_NAME = re.compile(r"day-(\d{3})")


def read_course(root: Path | None = None) -> tuple[Course | None, tuple[Problem, ...]]:
    """Read the course whose folder is `root`, or the one course that lies in it (our own grade 2 if None).

    The folder holds course.toml, materials.toml, chapters/NN/… and skills/STRAND/…; the folder above it
    holds what courses share: formats, pictures, error ways, standards. Every problem of every file is
    returned; with any problem there is no course.
    """
    root = _course_folder(CONTENT / "grade2" if root is None else root)
    shelf = _Shelf(root)
    top = shelf.read(root / "course.toml")
    title = top.text("title") if top else ""
    strands = table.text_rows() if top and (table := top.table("strands")) else {}
    covers = top.text("covers", optional=True) if top else ""
    if top:
        top.done()
    skills = {skill.id: skill for skill in _skills(shelf)}
    chapters = tuple(_chapters(shelf))
    stories = dict(_stories(shelf))
    projects = dict(_projects(shelf))
    days = tuple(sorted(_days(shelf), key=lambda day: day.number))
    front = read_front(fields) if (root / FRONT).exists() and (fields := shelf.read(root / FRONT)) else ()
    shared = root.parent
    rubrics = read_rubrics(shelf.read(shared / RUBRICS)) if (shared / RUBRICS).exists() else {}
    formats = read_formats(shelf.read(shared / "formats.toml"))
    materials = read_materials(shelf.read(root / "materials.toml"), first_days=_first_days(days))
    pictures = read_pictures(shelf.read(shared / "pictures.toml"))
    error_ways = read_error_ways(shelf.read(shared / "error_ways.toml"))
    standards = read_standards(shelf.read(shared / "standards.toml"))
    if shelf.problems:
        return None, tuple(shelf.problems)
    course = Course(
        id=CourseId(root.name),
        title=title,
        strands=strands,
        chapters=chapters,
        days=days,
        skills=skills,
        formats=formats,
        materials=materials,
        pictures=pictures,
        error_ways=error_ways,
        standards=standards,
        covers=covers,
        stories=stories,
        front=front,
        projects=projects,
        rubrics=rubrics,
    )
    return course, ()


@cache
def grade2() -> Course:
    """Return our own grade-2 course.

    Raises:
        BadInput: a content file has a problem of shape.
    """
    course, problems = read_course()
    if course is None:
        raise BadInput(problems)
    return course


def _course_folder(root: Path) -> Path:
    root = root.resolve()
    inside = [path.parent for path in root.glob("*/course.toml")]
    return inside[0] if len(inside) == 1 and not (root / "course.toml").exists() else root


class _Shelf:
    """The folder being read, and the problems found so far."""

    def __init__(self, root: Path) -> None:
        self.root = root
        self.problems: list[Problem] = []

    def where(self, path: Path) -> str:
        return path.relative_to(self.root.parent).as_posix()

    def read(self, path: Path) -> Fields | None:
        return read_toml(path, where=self.where(path), problems=self.problems)

    def problem(self, path: Path, message: str) -> None:
        self.problems.append(Problem(self.where(path), message))

    def files(self, folder: str, *, but: Collection[str] = ()) -> Iterator[tuple[Path, Fields]]:
        """Yield every TOML file in the folders under `folder`, in order of their names; files named in `but` wait."""
        for path in sorted((self.root / folder).glob("*/*.toml")):
            if path.name not in but and (fields := self.read(path)) is not None:
                yield path, fields


def _skills(shelf: _Shelf) -> Iterator[Skill]:
    seen: dict[str, Path] = {}
    for path, fields in shelf.files("skills"):
        if path.stem in seen:
            other = shelf.where(seen[path.stem])
            shelf.problem(path, f"is the second file of this name (the first is {other}); rename one")
        seen[path.stem] = path
        yield _skill(path, fields)


def _skill(path: Path, fields: Fields) -> Skill:
    held_back = fields.table("format_from_day", optional=True)
    skill = Skill(
        id=SkillId(path.stem),
        title=fields.text("title"),
        grade=fields.choice("grade", GRADES),
        strand=path.parent.name,
        role=cast("Role", fields.choice("role", get_args(Role))),
        prereqs=tuple(map(SkillId, fields.texts("prereqs"))),
        number_range=fields.text("number_range"),
        item_rule=fields.text("item_rule", optional=True) or None,
        distinct_items=fields.whole("distinct_items", least=1) if fields.has("item_rule") else None,
        formats=tuple(map(FormatId, fields.texts("formats"))),
        format_from_day={
            FormatId(name): LessonId(day) for name, day in (held_back.text_rows() if held_back else {}).items()
        },
        pictures=fields.texts("pictures"),
        materials=fields.texts("materials"),
        codes=fields.texts("codes"),
        fit=cast("Literal['exact', 'part', 'beyond', 'none']", fields.choice("fit", FITS)),
        say=fields.text("say"),
        ask=fields.text("ask"),
        answer=fields.text("answer"),
        error_ways=tuple(_error_way(way) for way in fields.tables("error_ways")),
        acted_out=fields.text("acted_out", optional=True),
    )
    fields.done()
    return skill


def _error_way(fields: Fields) -> ErrorWayNote:
    note = ErrorWayNote(
        id=ErrorWayId(fields.text("id")),
        text=fields.text("text"),
        shows_as=cast("ShowsAs", fields.choice("shows_as", get_args(ShowsAs))),
    )
    fields.done()
    return note


def _chapters(shelf: _Shelf) -> Iterator[Chapter]:
    for folder in sorted(path for path in (shelf.root / "chapters").glob("*") if path.is_dir()):
        if not folder.name.isdecimal():
            shelf.problem(folder, "is not a chapter number; name the folder 01, 02 …")
        elif (fields := shelf.read(folder / "chapter.toml")) is not None:
            yield _chapter(int(folder.name), fields)


def _chapter(number: int, fields: Fields) -> Chapter:
    chapter = Chapter(
        number=number,
        title=fields.text("title"),
        aim=fields.text("aim"),
        big_idea=fields.text("big_idea"),
        words_taught=fields.texts("words_taught"),
        usual_trouble=fields.texts("usual_trouble"),
        project=fields.text("project", optional=True, empty_ok=True),
        story=fields.text("story"),
        stretch_skills=tuple(map(SkillId, fields.texts("stretch_skills"))),
    )
    fields.done()
    return chapter


def _stories(shelf: _Shelf) -> Iterator[tuple[int, Story]]:
    for path in sorted((shelf.root / "chapters").glob(f"*/{STORY}")):
        if path.parent.name.isdecimal() and (fields := shelf.read(path)) is not None:
            yield int(path.parent.name), read_story(fields, drawing_beside(path))


def _projects(shelf: _Shelf) -> Iterator[tuple[int, Project]]:
    for path in sorted((shelf.root / "chapters").glob(f"*/{PROJECT}")):
        if path.parent.name.isdecimal() and (fields := shelf.read(path)) is not None:
            yield int(path.parent.name), read_project(fields)


def _days(shelf: _Shelf) -> Iterator[Day]:
    for path, fields in shelf.files("chapters", but=BESIDE_THE_DAYS):
        match = _DAY_NAME.fullmatch(path.stem)
        if match is None:
            shelf.problem(path, "is not a day's name; name it day-001.toml, day-002.toml …")
        elif path.parent.name.isdecimal():
            yield _day(path, int(match[1]), fields)


def _first_days(days: Iterable[Day]) -> dict[str, int]:
    first: dict[str, int] = {}
    for day in days:
        for thing in (*day.materials, *day.print_outs):
            first.setdefault(thing.partition(":")[0], day.number)
    return first


def _day(path: Path, number: int, fields: Fields) -> Day:
    skills = fields.table("skills") or fields.nothing()
    minutes = fields.table("minutes") or fields.nothing()
    guide = fields.table("guide", optional=True)
    day = Day(
        id=LessonId(path.stem),
        number=number,
        chapter=int(path.parent.name),
        kind=cast("DayKind", fields.choice("kind", get_args(DayKind))),
        title=fields.text("title"),
        how=fields.text("how"),
        new_skills=tuple(map(SkillId, skills.texts("new"))),
        refresh_skills=tuple(map(SkillId, skills.texts("refresh"))),
        front_skills=tuple(map(SkillId, skills.texts("front"))),
        back_skills=tuple(map(SkillId, skills.texts("back"))),
        stretch_skills=tuple(map(SkillId, skills.texts("stretch"))),
        fact_warm_up=SkillId(warm_up) if (warm_up := fields.text("fact_warm_up", optional=True)) else None,
        materials=fields.texts("materials"),
        print_outs=fields.texts("print_outs"),
        small_task=fields.text("small_task", optional=True),
        second_sheet=fields.flag("second_sheet"),
        parent_minutes=minutes.whole("adult"),
        child_minutes=minutes.whole("alone"),
        if_short=cast("IfShort", fields.choice("if_short", get_args(IfShort))),
        guide=read_guide(guide) if guide else None,
    )
    minutes.source()
    for part in (skills, minutes, fields):
        part.done()
    return day
