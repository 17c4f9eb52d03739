"""Files are read in a process of their own, so that a hostile or broken one takes nothing along.

A worker is started at the first file and kept for the next ones; one that dies or takes too long is replaced.
"""

from __future__ import annotations

import subprocess
import sys
from threading import Timer
from typing import IO, TYPE_CHECKING, Any, Final, Self

from dayleaf.reading.files import sniff
from dayleaf.reading.model import PageReading
from dayleaf.reading.refusals import Refused, SameTwice, TooSlow
from dayleaf.reading.wire import page_from_data, receive, send
from dayleaf.sheets.codec import map_to_data

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from types import TracebackType

    from dayleaf.core.ids import SheetId
    from dayleaf.sheets.model import PageMap

    Find = Callable[[SheetId, int], PageMap | None]

PATIENCE: Final = 10.0
"""Seconds by the clock for one page, for a busy machine; computing time is bounded more tightly."""


class Reader:
    """Reads files one after another; the same side is read once. To be used in a `with` statement.

    `find` gives the map of a side, None for one that is not known; `with_pictures` as `sides.read_picture`.
    """

    def __init__(self, find: Find, *, with_pictures: bool = False) -> None:
        self._find, self._with_pictures = find, with_pictures
        self._process: subprocess.Popen[bytes] | None = None
        self._seen: set[tuple[str, int]] = set()

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    def close(self) -> None:
        """End the process."""
        if self._process is not None:
            self._process.kill()
            self._process.communicate()
            self._process = None

    @property
    def process_id(self) -> int | None:
        """The number of the reading process, None before the first file."""
        return self._process.pid if self._process else None

    def forget(self) -> None:
        """Take the next files as if nothing had been read before."""
        self._seen.clear()

    def read(self, data: bytes) -> Iterator[PageReading]:
        """The pages of one file in their order; what cannot be read is refused in words, never raised."""
        try:
            sniff(data)
        except Refused as reason:
            yield _refused(reason, 1)
            return
        number = 0
        try:
            for page in self._pages(data):
                number = page.page_in_file
                yield self._once(page)
        except (EOFError, OSError):
            self.close()
            yield _refused(TooSlow(), number + 1)

    def _once(self, page: PageReading) -> PageReading:
        """The page, or its refusal where the same side was read before."""
        if page.status == "refused" or page.sheet is None or page.page is None:
            return page
        if (page.sheet, page.page) in self._seen:
            return _refused(SameTwice(page.sheet, page.page), page.page_in_file)
        self._seen.add((page.sheet, page.page))
        return page

    def _pages(self, data: bytes) -> Iterator[PageReading]:
        source, sink = self._pipes()
        send(sink, {"pictures": self._with_pictures}, data)
        ended = False
        try:
            while not ended:
                answer = self._answer(source)
                if "which" in answer:
                    sheet, page = answer["which"]
                    known = self._find(sheet, page)
                    send(sink, {"map": map_to_data([known]) if known else None})
                elif "page" in answer:
                    yield page_from_data(answer["page"])
                else:
                    ended = True
        finally:
            if not ended:
                self.close()  # pages that nobody waits for are still in the pipe

    def _answer(self, source: IO[bytes]) -> dict[str, Any]:
        process = self._process
        alarm = Timer(PATIENCE, process.kill if process else lambda: None)
        alarm.start()
        try:
            return receive(source)[0]
        finally:
            alarm.cancel()

    def _pipes(self) -> tuple[IO[bytes], IO[bytes]]:
        if self._process is None or self._process.poll() is not None:
            self._process = subprocess.Popen(
                [sys.executable, "-m", "dayleaf.reading.child"],
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                stderr=subprocess.DEVNULL,
            )
        assert self._process.stdout is not None  # noqa: S101 - both are pipes, as asked for
        assert self._process.stdin is not None  # noqa: S101 - both are pipes, as asked for
        return self._process.stdout, self._process.stdin


def _refused(reason: Refused, number: int) -> PageReading:
    return PageReading("refused", number, reason.code, str(reason), reason.sheet, reason.page)
