"""A week's print run beside the pages: one thread, and how far it has come for whoever looks."""

from __future__ import annotations

import threading
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from django.db import connections

from dayleaf.core.errors import DayleafError
from dayleaf.records import selectors
from dayleaf.records.print_run import run_print

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from dayleaf.plan.week import WeekLesson


@dataclass(slots=True)
class Run:
    """A run as it goes: how many lessons of how many are on paper, and what could not be printed."""

    first: date
    of: int
    done: int = 0
    over: bool = False
    cannot: list[str] = field(default_factory=list)


_lock = threading.Lock()
_runs: dict[str, Run] = {}
_threads: list[threading.Thread] = []


def print_soon(household: str, lessons: Sequence[WeekLesson], *, first: date, today: date) -> None:
    """Begin to print these lessons, unless a run of this household goes on already."""
    with _lock:
        going = _runs.get(household)
        if going is not None and not going.over:
            return
        run = _runs[household] = Run(first, len(lessons))
        thread = threading.Thread(target=_print, args=(household, tuple(lessons), today, run), daemon=True)
        _threads[:] = [thread]
    thread.start()


def run_of(household: str, *, first: date) -> Run | None:
    """The run of that week, going on or over; None where none was begun since the pages were opened."""
    run = _runs.get(household)
    return run if run is not None and run.first == first else None


def wait_for_it(seconds: float) -> None:
    """Wait until nothing is being printed, at most so long."""
    for thread in tuple(_threads):
        thread.join(timeout=seconds)


def _print(household: str, lessons: Sequence[WeekLesson], today: date, run: Run) -> None:
    try:
        learners = selectors.learners(selectors.household(household))
        for part in run_print(learners, lessons, today=today):
            run.done += 1
            if part.cannot:
                run.cannot.append(part.cannot)
    except DayleafError as error:
        run.cannot.append(str(error))
    finally:
        run.over = True
        connections.close_all()
