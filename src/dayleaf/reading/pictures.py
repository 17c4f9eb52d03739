"""Files become grey pictures: photos at half size where that is fine enough, PDFs page by page."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Final

import cv2
import numpy as np

from dayleaf.reading.files import sniff
from dayleaf.reading.refusals import Damaged, OneBit, TooManyPages

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from dayleaf.reading.arrays import Array

    Picture = Array
    Looked = tuple[Callable[[], Picture], ...]

HALVED: Final = 2600
"""Pixels of the longer side from which a photo is read at half its size first."""

PDF_SIDE: Final = 2000
"""Pixels of the longer side of a page of a PDF."""

MOST_PAGES: Final = 40
GREY: Final = (60, 196)
GREY_SHARE: Final = 0.001
"""A scan in grey has at least this share of pixels between black and white: every outline is such a grey."""


def pictures_in(data: bytes) -> Iterator[Looked]:
    """For each page of the file the ways to see it, the quick one first.

    Raises:
        Refused: the file cannot be read; nothing of it was.
    """
    sniffed = sniff(data)
    if sniffed.kind == "pdf":
        yield from _pdf(data)
        return
    raw = np.frombuffer(data, np.uint8)
    ways: list[Callable[[], Picture]] = []
    if sniffed.kind == "jpeg" and max(sniffed.size) >= HALVED:
        ways.append(lambda: _decoded(raw, cv2.IMREAD_REDUCED_GRAYSCALE_2))
    ways.append(lambda: _decoded(raw, cv2.IMREAD_GRAYSCALE))
    yield tuple(ways)


def check_grey(picture: Picture) -> None:
    """Raise OneBit where a picture has black and white only."""
    sample = picture[::2, ::2]
    grey = np.count_nonzero((sample >= GREY[0]) & (sample < GREY[1]))
    if grey < GREY_SHARE * sample.size and sample.min() < GREY[0] < GREY[1] <= sample.max():
        raise OneBit


def _decoded(raw: Picture, way: int) -> Picture:
    try:
        picture = cv2.imdecode(raw, way)
    except (cv2.error, MemoryError) as wrong:
        raise Damaged from wrong
    if picture is None:
        raise Damaged
    return np.asarray(picture)


def _pdf(data: bytes) -> Iterator[Looked]:
    import pypdfium2  # noqa: PLC0415 - only PDFs pay for it

    try:
        document = pypdfium2.PdfDocument(data)
        count = len(document)
    except pypdfium2.PdfiumError as wrong:
        raise Damaged from wrong
    if count > MOST_PAGES:
        raise TooManyPages(count, MOST_PAGES)
    for number in range(count):
        yield (partial(_page, document, number),)


def _page(document: object, number: int) -> Picture:
    import pypdfium2  # noqa: PLC0415 - as above
    from pypdfium2.raw import FPDF_PAGEOBJ_IMAGE  # noqa: PLC0415 - as above

    try:
        page = document[number]  # type: ignore[index]  # pypdfium2 has no types
        for image in page.get_objects(filter=(FPDF_PAGEOBJ_IMAGE,), max_depth=2):
            if image.get_metadata().bits_per_pixel == 1:
                raise OneBit
        scale = PDF_SIDE / max(*page.get_size(), 1.0)
        return np.ascontiguousarray(page.render(scale=scale, grayscale=True).to_numpy().squeeze())
    except pypdfium2.PdfiumError as wrong:
        raise Damaged from wrong
