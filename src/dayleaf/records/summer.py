"""The summer keep-warm strip: ten short sheets of what was met least or longest ago, with a key. Nothing is kept."""

from __future__ import annotations

from dataclasses import replace
from io import BytesIO
from typing import TYPE_CHECKING, Final

import pikepdf

from dayleaf.core.seeds import seed_from
from dayleaf.packets.practice import Asked, formats_to_practise, print_practice
from dayleaf.records.beliefs import beliefs_now
from dayleaf.records.courses import course_of
from dayleaf.records.paper import child_of
from dayleaf.sheets.press import packed
from dayleaf.sheets.typeset import typeset_key, typeset_pages
from dayleaf.wording.languages import languages_of

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from dayleaf.core.ids import SkillId
    from dayleaf.course.model import Course
    from dayleaf.learner.belief import Beliefs
    from dayleaf.records.models import Learner
    from dayleaf.sheets.model import SheetSpec

SHEETS: Final = 10
EACH: Final = 8
"""Ten sheets of eight items: about ten minutes each (common practice, no source)."""
TWICE: Final = SHEETS * EACH // 2
"""So many skills come, each twice, half the strip apart."""
FIRST: Final = ("rusty", "shaky", "new", "firm")


def summer_skills(course: Course, beliefs: Beliefs, *, today: date, lang: str) -> tuple[SkillId, ...]:
    """Up to forty skills that were met and can be printed: by their word, those that were asked least often first."""
    known = {
        skill: one
        for skill, one in beliefs.known_all(today).items()
        if one.word != "not yet" and formats_to_practise(course, skill) and lang in languages_of(skill)
    }
    ranked = sorted(known, key=lambda skill: (FIRST.index(known[skill].word), known[skill].asked, skill))
    return tuple(ranked[:TWICE])


def dealt(skills: Sequence[SkillId]) -> tuple[tuple[SkillId, ...], ...]:
    """The skills on ten sheets, eight a sheet, each as often as the others and never twice on one sheet.

    >>> [len(one) for one in dealt([str(n) for n in range(40)])]
    [8, 8, 8, 8, 8, 8, 8, 8, 8, 8]
    """
    many = min(EACH, len(skills))
    if not many:
        return ()
    return tuple(tuple(skills[(n * many + k) % len(skills)] for k in range(many)) for n in range(SHEETS))


def print_summer(learner: Learner, *, today: date) -> bytes:
    """The ten sheets and then their key, in one file; the same records give the same bytes."""
    course, child = course_of(learner), child_of(learner)
    beliefs = beliefs_now(learner, course, upto=today)
    sheets: list[SheetSpec] = []
    for n, skills in enumerate(dealt(summer_skills(course, beliefs, today=today, lang=child.look.lang)), start=1):
        asked = [Asked(course.skills[one], formats_to_practise(course, one), 1) for one in skills]
        parts = (learner.household_id, learner.id, "summer", today.year, n)
        made = print_practice(asked, child, seed=seed_from(*parts), id_parts=parts)
        sheets += [_numbered(sheet, n) for sheet in made.sheets]
    return _joined(typeset_pages(sheets, child.look).pdf, typeset_key(sheets, child.look))


def _numbered(sheet: SheetSpec, n: int) -> SheetSpec:
    return replace(sheet, pages=tuple(replace(page, title=f"{page.title} {n}") for page in sheet.pages))


def _joined(*files: bytes) -> bytes:
    with pikepdf.open(BytesIO(files[0])) as whole:
        for data in files[1:]:
            with pikepdf.open(BytesIO(data)) as more:
                whole.pages.extend(more.pages)
        return packed(whole, two_sided=True)
