"""The network says what torch said, whatever the size of the batch, and its file is the one that was measured."""

from __future__ import annotations

from hashlib import sha256
from importlib.resources import files
from pathlib import Path

import numpy as np
import pytest

from dayleaf.reading.digits import read_crops, read_signs

HERE = Path(__file__).parent
WEIGHTS = files("dayleaf.reading.digits") / "weights.npz"


@pytest.fixture(scope="module")
def torch_says() -> dict[str, np.ndarray]:
    """Drawn crops and what the trained network said of them in torch 2.13.0, in single precision."""
    with np.load(HERE / "torch_says.npz") as kept:
        return dict(kept)


def test_every_probability_is_what_torch_computes(torch_says: dict[str, np.ndarray]) -> None:
    digits, signs = read_crops(torch_says["X"]), read_signs(torch_says["X"])

    # half precision of the shipped weights moves a probability by less than a hundredth
    assert np.abs(digits - torch_says["digits"]).max() < 0.01
    assert np.abs(signs - torch_says["signs"]).max() < 0.01
    assert (digits.argmax(axis=1) == torch_says["digits"].argmax(axis=1)).all()


@pytest.mark.parametrize("count", [0, 1, 5, 6, 7, 13])
def test_a_crop_is_read_alike_alone_and_in_any_company(torch_says: dict[str, np.ndarray], count: int) -> None:
    crops = torch_says["X"]

    together = read_crops(crops)[:count]

    assert read_crops(crops[:count]).shape == (count, 19)
    assert np.allclose(read_crops(crops[:count]), together, atol=1e-6)


def test_bytes_and_shares_say_the_same(torch_says: dict[str, np.ndarray]) -> None:
    crops = torch_says["X"]

    assert np.allclose(read_crops(crops), read_crops(crops / 255), atol=1e-6)


def test_probabilities_of_a_crop_add_up_to_one(torch_says: dict[str, np.ndarray]) -> None:
    assert np.allclose(read_crops(torch_says["X"]).sum(axis=1), 1)
    assert np.allclose(read_signs(torch_says["X"]).sum(axis=1), 1)


def test_the_weights_are_small_and_are_those_of_the_model_card() -> None:
    kept = WEIGHTS.read_bytes()
    card = (Path(__file__).parents[3] / "docs" / "digits.md").read_text(encoding="utf-8")

    assert len(kept) <= 1_500_000  # issue 4
    assert sha256(kept).hexdigest() in card
