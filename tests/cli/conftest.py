"""The demo household, made once by the command itself; each test drives the real command line on a copy of it."""

from __future__ import annotations

import hashlib
import shutil
import sqlite3
import sys
from contextlib import closing
from dataclasses import dataclass
from json import loads
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from django.db import connections

import dayleaf
from dayleaf.cli.main import main

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from pytest_django.plugin import DjangoDbBlocker

TODAY = "2027-01-12"
"""A Tuesday."""


@dataclass(frozen=True)
class Said:
    """What one command did: exit status, and what it wrote."""

    status: int
    out: str
    err: str

    @property
    def json(self) -> Any:
        """The standard output read as one JSON document."""
        return loads(self.out)


@pytest.fixture(scope="session")
def demo(tmp_path_factory: pytest.TempPathFactory, django_db_blocker: DjangoDbBlocker) -> Path:
    """A demo household with nothing done to it."""
    folder = tmp_path_factory.mktemp("demo") / "home"
    with django_db_blocker.unblock(), pytest.MonkeyPatch.context() as patch:
        patch.setattr(sys, "argv", ["dayleaf", "demo", "--home", str(folder), "--today", TODAY])
        assert _status(main) == 0
        connections.close_all()
    return folder


@pytest.fixture
def say(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], django_db_blocker: DjangoDbBlocker
) -> Iterator[Callable[..., Said]]:
    """Type a command; it runs in this process, from the same entry point as the installed one."""

    def said(*words: str | Path | int) -> Said:
        capsys.readouterr()
        monkeypatch.setattr(sys, "argv", ["dayleaf", *map(str, words)])
        status = _status(main)
        out, err = capsys.readouterr()
        return Said(status, out, err)

    with django_db_blocker.unblock():
        yield said
        connections.close_all()


@pytest.fixture
def home(demo: Path, tmp_path: Path) -> Path:
    """A copy of the demo household of its own."""
    folder = tmp_path / "home"
    shutil.copytree(demo, folder)
    return folder


@pytest.fixture
def wren(say: Callable[..., Said], home: Path) -> Callable[..., Said]:
    """`dayleaf day` for Wren, with further words."""
    return lambda *words: say("day", "--home", home, "--today", TODAY, "--learner", "Wren", *words)


@pytest.fixture
def kept() -> Callable[[Path], str]:
    """One hash over every row of every table except caches, which any look may fill."""

    def digest(folder: Path) -> str:
        found = hashlib.sha256()
        with closing(sqlite3.connect(folder / "dayleaf.sqlite3")) as database:
            for line in database.iterdump():
                if "cacherow" not in line.casefold():
                    found.update(line.encode())
        return found.hexdigest()

    return digest


def _status(command: Callable[[], None]) -> int:
    try:
        command()
    except SystemExit as stopped:
        return int(stopped.code or 0)
    return 0


@pytest.fixture(scope="session")
def content() -> Path:
    """The course's own folder."""
    return Path(dayleaf.__file__).parent / "content"
