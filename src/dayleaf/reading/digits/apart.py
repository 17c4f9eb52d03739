"""A file of crops read in a process of its own, with bounded memory and time: it comes from elsewhere, as photos do.

`python -m dayleaf.reading.digits.apart FILE` writes what it read to its standard output, as JSON.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from dataclasses import astuple
from pathlib import Path
from typing import Final

from dayleaf.reading.digits.deciding import Reading
from dayleaf.reading.digits.files import NotDigits, read_file

MOST_MEMORY: Final = 3_000_000_000
"""Bytes of addresses: 100,000 crops as double floats are 630 million, and are held three times for a moment."""

SECONDS: Final = 900
"""Of computing: 100,000 crops take about a minute and a half on a quick machine that is left alone."""

ONE_THREAD: Final = {"OPENBLAS_NUM_THREADS": "1", "OMP_NUM_THREADS": "1"}


def read_apart(path: Path) -> tuple[Reading, ...]:
    """As `files.read_file`, in another process.

    Raises:
        NotDigits: the file holds no crops, or takes more memory or time than any that does.
    """
    command = [sys.executable, "-m", "dayleaf.reading.digits.apart", str(path)]
    try:
        ended = subprocess.run(  # noqa: S603 - our own module; the path is an argument and no shell sees it
            command, capture_output=True, timeout=2 * SECONDS, check=False, env=ONE_THREAD | os.environ
        )
        answer = json.loads(ended.stdout) if ended.returncode == 0 else {}
    except (subprocess.TimeoutExpired, ValueError):
        answer = {}
    if "digits" not in answer:
        raise NotDigits(path, answer.get("why", "takes more time or memory to open than crops do"))
    return tuple(
        Reading(reading, certainty, state, turned, tuple(likely))
        for reading, certainty, state, turned, likely in answer["digits"]
    )


def main(path: Path) -> None:
    """Read the file and write what it says."""
    _bound()
    try:
        answer: dict[str, object] = {"digits": [astuple(one) for one in read_file(path)]}
    except NotDigits as wrong:
        answer = {"why": wrong.why}
    sys.stdout.write(json.dumps(answer))


def _bound() -> None:
    if sys.platform == "win32":
        return
    import resource  # noqa: PLC0415 - not on Windows

    resource.setrlimit(resource.RLIMIT_AS, (MOST_MEMORY, MOST_MEMORY))
    resource.setrlimit(resource.RLIMIT_CPU, (SECONDS, resource.RLIM_INFINITY))


if __name__ == "__main__":
    main(Path(sys.argv[1]))
