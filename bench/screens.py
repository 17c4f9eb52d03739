"""Pictures of every page, to be looked at: laptop and phone, light and dark, English and Spanish.

`python bench/screens.py OUT` makes the demo home, serves it and writes OUT/en/laptop-light/… as PNG files. A page is an
address of the site that answers a GET with a page, the first child and the first sheet filled in. `--lang es` asks the
pages in Spanish as a browser set to it would; what has no Spanish yet shows its English.
"""

from __future__ import annotations

import argparse
import shutil
import socket
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import TYPE_CHECKING, Final
from urllib.error import URLError
from urllib.request import ProxyHandler, build_opener

from bench_pages import addresses
from playwright.sync_api import sync_playwright
from rich.progress import track

from dayleaf.records.home import open_home

if TYPE_CHECKING:
    from collections.abc import Sequence

    from playwright.sync_api import Browser

TODAY: Final = "2027-01-12"
SIZES: Final = {"laptop": (1280, 860), "phone": (390, 844)}
LIGHTS: Final = ("light", "dark")
FLAGS: Final = ("--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking")
PATIENCE: Final = 60.0


def main() -> int:
    """Make the pictures; how many stands at the end."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("out", type=Path)
    parser.add_argument("--lang", action="append", choices=("en", "es"), help="en and es when left out")
    parser.add_argument("--only", default="", help="only addresses that hold this text")
    wishes = parser.parse_args()
    found = next((path for name in ("chromium", "chromium-browser") if (path := shutil.which(name))), None)
    if found is None:
        print("This needs Debian's chromium.", file=sys.stderr)
        return 2
    with tempfile.TemporaryDirectory() as scratch:
        home = Path(scratch) / "home"
        _dayleaf("demo", "--home", str(home), "--today", TODAY)
        open_home(home)
        pages = [one for one in addresses() if wishes.only in one]
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            port = free.getsockname()[1]
        command = [sys.executable, "-c", "from dayleaf.cli.main import main; main()"]
        served = [*command, "start", "--home", str(home), "--port", str(port), "--today", TODAY]
        with subprocess.Popen(served, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL) as server:
            try:
                _wait(f"http://127.0.0.1:{port}/static/dayleaf/dayleaf.css")
                with sync_playwright() as playwright:
                    browser = playwright.chromium.launch(executable_path=found, args=list(FLAGS))
                    langs = wishes.lang or ["en", "es"]
                    many = sum(_all(browser, f"http://127.0.0.1:{port}", pages, wishes.out, lang) for lang in langs)
                    browser.close()
            finally:
                server.terminate()
    print(f"{many} pictures are in {wishes.out}.")
    return 0


def _all(browser: Browser, site: str, pages: Sequence[str], out: Path, lang: str) -> int:
    many = 0
    for size, (width, height) in SIZES.items():
        for light in LIGHTS:
            folder = out / lang / f"{size}-{light}"
            folder.mkdir(parents=True, exist_ok=True)
            context = browser.new_context(
                viewport={"width": width, "height": height},
                color_scheme="dark" if light == "dark" else "light",
                locale="es-US" if lang == "es" else "en-US",
            )
            page = context.new_page()
            for address in track(pages, description=f"{lang} {size} {light}", transient=True):
                asked = context.request.get(site + address, max_redirects=0)
                if asked.status != 200 or "html" not in asked.headers.get("content-type", ""):
                    continue
                page.goto(site + address)
                page.wait_for_load_state("networkidle")
                page.screenshot(path=folder / f"{_name(address)}.png", full_page=True)
                many += 1
            context.close()
    return many


def _name(address: str) -> str:
    parts = ("child" if len(one) == 32 else one for one in address.strip("/").split("/"))
    return "-".join(parts) or "today"


def _dayleaf(*words: str) -> None:
    command = [sys.executable, "-c", "from dayleaf.cli.main import main; main()", *words]
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL)


def _wait(address: str) -> None:
    opener = build_opener(ProxyHandler({}))
    end = time.monotonic() + PATIENCE
    while time.monotonic() < end:
        try:
            opener.open(address, timeout=5).close()
        except (URLError, ConnectionError):
            time.sleep(0.2)
        else:
            return
    raise SystemExit("The server did not answer.")


if __name__ == "__main__":
    sys.exit(main())
