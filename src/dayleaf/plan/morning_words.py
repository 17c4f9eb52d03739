"""A morning in sentences: what is left out and why, who is with the adult when."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from typing import TYPE_CHECKING

from dayleaf.plan.morning_cost import finish_bound
from dayleaf.plan.morning_model import LeftOut

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from datetime import time

    from dayleaf.core.ids import LearnerId
    from dayleaf.plan.morning_model import Block, MorningNeeds, MorningPlan, Session


def left_out_of(needs: MorningNeeds, sessions: Sequence[Session]) -> tuple[LeftOut, ...]:
    """The blocks without a place, with the reason that the day itself gives."""
    kept = {one.block for one in sessions}
    return tuple(
        LeftOut(block.id, block.learner, f"{block.title} ({block.minutes} minutes) is left out: {_why(needs, block)}")
        for block in needs.blocks
        if block.id not in kept
    )


def moment(start: time | None, minute: int) -> str:
    """A minute of the morning as a clock time where there is a start, otherwise as minutes from the beginning."""
    if start is None:
        return f"minute {minute}"
    at = datetime.combine(date.min, start) + timedelta(minutes=minute)
    return f"{at.hour}:{at.minute:02d}"


def adult_rows(plan: MorningPlan) -> tuple[tuple[LearnerId, str, int, int], ...]:
    """Who is with the adult when: (child, block, from minute, to minute), neighbours of one lesson joined."""
    rows: list[tuple[LearnerId, str, int, int]] = []
    for one in plan.with_adult:
        if rows and rows[-1][:2] == (one.learner, one.block) and rows[-1][3] == one.start:
            rows[-1] = (one.learner, one.block, rows[-1][2], one.end)
        else:
            rows.append((one.learner, one.block, one.start, one.end))
    return tuple(rows)


def morning_sentence(plan: MorningPlan) -> str:
    """The morning in a line: minutes with the adult and when all is done."""
    led = sum(one.minutes for one in plan.with_adult)
    end = f"{plan.minutes} in all" if plan.start is None else f"done by {moment(plan.start, plan.minutes)}"
    return f"About {led} minutes with you, {end}."


def morning_lines(needs: MorningNeeds, plan: MorningPlan, names: Mapping[LearnerId, str]) -> tuple[str, ...]:
    """The morning for a terminal: its sentence, who is with the adult when, and what is left out."""
    titles = {block.id: block.title for block in needs.blocks}
    rows = [
        f"  {moment(plan.start, start)} to {moment(plan.start, end)}: {names.get(child, child)}, {titles[block]}"
        for child, block, start, end in adult_rows(plan)
    ]
    return (
        morning_sentence(plan),
        *rows,
        *(f"  {names.get(one.learner, one.learner)}: {one.says}" for one in plan.left_out),
    )


def _why(needs: MorningNeeds, block: Block) -> str:
    latest = needs.latest or 0
    by = moment(needs.start, latest)
    led = sum(phase.minutes for one in needs.blocks for phase in one.phases if phase.kind == "led")
    own = finish_bound(needs, [one for one in needs.blocks if one.learner == block.learner])
    if finish_bound(needs, [block]) > latest:
        return f"it is longer than the {latest} minutes there are."
    if led > latest:
        return f"all that needs an adult takes {led} minutes, and there are {latest}."
    if own > latest:
        return f"this child’s lessons with their pauses take {own} minutes, and there are {latest}."
    whole = finish_bound(needs, needs.blocks)
    if whole > latest:
        return f"with it the morning ends at {moment(needs.start, whole)} at the earliest, and it is to end by {by}."
    return f"no order was found in which all is done by {by}."
