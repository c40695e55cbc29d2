"""Many kills of a kiosk without a window, and a card that says no: nothing false is shown as kept.

Each case prints one line. Calls to the system are made to fail by strace, so that the error
comes from where a card's would.
"""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from kiosk.store import Record
from tests.end_to_end.headless import RECORD, TOLD, first_start
from tests.end_to_end.killing import Shown, shown
from tests.powercut.tracing import need_strace
from tests.recording import ROOT

SMALL, FULL = 4, 200
SECONDS = 240
"""At most; it ends as soon as work has gone on."""

FAULTS = (
    ("fdatasync", "EIO", "-wal", 12),
    ("pwrite64", "EIO", "-wal", 40),
    ("pwrite64", "ENOSPC", "-wal", 40),
)


@pytest.mark.kill
@pytest.mark.timeout(3600)
def test_many_kills_on_one_record_lose_nothing_that_was_shown(
    tmp_path: Path, full: bool, sum_up: Callable[[str], None]
) -> None:
    words = [str(tmp_path), str(FULL if full else SMALL), "20261125"]

    killed = subprocess.run(
        [sys.executable, "-m", "tests.end_to_end.killing", *words],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )

    told = killed.stdout.strip().splitlines()[-1] if killed.stdout else killed.stderr
    sum_up(told)
    assert killed.returncode == 0, killed.stderr
    assert ", 0 within a turn" not in told, "no kill came within a pupil's turn: it proves little"


@pytest.mark.kill
@pytest.mark.parametrize(("call", "error", "part", "first"), FAULTS)
def test_a_card_that_says_no_is_told_of_and_work_goes_on_without_a_restart(
    tmp_path: Path, call: str, error: str, part: str, first: int, sum_up: Callable[[str], None]
) -> None:
    first_start(tmp_path)
    failing = f"{call}:error={error}:when={first}..{first + 2}"

    failed = play_with(tmp_path, call, failing, part)

    screens = shown(tmp_path / TOLD)
    told = [n for n, screen in enumerate(screens) if is_told(screen)]
    sum_up(f"fault: {call} {error}, {failed} calls failed, {summed_up(screens, told)}")
    assert failed > 0
    assert told, "nothing was said of it on the screen"
    assert screens[-1].head_seq > screens[told[-1]].head_seq, "work did not go on"
    assert missing(tmp_path / RECORD, screens) == []


def play_with(folder: Path, call: str, failing: str, part: str) -> int:
    """A kiosk that plays some seconds while calls fail; how many did."""
    log = folder / "trace"
    watch = [need_strace(), "-f", "-qq", "-o", str(log), "-P", str(folder / (RECORD + part))]
    words = [sys.executable, "-m", "tests.end_to_end.headless", str(folder), str(SECONDS), "3"]
    command = [*watch, "-e", f"trace={call}", "-e", f"inject={failing}", *words]
    subprocess.run(command, cwd=ROOT, check=True, capture_output=True)
    return log.read_text().count("(INJECTED)")


def is_told(screen: Shown) -> bool:
    """Whether the screen says that the record can't be written."""
    return screen.screen == "record_fault" or screen.unsaved.startswith("The card")


def summed_up(screens: list[Shown], told: list[int]) -> str:
    """One line of what was seen."""
    first = screens[told[0]] if told else screens[0]
    after = screens[-1].head_seq - (screens[told[-1]].head_seq if told else 0)
    said = first.title if first.screen == "record_fault" else first.unsaved
    return f"shown as {said!r}, {after} events kept afterwards without a restart"


def missing(path: Path, screens: list[Shown]) -> list[Shown]:
    """What a screen stood on that the record, its chain checked, does not have."""
    record = Record.open(path)
    try:
        with record._connected.transaction() as connection:
            rows = connection.exec_driver_sql("SELECT seq, hash FROM events").fetchall()
        assert record.set_aside is None
        return [s for s in screens if dict(map(tuple, rows)).get(s.head_seq) != s.head]
    finally:
        record.close()
