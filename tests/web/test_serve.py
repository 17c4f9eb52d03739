"""The server answers on this machine only, and says in a sentence why it cannot."""

from __future__ import annotations

import socket
from typing import TYPE_CHECKING

import pytest

from dayleaf.web.serve import NotLoopback, PortIsTaken, serve, server_for
from dayleaf.web.strip import Stretch, lane, marks, whole_steps

if TYPE_CHECKING:
    from dayleaf.records.home import Home


@pytest.mark.parametrize("host", ["0.0.0.0", "192.168.1.7", "::"])  # noqa: S104 -- refusing it is what is tested
def test_an_address_that_lets_the_network_in_is_refused(home: Home, host: str) -> None:
    with pytest.raises(NotLoopback, match="only on 127"):
        server_for(home.folder, host=host)


def test_a_port_in_use_is_named(home: Home) -> None:
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        port = other.getsockname()[1]

        with pytest.raises(PortIsTaken, match=str(port)):
            server_for(home.folder, port=port)


def test_a_check_answers_one_request_and_stops(home: Home) -> None:
    said: list[str] = []

    serve(home.folder, port=0, check=True, say=said.append)

    assert len(said) == 1
    assert said[0].endswith("answers (200).")


def test_a_strip_keeps_the_order_and_the_lengths_of_a_morning() -> None:
    """21 minutes led and 22 alone on a strip of 75: hand-computed shares of its length."""
    length = whole_steps(64)
    line = lane("Ivo", [Stretch("with", 21, 21), Stretch("alone", 42, 22)], length=length)

    assert length == 75
    assert [(piece.x, piece.width) for piece in line.pieces] == [(28.0, 28.0), (56.0, 29.33)]
    assert line.words == "Ivo: with you for 21 minutes, then alone for 22 minutes"


@pytest.mark.parametrize(
    ("length", "expected"), [(45, ["0 min", "15", "30", "45"]), (120, ["0 min", "30", "60", "90", "120"])]
)
def test_without_a_start_the_strip_counts_minutes(length: int, expected: list[str]) -> None:
    assert [tick.text for tick in marks(length, None)] == expected
