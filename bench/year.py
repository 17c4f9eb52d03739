"""Figures of a whole course on paper: CPU time and memory of `dayleaf year`, in a process of its own."""

from __future__ import annotations

import json
import subprocess
import sys
import tempfile
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING

from timed import Figure

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

CPU_SECONDS, MEGABYTES = 40, 500
"""What the whole course may take."""
MEASURED = """
import json, resource, sys
from dayleaf.cli.main import main
try:
    main()
finally:
    used = resource.getrusage(resource.RUSAGE_SELF)
    print(json.dumps([used.ru_utime + used.ru_stime, used.ru_maxrss / 1024]))
"""
"""Wrapped around the command; memory is in KiB on Linux."""


@dataclass(frozen=True, slots=True)
class Year:
    """One whole course: CPU seconds, most memory in MiB, sides, and one hash over every file."""

    cpu: float
    memory: float
    sides: int
    sum: str


def one_year(*words: str, seed: int = 7) -> Year:
    """Print a course for an invented child; `words` are further words of the command."""
    with tempfile.TemporaryDirectory() as folder:
        command = ["year", "--learner", "Wren", "--out", folder, "--seed", str(seed), *words]
        said = subprocess.run(
            [sys.executable, "-c", MEASURED, *command], check=True, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL
        )
        cpu, memory = json.loads(said.stdout.splitlines()[-1])
        files = sorted(Path(folder).iterdir())
        whole = sha256(b"".join(sha256(file.read_bytes()).digest() for file in files)).hexdigest()
        contents = json.loads((Path(folder) / "contents.json").read_text(encoding="utf-8"))
    return Year(cpu, memory, int(contents["sides"]), whole)


def year_figures() -> Iterator[Figure]:
    """The whole course, beside one chapter of it by itself, a side each."""
    year = one_year()
    chapter = one_year("--chapters", "9")
    yield Figure(
        f"`dayleaf year`: {year.sides:,} sides, at most {year.memory:.0f} MB; CPU time of all",
        1000 * year.cpu,
        f"chapter 9 by itself: {chapter.sides} sides",
        1000 * chapter.cpu,
        "starts Python, reads the course and makes every rule's numbers for 10 days only",
        limit_ms=1000 * CPU_SECONDS,
    )


def main(_words: Sequence[str] = ()) -> int:
    """Two years of one seed must be the same in every byte, in time and in memory; exit 1 where they are not."""
    first, second = one_year(), one_year()
    for year in (first, second):
        print(f"a year: {year.sides:,} sides, {year.cpu:.1f} CPU-seconds, {year.memory:.0f} MB, {year.sum[:16]}")
    print("the same bytes" if first.sum == second.sum else "not the same bytes")
    within = min(first.cpu, second.cpu) <= CPU_SECONDS and max(first.memory, second.memory) <= MEGABYTES
    return 0 if within and first.sum == second.sum else 1


if __name__ == "__main__":
    sys.exit(main())
