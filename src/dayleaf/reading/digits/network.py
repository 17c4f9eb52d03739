"""The digit network, run with numpy: six convolutions, 64 features, two heads.

The weights are trained by `bench/train_digits.py`; docs/digits.md says on what, and how well they read. Batch norm is
folded in, so that each layer is one product of matrices: the patches of the picture, a one behind each, times the
kernel with its offsets in the last row.
"""

from __future__ import annotations

import threading
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING, Final

import numpy as np
from numpy.lib.stride_tricks import as_strided

from dayleaf.reading.digits.classes import CLASSES, SIGNS

if TYPE_CHECKING:
    from collections.abc import Mapping

    from dayleaf.reading.arrays import Array

SIDE: Final = 28
AT_A_TIME: Final = 6
"""Crops that go through the layers together: their patches fit a core's own cache. Measured best of 4, 6, 12 and 20."""

_LAYERS: Final = (("a", 5, 2), ("b", 3, 2), ("c1", 3, 1), ("c2", 3, 1), ("d", 3, 2), ("e", 3, 1))
"""(name, side of the kernel, step) of each convolution. What enters c1 is added to what leaves c2."""


def read_crops(crops: Array) -> Array:
    """(N × 19) probabilities of the classes of `classes.py` for N × 28 × 28 crops, ink bright on dark.

    Bytes from 0 to 255, or floats from 0 to 1. A probability is as the network gives it; `decide` calibrates.
    """
    return _shares(_features(crops) @ _weights()["digits"], CLASSES)


def read_signs(crops: Array) -> Array:
    """(N × 5) probabilities that a crop shows <, >, =, nothing, anything else; crops as in `read_crops`."""
    return _shares(_features(crops) @ _weights()["signs"], len(SIGNS))


def _shares(scores: Array, width: int) -> Array:
    """Softmax along each row; an empty batch stays one."""
    if len(scores) == 0:
        return np.zeros((0, width))
    scores = scores.astype(np.float64)
    raised = np.exp(scores - scores.max(axis=1, keepdims=True))
    return np.asarray(raised / raised.sum(axis=1, keepdims=True))


@cache
def _weights() -> Mapping[str, Array]:
    """The matrices of the layers in single precision; kept in half precision in the package."""
    with (files(__package__) / "weights.npz").open("rb") as file, np.load(file, allow_pickle=False) as kept:
        return {name: kept[name].astype(np.float32) for name in kept.files}


@dataclass(frozen=True, slots=True)
class _Layer:
    """Memory of one convolution: where its input goes, the patches as a view of it, the same as rows of a matrix."""

    inside: Array
    patches: Array
    rows: Array
    rows_as_patches: Array
    kernel: Array
    out: Array
    out_as_picture: Array


def _layer(kernel: Array, *, count: int, side: int, size: int, step: int) -> _Layer:
    edge = size // 2
    into = (len(kernel) - 1) // size**2
    padded = np.zeros((count, side + 2 * edge, side + 2 * edge, into), np.float32)
    after = (side - 1) // step + 1
    one, down, across, number = padded.strides
    shape = (count, after, after, size, size * into)
    patches = as_strided(padded, shape, (one, down * step, across * step, down, number), writeable=False)
    rows = np.ones((count * after**2, len(kernel)), np.float32)
    row = rows.strides[0]
    rows_as_patches = as_strided(rows, shape, (row * after**2, row * after, row, size * into * number, number))
    out = np.empty((len(rows), kernel.shape[1]), np.float32)
    inside = padded[:, edge : side + edge, edge : side + edge]
    return _Layer(inside, patches, rows, rows_as_patches, kernel, out, out.reshape(count, after, after, -1))


class _Memory(threading.local):
    """The layers' memory, 4 MB for each thread that reads: to ask for it anew would take a sixth of the time."""

    def __init__(self) -> None:
        self.layers: dict[str, _Layer] = {}
        side = SIDE
        for name, size, step in _LAYERS:
            self.layers[name] = _layer(_weights()[name], count=AT_A_TIME, side=side, size=size, step=step)
            side = (side - 1) // step + 1


@cache
def _memory() -> _Memory:
    return _Memory()


def _features(crops: Array) -> Array:
    """(N × 65): the 64 features that both heads look at, and a one for their offsets."""
    weights, layers = _weights(), _memory().layers
    body = np.ones((len(crops), len(weights["seen"])), np.float32)
    batch = np.zeros((AT_A_TIME, SIDE, SIDE, 1), np.float32)
    scale = np.float32(1 / 255 if crops.dtype.kind in "ui" else 1)
    for start in range(0, len(crops), AT_A_TIME):
        some = crops[start : start + AT_A_TIME]
        np.multiply(some[..., None], scale, out=batch[: len(some)], casting="unsafe")
        x = batch
        for name, _, _ in _LAYERS:
            layer = layers[name]
            np.maximum(x, 0, out=layer.inside)
            np.copyto(layer.rows_as_patches, layer.patches)
            np.matmul(layer.rows, layer.kernel, out=layer.out)
            x = layer.out_as_picture
            if name == "c2":
                x += layers["c1"].inside
        body[start : start + len(some), :-1] = np.maximum(x, 0).reshape(AT_A_TIME, -1)[: len(some)]
    seen = np.ones((len(crops), len(weights["digits"])), np.float32)
    np.maximum(body @ weights["seen"], 0, out=seen[:, :-1])
    return seen
