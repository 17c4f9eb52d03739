"""What the network tells apart: ten digits, seven of them turned round, an empty crop, and what is no digit."""

from __future__ import annotations

from typing import Final

TURNABLE: Final = (2, 3, 4, 5, 6, 7, 9)
"""Digits that look different in a mirror; classes 10 to 16 are these, turned round."""

BLANK: Final = 17
NO_DIGIT: Final = 18
CLASSES: Final = 19
SIGNS: Final = ("<", ">", "=", "", "?")
"""The second head: three signs, an empty crop, anything else."""
