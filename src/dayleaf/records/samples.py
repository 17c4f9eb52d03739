"""Work samples: sheets chosen evenly over time and strands, the same skill early, midway and late where it can be."""

from __future__ import annotations

import base64
import json
from collections import defaultdict
from dataclasses import dataclass
from io import BytesIO
from typing import TYPE_CHECKING, Final

import pikepdf

from dayleaf.core.ids import SkillId
from dayleaf.records import photo_files
from dayleaf.records.models import PhotoPageRow, PrintRow, SheetRow
from dayleaf.records.span import marks_told, score_told
from dayleaf.sheets.codec import map_from_data

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from datetime import date

    from django.db.models import QuerySet

    from dayleaf.course.model import Course
    from dayleaf.records.models import Learner

EACH: Final = 3
"""Samples of a strand: early, midway, late."""
TELLING: Final = frozenset({"own", "front", "back"})
"""Sides that a child works alone."""
DOTS_PER_INCH: Final = 100


@dataclass(frozen=True, slots=True)
class Candidate:
    """A marked sheet as a sample of one skill: `right` of `of` items done alone; `photo` says that a photo shows it."""

    sheet: str
    day: date
    strand: str
    skill: str
    right: int
    of: int
    photo: bool = False


@dataclass(frozen=True, slots=True)
class Sample:
    """A chosen sheet, and its place in the strand's story: early, midway, late, or once where there is one only."""

    candidate: Candidate
    place: str


def choose_samples(candidates: Iterable[Candidate], *, each: int = EACH) -> tuple[Sample, ...]:
    """For every strand up to `each` sheets, spread evenly from its first day to its last, no sheet twice.

    Of a strand the one skill is shown whose sheets reach over the longest time (then with the most photos); other
    skills of the strand fill in where it has too few days. For a place in time the nearest day is taken, one with a
    photo where the distance is alike within a tenth of the span.
    """
    by_strand: dict[str, list[Candidate]] = defaultdict(list)
    for one in candidates:
        by_strand[one.strand].append(one)
    chosen: list[Sample] = []
    taken: set[str] = set()
    for strand in sorted(by_strand):
        found = _of_strand([one for one in by_strand[strand] if one.sheet not in taken], each)
        taken.update(one.sheet for one in found)
        chosen += [Sample(one, _place(n, len(found))) for n, one in enumerate(found)]
    return tuple(chosen)


def candidates_of(learner: Learner, course: Course, *, first: date, last: date) -> tuple[Candidate, ...]:
    """Every marked sheet, once for each skill on it that the child worked alone."""
    marked = [one for one in marks_told(learner, first=first, last=last) if one.what.sheet]
    photos = set(_sides(learner).values_list("sheet", flat=True))
    found = []
    for one in marked:
        for skill in dict.fromkeys(item.skill for item in one.what.items):
            about = course.skills.get(SkillId(skill))
            right, of = score_told(item for item in one.what.items if item.skill == skill)
            if about is not None and of:
                shown = one.what.sheet in photos
                found.append(Candidate(one.what.sheet, one.day, about.strand, skill, right, of, photo=shown))
    return tuple(found)


def picture_of(learner: Learner, candidate: Candidate) -> tuple[str, tuple[float, float]] | None:
    """The side with most of the skill as an SVG picture, and its size in mm: its photo from above, else as printed.

    None where neither can be had.
    """
    row = SheetRow.objects.filter(learner=learner, sheet_id=candidate.sheet).first()
    pages = map_from_data(json.loads(row.pages)) if row else ()
    alone = [page for page in pages if page.kind in TELLING] or list(pages)
    if row is None or not alone:
        return None
    page = max(alone, key=lambda one: sum(item.skill == candidate.skill for item in one.items))
    side = _sides(learner).filter(sheet=candidate.sheet, side=page.page).values_list("photo__sha256", "number").first()
    data = photo_files.get_side(*side) if side else None
    if data is not None:
        return _as_svg(data, "image/jpeg", page.size_mm), page.size_mm
    printed = bytes(PrintRow.objects.values_list("pages", flat=True).get(pk=row.printed_id))
    drawn = _drawn(printed, page.pdf_page)
    return None if drawn is None else (_as_svg(drawn, "image/png", page.size_mm), page.size_mm)


def _sides(learner: Learner) -> QuerySet[PhotoPageRow]:
    return PhotoPageRow.objects.filter(household_id=learner.household_id, status="read")


def _of_strand(candidates: Sequence[Candidate], each: int) -> list[Candidate]:
    if not candidates:
        return []
    by_skill: dict[str, list[Candidate]] = defaultdict(list)
    for one in candidates:
        by_skill[one.skill].append(one)

    def reach(skill: str) -> tuple[int, int, int, str]:
        days = [one.day for one in by_skill[skill]]
        photos = sum(one.photo for one in by_skill[skill])
        return (max(days) - min(days)).days, photos, len(set(days)), skill

    main = max(by_skill, key=reach)
    days = sorted({one.day for one in candidates})
    first, span = days[0], (days[-1] - days[0]).days
    found: list[Candidate] = []
    for n in range(each):
        wanted = span * n / max(each - 1, 1)
        left = [one for one in candidates if not found or one.day > found[-1].day]
        mine = [one for one in left if one.skill == main] or left
        if not mine:
            break

        def distance(one: Candidate, wanted: float = wanted) -> tuple[int, bool, float, str]:
            off = abs((one.day - first).days - wanted)
            return round(10 * off / span) if span else 0, not one.photo, off, one.sheet

        found.append(min(mine, key=distance))
    return found


def _place(n: int, of: int) -> str:
    if of == 1:
        return "once"
    if n == 0:
        return "early"
    return "late" if n == of - 1 else "midway"


def _drawn(pdf: bytes, number: int) -> bytes | None:
    """One page of a finished file as a grey PNG picture; None where the file is none that opens."""
    import cv2  # noqa: PLC0415 -- heavy, and only pictures need it
    import pypdfium2  # noqa: PLC0415 -- the same

    try:
        with pikepdf.open(BytesIO(pdf)) as whole:
            if not 1 <= number <= len(whole.pages):
                return None
    except pikepdf.PdfError:
        return None
    document = pypdfium2.PdfDocument(pdf)
    try:
        grey = document[number - 1].render(scale=DOTS_PER_INCH / 72, grayscale=True).to_numpy()
    finally:
        document.close()
    done, png = cv2.imencode(".png", grey)
    return png.tobytes() if done else None


def _as_svg(data: bytes, kind: str, size_mm: tuple[float, float]) -> str:
    w, h = size_mm
    picture = base64.b64encode(data).decode()
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{w}mm" height="{h}mm" viewBox="0 0 {w} {h}">'
        f'<image href="data:{kind};base64,{picture}" width="{w}" height="{h}" preserveAspectRatio="none"/>'
        f'<rect x="0.15" y="0.15" width="{w - 0.3}" height="{h - 0.3}" fill="none" stroke="#9aa39c" '
        'stroke-width="0.3"/>'
        "</svg>"
    )
