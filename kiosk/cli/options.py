"""Options that several commands share, and the stick that they go to without one."""

from __future__ import annotations

import os
from pathlib import Path

import click

from kiosk.export import find_stick
from kiosk.export.sticks import KINDS


def default_record() -> Path:
    """Where the kiosk of this user keeps its record unless it is told otherwise."""
    data = os.environ.get("XDG_DATA_HOME") or Path.home() / ".local" / "share"
    return Path(data) / "pillarside" / "record.sqlite"


record_option = click.option(
    "--record",
    type=click.Path(dir_okay=False, path_type=Path),
    metavar="FILE",
    default=default_record,
    help="The kiosk's record; without it, the one of the kiosk of this user.",
)

NO_STICK = {
    "no_stick": "no stick is put in; put one in and try again",
    "foreign": f"the stick can't be used; take one with {', '.join(KINDS)}",
}


def stick_to_write() -> Path:
    """The stick that is put in; ends the command if there is none."""
    return _stick("--to DIR")


def stick_to_read() -> Path:
    """The stick that is put in; ends the command if there is none."""
    return _stick("--from DIR")


def _stick(option: str) -> Path:
    folder, why = find_stick()
    if folder is None:
        raise click.ClickException(f"{NO_STICK[why]}, or name a folder with {option}")
    return folder
