"""Stories told: one wording a situation and a pick of settings, chosen by the numbers themselves."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.seeds import seed_from
from dayleaf.wording.tables import entry
from dayleaf.wording.template import fill

if TYPE_CHECKING:
    from dayleaf.items.model import Story


def story_lines(story: Story, lang: str) -> tuple[str, ...]:
    """The sentences of a story, the question last.

    The same story always gets the same wording. Compare stories name two people, the first with the
    bigger number.

    Raises:
        NoWords: the situation, a person or the noun has no words in this language.
    """
    tellings = entry("story-long" if story.unit else "story", story.cell, lang)
    pick = seed_from("telling", story.cell, story.noun, *story.people, *story.values.values()) % len(tellings)
    values: dict[str, int | str] = dict(story.values)
    values.update(zip(("p", "q"), story.people, strict=False))
    values["noun"] = story.noun
    if story.unit:
        values["unit"] = story.unit
    return tuple(fill(sentence, values, lang) for sentence in tellings[pick])
