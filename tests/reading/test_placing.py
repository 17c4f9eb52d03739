"""Boxes are found where the camera's own geometry (`bench/camera.py`) puts them."""

from __future__ import annotations

from typing import TYPE_CHECKING

import cv2
import numpy as np
import pytest

if TYPE_CHECKING:
    from collections.abc import Callable

    from camera import View

    from dayleaf.reading.model import PageReading

    from .conftest import Side

NEAR = 0.7
"""Millimetres: a digit of 7 mm is then still whole in its crop (measured for the project)."""

PHOTOS: dict[str, dict[str, object]] = {
    "straight from above": {},
    "upside down": {"spin": 180},
    "lying on its side": {"spin": 90, "size": (2000, 1500)},
    "turned by 20 degrees": {"spin": 20},
    "slanted by 35 degrees": {"tilt": 35, "axis": 20},
    "slanted the other way": {"tilt": 30, "axis": 110, "spin": -10},
    "bent across": {"curl": 9, "tilt": 12},
    "bent along": {"curl": 9, "curl_along": 90, "tilt": 12, "axis": 90},
    "bent aslant": {"curl": 7, "curl_along": 40, "tilt": 15, "axis": 60},
    "in shadow and lamplight": {"shadow": 0.6, "light": 0.6},
    "noisy and soft": {"noise": 10, "blur": 0.9, "quality": 55},
    "on a cluttered table": {"clutter": 8, "fill": 0.7, "dark_table": False},
    "of two megapixels": {"size": (1224, 1632), "tilt": 10},
    "of twelve megapixels": {"size": (3000, 4000), "tilt": 15, "axis": 45},
}


@pytest.mark.parametrize("how", PHOTOS)
def test_every_box_is_found_in_a_photo(
    how: str, side: Side, reader: Callable[..., list[PageReading]], shoot: Callable[..., tuple[bytes, View]]
) -> None:
    photo, view = shoot(side, **PHOTOS[how])

    (page,) = reader(photo)

    assert (page.status, page.sheet, page.page) == ("read", side.page.sheet, side.page.page), page.message
    size = np.array(view.shot.size)
    for box, found in zip(side.page.boxes, page.boxes, strict=True):
        corners = view.see([[box.x, box.y], [box.x + box.w, box.y], [box.x + box.w, box.y + box.h]])
        dots = np.linalg.norm(corners[1] - corners[0]) / box.w
        missed = np.linalg.norm((np.array(found.corners[:3]) * size - 0.5).mean(axis=0) - corners.mean(axis=0)) / dots
        assert missed <= NEAR, f"{box.id} by {missed:.2f} mm"
        assert (found.state, found.reading) == ("blank", ""), box.id


@pytest.mark.parametrize("dots", [150, 300])
def test_an_empty_side_is_read_as_empty_from_a_scan(
    dots: int, sides: tuple[Side, ...], reader: Callable[..., list[PageReading]], png: Callable[..., bytes]
) -> None:
    for side in sides:
        turned = side.small(dots / 25.4)
        turn = cv2.getRotationMatrix2D((turned.shape[1] / 2, turned.shape[0] / 2), 1.5, 1.0)
        scan = cv2.warpAffine(turned, turn, (turned.shape[1], turned.shape[0]), borderValue=255)

        (page,) = reader(png(scan))

        assert {box.state for box in page.boxes} == {"blank"}, page.message
