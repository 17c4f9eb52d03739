"""Crops that come in a file: an .npz archive with an array X."""

from __future__ import annotations

import zipfile
import zlib
from typing import TYPE_CHECKING, Final

import numpy as np
from numpy.lib import format as npy

from dayleaf.core.errors import DayleafError
from dayleaf.reading.digits.deciding import Reading, decide
from dayleaf.reading.digits.network import SIDE, read_crops

if TYPE_CHECKING:
    from pathlib import Path

    from dayleaf.reading.arrays import Array

MOST: Final = 100_000
"""Crops a file may hold; more is taken for a mistake."""


class NotDigits(DayleafError):
    """A file that holds no array of crops; `why` says what is the matter."""

    def __init__(self, path: Path, why: str) -> None:
        self.path, self.why = path, why
        super().__init__(f"{path.name} {why}.")


def read_file(path: Path) -> tuple[Reading, ...]:
    """One reading for each crop of the file's array X: N × 28 × 28 or N × 784, bytes or floats from 0 to 1.

    Ink may be bright on dark or dark on bright: the rims of all crops together tell.

    Raises:
        NotDigits: the file is no .npz archive, has no X, or X is no array of crops.
    """
    return decide(read_crops(bright_on_dark(_loaded(path))))


def bright_on_dark(crops: Array) -> Array:
    """N × 28 × 28 crops from 0 to 1 with ink bright on dark, whichever way round they came."""
    if len(crops) == 0:
        return crops
    rim = np.concatenate([crops[:, 0], crops[:, -1], crops[:, :, 0], crops[:, :, -1]], axis=1)
    return 1 - crops if float(np.median(rim)) > 0.5 else crops


def _loaded(path: Path) -> Array:
    """The array X as floats from 0 to 1. Nothing of the file is run; its shape is looked at before it is unpacked."""
    try:
        with zipfile.ZipFile(path) as archive, archive.open("X.npy") as member:
            version = npy.read_magic(member)
            header = npy.read_array_header_1_0 if version == (1, 0) else npy.read_array_header_2_0
            shape, by_column, kind = header(member)
            count = _count(path, shape, kind)
            raw = member.read(count * SIDE * SIDE * kind.itemsize + 1)
    except KeyError:
        raise NotDigits(path, "has no array named X") from None
    except OSError as problem:
        raise NotDigits(path, f"cannot be read: {problem.strerror or problem}") from None
    except (zipfile.BadZipFile, zlib.error, ValueError, EOFError, NotImplementedError, RuntimeError):
        raise NotDigits(path, "is no whole .npz file") from None
    if len(raw) != count * SIDE * SIDE * kind.itemsize:
        raise NotDigits(path, "is no whole .npz file")
    values = np.frombuffer(raw, kind).reshape(shape, order="F" if by_column else "C")
    return _as_shares(path, values.reshape(count, SIDE, SIDE), whole=kind.kind in "ui")


def _count(path: Path, shape: tuple[int, ...], kind: np.dtype) -> int:
    """How many crops an array of this shape holds."""
    if tuple(shape[1:]) not in {(SIDE, SIDE), (SIDE * SIDE,), (1, SIDE, SIDE), (SIDE, SIDE, 1)} or len(shape) < 2:
        raise NotDigits(path, f"holds an X of shape {shape}, not N × 28 × 28 or N × 784")
    if kind.kind not in "uifb":
        raise NotDigits(path, f"holds an X of {kind}, not of numbers")
    if shape[0] > MOST:
        raise NotDigits(path, f"holds {shape[0]:,} crops, more than {MOST:,}")
    return int(shape[0])


def _as_shares(path: Path, crops: Array, *, whole: bool) -> Array:
    """Floats from 0 to 1; whole numbers count up to 255, and so do floats of which one is above 1.5."""
    shares = crops.astype(np.float32)
    if not np.isfinite(shares).all():
        raise NotDigits(path, "holds an X with numbers that are not finite")
    top = float(shares.max()) if shares.size else 0.0
    low = float(shares.min()) if shares.size else 0.0
    if top > 255 or low < 0:
        raise NotDigits(path, f"holds an X from {low:g} to {top:g}, not from 0 to 1 or from 0 to 255")
    counted = (whole and top > 1) or top > 1.5
    return np.asarray(shares / 255 if counted else shares)
