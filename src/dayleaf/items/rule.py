"""How one skill is built: a maker for each format, and the ways to go astray.

Every module of `items.numbers` and `items.pictured` exports `RULES`, a tuple of `SkillRule`. `items.built`
collects them; two rules may name the same skill (one brings its rows, the other its stories) as long as no
format is built twice.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
    from dayleaf.items.model import Figure, Part, Prompt, Step

Numbers = Mapping[str, int]
"""The variables of the skill's rule, by name."""


@dataclass(frozen=True, slots=True)
class Made:
    """All of an item but its name: what a maker gives back. The fields mean what they mean in `Item`."""

    prompt: Prompt
    parts: tuple[Part, ...]
    steps: tuple[Step, ...]
    errors: Mapping[ErrorWayId, str] = field(default_factory=dict)
    figure: Figure | None = None
    difficulty: float = 0.5


Maker = Callable[[Numbers], Made]
"""Numbers to everything asked, shown and answered. The same numbers always give the same item."""

Fits = Callable[[Numbers], bool]
"""Whether a format can use these numbers (a digit puzzle wants exactly one solution)."""

Way = Callable[[Numbers], int | None]
"""The number that an error way gives where the skill's own number is asked; None where it gives none."""


@dataclass(frozen=True, slots=True)
class SkillRule:
    """What is built of one skill.

    `formats` are in the order in which the skill's file names them. `ways` give the wrong number where the
    plain answer is asked, so that a story can use the same ways as the row; ways that only choose a wrong
    option live in the maker. `fits` narrows the rule for single formats. `half` asks that about half of
    the chosen items meet it (opening a ten or not).
    """

    skill: SkillId
    formats: Mapping[FormatId, Maker]
    ways: Mapping[ErrorWayId, Way] = field(default_factory=dict)
    fits: Mapping[FormatId, Fits] = field(default_factory=dict)
    half: Fits | None = None
