"""`dayleaf starter`: files to double-click, so that nobody has to open a terminal."""

from __future__ import annotations

import plistlib
import shlex
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Final

import click

from dayleaf.cli.options import DEFAULT_HOME, home_option, writable

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

RUNS: Final = "from dayleaf.cli.main import main; main()"
EXECUTABLE: Final = 0o755
SYSTEMS: Final = ("linux", "macos", "windows")
UNTRIED: Final = ("macos", "windows")
"""Systems whose file was written by the book and never tried on such a computer."""
HERE: Final[Mapping[str, str]] = {"darwin": "macos", "win32": "windows"}


@click.command()
@click.option("--out", type=click.Path(path_type=Path, file_okay=False), required=True, help="Where the files go.")
@click.option(
    "--for", "system", type=click.Choice(["this", *SYSTEMS, "all"]), default="this", show_default=True,
    help="For which system; `all` writes the three.",
)  # fmt: skip
@click.option("--port", type=click.IntRange(1, 65535), default=8410, show_default=True)
@home_option
def verb(*, out: Path, system: str, port: int, home: Path) -> None:
    """Write a file to double-click into --out: it starts Dayleaf and opens its pages in the browser.

    The one for Linux is tried in the tests; those for macOS and Windows are not tried yet.
    """
    this = HERE.get(sys.platform, "linux")
    systems = SYSTEMS if system == "all" else (this if system == "this" else system,)
    writable(out)
    for one in systems:
        made = MAKERS[one](out.resolve(), python_for(one, this=this), home, port)
        note = " (not tried yet on such a computer)" if one in UNTRIED else ""
        click.echo(f"{made.relative_to(out.resolve())}: double-click it on {NAMES[one]}{note}")


NAMES: Final[Mapping[str, str]] = {"linux": "Linux", "macos": "macOS", "windows": "Windows"}


def python_for(system: str, *, this: str) -> str:
    """The Python to run: this one on this system; on another, the one of a .venv beside the file."""
    if system == this:
        return sys.executable
    return r"%~dp0.venv\Scripts\pythonw.exe" if system == "windows" else ""


def linux(out: Path, python: str, home: Path, port: int) -> Path:
    """`Dayleaf.desktop` with the script that it starts; keys and quoting as in Desktop Entry 1.5 (freedesktop.org)."""
    script = out / "dayleaf.sh"
    _write(script, shell_script(python, home, port), executable=True)
    entry = out / "Dayleaf.desktop"
    lines = (
        "[Desktop Entry]",
        "Type=Application",
        "Version=1.5",
        "Name=Dayleaf",
        "Comment=Today’s lesson, on one page",
        f"Exec={quoted_for_entry(str(script))}",
        "Terminal=false",
        "Categories=Education;",
    )
    _write(entry, "\n".join(lines) + "\n", executable=True)
    return entry


def macos(out: Path, python: str, home: Path, port: int) -> Path:
    """`Dayleaf.app`: a folder that the Finder shows as a program (Apple, Bundle Programming Guide)."""
    app = out / "Dayleaf.app"
    program = app / "Contents" / "MacOS" / "dayleaf"
    program.parent.mkdir(parents=True, exist_ok=True)
    _write(program, shell_script(python, home, port, up=3), executable=True)
    about = {
        "CFBundleName": "Dayleaf",
        "CFBundleExecutable": program.name,
        "CFBundleIdentifier": "org.dayleaf.starter",
        "CFBundlePackageType": "APPL",
        "CFBundleInfoDictionaryVersion": "6.0",
    }
    (app / "Contents" / "Info.plist").write_bytes(plistlib.dumps(about))
    return app


def windows(out: Path, python: str, home: Path, port: int) -> Path:
    """`Dayleaf.bat`: starts the Python that opens no window of its own."""
    quiet = python.replace("python.exe", "pythonw.exe")
    program = quiet if quiet.startswith("%~dp0") else quiet.replace("%", "%%")
    where = "" if home == DEFAULT_HOME else f' --home "{str(home).replace("%", "%%")}"'
    lines = ("@echo off", f'start "" "{program}" -c "{RUNS}" start --open --port {port}{where}')
    made = out / "Dayleaf.bat"
    made.write_bytes("".join(f"{line}\r\n" for line in lines).encode())
    return made


MAKERS: Final[Mapping[str, Callable[[Path, str, Path, int], Path]]] = {
    "linux": linux,
    "macos": macos,
    "windows": windows,
}


def shell_script(python: str, home: Path, port: int, *, up: int = 0) -> str:
    """The script that starts Dayleaf: with this Python, or with that of a .venv beside it (`up` folders higher)."""
    where = [] if home == DEFAULT_HOME else ["--home", str(home)]
    words = shlex.join(["-c", RUNS, "start", "--open", "--port", str(port), *where])
    above = "/".join([".", *([".."] * up)])
    candidates = " ".join([*([shlex.quote(python)] if python else []), '"$here/.venv/bin/python"'])
    return (
        "#!/bin/sh\n"
        "# Starts Dayleaf and opens its pages; made by `dayleaf starter`.\n"
        f'here=$(cd "$(dirname "$0")/{above}" && pwd)\n'
        f"for python in {candidates}; do\n"
        f'  [ -x "$python" ] && exec "$python" {words}\n'
        "done\n"
        "echo 'Dayleaf is not where it was; make this file anew with: dayleaf starter' >&2\n"
        "exit 2\n"
    )


def quoted_for_entry(path: str) -> str:
    """A path as a desktop entry's Exec wants it: in double quotes, with its own signs escaped, and % doubled.

    >>> quoted_for_entry("/home/mara/100 % boat/dayleaf.sh")
    '"/home/mara/100 %% boat/dayleaf.sh"'
    """
    escaped = "".join(f"\\\\{sign}" if sign in '"`$' else "\\\\\\\\" if sign == "\\" else sign for sign in path)
    return f'"{escaped.replace("%", "%%")}"'


def _write(path: Path, text: str, *, executable: bool) -> None:
    path.write_text(text, encoding="utf-8", newline="\n")
    if executable:
        path.chmod(EXECUTABLE)
