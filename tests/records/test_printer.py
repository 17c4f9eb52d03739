"""The correction for a printer: kept in the folder, read back, and damaged files said plainly."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from dayleaf.records.errors import NoHousehold
from dayleaf.records.folder import DATABASE
from dayleaf.records.printer import (
    FILE,
    PrinterFileDamaged,
    printer_forgotten,
    printer_measured,
    printer_scale,
)

if TYPE_CHECKING:
    from pathlib import Path


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder that has a household's database; nobody opens it here."""
    (tmp_path / DATABASE).touch()
    return tmp_path


def test_what_was_measured_is_kept_until_it_is_measured_anew_or_forgotten(folder: Path) -> None:
    assert printer_scale(folder) == 1.0

    printer_measured(folder, scale=1.02, measured="98mm")
    printer_measured(folder, scale=1.015, measured="98.5mm")

    assert printer_scale(folder) == 1.015
    assert (folder / FILE).stat().st_mode & 0o077 == 0
    assert sorted(path.name for path in folder.iterdir()) == sorted([DATABASE, FILE])
    printer_forgotten(folder)
    assert printer_scale(folder) == 1.0


def test_a_folder_without_a_household_keeps_nothing(tmp_path: Path) -> None:
    with pytest.raises(NoHousehold):
        printer_measured(tmp_path, scale=1.02, measured="98mm")

    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("written", ["", "[1]", "{}", '{"scale": "large"}', '{"scale": true}', '{"scale": 3}'])
def test_a_damaged_file_asks_to_measure_again(folder: Path, written: str) -> None:
    (folder / FILE).write_text(written, encoding="utf-8")

    with pytest.raises(PrinterFileDamaged, match="measure the bar again"):
        printer_scale(folder)
