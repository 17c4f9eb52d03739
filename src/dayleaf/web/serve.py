"""The server on this machine: one household, on the loopback address only."""

from __future__ import annotations

import logging
import threading
from contextlib import suppress
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any
from urllib.request import ProxyHandler, build_opener

from django.conf import settings
from django.core.wsgi import get_wsgi_application
from waitress import create_server, wasyncore

from dayleaf.core.errors import DayleafError
from dayleaf.records.home import Home, open_home
from dayleaf.web.door import MOST_SENT, close_door

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


@dataclass(frozen=True, slots=True)
class Serving:
    """A server ready to run, its open sockets by number, and the home it serves."""

    server: BaseWSGIServer
    sockets: dict[int, Any]
    home: Home


def server_for(
    folder: Path,
    *,
    host: str = "127.0.0.1",
    port: int = PORT,
    today: date | None = None,
    phones_at: str | None = None,
) -> Serving:
    """A server ready to run; `port` 0 takes any free one.

    `phones_at` is this computer's address in the home network, where the one that it finds itself is another.

    Raises:
        NotLoopback, PortIsTaken, NotAHome, HomeIsNewer, HomeIsDamaged.
    """
    if host not in LOOPBACK:
        raise NotLoopback(host)
    home = open_home(folder)
    settings.TODAY = today
    settings.PHONES_AT = phones_at
    logging.getLogger("waitress.queue").setLevel(logging.ERROR)
    sockets: dict[int, Any] = {}
    try:
        server: BaseWSGIServer = create_server(
            get_wsgi_application(),
            map=sockets,
            host=host,
            port=port,
            threads=THREADS,
            ident="",
            max_request_body_size=MOST_SENT,
        )
    except OSError as error:
        wasyncore.close_all(sockets)
        raise PortIsTaken(port) from error
    settings.PORT = int(server.effective_port)
    return Serving(server, sockets, home)


def serve(
    folder: Path,
    *,
    host: str = "127.0.0.1",
    port: int = PORT,
    today: date | None = None,
    check: bool = False,
    phones_at: str | None = None,
    say: Callable[[str], None] = print,
) -> None:
    """Serve until interrupted; says the address, and a warning about the folder where there is one.

    With `check`, one request is made and answered, and that is all. Raises `NoAnswer` if it is not answered well.
    """
    serving = server_for(folder, host=host, port=port, today=today, phones_at=phones_at)
    if serving.home.warning:
        say(serving.home.warning)
    prepare_today()
    if not check:
        threading.Thread(target=_ready_to_be_searched, daemon=True).start()
    address = f"http://{host}:{serving.server.effective_port}/"
    try:
        if check:
            say(_answered_once(serving, address))
        else:
            say(f"Dayleaf is open at {address} (Ctrl-C ends it)")
            serving.server.run()
    finally:
        close_door()
        serving.server.task_dispatcher.shutdown()
        wasyncore.close_all(serving.sockets)


def _answered_once(serving: Serving, address: str) -> str:
    """Ask for the first page as a browser would, and say how it was answered."""
    found: list[str] = []

    def ask() -> None:
        with suppress(OSError), build_opener(ProxyHandler({})).open(address, timeout=60) as answer:
            answer.read()
            found.append(f"{address} answers ({answer.status}).")

    asking = threading.Thread(target=ask)
    asking.start()
    while asking.is_alive():
        wasyncore.loop(timeout=0.1, map=serving.sockets, count=1)
    if not found:
        raise NoAnswer(address)
    return found[0]


def _ready_to_be_searched() -> None:
    """Make the course ready for the first search while nobody waits for it."""
    from dayleaf.web.shelf import search_index  # noqa: PLC0415 -- pages need the open home

    search_index()


def prepare_today() -> None:
    """Work out today's page before the first look at it, so that looking only reads."""
    from dayleaf.records import cards, photos, selectors  # noqa: PLC0415 -- the models need the open home
    from dayleaf.records.errors import NoHousehold  # noqa: PLC0415 -- the same
    from dayleaf.web import photo_reading  # noqa: PLC0415 -- the same
    from dayleaf.web.clock import today_for  # noqa: PLC0415 -- the same

    try:
        household = selectors.household()
    except NoHousehold:
        return
    cards.cards_prepare(household, today=today_for(household))
    if photos.handed_in(household).waiting:
        photo_reading.read_soon(household.id)
