"""`pillarside install`: makes this computer a kiosk, and takes all of it back."""

from __future__ import annotations

import os
from pathlib import Path

import click
from rich.console import Console

from kiosk.cli.places import port as port_checked
from kiosk.cli.plan import refuse
from kiosk.installing import (
    CannotInstall,
    Computer,
    Journal,
    Wanted,
    all_changes,
    refusals,
    unfit,
)
from kiosk.installing.wanted import DATA, JOURNAL, SETTINGS, USER

TREE = Path(__file__).resolve().parents[2]


@click.command("install")
@click.option("--dry-run", is_flag=True, help="Show every change and make none.")
@click.option("--undo", is_flag=True, help="Take back what was installed; the record stays.")
@click.option("--machine", default="drill-1", show_default=True, help="The machine file's name.")
@click.option(
    "--port",
    default="",
    callback=port_checked,
    help="The contact reader's serial port, by a stable path.",
)
@click.option("--panel", type=click.Choice(["7inch", "10inch"]), default="7inch")
@click.option(
    "--partition", default="", metavar="LABEL", help="The record's own partition, by its label."
)
@click.option("--yes", is_flag=True, help="Do not ask before the first change.")
def install_command(
    dry_run: bool, undo: bool, machine: str, port: str, panel: str, partition: str, yes: bool
) -> None:
    """Make this computer a kiosk that starts by itself, or take that back."""
    computer = Computer()
    journal = Journal(computer, JOURNAL)
    try:
        if undo:
            _undo(journal, dry_run, yes)
        else:
            wanted = Wanted(TREE, machine, port, panel, partition)
            _install(computer, journal, wanted, dry_run, yes)
    except CannotInstall as error:
        refuse(f"{error}; what was done before this can be taken back with install --undo")


def _install(
    computer: Computer, journal: Journal, wanted: Wanted, dry_run: bool, yes: bool
) -> None:
    why = [*unfit(computer, wanted), *refusals(computer, wanted)]
    if why:
        refuse("\n".join(why))
    changes = all_changes(wanted)
    missing = [change.line() for change in changes if not change.stands(computer)]
    _say(missing or ["Everything stands already."])
    if not missing or not _may_go_on(dry_run, yes):
        return
    for change in journal.make(changes):
        _say([f"done: {change.line()}"])
    _say(
        [
            f"Settings: {SETTINGS}. Record: {DATA}/record.sqlite.",
            "Start it now, or start the computer anew: systemctl start pillarside",
            "Then let a technician in; the PIN is shown only once:",
            f"  sudo -u {USER} {TREE}/.venv/bin/pillarside adult issue --name NAME"
            f" --role technician --record {DATA}/record.sqlite",
        ]
    )


def _undo(journal: Journal, dry_run: bool, yes: bool) -> None:
    made = [change.line() for change, _ in reversed(journal.entries())]
    _say([f"take back: {line}" for line in made] or ["Nothing was installed."])
    if not made or not _may_go_on(dry_run, yes):
        return
    for change, left in journal.undo():
        _say([left or f"taken back: {change.line()}"])


def _may_go_on(dry_run: bool, yes: bool) -> bool:
    """Whether to change the computer; asks unless told not to."""
    if dry_run:
        _say(["Nothing was changed."])
        return False
    if os.geteuid() != 0:
        refuse("this changes the computer; run it as root, or with sudo")
    if yes or _answers_yes():
        return True
    _say(["Nothing was changed."])
    return False


def _answers_yes() -> bool:
    """What the person at the keyboard says; ends the command where nobody can."""
    try:
        return click.confirm("Make these changes?", default=False)
    except click.Abort:
        click.echo(err=True)
        refuse("nobody answered, so nothing was changed; with --yes it does not ask")


def _say(lines: list[str]) -> None:
    console = Console(highlight=False, soft_wrap=True)
    for line in lines:
        console.print(line, markup=False)
