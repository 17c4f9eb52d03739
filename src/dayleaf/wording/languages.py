"""Which skills can be said in which language."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.errors import DayleafError
from dayleaf.wording.tables import LANGUAGES, table

if TYPE_CHECKING:
    from dayleaf.core.ids import SkillId


class NotInThisLanguage(DayleafError):
    """A skill that has no words yet in the language asked for."""

    def __init__(self, *, skill: SkillId, lang: str) -> None:
        self.skill, self.lang = skill, lang
        has = ", ".join(languages_of(skill))
        super().__init__(f"The skill “{skill}” has no words in the language “{lang}” yet; it has {has}.")


def languages_of(skill: SkillId) -> tuple[str, ...]:
    """The languages in which every item of the skill can be said, English first."""
    spoken = []
    for lang in LANGUAGES:
        complete = table(lang)["skills"]["complete"]
        if "*" in complete or skill in complete:
            spoken.append(lang)
    return tuple(spoken)


def check_language(skill: SkillId, lang: str) -> None:
    """Do nothing if the skill has words in this language.

    Raises:
        NotInThisLanguage: it has not.
    """
    if lang != "en" and lang not in languages_of(skill):
        raise NotInThisLanguage(skill=skill, lang=lang)
