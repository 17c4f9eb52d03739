"""The press: data and a template become a finished PDF file, the same bytes for the same data.

The typesetter runs inside this process, without system fonts and without a network. Data reaches it as JSON
and is never read as source.
"""

from __future__ import annotations

import json
import threading
from importlib import resources
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final, Literal, cast

import pikepdf
import typst

from dayleaf.sheets.fonts import font_folders

if TYPE_CHECKING:
    from collections.abc import Mapping

Template = Literal["pages", "measure", "guide", "week", "true_size", "book"]

_ACCESSIBLE: Final = "ua-1"
"""PDF/UA-1 (ISO 14289-1): tagged, with a title, a language and an alternative text for each picture."""

_TO_KEEP: Final = ("a-2a", _ACCESSIBLE)
"""PDF/A-2a (ISO 19005-2) as well, for what is to open in ten years."""

_own = threading.local()


def _folder() -> Path:
    return Path(str(resources.files("dayleaf.sheets").joinpath("typst")))


def _compiler(template: Template) -> typst.Compiler:
    """One typesetter a thread and template: it keeps fonts and what it has worked out before."""
    made: dict[Template, typst.Compiler] = _own.__dict__.setdefault("compilers", {})
    if template not in made:
        folder = _folder()
        made[template] = typst.Compiler(
            input=str(folder / f"{template}.typ"),
            root=str(folder),
            font_paths=typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=font_folders()),
        )
    return made[template]


def press(
    template: Template, data: Mapping[str, Any], *, labels: tuple[str, ...] = (), kept: bool = False
) -> tuple[bytes, dict[str, list[Any]]]:
    """The raw file, and for each label the values that the template left under it, in printed order.

    `kept` asks for a file for the archive; its template then bears a date.
    """
    compiler = _compiler(template)
    pdf = compiler.compile(
        format="pdf",
        sys_inputs={"data": json.dumps(data, ensure_ascii=False)},
        pdf_standards=list(_TO_KEEP) if kept else [_ACCESSIBLE],
        timestamp=0,
    )
    found = {label: json.loads(compiler.query(f"<{label}>", field="value")) for label in labels}
    return cast("bytes", pdf), found


def ask(template: Template, data: Mapping[str, Any], *, label: str) -> Any:
    """The value that a template leaves under a label; its pages are thrown away."""
    compiler = _compiler(template)
    compiler.compile(format="pdf", sys_inputs={"data": json.dumps(data, ensure_ascii=False)}, timestamp=0)
    return json.loads(compiler.query(f"<{label}>", field="value"))[0]


def sides_of(pdf: bytes) -> int:
    """How many sides a file has."""
    with pikepdf.open(BytesIO(pdf)) as document:
        return len(document.pages)


def finished(pdf: bytes, *, two_sided: bool) -> bytes:
    """The file as it leaves the house: packed, never scaled by a printer, turned over the long edge."""
    with pikepdf.open(BytesIO(pdf)) as document:
        return packed(document, two_sided=two_sided)


def packed(document: pikepdf.Pdf, *, two_sided: bool) -> bytes:
    """An open document as a finished file.

    Printing at another scale than 100 % would move every answer box, so the file asks for none (ISO 32000-1,
    12.2: `PrintScaling`, `Duplex`).
    """
    wishes = document.Root.get("/ViewerPreferences", pikepdf.Dictionary())
    wishes["/PrintScaling"] = pikepdf.Name("/None")
    wishes["/Duplex"] = pikepdf.Name("/DuplexFlipLongEdge" if two_sided else "/Simplex")
    wishes["/DisplayDocTitle"] = True
    document.Root["/ViewerPreferences"] = wishes
    out = BytesIO()
    document.save(
        out,
        object_stream_mode=pikepdf.ObjectStreamMode.generate,
        compress_streams=True,
        deterministic_id=True,
    )
    return out.getvalue()
