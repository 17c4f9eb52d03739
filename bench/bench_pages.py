"""Every page of a home of three children and two full years of records: median, p95 and queries.

`python bench/bench_pages.py` prints the table and ends with 1 where a page is over 50 ms median, 120 ms at p95 or 20
queries; `--home DIR` keeps the home there for the next time. Pages are found by the list of addresses, so a new one is
measured as soon as it is there. Times are of this thread's processor, database included, so that a busy machine does
not count against a page; the median by the wall's clock stands beside them.
"""

from __future__ import annotations

import argparse
import gc
import logging
import sys
import tempfile
import time
from pathlib import Path
from statistics import median
from typing import TYPE_CHECKING, Any

from long_home import TODAY, long_home
from rich.console import Console
from rich.table import Table

from dayleaf.records.home import open_home

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

MEDIAN_MS, P95_MS, QUERIES = 50.0, 120.0, 20
REPEATS = 12
FILES = (".pdf", ".svg", ".jpg", ".ttf", ".ics", "favicon.ico")
"""Files are made or sent, not pages."""


def main() -> int:
    """Measure every page that answers a GET with 200."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--home", type=Path, help="use, or make and keep, the home in this folder")
    parser.add_argument("--repeats", type=int, default=REPEATS)
    wishes = parser.parse_args()
    with tempfile.TemporaryDirectory() as scratch:
        folder = wishes.home or Path(scratch) / "home"
        if (folder / "dayleaf.sqlite3").exists() or (folder.exists() and any(folder.iterdir())):
            open_home(folder)
        else:
            long_home(folder)
        rows = sorted(_measured(wishes.repeats), key=lambda row: -row[1])
    table = Table("page", "median ms", "p95 ms", "by the wall", "queries")
    over = [row for row in rows if row[1] > MEDIAN_MS or row[2] > P95_MS or row[4] > QUERIES]
    for row in rows:
        name, middle, high, wall, queries = row
        numbers = (f"{middle:.1f}", f"{high:.1f}", f"{wall:.1f}", str(queries))
        table.add_row(name, *numbers, style="bold" if row in over else "")
    Console(width=None if sys.stdout.isatty() else 120).print(table)
    print(f"{len(rows)} pages, {len(over)} over {MEDIAN_MS:.0f} ms median, {P95_MS:.0f} ms p95 or {QUERIES} queries.")
    return 1 if over else 0


def addresses() -> tuple[str, ...]:
    """Every address of a page, filled in with the first child, a sheet, a lesson, a skill and a chapter."""
    from dayleaf.records import selectors  # noqa: PLC0415 -- Django is set up once a home is open
    from dayleaf.web import urls  # noqa: PLC0415 -- the same

    household = selectors.household()
    child = selectors.learners(household)[0]
    sheet = selectors.sheets_of(child)[-1]
    known: dict[str, Any] = {
        "learner": child.id,
        "sheet_id": sheet.sheet_id,
        "lesson": "day-085",
        "day": "day-085",
        "skill": "sub-2digit-regroup",
        "chapter": 9,
        "number": 1,
        "course": "grade2",
    }
    found = []
    for route in _routes(urls.urlpatterns, ""):
        filled = _filled(route, known)
        if filled is not None and not filled.endswith(FILES):
            found.append("/" + filled)
    return tuple(dict.fromkeys(found))


def _routes(patterns: Iterable[Any], before: str) -> Iterator[str]:
    for one in patterns:
        route = before + str(one.pattern)
        if hasattr(one, "url_patterns"):
            yield from _routes(one.url_patterns, route)
        else:
            yield route


def _filled(route: str, known: dict[str, Any]) -> str | None:
    parts = route.split("<")
    text = parts[0]
    for part in parts[1:]:
        name, _, rest = part.partition(">")
        name = name.split(":")[-1]
        if name not in known:
            return None
        text += f"{known[name]}{rest}"
    return text


def _measured(repeats: int) -> Iterator[tuple[str, float, float, float, int]]:
    from django.conf import settings  # noqa: PLC0415 -- Django is set up once a home is open
    from django.db import connection  # noqa: PLC0415 -- the same
    from django.test import Client  # noqa: PLC0415 -- the same
    from django.test.utils import CaptureQueriesContext  # noqa: PLC0415 -- the same

    from dayleaf.records import selectors  # noqa: PLC0415 -- the same

    logging.disable(logging.WARNING)
    settings.TODAY = TODAY
    settings.ALLOWED_HOSTS = ["*"]
    browser = Client(raise_request_exception=False)
    child = selectors.learners(selectors.household())[0].id
    for address in addresses():
        with CaptureQueriesContext(connection) as asked:
            answer = browser.get(address)
        queries = len(asked)
        if answer.status_code not in (200, 405, 302, 301, 404):
            print(f"{address} answered {answer.status_code}.", file=sys.stderr)
        if answer.status_code != 200 or "html" not in answer.headers.get("Content-Type", ""):
            continue
        gc.collect()
        both = [_once(browser, address) for _ in range(repeats)]
        times = sorted(one for one, _ in both)
        high = times[min(repeats - 1, round(0.95 * repeats))]
        yield address.replace(child, "CHILD"), median(times), high, median(wall for _, wall in both), queries


def _once(browser: Any, address: str) -> tuple[float, float]:
    """Milliseconds of this thread's processor, and by the wall's clock."""
    began, at = time.thread_time(), time.perf_counter()
    browser.get(address)
    return 1000 * (time.thread_time() - began), 1000 * (time.perf_counter() - at)


if __name__ == "__main__":
    sys.exit(main())
