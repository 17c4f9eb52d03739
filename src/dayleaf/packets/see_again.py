"""See it again: a skill once more for a stuck child or a grandparent: an example step by step, and a second way."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from fnmatch import fnmatchcase
from functools import cache
from typing import TYPE_CHECKING, Final

from dayleaf.core.ids import LessonId
from dayleaf.core.seeds import seed_from
from dayleaf.course.load import CONTENT
from dayleaf.items.built import formats_built
from dayleaf.items.choose import choose_items
from dayleaf.packets.model import NotBuiltYet
from dayleaf.packets.pages import Maker, with_pictures
from dayleaf.sheets.cells import LETTERS, answer_words
from dayleaf.sheets.model import GuideLine, GuideSection, GuideSheet
from dayleaf.sheets.typeset import typeset_guide
from dayleaf.wording.instructions import instruction_for_many
from dayleaf.wording.say import steps_of, text_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from dayleaf.core.ids import FormatId
    from dayleaf.course.model import Course, Skill
    from dayleaf.items.model import Figure, Item
    from dayleaf.sheets.model import Look

LANG: Final = "en"
MANY_AT_ONCE: Final = frozenset({"match", "sort", "family", "table"})
"""Forms that make a poor example: one question holds several."""
TRIED: Final = 3
"""Items of which the middle one is shown: neither the surest nor the hardest."""


@dataclass(frozen=True, slots=True)
class SecondWay:
    """Another way to see a family of skills: a title, and steps in order. `skills` are patterns of their names."""

    skills: tuple[str, ...]
    title: str
    steps: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Shown:
    """One thing to look at: a sentence, and its pictures, each with its letter where there are several."""

    text: str
    pictures: tuple[tuple[str, Figure], ...] = ()


@dataclass(frozen=True, slots=True)
class SeeAgain:
    """A skill once more. `asked` is the worked example, `steps` lead to its `answer`; `second` is another way.

    `other` is an example in another form with a picture of its own, its answer beside it; `try_it` one to try.
    """

    skill: Skill
    asked: Shown
    steps: tuple[str, ...]
    answer: str
    second_title: str
    second: tuple[str, ...]
    other: tuple[Shown, str] | None
    try_it: tuple[Shown, str] | None

    @property
    def screens(self) -> tuple[tuple[str, Shown], ...]:
        """The whole as screens to go through one by one: a heading and what is shown."""
        first = [("What is asked", self.asked)]
        first += [("Step by step", Shown(step)) for step in self.steps]
        first += [(f"A second way: {self.second_title}", Shown(step)) for step in self.second]
        if self.other is not None:
            shown, answer = self.other
            first.append(("The same in another picture", Shown(f"{shown.text} {answer}".strip(), shown.pictures)))
        if self.try_it is not None:
            first.append(("Now you", self.try_it[0]))
            first.append(("And this is what comes out", Shown(self.try_it[1] or "Look at it together.")))
        return tuple(first)


@cache
def second_ways() -> tuple[SecondWay, ...]:
    """The ways of `content/second_ways.toml`, in order: the first that fits a skill is its own."""
    data = tomllib.loads((CONTENT / "second_ways.toml").read_text(encoding="utf-8"))
    return tuple(SecondWay(tuple(row["for"]), row["title"], tuple(row["steps"])) for row in data["way"])


def second_way(skill: Skill) -> SecondWay:
    """The second way of a skill."""
    return next(way for way in second_ways() if any(fnmatchcase(skill.id, pattern) for pattern in way.skills))


def see_again(course: Course, skill: Skill, *, seed: int = 0) -> SeeAgain:
    """A skill once more, by seed: the same arguments give the same example.

    Raises:
        NotBuiltYet: no item of the skill can be made.
    """
    examples = [item for name in _formats(course, skill) if (item := _middle(skill, name, seed)) is not None]
    if not examples:
        raise NotBuiltYet(LessonId(skill.id), [skill.id])
    steps = [steps_of(item, LANG) for item in examples]
    best = max(range(len(examples)), key=lambda n: (_plain(examples[n]), min(len(steps[n]), 4), -n))
    asked = _pictured(course, examples[best])
    answer = answer_words(asked, LANG)
    words = {"text": _said(asked).removesuffix(" = □"), "answer": answer or "what you see"}
    way = second_way(skill)
    kind = asked.figure.kind if asked.figure else ""
    pictured = [item for item in examples if _plain(item) and item.figure is not None and item.figure.kind != kind]
    other = next((item for item in pictured if item.format != asked.format), None)
    again = _middle(skill, asked.format, seed + 1)
    return SeeAgain(
        skill=skill,
        asked=_shown(asked),
        steps=(skill.say, *steps[best], *_closing(steps[best], answer)),
        answer=answer,
        second_title=way.title,
        second=tuple(step.format_map(words) for step in way.steps),
        other=None if other is None else (_shown(other), _is(other)),
        try_it=None if again is None else (_shown(_pictured(course, again)), _is(again)),
    )


def print_again(course: Course, skill: Skill, look: Look, *, seed: int = 0) -> bytes:
    """The page on paper, at most two sides. Raises as `see_again` does."""
    return typeset_guide(again_sheet(see_again(course, skill, seed=seed)), look)


def again_sheet(again: SeeAgain) -> GuideSheet:
    """The page before it is set."""
    sections = [
        GuideSection("What is asked", None, (_line(again.asked),)),
        GuideSection("Step by step", None, tuple(_numbered(again.steps)), core=True),
        GuideSection(f"A second way: {again.second_title}", None, tuple(_numbered(again.second))),
    ]
    if again.other is not None:
        shown, answer = again.other
        lines = (_line(shown), *((GuideLine("answer", answer),) if answer else ()))
        sections.append(GuideSection("The same in another picture", None, lines))
    if again.try_it is not None:
        sections.append(GuideSection("Now you", None, (_line(again.try_it[0]),)))
    tried = again.try_it[1] if again.try_it else ""
    return GuideSheet(
        lesson=LessonId(again.skill.id),
        title=again.skill.title,
        under_title="See it again",
        facts=(("Fetch", "paper and a pencil, and what the steps name"),),
        sections=tuple(sections),
        short="",
        bare="",
        answers=(("Now you", (tried,)),) if tried else (),
    )


def _formats(course: Course, skill: Skill) -> list[FormatId]:
    """The forms of a skill that stand on paper; those acted out only where there is nothing else."""
    built = [name for name in skill.formats if name in formats_built(skill.id)]
    return [name for name in built if not course.formats[name].acted_out] or built


def _middle(skill: Skill, name: FormatId, seed: int) -> Item | None:
    found = choose_items(skill, n=TRIED, seed=seed_from("again", skill.id, name, seed), formats=(name,))
    return found[len(found) // 2] if found else None


def _pictured(course: Course, item: Item) -> Item:
    """The item with a picture of its first number, where the skill has one and the item none."""
    if item.figure is not None:
        return item
    return with_pictures(Maker(course, course.days[0], 0, LANG, set()), (item,))[0]


def _said(item: Item) -> str:
    return text_of(item, LANG)


def _shown(item: Item) -> Shown:
    """The item's words; where it has none, what to do."""
    words = _said(item)
    bare = not any(sign.isalpha() for sign in words)
    do = instruction_for_many([item], LANG) if bare else ""
    letters = zip(LETTERS, (option.figure for part in item.parts for option in part.options), strict=False)
    whole = (("", item.figure),) if item.figure is not None and item.figure.kind != "none" else ()
    return Shown(f"{do} {words}".strip(), (*whole, *((letter, figure) for letter, figure in letters if figure)))


def _plain(item: Item) -> bool:
    """Whether an item asks one thing: matching and sorting ask many at once."""
    return item.format not in MANY_AT_ONCE


def _is(item: Item) -> str:
    return answer_words(item, LANG)


def _closing(steps: tuple[str, ...], answer: str) -> Iterator[str]:
    """The answer at the end, where the last step does not say it."""
    if answer and (not steps or answer not in steps[-1]):
        yield f"So the answer is {answer}."


def _line(shown: Shown) -> GuideLine:
    return GuideLine("", shown.text, shown.pictures)


def _numbered(steps: tuple[str, ...]) -> Iterator[GuideLine]:
    for n, step in enumerate(steps, start=1):
        yield GuideLine("", f"{n}. {step}")
