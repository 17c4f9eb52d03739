"""`dayleaf suggest`: a plan for a family that shared its own, as a file to send back."""

from __future__ import annotations

from datetime import UTC, date, datetime
from pathlib import Path

import click

from dayleaf import __version__
from dayleaf.advising.answers import Wished, as_shared, as_year, moved, suggested
from dayleaf.advising.files import current, packed, sealed, unpacked
from dayleaf.advising.shared import PlanAnswer, SharedRecords
from dayleaf.cli.open_share import read_file
from dayleaf.cli.options import OneDay, today_option
from dayleaf.core.errors import BadInput, Problem
from dayleaf.plan.calendar import DaysOff
from dayleaf.records.backup import CannotWrite, FileIsThere

WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
USUAL_MINUTES = 60


@click.command()
@click.argument("file", type=click.Path(path_type=Path, dir_okay=False))
@click.option("--out", type=click.Path(path_type=Path, dir_okay=False), required=True, help="The new file.")
@click.option("--weekdays", help="Days with lessons, as mon,tue,thu.")
@click.option("--off", multiple=True, help="Days off, as 2027-02-01:2027-02-05 (both included) or one day.")
@click.option("--end", type=OneDay(), help="The last day that the calendar has.")
@click.option("--two-a-day/--one-a-day", "two", default=None, help="Whether lessons may share a day where they can.")
@click.option("--leave-out/--leave-none-out", "out_of", default=None, help="Whether what may be left out may be.")
@click.option("--from", "sender", default="Your consultant", show_default=True, help="Who suggests it.")
@click.option("--words", default="", help="Why, in a sentence or two.")
@today_option
def verb(
    *,
    file: Path,
    out: Path,
    weekdays: str | None,
    off: tuple[str, ...],
    end: date | None,
    two: bool | None,
    out_of: bool | None,
    sender: str,
    words: str,
    today: date | None,
) -> None:
    """Bend the plan in a family's FILE to other weekdays, days off or an other end, and write it for the family.

    As few dates change as can be. The family looks at it with `dayleaf open-share` and accepts it or not.
    """
    day = today or datetime.now(tz=UTC).date()
    content = unpacked(read_file(file))
    if not isinstance(content, SharedRecords) or content.plan is None or content.plan.kept is None:
        raise BadInput([Problem(file.name, "it shares no plan; ask the family to tick it")])
    shared = current(content, today=day)
    if out.exists():
        raise FileIsThere(out)
    year = as_year(content.plan.kept)
    minutes = {weekday: most for plan in year.plans for weekday, most in plan.run.calendar.minutes.items()}
    wished = Wished(
        minutes=_minutes(weekdays, minutes),
        off=tuple(_off(one) for one in off),
        may_join=two,
        may_leave_out=out_of,
        end=end,
    )
    after = suggested(year, wished, today=day)
    answer = PlanAnswer(
        share=shared.terms.share,
        learner=shared.terms.learner,
        base=content.plan.version,
        sender=sender.strip()[:80],
        words=words.strip()[:400],
        made_on=day,
        kept=as_shared(after),
    )
    data = packed(sealed(answer, key=shared.terms.answer_key), made_by=__version__)
    try:
        with out.open("xb") as target:
            target.write(data)
    except OSError as error:
        raise CannotWrite(out, error.strerror or "it cannot be written") from error
    changed = moved(year, after)
    click.echo(f"{out}: {len(changed)} lessons move; the last is on {after.main.last:%-d %B %Y}.")


def _minutes(weekdays: str | None, before: dict[int, int]) -> dict[int, int] | None:
    if weekdays is None:
        return None
    names = [one.strip().casefold()[:3] for one in weekdays.split(",") if one.strip()]
    strange = [one for one in names if one not in WEEKDAYS]
    if strange or not names:
        raise BadInput([Problem("--weekdays", "write them as mon,tue,thu")])
    usual = max(before.values(), default=USUAL_MINUTES)
    return {WEEKDAYS.index(one): before.get(WEEKDAYS.index(one), usual) for one in names}


def _off(text: str) -> DaysOff:
    first, _, last = text.partition(":")
    try:
        found = DaysOff(first=date.fromisoformat(first), last=date.fromisoformat(last or first), name="day off")
    except ValueError as error:
        raise BadInput([Problem("--off", f"{text} is no date; write 2027-02-01 or 2027-02-01:2027-02-05")]) from error
    if found.last < found.first:
        raise BadInput([Problem("--off", f"{text} ends before it begins")])
    return found
