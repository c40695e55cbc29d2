"""Options that several commands share."""

from __future__ import annotations

import os
from pathlib import Path

import click


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
