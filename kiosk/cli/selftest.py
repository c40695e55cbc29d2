"""`pillarside selftest`: looks at the computer, the card and what is plugged in."""

from __future__ import annotations

import os
import shutil
import subprocess
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import click
from rich.console import Console
from rich.table import Table

from kiosk import selftest
from kiosk.cli.options import default_record, record_option
from kiosk.cli.plan import refuse
from kiosk.clock import Clock, quality
from kiosk.content.settings import read_settings
from kiosk.content.starting import load_for
from kiosk.core.problems import Problem
from kiosk.selftest import Finding, State
from kiosk.selftest.parts import has_clock_chip
from kiosk.store import ReadOnlyRecord, RecordFault, school_of

SEQUENCES = Path(__file__).resolve().parents[2] / "sequences"
DAY_US = 86_400_000_000


@click.command("selftest")
@click.option("--settings", type=click.Path(path_type=Path), help="The kiosk's settings' file.")
@click.option("--port", default="", help="The contact reader's serial port.")
@record_option
def selftest_command(settings: Path | None, port: str, record: Path) -> None:
    """Look at display, touch, card, clock, ports, font, speech and watchdog.

    It tells of the computer alone and says nothing of the drill. Ends with 1 where something
    is to be put right before the kiosk is relied on.
    """
    settled, problems = read_settings(settings) if settings else ({}, ())
    record = settled.get("record", record)
    if settings:
        problems = (*problems, *_unknown(settings, settled, problems, record))
    if problems:
        told = sorted(problems, key=lambda problem: problem.place.line)
        refuse("\n".join(str(problem) for problem in told))
    found = list(findings(record, port or settled.get("port", "")))
    _show(found)
    if any(finding.state is State.BAD for finding in found):
        raise SystemExit(1)


def _unknown(
    file: Path, settled: dict[str, Any], problems: tuple[Problem, ...], record: Path
) -> tuple[Problem, ...]:
    """Machine and language of the settings' file that the content does not have."""
    found = load_for(
        settled.get("machine", "drill-1"),
        SEQUENCES,
        _taken_in(record) or settled.get("school"),
        settled.get("language", "en"),
        any(problem.found.startswith("school:") for problem in problems),
    )
    return tuple(p for p in found.problems if p.place.file == str(file.absolute()))


def _taken_in(record: Path) -> Path | None:
    """The school's folder that a stick has brought, which goes before the one in the settings."""
    try:
        with ReadOnlyRecord(record) as opened:
            return school_of(record, opened.taken_in())
    except (RecordFault, OSError):
        return None


def findings(record: Path, port: str) -> Iterator[Finding]:
    """Every part of the computer, with how it is."""
    clock = Clock()
    now = clock.now()
    folder = _nearest_folder(record.parent)
    yield selftest.display(os.environ)
    yield selftest.touch()
    yield selftest.record_place(record, own=record == default_record())
    yield selftest.storage(folder, clock.us)
    yield selftest.disk_space(folder)
    yield selftest.last_download(_days_since_download(record, now.wall_us))
    yield selftest.clock(quality(now.wall_us), has_clock_chip())
    yield selftest.ports(port)
    yield selftest.font()
    yield selftest.speech(shutil.which("espeak-ng") or "")
    yield selftest.watchdog(_watched())


def _nearest_folder(folder: Path) -> Path:
    """The folder, or what is there of it before the kiosk's first start."""
    return next(path for path in (folder, *folder.parents) if path.is_dir())


def _days_since_download(record: Path, wall_us: int) -> int | None:
    if not record.is_file():
        return None
    try:
        with ReadOnlyRecord(record) as read:
            last = read.last("downloaded")
    except RecordFault as fault:
        refuse(str(fault))
    return max(0, wall_us - last.at.wall_us) // DAY_US if last else None


def _watched() -> str:
    """After how many microseconds systemd acts, as it says of the running unit."""
    try:
        asked = ["systemctl", "show", "pillarside", "-p", "WatchdogUSec", "--value"]
        told = subprocess.run(asked, capture_output=True, text=True, check=False)
    except OSError:
        return ""
    return str(int(told.stdout.strip()[:-1]) * 1_000_000) if _is_seconds(told.stdout) else ""


def _is_seconds(told: str) -> bool:
    return told.strip().endswith("s") and told.strip()[:-1].isdigit()


def _show(found: list[Finding]) -> None:
    table = Table(box=None, pad_edge=False)
    for title in ("what", "how it is", "found", "what to do"):
        table.add_column(title, overflow="fold")
    for finding in found:
        table.add_row(finding.name, finding.state, finding.found, finding.advice)
    Console(highlight=False, markup=False).print(table)
