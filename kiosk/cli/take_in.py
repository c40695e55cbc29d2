"""`pillarside take-in`: what a stick would bring in, and taking it in, all or nothing."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from kiosk.cli.adult import at_record, carried_out, record_events
from kiosk.cli.check import at_school, at_sequences
from kiosk.cli.looking import Asked, Look, look
from kiosk.cli.options import stick_to_read
from kiosk.core.kiosk import from_outside
from kiosk.core.units import day_named, day_of
from kiosk.export import PackageFault
from kiosk.people import BY, changes, package_in
from kiosk.store import Record, RecordFault

SAID = {
    "older": "! older than what is here, put together on",
    "before": "  in its place now: what was put together on",
    "same_roster": "= the roster stays as it is",
    "revoked": "- no longer let in:",
    "stranger": "  to be revoked, but not known here:",
    "new": "+ file",
    "changed": "~ file",
    "away": "- file",
    "same_school": "= jobs and machine files stay as they are",
}


@click.command("take-in")
@at_record
@click.option(
    "--from",
    "stick",
    type=click.Path(exists=True, file_okay=False, path_type=Path),
    metavar="DIR",
    help="The folder with the package. Without it, the stick that is put in.",
)
@at_sequences
@at_school
@click.option("--machine", default="", help="The machine file's name, before the first start.")
@click.option("--accept", is_flag=True, help="Take it in; without, only show what would change.")
def take_in_command(
    record: Path,
    stick: Path | None,
    sequences: Path,
    school: Path | None,
    machine: str,
    accept: bool,
) -> None:
    """Show what the newest package of a stick would change; take it in with --accept.

    It is copied and checked first, so the stick may be taken out then. With one mistake nothing
    is taken in. Roster and adults count at once, files from the next start of the kiosk.
    """
    where = stick or stick_to_read()
    asked = Asked(record, where, stick is None, sequences, school, machine)
    try:
        found = look(asked)
    except FileNotFoundError as error:
        raise click.ClickException(f"{error}; start the kiosk once") from error
    except (PackageFault, RecordFault, OSError) as fault:
        raise click.ClickException(str(fault)) from fault
    _stop_at(found)
    _show(found)
    if accept:
        carried_out(record, found.request, lambda opened: _taken_in(opened, found.request))
    click.echo("Taken in." if accept else "Nothing is changed yet. Take it in with --accept.")


def _stop_at(found: Look) -> None:
    for problem in found.problems:
        click.echo(str(problem), err=True)
    if found.problems:
        raise click.ClickException(f"mistakes: {len(found.problems)}; nothing was taken in")


def _show(found: Look) -> None:
    """The package's date, then a line for each pupil, adult and file."""
    click.echo(f"Put together on {day_named(day_of(found.made_us))}")
    people = changes(found.before, found.after, names=bool(found.request["names"]))
    for sign, lines in (("+", people.added), ("~", people.changed), ("-", people.left)):
        for line in lines:
            click.echo(f"{sign} {line}")
    for key, what in found.lines:
        if key in SAID:
            click.echo(f"{SAID[key]} {what}".rstrip())


def _taken_in(opened: Record, request: dict[str, Any]) -> dict[str, Any]:
    """Take it in here, as the running kiosk would."""
    kiosk = opened.restore()
    told, answer = package_in(opened, kiosk, request, BY)
    record_events(opened, kiosk, from_outside(kiosk, told).events)
    return answer
