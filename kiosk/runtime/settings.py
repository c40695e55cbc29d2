"""Where things lie on this kiosk; every setting has a default that works."""

from __future__ import annotations

import os
from dataclasses import dataclass, field
from pathlib import Path

from kiosk.core.problems import Problem

TREE = Path(__file__).resolve().parent.parent.parent


def default_record() -> Path:
    """The record of the user who runs the kiosk."""
    data = os.environ.get("XDG_DATA_HOME") or Path.home() / ".local" / "share"
    return Path(data) / "pillarside" / "record.sqlite"


@dataclass(frozen=True)
class Settings:
    """What a kiosk is started with.

    `port` is the serial port's stable path; empty: no contacts are read. `download_to` is a
    folder for downloads; None: a stick is looked for. `boot` names the boot; empty: the
    kernel's own. `feed` is the address that the record is sent to; empty: it is not. Names and
    notes go along only with `feed_names` and `feed_notes`. `problems` are the mistakes in the
    settings' file, called `file` there, which the screen shows.
    """

    machine: str = "drill-1"
    sequences: Path = TREE / "sequences"
    school: Path | None = None
    record: Path = field(default_factory=default_record)
    roster: Path | None = None
    port: str = ""
    language: str = "en"
    download_to: Path | None = None
    boot: str = ""
    feed: str = ""
    feed_names: bool = False
    feed_notes: bool = False
    problems: tuple[Problem, ...] = ()
    file: str = ""

    @property
    def lacks_school(self) -> bool:
        """Whether the settings' file names a school's folder that is not there."""
        return any(problem.found.startswith("school:") for problem in self.problems)
