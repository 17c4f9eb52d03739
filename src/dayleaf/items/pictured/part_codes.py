"""The codes of stories about equal groups, with the names of their values.

`items.pictured.codes` joins them to its own.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

STEPS: Mapping[str, tuple[str, ...]] = {
    "write-times": ("a", "b", "result"),  # 3 × 4 = 12
    "write-divide": ("a", "b", "result"),  # 12 ÷ 3 = 4
    "total-known": (),  # the story tells the total: divide
    "total-asked": (),  # the story asks for the total: multiply
}

QUESTIONS: Mapping[str, tuple[str, ...]] = {}
