"""The door for phones: a second listener on the home network, open until somebody closes it, and one-time codes.

The pages themselves answer on the loopback address only. While the door is open, phones reach them through it; what
comes through it is marked, so that only a phone that was let in gets further than the page that asks for the code.
"""

from __future__ import annotations

import secrets
import socket
import threading
import time
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, Final

from waitress import create_server, wasyncore

from dayleaf.core.errors import DayleafError

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable
    from wsgiref.types import StartResponse, WSGIApplication, WSGIEnvironment

THROUGH: Final = "dayleaf.through_the_door"
"""Key of a request's environment where it came through the door."""

GOOD_FOR: Final = 300.0
"""Seconds that a code is good for."""

TRIES: Final = 5
"""Wrong codes after which the right one is good no more."""

SIGNS: Final = "23456789ABCDEFGHJKMNPQRSTUVWXYZ"
LENGTH: Final = 8
MOST_SENT: Final = 260_000_000
"""Bytes of one request: six of the largest photos."""


class NoNetwork(DayleafError):
    """The computer is in no network through which a phone could reach it."""

    def __init__(self) -> None:
        super().__init__("This computer is in no home network just now; a phone cannot reach it.")


class CodeNotGood(DayleafError):
    """The code is wrong, used, or older than five minutes."""

    def __init__(self) -> None:
        super().__init__("This code is not good any more; ask for a new one on the computer and try again.")


@dataclass(slots=True)
class Code:
    """One phone may come in with this, once."""

    text: str
    until: float
    tries: int = TRIES


@dataclass(slots=True)
class Door:
    """An open door: where phones find it, and the code that is good now."""

    address: str
    port: int
    code: Code | None = None
    closing: threading.Event = field(default_factory=threading.Event)
    thread: threading.Thread | None = None

    @property
    def host(self) -> str:
        """Address and port as a browser names them."""
        return f"{self.address}:{self.port}"


_lock = threading.Lock()
_open: list[Door] = []


def door() -> Door | None:
    """The door where it is open."""
    return _open[0] if _open else None


def open_door(app: WSGIApplication, *, address: str | None = None, port: int = 0) -> Door:
    """Open the door, at the computer's own address in its network unless another is given; port 0 takes any free one.

    Where it is open already, nothing changes. Raises `NoNetwork`.
    """
    with _lock:
        if _open:
            return _open[0]
        address = address or own_address()
        sockets: dict[int, Any] = {}
        try:
            server = _listening(marked(app), sockets, address, port)
        except OSError as error:
            raise NoNetwork from error
        opened = Door(address, int(server.effective_port))
        opened.thread = threading.Thread(target=_serve, args=(opened, server, sockets), daemon=True)
        opened.thread.start()
        _open.append(opened)
        return opened


def close_door() -> None:
    """Close the door; phones that were let in stay known and reach nothing until it is open again."""
    with _lock:
        closed = _open.pop() if _open else None
    if closed is not None and closed.thread is not None:
        closed.closing.set()
        closed.thread.join(timeout=5)


def new_code(opened: Door, *, now: Callable[[], float] = time.monotonic) -> str:
    """A code that lets one phone in within five minutes; the one before is good no more."""
    text = "".join(secrets.choice(SIGNS) for _ in range(LENGTH))
    with _lock:
        opened.code = Code(text, now() + GOOD_FOR)
    return text


def good_code(opened: Door | None, *, now: Callable[[], float] = time.monotonic) -> str | None:
    """The code that is good now, None where there is none."""
    code = opened.code if opened else None
    return code.text if code and code.tries > 0 and now() < code.until else None


def use_code(opened: Door | None, text: str, *, now: Callable[[], float] = time.monotonic) -> None:
    """Use a code up. Raises `CodeNotGood`; after five wrong ones the right one is good no more either."""
    with _lock:
        good = good_code(opened, now=now)
        if opened is None or opened.code is None or good is None:
            raise CodeNotGood
        said = "".join(sign for sign in text.upper() if sign.isalnum())
        if not secrets.compare_digest(said.encode(), good.encode()):
            opened.code.tries -= 1
            raise CodeNotGood
        opened.code = None


def own_address() -> str:
    """This computer's address in the network it would send through; nothing is sent. Raises `NoNetwork`."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("192.0.2.1", 9))  # an address that nobody has (RFC 5737)
        except OSError as error:
            raise NoNetwork from error
        address: str = probe.getsockname()[0]
    if address.startswith(("127.", "0.")):
        raise NoNetwork
    return address


def marked(app: WSGIApplication) -> WSGIApplication:
    """The pages, with a mark on every request that comes through the door."""

    def through(environ: WSGIEnvironment, start: StartResponse) -> Iterable[bytes]:
        environ[THROUGH] = True
        return app(environ, start)

    return through


def _listening(app: WSGIApplication, sockets: dict[int, Any], address: str, port: int) -> Any:
    where = {"host": address, "threads": 4, "ident": "", "max_request_body_size": MOST_SENT}
    try:
        return create_server(app, map=sockets, port=port, **where)
    except OSError:
        return create_server(app, map=sockets, port=0, **where)


def _serve(opened: Door, server: Any, sockets: dict[int, Any]) -> None:
    try:
        while not opened.closing.is_set():
            wasyncore.loop(timeout=0.25, map=sockets, count=1)
    finally:
        server.task_dispatcher.shutdown()
        wasyncore.close_all(sockets)
