"""`pillarside download`: takes a part of the record away, with the kiosk running or not."""

from __future__ import annotations

from functools import partial
from pathlib import Path

import click
from rich.console import Console
from rich.progress import Progress, TaskID

from kiosk.cli.options import record_option, stick_to_write
from kiosk.cli.taking import SPANS, NothingThere, Taken, take, tell
from kiosk.export import DownloadFault
from kiosk.store import RecordFault

FLAGS = {
    "week": "The last 7 days by the kiosk's clock.",
    "term": "The last 14 weeks.",
    "since-last": "All since the last download.",
    "all": "The whole record.",
}


@click.command("download")
@click.option("--week", "week", is_flag=True, help=FLAGS["week"])
@click.option("--term", "term", is_flag=True, help=FLAGS["term"])
@click.option("--since-last", "since_last", is_flag=True, help=FLAGS["since-last"])
@click.option("--all", "whole", is_flag=True, help=FLAGS["all"])
@click.option(
    "--to",
    type=click.Path(path_type=Path),
    metavar="DIR",
    help="The folder it goes into; it must be there. Without it, the stick that is put in.",
)
@record_option
def download_command(
    week: bool, term: bool, since_last: bool, whole: bool, to: Path | None, record: Path
) -> None:
    """Take a part of the record away, into a new folder on the stick or in DIR.

    The folder holds the events as evidence (events.jsonl), a workbook, a table and a report page,
    and a manifest that `pillarside verify` goes by. Names and notes are never in it.
    """
    chosen = [n for n, on in zip(SPANS, (week, term, since_last, whole), strict=True) if on]
    if len(chosen) != 1:
        raise click.UsageError("give one of --week, --term, --since-last, --all")
    taken = _taken(record, chosen[0], to)
    click.echo(f"Written and read back: events {taken.span.first} to {taken.span.last}")
    click.echo(str(taken.folder))
    _told(record, taken)


def _taken(record: Path, span: str, to: Path | None) -> Taken:
    try:
        console = Console(stderr=True)
        quiet = not console.is_terminal
        with Progress(console=console, transient=True, disable=quiet) as bar:
            task = bar.add_task("events", total=None)
            move = partial(_move, bar, task)
            return take(record, span, to or stick_to_write(), move, is_stick=to is None)
    except FileNotFoundError as error:
        advice = "name the kiosk's record with --record FILE"
        raise click.ClickException(f"{error}; {advice}") from error
    except (RecordFault, DownloadFault, NothingThere) as fault:
        raise click.ClickException(str(fault)) from fault


def _move(bar: Progress, task: TaskID, done: int, whole: int) -> None:
    bar.update(task, completed=done, total=whole)


def _told(record: Path, taken: Taken) -> None:
    """A download that could not be noted is still a whole one: that is only said."""
    try:
        tell(record, taken)
    except (RecordFault, OSError, ValueError) as fault:
        click.echo(f"The download is whole, but the record could not note it: {fault}", err=True)
