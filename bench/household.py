"""Figures of a household: a fresh process, and pages through Django's own test client."""

from __future__ import annotations

import shutil
import subprocess
import sys
import tempfile
from contextlib import ExitStack
from datetime import date
from pathlib import Path
from statistics import median
from typing import TYPE_CHECKING

from timed import REPEATS, Figure, median_ms

from dayleaf.core.ids import LessonId
from dayleaf.records.home import open_home

if TYPE_CHECKING:
    from collections.abc import Iterator

TODAY = date(2027, 1, 12)
DAYLEAF = Path(sys.executable).with_name("dayleaf")
LESSONS = ("day-085", "day-086", "day-087", "day-081", "day-082")


def household_figures() -> Iterator[Figure]:
    """The demo household: from the command line in a process of its own, then the pages in this one."""
    with ExitStack() as stack:
        folder = Path(stack.enter_context(tempfile.TemporaryDirectory()))
        home = ("--home", str(folder / "home"), "--today", TODAY.isoformat())
        subprocess.run([DAYLEAF, "demo", *home], check=True, stdout=subprocess.DEVNULL)
        fresh = _fresh_process(home, folder)
        yield fresh
        copies = [shutil.copytree(folder / "home", folder / f"home-{n}") for n in range(REPEATS)]
        yield Figure(
            "POST print of today's lesson",
            median([_print_today(copy) for copy in copies]),
            "the day in a fresh process, as above",
            fresh.ms,
            "starts Python and reads the course each time; records nothing",
            limit_ms=500,
        )
        open_home(folder / "home")
        yield from _pages()


def _fresh_process(home: tuple[str, ...], folder: Path) -> Figure:
    command = [str(DAYLEAF), "day", *home, "--learner", "Wren", "--out", str(folder / "out"), "--dry"]
    nothing = [sys.executable, "-c", "import django, typst, pikepdf, click; django.setup"]
    return Figure(
        "`dayleaf day` in a fresh process: guide, four sides, key",
        median_ms(lambda: subprocess.run(command, check=True, stdout=subprocess.DEVNULL)),
        "a fresh process that only imports what it stands on",
        median_ms(lambda: subprocess.run(nothing, check=True)),
        "prints nothing",
        limit_ms=3000,
    )


def _print_today(folder: Path) -> float:
    """Milliseconds of one print in a household whose server has just prepared the day."""
    open_home(folder)
    from django.conf import settings  # noqa: PLC0415 -- Django is set up once a home is open
    from django.test import Client  # noqa: PLC0415 -- as above

    from dayleaf.records import cards, selectors  # noqa: PLC0415 -- as above

    settings.TODAY = TODAY
    settings.ALLOWED_HOSTS = ["*"]
    household = selectors.household()
    cards.cards_prepare(household, today=TODAY)
    wren, _ = selectors.learners(household)
    return median_ms(lambda: _ok(Client().post(f"/print/{wren.id}/day-084").status_code), repeats=1)


def _pages() -> Iterator[Figure]:
    """Each through `django.test.Client`: middleware, view, template and database, without a socket."""
    from django.conf import settings  # noqa: PLC0415 -- Django is set up once a home is open
    from django.test import Client  # noqa: PLC0415 -- as above

    from dayleaf.records import cards, selectors, services  # noqa: PLC0415 -- as above
    from dayleaf.records.models import CacheRow  # noqa: PLC0415 -- as above

    settings.TODAY = TODAY
    settings.ALLOWED_HOSTS = ["*"]
    household = selectors.household()
    wren, _ = selectors.learners(household)
    browser = Client()
    cards.cards_prepare(household, today=TODAY)

    def afresh() -> None:
        CacheRow.objects.all().delete()
        cards.cards_prepare(household, today=TODAY)
        _ok(browser.get("/").status_code)

    yield Figure(
        "GET today's page",
        median_ms(lambda: _ok(browser.get("/").status_code)),
        "the same with every cache thrown away",
        median_ms(afresh),
        "reads the whole log and chooses both backs anew",
        limit_ms=500,
    )
    lessons = iter(LESSONS)
    again = median_ms(lambda: _ok(browser.post(f"/print/{wren.id}/day-083").status_code))
    yield Figure(
        "POST print of a lesson nobody looked ahead to",
        median_ms(lambda: _ok(browser.post(f"/print/{wren.id}/{next(lessons)}").status_code)),
        "the same of a lesson printed before",
        again,
        "chooses and sets nothing",
        limit_ms=500,
    )
    sheet = (selectors.sheets_of(wren, LessonId("day-084")) or selectors.sheets_of(wren))[-1]
    marks = selectors.marking_of(sheet) or services.sheet_mark(sheet=sheet, items=(), day=TODAY)
    address = f"/sheets/{sheet.sheet_id}"
    yield Figure(
        "POST marks: written, read, tomorrow's back chosen",
        median_ms(lambda: _ok(browser.post(address, {"wrong-1": "?"}).status_code)),
        "the marks only written, one transaction",
        median_ms(lambda: services.sheet_mark(sheet=sheet, items=marks.items, day=TODAY), times=10),
        "says nothing of what was seen",
        limit_ms=500,
    )


def _ok(status: int) -> None:
    if status not in (200, 302):
        raise SystemExit(f"A page answered {status}.")
