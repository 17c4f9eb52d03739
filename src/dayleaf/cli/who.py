"""`dayleaf who`: which families a call may help, with reasons in words."""

from __future__ import annotations

from datetime import UTC, date, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click
from rich.console import Console
from rich.progress import Progress

from dayleaf.advising.calls import who_to_call
from dayleaf.cli.options import OneDay, home_option, today_option
from dayleaf.cli.shapes import say_json
from dayleaf.core.errors import DayleafError
from dayleaf.records.families import (
    FAMILIES,
    Families,
    call_set_aside,
    families_cleared,
    families_in,
    left_to_call,
    set_aside,
)

if TYPE_CHECKING:
    from collections.abc import Sequence

    from dayleaf.advising.calls import Call, Reason
    from dayleaf.records.families import SetAside
    from dayleaf.trial.families import Trial

KINDS = ("question", "taught again", "habit", "pace", "no news", "help")


class NobodyCalledSo(DayleafError):
    """The list has no such line."""

    def __init__(self, name: str, names: Sequence[str]) -> None:
        listed = f"the list holds {', '.join(names)}" if names else "the list is empty"
        super().__init__(f"The list has no line {name!r}; {listed}.")


@click.command()
@click.option("--families", "folder", type=click.Path(path_type=Path, file_okay=False), help="A folder of families.")
@click.option("--dismiss", "name", help="Set this line aside: FAMILY or FAMILY/CHILD.")
@click.option("--reason", "kinds", type=click.Choice(KINDS), multiple=True, help="Only this reason of the line.")
@click.option("--until", type=OneDay(), help="With --dismiss: up to this day.")
@click.option("--note", default="", help="With --dismiss: why, as if the family will read it.")
@click.option("--lived", type=click.IntRange(1, 500), help="Instead of a folder: so many families of virtual children.")
@click.option("--seed", type=int, default=0, show_default=True, help="With --lived: other families.")
@click.option("--json", "as_json", is_flag=True, help="Print JSON.")
@home_option
@today_option
def verb(
    *,
    folder: Path | None,
    name: str | None,
    kinds: tuple[str, ...],
    until: date | None,
    note: str,
    lived: int | None,
    seed: int,
    as_json: bool,
    home: Path,
    today: date | None,
) -> None:
    """Say whom to call and why: a ranked list with reasons, evidence and a first question.

    Reads a folder of files that families share (and of homes, where you may look into them), or those that were opened
    with `dayleaf open-share`. Nothing in it is changed; silence is "no news" and nothing more.
    """
    day = today or datetime.now(tz=UTC).date()
    if lived is not None:
        _say_lived(lived, seed, day, as_json=as_json)
        return
    where = folder or home.expanduser() / FAMILIES
    if folder is None and where.is_dir():
        families_cleared(home.expanduser(), today=day)
    with Progress(console=Console(stderr=True), transient=True) as bar:
        task = bar.add_task("Families", total=None)
        found = families_in(where, today=day, watch=lambda one: bar.update(task, advance=1, description=one))
    calls = who_to_call(found.shared, today=day)
    if name is not None:
        call = _named(calls, name)
        done = call_set_aside(where, call, until=until or day, note=note, today=day, kinds=kinds)
        click.echo(f"{done.family}, {done.learner}: set aside until {done.until:%-d %B %Y}. {done.note}")
        return
    aside = [one for one in set_aside(where) if one.until >= day]
    left = left_to_call(calls, aside, today=day)
    if as_json:
        say_json(_shape(day, found, left, aside))
        return
    _say(left, found, aside)


def _named(calls: Sequence[Call], name: str) -> Call:
    wanted = name.casefold()
    for call in calls:
        if wanted in {call.family.casefold(), f"{call.family}/{call.learner}".casefold()}:
            return call
    raise NobodyCalledSo(name, [f"{call.family}/{call.learner}" for call in calls])


def _say_lived(families: int, seed: int, day: date, *, as_json: bool) -> None:
    from dayleaf.trial.families import families_lived  # noqa: PLC0415 -- virtual children are slow to load

    trial: Trial = families_lived(today=day, seed=seed, families=families, troubled=families * 2 // 5)
    found = Families(trial.families, ())
    calls = who_to_call(trial.families, today=day)
    if not as_json:
        _say(calls, found, ())
        click.echo("Simulated: no family has lived these weeks.")
        return
    pairs = zip(trial.families, trial.planted, strict=True)
    planted = [{"family": one.terms.family, "trouble": trouble} for one, trouble in pairs if trouble]
    say_json({**_shape(day, found, calls, ()), "simulated": True, "planted": planted})


def _say(calls: Sequence[Call], found: Families, aside: Sequence[SetAside]) -> None:
    for place, call in enumerate(calls, start=1):
        click.echo(f"{place}. {call.family}, {call.learner}")
        for reason in call.reasons:
            click.echo(f"   {reason.words} ({'; '.join(reason.evidence)})")
        click.echo(f"   Ask first: {call.reasons[0].question}")
    children = len(found.shared)
    click.echo(f"{len(calls)} of {children} children in {len({one.terms.family for one in found.shared})} families.")
    for one in aside:
        click.echo(f"Set aside until {one.until:%-d %B %Y}: {one.family}, {one.learner}. {one.note}")
    for problem in found.problems:
        click.echo(str(problem), err=True)


def _shape(day: date, found: Families, calls: Sequence[Call], aside: Sequence[SetAside]) -> dict[str, Any]:
    return {
        "today": day.isoformat(),
        "families": len({one.terms.family for one in found.shared}),
        "children": len(found.shared),
        "calls": [
            {
                "rank": place,
                "family": call.family,
                "learner": call.learner,
                "as_of": call.as_of.isoformat(),
                "reasons": [_reason(reason) for reason in call.reasons],
                "ask_first": call.reasons[0].question,
            }
            for place, call in enumerate(calls, start=1)
        ],
        "set_aside": [
            {
                "family": one.family,
                "learner": one.learner,
                "reasons": list(one.kinds),
                "until": one.until.isoformat(),
                "note": one.note,
            }
            for one in aside
        ],
        "not_read": [{"where": one.where, "message": one.message} for one in found.problems],
    }


def _reason(reason: Reason) -> dict[str, Any]:
    return {
        "reason": reason.kind,
        "words": reason.words,
        "evidence": list(reason.evidence),
        "since": reason.since.isoformat(),
        "question": reason.question,
    }
