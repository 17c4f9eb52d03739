"""`dayleaf calibrate`: a page with bars to measure, and the correction that what was measured gives."""

from __future__ import annotations

from pathlib import Path

import click

from dayleaf.cli.options import home_option, writable
from dayleaf.cli.print import paper_at
from dayleaf.cli.shapes import say_json
from dayleaf.core.errors import BadInput, Problem
from dayleaf.packets.calibration import print_calibration, scale_from
from dayleaf.records.printer import printer_forgotten, printer_measured, printer_scale

FILE = "calibration.pdf"
NEARLY = 0.0005
"""A correction below half a millimetre in a metre is none."""


@click.command()
@click.option("--out", type=click.Path(path_type=Path, file_okay=False), help="Write calibration.pdf to this folder.")
@click.option("--measured", help='How long the bar came out: 98.5mm (upper one) or "3 15/16 in" (lower one).')
@click.option("--forget", is_flag=True, help="Take the correction away.")
@click.option("--paper", type=click.Choice(["letter", "a4"]), help="The paper; the household's own otherwise.")
@click.option("--json", "as_json", is_flag=True, help="Print JSON.")
@home_option
def verb(*, out: Path | None, measured: str | None, forget: bool, paper: str | None, as_json: bool, home: Path) -> None:
    """Print a page with bars to measure (--out), or say how long the bar came out (--measured).

    From then on cut-outs and papers of this household are drawn larger or smaller so that they come out true.
    """
    if measured and forget:
        raise BadInput([Problem("--forget", "takes the correction away; leave out --measured")])
    if out is None and not measured and not forget and not as_json:
        raise BadInput([Problem("--out", "name a folder for the page, or say --measured what the bar measures")])
    if measured:
        printer_measured(home, scale=scale_from(measured), measured=measured)
    elif forget:
        printer_forgotten(home)
    scale = printer_scale(home)
    if out is not None:
        writable(out)
        (out / FILE).write_bytes(print_calibration(paper="a4" if (paper or paper_at(home)) == "a4" else "letter"))
    if as_json:
        say_json({"scale": scale, "file": FILE if out is not None else None})
        return
    if out is not None:
        click.echo(f"{FILE} is in {out}. Print it at 100 % and measure the upper bar.")
    if measured or forget:
        click.echo(_said(scale))


def _said(scale: float) -> str:
    if abs(scale - 1) < NEARLY:
        return "The printer keeps the size: nothing is corrected."
    how = "larger" if scale > 1 else "smaller"
    return f"Cut-outs are drawn {abs(scale - 1):.1%} {how} from now on, so that they come out true."
