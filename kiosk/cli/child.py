"""What a running kiosk starts as a process of its own: `python -m kiosk.cli.child download ...`.

It tells its parent one JSON line at a time: `{"done", "whole"}` as it goes on, and last either
`{"first", "last", "head", "folder"}` or `{"why", "text"}`. The parent notes it in the record.
"""

from __future__ import annotations

import json
import signal
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, NoReturn

import click

from kiosk.cli.looking import Asked, look
from kiosk.cli.standing import Sheet
from kiosk.cli.taking import SPANS, NothingThere, take
from kiosk.cli.tidying import to_tidy
from kiosk.clock import Clock
from kiosk.export import DownloadFault, PackageFault
from kiosk.export.sheets import NoSheet
from kiosk.export.sheets.reading import parts_of
from kiosk.store import ReadOnlyRecord, RecordFault

SHOWN = {why: why for why in ("full", "read_only", "gone", "changed", "failing", "damaged")}
SHOWN["no_folder"] = "gone"  # the folder that stands for the stick
"""What the screen has words of its own for; it calls everything else `failed`."""

MOST_LINES = 20
"""Mistakes that the screen turns over; the command shows all."""


@click.group()
def child() -> None:
    """Slow work for a running kiosk."""
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(143))  # so that nothing half-done is left


@child.command()
@click.option("--record", type=click.Path(path_type=Path), required=True)
@click.option("--to", type=click.Path(path_type=Path), required=True)
@click.option("--span", type=click.Choice(SPANS), required=True)
@click.option("--stick", is_flag=True)
def download(record: Path, to: Path, span: str, stick: bool) -> None:
    """Write a download."""
    with told_failures():
        taken = take(record, span, to, lambda done, whole: say(done=done, whole=whole), stick)
        say(**{k: v for k, v in taken.said.items() if k != "span"}, folder=str(taken.folder))


@child.command()
@click.option("--record", type=click.Path(path_type=Path), required=True)
@click.option("--from", "stick", type=click.Path(path_type=Path), required=True)
@click.option("--stick", "is_stick", is_flag=True)
@click.option("--sequences", type=click.Path(path_type=Path), required=True)
@click.option("--school", type=click.Path(path_type=Path))
@click.option("--machine", required=True)
@click.option("--language", required=True)
def package(
    record: Path,
    stick: Path,
    is_stick: bool,
    sequences: Path,
    school: Path | None,
    machine: str,
    language: str,
) -> None:
    """Copy what a stick brings in, check it and tell what it would change."""
    asked = Asked(record, stick, is_stick, sequences, school, machine, language)
    try:
        found = look(asked)
    except PackageFault as fault:
        fail(fault.why, str(fault), lines=[])
    except (RecordFault, OSError) as fault:
        fail("failed", str(fault), lines=[])
    else:
        if found.problems:
            lines = [("", str(problem)) for problem in found.problems[:MOST_LINES]]
            fail("mistakes", "", lines=lines)
        say(request=found.request, lines=found.lines)


def at_the_kiosk(command: Callable[..., None]) -> Callable[..., None]:
    """The options that name a kiosk's content, and one of its sheets."""
    for option in (
        click.option("--record", type=click.Path(path_type=Path), required=True),
        click.option("--sequences", type=click.Path(path_type=Path), required=True),
        click.option("--school", type=click.Path(path_type=Path)),
        click.option("--machine", required=True),
        click.option("--language", required=True),
        click.option("--sheet", required=True),
    ):
        command = option(command)
    return command


@child.command()
@at_the_kiosk
def preview(**asked: Any) -> None:
    """Make a sheet's page and tell what it says, part by part."""
    with told_failures():
        say(parts=parts_of(Sheet(**asked).page()))


@child.command()
@at_the_kiosk
@click.option("--to", type=click.Path(path_type=Path), required=True)
@click.option("--stick", is_flag=True)
def sheet(to: Path, stick: bool, **asked: Any) -> None:
    """Make a sheet and put its page and its PDF on a stick."""
    with told_failures():
        say(folder=str(Sheet(**asked).to_stick(to, say, stick)))


@contextmanager
def told_failures() -> Iterator[None]:
    """Whatever goes wrong on the way to a stick, as the last line to the parent."""
    try:
        yield
    except DownloadFault as fault:
        fail(SHOWN.get(fault.why, "failed"), str(fault))
    except NothingThere as fault:
        fail("nothing", str(fault))
    except NoSheet as reason:
        fail("no_sheet", str(reason))
    except (RecordFault, OSError) as fault:
        fail("failed", str(fault))


@child.command("look-through")
@click.option("--record", type=click.Path(path_type=Path), required=True)
def look_through(record: Path) -> None:
    """Check every page and every line of a record."""
    try:
        with ReadOnlyRecord(record) as opened:
            opened.look_through()
    except (RecordFault, OSError) as fault:
        fail(getattr(fault, "why", "failing"), str(fault))


@child.command()
@click.option("--record", type=click.Path(path_type=Path), required=True)
def tidy(record: Path) -> None:
    """Find what was kept long enough; the days and the roster come as JSON on standard input."""
    asked = json.load(sys.stdin)
    try:
        say(**to_tidy(record, asked["days"], frozenset(asked["roster"]), Clock().now()))
    except (RecordFault, OSError) as fault:
        fail("failed", str(fault))


@child.command()
@click.option("--record", type=click.Path(path_type=Path), required=True)
@click.option("--port", default="")
def selftest(record: Path, port: str) -> None:
    """Look at the computer; each part as its name, its state, what was found, what to do."""
    from kiosk.cli.selftest import findings  # only where it is asked for

    found = findings(record, port)
    say(found=[[f.name.replace(" ", "_"), f.state, f.found, f.advice] for f in found])


def say(**told: Any) -> None:
    """One line to the parent, at once."""
    print(json.dumps(told), flush=True)


def fail(why: str, text: str, **more: Any) -> NoReturn:
    """The last line of work that failed; ends the process with 1."""
    say(why=why, text=text, **more)
    sys.exit(1)


if __name__ == "__main__":
    child()
