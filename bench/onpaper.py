"""Printed sides looked at by detectors that know nothing of us: OpenCV for marks and boxes, zxing-cpp for codes."""

from __future__ import annotations

from typing import TYPE_CHECKING

import cv2
import numpy as np
import pypdfium2
import zxingcpp

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from dayleaf.sheets.model import PageMap, Typeset

DOTS = 200
MM = 25.4 / DOTS
NEAR = 0.3
"""Millimetres between the map and what is found (the project's promise)."""


def misplaced(typeset: Typeset) -> Iterator[tuple[int, list[str]]]:
    """For every mapped side its number in the file and what is not where the map says."""
    document = pypdfium2.PdfDocument(typeset.pdf)
    for page in typeset.pages:
        picture = document[page.pdf_page - 1].render(scale=DOTS / 72, grayscale=True).to_numpy().squeeze()
        yield page.pdf_page, [*_marks(page, picture), *_codes(page, picture), *_boxes(page, picture)]


def _marks(page: PageMap, picture: NDArray[np.uint8]) -> Iterator[str]:
    detector = cv2.aruco.ArucoDetector(cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_4X4_50))
    corners, ids, _ = detector.detectMarkers(picture)
    found = dict(zip(ids.flatten().tolist(), corners, strict=True)) if len(corners) else {}
    for mark in page.marks:
        corner = found.get(mark.id)
        if corner is None or np.abs(corner.reshape(4, 2)[0] * MM - (mark.x, mark.y)).max() > NEAR:
            yield f"mark {mark.id}"


def _codes(page: PageMap, picture: NDArray[np.uint8]) -> Iterator[str]:
    codes = zxingcpp.read_barcodes(picture)
    if [code.text for code in codes] != [page.qr.text] * 2:
        yield "code"
        return
    first = min(codes, key=lambda code: code.position.top_left.y).position.top_left
    if max(abs(first.x * MM - page.qr.x), abs(first.y * MM - page.qr.y)) > NEAR:
        yield "place of the code"


def _boxes(page: PageMap, picture: NDArray[np.uint8]) -> Iterator[str]:
    _, ink = cv2.threshold(picture, 225, 255, cv2.THRESH_BINARY_INV)
    contours, _ = cv2.findContours(ink, cv2.RETR_LIST, cv2.CHAIN_APPROX_NONE)
    seen = np.array([cv2.boundingRect(contour) for contour in contours], dtype=float) * MM
    centres = seen[:, :2] + seen[:, 2:] / 2
    for box in page.boxes:
        away = np.hypot(centres[:, 0] - box.x - box.w / 2, centres[:, 1] - box.y - box.h / 2)
        size = np.maximum(abs(seen[:, 2] - box.w), abs(seen[:, 3] - box.h))
        if not np.any((away <= NEAR) & (size <= 0.5)):
            yield f"box {box.id}"
