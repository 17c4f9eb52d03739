"""Why a picture is not read: a code for programs and a sentence for people, for each thing that can be the matter."""

from __future__ import annotations

from typing import Final

from dayleaf.core.errors import DayleafError

CORNERS: Final = ("top left", "top right", "bottom right", "bottom left")
"""In the order of the marks, as the sheet is read."""


class Refused(DayleafError):
    """A picture that is not read; `code` names the reason."""

    code = "refused"
    sheet: str | None = None
    page: int | None = None


class CornerMissing(Refused):
    """A corner mark lies outside the picture or is covered; `corners` counts from the top left, with the clock."""

    code = "cut"

    def __init__(self, corners: tuple[int, ...]) -> None:
        self.corners = corners
        named = " and the ".join(CORNERS[corner] for corner in corners)
        verb, noun = ("is", "corner") if len(corners) == 1 else ("are", "corners")
        super().__init__(f"The {named} {noun} of the sheet {verb} missing; take the whole sheet into the picture.")


class TooFar(Refused):
    """The sheet is too small in the picture."""

    code = "far"

    def __init__(self) -> None:
        super().__init__("The sheet is too far away; let it fill the picture.")


class Blurred(Refused):
    """Nothing in the picture is sharp enough."""

    code = "blurred"

    def __init__(self) -> None:
        super().__init__("The picture is blurred; hold still, with more light, and take it again.")


class TooBent(Refused):
    """The boxes are not where the corners say."""

    code = "bent"

    def __init__(self) -> None:
        super().__init__("The boxes are not where they were printed; lay the sheet flat and take it again.")


class TwoSheets(Refused):
    """More than one sheet is seen."""

    code = "two-sheets"

    def __init__(self) -> None:
        super().__init__("There are two sheets in one picture; take one picture of each.")


class Mirrored(Refused):
    """The picture is the wrong way round, as in a mirror."""

    code = "mirrored"

    def __init__(self) -> None:
        super().__init__("The picture is mirrored; switch mirroring off and take it again.")


class OneBit(Refused):
    """A scan in black and white only: the grey outlines and the pencil are gone."""

    code = "one-bit"

    def __init__(self) -> None:
        super().__init__("The scan is only black and white; scan in grey.")


class NotASheet(Refused):
    """No mark of ours is seen."""

    code = "not-a-sheet"

    def __init__(self) -> None:
        super().__init__("No sheet is seen here: a sheet has a square mark in each corner.")


class CodeUnread(Refused):
    """The marks are there, the code is not readable."""

    code = "code"

    def __init__(self) -> None:
        super().__init__("Neither of the sheet's codes can be read; keep them free and take the picture closer.")


class UnknownSheet(Refused):
    """A sheet that this household never printed; the same words for another household's."""

    code = "unknown-sheet"

    def __init__(self, sheet: str, page: int) -> None:
        self.sheet, self.page = sheet, page
        super().__init__(f"The sheet {sheet} was not printed here.")


class SameTwice(Refused):
    """The same side came before among these pictures."""

    code = "same-twice"

    def __init__(self, sheet: str, page: int) -> None:
        self.sheet, self.page = sheet, page
        super().__init__(f"Side {page} of the sheet {sheet} is here twice; the first one counts.")


class TooLarge(Refused):
    """The file or the picture in it is larger than any photo."""

    code = "too-large"

    def __init__(self, *, megapixels: int | None = None, megabytes: int | None = None) -> None:
        size = f"{megapixels} million pixels" if megapixels is not None else f"{megabytes} MB"
        super().__init__(f"The picture has {size}; a photo of up to 50 million pixels and 40 MB is enough.")


class TooManyPages(Refused):
    """A file with more sides than anybody scans at once."""

    code = "too-many-pages"

    def __init__(self, pages: int, most: int) -> None:
        super().__init__(f"The file has {pages:,} pages; send at most {most} at once.")


class Damaged(Refused):
    """The file ends early or does not hold what it says."""

    code = "damaged"

    def __init__(self) -> None:
        super().__init__("The file is damaged or not complete; send it again.")


class WrongType(Refused):
    """Not a picture that we read."""

    code = "wrong-type"

    def __init__(self) -> None:
        super().__init__("This is not a photo or a scan; send JPEG, PNG, WebP or PDF.")


class Heic(Refused):
    """A picture in the format of some phones, which cannot be opened here."""

    code = "heic"

    def __init__(self) -> None:
        super().__init__("This photo is in the HEIC format; set the camera to JPEG, or send the photo as JPEG.")


class TooSlow(Refused):
    """Opening the file took longer or more memory than any honest picture needs."""

    code = "too-slow"

    def __init__(self) -> None:
        super().__init__("The file takes more time or memory to open than a photo does; send it as JPEG.")
