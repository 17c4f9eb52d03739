"""How the reading process and the one that asks it talk: lengths and JSON over pipes, nothing that could run."""

from __future__ import annotations

import json
import struct
from base64 import b64decode, b64encode
from typing import IO, TYPE_CHECKING, Any

from dayleaf.reading.model import BoxReading, PageReading

if TYPE_CHECKING:
    from collections.abc import Mapping

Data = dict[str, Any]


def send(pipe: IO[bytes], data: Mapping[str, Any], raw: bytes = b"") -> None:
    """One message: its length, JSON, the length of raw bytes, those bytes."""
    text = json.dumps(data).encode()
    pipe.write(struct.pack(">II", len(text), len(raw)) + text + raw)
    pipe.flush()


def receive(pipe: IO[bytes]) -> tuple[Data, bytes]:
    """The next message. Raises EOFError where the other side is gone."""
    head = pipe.read(8)
    if len(head) < 8:
        raise EOFError
    length, more = struct.unpack(">II", head)
    text, raw = pipe.read(length), pipe.read(more)
    if len(text) < length or len(raw) < more:
        raise EOFError
    data: Data = json.loads(text)
    return data, raw


def page_to_data(page: PageReading) -> Data:
    """A page as JSON-able data."""
    boxes = [
        [
            box.id, box.reading, box.certainty, box.state, box.reversed, box.corners,
            b64encode(box.picture).decode(), box.likely, box.shift,
        ]
        for box in page.boxes
    ]  # fmt: skip
    return {
        "status": page.status, "page_in_file": page.page_in_file, "code": page.code, "message": page.message,
        "sheet": page.sheet, "page": page.page, "boxes": boxes, "flat": b64encode(page.flat).decode(),
    }  # fmt: skip


def page_from_data(data: Data) -> PageReading:
    """The page back."""
    boxes = tuple(
        BoxReading(
            id_, reading, certainty, state, turned, tuple((x, y) for x, y in corners), b64decode(picture),
            tuple(likely), (shift[0], shift[1]),
        )
        for id_, reading, certainty, state, turned, corners, picture, likely, shift in data["boxes"]
    )  # fmt: skip
    return PageReading(
        data["status"], data["page_in_file"], data["code"], data["message"], data["sheet"], data["page"],
        boxes, b64decode(data["flat"]),
    )  # fmt: skip
