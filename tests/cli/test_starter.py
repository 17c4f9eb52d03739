"""A file to double-click: the one for Linux is run as a desktop would run it, those for other systems are read."""

from __future__ import annotations

import configparser
import os
import plistlib
import re
import shlex
import socket
import subprocess
import sys
import time
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    import pytest

PATIENCE = 60.0


def free_port() -> int:
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        return int(free.getsockname()[1])


def words_of_entry(entry: Path) -> list[str]:
    """The command line of a desktop entry, by the rules of Desktop Entry 1.5: quotes, escapes, doubled per cent."""
    read = configparser.ConfigParser(interpolation=None)
    read.optionxform = str  # type: ignore[assignment,method-assign] # keys keep their capitals
    read.read(entry, encoding="utf-8")
    section = read["Desktop Entry"]
    assert (section["Type"], section["Terminal"]) == ("Application", "false")
    value = re.sub(r"\\\\", r"\\", section["Exec"])
    return [word.replace("%%", "%") for word in shlex.split(value)]


def test_a_double_click_on_linux_serves_the_pages_and_a_second_one_only_shows_them(
    tmp_path: Path, say: Callable[..., Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / "100 % boat"
    shown, browser, port = tmp_path / "shown", tmp_path / "browser", free_port()
    browser.write_text(f'#!/bin/sh\necho "$1" >> {shlex.quote(str(shown))}\n', encoding="utf-8")
    browser.chmod(0o755)

    said = say("starter", "--out", folder, "--home", tmp_path / "home", "--port", port, "--for", "linux")
    environment = {**os.environ, "BROWSER": str(browser)}
    command = words_of_entry(folder / "Dayleaf.desktop")
    with subprocess.Popen(command, env=environment, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL) as started:
        try:
            end = time.monotonic() + PATIENCE
            while not shown.exists() and time.monotonic() < end and started.poll() is None:
                time.sleep(0.1)
            second: list[str] = []
            monkeypatch.setattr("webbrowser.open", second.append)
            again = say("start", "--open", "--home", tmp_path / "home", "--port", port)
        finally:
            started.terminate()

    address = f"http://127.0.0.1:{port}/"
    assert "double-click it on Linux" in said.out
    assert shown.read_text(encoding="utf-8").split() == [address]
    assert (again.status, second) == (0, [address])


def test_files_for_other_systems_say_that_they_are_untried(tmp_path: Path, say: Callable[..., Any]) -> None:
    said = say("starter", "--out", tmp_path, "--for", "all")

    about = plistlib.loads((tmp_path / "Dayleaf.app" / "Contents" / "Info.plist").read_bytes())
    program = tmp_path / "Dayleaf.app" / "Contents" / "MacOS" / about["CFBundleExecutable"]
    batch = (tmp_path / "Dayleaf.bat").read_bytes().decode()
    assert said.out.count("not tried yet") == 2
    assert subprocess.run(["sh", "-n", program], check=False).returncode == 0
    assert batch.count("\r\n") == batch.count("\n") == 2
    assert r"%~dp0.venv\Scripts\pythonw.exe" in batch
    assert sys.executable not in batch
