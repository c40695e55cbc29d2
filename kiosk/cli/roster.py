"""`pillarside roster`: what a roster file would change, and taking it in."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from kiosk.cli.adult import at_record, carried_out, record_events
from kiosk.cli.check import SEQUENCES
from kiosk.content import load
from kiosk.core.kiosk import from_outside
from kiosk.core.model import Group
from kiosk.people import (
    BY,
    RosterGroup,
    changes,
    group_as_plain,
    read_roster,
    take_in,
    unresolved,
    without_names,
)
from kiosk.store import ReadOnlyRecord, Record

FILE = click.Path(exists=True, dir_okay=False, path_type=Path)
FOLDER = click.Path(exists=True, file_okay=False, path_type=Path)


@click.command("roster")
@click.argument("file", type=FILE)
@at_record
@click.option("--school", type=FOLDER, help="The school's own folder; its people.yaml counts.")
@click.option("--accept", is_flag=True, help="Take it in; without, only show what would change.")
def roster_command(file: Path, record: Path, school: Path | None, accept: bool) -> None:
    """Show what a roster FILE (a workbook or CSV) would change; take it in with --accept.

    With one mistake in the file nothing is taken in. Names are left out unless the school's
    people.yaml says names: yes.
    """
    groups, problems = read_roster(file)
    if problems:
        for problem in problems:
            click.echo(str(problem), err=True)
        raise click.ClickException(f"mistakes: {len(problems)}; nothing was taken in")
    names = _names(school)
    groups = groups if names else without_names(groups)
    _show(_before(record), unresolved(groups), names)
    if accept:
        _take_in(record, groups, names)
    click.echo("Taken in." if accept else "Nothing is changed yet. Take it in with --accept.")


def _names(school: Path | None) -> bool:
    """Whether the school has names imported; a mistake in its files imports none."""
    content = load(SEQUENCES, school).content
    return content is not None and content.people.names


def _before(record: Path) -> tuple[Group, ...]:
    if not record.exists():
        return ()
    with ReadOnlyRecord(record) as opened:
        return opened.groups()


def _show(before: tuple[Group, ...], after: tuple[Group, ...], names: bool) -> None:
    found = changes(before, after, names)
    for sign, lines in (("+", found.added), ("~", found.changed), ("-", found.left)):
        for line in lines:
            click.echo(f"{sign} {line}")
    come, change, leave = len(found.added), len(found.changed), len(found.left)
    click.echo(f"Come {come}, change {change}, leave {leave}.")


def _take_in(record: Path, groups: tuple[RosterGroup, ...], names: bool) -> None:
    told = [group_as_plain(group) for group in groups]
    request: dict[str, Any] = {"do": "roster", "groups": told, "names": names}
    carried_out(record, request, lambda opened: _taken_in(opened, groups, names))


def _taken_in(opened: Record, groups: tuple[RosterGroup, ...], names: bool) -> dict[str, Any]:
    """Take it in here, as the running kiosk would."""
    told, kiosk = take_in(opened, groups, names, BY), opened.restore()
    record_events(opened, kiosk, from_outside(kiosk, told).events)
    return {"ok": True}
