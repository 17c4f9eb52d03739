"""The process that opens other people's files: with little memory, little time, and nothing else to reach.

`python -m dayleaf.reading.child` reads files from its standard input and writes what it read to its standard output,
as `dayleaf.reading.wire` says. Where the machine can bound a process (not on Windows), it bounds itself first.
"""

from __future__ import annotations

import os
import sys
from typing import IO, TYPE_CHECKING, Final

os.environ.update(OPENBLAS_NUM_THREADS="1", OMP_NUM_THREADS="1", OPENCV_IO_MAX_IMAGE_PIXELS=str(50_000_000))

import cv2

from dayleaf.reading import sides
from dayleaf.reading.model import PageReading
from dayleaf.reading.pictures import pictures_in
from dayleaf.reading.refusals import Refused
from dayleaf.reading.wire import page_to_data, receive, send
from dayleaf.sheets.codec import map_from_data

if TYPE_CHECKING:
    from collections.abc import Iterator

    from dayleaf.core.ids import SheetId
    from dayleaf.sheets.model import PageMap

MORE_MEMORY: Final = 180_000_000
"""Bytes that reading may take beyond what the libraries have taken: a page needs about 90 million."""

SECONDS: Final = 2
"""Seconds of computing for a page: ten times what the slowest honest one needs."""


def main() -> None:
    """Answer until the other side closes."""
    source, sink = sys.stdin.buffer, os.fdopen(os.dup(sys.stdout.fileno()), "wb")
    os.dup2(sys.stderr.fileno(), sys.stdout.fileno())
    cv2.setNumThreads(1)
    _bound_memory()
    while True:
        try:
            asked, data = receive(source)
        except EOFError:
            return
        for page in _pages(source, sink, data, with_pictures=bool(asked.get("pictures"))):
            send(sink, {"page": page_to_data(page)})
        send(sink, {"end": True})


def _pages(source: IO[bytes], sink: IO[bytes], data: bytes, *, with_pictures: bool) -> Iterator[PageReading]:
    def find(sheet: SheetId, page: int) -> PageMap | None:
        send(sink, {"which": [sheet, page]})
        answer, _ = receive(source)
        return map_from_data(answer["map"])[0] if answer["map"] else None

    number = 1
    _bound_time()
    try:
        for number, looked in enumerate(pictures_in(data), start=1):
            yield sides.read_picture(looked, find, page_in_file=number, with_pictures=with_pictures)
            _bound_time()
    except Refused as reason:
        yield PageReading("refused", number, reason.code, str(reason))


def _bound_memory() -> None:
    """No more memory than is taken now and a page needs."""
    if sys.platform == "win32":
        return
    import resource  # noqa: PLC0415 - not on Windows

    try:
        with open("/proc/self/statm", encoding="ascii") as sizes:  # noqa: PTH123 - a file of the kernel
            now = int(sizes.read().split()[0]) * resource.getpagesize()
    except OSError:
        return
    resource.setrlimit(resource.RLIMIT_AS, (now + MORE_MEMORY, now + MORE_MEMORY))


def _bound_time() -> None:
    """From now on so many seconds of computing and no more."""
    if sys.platform == "win32":
        return
    import resource  # noqa: PLC0415 - not on Windows

    used = resource.getrusage(resource.RUSAGE_SELF)
    resource.setrlimit(resource.RLIMIT_CPU, (int(used.ru_utime + used.ru_stime) + SECONDS, resource.RLIM_INFINITY))


if __name__ == "__main__":
    main()
