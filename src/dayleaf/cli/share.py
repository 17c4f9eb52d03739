"""`dayleaf share`: a file with what you ticked, for somebody you trust, until a day."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from dayleaf.cli.options import OneDay, home_option, household_in, today_at, today_option
from dayleaf.core.errors import BadInput, Problem
from dayleaf.records import selectors
from dayleaf.records.backup import CannotWrite, FileIsThere
from dayleaf.records.sharing import kinds_asked, share_make, share_stop, shares_of

if TYPE_CHECKING:
    from datetime import date

    from dayleaf.advising.shared import Terms


@click.command()
@click.option("--learner", "name", help="The child's name.")
@click.option("--kinds", default="", help="What to share, as plan,progress (also samples, messages).")
@click.option("--until", type=OneDay(), help="The last day on which the file may be read.")
@click.option("--out", type=click.Path(path_type=Path, dir_okay=False), help="The new file.")
@click.option("--as", "family", default="", help="The name under which you are listed; the household's otherwise.")
@click.option("--list", "as_list", is_flag=True, help="Say what is shared now.")
@click.option("--stop", "stopped", metavar="SHARE", help="Let in no answer to this share any more.")
@home_option
@today_option
def verb(
    *,
    name: str | None,
    kinds: str,
    until: date | None,
    out: Path | None,
    family: str,
    as_list: bool,
    stopped: str | None,
    home: Path,
    today: date | None,
) -> None:
    """Write one child's records of the kinds named into a file for a consultant; nothing else is in it.

    A file given away cannot be called back; it says until when it may be read, and Dayleaf opens it no longer.
    """
    household = household_in(home)
    day, folder = today_at(household, today), home.expanduser()
    if stopped is not None:
        share_stop(folder, stopped, today=day)
        click.echo(f"Stopped. No plan that answers {stopped} is let in any more; a copy given away stays where it is.")
        return
    if as_list:
        shares = shares_of(folder, today=day)
        for one in shares:
            click.echo(_line(one.terms))
        click.echo(f"{len(shares)} shared now." if shares else "Nothing is shared.")
        return
    if name is None or until is None or out is None:
        missing = [option for option, given in (("--learner", name), ("--until", until), ("--out", out)) if not given]
        raise BadInput([Problem(option, "is needed; nothing is shared without it") for option in missing])
    if out.exists():
        raise FileIsThere(out)
    learner = selectors.learner_by_name(household, name)
    terms, content = share_make(learner, kinds=kinds_asked(kinds), until=until, today=day, folder=folder, family=family)
    try:
        with out.open("xb") as file:
            file.write(content)
    except OSError as error:
        share_stop(folder, terms.share, today=day)
        raise CannotWrite(out, error.strerror or "it cannot be written") from error
    click.echo(f"{out}: {_line(terms)}")


def _line(terms: Terms) -> str:
    return f"{terms.learner}: {', '.join(terms.kinds)}, until {terms.until:%-d %B %Y} (share {terms.share})"
