"""The grade book: a family's own scale over tests and sheets, or none. Values to values, in exact numbers."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Final, Literal

from dayleaf.core.errors import Problem

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from datetime import date

ScaleKind = Literal["none", "percent", "letters", "words"]
EntryKind = Literal["test", "sheet"]
KINDS: Final[tuple[EntryKind, ...]] = ("test", "sheet")

LETTERS: Final = ((90, "A"), (80, "B"), (70, "C"), (60, "D"), (0, "E"))
WORDS: Final = ((85, "secure"), (60, "growing"), (0, "beginning"))
"""Where a family starts from; each step can be changed (common practice, no source)."""
LONGEST: Final = 24
MOST_WEIGHT: Final = 100
MOST_DROPPED: Final = 20


@dataclass(frozen=True, slots=True)
class Scale:
    """How a grade book counts. `steps` are (least percent, word), the highest first, the last from 0.

    `test` and `sheet` are the weights of the two kinds, 0 for a kind that does not count; of each kind so many of the
    lowest are dropped. `left_out` are entries that do not count at all.
    """

    kind: ScaleKind = "none"
    steps: tuple[tuple[int, str], ...] = ()
    test: int = 1
    sheet: int = 0
    drop_test: int = 0
    drop_sheet: int = 0
    left_out: frozenset[str] = frozenset()

    def weight(self, kind: EntryKind) -> int:
        """How much the mean of this kind weighs."""
        return self.test if kind == "test" else self.sheet

    def dropped(self, kind: EntryKind) -> int:
        """How many of the lowest of this kind are dropped."""
        return self.drop_test if kind == "test" else self.drop_sheet


NO_GRADES: Final = Scale()


@dataclass(frozen=True, slots=True)
class Entry:
    """A test or a sheet with its marks: `right` of `of` items."""

    id: str
    day: date
    title: str
    kind: EntryKind
    right: int
    of: int

    @property
    def share(self) -> Fraction:
        """The share right, 0 to 1."""
        return Fraction(self.right, self.of)


@dataclass(frozen=True, slots=True)
class Grade:
    """What comes of it: the share (0 to 1) and how it is said; None and "" where nothing counts yet.

    `dropped` are the entries left out as the lowest, `counted` those that went in.
    """

    share: Fraction | None
    said: str
    counted: tuple[str, ...]
    dropped: tuple[str, ...]


def grade(scale: Scale, entries: Iterable[Entry]) -> Grade:
    """The grade of a stretch of time.

    Within a kind each entry weighs the same: the mean of their shares without the lowest ones, of which one is always
    kept. The kinds that have an entry are then weighed against each other.
    """
    by_kind: dict[EntryKind, list[Entry]] = defaultdict(list)
    for entry in entries:
        if entry.of and entry.id not in scale.left_out and scale.weight(entry.kind):
            by_kind[entry.kind].append(entry)
    counted: list[str] = []
    dropped: list[str] = []
    total, weights = Fraction(0), 0
    for kind in KINDS:
        ranked = sorted(by_kind[kind], key=lambda one: (one.share, one.day, one.id))
        if not ranked:
            continue
        away = min(scale.dropped(kind), len(ranked) - 1)
        dropped += [one.id for one in ranked[:away]]
        kept = ranked[away:]
        counted += [one.id for one in kept]
        total += scale.weight(kind) * sum((one.share for one in kept), Fraction(0)) / len(kept)
        weights += scale.weight(kind)
    share = total / weights if weights else None
    return Grade(share, "" if share is None else said(scale, share), tuple(counted), tuple(dropped))


def said(scale: Scale, share: Fraction) -> str:
    """A share as this scale says it: in whole percent, half up, or by the highest step it reaches; "" without grades.

    A step is reached by the exact share, never by a rounded one.
    """
    if scale.kind == "none":
        return ""
    if scale.kind == "percent":
        return f"{percent(share)} %"
    return next((word for least, word in scale.steps if share * 100 >= least), scale.steps[-1][1])


def percent(share: Fraction) -> int:
    """In whole percent, half up."""
    return int(share * 100 + Fraction(1, 2))


def scale_problems(scale: Scale) -> list[Problem]:
    """Everything that is wrong with a scale."""
    problems = []
    for name, weight in (("weight of tests", scale.test), ("weight of sheets", scale.sheet)):
        if not 0 <= weight <= MOST_WEIGHT:
            problems.append(Problem(name, f"write a whole number from 0 to {MOST_WEIGHT}"))
    for name, drop in (("tests dropped", scale.drop_test), ("sheets dropped", scale.drop_sheet)):
        if not 0 <= drop <= MOST_DROPPED:
            problems.append(Problem(name, f"write a whole number from 0 to {MOST_DROPPED}"))
    if scale.kind != "none" and not scale.test and not scale.sheet:
        problems.append(Problem("weights", "both are 0, so nothing would count; give one a weight"))
    if scale.kind in {"letters", "words"}:
        problems += _step_problems(scale.steps)
    return problems


def _step_problems(steps: Sequence[tuple[int, str]]) -> list[Problem]:
    if not steps:
        return [Problem("steps", "write at least one, as “90 A”")]
    problems = []
    least = [one for one, _ in steps]
    if least != sorted(set(least), reverse=True):
        problems.append(Problem("steps", "write them from the highest to the lowest, each percent once"))
    if least[-1] != 0:
        problems.append(Problem("steps", "the last one starts from 0, so that every result has a word"))
    if any(not 0 <= one <= 100 for one in least):
        problems.append(Problem("steps", "a percent is from 0 to 100"))
    if any(not word or len(word) > LONGEST for _, word in steps):
        problems.append(Problem("steps", f"each has a word of at most {LONGEST} signs"))
    return problems
