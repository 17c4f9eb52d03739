"""Every picture that is not read is refused with its own code and sentence, in bounded memory and time."""

from __future__ import annotations

import struct
import zlib
from io import BytesIO
from typing import TYPE_CHECKING

import cv2
import numpy as np
import pikepdf
import pytest

from dayleaf.reading import refusals
from dayleaf.reading.files import sniff
from dayleaf.reading.worker import Reader

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from pathlib import Path

    from dayleaf.reading.arrays import Array
    from dayleaf.reading.model import PageReading

    from .conftest import Side

    Read = Callable[..., list[PageReading]]
    Png = Callable[[Array], bytes]

TABLE = 120
TURNED_OUT = {"top left": "top", "top right": "right", "bottom right": "bottom", "bottom left": "left"}
"""Turned by 8 degrees with the clock, each corner of a sheet is the outermost one of one edge of the picture."""


def on_table(picture: Array, degrees: float = 0.0) -> Array:
    """The sheet turned with the clock on a grey table that is a little larger."""
    tall, wide = picture.shape
    size = (wide + 500, tall + 500)
    lay = cv2.getRotationMatrix2D((wide / 2, tall / 2), -degrees, 1.0)
    lay[:, 2] += 250
    return np.asarray(cv2.warpAffine(picture, lay, size, borderValue=TABLE), np.uint8)


def refusal(pages: Sequence[PageReading]) -> tuple[str, str]:
    (page,) = pages
    assert page.status == "refused"
    assert page.boxes == ()
    return str(page.code), page.message


@pytest.mark.parametrize("corner", TURNED_OUT)
def test_a_missing_corner_is_named(corner: str, side: Side, reader: Read, png: Png) -> None:
    picture = on_table(side.small(), 8)
    paper = picture != TABLE
    rows, columns = np.flatnonzero(paper.any(axis=1)), np.flatnonzero(paper.any(axis=0))
    off = 100  # pixels: about 17 mm, where the mark ends at 15
    cuts = {
        "top": picture[rows[0] + off :],
        "bottom": picture[: rows[-1] - off],
        "left": picture[:, columns[0] + off :],
        "right": picture[:, : columns[-1] - off],
    }

    code, message = refusal(reader(png(np.ascontiguousarray(cuts[TURNED_OUT[corner]]))))

    assert code == "cut"
    assert f"The {corner} corner of the sheet is missing" in message


def test_a_covered_corner_inside_the_picture_does_not_matter(side: Side, reader: Read, png: Png) -> None:
    picture = on_table(side.small())
    picture[-330:-240, -330:-240] = 60

    (page,) = reader(png(picture))

    assert page.status == "read"


def test_a_sheet_too_far_away(side: Side, reader: Read, png: Png) -> None:
    far = cv2.copyMakeBorder(side.small(1.7), 400, 400, 500, 500, cv2.BORDER_CONSTANT, value=TABLE)

    assert refusal(reader(png(np.asarray(far, np.uint8)))) == ("far", str(refusals.TooFar()))


def test_a_blurred_picture(side: Side, reader: Read, png: Png) -> None:
    blurred = cv2.GaussianBlur(on_table(side.small()), (0, 0), 9)

    assert refusal(reader(png(np.asarray(blurred, np.uint8)))) == ("blurred", str(refusals.Blurred()))


@pytest.mark.parametrize("other", [2, 3])
def test_two_sheets_in_one_picture(other: int, sides: tuple[Side, ...], reader: Read, png: Png) -> None:
    both = np.hstack([on_table(sides[0].small()), on_table(sides[other].small())])

    assert refusal(reader(png(both))) == ("two-sheets", str(refusals.TwoSheets()))


def test_a_mirrored_picture(sides: tuple[Side, ...], reader: Read, png: Png) -> None:
    for side in sides[:2]:
        assert refusal(reader(png(cv2.flip(side.small(), 1)))) == ("mirrored", str(refusals.Mirrored()))


def test_a_scan_in_black_and_white(side: Side, reader: Read, png: Png) -> None:
    _, hard = cv2.threshold(side.small(), 140, 255, cv2.THRESH_BINARY)
    one_bit = bytes(cv2.imencode(".png", hard, [cv2.IMWRITE_PNG_BILEVEL, 1])[1].tobytes())

    for file in (png(np.asarray(hard, np.uint8)), one_bit, pdf_of(np.asarray(hard, np.uint8), bits=1)):
        assert refusal(reader(file)) == ("one-bit", str(refusals.OneBit()))


def test_something_that_is_no_sheet(reader: Read, png: Png) -> None:
    rng = np.random.default_rng(5)
    blocks = np.asarray(cv2.resize(rng.integers(0, 255, (30, 40), np.uint8), (1600, 1200), interpolation=0), np.uint8)

    assert refusal(reader(png(blocks))) == ("not-a-sheet", str(refusals.NotASheet()))


def test_a_sheet_whose_codes_are_covered(side: Side, reader: Read, png: Png) -> None:
    picture, code = side.small(), side.page.qr
    wide, tall = side.page.size_mm
    for x, y in ((code.x, code.y), (wide - code.x - code.size, tall - code.y - code.size)):
        top, left, reach = round(y * 6), round(x * 6), round(code.size * 6)
        picture[top : top + reach, left : left + reach] = 255

    assert refusal(reader(png(picture))) == ("code", str(refusals.CodeUnread()))


def test_a_sheet_of_another_household(side: Side, png: Png) -> None:
    with Reader(lambda _sheet, _page: None) as stranger:
        (page,) = stranger.read(png(side.small()))

    assert page.code == "unknown-sheet"
    assert page.message == f"The sheet {side.page.sheet} was not printed here."


def test_the_same_side_twice_is_read_once(side: Side, reader: Read, png: Png) -> None:
    first, second = reader(png(side.small()), png(side.small(5)))

    assert (first.status, second.code) == ("read", "same-twice")
    assert "here twice" in second.message


def test_pages_of_a_pdf_in_any_order_are_both_read(sides: tuple[Side, ...], reader: Read) -> None:
    pages = reader(pdf_of(sides[3].small(), np.asarray(cv2.rotate(sides[2].small(), cv2.ROTATE_180), np.uint8)))

    assert [(page.status, page.page, page.page_in_file) for page in pages] == [("read", 2, 1), ("read", 1, 2)]


def test_a_picture_of_too_many_pixels_is_never_decoded(reader: Read) -> None:
    for file in (bomb(60_000, 60_000), huge_jpeg()):
        code, message = refusal(reader(file))
        assert code == "too-large"
        assert "million pixels" in message


def test_a_file_of_too_many_bytes(reader: Read) -> None:
    assert refusal(reader(b"\xff\xd8\xff" + bytes(41_000_000)))[0] == "too-large"


def test_a_pdf_of_ten_thousand_pages(reader: Read) -> None:
    document = pikepdf.new()
    document.add_blank_page(page_size=(612, 792))
    leaf = document.pages[0].obj
    document.Root.Pages.Kids = pikepdf.Array([leaf] * 10_000)
    document.Root.Pages.Count = 10_000
    kept = BytesIO()
    document.save(kept)

    code, message = refusal(reader(kept.getvalue()))

    assert code == "too-many-pages"
    assert "10,000 pages" in message


def test_a_file_that_ends_early(side: Side, reader: Read, png: Png) -> None:
    photo = bytes(cv2.imencode(".jpg", side.small())[1].tobytes())
    webp = bytes(cv2.imencode(".webp", side.small())[1].tobytes())
    for file in (photo, png(side.small()), pdf_of(side.small()), webp):
        for share in (0.1, 0.7):
            assert refusal(reader(file[: int(len(file) * share)])) == ("damaged", str(refusals.Damaged()))


def test_a_picture_whose_inside_is_noise(side: Side, reader: Read, png: Png) -> None:
    file = bytearray(png(side.small()))
    file[200:-40] = np.random.default_rng(1).bytes(len(file) - 240)

    assert refusal(reader(bytes(file)))[0] == "damaged"


@pytest.mark.parametrize(
    "file", [b"", b"hello", b"GIF89a" + bytes(50), b"PK\x03\x04" + bytes(80), b"II*\0" + bytes(60)]
)
def test_a_file_of_another_type(file: bytes, reader: Read) -> None:
    assert refusal(reader(file)) == ("wrong-type", str(refusals.WrongType()))


@pytest.mark.parametrize("brand", [b"heic", b"mif1", b"avif"])  # ISO/IEC 23008-12, annex B
def test_heic_has_its_own_sentence(brand: bytes, reader: Read) -> None:
    file = struct.pack(">I", 24) + b"ftyp" + brand + bytes(4) + b"mif1" + brand + bytes(200)

    code, message = refusal(reader(file))

    assert code == "heic"
    assert "HEIC" in message


def test_the_process_lives_through_bad_files_in_little_memory(side: Side, png: Png) -> None:
    known = {(side.page.sheet, side.page.page): side.page}
    with Reader(lambda sheet, page: known.get((sheet, page))) as reader:
        bad = [*reader.read(bomb(7_000, 7_000)), *reader.read(progressive(6_000, 8_000)), *reader.read(thick_pdf())]
        good = list(reader.read(png(side.small())))
        peak = peak_memory(reader)

    assert {page.status for page in bad} == {"refused"}
    assert [page.status for page in good] == ["read"]
    assert peak <= 300_000_000


def test_sizes_are_told_from_the_header_as_the_decoder_tells_them() -> None:
    picture = np.full((123, 457), 200, np.uint8)
    for kind in (".jpg", ".png", ".webp"):
        for quality in ([], [cv2.IMWRITE_WEBP_QUALITY, 101], [cv2.IMWRITE_JPEG_PROGRESSIVE, 1]):
            file = bytes(cv2.imencode(kind, picture, quality if kind[1] in "wj" else [])[1].tobytes())
            assert sniff(file).size == (457, 123)


def bomb(width: int, height: int) -> bytes:
    """A few hundred kilobytes of PNG that unpack to a black picture of that size."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    packer = zlib.compressobj(9)
    rows = height if width < 10_000 else 100
    packed = b"".join(packer.compress(bytes(1 + 3 * width)) for _ in range(rows)) + packer.flush()
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", packed) + chunk(b"IEND", b"")


def huge_jpeg() -> bytes:
    """A JPEG whose frame header claims 65,000 by 65,000 pixels."""
    file = bytearray(cv2.imencode(".jpg", np.zeros((64, 64), np.uint8))[1].tobytes())
    at = file.index(b"\xff\xc0")
    file[at + 5 : at + 9] = struct.pack(">HH", 65_000, 65_000)
    return bytes(file)


def progressive(width: int, height: int) -> bytes:
    """A large empty photo that a decoder has to keep whole."""
    picture = np.zeros((height, width, 3), np.uint8)
    return bytes(cv2.imencode(".jpg", picture, [cv2.IMWRITE_JPEG_PROGRESSIVE, 1])[1].tobytes())


def pdf_of(*pictures: Array, bits: int = 8) -> bytes:
    """Pictures as the pages of a PDF, as a scanner makes it."""
    document = pikepdf.new()
    for picture in pictures:
        tall, wide = picture.shape
        raw = np.packbits(picture > 127, axis=1).tobytes() if bits == 1 else picture.tobytes()
        image = pikepdf.Stream(document, raw)
        image.stream_dict = pikepdf.Dictionary(
            Type=pikepdf.Name.XObject,
            Subtype=pikepdf.Name.Image,
            Width=wide,
            Height=tall,
            ColorSpace=pikepdf.Name.DeviceGray,
            BitsPerComponent=bits,
        )
        document.add_blank_page(page_size=(612, 612 * tall / wide))
        page = document.pages[-1]
        page.Resources = pikepdf.Dictionary(XObject=pikepdf.Dictionary(Im0=image))
        page.Contents = pikepdf.Stream(document, f"612 0 0 {612 * tall / wide:.2f} 0 0 cm /Im0 Do".encode())
    kept = BytesIO()
    document.save(kept)
    return kept.getvalue()


def thick_pdf() -> bytes:
    """A page that draws for a very long time."""
    document = pikepdf.new()
    document.add_blank_page(page_size=(612, 792))
    drawing = b"0 0 m 600 780 l 10 700 l 590 20 l 300 790 l h f* " * 400_000
    document.pages[0].Contents = pikepdf.Stream(document, drawing)
    kept = BytesIO()
    document.save(kept, compress_streams=True)
    return kept.getvalue()


def peak_memory(reader: Reader) -> int:
    """The most memory that the reading process ever held, in bytes."""
    process = reader.process_id
    with open(f"/proc/{process}/status", encoding="ascii") as status:  # noqa: PTH123 - a file of the kernel
        line = next(line for line in status if line.startswith("VmHWM"))
    return int(line.split()[1]) * 1024


def test_every_refusal_has_a_code_of_its_own() -> None:
    kinds = refusals.Refused.__subclasses__()

    assert len({kind.code for kind in kinds}) == len(kinds)


def test_nothing_is_written_for_a_refused_file(tmp_path: Path, reader: Read) -> None:
    reader(b"hello")

    assert list(tmp_path.iterdir()) == []
