"""`pillarside adult`: issue a PIN, list who has one, revoke one.

A running kiosk does it itself, asked over its local socket. Otherwise the record is opened
here, under its lock, and the same decisions are made and recorded.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import click

from kiosk.cli.asking import ask
from kiosk.clock import Clock
from kiosk.core.events import AdultAdded, AdultRevoked, Entry, Event, PinIssued
from kiosk.core.kiosk import Kiosk, advance
from kiosk.core.model import Adult
from kiosk.people import (
    ROLES,
    NotPossible,
    adult_to_issue,
    adult_to_revoke,
    hash_pin,
    issue_pin,
    pepper_for,
    pepper_path,
)
from kiosk.store import Record, RecordFault

BY = "command"

Answer = dict[str, Any]
at_record = click.option(
    "--record",
    type=click.Path(dir_okay=False, path_type=Path),
    required=True,
    help="The kiosk's record, a file.",
)


@click.group("adult")
def adult_command() -> None:
    """Issue, list and revoke the PINs of teachers and technicians."""


@adult_command.command("issue")
@click.option("--name", required=True, help="The name as the screen shows it.")
@click.option("--role", type=click.Choice(ROLES), required=True, help="What the adult may do.")
@at_record
def issue(name: str, role: str, record: Path) -> None:
    """Issue a PIN to a new adult, or a new one to an adult already known."""
    answer = carried_out(
        record,
        {"do": "adult_issue", "name": name, "role": role},
        lambda opened: issue_in(opened, record, name, role),
    )
    click.echo(card(answer["name"], role, answer["pin"]))


@adult_command.command("list")
@at_record
def list_all(record: Path) -> None:
    """List the adults who can use the kiosk."""
    answer = carried_out(record, {"do": "adult_list"}, list_in)
    for adult in answer["adults"]:
        click.echo(f"{adult['role']:<12}{adult['name']}")
    if not answer["adults"]:
        click.echo("Nobody yet. The first start of the kiosk issues a technician's PIN.")


@adult_command.command("revoke")
@click.argument("name")
@at_record
def revoke(name: str, record: Path) -> None:
    """Revoke the PIN of the adult called NAME."""
    answer = carried_out(
        record, {"do": "adult_revoke", "name": name}, lambda opened: revoke_in(opened, name)
    )
    click.echo(f"{answer['name']} can no longer use the kiosk.")


def card(name: str, role: str, pin: str) -> str:
    """What is printed once for the adult to take away, the PIN in two threes."""
    lines = (f"{name}, {role}", "", f"PIN  {pin[:3]} {pin[3:]}", "")
    edge = "=" * 48
    told = "Write it down now: it is not kept and can't be shown again."
    return "\n".join(("", edge, "", *(f"    {line}" for line in lines), edge, told))


def issue_in(opened: Record, path: Path, name: str, role: str) -> Answer:
    """Issue a PIN in a record that no kiosk holds. The answer has the PIN in clear."""
    kiosk = opened.restore()
    adult = adult_to_issue(opened.adults(), kiosk.adults, name, role)
    if isinstance(adult, NotPossible):
        return {"ok": False, "why": adult.why}
    pin = issue_pin()
    opened.keep_adult(adult, hash_pin(pin, _pepper(opened, path)))
    known = kiosk.adults.find(adult.ref)
    added = () if known else (AdultAdded(adult.ref, adult.role, BY),)
    record_events(opened, kiosk, (*added, PinIssued(adult.ref, BY)))
    return {"ok": True, "name": adult.name, "pin": pin}


def revoke_in(opened: Record, name: str) -> Answer:
    """Revoke an adult in a record that no kiosk holds: the name stays, the PIN's hash goes."""
    kiosk = opened.restore()
    adult = adult_to_revoke(opened.adults(), kiosk.adults, name)
    if isinstance(adult, NotPossible):
        return {"ok": False, "why": adult.why}
    record_events(opened, kiosk, (AdultRevoked(adult.ref, BY),))
    opened.keep_adult(adult, "")
    return {"ok": True, "name": adult.name}


def list_in(opened: Record) -> Answer:
    """The adults of a record that no kiosk holds."""
    in_use = opened.restore().adults
    return {"ok": True, "adults": [_line(a) for a in opened.adults() if in_use.find(a.ref)]}


def _line(adult: Adult) -> dict[str, str]:
    return {"ref": adult.ref, "name": adult.name, "role": adult.role}


def _pepper(opened: Record, path: Path) -> bytes:
    """The record's pepper; says so where it was lost and PINs issued before are void."""
    if opened.adults() and not pepper_path(path).exists():
        lost = f"{pepper_path(path)} was missing and has been made anew."
        click.echo(f"{lost} PINs issued before no longer work: issue them again.", err=True)
    return pepper_for(path)


def record_events(opened: Record, kiosk: Kiosk, events: tuple[Event, ...]) -> None:
    """Append events as the running kiosk would: numbered, timed, with the state after them."""
    now, first = Clock().now(), opened.head[0] + 1
    entries = tuple(Entry(first + n, now, event) for n, event in enumerate(events))
    for entry in entries:
        kiosk = advance(kiosk, entry)
    opened.append(entries, kiosk)


def carried_out(path: Path, request: Answer, here: Callable[[Record], Answer]) -> Answer:
    """The answer of the running kiosk, or what `here` does; a refusal ends the command."""
    if not path.exists():
        advice = "the kiosk's first start makes it and issues a technician's PIN"
        raise click.ClickException(f"{path}: no record here; {advice}")
    try:
        answer = ask(path, request)
        if answer is None:
            with _opened(path) as record:
                answer = here(record)
    except (RecordFault, OSError, ValueError) as fault:
        raise click.ClickException(str(fault)) from fault
    if not answer.get("ok"):
        raise click.ClickException(str(answer.get("why", "the kiosk gave no reason")))
    return answer


@contextmanager
def _opened(path: Path) -> Iterator[Record]:
    record = Record.open(path)
    try:
        yield record
    finally:
        record.close()
