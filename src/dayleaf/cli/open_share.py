"""`dayleaf open-share`: read what a family shares, or look at a plan that came back and accept it."""

from __future__ import annotations

from collections import Counter
from datetime import UTC, date, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click
import msgspec

from dayleaf.advising.calls import reasons_in
from dayleaf.advising.files import MOST_FILE, NotAnExchangeFile, current, unpacked
from dayleaf.advising.shared import SharedRecords
from dayleaf.cli.options import home_option, household_in, today_at, today_option
from dayleaf.cli.shapes import say_json
from dayleaf.core.errors import DayleafError
from dayleaf.records.families import families_cleared, family_open
from dayleaf.records.sharing import suggestion, suggestion_accept

if TYPE_CHECKING:
    from dayleaf.advising.answers import Moved
    from dayleaf.advising.shared import PlanAnswer


class CannotRead(DayleafError):
    """The file cannot be read."""

    def __init__(self, file: Path, why: str) -> None:
        super().__init__(f"{file} cannot be read: {why}.")


@click.command()
@click.argument("file", type=click.Path(path_type=Path, dir_okay=False))
@click.option("--accept", "choice", flag_value="accept", help="Put a suggested plan in force.")
@click.option("--decline", "choice", flag_value="decline", help="Leave a suggested plan; nothing changes.")
@click.option("--look", is_flag=True, help="Only look at a family's file; keep no copy.")
@click.option("--json", "as_json", is_flag=True, help="Print JSON.")
@home_option
@today_option
def verb(*, file: Path, choice: str | None, look: bool, as_json: bool, home: Path, today: date | None) -> None:
    """Open a FILE that was shared.

    A family's records are shown and kept read-only in your home until their last day. A suggested plan is shown with
    the dates that it moves; it changes nothing until you say --accept.
    """
    data = read_file(file)
    content = unpacked(data)
    if isinstance(content, SharedRecords):
        day = today or datetime.now(tz=UTC).date()
        _records(content, data, None if look else home.expanduser(), day, as_json=as_json)
    else:
        _answer(content, choice, home, today, as_json=as_json)


def read_file(file: Path) -> bytes:
    """A file's bytes, no more than an exchange file can have. Raises `CannotRead`, `NotAnExchangeFile`."""
    try:
        if file.stat().st_size > MOST_FILE:
            raise NotAnExchangeFile(f"it has {file.stat().st_size:,} bytes")
        return file.read_bytes()
    except OSError as error:
        raise CannotRead(file, error.strerror or "it is no file") from error


def _records(content: SharedRecords, data: bytes, home: Path | None, day: date, *, as_json: bool) -> None:
    current(content, today=day)
    if home is not None:
        families_cleared(home, today=day)
        family_open(content, data, home=home, today=day)
    if as_json:
        plain: dict[str, Any] = msgspec.to_builtins(content)
        plain["terms"].pop("answer_key")
        say_json(plain)
        return
    for line in _lines(content, day):
        click.echo(line)


def _lines(content: SharedRecords, day: date) -> list[str]:
    terms = content.terms
    made = f"Made on {terms.made_on:%-d %B %Y}, readable until {terms.until:%-d %B %Y}. Read-only."
    lines = [f"{terms.family}, {terms.learner}: {', '.join(terms.kinds)}. {made}"]
    if content.plan is not None and content.plan.days:
        coming = next((one for one in content.plan.days if one.day >= terms.made_on), None)
        here = f"next is {coming.title} on {coming.day:%-d %B %Y}; " if coming else ""
        last = content.plan.days[-1].day
        lines.append(f"Plan: {here}{len(content.plan.days)} lessons, the last on {last:%-d %B %Y}.")
    if content.progress is not None:
        done = sum(one.how_far == "done" for one in content.progress.taught)
        words = Counter(content.progress.known.values())
        known = ", ".join(f"{many} {word}" for word, many in words.most_common())
        lines.append(f"Progress: {done} lessons done, {len(content.progress.marked)} sheets marked; skills: {known}.")
    if content.samples is not None:
        items = sum(len(one.items) for one in content.samples)
        lines.append(f"Samples: {items} items on {len(content.samples)} sheets.")
    if content.messages is not None:
        lines += [f"Note of {one.day:%-d %B}: {one.text}" for one in content.messages[-5:]]
    for reason in reasons_in(content, today=day):
        lines += [f"{reason.words} ({'; '.join(reason.evidence)})", f"   Ask first: {reason.question}"]
    return lines


def _answer(content: PlanAnswer, choice: str | None, home: Path, today: date | None, *, as_json: bool) -> None:
    household = household_in(home)
    day = today_at(household, today)
    found = suggestion(household, content, folder=home.expanduser(), today=day)
    if choice == "accept":
        suggestion_accept(found, day=day)
    if as_json:
        say_json(
            {
                "learner": found.learner.name,
                "sender": found.sender,
                "words": found.words,
                "accepted": choice == "accept",
                "moved": [_moved(one) for one in found.moved],
            }
        )
        return
    click.echo(f"{found.sender} suggests a plan for {found.learner.name}: {found.words or 'no words with it'}")
    click.echo(f"{len(found.moved)} lessons move; the last is on {found.year.main.last:%-d %B %Y}.")
    for one in found.moved:
        click.echo(f"   {one.title}: {_day(one.before)} → {_day(one.after)}")
    if choice == "accept":
        click.echo("Accepted. `dayleaf plan --undo` gives the plan before back.")
    elif choice == "decline":
        click.echo("Declined. Nothing was changed.")
    else:
        click.echo("Nothing was changed; say --accept to put it in force.")


def _moved(one: Moved) -> dict[str, Any]:
    return {
        "lesson": one.lesson,
        "title": one.title,
        "before": one.before and one.before.isoformat(),
        "after": one.after and one.after.isoformat(),
    }


def _day(day: date | None) -> str:
    return "no day" if day is None else f"{day:%a %-d %b %Y}"
