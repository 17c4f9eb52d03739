"""How the learner model does on virtual children: `python bench/learner.py`, with `--write` into docs/learner.md.

Every figure is simulated. Parameters and rules were chosen on other children of the first five kinds of memory; on the
last two nothing was chosen. The comparison models are fitted in the same run on children of the kind they are tried on.
"""

from __future__ import annotations

import argparse
import sys
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
from rich.console import Console
from rich.progress import track

from dayleaf.learner.cohort import Cohort
from dayleaf.learner.factors import counts_before, fit_factors
from dayleaf.learner.outlook import look
from dayleaf.learner.parameters import DEFAULT, DESIGN_9, Parameters
from dayleaf.learner.tracing import fit_tracing, predict
from dayleaf.trial.activation import Activation
from dayleaf.trial.foresight import Foresight
from dayleaf.trial.halflives import Halflives
from dayleaf.trial.paced import Paced
from dayleaf.trial.policies import Boxes, OldestFirst, Ours, Rotation
from dayleaf.trial.savings import Savings
from dayleaf.trial.stability import Stability
from dayleaf.trial.steps import Steps
from dayleaf.trial.timescales import Timescales
from dayleaf.trial.world import made_up_world
from dayleaf.trial.year import live

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from numpy.typing import NDArray

    from dayleaf.trial.minds import Memory, Numbers, Truths
    from dayleaf.trial.world import World
    from dayleaf.trial.year import Log, Year

    Floats = NDArray[np.float64]

KINDS: dict[str, Callable[..., Memory]] = {
    "activation": Activation,
    "many time scales, wrong procedures": Timescales,
    "all-or-none, half-lives": Halflives,
    "stability and insight": Stability,
    "all-or-none, lapses": partial(Halflives, lapses=True),
    "three steps (held out)": Steps,
    "savings (held out)": Savings,
}
PAGE = Path(__file__).resolve().parent.parent / "docs" / "learner.md"
TABLES = "<!-- tables: written by bench/learner.py --write -->"
SEED = 2027
FEW = 24
"""Children that live under every way to choose a back: foresight is slow."""
LEVELS = (0.6, 0.7, 0.8)
LOOKS = 22
"""School days between two looks at what is stated and what is true."""


@dataclass(frozen=True, slots=True)
class Calibration:
    """Stated against true, over looks at the next day and 30 days on: one entry a tenth of stated firmness."""

    stated: Floats
    seen: Floats
    many: Floats
    bias_60: float


def main() -> int:
    """Print the tables, or write them."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--children", type=int, default=60)
    parser.add_argument("--skills", type=int, default=60)
    parser.add_argument("--write", action="store_true", help="write docs/learner.md")
    wishes = parser.parse_args()
    world = made_up_world(SEED, skills=wishes.skills)
    lines: list[str] = []
    console = Console(stderr=True)
    for name, table in track(_tables(world, wishes.children), description="Living", console=console, total=4):
        lines += [f"### {name}", "", *table, ""]
    text = "\n".join(lines)
    print(text)
    if wishes.write:
        before = PAGE.read_text("utf-8").partition(TABLES)[0]
        PAGE.write_text(f"{before}{TABLES}\n\n{text.rstrip()}\n", encoding="utf-8")
    return 0


def _tables(world: World, children: int) -> Iterator[tuple[str, list[str]]]:
    yield "What is known after the year, by how the back is chosen", _backs(world, children)
    yield "With lessons at each child's pace", _paces(world, children)
    yield "The next answer, on children that no model was fitted on", _predictions(world, children)
    yield "Stated firmness against the truth", _calibrations(world, children)


def _memory(name: str, world: World, children: int, seed: int) -> Memory:
    return KINDS[name](world, children, np.random.default_rng([seed, *name.encode()]))


def _row(*cells: object) -> str:
    return "| " + " | ".join(_cell(cell) for cell in cells) + " |"


def _cell(cell: object) -> str:
    if isinstance(cell, float):
        return "–" if np.isnan(cell) else f"{cell:.3f}"
    return str(cell)


def _head(*cells: str) -> list[str]:
    return [_row(*cells), "|" + "|".join(["---", *["--:"] * (len(cells) - 1)]) + "|"]


def _backs(world: World, children: int) -> list[str]:
    children = min(children, FEW)
    lines = _head(
        "memory", "rotation", "oldest first", "boxes", "ours", "foresight", "gap closed", "slowest tenth",
        "most forgetful tenth",
    )  # fmt: skip
    for name in KINDS:
        ends = {}
        for policy in (Rotation, OldestFirst, Boxes, Ours):
            memory = _memory(name, world, children, SEED)
            ends[policy] = live(world, memory, policy(world, children, SEED), children=children, seed=SEED)
        memory = _memory(name, world, children, SEED)
        seeing = live(world, memory, Foresight(world, children, SEED, memory=memory), children=children, seed=SEED)
        groups = [np.argsort(order)[-max(1, children // 10) :] for order in (memory.slowness(), memory.forgetting())]
        for place, days in enumerate((1, 60)):
            known = {policy: year.after[place] for policy, year in ends.items()}
            means = [float(one.mean()) for one in known.values()]
            top = float(seeing.after[place].mean())
            gap = (means[3] - means[0]) / (top - means[0]) if top > means[0] + 0.002 else float("nan")
            apart = [float((known[Ours][group] - known[Rotation][group]).mean()) for group in groups]
            lines.append(_row(f"{name}, {days} days after", *means, top, gap, *(f"{one:+.3f}" for one in apart)))
    return lines


def _paces(world: World, children: int) -> list[str]:
    lines = _head("memory", "fixed second days, rotation", "own pace, ours", "gain")
    for name in KINDS:
        fixed_memory, paced_memory = (_memory(name, world, children, SEED) for _ in range(2))
        fixed = live(world, fixed_memory, Rotation(world, children, SEED), children=children, seed=SEED)
        ours = Ours(world, children, SEED)
        paced = live(
            world, paced_memory, ours, children=children, seed=SEED, lessons=Paced(world, children, ours).lessons
        )
        for place, days in enumerate((1, 60)):
            two = [float(year.after[place].mean()) for year in (fixed, paced)]
            lines.append(_row(f"{name}, {days} days after", *two, f"{two[1] - two[0]:+.3f}"))
    return lines


def _lived(name: str, world: World, children: int, seed: int) -> Year:
    memory = _memory(name, world, children, seed)
    return live(world, memory, Rotation(world, children, seed), children=children, seed=seed)


def _predictions(world: World, children: int) -> list[str]:
    lines = _head("memory", "measure", "ours", "DESIGN 9", "tracing", "tracing with forgetting", "performance factors")
    for name in KINDS:
        train, test = (_lived(name, world, children, SEED + seed).log for seed in (1, 2))
        right, told = test.right, ~test.helped
        chances = [
            replayed(world, test, children, DEFAULT),
            replayed(world, test, children, DESIGN_9),
            *(_traced(world, train, test, children, forgetting=forgetting) for forgetting in (False, True)),
            _factored(world, train, test),
        ]
        lines.append(_row(name, "AUC", *(auc(p[told], right[told]) for p in chances)))
        lines.append(_row("", "log loss", *(log_loss(p[told], right[told]) for p in chances)))
    return lines


def replayed(world: World, log: Log, children: int, parameters: Parameters) -> Floats:
    """P(right) believed before each answer; lessons are those of the world, taught on the day of the first front."""
    cohort = Cohort(world.graph, children, parameters)
    lessons = dict(zip(world.days, world.lessons, strict=False))
    chances = np.zeros(len(log.child))
    ends = np.flatnonzero(np.diff(log.child) <= 0) + 1
    taught: set[tuple[int, float]] = set()
    for begin, end in zip([0, *ends], [*ends, len(log.child)], strict=True):
        who, day = log.child[begin:end], float(log.day[begin])
        fresh = [child for child in who.tolist() if (child, day) not in taught]
        if fresh and int(day) in lessons:
            cohort.teach(np.array(fresh), np.full(len(fresh), lessons[int(day)]), day)
            taught.update((child, day) for child in fresh)
        weight = np.where(log.helped[begin:end], 0.5, 1.0)
        chances[begin:end] = cohort.answer(who, log.skill[begin:end], day, right=log.right[begin:end], weight=weight)
    return chances


def _padded(world: World, log: Log, children: int) -> tuple[Truths, Truths, Numbers]:
    """Answers as skill × child × turn, which of them are there, and the turn of each answer of the log."""
    rights, wrongs = counts_before(log.child, log.skill, log.right)
    turn = (rights + wrongs).astype(np.intp)
    shape = (world.skills, children, int(turn.max()) + 1)
    right, there = np.zeros(shape, dtype=bool), np.zeros(shape, dtype=bool)
    right[log.skill, log.child, turn] = log.right
    there[log.skill, log.child, turn] = True
    return right, there, turn


def _traced(world: World, train: Log, test: Log, children: int, *, forgetting: bool) -> Floats:
    right, there, _turn = _padded(world, train, children)
    fitted = fit_tracing(right, there, forgetting=forgetting)
    right, there, turn = _padded(world, test, children)
    chances: Floats = predict(right, there, fitted)[test.skill, test.child, turn]
    return np.clip(chances, 1e-4, 1 - 1e-4)


def _factored(world: World, train: Log, test: Log) -> Floats:
    fitted = fit_factors(
        train.skill, *counts_before(train.child, train.skill, train.right), train.right, skills=world.skills
    )
    return fitted.chances(test.skill, *counts_before(test.child, test.skill, test.right))


def auc(chances: Floats, right: Truths) -> float:
    """The chance that a right answer had been given the higher chance than a wrong one (ties half)."""
    order = np.argsort(chances, kind="stable")
    _values, first, many = np.unique(chances[order], return_index=True, return_counts=True)
    ranks = np.empty(len(chances))
    ranks[order] = np.repeat(first + (many + 1) / 2, many)
    ones = int(right.sum())
    return float((ranks[right].sum() - ones * (ones + 1) / 2) / (ones * (len(right) - ones)))


def log_loss(chances: Floats, right: Truths) -> float:
    """The mean of −ln of the chance given to what happened."""
    return float(-np.log(np.where(right, chances, 1 - chances)).mean())


def calibration(name: str, world: World, children: int, seed: int) -> Calibration:
    """Stated firmness and the truth, at levels .6, .7 and .8, with the next day and 30 days on taken together."""
    memory = _memory(name, world, children, seed)
    ours = Ours(world, children, seed)
    stated: list[Floats] = []
    seen: list[Floats] = []
    days: list[float] = []

    def watch(day: float) -> None:
        days.append(day)
        if len(days) % LOOKS:
            return
        for ahead in (1, 30):
            belief, true = look(ours.cohort, day + ahead), memory.chances(day + ahead)
            for level in LEVELS:
                stated.append(belief.firm(level)[ours.met])
                seen.append((true >= level)[ours.met].astype(np.float64))

    year = live(world, memory, ours, children=children, seed=seed, watch=watch)
    all_stated, all_seen = np.concatenate(stated), np.concatenate(seen)
    tenth = np.clip((all_stated * 10).astype(int), 0, 9)
    many = np.bincount(tenth, minlength=10).astype(float)
    at = np.maximum(many, 1)
    bias = look(ours.cohort, world.days[-1] + 60.0).p - year.after[1]
    return Calibration(
        np.bincount(tenth, all_stated, 10) / at,
        np.bincount(tenth, all_seen, 10) / at,
        many,
        float(bias[ours.met].mean()),
    )


def _calibrations(world: World, children: int) -> list[str]:
    lines = _head("memory", *(f".{tenth}–" for tenth in range(10)), "largest", "60-day bias")
    for name in KINDS:
        found = calibration(name, world, children, SEED + 3)
        apart = found.stated - found.seen
        largest = float(np.abs(apart[found.many > 0.005 * found.many.sum()]).max())
        lines.append(_row(name, *(f"{one:+.2f}" for one in apart), largest, f"{found.bias_60:+.3f}"))
    return lines


if __name__ == "__main__":
    sys.exit(main())
