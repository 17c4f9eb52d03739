#!/usr/bin/env python3
"""Two commands: `python3 dev.py start` and `python3 dev.py test`. Standard library only.

start   make .venv, install what the lock files name, make the demo household, serve it and print the address
test    the same, then the style, type, layering and content checks and every test
prove   the long runs: many more items and seeds than a test has time for
bench   every speed figure of the project, each beside its alternative
lock    write requirements/*.txt anew from pyproject.toml (needs the network)
"""

from __future__ import annotations

import argparse
import hashlib
import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent
VENV = ROOT / ".venv"
SCRIPTS = VENV / ("Scripts" if os.name == "nt" else "bin")
PYTHON = SCRIPTS / ("python.exe" if os.name == "nt" else "python")
DAYLEAF = SCRIPTS / ("dayleaf.exe" if os.name == "nt" else "dayleaf")
LOCKS = {
    "run": ("--group", "build"),
    "test": ("--group", "build", "--group", "test"),
    "dev": ("--group", "build", "--group", "test", "--group", "dev"),
}


def run(*command: str | Path, quiet: bool = False) -> int:
    """Run a program from the project's folder and return its exit status."""
    output = subprocess.DEVNULL if quiet else None
    return subprocess.run([str(part) for part in command], cwd=ROOT, check=False, stdout=output).returncode


def must(*command: str | Path) -> None:
    """Run a program; stop with its exit status when it says no."""
    status = run(*command)
    if status:
        sys.exit(status)


def make_venv() -> None:
    """Make .venv, or say what Debian lacks."""
    if PYTHON.exists():
        return
    if sys.version_info < (3, 11):
        sys.exit("Dayleaf needs Python 3.11 or newer.")
    if run(sys.executable, "-c", "import venv, ensurepip", quiet=True):
        sys.exit("Python's venv module is missing. On Debian: apt install python3-venv")
    print("Making .venv …", flush=True)
    must(sys.executable, "-m", "venv", VENV)


def install(lock: str) -> None:
    """Install exactly what requirements/LOCK.txt names, once for each state of that file and of pyproject.toml."""
    make_venv()
    wanted = ROOT / "requirements" / f"{lock}.txt"
    state = hashlib.sha256(wanted.read_bytes() + (ROOT / "pyproject.toml").read_bytes()).hexdigest()
    marker = VENV / f"installed-{lock}.txt"
    if marker.exists() and marker.read_text(encoding="ascii") == state and DAYLEAF.exists():
        return
    print(f"Installing from requirements/{lock}.txt …", flush=True)
    pip = (PYTHON, "-m", "pip", "install", "--quiet", "--disable-pip-version-check")
    must(*pip, "--require-hashes", "--only-binary", ":all:", "--requirement", wanted)
    must(*pip, "--no-deps", "--no-build-isolation", "--editable", ROOT)
    marker.write_text(state, encoding="ascii")


def start(arguments: argparse.Namespace) -> int:
    """Serve the demo household at today and print the address."""
    install("run")
    home = Path(arguments.home).resolve()
    if not home.exists():
        must(DAYLEAF, "demo", "--home", home, *(("--today", arguments.today) if arguments.today else ()))
    options: list[str] = ["--home", str(home), "--port", str(arguments.port)]
    if arguments.today:
        options += ["--today", arguments.today]
    if arguments.check:
        options.append("--check")
    return run(DAYLEAF, "start", *options)


def test(arguments: argparse.Namespace) -> int:
    """Install, then every check and every test; further words go to pytest."""
    install("test")
    problems = 0
    for name, command in (
        ("style", (SCRIPTS / "ruff", "check", "--quiet", ".")),
        ("layers", (SCRIPTS / "lint-imports", "--no-logo")),
        ("types", (SCRIPTS / "mypy",)),
        ("content", (DAYLEAF, "check")),
    ):
        print(f"— {name}", flush=True)
        if run(*command):
            problems += 1
            print(f"— {name}: problems above", flush=True)
    print("— tests", flush=True)
    # One process a core; `dev.py test -n 0` runs them in one, since the later word wins.
    status = run(PYTHON, "-m", "pytest", "-n", "auto", "--dist", "worksteal", *arguments.words)
    return status or (1 if problems else 0)


def prove(arguments: argparse.Namespace) -> int:
    """The long runs; further words say how long."""
    install("test")
    return run(PYTHON, ROOT / "bench" / "prove.py", *arguments.words)


def bench(arguments: argparse.Namespace) -> int:
    """Every millisecond figure beside its alternative."""
    install("test")
    return run(PYTHON, ROOT / "bench" / "bench.py", *arguments.words)


def lock(_arguments: argparse.Namespace) -> int:
    """Resolve anew for Linux, Windows and macOS, wheels only, and export with hashes and without addresses."""
    install("dev")
    uv = SCRIPTS / ("uv.exe" if os.name == "nt" else "uv")
    must(uv, "lock", "--quiet", "--upgrade", "--no-build")
    for name, groups in LOCKS.items():
        must(
            uv, "export", "--quiet", "--format", "requirements-txt", "--no-emit-project", "--no-default-groups",
            *groups, "--no-header", "--output-file", ROOT / "requirements" / f"{name}.txt",
        )  # fmt: skip
    (ROOT / "uv.lock").unlink(missing_ok=True)
    return 0


def main() -> int:
    """Read the command line."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    commands = parser.add_subparsers(dest="command", required=True)
    starting = commands.add_parser("start", help="serve the demo household")
    starting.add_argument("--home", default=str(ROOT / "home"), help="the household's folder")
    starting.add_argument("--port", type=int, default=8410)
    starting.add_argument("--today", help="another day than today, as 2027-01-12")
    starting.add_argument("--check", action="store_true", help="answer one request and stop")
    starting.set_defaults(call=start)
    testing = commands.add_parser("test", help="every check and every test; further words go to pytest")
    testing.set_defaults(call=test)
    commands.add_parser("prove", help="the long runs").set_defaults(call=prove)
    benching = commands.add_parser("bench", help="speed, beside its alternatives")
    benching.set_defaults(call=bench)
    commands.add_parser("lock", help="write the lock files anew").set_defaults(call=lock)
    arguments, words = parser.parse_known_args()
    arguments.words = words
    if words and arguments.command not in ("test", "prove", "bench"):
        parser.error(f"not understood: {' '.join(words)}")
    return int(arguments.call(arguments))


if __name__ == "__main__":
    sys.exit(main())
