"""Who to call, proved: families lived with planted troubles, on seeds that no choice was made on."""

from __future__ import annotations

import argparse
import sys
from collections import Counter
from dataclasses import dataclass
from datetime import date

from rich.console import Console
from rich.progress import track
from rich.table import Table

from dayleaf.advising.calls import who_to_call
from dayleaf.trial.families import TROUBLES, Trial, families_lived

UNSEEN = 2000
"""Seeds below it were looked at while the lines were drawn."""
TODAY = date(2027, 2, 23)
MOST_UNTROUBLED = 0.10


@dataclass(frozen=True)
class Found:
    """One trial: troubles planted, those listed with their right reason, untroubled families and those listed."""

    planted: Counter[str]
    listed: Counter[str]
    untroubled: int
    false: Counter[str]


def measured(trial: Trial) -> Found:
    """What the list says of a trial's families."""
    calls = {call.child: call for call in who_to_call(trial.families, today=trial.today)}
    planted: Counter[str] = Counter()
    listed: Counter[str] = Counter()
    false: Counter[str] = Counter()
    for shared, trouble in zip(trial.families, trial.planted, strict=True):
        call = calls.get(shared.terms.child)
        kinds = {reason.kind for reason in call.reasons} if call else set()
        if trouble is None:
            false.update([call.reasons[0].kind] if call else [])
        else:
            planted[trouble] += 1
            listed[trouble] += trouble in kinds
    return Found(planted, listed, sum(one is None for one in trial.planted), false)


def main(arguments: list[str] | None = None) -> int:
    """Run the trials and say what was listed; 1 where a planted trouble is missed or too many others are listed."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--trials", type=int, default=20, help="trials of 60 families")
    parser.add_argument("--first", type=int, default=UNSEEN, help="the first seed")
    wishes = parser.parse_args(arguments)
    planted, listed, false, untroubled, worst = Counter[str](), Counter[str](), Counter[str](), 0, 0.0
    for seed in track(range(wishes.first, wishes.first + wishes.trials), "Families", console=Console(stderr=True)):
        one = measured(families_lived(today=TODAY, seed=seed))
        planted, listed, false = planted + one.planted, listed + one.listed, false + one.false
        untroubled += one.untroubled
        worst = max(worst, one.false.total() / one.untroubled)
    table = Table("planted", "families", "listed with this reason")
    for trouble in TROUBLES:
        table.add_row(trouble, f"{planted[trouble]:,}", f"{listed[trouble]:,}")
    console = Console()
    console.print(table)
    share = false.total() / untroubled
    console.print(f"untroubled families listed: {false.total()} of {untroubled} ({share:.1%}; worst trial {worst:.1%})")
    console.print(", ".join(f"{kind} {many}" for kind, many in false.most_common()) or "none")
    return 1 if listed != planted or share > MOST_UNTROUBLED else 0


if __name__ == "__main__":
    sys.exit(main())
