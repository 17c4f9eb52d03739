"""A lesson drawn together: its first parts moved later, so that a child waits before a lesson and not in its middle."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from dayleaf.plan.morning_model import ADULT

if TYPE_CHECKING:
    from collections.abc import Sequence

    from dayleaf.plan.morning_model import MorningNeeds, Session, Stamina


def closed_up(needs: MorningNeeds, sessions: Sequence[Session]) -> tuple[Session, ...]:
    """The same morning with every phase but the last of its block as late as it can be; nothing ends later.

    From the end of the morning to its start, a phase moves right up to the next of its block where adult,
    things and appointments leave it room there. A move that costs a needed pause is not made.
    """
    row = list(sessions)
    fixed = [(one.who, one.start, one.end) for one in needs.appointments]
    loud = {block.id for block in needs.blocks if block.loud}
    quiet = [(one.start, one.end) for one in needs.appointments if one.quiet]
    for place in sorted(range(len(row)), key=lambda n: -row[n].start):
        one = row[place]
        following = next((two for two in row if two.block == one.block and two.phase == one.phase + 1), None)
        if following is None or following.start == one.end:
            continue
        taken = [
            (start, end) for who, start, end in fixed if one.learner in who or (one.kind == "led" and ADULT in who)
        ]
        taken += [(two.start, two.end) for n, two in enumerate(row) if n != place and _rivals(one, two, needs)]
        taken += quiet if one.block in loud else []
        start = _last_gap(taken, following.start, one.minutes)
        moved = replace(one, start=start)
        if start > one.start and _pauses_hold(needs.stamina.get(one.learner), row, place, moved):
            row[place] = moved
    return tuple(row)


def _rivals(one: Session, two: Session, needs: MorningNeeds) -> bool:
    """Whether two phases may never be at the same time (a thing of which there are several is taken as one)."""
    both_led = one.kind == two.kind == "led"
    return one.learner == two.learner or both_led or any(name in two.uses for name in one.uses if name in needs.shared)


def _last_gap(taken: Sequence[tuple[int, int]], end: int, minutes: int) -> int:
    """The latest start of a stretch that is over by `end`."""
    for begins, ends in sorted(taken, key=lambda span: -span[1]):
        if ends <= end - minutes:
            break
        if begins < end:
            end = min(end, begins)
    return end - minutes


def _pauses_hold(stamina: Stamina | None, row: Sequence[Session], place: int, moved: Session) -> bool:
    if stamina is None:
        return True
    own = [moved if n == place else one for n, one in enumerate(row) if one.learner == moved.learner]
    own.sort(key=lambda one: one.start)
    stretch, last = 0, None
    for one in own:
        joined = last is not None and one.start - last < stamina.pause
        stretch = stretch + one.minutes if joined else one.minutes
        if joined and stretch > stamina.span:
            return False
        last = one.end
    return True
