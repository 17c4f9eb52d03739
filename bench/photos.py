"""How long a photo takes, step by step: 12 million pixels, a side with 63 digit boxes, one core."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from dataclasses import asdict
from functools import partial
from pathlib import Path
from statistics import median
from time import perf_counter, process_time
from typing import TYPE_CHECKING

import cv2
import numpy as np
from camera import Shot, jpeg, photograph
from scenes import picture_of
from timed import Figure

from dayleaf.core.ids import FormatId, LessonId, SkillId
from dayleaf.course.load import grade2
from dayleaf.items.draw import draw_items
from dayleaf.reading.codes import sheet_in
from dayleaf.reading.crops import crops_from
from dayleaf.reading.flat import flatten
from dayleaf.reading.ink import ink_in
from dayleaf.reading.judging import judged
from dayleaf.reading.marks import find_marks
from dayleaf.reading.pictures import pictures_in
from dayleaf.reading.placing import place_boxes
from dayleaf.reading.plane import plane_of, planes_of
from dayleaf.reading.sides import read_picture
from dayleaf.reading.worker import Reader
from dayleaf.sheets.ids import sheet_id
from dayleaf.sheets.model import Block, Look, PageSpec, Placed, SheetSpec
from dayleaf.sheets.typeset import typeset_pages

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from dayleaf.sheets.model import PageMap

PHOTOS = 12
LIMIT = 120.0
WORST = 200.0
"""Milliseconds that the project promised for the middle photo and for 95 of 100."""


def full_side() -> tuple[PageMap, bytes]:
    """A compact side with 21 take-aways of three boxes each, and its file."""
    items = draw_items(grade2().skills[SkillId("sub-2digit-regroup")], n=21, seed=1, format=FormatId("horiz"))
    block = Block("Take away.", tuple(Placed(n, item) for n, item in enumerate(items, start=1)))
    sheet = SheetSpec(sheet_id("bench", 1), LessonId("day-084"), "Wren", (PageSpec("own", "Many", (block,)),))
    typeset = typeset_pages([sheet], Look(compact=True))
    return typeset.pages[0], typeset.pdf


def photo_of(page: PageMap, pdf: bytes, seed: int) -> bytes:
    """A slanted, slightly bent photo of 12 million pixels, every second box with a stroke in it."""
    rng = np.random.default_rng(seed)
    picture = picture_of(pdf, 1).copy()
    dots = picture.shape[1] / page.size_mm[0]
    for box in page.boxes[::2]:
        ends = [(box.x + rng.uniform(0.3, 0.7) * box.w, box.y + share * box.h) for share in (0.2, 0.5, 0.85)]
        points = np.rint(np.array(ends) * dots).astype(np.int32)
        cv2.polylines(picture, [points], isClosed=False, color=60, thickness=8, lineType=cv2.LINE_AA)
    axis, spin = float(rng.uniform(0, 360)), float(rng.normal(0, 6))
    how = Shot(tilt=15, axis=axis, spin=spin, curl=3, shadow=0.3, light=0.3, noise=4)
    return jpeg(photograph(picture, page.size_mm, how, rng)[0], how.quality)


def photo_figures() -> Iterator[Figure]:
    """The figures from a process of its own that computes on one core, as the reading process does."""
    done = subprocess.run(
        [sys.executable, __file__, "--json"],
        env={**os.environ, "OPENBLAS_NUM_THREADS": "1", "OMP_NUM_THREADS": "1"},
        stdout=subprocess.PIPE,
        check=True,
    )
    for values in json.loads(done.stdout):
        yield Figure(**values)


def measured() -> Iterator[Figure]:
    """The whole photo and the share of each step, in processor time; and the memory that the reading process took."""
    cv2.setNumThreads(1)
    page, pdf = full_side()
    photos = [photo_of(page, pdf, seed) for seed in range(PHOTOS)]
    taken: dict[str, list[float]] = {}
    whole = []
    for photo in (photos[0], *photos):
        (looked,) = pictures_in(photo)
        start = process_time()
        read_picture(looked, lambda _sheet, _page: page)
        whole.append((process_time() - start) * 1000)
        for name, spent in _steps(photo, page).items():
            taken.setdefault(name, []).append(spent)
    whole = whole[1:]
    raw = np.frombuffer(photos[0], np.uint8)
    decoding = median(_timed(partial(cv2.imdecode, raw, cv2.IMREAD_COLOR)) for _ in range(5))
    lacks = "everything after opening the file"
    other = "opened in colour, full size"
    yield Figure("a photo of 12 MP with 63 boxes, read", median(whole), other, decoding, lacks, LIMIT)
    worst = float(np.percentile(whole, 95))
    yield Figure("the same, 95 of 100 photos", worst, other, decoding, lacks, WORST)
    total = sum(median(times[1:]) for times in taken.values())
    for name, times in taken.items():
        step = median(times[1:])
        yield Figure(f"of that: {name} ({100 * step / total:.0f} %)", step, "all steps", total)
    if sys.platform == "linux":
        print(f"The reading process took {_peak(page, photos):.0f} MB at most.", file=sys.stderr)


def _peak(page: PageMap, photos: Sequence[bytes]) -> float:
    """The most memory that the bounded process held while it read the photos, in MB."""
    with Reader(lambda _sheet, _page: page) as reader:
        for photo in photos:
            list(reader.read(photo))
        status = Path(f"/proc/{reader.process_id}/status").read_text(encoding="ascii")
    return int(status.split("VmHWM:")[1].split()[0]) / 1000


def _steps(photo: bytes, page: PageMap) -> dict[str, float]:
    """Milliseconds of each step of one photo."""
    taken: dict[str, float] = {}

    def step(name: str, do: Callable[[], object]) -> object:
        start = process_time()
        done = do()
        taken[name] = (process_time() - start) * 1000
        return done

    (looked,) = pictures_in(photo)
    picture: object = step("opening the file at half size", looked[0])
    found: object = step("corner marks", partial(find_marks, picture))  # type: ignore[arg-type]  # what the step before gave
    step("code", lambda: sheet_in(picture, found, planes_of(found)))  # type: ignore[arg-type]  # as above
    way = plane_of(found, page.size_mm)  # type: ignore[arg-type]  # as above
    flat = step("flat page, light", lambda: flatten(picture, way, page.size_mm))  # type: ignore[arg-type]  # as above
    places = step("boxes", lambda: place_boxes(flat, page.boxes, page.marks))  # type: ignore[arg-type]  # as above
    inks = step("ink without outlines", lambda: ink_in(flat, page.boxes, places))  # type: ignore[arg-type]  # as above
    crops = step("crops", lambda: crops_from(inks))  # type: ignore[arg-type]  # as above
    step("digits", lambda: list(judged(crops, inks)))  # type: ignore[arg-type]  # as above
    return taken


def _timed(do: Callable[[], object]) -> float:
    start = perf_counter()
    do()
    return (perf_counter() - start) * 1000


if __name__ == "__main__":
    if "--json" in sys.argv:
        print(json.dumps([asdict(figure) for figure in measured()]))
    else:
        for figure in photo_figures():
            print(f"{figure.ms:8.1f} ms  {figure.what}")
