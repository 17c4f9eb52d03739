"""The demo household served by our own command line, and a real browser that may load from this machine only."""

from __future__ import annotations

import shutil
import socket
import subprocess
import sys
import time
from typing import TYPE_CHECKING
from urllib.error import URLError
from urllib.parse import urlsplit
from urllib.request import ProxyHandler, build_opener

import pytest
from playwright.sync_api import sync_playwright

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from playwright.sync_api import Browser, BrowserContext, Page

TODAY = "2027-01-12"
PATIENCE = 60.0
"""Seconds until a server that does not answer counts as broken."""

NETWORK = frozenset({"http", "https", "ws", "wss"})
"""Schemes that can leave a machine; the browser's own pages (a PDF's frame) have others."""

FLAGS = ("--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking")
CHROMIUM = next((path for name in ("chromium", "chromium-browser") if (path := shutil.which(name))), None)


def dayleaf(*words: str) -> list[str]:
    """Our own command line, as the installed program would be called."""
    return [sys.executable, "-c", "from dayleaf.cli.main import main; main()", *words]


@pytest.fixture(scope="session")
def demo_home(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("demo") / "home"
    subprocess.run(dayleaf("demo", "--home", str(folder), "--today", TODAY), check=True, capture_output=True)
    return folder


@pytest.fixture(scope="session")
def chromium() -> Iterator[Browser]:
    if CHROMIUM is None:
        pytest.skip("needs Debian's chromium (apt install chromium libatomic1)")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=list(FLAGS))
        yield browser
        browser.close()


@pytest.fixture(scope="session")
def site(demo_home: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """A household that is only looked at."""
    yield from _served(demo_home, tmp_path_factory.mktemp("looked-at") / "home")


@pytest.fixture
def own_site(demo_home: Path, tmp_path: Path) -> Iterator[str]:
    """A household that this test may change."""
    yield from _served(demo_home, tmp_path / "home")


@pytest.fixture
def new_site(tmp_path: Path) -> Iterator[str]:
    """A folder without a household."""
    yield from _served(None, tmp_path / "home")


@pytest.fixture
def open_page(chromium: Browser) -> Iterator[Callable[..., Page]]:
    """A window on a site; every request is watched, and none may leave this machine."""
    contexts: list[BrowserContext] = []
    asked: list[str] = []

    def opened(*, width: int = 1280, height: int = 800, dark: bool = False) -> Page:
        context = chromium.new_context(
            viewport={"width": width, "height": height}, color_scheme="dark" if dark else "light"
        )
        context.on("request", lambda request: asked.append(request.url))
        contexts.append(context)
        return context.new_page()

    yield opened
    for context in contexts:
        context.close()
    hosts = {urlsplit(url).hostname for url in asked if urlsplit(url).scheme in NETWORK}
    assert hosts <= {"127.0.0.1"}, hosts


def _served(template: Path | None, home: Path) -> Iterator[str]:
    if template is not None:
        shutil.copytree(template, home)
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    at = ("--port", str(port), "--phones-at", "127.0.0.1")
    command = dayleaf("start", "--home", str(home), *at, "--today", TODAY)
    with subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL) as server:
        try:
            address = f"http://127.0.0.1:{port}"
            _wait(address, server)
            yield address
        finally:
            server.terminate()
            server.wait(timeout=20)


def _wait(address: str, server: subprocess.Popen[bytes]) -> None:
    opener = build_opener(ProxyHandler({}))
    end = time.monotonic() + PATIENCE
    while time.monotonic() < end and server.poll() is None:
        try:
            opener.open(f"{address}/static/dayleaf/dayleaf.css", timeout=5).close()
        except (URLError, ConnectionError):
            time.sleep(0.1)
        else:
            return
    pytest.fail("the server did not answer")
