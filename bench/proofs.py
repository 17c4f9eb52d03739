"""The long runs: what the tests sample, gone through at length by the same outside measures."""

from __future__ import annotations

import subprocess
import sys
from collections import Counter
from dataclasses import dataclass, field
from itertools import product
from pathlib import Path
from typing import TYPE_CHECKING, Any

from onpaper import misplaced

from dayleaf.core.errors import DayleafError
from dayleaf.course.load import grade2
from dayleaf.items.built import formats_built, is_built
from dayleaf.items.choose import choose_items
from dayleaf.learner.review import Back
from dayleaf.packets.day import prepare_day, print_packet
from dayleaf.packets.model import Child, NotBuiltYet
from dayleaf.sheets.model import Look

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Mapping

    from dayleaf.course.model import Day, Skill
    from dayleaf.items.model import Item
    from dayleaf.packets.model import Packet

ROOT = Path(__file__).resolve().parent.parent
CALLS = {"abs": abs, "min": min, "max": max, "len": len, "set": set, "str": str, "int": int}
PAGE = 8
SHOWN = 5
"""Failures named one by one, one a skill; the others are only counted."""


@dataclass(slots=True)
class Tally:
    """How many things one proof looked at, and the first of those that were not as they must be."""

    name: str
    checked: int = 0
    failures: int = 0
    shown: list[str] = field(default_factory=list)

    def note(self, what: str, *, fine: bool) -> None:
        """Count one thing."""
        self.checked += 1
        if not fine:
            self.fail(what)

    def fail(self, what: str) -> None:
        """Count a failure of a thing that was counted as looked at."""
        self.failures += 1
        of = what.split("/", 1)[0]
        if len(self.shown) < SHOWN and not any(one.startswith(of) for one in self.shown):
            self.shown.append(what)


def built_skills() -> list[Skill]:
    """Every skill that can be made today."""
    return [skill for skill in grade2().skills.values() if is_built(skill.id)]


def rule_in_python(text: str) -> Callable[[Mapping[str, int]], bool]:
    """A rule such as `a=21..98 b=12..89 | a%10<b%10` read by Python itself and not by our own reader."""
    ranges, _, condition = text.partition("|")
    allowed: dict[str, set[int]] = {}
    for part in ranges.split():
        name, _, span = part.partition("=")
        pieces = (piece.partition("..") for piece in span.split(","))
        allowed[name] = {n for low, dots, high in pieces for n in range(int(low), int(high if dots else low) + 1)}
    names = ",".join(allowed)
    holds: Any = eval(f"lambda {names}: {condition.strip() or True}", {"__builtins__": CALLS})  # noqa: S307 -- our own files
    return lambda numbers: (
        set(numbers) == set(allowed)
        and all(numbers[name] in values for name, values in allowed.items())
        and bool(holds(**numbers))
    )


def every_page(skill: Skill, tally: Tally, *, pages: int) -> None:
    """Pages of chosen items: the same numbers never twice, in whatever format."""
    for seed in range(pages):
        page = choose_items(skill, n=PAGE, seed=seed, formats=formats_built(skill.id))
        most = max(Counter(tuple(sorted(item.numbers.items())) for item in page).values(), default=0)
        tally.note(f"{skill.id}, seed {seed}", fine=most <= 1)


def telling_apart(seeds: Iterable[int], tally: Tally) -> None:
    """The own page of the first day of regrouping: at least two items part the two commonest ways (JOB 1.7)."""
    course = grade2()
    for seed in seeds:
        packet = prepare_day(course, course.days[83], Child("Wren", two_sheets=False), seed=seed, backs=())
        pairs = [(item.numbers["a"], item.numbers["b"]) for item in _items(packet, "own")]
        apart = [abs(a // 10 - b // 10) * 10 + abs(a % 10 - b % 10) != a - b + 10 for a, b in pairs]
        tally.note(f"seed {seed}", fine=sum(apart) >= 2)


def every_day() -> tuple[tuple[Day, Look, bool], ...]:
    """Every day of the course, on both papers, with one sheet and with two."""
    looks = (Look(), Look(paper="a4"))
    return tuple((day, look, two) for day, look, two in product(grade2().days, looks, (True, False)))


def one_day(day: Day, look: Look, tallies: Mapping[str, Tally], *, two: bool, looked_at: bool) -> None:
    """A day on paper in full; where asked, every side is looked at by detectors that know nothing of us."""
    course = grade2()
    backs = [Back(skill, "on the course's list") for skill in day.back_skills if is_built(skill)]
    where = f"{day.id} {look.paper} {'two sheets' if two else 'one sheet'}"
    try:
        packet = prepare_day(course, day, Child("Wren", look, two_sheets=two), seed=84, backs=backs)
    except NotBuiltYet:
        tallies["unbuilt"].note(where, fine=True)
        return
    if not packet.sheets:
        tallies["unbuilt"].note(where, fine=True)
        return
    try:
        prints = print_packet(course, packet)
    except DayleafError as refused:
        tallies["print"].note(f"{where}: {refused}", fine=False)
        return
    tallies["print"].note(where, fine=bool(prints.guide and prints.key and all(p.items for p in prints.pages.pages)))
    for sheet in prints.packet.sheets:
        faces = Counter(
            (placed.item.skill, tuple(sorted(placed.item.numbers.items())))
            for side in sheet.pages
            for block in side.blocks
            for placed in block.items
        )
        tallies["sheet"].note(f"{where}: {faces.most_common(1)}", fine=max(faces.values()) == 1)
    if looked_at:
        for page, wrong in misplaced(prints.pages):
            tallies["paper"].note(f"{where}, side {page}: {', '.join(wrong)}", fine=not wrong)


def kills(runs: int) -> Iterator[tuple[str, bool]]:
    """The test that kills a marking process, again and again; each run kills eight times."""
    for run in range(runs):
        command = [sys.executable, "-m", "pytest", "-q", "tests/records/test_kill.py"]
        done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)
        yield f"run {run + 1}: {done.stdout[-400:]}", done.returncode == 0


def _items(packet: Packet, kind: str) -> list[Item]:
    sides = [side for sheet in packet.sheets for side in sheet.pages if side.kind == kind]
    return [placed.item for side in sides for block in side.blocks for placed in block.items]
