"""`dayleaf advise`: advice for any course and many learners, one JSON line after another."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

import click
import msgspec

from dayleaf.course.load import grade2
from dayleaf.learner.adviser import Adviser
from dayleaf.learner.requests import offer_requests

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator


def replies(lines: Iterable[bytes]) -> Iterator[bytes]:
    """One line for each line that is not blank; one that cannot be read is answered with an error."""
    adviser = Adviser(grade2())
    offer_requests(adviser)
    decode, encode = msgspec.json.Decoder().decode, msgspec.json.Encoder().encode
    for line in lines:
        if not line.strip():
            continue
        try:
            request = decode(line)
        except (msgspec.DecodeError, UnicodeDecodeError, RecursionError):
            yield encode({"error": "This line is not JSON."}) + b"\n"
            continue
        yield encode(adviser.reply(request)) + b"\n"


@click.command()
def verb() -> None:
    """Read requests as JSON lines and answer each with one; docs/learner.md lists them."""
    out = sys.stdout.buffer
    for line in replies(sys.stdin.buffer):
        out.write(line)
        out.flush()
