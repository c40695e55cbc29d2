"""Old lines are looked through beside the running kiosk; a start looks at the newest only."""

from __future__ import annotations

import sqlite3
import subprocess
import sys
import threading
from pathlib import Path

import pytest

from kiosk.core.events import KioskStarted, RecordRenewed
from kiosk.store import ReadOnlyRecord, Record, RecordFault, queries
from kiosk.store.files import beside
from tests.recording import ROOT, Playing
from tests.store.test_record import run_four

STARTED = KioskStarted("drill-1", "0.1.0", "first")


@pytest.fixture
def long(path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A record that counts as long, with an old line changed; closed."""
    monkeypatch.setattr(queries, "SHORT_BYTES", 0)
    playing = Playing(Record.open(path))
    for _ in range(30):
        playing.happens(*[STARTED] * 50)
    playing.record.close()
    with sqlite3.connect(path) as connection:
        connection.execute("DROP TRIGGER events_no_update")
        connection.execute("UPDATE events SET wall_us = wall_us + 1 WHERE seq = 3")
    connection.close()
    return path


def test_a_start_does_not_look_at_old_lines(long: Path) -> None:
    record = Record.open(long)

    assert record.head[0] == 1500
    record.close()


def test_a_look_through_finds_the_first_line_amiss(long: Path) -> None:
    with ReadOnlyRecord(long) as read, pytest.raises(RecordFault, match="line 3 ") as fault:
        read.look_through()

    assert fault.value.why == "damaged"


def test_a_look_through_of_a_whole_record_finds_nothing(playing: Playing) -> None:
    playing.happens(STARTED, STARTED)

    with ReadOnlyRecord(playing.record.path) as read:
        read.look_through()


def test_what_was_found_sets_the_record_aside_at_the_next_start(long: Path) -> None:
    record = Record.open(long)
    head = record.head
    record.doubt("line 3 is not what its hash says")
    record.close()

    again = Record.open(long)

    first = next(again.entries()).event
    assert again.set_aside is not None
    assert isinstance(first, RecordRenewed)
    assert (first.last, first.head) == head
    assert beside(again.set_aside, ".doubt").exists()
    assert not beside(long, ".doubt").exists()
    again.close()
    Record.open(long).close()


def test_the_child_process_tells_it_in_one_line(long: Path) -> None:
    words = ["-m", "kiosk.cli.child", "look-through", "--record", str(long)]

    done = subprocess.run(
        [sys.executable, *words], cwd=ROOT, capture_output=True, text=True, check=False
    )

    assert done.returncode == 1
    assert '"why": "damaged"' in done.stdout
    assert "line 3 " in done.stdout


def test_four_writers_and_a_reader_make_one_chain(path: Path) -> None:
    record = Record.open(path)
    done, seen = threading.Event(), []

    def read() -> None:
        while not done.is_set():
            with ReadOnlyRecord(path) as beside_it:
                beside_it.look_through()
                seen.append(beside_it.head[0])

    def write() -> None:
        written = 0
        while written < 10:
            playing = Playing(record)
            try:
                playing.happens(STARTED)
            except (ValueError, RecordFault):
                continue  # another thread was first with this number
            written += 1

    reader = threading.Thread(target=read)
    reader.start()
    run_four(write)
    done.set()
    reader.join()

    assert [entry.seq for entry in record.entries()] == list(range(1, 41))
    assert seen == sorted(seen)
    record.close()
