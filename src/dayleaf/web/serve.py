"""The server on this machine: one household, on the loopback address only."""

from __future__ import annotations

import logging
import socket
import threading
from typing import TYPE_CHECKING
from urllib.request import ProxyHandler, build_opener

from dayleaf.core.errors import DayleafError
from dayleaf.records.home import Home, open_home

if TYPE_CHECKING:
    from collections.abc import Callable
    from datetime import date
    from pathlib import Path

    from waitress.server import BaseWSGIServer

PORT = 8410
THREADS = 4
LOOPBACK = ("127.0.0.1", "localhost", "::1")


class PortIsTaken(DayleafError):
    """Something else answers on this port."""

    def __init__(self, port: int) -> None:
        super().__init__(f"Port {port} is in use by another program; choose another with --port.")


class NoAnswer(DayleafError):
    """The server did not answer its own machine."""

    def __init__(self, address: str) -> None:
        super().__init__(f"{address} did not answer.")


class NotLoopback(DayleafError):
    """The address would let the whole network in."""

    def __init__(self, host: str) -> None:
        super().__init__(f"{host} is open to other machines; Dayleaf answers only on 127.0.0.1.")


def server_for(
    folder: Path, *, host: str = "127.0.0.1", port: int = PORT, today: date | None = None
) -> tuple[BaseWSGIServer, Home]:
    """A server ready to run, and the home it serves; `port` 0 takes any free one.

    Raises:
        NotLoopback, PortIsTaken, NotAHome, HomeIsNewer, HomeIsDamaged.
    """
    if host not in LOOPBACK:
        raise NotLoopback(host)
    home = open_home(folder)
    # Imported after the home is open: Django reads its settings from there.
    from django.conf import settings  # noqa: PLC0415 -- see above
    from django.core.wsgi import get_wsgi_application  # noqa: PLC0415 -- see above
    from waitress import create_server  # noqa: PLC0415 -- a command that never serves need not load it

    settings.TODAY = today
    logging.getLogger("waitress.queue").setLevel(logging.ERROR)
    try:
        server: BaseWSGIServer = create_server(get_wsgi_application(), host=host, port=port, threads=THREADS, ident="")
    except (OSError, socket.gaierror) as error:
        raise PortIsTaken(port) from error
    return server, home


def serve(
    folder: Path,
    *,
    host: str = "127.0.0.1",
    port: int = PORT,
    today: date | None = None,
    check: bool = False,
    say: Callable[[str], None] = print,
) -> None:
    """Serve until interrupted; says the address, and a warning about the folder where there is one.

    With `check`, one request is made and answered, and that is all. Raises `NoAnswer` if it is not answered well.
    """
    server, home = server_for(folder, host=host, port=port, today=today)
    if home.warning:
        say(home.warning)
    prepare_today()
    address = f"http://{host}:{server.effective_port}/"
    if check:
        _answer_one(server, address, say)
        return
    say(f"Dayleaf is open at {address} (Ctrl-C ends it)")
    try:
        server.run()
    finally:
        server.close()


def _answer_one(server: BaseWSGIServer, address: str, say: Callable[[str], None]) -> None:
    threading.Thread(target=server.run, daemon=True).start()
    try:
        with build_opener(ProxyHandler({})).open(address, timeout=60) as answer:
            answer.read()
            say(f"{address} answers ({answer.status}).")
    except OSError as error:
        raise NoAnswer(address) from error
    finally:
        server.close()


def prepare_today() -> None:
    """Work out today's page before the first look at it, so that looking only reads."""
    from dayleaf.records import cards, selectors  # noqa: PLC0415 -- the models need the open home
    from dayleaf.records.errors import NoHousehold  # noqa: PLC0415 -- the same
    from dayleaf.web.clock import today_for  # noqa: PLC0415 -- the same

    try:
        household = selectors.household()
    except NoHousehold:
        return
    cards.cards_prepare(household, today=today_for(household))
