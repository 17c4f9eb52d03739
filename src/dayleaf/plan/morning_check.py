"""Looks a morning over minute by minute and says what rule it breaks; written apart from what lays mornings out."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

from dayleaf.plan.morning_model import ADULT

if TYPE_CHECKING:
    from collections.abc import Iterator

    from dayleaf.core.ids import LearnerId
    from dayleaf.plan.morning_model import MorningNeeds, MorningPlan, Session


def check_morning(needs: MorningNeeds, plan: MorningPlan) -> tuple[str, ...]:
    """Every rule that the morning breaks, as a sentence; nothing where it is sound."""
    return tuple(
        dict.fromkeys(
            (
                *_blocks_whole(needs, plan),
                *_one_thing_at_a_time(needs, plan),
                *_pauses_kept(needs, plan),
                *_figures(plan, needs),
            )
        )
    )


def _blocks_whole(needs: MorningNeeds, plan: MorningPlan) -> Iterator[str]:
    out = {left.block for left in plan.left_out}
    for block in needs.blocks:
        mine = [one for one in plan.sessions if one.block == block.id]
        if block.id in out:
            if mine:
                yield f"{block.id} is said to be left out and has a place."
            continue
        said = [(one.phase, one.kind, one.minutes, one.uses, one.learner) for one in mine]
        asked = [(n, one.kind, one.minutes, one.uses, block.learner) for n, one in enumerate(block.phases)]
        if sorted(said) != asked:
            yield f"{block.id} is not there with every phase."
        elif said != asked:
            yield f"The phases of {block.id} are out of order."
    known = {block.id for block in needs.blocks}
    for strange in sorted({one.block for one in plan.sessions} - known):
        yield f"{strange} was not asked for."


def _one_thing_at_a_time(needs: MorningNeeds, plan: MorningPlan) -> Iterator[str]:
    """Minute by minute: what everybody does."""
    doing: dict[tuple[str, int], list[str]] = defaultdict(list)
    for one in plan.sessions:
        for minute in range(one.start, one.start + one.minutes):
            for who in (f"child {one.learner}", *([ADULT] if one.kind == "led" else [])):
                doing[who, minute].append(one.block)
    for (who, minute), lessons in sorted(doing.items()):
        said = who.removeprefix("child ")
        if len(lessons) > 1:
            yield f"{said} has {' and '.join(lessons)} at once in minute {minute}."
        for taken in needs.appointments:
            if said in taken.who and taken.start <= minute < taken.start + taken.minutes:
                yield f"{said} has {lessons[0]} and {taken.name} at once in minute {minute}."
    yield from _things_enough(needs, plan)
    yield from _quiet_kept(needs, plan)
    yield from _blocks_apart(needs, plan)


def _things_enough(needs: MorningNeeds, plan: MorningPlan) -> Iterator[str]:
    using: dict[tuple[str, int], int] = defaultdict(int)
    for one in plan.sessions:
        for minute in range(one.start, one.start + one.minutes):
            for name in one.uses:
                using[name, minute] += 1
    for (name, minute), count in sorted(using.items()):
        if count > needs.shared.get(name, 1):
            yield f"{name} is wanted {count} times at once in minute {minute}."


def _quiet_kept(needs: MorningNeeds, plan: MorningPlan) -> Iterator[str]:
    loud = {block.id for block in needs.blocks if block.loud}
    for taken in needs.appointments:
        still = set(range(taken.start, taken.start + taken.minutes)) if taken.quiet else set()
        for one in plan.sessions:
            if one.block in loud and still & set(range(one.start, one.start + one.minutes)):
                yield f"{one.block} is loud during {taken.name}."


def _blocks_apart(needs: MorningNeeds, plan: MorningPlan) -> Iterator[str]:
    """A child ends one block before it begins another."""
    for child in needs.learners:
        row = [one.block for one in sorted(_of(plan, child), key=lambda one: one.start)]
        runs = [name for place, name in enumerate(row) if not place or row[place - 1] != name]
        for name in sorted({name for name in runs if runs.count(name) > 1}):
            yield f"{name} is interrupted by another lesson of {child}."


def _pauses_kept(needs: MorningNeeds, plan: MorningPlan) -> Iterator[str]:
    for child, stamina in needs.stamina.items():
        row = sorted(_of(plan, child), key=lambda one: one.start)
        stretch: list[Session] = []
        for one in row:
            if stretch and one.start - (stretch[-1].start + stretch[-1].minutes) >= stamina.pause:
                stretch = []
            stretch.append(one)
            sat = sum(part.minutes for part in stretch)
            if len(stretch) > 1 and sat > stamina.span:
                yield f"{child} sits for {sat} minutes without a pause."


def _figures(plan: MorningPlan, needs: MorningNeeds) -> Iterator[str]:
    ends = [one.start + one.minutes for one in plan.sessions]
    if plan.minutes != max(ends, default=0):
        yield f"The morning is said to end at {plan.minutes} and ends at {max(ends, default=0)}."
    if needs.latest is not None and plan.minutes > needs.latest:
        yield f"The morning ends at {plan.minutes}, after {needs.latest}."
    if any(one.start < 0 for one in plan.sessions):
        yield "A session begins before the morning."
    out = {left.block for left in plan.left_out}
    worth = sum(block.worth for block in needs.blocks if block.id in out)
    if plan.price != worth:
        yield f"What is left out is worth {worth}, not {plan.price}."


def _of(plan: MorningPlan, child: LearnerId) -> list[Session]:
    return [one for one in plan.sessions if one.learner == child]
