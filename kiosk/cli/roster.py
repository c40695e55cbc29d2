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
    is_same,
    read_roster,
    take_in,
    unresolved,
    without_names,
)
from kiosk.store import ReadOnlyRecord, Record

TOLD = {
    (True, False): "Nothing is changed yet. Take it in with --accept.",
    (True, True): "Taken in.",
    (False, False): "The file says what is known here already: taking it in would change nothing.",
    (False, True): "Taken in. Nothing was changed by it.",
}
"""What is said at the end: by whether the file says anything new, and whether it was taken in."""

UNSEEN = "~ names that are kept here, or who is one pupil in two groups"

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
    before, after = _before(record), unresolved(groups)
    changed = not is_same(before, after)
    _show(before, after, names)
    if accept:
        _take_in(record, groups, names)
    click.echo(TOLD[changed, accept])


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
    if not (come or change or leave or is_same(before, after)):
        click.echo(UNSEEN)
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
