"""The pages in the browser of whoever double-clicked: opened once they answer, and only shown where they do already."""

from __future__ import annotations

import html
import tempfile
import threading
import time
import webbrowser
from contextlib import suppress
from http.client import HTTPException
from pathlib import Path
from typing import TYPE_CHECKING, Final
from urllib.request import ProxyHandler, build_opener

if TYPE_CHECKING:
    from collections.abc import Callable

PATIENCE: Final = 120.0
"""Seconds after which nobody waits any more for the pages to answer."""
MARK: Final = b"Dayleaf"


def answers(address: str, *, timeout: float = 2.0) -> bool:
    """Whether our own pages answer at this address."""
    with suppress(OSError, HTTPException), build_opener(ProxyHandler({})).open(address, timeout=timeout) as answer:
        return MARK in answer.read()
    return False


def open_soon(address: str, *, show: Callable[[str], object] = webbrowser.open) -> threading.Thread:
    """Wait beside the server until the pages answer, then show them in the browser."""

    def wait() -> None:
        end = time.monotonic() + PATIENCE
        while time.monotonic() < end:
            if answers(address):
                show(address)
                return
            time.sleep(0.2)

    waiting = threading.Thread(target=wait, daemon=True)
    waiting.start()
    return waiting


def show_trouble(sentence: str, *, show: Callable[[str], object] = webbrowser.open) -> Path:
    """Say in the browser why the pages cannot open, for somebody who sees no terminal."""
    words = html.escape(sentence).replace("\n", "<br>")
    with tempfile.NamedTemporaryFile("w", prefix="dayleaf-", suffix=".html", delete=False, encoding="utf-8") as page:
        page.write(
            '<!doctype html><html lang="en"><meta charset="utf-8"><title>Dayleaf</title>'
            f'<body style="font:1.2rem/1.5 Georgia,serif;max-width:36rem;margin:4rem auto;padding:0 1rem">'
            f"<h1>Dayleaf could not open</h1><p>{words}</p><p>Nothing was changed.</p></body></html>"
        )
    show(Path(page.name).as_uri())
    return Path(page.name)
