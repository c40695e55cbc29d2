"""`pillarside erase`: takes away what is kept of one person, or the text of a note.

The chain of events stays whole: it never held a name or a text. A running kiosk does it itself,
asked over its local socket; otherwise it is done here, under the record's lock.
"""

from __future__ import annotations

from pathlib import Path

import click

from kiosk.cli.adult import carried_out, record_events
from kiosk.cli.options import record_option
from kiosk.core.events import AdultRevoked, Erased, Event
from kiosk.people import NotPossible, to_erase
from kiosk.store import Record

Answer = dict[str, object]
ASKED = "asked"


@click.group("erase")
def erase_command() -> None:
    """Take away what is kept of one person, or the text of a note.

    The events stay, and name nobody. Downloads never held names; copies of the record that
    somebody made, and records set aside as damaged, are for you to delete.
    """


@erase_command.command("adult")
@click.argument("name")
@record_option
def adult(name: str, record: Path) -> None:
    """The name and the PIN of the adult called NAME, who can then no longer use the kiosk."""
    _done(record, "adult", name)


@erase_command.command("pupil")
@click.argument("group")
@click.argument("number", type=int)
@record_option
def pupil(group: str, number: int, record: Path) -> None:
    """Who number NUMBER of GROUP was: if it comes again, it is somebody new."""
    _done(record, "pupil", f"{number} {group}")


@erase_command.command("note")
@click.argument("note")
@record_option
def note(note: str, record: Path) -> None:
    """The text of the note NOTE; `erase notes` lists them."""
    _done(record, "note", note)


@erase_command.command("notes")
@record_option
def notes(record: Path) -> None:
    """List the notes whose text is kept."""
    answer = carried_out(record, {"do": "notes"}, notes_in)
    for line in answer["notes"]:
        click.echo("  ".join(line))
    if not answer["notes"]:
        click.echo("No notes are kept.")


def notes_in(opened: Record) -> Answer:
    """The notes of a record that no kiosk holds."""
    return {"ok": True, "notes": [list(n) for n in opened.known_notes()]}


def erase_in(opened: Record, what: str, named: str) -> Answer:
    """Erase in a record that no kiosk holds."""
    kiosk = opened.restore()
    found = to_erase(opened, kiosk, what, named)
    if isinstance(found, NotPossible):
        return {"ok": False, "why": found.why}
    ended: tuple[Event, ...] = (AdultRevoked(found, ASKED),) if kiosk.adults.find(found) else ()
    record_events(opened, kiosk, (*ended, Erased(what, found, ASKED)))
    return {"ok": True}


def _done(record: Path, what: str, named: str) -> None:
    request = {"do": "erase", "what": what, "named": named}
    carried_out(record, request, lambda opened: erase_in(opened, what, named))
    click.echo(f"Erased: {what} {named}. The events stay, and name nobody.")
    for aside in sorted(record.parent.glob(f"{record.name}.damaged-*")):
        click.echo(f"{aside} was set aside as damaged and is untouched: delete it yourself.")
