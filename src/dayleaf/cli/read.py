"""`dayleaf read`: photos and scans of filled in sheets become readings; nothing is written down."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from dayleaf.cli.shapes import say_json
from dayleaf.core.errors import BadInput, Problem
from dayleaf.reading.worker import Reader
from dayleaf.sheets.codec import map_from_data

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from dayleaf.core.ids import SheetId
    from dayleaf.reading.model import BoxReading, PageReading
    from dayleaf.sheets.model import PageMap

    Find = Callable[[SheetId, int], PageMap | None]

file_type = click.Path(path_type=Path, exists=True, dir_okay=False, readable=True)


@click.command()
@click.argument("files", nargs=-1, type=file_type)
@click.option("--map", "map_file", type=file_type, help="The sheets.json of the prints; else the household's records.")
@click.option("--digits", type=file_type, help="Read 28 x 28 crops (array X of an .npz file) instead of photos.")
@click.option("--json", "as_json", is_flag=True, help="Print JSON.")
@click.option(
    "--home",
    type=click.Path(path_type=Path, file_okay=False),
    envvar="DAYLEAF_HOME",
    default=Path.home() / ".dayleaf",
    help="The household's folder (or DAYLEAF_HOME).",
)
def verb(*, files: tuple[Path, ...], map_file: Path | None, digits: Path | None, as_json: bool, home: Path) -> None:
    """Read FILES, photos or scans of filled in sheets, and say what stands in each box. Records nothing."""
    if digits is not None:
        _say_digits(digits, as_json=as_json)
        return
    if not files:
        raise click.UsageError("Name the photos or scans to read.")
    find = find_in_map(map_file) if map_file else find_at_home(home)
    pages = read_files(files, find)
    if as_json:
        say_json({"pages": [page_shape(path, page) for path, page in pages]})
        return
    for path, page in pages:
        click.echo(_sentence(path, page))


def read_files(files: Sequence[Path], find: Find) -> list[tuple[Path, PageReading]]:
    """Every page of the files in order, with the file it came from."""
    with Reader(find) as reader:
        return [(path, page) for path in files for page in reader.read(path.read_bytes())]


def find_in_map(path: Path) -> Find:
    """Sides by their id and number, from a `sheets.json`.

    Raises:
        BadInput: the file is none.
    """
    try:
        data = json.loads(path.read_text(encoding="utf-8"))
    except (ValueError, UnicodeDecodeError) as wrong:
        raise BadInput([Problem(path.name, "is no map of a print; it is the sheets.json beside pages.pdf")]) from wrong
    if not isinstance(data, dict):
        raise BadInput([Problem(path.name, "is no map of a print; it is the sheets.json beside pages.pdf")])
    known = {(page.sheet, page.page): page for page in map_from_data(data)}
    return lambda sheet, page: known.get((sheet, page))


def find_at_home(home: Path) -> Find:
    """Sides by their id and number, of everything this household ever printed."""
    from dayleaf.records.ready import make_ready  # noqa: PLC0415 - a map needs no household

    make_ready()
    from dayleaf.cli.options import household_in  # noqa: PLC0415 - as above
    from dayleaf.records import selectors  # noqa: PLC0415 - as above
    from dayleaf.records.errors import NoSuchSheet  # noqa: PLC0415 - as above

    household = household_in(home)
    known: dict[str, tuple[PageMap, ...]] = {}

    def find(sheet: SheetId, page: int) -> PageMap | None:
        if sheet not in known:
            try:
                known[sheet] = selectors.pages_of(selectors.sheet_find(household, sheet))
            except NoSuchSheet:
                known[sheet] = ()
        return next((side for side in known[sheet] if side.page == page), None)

    return find


def page_shape(path: Path, page: PageReading) -> dict[str, Any]:
    """One page for other programs to read."""
    return {
        "file": str(path),
        "page_in_file": page.page_in_file,
        "status": page.status,
        "code": page.code,
        "message": page.message,
        "sheet": page.sheet,
        "page": page.page,
        "boxes": {box.id: _box_shape(box) for box in page.boxes},
    }


def _box_shape(box: BoxReading) -> dict[str, Any]:
    return {
        "reading": box.reading,
        "certainty": round(box.certainty, 4),
        "state": box.state,
        "reversed": box.reversed,
    }


def _sentence(path: Path, page: PageReading) -> str:
    where = path.name if page.page_in_file == 1 else f"{path.name}, page {page.page_in_file}"
    if page.status == "refused":
        return f"{where}: {page.message}"
    return f"{where}: sheet {page.sheet}, side {page.page}. {_counted(page.boxes)}"


def _counted(boxes: Iterable[BoxReading]) -> str:
    states = [box.state for box in boxes]
    sure, ask, blank = (states.count(state) for state in ("sure", "ask", "blank"))
    return f"{sure} boxes read, {ask} to ask about, {blank} empty."


def _say_digits(path: Path, *, as_json: bool) -> None:
    from dayleaf.reading.digits.apart import read_apart  # noqa: PLC0415 - photos do not need it here

    readings = read_apart(path)
    if as_json:
        fields = ("reading", "certainty", "state", "reversed")
        say_json({"digits": [{name: getattr(one, name) for name in fields} for one in readings]})
        return
    click.echo(_counted_digits([one.state for one in readings]))


def _counted_digits(states: Sequence[str]) -> str:
    return f"{states.count('sure')} digits read, {states.count('ask')} to ask about, {states.count('blank')} empty."
