"""The whole of `pillarside commission`: port, walk, machine file, sheet."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

from hardware.ports import FoundPort, find_ports, refused
from kiosk.clock import Clock
from kiosk.content import load
from kiosk.core.model import ContactPair, Wiring
from kiosk.core.words import Words
from kiosk.runtime.commissioning.machine_file import NotWritten, write_atomically, write_contacts
from kiosk.runtime.commissioning.sheet import Commissioned, sheet_of, sheet_path, to_json
from kiosk.runtime.commissioning.walking import Person, Stopped, described, walk
from kiosk.runtime.commissioning.watching import Watcher

BEFORE = (
    "Only a competent person does this. Contacts were fitted and tested with the machine locked",
    "off and proved dead; hardware/README.md says how. The kiosk informs and records. It is not",
    "a safety device: it stops nothing. Keep hands, hair and sleeves away from the drill.",
)


@dataclass(frozen=True)
class Task:
    """What is to be commissioned. None or empty: as the machine file says, or as is found."""

    machine: str
    school: Path
    sequences: Path
    port: str = ""
    reader: str | None = None
    unit: int | None = None
    baud: int | None = None
    parity: str | None = None
    function: int | None = None
    inputs: tuple[tuple[str, ContactPair], ...] = ()


def commission(
    task: Task, person: Person, find: Callable[[], tuple[FoundPort, ...]] = find_ports
) -> int:
    """Walk the technician through it. Returns the exit code: 0 only if the file was written."""
    school = task.school if task.school.is_dir() else None
    loaded = load(task.sequences, school)
    machine = loaded.content.machine(task.machine) if loaded.content else None
    if machine is None:
        known = loaded.content.machines if loaded.content else ()
        names = ", ".join(m.id for m in known)
        lines = [str(p) for p in loaded.problems]
        person.say("\n".join(lines or [f"no machine {task.machine!r}; there are: {names}"]))
        return 2
    wiring = wiring_of(task, machine.wiring)
    if not wiring.inputs or wiring.reader == "none":
        person.say("No contacts are named: give --reader and --input, for instance isolator=0,1")
        return 2
    for line in BEFORE:
        person.say(line)
    try:
        return _walk_and_write(task, wiring, person, find(), loaded.words)
    except (Stopped, NotWritten, OSError) as stopped:
        person.say(str(stopped) or "Stopped.")
        person.say("Nothing was written. The machine file is as it was.")
        return 1


def wiring_of(task: Task, written: Wiring) -> Wiring:
    """The machine file's wiring with what the command names in its place."""
    said = {
        "reader": task.reader,
        "unit": task.unit,
        "baud": task.baud,
        "parity": task.parity,
        "function": task.function,
        "inputs": task.inputs or None,
    }
    return replace(written, **{k: v for k, v in said.items() if v is not None})  # type: ignore[arg-type]


def _walk_and_write(
    task: Task, wiring: Wiring, person: Person, ports: tuple[FoundPort, ...], words: Words
) -> int:
    port, warnings = choose_port(task.port, ports, person)
    clock = Clock()
    with Watcher(wiring, port, clock.us, words) as watcher:
        walked = walk(wiring, watcher, person)
    sheet = sheet_of(
        task.machine,
        port,
        warnings,
        walked.wiring,
        walked.seen,
        walked.left_out,
        walked.run_down_ms,
        clock.now(),
    )
    tell(sheet, person)
    if not walked.wiring.inputs or not person.ask("Write it?", "yes").lower().startswith("y"):
        raise Stopped
    path = write_contacts(task.sequences, task.school, task.machine, walked.wiring)
    values = sheet_path(task.school, task.machine)
    values.parent.mkdir(parents=True, exist_ok=True)
    write_atomically(values, to_json(sheet))
    person.say(f"Written: {path}\nValues of the sheet: {values}")
    start = f"--machine {task.machine} --school {task.school} --port {port}"
    person.say(f"Start the kiosk with: pillarside run {start}")
    return 0


def choose_port(
    named: str, ports: tuple[FoundPort, ...], person: Person
) -> tuple[str, tuple[str, ...]]:
    """The port's path and the warnings about it. Raises `Stopped` with the reason."""
    for number, port in enumerate(ports, start=1):
        person.say(f"{number}: {port.device}\n   by id    {port.by_id or 'none'}")
        person.say(f"   by path  {port.by_path or 'none'}")
        for warning in port.warnings:
            person.say(f"   {warning}")
    if not named:
        named = _asked_port(ports, person)
    if why := refused(named, ports):
        raise Stopped(why)
    known = [port for port in ports if named in (port.device, port.by_id, port.by_path)]
    return named, known[0].warnings if known else ()


def _asked_port(ports: tuple[FoundPort, ...], person: Person) -> str:
    if not ports:
        raise Stopped("No serial port was found. Plug the adapter in, or give --port PATH.")
    answer = person.ask("Which port? A number or a path.", "1")
    if answer.isdigit() and 1 <= int(answer) <= len(ports):
        return ports[int(answer) - 1].stable
    if answer.startswith("/"):
        return answer
    raise Stopped(f"{answer!r} is no port; there are 1 to {len(ports)}")


def tell(sheet: Commissioned, person: Person) -> None:
    """The result before it is written."""
    person.say("")
    for name, pair in sheet.wiring.inputs:
        person.say(f"{name}: {described(pair)}; seen off and on")
    for name in sheet.left_out:
        person.say(f"{name}: left out")
    if sheet.run_down_ms is not None:
        person.say(f"run-down: {sheet.run_down_ms / 1000:.1f} s from stop to still")
