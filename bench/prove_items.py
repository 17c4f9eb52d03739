"""Millions of different items, each worked out a second time: part of `python3 dev.py prove`, or by itself.

    python bench/prove_items.py --items 10000000 --write

Every skill and format gets an equal share; where a rule has fewer sets of numbers than its share it is gone through
whole, and the others get what it leaves. No item is looked at twice. Of each item the text and the steps are made in
English, the key is held against the second solver's, and the numbers against the rule as Python itself reads it.
"""

from __future__ import annotations

import argparse
import os
import platform
import sys
from dataclasses import dataclass
from datetime import UTC, datetime
from itertools import islice
from pathlib import Path
from random import Random
from time import perf_counter, process_time
from typing import TYPE_CHECKING

from proofs import Tally, built_skills, rule_in_python
from rich.console import Console
from rich.progress import Progress

from dayleaf.core.errors import DayleafError
from dayleaf.course.rules import parse_rule
from dayleaf.items.built import rule_of
from dayleaf.items.make import make
from dayleaf.items.second import second_answer
from dayleaf.wording.say import steps_of, text_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from dayleaf.core.ids import FormatId
    from dayleaf.course.model import Skill
    from dayleaf.items.model import Item

PROVED = Path(__file__).resolve().parent.parent / "docs" / "proved.md"
SAMPLE = 400
"""So many sets of numbers say how many of a rule a format can use."""
LANG = "en"


@dataclass(frozen=True, slots=True)
class Pair:
    """A skill asked in one format, and about how many different items that can give."""

    skill: Skill
    format: FormatId
    size: float


def main(words: Sequence[str] | None = None) -> int:
    """Go through the items and say what was found; exit status 1 where something is not as it must be."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--items", type=int, default=1_000_000, help="different items over all skills and formats")
    parser.add_argument("--write", action="store_true", help="write docs/proved.md")
    wishes = parser.parse_args(words)
    tallies = [Tally("keys equal to the second solver's"), Tally("numbers inside the rule"), Tally("text and steps")]
    pairs = [_sized(skill, name) for skill in built_skills() for name in rule_of(skill.id).formats]
    share = _share([pair.size for pair in pairs], wishes.items)
    start, worked = perf_counter(), process_time()
    with Progress(console=Console(stderr=True)) as progress:
        for pair in progress.track(pairs, description="Different items"):
            _go_through(pair, share, tallies)
    seconds, worked = perf_counter() - start, process_time() - worked
    whole = sum(pair.size <= share for pair in pairs)
    lines = list(_report(tallies, pairs=len(pairs), whole=whole, seconds=seconds, worked=worked))
    print("\n".join(lines))
    if wishes.write:
        PROVED.write_text("\n".join(["# Proved at length", "", *_head(), "", *lines, ""]), encoding="utf-8")
    return 1 if any(tally.failures for tally in tallies) else 0


def _sized(skill: Skill, format_id: FormatId) -> Pair:
    rule = parse_rule(skill.item_rule or "")
    count = rule.count()
    fits = rule_of(skill.id).fits.get(format_id)
    if fits is None:
        return Pair(skill, format_id, count)
    chance = Random(1)
    places = (chance.randrange(rule.combinations) for _ in range(10**7))
    rows = [dict(zip(rule.names, row, strict=True)) for row in islice(rule.tried(places), SAMPLE)]
    return Pair(skill, format_id, count * sum(map(fits, rows)) / len(rows))


def _share(sizes: Sequence[float], items: int) -> float:
    """How many items each pair gets, so that together there are as many as wanted."""
    left = float(items)
    for place, size in enumerate(sorted(sizes)):
        each = left / (len(sizes) - place)
        if size >= each:
            return each
        left -= size
    return max(sizes)


def _items(pair: Pair, share: float) -> Iterator[Item]:
    """The pair's items in the order of its rule: all of them, or evenly spaced ones."""
    rule = parse_rule(pair.skill.item_rule or "")
    fits = rule_of(pair.skill.id).fits.get(pair.format)
    step = share / pair.size if pair.size > share else 1.0
    due = 0.0
    for row in rule.each():
        due += step
        if due < 1.0:
            continue
        due -= 1.0
        numbers = dict(zip(rule.names, row, strict=True))
        if fits is None or fits(numbers):
            yield make(pair.skill, pair.format, numbers)


def _go_through(pair: Pair, share: float, tallies: Sequence[Tally]) -> None:
    keys, inside, said = tallies
    holds = rule_in_python(pair.skill.item_rule or "")
    for item in _items(pair, share):
        keys.checked += 1
        inside.checked += 1
        said.checked += 1
        if not _answered_twice(item):
            keys.fail(item.key)
        if not holds(item.numbers):
            inside.fail(item.key)
        if not _said(item):
            said.fail(item.key)


def _answered_twice(item: Item) -> bool:
    try:
        return second_answer(item) == item.answer
    except (DayleafError, LookupError, ValueError, ArithmeticError):  # whatever stops the second solver is a finding
        return False


def _said(item: Item) -> bool:
    try:
        return bool(text_of(item, LANG)) and all(steps_of(item, LANG))
    except DayleafError:
        return False


def _head() -> Iterator[str]:
    yield "Written by `python bench/prove_items.py --write`, which `python3 dev.py prove --write` runs too. Every item"
    yield "is another one: another skill, format or set of numbers. Its text and steps are made, its key held against"
    yield "the answer of separate code that sees only what is printed, its numbers against the rule as Python reads it."


def _report(tallies: Sequence[Tally], *, pairs: int, whole: int, seconds: float, worked: float) -> Iterator[str]:
    items = tallies[0].checked
    yield "| what | looked at | not so |"
    yield "|---|--:|--:|"
    for tally in tallies:
        yield f"| {tally.name} | {tally.checked:,} | {tally.failures:,} |"
    yield ""
    yield f"{items:,} different items of {pairs} pairs of skill and format, {whole} of them gone through whole, in"
    rate = f"{items / worked:,.0f} items a second"
    yield f"{seconds:,.0f} s, of which one core worked {worked:,.0f} s: {rate} made, said,"
    yield "solved again and held against their rule."
    machine = f"{platform.system()} {platform.machine()}, Python {platform.python_version()}"
    busy = f"; {os.getloadavg()[0]:.1f} programs wanted its {os.cpu_count()} cores" if hasattr(os, "getloadavg") else ""
    yield f"{datetime.now(UTC).date()}, {machine}{busy}."
    for tally in tallies:
        for one in tally.shown:
            yield f"Not so: {tally.name}: {one}"


if __name__ == "__main__":
    sys.exit(main())
