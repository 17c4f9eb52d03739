"""Our own sheets in front of a simulated camera (`bench/camera.py`), whose geometry placing is checked against."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import camera
import cv2
import numpy as np
import pytest
import scenes
from handwriting import VARIABLE, folder_of_digits

from dayleaf.reading.worker import Reader

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from dayleaf.reading.arrays import Array
    from dayleaf.reading.model import PageReading
    from dayleaf.sheets.model import PageMap


@dataclass(frozen=True)
class Side:
    """A printed side: its map and a grey picture of 250 dots an inch."""

    page: PageMap
    picture: Array

    def small(self, dots: float = 6.0) -> Array:
        """The side as a clean scan of so many pixels a millimetre."""
        wide, tall = (round(length * dots) for length in self.page.size_mm)
        return np.asarray(cv2.resize(self.picture, (wide, tall), interpolation=cv2.INTER_AREA), np.uint8)


@pytest.fixture(scope="session")
def sides() -> tuple[Side, ...]:
    """The four sides of the first day of taking away with a ten to open."""
    typeset = scenes.printed(83)
    return tuple(Side(page, scenes.picture_of(typeset.pdf, page.pdf_page)) for page in typeset.pages)


@pytest.fixture(scope="session")
def side(sides: tuple[Side, ...]) -> Side:
    """The front of the practice sheet: numbers in rows and in a column."""
    return sides[2]


@pytest.fixture(scope="session")
def reader(sides: tuple[Side, ...]) -> Iterator[Callable[..., list[PageReading]]]:
    """Files read one after another in the bounded process, each as if nothing had come before."""
    known = {(one.page.sheet, one.page.page): one.page for one in sides}
    with Reader(lambda sheet, page: known.get((sheet, page))) as process:

        def read(*files: bytes) -> list[PageReading]:
            process.forget()
            return [page for data in files for page in process.read(data)]

        yield read


@pytest.fixture(scope="session")
def digits_folder() -> Path:
    """The folder of people's digits; without it there is nothing to fill the boxes with."""
    folder = folder_of_digits()
    if folder is None:
        pytest.skip(f"{VARIABLE} names no folder of digits; python3 bench/handwriting.py FOLDER fetches one")
    return folder


@pytest.fixture(scope="session")
def png() -> Callable[[Array], bytes]:
    """A picture as a PNG file."""
    return lambda picture: bytes(cv2.imencode(".png", picture)[1].tobytes())


@pytest.fixture(scope="session")
def shoot() -> Callable[..., tuple[bytes, camera.View]]:
    """A photo of a side as a JPEG file, and where its points lie."""

    def photo(side: Side, picture: Array | None = None, *, seed: int = 1, **how: object) -> tuple[bytes, camera.View]:
        shot = camera.Shot(**{"size": (1500, 2000), **how})  # type: ignore[arg-type]  # the fields by their names
        seen, view = camera.photograph(
            side.picture if picture is None else picture, side.page.size_mm, shot, np.random.default_rng(seed)
        )
        return camera.jpeg(seen, shot.quality), view

    return photo
