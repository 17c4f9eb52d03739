"""Crops that come in a file: every way they are laid out, and a sentence for every file that holds none."""

from __future__ import annotations

import io
import zipfile
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
import pytest

from dayleaf.reading.digits import NotDigits, read_file
from dayleaf.reading.digits.apart import read_apart

if TYPE_CHECKING:
    from collections.abc import Callable

HERE = Path(__file__).parent


@pytest.fixture(scope="module")
def crops() -> np.ndarray:
    """Drawn digits, signs and scribbles."""
    with np.load(HERE / "torch_says.npz") as kept:
        return np.asarray(kept["X"][:30])


@pytest.mark.parametrize(
    "laid",
    [
        lambda x: x,
        lambda x: x.reshape(len(x), 784),
        lambda x: x / 255,
        lambda x: (x / 255).astype(np.float32).reshape(len(x), 784),
        lambda x: x.astype(np.float64),
        lambda x: x.astype(np.int64),
        lambda x: 255 - x,
        np.asfortranarray,
        lambda x: x[:, None],
    ],
    ids=["bytes", "flat", "shares", "flat shares", "floats to 255", "long", "dark on bright", "by column", "channel"],
)
def test_crops_are_read_alike_however_they_are_laid(
    crops: np.ndarray, laid: Callable[[np.ndarray], np.ndarray], tmp_path: Path
) -> None:
    np.savez(tmp_path / "plain.npz", X=crops)
    np.savez_compressed(tmp_path / "laid.npz", X=laid(crops), y=np.arange(3))

    plain, other = read_file(tmp_path / "plain.npz"), read_file(tmp_path / "laid.npz")

    assert [one.reading for one in plain] == [one.reading for one in other]
    assert [one.certainty for one in plain] == pytest.approx([one.certainty for one in other], abs=2e-3)


def test_no_crops_give_no_readings(tmp_path: Path) -> None:
    np.savez(tmp_path / "none.npz", X=np.zeros((0, 28, 28), np.uint8))

    assert read_file(tmp_path / "none.npz") == ()


@pytest.mark.parametrize(
    ("held", "why"),
    [
        ({"Y": np.zeros((2, 28, 28))}, "has no array named X"),
        ({"X": np.zeros((2, 20, 20))}, "not N × 28 × 28 or N × 784"),
        ({"X": np.zeros((28, 28))}, "not N × 28 × 28 or N × 784"),
        ({"X": np.zeros(())}, "not N × 28 × 28 or N × 784"),
        ({"X": np.full((2, 28, 28), "a")}, "not of numbers"),
        ({"X": np.full((2, 28, 28), np.nan)}, "not finite"),
        ({"X": np.full((2, 28, 28), 300.0)}, "not from 0 to 1 or from 0 to 255"),
        ({"X": np.full((2, 28, 28), -1.0)}, "not from 0 to 1 or from 0 to 255"),
        ({"X": np.zeros((1, 28, 28), object)}, "not of numbers"),
    ],
)
def test_what_holds_no_crops_gets_one_sentence(held: dict[str, np.ndarray], why: str, tmp_path: Path) -> None:
    path = tmp_path / "held.npz"
    np.savez(path, **held)  # type: ignore[arg-type]  # arrays by their names

    with pytest.raises(NotDigits) as refused:
        read_file(path)

    assert why in str(refused.value)
    assert str(refused.value).startswith("held.npz ")
    assert str(refused.value).count("\n") == 0


def test_files_of_other_kinds_get_one_sentence(crops: np.ndarray, tmp_path: Path) -> None:
    whole = io.BytesIO()
    np.savez(whole, X=crops)
    cut, text, missing = tmp_path / "cut.npz", tmp_path / "text.npz", tmp_path / "missing.npz"
    cut.write_bytes(whole.getvalue()[:5000])
    text.write_text("digits", encoding="utf-8")

    for path, why in ((cut, "no whole .npz file"), (text, "no whole .npz file"), (missing, "cannot be read")):
        with pytest.raises(NotDigits, match=why):
            read_file(path)


def test_an_array_that_only_claims_to_be_huge_is_refused_before_it_is_unpacked(tmp_path: Path) -> None:
    path = tmp_path / "huge.npz"
    head = io.BytesIO()
    np.lib.format.write_array_header_1_0(
        head, {"descr": "|u1", "fortran_order": False, "shape": (10_000_000_000, 28, 28)}
    )
    with zipfile.ZipFile(path, "w") as archive:
        archive.writestr("X.npy", head.getvalue())

    with pytest.raises(NotDigits, match="more than"):
        read_file(path)


def test_a_process_of_its_own_reads_the_same_and_says_the_same_of_what_is_no_file_of_crops(
    crops: np.ndarray, tmp_path: Path
) -> None:
    np.savez(tmp_path / "plain.npz", X=crops)
    np.savez(tmp_path / "other.npz", Y=crops)

    assert read_apart(tmp_path / "plain.npz") == read_file(tmp_path / "plain.npz")
    with pytest.raises(NotDigits, match="has no array named X"):
        read_apart(tmp_path / "other.npz")
