"""What an item is made of. An item holds numbers and codes only; `wording` turns them into sentences.

An item is asked in one of a few *prompts* (a row, a column, a question about a picture, a story, things to
match or to sort), is answered in one or more *parts* (digit boxes, choices, a comparison sign, or a look by
the parent), and carries the answer that each error way would give.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from collections.abc import Mapping

    from dayleaf.core.ids import ErrorWayId, FormatId, SkillId

PartKind = Literal["digits", "choice", "many", "compare", "look"]
"""digits: one box a digit · choice: ring one option · many: tick each option that fits ·
compare: write < > = in a circle · look: drawn, built or told, judged by the parent's eye."""


@dataclass(frozen=True, slots=True)
class Option:
    """One thing to ring or tick. Its code is language-free: a numeral, or a code that wording knows."""

    code: str
    error: ErrorWayId | None = None
    figure: Figure | None = None


@dataclass(frozen=True, slots=True)
class Part:
    """One place where the child answers.

    `answer` is canonical: digits without commas for "digits", an option's code for "choice", codes
    joined by spaces in option order for "many", "<", ">" or "=" for "compare", "" for "look".
    `width` counts the digit boxes: enough for the right answer and for the longest wrong one.
    """

    id: str
    kind: PartKind
    answer: str
    width: int = 0
    options: tuple[Option, ...] = ()


@dataclass(frozen=True, slots=True)
class Gap:
    """In a row: the place of one part."""

    part: str


@dataclass(frozen=True, slots=True)
class Word:
    """In a row: a word that depends on the language and perhaps on a count, as `tens` after 3."""

    code: str
    count: int | None = None


Token = int | str | Gap | Word
"""A numeral, a sign (one of + - × ÷ = < > ,), a gap or a word."""


@dataclass(frozen=True, slots=True)
class Row:
    """Written in one line: 62 - 38 = [gap]."""

    tokens: tuple[Token, ...]


@dataclass(frozen=True, slots=True)
class Column:
    """Numbers under each other in place columns, the last with the sign before it.

    `hidden` are (row, place) pairs whose digit is a box of its own (digit puzzles), place 0 = ones;
    row len(rows) is the line of the result. `shown` is a result already written (find and fix).
    `trades` asks for small trade boxes above.
    """

    rows: tuple[int, ...]
    sign: str
    trades: bool = False
    hidden: tuple[tuple[int, int], ...] = ()
    shown: int | None = None


@dataclass(frozen=True, slots=True)
class Question:
    """A question whose sentence wording knows by its code; values fill its places."""

    code: str
    values: Mapping[str, int | str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Story:
    """A story problem: a situation (a cell of the published table), who, what, and the numbers told."""

    cell: str
    people: tuple[str, ...]
    noun: str
    values: Mapping[str, int]
    unit: str | None = None


@dataclass(frozen=True, slots=True)
class Match:
    """Things at the left, lettered, and their partners at the right, numbered from 1 in another order.

    Each thing is a row without gaps or a picture. Part by part the child writes the number of the partner.
    """

    left: tuple[Row | Figure, ...]
    right: tuple[Row | Figure, ...]


@dataclass(frozen=True, slots=True)
class Sort:
    """Lettered things, and the groups they belong to: option codes, the same for each thing.

    Each thing has a part of its own, a choice of the groups; on paper they are the rows of one table to tick.
    """

    things: tuple[Row | Figure, ...]
    groups: tuple[str, ...]


Prompt = Row | Column | Question | Story | Match | Sort


@dataclass(frozen=True, slots=True)
class Figure:
    """A picture by kind (a name of content/pictures.toml) and parameters; `figures` draws it."""

    kind: str
    params: Mapping[str, int | str | tuple[int, ...] | tuple[str, ...]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Step:
    """One step of the key, by code; wording says it."""

    code: str
    values: Mapping[str, int | str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Item:
    """One problem.

    `numbers` holds exactly the variables of the skill's rule. `errors` holds each error way that
    gives an answer here, with that answer (canonical, like `answer`); one that would give the right
    answer is in it too, so that nobody takes a right answer for proof.
    `difficulty` runs from 0 (sure) to 1 (hardest of its skill).
    """

    skill: SkillId
    format: FormatId
    numbers: Mapping[str, int]
    prompt: Prompt
    parts: tuple[Part, ...]
    steps: tuple[Step, ...]
    errors: Mapping[ErrorWayId, str]
    figure: Figure | None = None
    difficulty: float = 0.5

    @property
    def answer(self) -> str:
        """The canonical answer: the parts' answers joined by single spaces."""
        return " ".join(part.answer for part in self.parts)

    @property
    def key(self) -> str:
        """What makes two items the same item: skill, format and numbers."""
        numbers = ",".join(f"{name}={value}" for name, value in sorted(self.numbers.items()))
        return f"{self.skill}/{self.format}/{numbers}"
