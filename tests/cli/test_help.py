"""Every verb is there, explains itself, and is in the documents with every option."""

from __future__ import annotations

import re
import socket
import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click
import pytest

from dayleaf.cli.main import dayleaf

if TYPE_CHECKING:
    from collections.abc import Callable

ROOT = Path(__file__).resolve().parents[2]
INSTALLED = Path(sys.executable).with_name("dayleaf")
ASKED_FOR = ("start", "demo", "check", "day", "items", "mark", "explain", "log", "plan", "backup", "restore")
"""The verbs that other programs are promised."""
FURTHER = (
    *("starter", "test", "result", "place", "read", "probe", "strip", "advise", "week", "year", "print"),
    *("calibrate", "records", "forecast", "share", "open-share", "suggest", "who"),
)
OWN_COURSE = ("outline", "own", "map", "again", "note", "line")
VERBS = (*ASKED_FOR, *FURTHER, *OWN_COURSE)


def verb_named(name: str) -> click.Command:
    command = dayleaf.get_command(click.Context(dayleaf), name)
    assert command is not None
    return command


def test_every_verb_promised_is_there_and_no_other() -> None:
    assert sorted(dayleaf.list_commands(click.Context(dayleaf))) == sorted(VERBS)


@pytest.mark.parametrize("verb", VERBS)
def test_every_verb_explains_itself_and_every_option(verb: str, say: Callable[..., Any]) -> None:
    said = say(verb, "--help")

    assert said.status == 0
    assert said.out.startswith(f"Usage: dayleaf {verb}")
    sentence = said.out.splitlines()[2].strip()
    assert sentence[0].isupper()
    for parameter in verb_named(verb).params:
        if isinstance(parameter, click.Option):
            assert parameter.help or parameter.show_default or parameter.name == "help", parameter.name


@pytest.mark.parametrize("verb", VERBS)
def test_every_verb_and_option_is_in_the_documents(verb: str) -> None:
    sections = re.split(r"^## ", (ROOT / "docs" / "commands.md").read_text("utf-8"), flags=re.MULTILINE)
    section = next(text for text in sections if text.startswith(f"dayleaf {verb}\n"))

    assert f"    dayleaf {verb}" in section
    shared = sections[0] + next(text for text in sections if text.startswith("What several verbs share"))
    for parameter in verb_named(verb).params:
        words = parameter.opts if isinstance(parameter, click.Option) else [(parameter.name or "").upper()]
        assert all(word in section or (word in ("--home", "--today") and word in shared) for word in words), words


def test_the_documents_name_no_option_that_is_not_there() -> None:
    known = {word for verb in VERBS for parameter in verb_named(verb).params for word in parameter.opts}
    known |= {"--help", "--version"}

    named = set(re.findall(r"--[a-z][a-z-]+", (ROOT / "docs" / "commands.md").read_text("utf-8")))

    assert named - known == set()


@pytest.mark.parametrize(
    "words",
    [
        ("--version",),
        ("check",),
        ("items", "sub-2digit-regroup", "--n", "1", "--json"),
        ("explain", "--skill", "sub-2digit-regroup", "62-38=36"),
        *((verb, "--help") for verb in ("start", "demo", "day", "mark", "log", "plan", "backup", "restore")),
    ],
    ids=lambda words: words[0],
)
def test_the_installed_command_answers_in_a_process_of_its_own(words: tuple[str, ...], tmp_path: Path) -> None:
    done = subprocess.run(
        [INSTALLED, *words], capture_output=True, text=True, check=False, cwd=tmp_path,
        env={"DAYLEAF_HOME": str(tmp_path / "home"), "PATH": "", "PYTHONWARNINGS": "error"},
    )  # fmt: skip

    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.strip()
    assert list(tmp_path.iterdir()) == []


def test_the_server_answers_one_request_and_stops(home: Path) -> None:
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]

    done = subprocess.run(
        [INSTALLED, "start", "--home", home, "--today", "2027-01-12", "--check", "--port", str(port)],
        capture_output=True,
        text=True,
        check=False,
    )

    assert done.returncode == 0, done.stderr
    assert f"127.0.0.1:{port}" in done.stdout


def test_a_refusal_in_a_process_of_its_own_is_one_line_and_status_2(home: Path, tmp_path: Path) -> None:
    done = subprocess.run(
        [INSTALLED, "day", "--home", home, "--learner", "Bob", "--out", tmp_path / "o"],
        capture_output=True, text=True, check=False,
    )  # fmt: skip

    assert done.returncode == 2
    assert done.stdout == ""
    assert done.stderr == "There is no child called 'Bob'; the children here are Wren, Ivo.\n"
