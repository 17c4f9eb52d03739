"""Each story is read again from its printed text by a reader that knows only English and numbers.

Every sentence becomes an equation or a change of what somebody has; sympy solves for what the question asks.
Amounts in grams, kilograms and liters are added and shared by pint. The reader sees neither codes nor numbers of items.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from functools import cache
from typing import TYPE_CHECKING

import pint
import pytest
import sympy  # type: ignore[import-untyped]  # it ships no types
import textstat  # type: ignore[import-untyped]  # it ships no types

from dayleaf.course.load import grade2
from dayleaf.items.built import formats_built
from dayleaf.items.draw import draw_items
from dayleaf.items.model import Question, Story
from dayleaf.wording.say import lines_of

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from dayleaf.items.model import Item

TOLD_AS_STORIES = frozenset({"word1", "word2"})


@dataclass(slots=True)
class World:
    """What has been told so far: what each one has now, had at first, and the equations between them."""

    now: dict[str, sympy.Expr] = field(default_factory=dict)
    first: dict[str, sympy.Expr] = field(default_factory=dict)
    equations: list[sympy.Expr] = field(default_factory=list)
    sizes: list[sympy.Expr] = field(default_factory=list)
    who: str = ""

    def has(self, who: str, amount: sympy.Expr) -> None:
        """Somebody has so much; told again it is an equation."""
        if who in self.now:
            self.equations.append(self.now[who] - amount)
        else:
            self.now[who] = self.first[who] = amount
        self.who = who
        self.sizes.append(amount)

    def change(self, who: str, by: sympy.Expr) -> None:
        """Somebody gets (more than 0) or gives (less)."""
        at = who if who in self.now else self.who
        self.now[at] += by

    def solve(self, wanted: sympy.Expr) -> sympy.Expr:
        """The number that is asked for."""
        unknown = sorted(set().union(*(e.free_symbols for e in (wanted, *self.equations))), key=str)
        if not unknown:
            return wanted
        (found,) = sympy.solve(self.equations, unknown, dict=True)
        return wanted.subs(found)


def two_boxes(world: World, told: Sequence[str]) -> None:
    """Two numbers in one sentence."""
    for box, size in zip(("next", "last"), told, strict=True):
        world.has(box, number(size))


def number(text: str) -> sympy.Expr:
    """A numeral, or an unknown."""
    return sympy.Integer(int(text)) if text.isdigit() else sympy.Symbol("x", positive=True)


N = r"\$?(\d+)(?:¢| cm| m| L| kg| g)?"
P = r"([A-Z][a-z]+(?: [A-Z][a-z]+)?)"
THINGS = r"[a-z][a-z ]*?"

SENTENCES: list[tuple[str, Callable[[World, Sequence[str]], None]]] = [
    (rf"{P} has {N} {THINGS} in (?:one|the first) box", lambda w, g: w.has("one", number(g[1]))),
    (rf"{P} has {N} {THINGS} in the other box", lambda w, g: w.has("other", number(g[1]))),
    (rf"There (?:is|are) {N} in the next box and {N} in the last",
     two_boxes),
    (rf"{P} has {N} {THINGS} in two boxes|{P} counts {N} {THINGS} in all",
     lambda w, g: w.has("all", number(g[1] or g[3]))),
    (rf"{N} (?:is|are) in the first box|{N} (?:is|are) on the deck", lambda w, g: w.has("part", number(g[0] or g[1]))),
    (r"The others are in the boat", lambda _w, _g: None),
    (rf"There (?:is|are) {N} {THINGS} on the deck", lambda w, g: w.has("deck", number(g[0]))),
    (rf"There (?:is|are) {N} {THINGS} in the boat", lambda w, g: w.has("boat", number(g[0]))),
    (r"There are some [a-z ]+ on the deck", lambda w, _: w.has("deck", sympy.Symbol("start"))),
    (rf"{P} has some [a-z ]+", lambda w, g: w.has(g[0], sympy.Symbol("start"))),
    (rf"{P} has {N} more {THINGS} than {P}", lambda w, g: compared(w, g, 1)),
    (rf"{P} has {N} fewer {THINGS} than {P}", lambda w, g: compared(w, g, -1)),
    (rf"{P} is (\d+) years old", lambda _w, _g: None),
    (rf"(?:Then )?{P} (?:gets|brings|finds) {N}(?: more)?", lambda w, g: w.change(g[0], number(g[1]))),
    (rf"(?:Then )?{P} (?:gives away|takes) {N}(?: more| away)?", lambda w, g: w.change(g[0], -number(g[1]))),
    (rf"{P} (?:gets|brings) some more", lambda w, g: w.change(g[0], sympy.Symbol("u"))),
    (rf"{P} (?:gives some away|takes some away)", lambda w, g: w.change(g[0], -sympy.Symbol("u"))),
    (rf"Now (?:{P} has|there (?:is|are)) {N} {THINGS}(?: left)?|Now {N} (?:is|are) left",
     lambda w, g: w.equations.append(w.now[w.who] - number(g[1] or g[2]))),
    (rf"{P} has {N} {THINGS}|{P} has {N}", lambda w, g: w.has(g[0] or g[2], number(g[1] or g[3]))),
]  # fmt: skip
"""What a sentence says. The first that fits counts."""


def compared(world: World, told: Sequence[str], sign: int) -> None:
    """A has 4 more than B, or 4 fewer."""
    first, by, second = told
    for who in (first, second):
        if who not in world.now:
            world.now[who] = world.first[who] = sympy.Symbol(who.replace(" ", "_"))
    world.equations.append(world.now[first] - world.now[second] - sign * number(by))


QUESTIONS: list[tuple[str, Callable[[World, Sequence[str]], sympy.Expr]]] = [
    (r"How many more [a-z ]+ does (.+) have than (.+)", lambda w, g: w.now[g[0]] - w.now[g[1]]),
    (r"How many fewer [a-z ]+ does (.+) have than (.+)", lambda w, g: w.now[g[1]] - w.now[g[0]]),
    (r"How many [a-z ]+ did .+ (?:get|bring|give away|take)", lambda _w, _g: sympy.Symbol("u")),
    (r"How many [a-z ]+ (?:did .+ have|were there) at first", lambda w, _: w.first[w.who]),
    (r"How many [a-z ]+ (?:does .+ have|are there) in all", lambda w, _: sum(w.sizes, sympy.Integer(0))),
    (r"How many [a-z ]+ are in the (?:second box|boat)", lambda w, _: w.now["all"] - w.now["part"]),
    (r"How many [a-z ]+ does (.+) have (?:now|left)|How many [a-z ]+ are (?:on the deck now|left.*)",
     lambda w, g: w.now[g[0] if g[0] in w.now else w.who]),
    (r"How many [a-z ]+ does (.+) have", lambda w, g: w.now[g[0]]),
]  # fmt: skip


def groups(text: str) -> int | None:
    """Stories of equal groups, rows and shares: the numbers are multiplied or shared as the words say."""
    told = [int(n) for n in re.findall(r"\d+", text)]
    if re.search(r"in each (?:box|bag|row)\b.*How many [a-z ]+ (?:are there in all|does .+ need)|Each bag holds", text):
        return told[0] * told[1]
    if re.search(r"left over\?$", text):
        return told[0] % told[1]
    if re.search(r"share|equal rows|Each box gets|fit in each bag|Each bag gets|in each row\. How many rows", text):
        return told[0] // told[1]
    part = re.search(r"(Half|A third|A fourth) of them", text)
    return told[0] // {"Half": 2, "A third": 3, "A fourth": 4}[part[1]] if part else None


def amounts(text: str) -> int | None:
    """Stories of weights and drinks, worked with units."""
    found = re.findall(r"(\d+) (kg|g|L)\b", text)
    if not found:
        return None
    registry = units()
    first, *more = [registry.Quantity(int(n), unit) for n, unit in found]
    count = re.search(r"has (\d+) jars?|into (\d+) jars", text)
    if count and count[1]:
        result = first * int(count[1])
    elif count:
        result = first / int(count[2])
    else:
        result = first - more[0] if "uses" in text else first + more[0]
    value = result.to(found[0][1]).magnitude
    return int(value) if value == int(value) else None


@cache
def units() -> pint.UnitRegistry[float]:
    return pint.UnitRegistry()


def four_signs(text: str) -> int | None:
    """Stories of two steps with groups in them, sentence by sentence."""
    numbers = [int(n) for n in re.findall(r"\d+", text)]
    if "There are" in text and "bags" in text and "now?" in text:
        had, bags, size = numbers
        return had + bags * size
    if "They come out of" in text:
        away, bags, size = numbers
        return bags * size - away
    if "is one of them" in text:
        had, total, children = numbers
        return had + total // children
    if "keeps" in text and "shared equally" in text:
        total, kept, children = numbers
        return (total - kept) // children
    if "into two boxes" in text and "How many ways" in text.replace("In how", "How"):
        return sum(1 for a in range(numbers[0] + 1) for b in range(numbers[0] + 1) if a + b == numbers[0])
    return None


def answer_of(text: str) -> int | None:
    """What the text asks for; None where the reader does not understand it."""
    for read in (four_signs, amounts, groups):
        found = read(text)
        if found is not None:
            return found
    *told, question = re.split(r"(?<=[.?]) ", text)
    world = World()
    for sentence in told:
        for pattern, take in SENTENCES:
            said = re.fullmatch(pattern, sentence.rstrip("."))
            if said:
                take(world, said.groups())
                break
        else:
            return None
    for pattern, ask in QUESTIONS:
        said = re.fullmatch(pattern, question.rstrip("?"))
        if said:
            return int(world.solve(ask(world, said.groups())))
    return None


def stories() -> list[tuple[str, Item]]:
    """Some stories of every skill that tells any."""
    found = []
    for skill in grade2().skills.values():
        for name in formats_built(skill.id):
            if name in TOLD_AS_STORIES:
                items = draw_items(skill, n=40, seed=1900, format=name)
                found += [(f"{skill.id}/{name}", item) for item in items]
    return found


COUNTED = [(where, item) for where, item in stories() if isinstance(item.prompt, Story) and item.prompt.unit is None]


@pytest.mark.parametrize("where", sorted({where for where, _ in COUNTED}))
def test_a_story_comes_to_what_its_printed_words_say(where: str) -> None:
    for place, item in COUNTED:
        if place == where:
            text = " ".join(lines_of(item, "en"))

            assert str(answer_of(text)) == item.parts[0].answer, text


@pytest.mark.parametrize("skill", ["mass-capacity-word", "word-two-step-four-operations"])
def test_a_longer_story_comes_to_what_its_printed_words_say(skill: str) -> None:
    told = [item for where, item in stories() if where.startswith(skill)]
    for item in told:
        text = " ".join(lines_of(item, "en"))

        assert str(answer_of(text)) == item.answer, text
    assert len(told) >= 40


def test_the_reader_reads_a_story_it_has_never_seen() -> None:
    assert answer_of("Kim has 9 apples. Lee has 4 more apples than Kim. How many apples does Lee have?") == 13
    assert answer_of("Kim has some apples. Kim gives away 3. Now Kim has 5 apples left. "
                     "How many apples did Kim have at first?") == 8  # fmt: skip
    assert answer_of("The sky is blue. How many apples?") is None


def test_stories_are_read_in_the_first_grades() -> None:
    """Grade by Flesch and Kincaid, as textstat works it out: the first two on the whole, never past the fourth."""
    texts = [" ".join(lines_of(item, "en")) for _, item in stories() if isinstance(item.prompt, Story | Question)]
    grades = [textstat.flesch_kincaid_grade(text) for text in texts]

    assert sum(grades) / len(grades) <= 2.0
    assert sorted(grades)[int(0.95 * len(grades))] <= 3.5
    assert max(grades) <= 4.5


def test_no_sentence_of_a_story_has_more_than_twelve_words() -> None:
    for _, item in stories():
        if isinstance(item.prompt, Story):
            for sentence in re.split(r"(?<=[.?]) ", " ".join(lines_of(item, "en"))):
                assert len(sentence.split()) <= 12, sentence
