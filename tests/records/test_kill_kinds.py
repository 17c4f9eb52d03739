"""Real kills between and within other kinds of write: days, subjects, notes, grade books, copies of everything.

What must hold comes from the issue, not from our code: whatever was confirmed is there, at most one more, nothing
in halves, and SQLite's own check finds the file sound.
"""

from __future__ import annotations

import os
import random
import signal
import sqlite3
import subprocess
import sys
import time
import zipfile
from contextlib import closing
from typing import TYPE_CHECKING

import pytest

from dayleaf.events.model import Attended, Noted
from dayleaf.records import selectors
from dayleaf.records.home import open_home
from dayleaf.records.ledgers import GradeBookRow, SubjectRow

if TYPE_CHECKING:
    from dayleaf.records.home import Home
    from dayleaf.records.models import Learner

KILLS = 3
KINDS = "asngc"

WRITER = """
import sys
from datetime import date, datetime, timedelta, timezone
from pathlib import Path
from dayleaf.records.home import open_home
open_home(Path(sys.argv[1]))
from dayleaf.records import grades, kept_backups, selectors, services, subjects
from dayleaf.records.gradebook import Scale
home = selectors.household()
wren = selectors.learners(home)[0]
day = date(2027, 1, 12)
n = 0
def said(kind):
    sys.stdout.write(kind)
    sys.stdout.flush()
while True:
    n += 1
    services.attendance_set(learner=wren, present=True, day=day, minutes=n)
    said("a")
    subjects.subject_add(learner=wren, day=day, title="Piano", minutes=n)
    said("s")
    services.note_add(household=home, text=f"note {n}", day=day)
    said("n")
    grades.scale_keep(learner=wren, scale=Scale("percent", test=1 + n % 100))
    said("g")
    kept_backups.backup_keep(today=day, at=datetime.now(tz=timezone.utc))
    said("c")
"""


@pytest.mark.slow
@pytest.mark.skipif(os.name != "posix", reason="this kill is a POSIX signal")
def test_a_process_killed_in_any_kind_of_write_leaves_the_old_or_the_new_state(home: Home, wren: Learner) -> None:
    chance = random.Random(812)
    there = dict.fromkeys("asnc", 0)

    for _ in range(KILLS):
        confirmed = _written_until_killed(home, after=chance.uniform(0.0, 0.2))

        open_home(home.folder)
        copies = [*(home.folder / "backups").glob("*.dayleaf")]
        now = {
            "a": len(selectors.events_of(wren, Attended)),
            "s": SubjectRow.objects.count(),
            "n": sum(isinstance(event, Noted) for event in selectors.events_of_household(wren.household)),
            "c": len(copies),
        }
        for kind, before in there.items():
            assert before + confirmed.count(kind) <= now[kind] <= before + confirmed.count(kind) + 1
        assert GradeBookRow.objects.count() == 1
        for copy in copies:
            with zipfile.ZipFile(copy) as whole:
                assert whole.testzip() is None
        with closing(sqlite3.connect(home.database)) as database:
            assert database.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        there = now
    assert all(there.values())


def _written_until_killed(home: Home, *, after: float) -> str:
    """The kinds that the process said were written before it was killed `after` seconds from its first round."""
    command = [sys.executable, "-c", WRITER, str(home.folder)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE) as process:
        assert process.stdout is not None
        first = process.stdout.read(len(KINDS))
        time.sleep(after)
        process.send_signal(signal.SIGKILL)
        rest, errors = process.communicate()
    assert first.decode() == KINDS, errors.decode()
    assert process.returncode == -signal.SIGKILL
    return (first + rest).decode()
