"""`pillarside levels`: training levels from one drill to another that is alike."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from kiosk.cli.adult import at_record, carried_out, record_events
from kiosk.cli.check import SEQUENCES
from kiosk.content import load
from kiosk.core.kiosk import from_outside
from kiosk.people import about_levels, levels_here, read_levels
from kiosk.store import ReadOnlyRecord, Record

FILE = click.Path(exists=True, dir_okay=False, path_type=Path)
FOLDER = click.Path(exists=True, file_okay=False, path_type=Path)


@click.command("levels")
@click.argument("file", type=FILE, required=False)
@at_record
@click.option(
    "--to",
    type=click.Path(dir_okay=False, path_type=Path),
    metavar="TABLE",
    help="Write the levels granted at this drill, by group and list number, without names.",
)
@click.option("--school", type=FOLDER, help="The school's own folder; its machine files count.")
@click.option("--accept", is_flag=True, help="Take FILE in; without, only show what would change.")
def levels_command(
    file: Path | None, record: Path, to: Path | None, school: Path | None, accept: bool
) -> None:
    """Bring training levels from one drill to another that is `alike` in its machine file.

    With --to the levels granted at this drill are written as a table. With a FILE, such a table of
    the other drill, the level that was granted last counts at both.
    """
    if (file is None) == (to is None):
        raise click.UsageError("give either a FILE to take in, or --to TABLE to write one")
    if to is not None:
        _write(record, to, school)
    elif file is not None:
        _bring(record, file, accept)


def _write(record: Path, to: Path, school: Path | None) -> None:
    alike = _alike(record, school)
    answer = _asked(record, {"do": "levels_out", "alike": alike})
    to.write_text(answer["table"], encoding="utf-8")
    click.echo(f"Levels of drills alike ({alike}): {answer['table'].count(chr(10)) - 1}, in {to}")


def _alike(record: Path, school: Path | None) -> str:
    """The word that this drill's file has for the drills it is alike with."""
    with ReadOnlyRecord(record) as opened:
        machine = opened.machine()
    content = load(SEQUENCES, school).content
    found = content.machine(machine) if content else None
    if found is None or not found.alike:
        advice = "give its file and the other drill's the same word under alike"
        raise click.ClickException(f"{machine or 'this drill'} is like no other; {advice}")
    return found.alike


def _bring(record: Path, file: Path, accept: bool) -> None:
    lines, problems = read_levels(str(file), file.read_bytes())
    if problems:
        for problem in problems:
            click.echo(str(problem), err=True)
        raise click.ClickException(f"mistakes: {len(problems)}; nothing was taken in")
    with ReadOnlyRecord(record) as opened:
        shared, strangers = levels_here(opened.groups(), lines)
    for line in strangers:
        click.echo(f"? {line.place}: not on this drill's lists")
    told = [list(level) for level in shared]
    answer = _asked(record, {"do": "levels_in", "levels": told, "accept": accept})
    newer = f"newer than here {answer['newer']}, not known {len(strangers)}"
    click.echo(f"Levels {len(lines)}, {newer}.")
    click.echo("Taken in." if accept else "Nothing is changed yet. Take it in with --accept.")


def _asked(record: Path, request: dict[str, Any]) -> dict[str, Any]:
    """The answer of the running kiosk, or of the record where no kiosk holds it."""
    return carried_out(record, request, lambda opened: _here(opened, request))


def _here(opened: Record, request: dict[str, Any]) -> dict[str, Any]:
    kiosk = opened.restore()
    given, answer = about_levels(opened.groups(), kiosk, request)
    if given is not None:
        record_events(opened, kiosk, from_outside(kiosk, given).events)
    return answer
