"""Scenes for the reader: our own printed sides, filled in by people's digits, photographed and scanned.

Four levels: `easy` and `normal` are what a kitchen gives, `hard` is a lamp at night with a slanted, bent sheet, `scan`
a flat-bed. Digits are the MNIST test digits 0 to 4999 (see `handwriting`), written with a simulated pencil.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache
from typing import TYPE_CHECKING, Final, Literal

import cv2
import numpy as np
import pypdfium2
from camera import Shot, jpeg, photograph, scan
from digit_strokes import DIGITS as DRAWN
from digit_strokes import written as drawn
from handwriting import FOR_SCENES, digits

from dayleaf.course.load import grade2
from dayleaf.items.built import is_built
from dayleaf.learner.review import Back
from dayleaf.packets.day import prepare_day, print_packet
from dayleaf.packets.model import Child
from dayleaf.sheets.model import Look

if TYPE_CHECKING:
    from collections.abc import Collection, Mapping
    from pathlib import Path

    from camera import View

    from dayleaf.reading.arrays import Array
    from dayleaf.sheets.model import Box, PageMap, Typeset


Level = Literal["easy", "normal", "hard", "scan"]
LEVELS: Final[tuple[Level, ...]] = ("easy", "normal", "hard", "scan")
DOTS: Final = 250
"""Dots an inch of the printed sides before they are photographed."""
MM: Final = DOTS / 25.4
SIZES: Final[dict[str, tuple[tuple[int, int], ...]]] = {
    "easy": ((3000, 4000), (2448, 3264)),
    "normal": ((3000, 4000), (1536, 2048), (1800, 2400)),
    "hard": ((3000, 4000), (1536, 2048), (1224, 1632)),
}
DAYS: Final = (20, 41, 57, 83, 84, 86, 103, 120)
"""Days of the course (from 0) whose sides make the scenes."""


@dataclass(frozen=True, slots=True)
class Scene:
    """One picture of one side. `written` gives what stands in each box ("" where nothing does)."""

    level: Level
    file: bytes
    page: PageMap
    written: dict[str, str]
    view: View | None


@dataclass(frozen=True, slots=True)
class Hand:
    """How someone writes: height of digits in shares of the box, how far they stray (mm), how dark the pencil is."""

    height: tuple[float, float] = (0.5, 0.8)
    stray: float = 1.0
    slant: float = 8.0
    tone: tuple[float, float] = (0.55, 0.92)


@cache
def printed(
    day: int, *, paper: Literal["letter", "a4"] = "letter", compact: bool = False, large: bool = False
) -> Typeset:
    """A two-sheet day of the course on paper."""
    course = grade2()
    lesson = course.days[day]
    backs = [Back(skill, "on the course's list") for skill in lesson.back_skills if is_built(skill)]
    look = Look(paper=paper, compact=compact, large_boxes=large)
    packet = prepare_day(course, lesson, Child("Wren", look, two_sheets=True), seed=day, backs=backs)
    return print_packet(course, packet).pages


@cache
def picture_of(pdf: bytes, pdf_page: int) -> Array:
    """A printed side as a grey picture of `DOTS` dots an inch."""
    document = pypdfium2.PdfDocument(pdf)
    return np.asarray(document[pdf_page - 1].render(scale=DOTS / 72, grayscale=True).to_numpy().squeeze())


def scene(level: Level, *, seed: int, folder: Path, blank: float = 0.15) -> Scene:
    """The scene of a level and seed; a share `blank` of the boxes stays empty, the others get digits by chance."""
    rng = np.random.default_rng([LEVELS.index(level), seed])
    day, paper = int(rng.choice(DAYS)), ("letter", "a4")[int(rng.random() < 0.3)]
    typeset = printed(day, paper="a4" if paper == "a4" else "letter", compact=bool(rng.random() < 0.25))
    page = typeset.pages[int(rng.integers(len(typeset.pages)))]
    picture = picture_of(typeset.pdf, page.pdf_page)
    hand = Hand() if level != "hard" else Hand(height=(0.42, 0.9), stray=1.6, slant=12, tone=(0.45, 0.92))
    filled, written = fill(picture, page, hand, folder=folder, blank=blank, rng=rng)
    if level == "scan":
        dots = int(rng.choice([150, 200, 300]))
        flat = scan(
            filled, page.size_mm, dots=dots, turned=float(rng.uniform(-2, 2)), upside=rng.random() < 0.2, rng=rng
        )
        return Scene(level, jpeg(flat, int(rng.integers(75, 95))), page, written, None)
    shot = shot_of(level, rng)
    seen, view = photograph(filled, page.size_mm, shot, rng)
    return Scene(level, jpeg(seen, shot.quality), page, written, view)


def shot_of(level: Level, rng: np.random.Generator) -> Shot:
    """A photo of this level, drawn by chance."""
    wide, tall = SIZES[level][int(rng.integers(len(SIZES[level])))]
    tilt = {"easy": 10, "normal": 24, "hard": 35}[level]
    hard = level == "hard"
    spin = float(rng.normal(0, 5 if level == "easy" else 10)) + (180 if rng.random() < 0.15 else 0)
    if level != "easy" and rng.random() < 0.15:
        wide, tall, spin = tall, wide, spin + 90
    return Shot(
        size=(wide, tall),
        tilt=float(rng.uniform(0, tilt)),
        axis=float(rng.uniform(0, 360)),
        spin=spin,
        fill=float(rng.uniform(0.8, 0.96) if not hard else rng.uniform(0.7, 0.97)),
        aside=(float(rng.uniform(-0.015, 0.015)), float(rng.uniform(-0.015, 0.015))),
        curl=float(rng.uniform(0, {"easy": 2, "normal": 7, "hard": 15}[level])),
        curl_along=float(rng.choice([0, 90, rng.uniform(0, 180)])),
        light=float(rng.uniform(0, {"easy": 0.2, "normal": 0.4, "hard": 0.6}[level])),
        shadow=float(rng.uniform(0, {"easy": 0.1, "normal": 0.4, "hard": 0.65}[level])),
        blur=float(rng.uniform(0, {"easy": 0.8, "normal": 1.3, "hard": 1.8}[level]) * max(wide, tall) / 4000 + 0.3),
        noise=float(rng.uniform(1, {"easy": 4, "normal": 7, "hard": 12}[level])),
        quality=int(rng.integers({"easy": 85, "normal": 70, "hard": 50}[level], 95)),
        dark_table=bool(rng.random() < 0.7),
        clutter=0 if level == "easy" else int(rng.integers(0, 6)),
    )


def fill(
    picture: Array, page: PageMap, hand: Hand, *, folder: Path, blank: float, rng: np.random.Generator
) -> tuple[Array, dict[str, str]]:
    """The side with its boxes filled in by chance: digits, comparison signs, ticks and rings."""
    images, labels = digits(folder)
    page_now = picture.astype(np.float32) / 255
    written: dict[str, str] = {}
    ringed = {box.part + str(box.item): int(rng.integers(8)) for box in page.boxes}
    order: dict[str, int] = {}
    for box in page.boxes:
        part = box.part + str(box.item)
        place = order[part] = order.get(part, -1) + 1
        empty = rng.random() < (0.8 if box.role == "trade" else blank)
        if box.kind == "digit" and not empty:
            which = int(rng.integers(FOR_SCENES))
            _write(page_now, images[which], box, hand, rng)
            written[box.id] = str(labels[which])
        elif box.kind == "compare" and not empty:
            written[box.id] = str(rng.choice(["<", ">", "="]))
            _strokes(page_now, _sign(written[box.id], rng), box, hand, rng)
        elif box.kind == "circle" and place == ringed[part]:
            written[box.id] = "1"
            _strokes(page_now, _ring(rng), box, hand, rng)
        elif box.kind == "tick" and not empty and rng.random() < 0.5:
            written[box.id] = "1"
            _strokes(page_now, _tick(rng), box, hand, rng)
        else:
            written[box.id] = ""
    return (np.clip(page_now, 0, 1) * 255).astype(np.uint8), written


def write_digits(
    picture: Array,
    page: PageMap,
    said: Mapping[str, str],
    *,
    folder: Path | None,
    rng: np.random.Generator,
    pale: Collection[str] = (),
) -> Array:
    """The side with these digits in these boxes, in people's hands, or in drawn ones where there is no folder.

    Boxes in `pale` get digits as if half rubbed out, of which a reader has to ask.
    """
    hand = Hand(height=(0.55, 0.7), stray=0.6, slant=4)
    rubbed = replace(hand, tone=(0.17, 0.18))
    page_now = picture.astype(np.float32) / 255
    for box in page.boxes:
        if digit := said.get(box.id, ""):
            _write(page_now, _image_of(digit, folder, rng), box, rubbed if box.id in pale else hand, rng)
    return (np.clip(page_now, 0, 1) * 255).astype(np.uint8)


def _image_of(digit: str, folder: Path | None, rng: np.random.Generator) -> Array:
    if folder is None:
        return np.asarray(drawn(rng, DRAWN[int(digit)][0], shake=0.015))
    images, labels = digits(folder)
    of_digit = np.flatnonzero(labels[:FOR_SCENES] == int(digit))
    return np.asarray(images[int(rng.choice(of_digit))])


def _write(page: Array, image: Array, box: Box, hand: Hand, rng: np.random.Generator) -> None:
    """One digit into one box: scaled by its inked height, slanted, off the middle, in pencil."""
    rows = np.flatnonzero(image.max(axis=1) > 60)
    columns = np.flatnonzero(image.max(axis=0) > 60)
    ink = image[rows[0] : rows[-1] + 1, columns[0] : columns[-1] + 1].astype(np.float32) / 255
    tall = rng.uniform(*hand.height) * box.h * MM
    scale = min(tall / max(ink.shape[0], 12), 0.92 * box.w * MM / ink.shape[1])
    pad = 6
    ink = np.pad(ink, pad)
    size = (round(ink.shape[1] * scale), round(ink.shape[0] * scale))
    large = cv2.resize(ink, size, interpolation=cv2.INTER_CUBIC)
    turn = cv2.getRotationMatrix2D((size[0] / 2, size[1] / 2), float(rng.uniform(-hand.slant, hand.slant)), 1.0)
    large = np.clip(cv2.warpAffine(large, turn, size, flags=cv2.INTER_LINEAR), 0, 1)
    large = np.clip((large - 0.25) / 0.5, 0, 1)
    stray = np.clip(rng.normal(0, hand.stray / 2, 2), -hand.stray, hand.stray)
    middle = (np.array([box.x + box.w / 2, box.y + box.h / 2]) + stray) * MM
    _lay(page, large, (round(middle[0] - size[0] / 2), round(middle[1] - size[1] / 2)), hand, rng)


def _strokes(page: Array, lines: list[Array], box: Box, hand: Hand, rng: np.random.Generator) -> None:
    """Strokes given in shares of the box, drawn with the pencil."""
    pad = 8 * MM
    size = (round(box.w * MM + 2 * pad), round(box.h * MM + 2 * pad))
    ink = np.zeros((size[1], size[0]), np.float32)
    thick = round(rng.uniform(0.6, 1.1) * MM)
    for line in lines:
        points = line * (box.w * MM, box.h * MM) + pad + rng.normal(0, 1.0, line.shape)
        cv2.polylines(
            ink, [np.round(points).astype(np.int32)], isClosed=False, color=1.0, thickness=thick, lineType=cv2.LINE_AA
        )
    _lay(page, ink, (round(box.x * MM - pad), round(box.y * MM - pad)), hand, rng)


def _lay(page: Array, ink: Array, at: tuple[int, int], hand: Hand, rng: np.random.Generator) -> None:
    """Pencil over paper: grainy, and what is printed under it stays."""
    grain = cv2.GaussianBlur(np.asarray(rng.random(ink.shape), np.float32), (0, 0), 1.2)
    tone = rng.uniform(*hand.tone) * (1 + 0.8 * (grain - 0.5))
    x, y = at
    left, top = max(0, -x), max(0, -y)
    spot = page[y + top : y + ink.shape[0], x + left : x + ink.shape[1]]
    spot *= 1 - (tone * ink)[top : top + spot.shape[0], left : left + spot.shape[1]]


def _sign(sign: str, rng: np.random.Generator) -> list[Array]:
    wide, tall = rng.uniform(0.2, 0.32, 2)
    off = rng.uniform(-0.08, 0.08, 2) + 0.5
    if sign == "=":
        rows = (-0.6 * tall, 0.6 * tall)
        lines = [np.array([[-wide, row], [wide, row + rng.uniform(-0.05, 0.05)]]) for row in rows]
    else:
        tip = 1 if sign == ">" else -1
        lines = [np.array([[-tip * wide, -tall], [tip * wide, rng.uniform(-0.06, 0.06)], [-tip * wide, tall]])]
    return [line + off for line in lines]


def _ring(rng: np.random.Generator) -> list[Array]:
    turn = np.linspace(0, 2 * np.pi * rng.uniform(0.92, 1.08), 40) + rng.uniform(0, 6)
    radius = rng.uniform(0.46, 0.62, 2)
    return [np.column_stack([0.5 + radius[0] * np.cos(turn), 0.5 + radius[1] * np.sin(turn)])]


def _tick(rng: np.random.Generator) -> list[Array]:
    if rng.random() < 0.3:
        return [np.array([[0.1, 0.1], [0.9, 0.9]]), np.array([[0.9, 0.1], [0.1, 0.9]])]
    return [np.array([[0.1, 0.55], [0.4, 0.9], [rng.uniform(0.8, 1.3), rng.uniform(-0.3, 0.2)]])]
