"""What stands on fact cards, family cards and array cards: computed, never typed."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from dayleaf.core.ids import FormatId
from dayleaf.core.seeds import seed_from
from dayleaf.items.built import formats_built, is_built
from dayleaf.items.draw import draw_items
from dayleaf.wording.say import text_of

if TYPE_CHECKING:
    from dayleaf.course.model import Course, Skill

A_SHEET: Final = 12
FACT_CARDS: Final = "fact-cards"
IN_A_LINE: Final = FormatId("horiz")
STRANDS: Final = frozenset({"addfact", "subfact", "mul", "div"})


def families() -> tuple[tuple[int, int], ...]:
    """The two parts of every family with parts up to 9 and a whole of 11 or more, smaller part first: 20 of them."""
    return tuple((a, whole - a) for whole in range(11, 19) for a in range(whole - 9, whole // 2 + 1))


def of_family(a: int, b: int) -> tuple[str, ...]:
    """The facts of one family: four, or two where both parts are equal."""
    whole = a + b
    facts = (f"{a} + {b} = {whole}", f"{b} + {a} = {whole}", f"{whole} − {a} = {b}", f"{whole} − {b} = {a}")
    return tuple(dict.fromkeys(facts))


def arrays() -> tuple[tuple[int, int], ...]:
    """Rows and columns up to five, each pair once: turned a quarter, a card shows the other one."""
    return tuple((rows, columns) for rows in range(1, 6) for columns in range(rows, 6))


def of_array(rows: int, columns: int) -> tuple[str, ...]:
    """What an array says, read as it lies and turned a quarter."""
    whole = rows * columns
    return tuple(dict.fromkeys((f"{rows} × {columns} = {whole}", f"{columns} × {rows} = {whole}")))


def strategies(course: Course) -> tuple[Skill, ...]:
    """The facts taught on the days that ask for fact cards, in the order of the course."""
    found = dict.fromkeys(name for day in course.days if FACT_CARDS in day.materials for name in day.new_skills)
    skills = (course.skills[name] for name in found)
    return tuple(
        skill
        for skill in skills
        if skill.strand in STRANDS and is_built(skill.id) and IN_A_LINE in formats_built(skill.id)
    )


def by_strategy(course: Course) -> tuple[tuple[str, tuple[tuple[str, str], ...]], ...]:
    """For each way of working out facts its name and up to twelve facts with their answers, smallest first."""
    return tuple((skill.title, _facts(skill)) for skill in strategies(course))


def _facts(skill: Skill) -> tuple[tuple[str, str], ...]:
    items = draw_items(skill, n=A_SHEET, seed=seed_from(FACT_CARDS, skill.id), format=IN_A_LINE)
    said = {text_of(item, "en").replace("□", "").rstrip(" ="): item for item in items}
    ordered = sorted(said.items(), key=lambda pair: tuple(pair[1].numbers.values()))
    return tuple((words, item.answer) for words, item in ordered)
