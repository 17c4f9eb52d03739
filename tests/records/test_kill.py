"""Real kills: a process that marks sheets is killed at random moments, again and again.

What must hold afterwards comes from issue wording, not from our code: every marking that was confirmed is
there, at most one more, nothing in halves, and SQLite's own check finds the file sound.
"""

from __future__ import annotations

import os
import random
import signal
import sqlite3
import subprocess
import sys
import time
from contextlib import closing
from typing import TYPE_CHECKING

import pytest

from dayleaf.events.model import Marked
from dayleaf.records import selectors
from dayleaf.records.home import open_home

if TYPE_CHECKING:
    from collections.abc import Callable

    from dayleaf.records.home import Home
    from dayleaf.records.models import Learner, PrintRow

KILLS = 8

MARKER = """
import sys
from datetime import date
from pathlib import Path
from dayleaf.records.home import open_home
open_home(Path(sys.argv[1]))
from dayleaf.core.ids import FormatId, SkillId
from dayleaf.events.model import ItemMark
from dayleaf.records import selectors, services
home = selectors.household()
sheet = selectors.sheet_find(home, "4C7Q2MX")
n = 0
while True:
    n += 1
    items = [
        ItemMark(i, SkillId("s"), FormatId("f"), f"k{n}", "right", None, False, ()) for i in range(1, 15)
    ]
    services.sheet_mark(sheet=sheet, items=items, day=date(2027, 1, 12))
    sys.stdout.write("m")
    sys.stdout.flush()
"""


@pytest.mark.slow
@pytest.mark.skipif(os.name != "posix", reason="this kill is a POSIX signal")
def test_a_process_killed_while_marking_leaves_the_old_or_the_new_state(
    home: Home, wren: Learner, print_day: Callable[..., PrintRow]
) -> None:
    print_day(wren)
    chance = random.Random(1207)
    confirmed = 0

    for _ in range(KILLS):
        confirmed += _marks_until_killed(home, after=chance.uniform(0.0, 0.15))

        open_home(home.folder)
        markings = [event for event in selectors.events_of(wren, Marked) if isinstance(event, Marked)]
        assert confirmed <= len(markings) <= confirmed + 1
        confirmed = len(markings)
        assert all(len(marking.items) == 14 for marking in markings)
        assert [marking.replaces for marking in markings[1:]] == [marking.head.id for marking in markings[:-1]]
        with closing(sqlite3.connect(home.database)) as database:
            assert database.execute("PRAGMA integrity_check").fetchone() == ("ok",)
    assert confirmed > KILLS


def _marks_until_killed(home: Home, *, after: float) -> int:
    """How many markings the process said were written before it was killed `after` seconds from its first."""
    command = [sys.executable, "-c", MARKER, str(home.folder)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE) as process:
        assert process.stdout is not None
        first = process.stdout.read(1)
        time.sleep(after)
        process.send_signal(signal.SIGKILL)
        rest, errors = process.communicate()
    assert first == b"m", errors.decode()
    assert process.returncode == -signal.SIGKILL
    return len(first + rest)
