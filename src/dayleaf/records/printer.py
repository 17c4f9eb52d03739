"""The correction for this household's printer: one small file in the folder, for it belongs to a printer and a place.

It is no record of a child and no part of a backup: a new computer with another printer measures anew.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Final

from django.db import connection

from dayleaf.core.errors import DayleafError
from dayleaf.records.errors import NoHousehold
from dayleaf.records.folder import DATABASE, PRIVATE_FILE

FILE: Final = "printer.json"
LEAST: Final = 0.9
MOST: Final = 1.12


class PrinterFileDamaged(DayleafError):
    """The file with the correction cannot be read."""

    def __init__(self, file: Path) -> None:
        super().__init__(f"{file} cannot be read; print the calibration page and measure the bar again.")


def home_folder() -> Path:
    """The folder of the household that is open."""
    return Path(str(connection.settings_dict["NAME"])).parent


def printer_scale(home: Path) -> float:
    """How many times as large things are drawn for this printer; 1 where nobody has measured.

    Raises:
        PrinterFileDamaged: the file is there and holds no number that could be meant.
    """
    file = home.expanduser() / FILE
    if not file.is_file():
        return 1.0
    try:
        scale = json.loads(file.read_text(encoding="utf-8"))["scale"]
    except (OSError, ValueError, KeyError, TypeError) as error:
        raise PrinterFileDamaged(file) from error
    if isinstance(scale, bool) or not isinstance(scale, int | float) or not LEAST <= scale <= MOST:
        raise PrinterFileDamaged(file)
    return float(scale)


def printer_measured(home: Path, *, scale: float, measured: str) -> None:
    """Keep the correction and what was measured; the old file or the new one is there, never half of one.

    Raises:
        NoHousehold: the folder holds no household.
    """
    home = home.expanduser()
    if not (home / DATABASE).exists():
        raise NoHousehold
    fresh = home / f"{FILE}.new"
    fresh.write_text(json.dumps({"scale": scale, "measured": measured}) + "\n", encoding="utf-8")
    fresh.chmod(PRIVATE_FILE)
    fresh.replace(home / FILE)


def printer_forgotten(home: Path) -> None:
    """Take the correction away: things are drawn at their own size again."""
    (home.expanduser() / FILE).unlink(missing_ok=True)
