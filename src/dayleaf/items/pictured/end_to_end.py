"""Lengths in units laid end to end: cubes counted under a strip, lines of cubes laid well or not."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dayleaf.core.ids import ErrorWayId, FormatId, SkillId
from dayleaf.core.seeds import seed_from
from dayleaf.items.model import Figure, Gap, Option, Part, Question, Row, Step, Word
from dayleaf.items.pictured.letters import LETTERS
from dayleaf.items.rule import Made, SkillRule

if TYPE_CHECKING:
    from dayleaf.items.rule import Numbers

GAPS, MIXED = ErrorWayId("gaps-overlaps"), ErrorWayId("mixed-units")
UNIT = 7
"""Millimetres of a drawn cube; 20 of them still fit on a page."""


def with_gaps(n: int) -> tuple[tuple[int, ...], int]:
    """Cubes laid with gaps of half a cube under a strip n cubes long: the cubes, and the gap in mm."""
    return (UNIT,) * ((2 * n + 1) // 3), UNIT // 2


def of_two_sizes(n: int) -> tuple[int, ...]:
    """A cube, then a block twice as long, and so on, under a strip n cubes long."""
    sizes: list[int] = []
    while sum(sizes) < UNIT * n:
        sizes.append(UNIT if len(sizes) % 2 == 0 else min(2 * UNIT, UNIT * n - sum(sizes)))
    return tuple(sizes)


def _strip(n: int, units: tuple[int, ...], gap: int = 0) -> Figure:
    return Figure("objects-line", {"lengths": (UNIT * n,), "units": units, "gap": gap, "question": 1})


def _count(numbers: Numbers) -> Made:
    n = numbers["n"]
    return Made(
        Row((Gap("1"), Word("cubes-long"))),
        (Part("1", "digits", str(n), 2),),
        (Step("no-gap-count", {"n": n}),),
        {},
        _strip(n, (UNIT,) * n),
        n / 25,
    )


def _laid_well(numbers: Numbers) -> Made:
    """One strip measured three times: with gaps, with two sizes, and well. Which one, and how long is the strip?"""
    n = numbers["n"]
    spaced, gap = with_gaps(n)
    lines: dict[ErrorWayId | None, Figure] = {
        None: _strip(n, (UNIT,) * n),
        GAPS: _strip(n, spaced, gap),
        MIXED: _strip(n, of_two_sizes(n)),
    }
    order = sorted(lines, key=lambda way: seed_from("laid", n, way or ""))
    letter = dict(zip(order, LETTERS, strict=False))
    part = Part("1", "choice", letter[None], options=tuple(Option(letter[way], way, lines[way]) for way in order))
    return Made(
        Question("laid-well", {"n": n}),
        (part, Part("2", "digits", str(n), 2)),
        (Step("units-touch"), Step("no-gap-count", {"n": n})),
        {GAPS: f"{letter[GAPS]} {len(spaced)}", MIXED: f"{letter[MIXED]} {len(of_two_sizes(n))}"},
        None,
        0.3 + n / 40,
    )


def not_too_short(numbers: Numbers) -> bool:
    """Long enough that gaps and two sizes show."""
    return numbers["n"] >= 4


def _lay(numbers: Numbers) -> Made:
    n = numbers["n"]
    return Made(
        Question("lay-cubes", {"n": n}),
        (Part("1", "look", ""),),
        (Step("units-touch"),),
        difficulty=n / 25,
    )


RULES: tuple[SkillRule, ...] = (
    SkillRule(
        SkillId("length-nonstandard-units"),
        formats={FormatId("measure"): _count, FormatId("build"): _lay, FormatId("fix"): _laid_well},
        fits={FormatId("fix"): not_too_short},
    ),
)
