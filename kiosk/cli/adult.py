"""`pillarside adult`: issue PINs, badges and spare codes, list who has what, revoke.

A running kiosk does it itself, asked over its local socket. Otherwise the record is opened
here, under its lock, and the same decisions are made and recorded.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import click

from kiosk.cli.asking import ask
from kiosk.clock import Clock
from kiosk.core.events import Entry, Event
from kiosk.core.kiosk import Kiosk, advance, from_outside
from kiosk.people import (
    ROLES,
    Office,
    hashed,
    pepper_for,
    pepper_path,
)
from kiosk.store import Record, RecordFault

Answer = dict[str, Any]
ON_MACHINE = "cover, assistant and trainee need it; a teacher or technician may have it."
at_record = click.option(
    "--record",
    type=click.Path(dir_okay=False, path_type=Path),
    required=True,
    help="The kiosk's record, a file.",
)


@click.group("adult")
def adult_command() -> None:
    """Issue, list and revoke what adults are let in with: PINs, badges, spare codes."""


@adult_command.command("issue")
@click.option("--name", required=True, help="The name as the screen shows it.")
@click.option("--role", type=click.Choice(ROLES), required=True, help="What the adult may do.")
@click.option("--until", default="", help=f"The last day on this drill, YYYY-MM-DD; {ON_MACHINE}")
@at_record
def issue(name: str, role: str, until: str, record: Path) -> None:
    """Issue a PIN and spare codes to a new adult, or new ones to an adult already known."""
    request = {"do": "adult_issue", "name": name, "role": role}
    answer = about(record, request | ({"until": until} if until else {}))
    click.echo(card(answer["name"], role, answer["pin"], answer.get("codes", ())))


@adult_command.command("codes")
@click.argument("name")
@at_record
def codes(name: str, record: Path) -> None:
    """Issue new spare codes to the adult called NAME; those before stop working."""
    answer = about(record, {"do": "adult_codes", "name": name})
    click.echo(card(answer["name"], "spare codes", "", answer["codes"]))


@adult_command.command("badge")
@click.argument("name")
@at_record
def badge(name: str, record: Path) -> None:
    """Read in a badge for the adult called NAME, at a reader that types, or typed by hand."""
    digits = click.prompt("Hold the badge to the reader", hide_input=True)
    answer = about(record, {"do": "adult_badge", "name": name, "digits": str(digits).strip()})
    click.echo(f"{answer['name']} has a badge now.")


@adult_command.command("until")
@click.argument("name")
@click.argument("day")
@at_record
def until(name: str, day: str, record: Path) -> None:
    """Authorise the adult called NAME on this drill up to a DAY: YYYY-MM-DD, or none."""
    answer = about(record, {"do": "adult_until", "name": name, "until": day})
    click.echo(f"{answer['name']}: authorised until {day}.")


@adult_command.command("list")
@at_record
def list_all(record: Path) -> None:
    """List the adults who can use the kiosk."""
    answer = about(record, {"do": "adult_list"})
    for adult in answer["adults"]:
        click.echo(f"{adult['role']:<12}{adult['name']}{_more(adult)}")
    if not answer["adults"]:
        click.echo("Nobody yet. The first start of the kiosk issues a technician's PIN.")


def _more(adult: Answer) -> str:
    """A badge, spare codes left, and when it ends."""
    ends = f"{'ended' if adult.get('over') else 'until'} {adult.get('until')}"
    told = (
        "badge" if adult.get("badge") else "",
        f"{adult['codes']} spare codes" if adult.get("codes") else "",
        ends if adult.get("until") else "",
    )
    return "".join(f", {one}" for one in told if one)


@adult_command.command("revoke")
@click.argument("name")
@at_record
def revoke(name: str, record: Path) -> None:
    """Revoke PIN, badge and spare codes of the adult called NAME."""
    answer = about(record, {"do": "adult_revoke", "name": name})
    click.echo(f"{answer['name']} can no longer use the kiosk.")


def card(name: str, role: str, pin: str, codes: Sequence[str] = ()) -> str:
    """What is printed once for the adult to take away, the PIN in two threes, codes in fives."""
    lines = [f"{name}, {role}", ""]
    lines += [f"PIN  {pin[:3]} {pin[3:]}", ""] if pin else []
    lines += [f"{n}    {code[:5]} {code[5:]}" for n, code in enumerate(codes, 1)]
    lines += ["", "A spare code works once, also while a PIN has to wait.", ""] if codes else []
    edge = "=" * 60
    told = "Write it down now: it is not kept and can't be shown again."
    return "\n".join(("", edge, "", *(f"    {line}".rstrip() for line in lines), edge, told))


def about(record: Path, request: Answer) -> Answer:
    """The answer of the running kiosk, or of this record where no kiosk holds it."""
    return carried_out(record, request, lambda opened: done_in(opened, record, request))


def done_in(opened: Record, path: Path, request: Answer) -> Answer:
    """Do it in a record that no kiosk holds. The answer has a PIN and spare codes in clear."""
    request, shown = hashed(request, lambda: _pepper(opened, path))
    kiosk = opened.restore()
    today = max(Clock().now().day, kiosk.adults.day)
    done = Office(opened, kiosk, opened.machine(), today).carry_out(request)
    assert done is not None, f"{request['do']} is not about adults"
    given, answer = done
    if given is not None:
        events = from_outside(kiosk, given).events
        record_events(opened, kiosk, tuple(e for e in events if e.recorded))
    return {**answer, **shown}


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
