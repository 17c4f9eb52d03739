"""Mornings at length: figures beside the solver alone and child after child; many drawn ones under the checker."""

from __future__ import annotations

import argparse
import sys
from dataclasses import replace
from itertools import cycle
from statistics import mean, median
from time import process_time
from typing import TYPE_CHECKING

from proofs import Tally
from rich.console import Console
from rich.progress import track
from rich.table import Table
from timed import Figure

from dayleaf.plan.morning import plan_morning
from dayleaf.plan.morning_check import check_morning
from dayleaf.plan.morning_search import Order, lay
from dayleaf.plan.morning_solver import Limits, MorningModel
from dayleaf.trial.mornings import best_by_trying, drawn_morning, tiny_morning

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from dayleaf.plan.morning_model import MorningNeeds

LIMIT_MS = 500
DRAWN = 15
MIX = (1, 2, 2, 3, 3, 3, 4, 4, 5)
"""How many children the drawn mornings have, in turn."""
SHORT = 3
"""Every third has an end that may be too early."""


def morning_figures() -> Iterator[Figure]:
    """A morning for five and for three, each beside the solver alone on the same mornings."""
    for children in (5, 3):
        drawn = [drawn_morning(children, seed) for seed in range(DRAWN)]
        plan_morning(drawn[0])  # the solver is imported once
        ours = [_ms(needs) for needs in drawn]
        alone = [_solver_alone_ms(needs) for needs in drawn]
        later = mean(_child_after_child(needs) - plan_morning(needs).minutes for needs in drawn)
        yield Figure(
            f"a morning for {children} children, end and wishes",
            median(ours),
            f"the solver alone; child after child ends {later:.0f} minutes later",
            median(alone),
            "the earliest end only, no wishes",
            limit_ms=LIMIT_MS,
        )


def main(words: Sequence[str] | None = None) -> int:
    """Lay many mornings out and look each over; exit 1 as soon as one thing is not as it must be."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--mornings", type=int, default=10_000, help="drawn mornings of one to five children")
    parser.add_argument("--tiny", type=int, default=300, help="small mornings on which everything is tried")
    wishes = parser.parse_args(words)
    console = Console(stderr=True)
    sound = Tally("mornings that break no rule")
    proven = Tally("mornings of up to four children: what is left out and the end proven")
    wished = Tally("of these, not proven in the wishes (a count, no fault)")
    near = Tally("mornings of five within 2 % of a proven bound of the end")
    best = Tally("small mornings equal to the best of all that can be tried")
    taken: dict[int, list[float]] = {}
    for seed, children in track(
        zip(range(wishes.mornings), cycle(MIX)), description="Mornings", total=wishes.mornings, console=console
    ):
        needs = drawn_morning(children, seed, short=seed % SHORT == 0)
        start = process_time()
        plan = plan_morning(needs)
        taken.setdefault(children, []).append(process_time() - start)
        said = f"{children} children, seed {seed}"
        sound.note(said, fine=check_morning(needs, plan) == ())
        if children <= 4:
            settled = (plan.price, plan.minutes) == (plan.price_bound, plan.finish_bound)
            proven.note(said, fine=settled)
            wished.checked += settled and plan.proof != "optimal"
        else:
            near.note(said, fine=plan.price == plan.price_bound and plan.minutes <= 1.02 * plan.finish_bound)
    for seed in track(range(wishes.tiny), description="Small mornings", console=console):
        needs = tiny_morning(seed)
        plan = plan_morning(needs)
        best.note(f"seed {seed}", fine=best_by_trying(needs, within=plan.minutes) == (plan.minutes, plan.total))
    return _report((sound, proven, wished, near, best), taken)


def _report(tallies: Sequence[Tally], taken: dict[int, list[float]]) -> int:
    table = Table("what", "looked at", "not so")
    for tally in tallies:
        table.add_row(tally.name, f"{tally.checked:,}", f"{tally.failures:,}")
    console = Console()
    console.print(table)
    for children, seconds in sorted(taken.items()):
        ordered = sorted(seconds)
        most = ordered[int(0.95 * (len(ordered) - 1))]
        console.print(
            f"{children} children: median {median(ordered) * 1000:.0f} ms, 95 of 100 within {most * 1000:.0f} ms, "
            f"longest {ordered[-1] * 1000:.0f} ms"
        )
    for tally in tallies:
        for one in tally.shown:
            console.print(f"{tally.name}: not so for {one}")
    return 1 if any(tally.failures for tally in tallies) else 0


def _ms(needs: MorningNeeds) -> float:
    start = process_time()
    plan_morning(needs)
    return (process_time() - start) * 1000


def _solver_alone_ms(needs: MorningNeeds) -> float:
    """The earliest end by the constraint solver without a first morning and without our bounds met beforehand."""
    hint = lay(needs, _one_after_the_other(needs)).sessions
    start = process_time()
    MorningModel(needs, hint, limits=Limits(price=0)).least_end()
    return (process_time() - start) * 1000


def _child_after_child(needs: MorningNeeds) -> int:
    """When the last child is done if each begins when the one before has finished, as in most homes."""
    end = 0
    for child in needs.learners:
        own = [block for block in needs.blocks if block.learner == child]
        shifted = tuple(replace(one, start=one.start - end) for one in needs.appointments if one.end > end)
        alone = replace(needs, blocks=tuple(own), appointments=shifted)
        end += lay(alone, _one_after_the_other(alone)).rank[1]
    return end


def _one_after_the_other(needs: MorningNeeds) -> Order:
    own = {child: tuple(block for block in needs.blocks if block.learner == child) for child in needs.learners}
    turns = tuple(child for child, blocks in own.items() for block in blocks for _ in block.phases)
    return Order(turns, tuple(own.items()))


if __name__ == "__main__":
    sys.exit(main())
