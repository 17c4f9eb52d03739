"""The command line: `dayleaf VERB …`. Errors become words and exit statuses here and nowhere else."""

from __future__ import annotations

import sys
from importlib import import_module

import click

from dayleaf import __version__
from dayleaf.core.errors import DayleafError

BAD_INPUT = 2
VERBS = (
    *("start", "starter", "demo", "check", "place", "day", "test", "items", "read", "mark", "result", "explain"),
    *("probe", "strip", "advise", "log", "plan", "forecast", "week", "year", "print", "outline", "own", "map", "again"),
    *("note", "line", "calibrate", "records", "backup", "restore"),
    *("who", "share", "open-share", "suggest"),
)
NO_HOUSEHOLD = frozenset({"starter", "check", "items", "read", "explain", "probe", "advise"})


class VerbsOnDemand(click.Group):
    """Each verb is a module of this room, imported only when it is called, so that each starts quickly."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002 (click's signature)
        """The verbs in the order in which a family meets them."""
        return list(VERBS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002 (click's signature)
        """The command object `verb` of the module named like it."""
        if cmd_name not in VERBS:
            return None
        if cmd_name not in NO_HOUSEHOLD:
            import_module("dayleaf.records.ready").make_ready()
        command: click.Command = import_module(f"dayleaf.cli.{cmd_name.replace('-', '_')}").verb
        return command


@click.group(cls=VerbsOnDemand, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__)
def dayleaf() -> None:
    """Plan, print, mark and understand a year of primary mathematics taught at home."""


def main() -> None:
    """Run the command line; what a person can mend is said in sentences, with exit status 2."""
    try:
        dayleaf(prog_name="dayleaf")
    except DayleafError as error:
        click.echo(str(error), err=True)
        sys.exit(BAD_INPUT)
